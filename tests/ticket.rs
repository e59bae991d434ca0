//! What the ticket says of pages, piles and packets, against the copies themselves: as a copy room would find out.

use std::collections::BTreeMap;
use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::job::PrintSides;
use placewright::lesson::{self, Lesson, Roster};
use placewright::rng::Stream;
use placewright::sheets::files::PacketKind;
use placewright::sheets::packets::{self, Packet};
use placewright::sheets::page::Page;
use placewright::spec::{self, SheetKind};

use crate::support::class::Shop;
use crate::support::packets::{masters, texts};
use crate::support::pdf;
use crate::support::samples;
use crate::support::setup::planned;

/// The ticket's words in one line.
fn told(shop: &Shop, lesson: &Lesson) -> String {
    let pages = pdf::read(&shop.ticket(lesson));
    let words: Vec<&str> = pages.iter().flat_map(|page| &page.texts).map(|run| run.text.as_str()).collect();
    words.join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

fn copies<'a>(shop: &'a Shop, lesson: &'a Lesson, kind: PacketKind) -> Packet<'a> {
    shop.copies(lesson).into_iter().find(|packet| packet.kind == kind).expect("a file of copies")
}

/// What follows some words, up to some others.
fn between<'t>(text: &'t str, from: &str, to: &str) -> &'t str {
    let rest = text.split_once(from).unwrap_or_else(|| panic!("no `{from}` in {text}")).1;
    rest.split_once(to).unwrap_or_else(|| panic!("no `{to}` in {rest}")).0
}

fn number(text: &str) -> usize {
    let figures: String = text.trim().chars().filter(|letter| *letter != ',').collect();
    figures.parse().unwrap_or_else(|_| panic!("`{text}` is no number"))
}

/// "12–18" or "12".
fn range(text: &str) -> (usize, usize) {
    let (first, last) = text.split_once('\u{2013}').unwrap_or((text, text));
    (number(first), number(last))
}

/// "1–2, 7 and 20–31": every page of it.
fn pages(text: &str) -> Vec<usize> {
    let ranges = text.replace(" and ", ", ");
    ranges.split(", ").map(range).flat_map(|(first, last)| first..=last).collect()
}

const QUARRY: &str = "title = \"Quarry carts\"\nseed = 33\n[numbers]\nrange = [100, 999]\nsort.count = 7\nexit.count = 4\n\
    [forms]\nmatch = [\"numeral\", \"words\", \"units\", \"blocks\"]\ndecoys = 4\n\
    [class]\nlearners = LEARNERS\nspares = 3\nversions = 2\n[print]\ncut = \"stack\"\nsides = \"two\"\n\
    [sheets]\nmake = [\"mat\", \"board\", \"strips\", \"exit\", \"record\"]\n\
    [[group]]\nname = \"Granite\"\nlearners = GRANITE\nrange = [1000, 6999]\nsort.count = 8\nversions = 2\n\
    [[group]]\nname = \"Slate\"\nlearners = SLATE\nsort.count = 4\ndecoys = 1\nversions = 1\n";

fn quarry(learners: u32, granite: u32, slate: u32) -> Lesson {
    let of = |text: String, word: &str, count: u32| text.replace(word, &count.to_string());
    planned(&of(of(of(QUARRY.to_owned(), "LEARNERS", learners), "GRANITE", granite), "SLATE", slate))
}

/// How many sheets each pile of strips has, by the name on its sheets.
fn piles(file: &Packet<'_>) -> Vec<usize> {
    let fronts = (0..file.len()).step_by(if file.sides == PrintSides::One { 1 } else { 2 });
    let mut piles: BTreeMap<usize, usize> = BTreeMap::new();
    for name in fronts.map(|k| file.page(k).expect("a page").name.clone()) {
        if let Some(pile) = name.strip_prefix("Pile ") {
            *piles.entry(number(pile.split(',').next().unwrap_or_default())).or_default() += 1;
        }
    }
    piles.into_values().collect()
}

