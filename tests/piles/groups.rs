//! Groups whose numbers differ in length: strips of their own size in piles of their own, and no board grows for another's.

use std::collections::BTreeMap;

use super::{printed, support};
use placewright::sheets::page::Page;
use placewright::spec::SheetKind;
use support::class::Shop;
use support::packets::masters;
use support::setup::planned;

/// A class of hundreds, with a group of tens and one of thousands where they are asked for.
fn text(groups: bool, cut: &str) -> String {
    let groups = if groups {
        "[[group]]\nname = \"Swifts\"\nlearners = 12\ncloser = true\n[[group]]\nname = \"Harriers\"\nlearners = 4\n\
         range = [1000, 4999]\nversions = 1\n"
    } else {
        ""
    };
    format!(
        "title = \"Reels of string\"\npaper = \"a4\"\nseed = 9\n[numbers]\nrange = [100, 999]\nmodel.count = 0\n\
         [numbers.sort]\ncount = 6\n[forms]\nmatch = [\"numeral\", \"words\", \"expanded\", \"blocks\"]\ndecoys = 2\n\
         [class]\nlearners = 28\nspares = 2\nversions = 2\n[print]\ncut = \"{cut}\"\n\
         [sheets]\nmake = [\"board\", \"strips\"]\n{groups}"
    )
}

/// How many pages the board of each version takes, and how many rows the shortest of them has.
fn boards(text: &str) -> BTreeMap<String, (usize, usize)> {
    let (shop, lesson) = (Shop::open(), planned(text));
    let mut boards: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for page in masters(&shop.desk(&lesson), SheetKind::Board).expect("boards") {
        let version = page.version.expect("a letter");
        let columns = lesson.sets.iter().find(|set| set.version == version).expect("its set").forms.len();
        let boxes: usize = page.layers.iter().map(|layer| layer.boxes.len()).sum();
        let of = boards.entry(version.to_string()).or_insert((0, usize::MAX));
        *of = (of.0 + 1, of.1.min(boxes / columns));
    }
    boards
}

#[test]
fn the_longest_numbers_do_not_make_everyones_boards_long() {
    for cut in ["stack", "scissors"] {
        let (alone, mixed) = (boards(&text(false, cut)), boards(&text(true, cut)));
        for version in ["A", "B"] {
            assert_eq!(mixed[version], alone[version], "{cut}, {version}: pages and rows of the shortest");
        }
        for version in ["C", "D"] {
            assert!(mixed[version].0 <= alone["A"].0 && mixed[version].1 > 1, "{cut}, {version}: {:?}", mixed[version]);
        }
    }
}

#[test]
fn groups_fall_into_whole_sets_from_piles_of_their_own() {
    for sides in ["one", "two"] {
        let room = printed(planned(&text(true, "stack").replace("[print]", &format!("[print]\nsides = \"{sides}\""))));
        let cuttings: Vec<&str> = room.cuttings.iter().map(|cutting| cutting.what.as_str()).collect();
        assert_eq!(cuttings, ["strips A, B, E", "strips C, D"]);
        room.strips();
    }
}

/// Piles of all sizes are numbered in one row: the ticket's table, the line on each sheet and its bookmark agree.
#[test]
fn piles_are_numbered_through() {
    let (shop, lesson) = (Shop::open(), planned(&text(true, "stack")));
    let packet = shop.copies(&lesson).into_iter().next().expect("strips");
    let named = |page: &Page| page.name.split(',').next().unwrap_or_default().to_owned();
    let mut names: Vec<String> = (0..packet.len()).map(|k| named(&packet.page(k).expect("a page"))).collect();
    names.retain(|name| name.starts_with("Pile"));
    names.dedup();
    assert_eq!(names, ["Pile 1", "Pile 2", "Pile 3"]);
}
