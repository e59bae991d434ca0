//! The tables of a cover: every page with its copies, and what is laid out, compared with the packets.

use std::collections::BTreeSet;

use super::packet::Envelope;
use super::read::{self, Block, blocks, fit};
use super::{cover, envelopes, report, rules};
use crate::support::answers::figures;
use placewright::spec::{SheetKind, Version};

/// The rows of a cover's tables without their heads: the packet's pages, what is laid out, the pages of each letter.
fn tables(held: &Envelope) -> [Vec<Vec<String>>; 3] {
    let mut tables: Vec<Vec<Vec<String>>> = Vec::new();
    for block in blocks(held.of_kind(SheetKind::Cover)) {
        let Block::Row(cells) = block else { continue };
        let letter = ends(&cells[0]).0.len() == 1 && cells[0].starts_with(char::is_uppercase);
        if letter || cells[0].starts_with(|c: char| c.is_ascii_digit()) {
            tables.last_mut().expect("a head").push(cells);
        } else {
            tables.push(Vec::new());
        }
    }
    if held.lesson.groups.is_empty() {
        tables.push(Vec::new());
    }
    tables.try_into().expect("two tables, and with groups a third")
}

/// "C–D", "A": the first set of a group and the last.
fn ends(cell: &str) -> (&str, &str) {
    cell.split_once('\u{2013}').unwrap_or((cell, cell))
}

/// "30–31 (1 copy)": the pages, and of how many copies, where that is said.
fn copied(cell: &str) -> (&str, Option<u32>) {
    cell.split_once(" (").map_or((cell, None), |(range, copies)| (range, figures(copies).first().copied()))
}

#[test]
fn a_cover_lists_every_page_and_no_other_with_the_copies_that_the_class_needs() {
    for held in envelopes() {
        let mut next = held.of_kind(SheetKind::Cover).count() + 1;
        let [listed, _, lettered] = tables(held);
        let mut of_letters = BTreeSet::new();
        for cells in lettered {
            let mut cells = cells;
            // Numbers of learners are read by themselves.
            if held.lesson.shares().iter().all(|share| share.learners.len() == 1) {
                cells.remove(2);
            }
            let [letter, whose, copies, of_sheets @ ..] = cells.as_slice() else { panic!("{cells:?}") };
            let (letter, last) = ends(letter);
            let named = |v: Option<&Version>, letter: &str| v.is_some_and(|v| v.to_string() == letter);
            let group =
                held.lesson.groups.iter().find(|g| named(g.versions.first(), letter) && named(g.versions.last(), last));
            let rest = ["Everyone else", "Los dem\u{e1}s"].contains(&whose.as_str());
            assert_eq!(group.expect("a group").name.as_ref(), Some(whose).filter(|_| !rest), "{}", held.name);
            for cell in of_sheets.iter().filter(|cell| !cell.is_empty()) {
                let (range, own) = copied(cell);
                let said = own.map_or(copies.clone(), |own| own.to_string());
                for folio in rules::pages(range) {
                    let page = &held.pages[folio - 1];
                    assert_eq!(page.version.map(|v| v.to_string()).as_deref(), Some(letter), "{}: {cell}", held.name);
                    assert_eq!(cover::needed(held, folio).to_string(), said, "{}: {cell}", held.name);
                    assert!(of_letters.insert(folio), "{}: page {folio} twice", held.name);
                }
            }
        }
        for cells in listed {
            let [range, what, copies] = cells.as_slice() else { panic!("{cells:?}") };
            let below = what.ends_with(": see below") || what.ends_with(": ver abajo");
            for folio in rules::pages(range) {
                assert_eq!(folio, next, "{}: {range} {what}", held.name);
                next += 1;
                let page = &held.pages[folio - 1];
                assert_eq!(Envelope::folio(page), Some(folio.to_string()), "{}: {}", held.name, page.name);
                if below {
                    let looked_up = of_letters.remove(&folio) != (cover::needed(held, folio) == 0);
                    assert!(looked_up && copies.is_empty(), "{}: page {folio} {what}", held.name);
                    continue;
                }
                // The same page in the lesson's second language follows it.
                let second = held.lesson.second().is_some();
                assert!(
                    page.name.starts_with(what) || second && page.sheet == SheetKind::Family,
                    "{}: page {folio} is `{}`, not `{what}`",
                    held.name,
                    page.name
                );
                let learners = placewright::sheets::of_learners().any(|kind| kind == page.sheet);
                let needed = if learners { cover::needed(held, folio) } else { 0 };
                let needed = if needed > 0 { needed.to_string() } else { String::new() };
                assert_eq!(*copies, needed, "{}: {range} {what}", held.name);
            }
        }
        assert_eq!(next, held.pages.len() + 1, "{}", held.name);
        assert!(of_letters.is_empty(), "{}: {of_letters:?} are listed twice", held.name);
    }
}