/// The sheets of piles are a sum of the piles as they are; a trimmer parts each pile by its own height.
#[test]
fn the_least_sheets_are_those_of_the_piles() {
    let (shop, lesson) = (Shop::open(), quarry(30, 8, 14));
    let file = copies(&shop, &lesson, PacketKind::PaperBothSides);
    let (told, piles) = (told(&shop, &lesson), piles(&file));
    let mut summed = Vec::new();
    let mut rest = told.as_str();
    while let Some((_, after)) = rest.split_once("band among them: ") {
        let sum = after.split_once('.').expect("a sentence").0;
        for term in sum.split(" + ") {
            let (times, sheets) = term.split_once(" \u{d7} ").unwrap_or(("1", term));
            summed.extend(std::iter::repeat_n(number(sheets), number(times)));
        }
        rest = after;
    }
    assert_eq!(summed, piles, "{told}");
    assert!(piles.iter().any(|pile| *pile != piles[0]), "piles of one height show little: {piles:?}");
    for (pile, parts) in parted(&told, "A trimmer that takes 10 sheets cuts ") {
        assert!(piles.contains(&pile), "{pile}: {piles:?}");
        assert_eq!(parts, pile.div_ceil(10));
    }
}

/// The piles that a trimmer cuts in parts: their sheets, and in how many.
fn parted(told: &str, takes: &str) -> Vec<(usize, usize)> {
    let mut all = Vec::new();
    for after in told.split(takes).skip(1) {
        for part in after.split_once(" parts").expect("parts").0.split(" and a pile") {
            let (pile, parts) =
                part.trim_start_matches("a pile").trim_start_matches(" of ").split_once(" in ").expect("a pile");
            all.push((number(pile), number(parts)));
        }
    }
    all
}

/// Every packet of a large class is found from what the ticket says, whatever packets of other sizes lie between.
#[test]
fn every_packet_of_a_large_class_can_be_found() {
    let plain = "title = \"Kelp\"\nseed = 4\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 130\nversions = 2\n\
                 [sheets]\nmake = [\"board\", \"record\"]\n";
    for lesson in [quarry(140, 40, 30), planned(plain)] {
        let shop = Shop::open();
        let file = copies(&shop, &lesson, PacketKind::Paper);
        let mut packets: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
        for (page, entry) in (1..).zip(file.entries()) {
            let Some(learner) = entry.learner else { continue };
            packets.entry(learner as usize).or_insert((page, page)).1 = page;
        }
        let told = told(&shop, &lesson);
        let list = between(&told, "A viewer may label learner 1's own 1-1, 1-2 and so on. ", ".");
        let mut found: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
        for part in list.split(" \u{b7} ") {
            let (who, where_) = part.split_once(": ").unwrap_or_else(|| panic!("{part}"));
            let (from, to) = range(who.rsplit(' ').next().unwrap_or(who));
            if let Some((each, all)) = where_.split_once(" each, ") {
                let (each, all) = (number(each.trim_end_matches(" pages").trim_end_matches(" page")), range(all));
                assert_eq!((to + 1 - from) * each, all.1 + 1 - all.0, "{part}");
                found.extend((from..=to).map(|k| (k, (all.0 + (k - from) * each, all.0 + (k + 1 - from) * each - 1))));
            } else if from == to && !where_.contains(", ") {
                found.insert(from, range(where_));
            } else {
                panic!("{part}");
            }
        }
        assert_eq!(found, packets);
        assert!(list.len() < 4_000, "{} letters", list.len());
    }
}

