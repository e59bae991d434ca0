//! No text of a page that a language did not say.
//!
//! Lessons with every sheet are laid out in the marked language, in which every letter of every text carries a mark. A
//! bare letter on a page, in a picture's alternative text or in a bookmark is a text that no language can change: the test
//! lists each with its sheet. What is the same in every language may stay: the lesson's own title, file names, the words
//! of open standards, units of length.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::diag::Source;
use crate::lesson;
use crate::measure::fonts::{Bundled, bundled};
use crate::sheets::packets;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layouts;
use crate::sheets::page::{Item, Layer, Node, Tag};
use crate::spec::{self, Language, SheetKind};

/// Words that are no language's: units of length.
const NOBODYS: [&str; 3] = ["mm", "cm", "in"];

/// Attributes of IPP and their values (RFC 8011, PWG 5100.13, PWG 5101.1), and the options of the print command of CUPS.
const IPP: [&str; 16] = [
    "lp",
    "media",
    "media-type",
    "sides",
    "print-color-mode",
    "print-scaling",
    "multiple-document-handling",
    "page-ranges",
    "cardstock",
    "stationery",
    "none",
    "monochrome",
    "color",
    "one-sided",
    "two-sided-long-edge",
    "two-sided-short-edge",
];

/// A lesson file; its title has no letters, so that every bare one is the program's.
fn lesson(text: &str) -> lesson::Lesson {
    let source = Arc::new(Source { name: "marked.toml".to_owned(), text: text.to_owned() });
    let mut spec = spec::read(&source).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    spec.language.value = Language::Marked;
    // Every sheet, those on request too.
    let more = [SheetKind::WarmUp, SheetKind::Practice, SheetKind::Family]
        .into_iter()
        .filter(|_| spec.sheets.make.is_assumed());
    spec.sheets.make.value.extend(more.collect::<Vec<_>>());
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|wrong| panic!("{wrong:?}"))
}

/// The bare words of a text: two Latin letters or more that no mark is on, apart from those that are nobody's.
fn bare(text: &str) -> Vec<&str> {
    let words = text.split(|c: char| !c.is_alphabetic());
    words.filter(|word| word.len() > 1 && word.is_ascii() && !NOBODYS.contains(word)).collect()
}

/// Whether all bare words of a text are for machines: file names, attributes, a print command.
fn is_for_machines(text: &str) -> bool {
    let is_known = |part: &str| {
        let part = part.trim_end_matches([':', ',', '.']);
        part.contains(".pdf") || IPP.contains(&part) || part.starts_with("separate-") || part.starts_with("na_")
    };
    let parts = text.split(' ').flat_map(|part| part.split('='));
    parts.filter(|part| !bare(part).is_empty()).all(is_known)
}

/// All texts of a layer: what is printed, and what a listener hears instead of pictures.
fn texts(layer: &Layer) -> Vec<String> {
    fn heard(node: &Node, all: &mut Vec<String>) {
        if let Node::Tagged(tag, nodes) = node {
            if let Tag::Figure(instead) = tag {
                all.push(instead.clone());
            }
            for node in nodes {
                heard(node, all);
            }
        }
    }
    let mut all = Vec::new();
    for node in &layer.nodes {
        node.each(&mut |item: &Item| {
            if let Item::Text(text) = item {
                all.push(text.text.clone());
            }
        });
        heard(node, &mut all);
    }
    all
}

/// Every text of a lesson's packets with bare letters, each once with the sheet it was first seen on.
fn leaks(text: &str) -> BTreeSet<String> {
    let lesson = lesson(text);
    let layouts = Layouts::read(&[]).expect("bundled layouts");
    let family = bundled(Bundled::Andika).expect("a bundled family");
    let desk = Desk::new(&lesson, &layouts, &family);
    let mut found = BTreeSet::new();
    for packet in packets::make(&desk, &[]).unwrap_or_else(|wrong| panic!("{wrong:?}")) {
        let mut note = |place: &str, text: &str| {
            if !bare(text).is_empty() && !is_for_machines(text) {
                found.insert(format!("{place}: {text}"));
            }
        };
        note("title", &packet.title);
        for index in 0..packet.len() {
            let page = packet.page(index).expect("a page");
            let place = page.sheet.word();
            note(place, &page.name);
            for text in page.layers.iter().flat_map(|layer| texts(layer)) {
                note(place, &text);
            }
        }
    }
    found
}

/// Everything that a lesson can have: all forms, decoys, versions, cut by learners.
const CLASS: &str = r#"
title = "123"
grade = "2"
seed = 3
[numbers]
range = [100, 999]
[numbers.sort]
count = 6
zeros = { tens = 1 }
teens = 1
repeats = 1
[forms]
match = ["numeral", "words", "expanded", "units", "blocks"]
joiner = "and"
decoys = 4
[class]
learners = 5
spares = 1
versions = 2
share = { blocks = 2 }
[print]
sides = "two"
"#;

/// Piles for the guillotine, large numbers without pictures, kits cut in piles.
const PILES: &str = r#"
title = "456"
[numbers]
range = [1000, 9999]
[class]
learners = 14
versions = 3
[print]
cut = "stack"
sides = "two"
"#;

/// Numbers that have no block pictures.
const LARGE: &str = r#"
title = "789"
[numbers]
range = [10000, 999999]
[class]
learners = 2
[print]
cut = "stack"
"#;

#[test]
fn every_text_comes_from_the_language() {
    let all: BTreeSet<String> = [CLASS, PILES, LARGE].into_iter().flat_map(leaks).collect();
    let list: Vec<&str> = all.iter().map(String::as_str).collect();
    assert!(list.is_empty(), "{} texts are nobody's:\n{}", list.len(), list.join("\n"));
}

#[test]
fn a_text_that_leaks_is_seen() {
    assert_eq!(bare("ṗàġè 3 of 4"), ["of"]);
    assert!(bare("61.25 mm (2.411 in) A · 7").is_empty());
    assert!(is_for_machines("-o print-scaling=none -o sides=one-sided") && !is_for_machines("print it"));
}
