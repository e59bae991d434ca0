//! Who belongs to which group: the tally's lines and the cover's table, compared with the learners' own copies.

use std::collections::BTreeSet;

use super::envelopes;
use super::packet::Envelope;
use super::read::{Block, blocks, whole};
use crate::support::answers::figures;
use placewright::lesson::LessonGroup;
use placewright::spec::{Language, SheetKind};

fn grouped() -> impl Iterator<Item = &'static Envelope> {
    envelopes().iter().filter(|held| !held.lesson.groups.is_empty())
}

/// "1 to 5, 9", "1 a 5, 9", "1–5": each number of the runs.
fn numbers(text: &str) -> BTreeSet<u32> {
    let run = |run: &str| {
        let ends = figures(run);
        ends[0]..=ends[ends.len() - 1]
    };
    text.split(", ").flat_map(run).collect()
}

fn named(held: &Envelope, group: &LessonGroup) -> String {
    let rest = if held.lesson.spec.language.value == Language::Es { "Los dem\u{e1}s" } else { "Everyone else" };
    group.name.clone().unwrap_or_else(|| rest.to_owned())
}

#[test]
fn each_line_of_the_tally_has_the_number_and_the_letter_of_that_learners_copies() {
    for held in grouped().filter(|held| held.has(SheetKind::Tally)) {
        let dealt = held.dealt();
        assert_eq!(dealt.len() as u32, held.learners(), "{}", held.name);
        let cells = blocks(held.of_kind(SheetKind::Tally)).into_iter();
        let rows: Vec<String> =
            cells.filter_map(|b| if let Block::Row(cells) = b { Some(cells[0].clone()) } else { None }).collect();
        for (number, letter) in dealt {
            // Between them stands the name, or the room for it.
            let starts = format!("{number} ");
            let row =
                rows.iter().find(|row| row.starts_with(&starts)).unwrap_or_else(|| panic!("{}: {number}", held.name));
            assert!(row.ends_with(&format!(" {letter}")), "{}: {row}, and {letter} is printed", held.name);
            let name = held.lesson.roster.get(number as usize - 1).map_or(String::new(), |name| format!("{name} "));
            assert_eq!(*row, format!("{number} {name}{letter}"), "{}", held.name);
        }
    }
}

#[test]
fn the_tally_says_what_belongs_to_each_group() {
    for held in grouped().filter(|held| held.has(SheetKind::Tally)) {
        assert_eq!(held.of_kind(SheetKind::Tally).count(), 1, "{}", held.name);
        let said = whole(held.of_kind(SheetKind::Tally));
        for group in &held.lesson.groups {
            let start = format!("{}: ", named(held, group));
            let line = said.lines().find(|line| line.contains(&start) && line.contains("; "));
            let line = line.unwrap_or_else(|| panic!("{}: no line for {start}", held.name));
            let after = line.split_once(&start).expect("it is there").1;
            let parts: Vec<&str> = after.split_once('.').expect("an end").0.split("; ").collect();
            assert_eq!(numbers(parts[0]), group.learners.iter().copied().collect(), "{}: {line}", held.name);
            let letters = parts[1].split_once(' ').expect("letters").1;
            let own: Vec<String> = group.versions.iter().map(ToString::to_string).collect();
            assert_eq!(super::rules::letters(letters), own, "{}: {line}", held.name);
            if held.has(SheetKind::Exit) {
                assert_eq!(numbers(parts[2]), group.checks.iter().copied().collect(), "{}: {line}", held.name);
            }
            // It is what the copies say.
            let dealt = held.dealt();
            for learner in &group.learners {
                assert!(own.contains(&dealt[learner].to_string()), "{}: learner {learner}", held.name);
            }
        }
    }
}

#[test]
fn without_a_roster_the_cover_says_whose_numbers_these_are_or_has_room_for_names() {
    for held in grouped() {
        let said = whole(held.of_kind(SheetKind::Cover));
        let tally = (1..).zip(&held.pages).find(|(_, page)| page.sheet == SheetKind::Tally).map(|(folio, _)| folio);
        let points = |line: &str| {
            ["group by group", "Los nombres de cada grupo", "number and letter", "n\u{fa}mero y la letra"]
                .iter()
                .any(|w| line.contains(w))
        };
        let lines: Vec<&str> = said.lines().filter(|line| points(line)).collect();
        assert_eq!(lines.len(), 1, "{}: {lines:?}", held.name);
        assert_eq!(figures(lines[0]), tally.into_iter().collect::<Vec<u32>>(), "{}: {}", held.name, lines[0]);
        let apart = held.lesson.shares().iter().any(|share| share.learners.len() > 1);
        for block in blocks(held.of_kind(SheetKind::Cover)) {
            let Block::Row(cells) = block else { continue };
            let Some(group) = held.lesson.groups.iter().find(|group| cells.get(1) == Some(&named(held, group))) else {
                continue;
            };
            if !apart {
                assert_eq!(numbers(&cells[2]), group.learners.iter().copied().collect(), "{}: {cells:?}", held.name);
            }
            let ruled = said.lines().filter(|line| *line == named(held, group)).count();
            let room = tally.is_none() && held.lesson.roster.is_empty();
            assert_eq!(ruled, 1 + usize::from(room), "{}: {cells:?}", held.name);
        }
    }
}