/// Where kits are at hand, what is printed again is all that is used up, its slip-sheets and the proof, and no kit.
#[test]
fn what_is_printed_without_kits_is_all_the_rest() {
    let few = "title = \"Lock gates\"\nseed = 5\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 2\nspares = 1\n\
               [print]\ncut = \"stack\"\nsides = \"two\"\n";
    let parted = "title = \"Rope walk\"\nseed = 3\n[numbers]\nrange = [10, 99]\n[class]\nlearners = 9\n[print]\nslip_sheets = true\n";
    let piled = "title = \"Sail loft\"\nseed = 6\n[numbers]\nrange = [10, 99]\n[class]\nlearners = 9\n\
                 [print]\ncut = \"stack\"\nslip_sheets = true\nsides = \"two\"\n";
    for text in
        [few.to_owned(), few.replace("[print]", "[print]\nslip_sheets = true"), parted.to_owned(), piled.to_owned()]
    {
        let (shop, lesson) = (Shop::open(), planned(&text));
        let told = told(&shop, &lesson);
        for file in shop.copies(&lesson) {
            let name = file.file();
            let Some((_, said)) = told.split_once(&format!("{name}: where the class still has its kits, ")) else {
                continue;
            };
            let Some(said) = said.strip_prefix("print pages ") else { continue };
            let printed = pages(said.split_once(" only.").expect("pages").0);
            let kept = [SheetKind::Mat, SheetKind::WordBank, SheetKind::Blocks, SheetKind::Layered];
            let entries: Vec<_> = file.entries().collect();
            for (page, entry) in (1..).zip(&entries) {
                // A slip-sheet goes with what follows it; the proof is printed whole.
                let sheets = if file.sides == PrintSides::One { 1 } else { 2 };
                let next = entries[page - 1..].iter().find(|entry| entry.sheet != SheetKind::Ticket).expect("a part");
                let wanted = page <= sheets || !kept.contains(&next.sheet);
                assert_eq!(printed.contains(&page), wanted, "{name}, page {page}, {:?}: {said}", entry.sheet);
            }
        }
    }
}

/// Checks come round evenly: no check stands on two slips more than another, and neither the next slip of a page nor the slip
/// below it in a pile has the same.
#[test]
fn checks_are_dealt_evenly_and_neighbours_differ() {
    let mut seen = std::collections::BTreeSet::new();
    for (paper, text, learners) in
        [("letter", "standard", 24), ("letter", "large", 21), ("tabloid", "standard", 31), ("a4", "standard", 17)]
    {
        let lesson = planned(&format!(
            "title = \"Eel traps\"\npaper = \"{paper}\"\nseed = 2\n[numbers]\nrange = [100, 999]\n[class]\nlearners = {learners}\n\
             versions = 2\n[print]\ntext = \"{text}\"\n[sheets]\nmake = [\"board\", \"exit\"]\n"
        ));
        let shop = Shop::open();
        let file = copies(&shop, &lesson, PacketKind::Paper);
        let slips: Vec<Vec<String>> = (0..file.len())
            .map(|k| file.page(k).expect("a page").into_owned())
            .filter(|page| page.sheet == SheetKind::Exit)
            .map(|page| page.layers.iter().flat_map(|layer| &layer.pieces).map(|piece| piece.name.clone()).collect())
            .collect();
        let mut counts: BTreeMap<&String, usize> = BTreeMap::new();
        for slip in slips.iter().flatten() {
            *counts.entry(slip).or_default() += 1;
        }
        assert!(counts.len() > 1, "{counts:?}");
        let (most, fewest) = (counts.values().max().expect("checks"), counts.values().min().expect("checks"));
        assert!(most - fewest <= 1, "{paper}, {text}: {counts:?}");
        for (page, next) in slips.iter().zip(&slips[1..]) {
            assert!(page.iter().zip(next).all(|(slip, below)| slip != below), "{paper}, {text}: {page:?}, {next:?}");
        }
        let alone = slips.iter().all(|page| page.windows(2).all(|pair| pair[0] != pair[1]));
        assert!(alone, "{paper}, {text}: {slips:?}");
        seen.insert((counts.len(), slips[0].len()));
        // The teacher's packet has each check once at least, and no page that has none of its own.
        let teacher = shop.packets(&lesson).into_iter().next().expect("the teacher's");
        let pages = teacher.entries().filter(|entry| entry.sheet == SheetKind::Exit).count();
        assert_eq!(pages, counts.len().div_ceil(slips[0].len()), "{paper}, {text}");
    }
    assert!(seen.len() > 1, "{seen:?}");
}

