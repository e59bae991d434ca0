//! Boards whose pictures are large still have several rows a page, and pages filled evenly; strips of piles never take more sheets of
//! longer paper.

use placewright::lesson::Lesson;
use placewright::lesson::job::PartKind;
use placewright::sheets::page::Page;
use placewright::spec::SheetKind;

use crate::support::class::Shop;
use crate::support::packets::masters;
use crate::support::setup::planned;

/// How many boxes each page of each set's board has; of a set the pages follow each other.
fn pages(lesson: &Lesson) -> Vec<Vec<usize>> {
    let shop = Shop::open();
    let boards = masters(&shop.desk(lesson), SheetKind::Board).unwrap_or_else(|found| panic!("{found:?}"));
    let boxes = |page: &Page| page.layers.iter().map(|layer| layer.boxes.len()).sum::<usize>();
    let of = |set: &placewright::lesson::SortSet| {
        let own = boards.iter().filter(|page| page.version == Some(set.version));
        own.map(|page| boxes(page) / set.forms.len()).collect()
    };
    lesson.sets.iter().map(of).collect()
}

/// Seven rows of thousands go on three pages, whether they have three columns or six.
#[test]
fn thousand_blocks_leave_room_for_several_rows_a_page() {
    for (paper, forms, range) in [
        ("a4", "\"numeral\", \"words\", \"expanded\", \"units\", \"blocks\", \"regrouped\"", "[1000, 4999]"),
        ("letter", "\"numeral\", \"words\", \"expanded\", \"blocks\"", "[1000, 9999]"),
        ("a4", "\"numeral\", \"words\", \"expanded\", \"blocks\"", "[1000, 9999]"),
    ] {
        for seed in [17, 43] {
            let lesson = planned(&format!(
                "title = \"Wool mill\"\npaper = \"{paper}\"\nseed = {seed}\n[numbers]\nrange = {range}\nsort.count = 7\n\
                 [forms]\nmatch = [{forms}]\ndecoys = 4\n[class]\nlearners = 24\nversions = 2\n[sheets]\nmake = [\"board\", \"strips\"]\n"
            ));
            for rows in pages(&lesson) {
                assert!(rows.len() <= 3, "{paper}, {forms}: {rows:?}");
                assert_eq!(rows.iter().sum::<usize>(), 7);
                let (least, most) = (rows.iter().min().unwrap_or(&0), rows.iter().max().unwrap_or(&0));
                assert!(most - least <= 1, "{paper}, {forms}: {rows:?}");
            }
        }
    }
}

/// Sheets of paper that boards and piles of strips take.
fn sheets(lesson: &Lesson) -> usize {
    let job = Shop::open().job(lesson);
    let parts = job.files.iter().flat_map(|file| &file.parts);
    let used = parts.filter(|part| matches!(part.kind, PartKind::Piles { .. } | PartKind::Packets { .. }));
    used.map(|part| part.sheets.1 - part.sheets.0 + 1).sum()
}

/// Legal is Letter and three inches more: whatever Letter holds goes on it.
#[test]
fn a_longer_page_never_takes_more_sheets() {
    for (range, forms, learners) in [
        ("[10000, 999999]", "", 150),
        ("[10000, 999999]", "", 27),
        ("[100, 999]", "match = [\"numeral\", \"words\", \"expanded\"]", 30),
        ("[100, 999]", "", 24),
        ("[10, 99]", "", 121),
    ] {
        for margin in ["6.35 mm", "10 mm"] {
            let on = |paper: &str| {
                sheets(&planned(&format!(
                    "title = \"Long corridor\"\npaper = \"{paper}\"\nseed = 11\n[numbers]\nrange = {range}\n[forms]\n{forms}\n\
                     [class]\nlearners = {learners}\nspares = 0\nversions = 2\n[print]\ncut = \"stack\"\nmargin = \"{margin}\"\n\
                     [sheets]\nmake = [\"board\", \"strips\"]\n"
                )))
            };
            let (letter, legal) = (on("letter"), on("legal"));
            assert!(legal <= letter, "{range}, {learners}, {margin}: {legal} sheets on legal, {letter} on letter");
        }
    }
}