#[test]
fn what_a_cover_has_laid_out_is_in_the_copy_rooms_files() {
    let mut faults = Vec::new();
    for held in envelopes() {
        let mut listed = Vec::new();
        let [_, laid, _] = tables(held);
        for cells in laid {
            let [count, what] = cells.as_slice() else { panic!("{cells:?}") };
            let count: u32 = count.parse().expect("a count");
            let mut wrong = |why: String| faults.push(format!("{}: {count} {what}\n    {why}", held.name));
            let packets = ["packets ({})", "packet ({})", "paquetes ({})", "paquete ({})"];
            if let Some(holes) = packets.iter().find_map(|words| fit(words, what)) {
                let lettered = holes[0].split_once("; letters ").or_else(|| holes[0].split_once("; letras "));
                let (sheets, letters) = lettered.unwrap_or((holes[0], ""));
                let sheets: BTreeSet<SheetKind> = rules::listed(sheets).into_iter().map(rules::sheet).collect();
                if !held.packets().contains(&sheets) {
                    wrong(format!("packets hold {:?}", held.packets()));
                }
                for kind in &sheets {
                    if held.copies(*kind) != count as usize {
                        wrong(format!("{} of {} are printed", held.copies(*kind), kind.word()));
                    }
                }
                let printed: Vec<String> = held.letters(SheetKind::Board).iter().map(ToString::to_string).collect();
                if !letters.is_empty() && rules::letters(letters) != printed {
                    wrong(format!("{printed:?} are printed"));
                }
                listed.extend(sheets);
                continue;
            }
            if ["sheets of paper", "sheet of paper", "hojas de papel", "hoja de papel"].contains(&what.as_str()) {
                let plan = read::whole(held.of_kind(SheetKind::Plan));
                let uses = ["paper and a pencil", "paper folded", "papel y un l\u{e1}piz", "papel doblado"];
                if !uses.iter().any(|words| plan.contains(words)) {
                    wrong("the plan uses none".to_owned());
                }
                continue;
            }
            if ["(for you)", "(para usted)"].iter().any(|own| what.ends_with(own)) {
                let plan = read::whole(held.of_kind(SheetKind::Plan));
                let said = |words: [&str; 2]| words.iter().any(|words| plan.contains(words));
                let (cuts, joins) = (said(["Cut out the ", "Recorte l"]), said(["with tape", "con cinta"]));
                let tape = what.contains("tape") || what.contains("cinta");
                if count != 1 || tape != joins || !(cuts || joins) {
                    wrong("nobody cuts or joins with that".to_owned());
                }
                continue;
            }
            let Some(kind) = rules::named(what).filter(|_| !is_envelope(what)) else {
                let tub = what.contains("class tub") || what.contains("bloques de la caja");
                let share = if tub { held.share(SheetKind::Mat) } else { 1 };
                if count != held.learners().div_ceil(share) {
                    wrong(format!("there are {} learners", held.learners()));
                }
                continue;
            };
            listed.push(kind);
            let copies = held.copies(kind);
            // Slips fill their pages, and so do blocks: there may be more.
            let right = if kind == SheetKind::Exit { copies >= count as usize } else { copies == count as usize };
            if !right {
                wrong(format!("{copies} are printed"));
            }
            let shared = ["one for ", "uno por cada ", "una por cada "].iter().find_map(|words| what.split_once(words));
            let pair = what.contains(" por pareja").then_some(2);
            if let Some(share) = shared.map(|(_, rest)| figures(rest)[0]).or(pair)
                && share != held.share(kind)
            {
                wrong(format!("{} share one", held.share(kind)));
            }
            let each = [" pages each", " p\u{e1}ginas cada un"].iter().find_map(|words| what.split_once(words));
            if let Some(pages) = each.and_then(|(front, _)| figures(front).pop())
                && pages as usize != held.pages_of(kind)
            {
                wrong(format!("one has {} pages", held.pages_of(kind)));
            }
            let lettered = what.split_once("letters ").or_else(|| what.split_once("letras "));
            if let Some(letters) = lettered.map(|(_, rest)| rest.trim_end_matches(')')) {
                let printed: Vec<String> = held.letters(kind).iter().map(ToString::to_string).collect();
                if rules::letters(letters) != printed {
                    wrong(format!("{printed:?} are printed"));
                }
            }
        }
        let together: Vec<_> = held.packets().into_iter().flatten().collect();
        let apart = laid_apart(held).into_iter().filter(|kind| together.contains(kind));
        faults.extend(apart.map(|kind| format!("{}: {} come in packets", held.name, kind.word())));
        for kind in placewright::sheets::of_learners().filter(|kind| held.has(*kind) != listed.contains(kind)) {
            faults.push(format!("{}: {} is listed or in the packet, not both", held.name, kind.word()));
        }
    }
    report(&faults, 0);
}

fn is_envelope(what: &str) -> bool {
    what.starts_with("envelope") || what.starts_with("sobre")
}

/// The sheets that a cover has laid out in piles of their own.
fn laid_apart(held: &Envelope) -> Vec<SheetKind> {
    let [_, laid, _] = tables(held);
    let packed = |what: &str| what.starts_with("packet") || what.starts_with("paquete") || is_envelope(what);
    let single = laid.iter().filter(|cells| !packed(&cells[1]));
    single.filter_map(|cells| rules::named(&cells[1])).collect()
}