/// A class of one is spoken of as one: learner, packet, pile, kit and set.
#[test]
fn a_single_learner_is_told_as_one() {
    for (cut, language) in [("scissors", "en"), ("stack", "en"), ("scissors", "es"), ("stack", "es")] {
        let lesson = planned(&format!(
            "title = \"Kiln\"\nseed = 1\nlanguage = \"{language}\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 1\nspares = 0\n\
             [print]\ncut = \"{cut}\"\n"
        ));
        let shop = Shop::open();
        let told = told(&shop, &lesson);
        let many: &[&str] = match language {
            "en" => &[
                "learners",
                "Each learner",
                "each of",
                "each pile",
                "1 sets",
                "1 packets",
                "all cut alike",
                "one learner after",
            ],
            _ => &[
                "los estudiantes",
                "Cada estudiante",
                "cada uno de",
                "cada pila",
                "1 juegos",
                "1 paquetes",
                "tras otro",
            ],
        };
        let care = |gauge: &str, care: &str| assert_eq!(told.contains(gauge), told.contains(care), "{cut}, {language}");
        care("Back gauge", "rained adults only");
        care("Tope trasero", "olo adultos capacitados");
        for words in many {
            assert!(!told.contains(words), "{cut}, {language}: `{words}` in {told}");
        }
        let printed = pdf::text(&pdf::read(&shop.write(&copies(&shop, &lesson, PacketKind::Paper))));
        for plural in ["learners 1", "estudiantes 1"] {
            assert!(!printed.contains(plural), "{cut}, {language}");
        }
    }
}

/// Spare sets that fill a pile up may have a number with a digit more than the class.
#[test]
fn spare_sets_that_fill_a_pile_have_room_for_their_numbers() {
    for (learners, make) in [(93, "\"strips\""), (8, "\"strips\""), (85, "\"strips\", \"board\""), (97, "\"strips\"")] {
        let lesson = planned(&format!(
            "title = \"Gull rock\"\nseed = 3\n[numbers]\nrange = [10, 99]\n[class]\nlearners = {learners}\nspares = 1\n\
             [print]\ncut = \"stack\"\n[sheets]\nmake = [{make}]\n"
        ));
        let shop = Shop::open();
        let file = copies(&shop, &lesson, PacketKind::Paper);
        (0..file.len()).for_each(|k| {
            file.page(k).unwrap_or_else(|problem| panic!("{learners}, {make}: {problem:?}"));
        });
    }
}

/// A class of thousands whose learners are in three groups, one beside the other in no order.
fn rope_bridges(language: &str, make: &str) -> Lesson {
    let text = format!(
        "title = \"Rope bridges\"\nseed = 16\nlanguage = \"{language}\"\n[numbers]\nrange = [100, 999]\n\
         [class]\nroster = \"r.csv\"\nspares = 5\n[print]\ncut = \"stack\"\n[sheets]\nmake = [{make}]\n\
         [[group]]\nname = \"Knot\"\nrange = [1000, 4999]\n[[group]]\nname = \"Deck\"\nsort.count = 4\n"
    );
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{found:#?}"));
    let mut stream = Stream::new(16, "groups");
    let learners: Vec<usize> = (0..2_995).map(|_| stream.index(3)).collect();
    let names = (0..learners.len()).map(|k| format!("Pupil {}", k + 1)).collect();
    let groups = learners.iter().map(|group| (*group < 2).then_some(*group)).collect();
    let roster = Roster { names, groups };
    lesson::plan(&source, spec, roster).unwrap_or_else(|found| panic!("{found:#?}"))
}

/// A class of thousands in which packets of many sizes and sets of many lengths are mixed still has a ticket, and not a long one.
#[test]
fn thousands_of_learners_have_a_ticket() {
    let lesson = rope_bridges("en", "\"board\", \"strips\", \"record\"");
    let shop = Shop::open();
    let packets = packets::make(&shop.desk(&lesson), &[SheetKind::Ticket]).unwrap_or_else(|found| panic!("{found:#?}"));
    let ticket = packets.iter().find(|packet| packet.kind == PacketKind::Ticket).expect("a ticket");
    assert!(ticket.len() <= 20, "{} pages", ticket.len());
}

/// Its keys, tally and cover say how many learners a group has where their numbers are too many to be read, and still whose sets and
/// checks are whose.
#[test]
fn thousands_of_learners_have_keys() {
    for (language, learners) in [("en", "learners"), ("es", "estudiantes")] {
        let lesson = rope_bridges(language, "\"board\", \"practice\", \"exit\", \"key\"");
        let shop = Shop::open();
        let desk = shop.desk(&lesson);
        let keys = masters(&desk, SheetKind::Key).unwrap_or_else(|found| panic!("{found:?}"));
        let told: Vec<String> = keys.iter().map(|page| texts([page]).join(" ")).collect();
        for share in lesson.shares() {
            let many: u32 = share.learners.iter().map(|(first, last)| last - first + 1).sum();
            let whose = format!(": {many} {learners}.");
            assert!(told.iter().filter(|page| page.contains(&whose)).count() > 1, "{whose}: {}", told[0]);
        }
        let covered = packets::make(&desk, &[SheetKind::Cover]).unwrap_or_else(|found| panic!("{found:#?}"));
        let cover = covered.iter().find(|packet| packet.kind == PacketKind::Substitute).expect("a packet");
        assert_eq!(cover.len(), 1);
    }
}

/// Who asks for no spare sets gets none, also where places of the last pile are free.
#[test]
fn no_spare_sets_are_made_for_whoever_asks_for_none() {
    for (spares, make) in [(0, "\"strips\""), (0, "\"board\", \"strips\", \"exit\""), (1, "\"strips\"")] {
        let lesson = planned(&format!(
            "title = \"Tin roofs\"\nseed = 10\n[numbers]\nrange = [100, 999]\n[forms]\nmatch = [\"numeral\", \"words\", \"expanded\"]\n\
             [class]\nlearners = 30\nspares = {spares}\n[print]\ncut = \"stack\"\n[sheets]\nmake = [{make}]\n"
        ));
        let shop = Shop::open();
        let told = told(&shop, &lesson);
        let filled = told.contains("is filled up with");
        assert!(if spares == 0 { !filled } else { filled }, "{spares}, {make}: {told}");
        assert_eq!(told.contains("30 sets of strips banded"), spares == 0, "{told}");
    }
}

/// Loose sheets: each page of a ticket says which it is of how many; cautions stand before the first cut; the ready command prints what
/// the proof left; a slip-sheet is off before anything is cut.
#[test]
fn a_ticket_is_run_from_top_to_bottom() {
    let shop = Shop::open();
    let lesson = planned(
        "title = \"Tin roofs\"\nseed = 10\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 30\nspares = 3\n\
         [print]\ncut = \"stack\"\nsides = \"two\"\nslip_sheets = true\n",
    );
    let pages = pdf::read(&shop.ticket(&lesson));
    assert!(pages.len() > 1);
    for (k, page) in pages.iter().enumerate() {
        let folio = format!("{}/{}", k + 1, pages.len());
        assert!(page.texts.iter().any(|run| run.text == folio), "{folio}");
    }
    let told = told(&shop, &lesson);
    let at = |words: &str| told.find(words).unwrap_or_else(|| panic!("{words}: {told}"));
    assert!(at("trained adults only") < at("Back gauge"));
    // Card is thicker: ten sheets of paper are four of it.
    let card = parted(&told, "takes 10 sheets of paper takes 4 of card and cuts ");
    assert!(!card.is_empty() && card.iter().all(|(pile, parts)| *parts == pile.div_ceil(4)), "{card:?}");
    assert!(told.contains("Take it off before the part is cut"));
    for packet in shop.copies(&lesson) {
        let first = if packet.sides == PrintSides::One { 2 } else { 3 };
        at(&format!("-o page-ranges={first}-{}", packet.len()));
    }
}

/// A lesson of our own with so many learners in so large a text, and only these sheets.
fn quay(learners: u32, text: &str, make: &str) -> Lesson {
    planned(&format!(
        "title = \"Quay lamps\"\nseed = 3\n[numbers]\nrange = [100, 999]\n[class]\nlearners = {learners}\n\
         [print]\ntext = \"{text}\"\n[sheets]\nmake = [{make}]\n"
    ))
}

#[test]
fn checks_are_told_as_they_lie_on_their_pages() {
    let shop = Shop::open();
    let make = "\"board\", \"exit\", \"key\"";
    let mut seen = [false; 2];
    for (learners, text) in [(1, "standard"), (3, "standard"), (12, "large")] {
        let lesson = quay(learners, text, make);
        let words = told(&shop, &lesson);
        let paper = copies(&shop, &lesson, PacketKind::Paper);
        let pages = (0..paper.len()).map(|index| paper.page(index).expect("a page"));
        let checks = pages.filter(|page| page.sheet == SheetKind::Exit);
        let slips = |page: &Page| page.layers.iter().map(|layer| layer.pieces.len()).sum::<usize>().max(1);
        let to_page = checks.map(|page| slips(&page)).max().expect("pages of checks");
        // Two spare sets have theirs.
        let sets = learners + 2;
        let want = if to_page == 1 {
            format!("quick checks: {sets}, one to a page")
        } else {
            format!("quick checks: {sets} needed, {to_page} to a page")
        };
        assert!(words.contains(&want), "{want}: {words}");
        // A cut is told exactly where there is one.
        assert_eq!(words.contains("Cut the quick checks apart"), to_page > 1, "{words}");
        seen[usize::from(to_page > 1)] = true;
    }
    assert_eq!(seen, [true, true]);
}

#[test]
fn packets_of_one_sheet_are_called_by_its_name() {
    let shop = Shop::open();
    let words = told(&shop, &quay(5, "standard", "\"board\", \"key\""));
    assert!(words.contains("to print one learner's sorting board again"), "{words}");
    assert!(words.contains("Sorting boards kept in print order, one learner after the other"), "{words}");
    let words = told(&shop, &quay(5, "standard", "\"board\", \"strips\", \"key\""));
    assert!(words.contains("to print one learner's packet again"), "{words}");
}

#[test]
fn a_page_of_the_ticket_that_begins_within_a_section_names_it() {
    let mut within = 0;
    for sample in samples::all() {
        let ticket = sample.packets.iter().find(|packet| packet.kind == PacketKind::Ticket).expect("a ticket");
        for page in ticket.pages.iter().skip(1) {
            let runs = texts([page]);
            within += usize::from(runs.iter().any(|text| text.ends_with("(goes on)") || text.ends_with("(sigue)")));
            let head = runs.iter().find(|text| !text.trim().is_empty()).expect("a text");
            assert!(!head.starts_with("lp "), "{}: {runs:?}", sample.name);
        }
    }
    assert!(within > 0, "no ticket goes on over a page");
}

/// A mat of thousands is two pages that are trimmed and joined: not by the copy room.
#[test]
fn mats_of_two_pages_are_cut_by_the_teacher() {
    let shop = Shop::open();
    let told = |to: u32| {
        let lesson = planned(&format!(
            "title = \"Quay lamps\"\nseed = 3\n[numbers]\nrange = [100, {to}]\n[class]\nlearners = 8\n\
             [sheets]\nmake = [\"mat\", \"board\", \"key\"]\n"
        ));
        (told(&shop, &lesson), shop.job(&lesson).sheet(SheetKind::Mat).map(|mat| (mat.sheets, mat.copies)))
    };
    let (words, mats) = told(4_999);
    let (sheets, mats) = mats.expect("mats");
    assert_eq!(sheets, 2 * mats as usize);
    let row = format!("Place-value mat {sheets} sheets {mats} place-value mats, each of 2 pages joined with tape");
    assert!(between(&words, "Not for the copy room", "If a file is missing").contains(&row), "{row}: {words}");
    assert!(!told(999).0.contains("Not for the copy room"));
}
