//! Lessons in two languages: what is in both, which text is in which, and that a listener is told.

use std::collections::{BTreeMap, BTreeSet};

use hayro_syntax::Pdf;
use placewright::lesson::Lesson;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::{Content, Form, Names};
use placewright::sheets::files::PacketKind;
use placewright::spec::{Language, SheetKind};
use placewright::wording::{self, English, Spanish};
use serde_json::{Value, json};

use crate::desk::scene;
use crate::support;
use crate::support::packets::{self, Laid};
use crate::support::pdf::{Mark, Page};
use crate::support::samples;
use crate::support::setup::planned;
use crate::support::structure::{self, Element, Kid};

const SHEETS: &str =
    "[sheets]\nmake = [\"display\", \"mat\", \"word-bank\", \"board\", \"strips\", \"exit\", \"key\", \"tally\",
        \"small-groups\", \"practice\", \"family\"]\n";

/// A class that works in two languages; its title has no letters.
fn lesson(first: &str, second: &str, forms: &str) -> Lesson {
    planned(&format!(
        "title = \"123\"\nlanguage = \"{first}\"\nsecond_language = \"{second}\"\n[numbers]\nrange = [100, 999]\n\
         [numbers.sort]\ncount = 6\nteens = 1\n[forms]\nmatch = [{forms}]\n[class]\nlearners = 3\n{SHEETS}"
    ))
}

const BOTH: &str = r#""numeral", "words", "expanded", "blocks""#;
const APART: &str = r#""numeral", "words", "words2", "blocks""#;

/// Every lesson that these tests are about.
fn all() -> Vec<Lesson> {
    let mut all = Vec::new();
    for (first, second) in [("en", "es"), ("es", "en")] {
        for forms in [BOTH, APART, r#""words2", "words", "numeral""#] {
            all.push(lesson(first, second, forms));
        }
    }
    all
}

/// Learners read the columns of the mat by themselves: each place is named in both languages.
#[test]
fn a_mat_names_its_places_in_both_languages() {
    for (first, second) in [("en", "es"), ("es", "en")] {
        let lesson = lesson(first, second, BOTH);
        let laid = packets::one(&lesson, &bundled(Bundled::Andika).unwrap(), PacketKind::Teacher);
        let mats: Vec<_> = laid.pages.iter().filter(|page| page.sheet == SheetKind::Mat).collect();
        let said = packets::texts(mats);
        for place in ["hundreds", "tens", "ones", "centenas", "decenas", "unidades"] {
            assert!(said.iter().any(|text| text == place), "{first}: {place} is not in {said:?}");
        }
    }
}

/// Words that only Spanish has ("once" is a word of both): of numbers to 999 in steps, of headings, of the page home.
fn spanish() -> BTreeSet<String> {
    let numbers = (0..1_000).flat_map(|value| words(&Spanish, value));
    let headings = "palabras cifras desarrollada bloques centenas decenas unidades familia aprendimos usamos casa respuestas mayor vale";
    numbers.chain(headings.split(' ').map(str::to_owned)).filter(|word| word.len() > 2 && word != "once").collect()
}

/// Words that only English has.
fn english() -> BTreeSet<String> {
    let numbers = (0..1_000).flat_map(|value| words(&English, value));
    let headings =
        "the words numeral expanded blocks hundreds tens ones family learned answers your strip row each which";
    numbers.chain(headings.split(' ').map(str::to_owned)).filter(|word| word.len() > 2).collect()
}

fn words(names: &dyn Names, value: u32) -> Vec<String> {
    split(&names.cardinal(value, false))
}

fn split(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| !c.is_alphabetic()).filter(|part| !part.is_empty());
    parts.map(str::to_lowercase).collect()
}

/// What a listener hears, piece by piece, with the language that the file gives it: the nearest element's that names one.
fn heard(element: &Element, language: &str, pages: &[Page], out: &mut Vec<(usize, String, String)>) {
    let language = element.language.as_deref().unwrap_or(language);
    for kid in &element.kids {
        match kid {
            Kid::Element(inner) => heard(inner, language, pages, out),
            Kid::Content { page: Some(page), mcid } => {
                let texts = pages[*page].texts.iter().filter(|run| run.mark == Mark::Content(*mcid));
                let text: Vec<String> = texts.map(support::pdf::Run::heard).collect();
                let text = element.alternative.clone().unwrap_or_else(|| text.join(" "));
                out.push((*page, language.to_owned(), text));
            }
            Kid::Content { page: None, .. } => {}
        }
    }
}

fn spoken(bytes: &[u8], language: &str) -> Vec<(usize, String, String)> {
    let pdf = Pdf::new(bytes.to_vec()).expect("it opens");
    let mut all = Vec::new();
    heard(&structure::read(&pdf).expect("a structure"), language, &support::pdf::read(bytes), &mut all);
    all
}

fn teachers(lesson: &Lesson) -> (Laid, Vec<u8>) {
    let family = bundled(Bundled::Andika).expect("a family");
    let packet = packets::one(lesson, &family, PacketKind::Teacher);
    let bytes = packet.bytes(&family, 1);
    (packet, bytes)
}

/// Whether programs read a text, which have words of their own.
fn is_for_programs(text: &str) -> bool {
    [".pdf", "-o ", "IPP", "lb "].iter().any(|mark| text.contains(mark))
}

// ISO 32000-1, 14.9.2, and WCAG 2.2, 3.1.2: a text in another language than the file says so, and so do words of another
// language that a sentence quotes.
#[test]
fn every_text_tells_its_language() {
    let (spanish, english) = (spanish(), english());
    let family = bundled(Bundled::Andika).expect("a family");
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    let mut quoted: BTreeSet<(SheetKind, &str)> = BTreeSet::new();
    let nursery = samples::lesson("plant-nursery");
    for lesson in all().into_iter().chain([nursery]) {
        let own = wording::of(lesson.spec.language.value).tag();
        for packet in packets::all(&lesson, &family, &[]).expect("packets") {
            if !matches!(packet.kind, PacketKind::Teacher | PacketKind::Substitute | PacketKind::Ticket) {
                continue;
            }
            for (page, language, text) in spoken(&packet.bytes(&family, 1), own) {
                let words = split(&text);
                let has = |of: &BTreeSet<String>| words.iter().any(|word| of.contains(word));
                let sheet = packet.pages[page].sheet;
                // The title of the sample is in both languages.
                if is_for_programs(&text) || text.contains("El vivero") {
                    continue;
                }
                assert!(!(has(&spanish) && has(&english)), "{sheet:?}: {text}");
                let (want, counted) = match (has(&spanish), has(&english)) {
                    (true, _) => ("es", "es"),
                    (_, true) => ("en-US", "en"),
                    _ => continue,
                };
                assert_eq!(language, want, "{sheet:?}: {text}");
                *seen.entry(counted).or_default() += 1;
                if want != own {
                    quoted.insert((sheet, want));
                }
            }
        }
    }
    assert!(seen["es"] > 300 && seen["en"] > 300, "{seen:?}");
    // Both ways round: grown-ups' sentences quote what learners write.
    for sheet in [SheetKind::Plan, SheetKind::Key, SheetKind::SmallGroups] {
        assert!(quoted.contains(&(sheet, "es")) && quoted.contains(&(sheet, "en-US")), "{sheet:?}: {quoted:?}");
    }
}

#[test]
fn the_display_of_any_range_fits_in_two_languages() {
    for (first, second) in [("en", "es"), ("es", "en")] {
        for range in ["[10, 99]", "[1000, 9999]", "[100000, 999999]"] {
            // The most blocks that a number of so many digits has.
            let most = if range == "[1000, 9999]" { "[numbers.model]\ncount = 1\nalways = [9989]\n" } else { "" };
            let papers = [("letter", "large", "whole"), ("letter", "large", "steps"), ("a4", "large", "steps")];
            for (paper, size, pages) in papers.into_iter().chain([("a4", "standard", "whole")]) {
                let lesson = planned(&format!(
                    "title = \"123\"\npaper = \"{paper}\"\nlanguage = \"{first}\"\nsecond_language = \"{second}\"\n\
                     [numbers]\nrange = {range}\n{most}[print]\ntext = \"{size}\"\n[sheets]\ndisplay = \"{pages}\"\n\
                     make = [\"display\"]\n"
                ));
                assert!(!pages_of(&lesson, SheetKind::Display).is_empty(), "{first} {range} {paper} {size} {pages}");
            }
        }
    }
}

// Five forms, words in both languages among them, do not stand side by side on every paper in large print. The refusal names
// paper that they do fit on.
#[test]
fn what_does_not_fit_names_the_paper_that_does() {
    let text = |paper: &str, size: &str| {
        format!(
            "title = \"123\"\npaper = \"{paper}\"\nsecond_language = \"es\"\n[numbers]\nrange = [100, 999]\n[numbers.sort]\n\
             always = [498]\n[forms]\nmatch = [\"numeral\", \"words\", \"words2\", \"expanded\", \"units\"]\n[class]\n\
             learners = 3\n[print]\ntext = \"{size}\"\n[sheets]\nmake = [\"board\", \"strips\"]\n"
        )
    };
    let family = bundled(Bundled::Andika).expect("a family");
    let made = |paper: &str, size: &str| packets::all(&planned(&text(paper, size)), &family, &[]);
    let found = made("letter", "large").expect_err("four columns of words are too wide");
    let hint = found[0].problem.hint.clone().expect("a hint");
    let mut named = 0;
    for paper in placewright::spec::Paper::ALL {
        let fits = made(paper.word(), "large").is_ok();
        let told = hint.contains(&format!("`paper = \"{}\"`", paper.word()));
        assert_eq!(fits, told, "{}: {hint}", paper.word());
        named += usize::from(told);
    }
    assert!(named > 0, "{hint}");
    assert_eq!(made("letter", "standard").is_ok(), hint.contains("standard"), "{hint}");
}

/// The texts of each page of a sheet.
fn pages_of(lesson: &Lesson, kind: SheetKind) -> Vec<String> {
    let (packet, bytes) = teachers(lesson);
    let pages = support::pdf::read(&bytes);
    let of = packet.pages.iter().zip(pages).filter(|(page, _)| page.sheet == kind);
    of.map(|(_, page)| page.texts.iter().map(|run| run.text.clone()).collect::<Vec<_>>().join(" ")).collect()
}

#[test]
fn strips_show_both_languages_unless_they_are_apart() {
    for lesson in all() {
        let apart = lesson.spec.forms.matched.value.contains(&Form::SecondWords);
        for strip in lesson.sets.iter().flat_map(|set| &set.strips) {
            assert_eq!(matches!(strip.content, Content::Both(_)), strip.form == Form::Words && !apart, "{strip:?}");
        }
        let all: BTreeSet<String> = pages_of(&lesson, SheetKind::Strips).iter().flat_map(|text| split(text)).collect();
        for number in lesson.sets.iter().flat_map(|set| &set.rows) {
            for names in [&English as &dyn Names, &Spanish] {
                let given = lesson.sets[0].given;
                if given.is_words() {
                    continue;
                }
                assert!(words(names, number.value()).iter().all(|word| all.contains(word)), "{number} {all:?}");
            }
        }
    }
}

#[test]
fn the_display_and_the_head_of_the_board_are_in_both() {
    for (lesson, boards) in [
        (
            lesson("en", "es", BOTH),
            ["Words", "En palabras", "Expanded form", "Forma desarrollada", "Numeral", "En cifras"],
        ),
        (
            lesson("es", "en", APART),
            ["Palabras en español", "Words in Spanish", "Palabras en inglés", "Words in English", "Bloques", "Blocks"],
        ),
    ] {
        for text in pages_of(&lesson, SheetKind::Board) {
            assert!(boards.iter().all(|head| text.contains(head)), "{text}");
        }
        let shown = pages_of(&lesson, SheetKind::Display);
        assert_eq!(shown.len(), lesson.chosen.model.len());
        for (text, number) in shown.iter().zip(&lesson.chosen.model) {
            let all = split(text);
            for names in [&English as &dyn Names, &Spanish] {
                assert!(words(names, number.value()).iter().all(|word| all.contains(word)), "{text}");
            }
            for place in ["hundreds", "centenas", "ones", "unidades"] {
                assert!(text.contains(place), "{text}");
            }
        }
    }
}

#[test]
fn the_word_bank_has_each_numeral_with_its_words_in_both() {
    for lesson in all() {
        let text = pages_of(&lesson, SheetKind::WordBank).join(" ");
        assert!(text.contains("English") && text.contains("Español"), "{text}");
        let groups = placewright::lesson::words::groups(&lesson, placewright::lesson::words::BankOf::Given);
        let mut numerals = BTreeSet::new();
        for entry in groups.iter().flat_map(|group| &group.words) {
            let value: u32 = entry.numeral.parse().expect("up to 999");
            assert!(numerals.insert(value), "{value} twice");
            let own: [&dyn Names; 2] =
                if lesson.spec.language.value == Language::En { [&English, &Spanish] } else { [&Spanish, &English] };
            let second = entry.second.as_ref().expect("words in the second language");
            for (said, names) in [&entry.first, second].into_iter().zip(own) {
                // A hundred is "ciento" before anything else.
                let names = names.cardinal(value, false);
                let fits = said
                    .split(", ")
                    .map(|word| word.trim_end_matches('\u{2026}'))
                    .all(|word| names.contains(word) || word == "ciento");
                assert!(fits, "{value}: {said} for {names}");
                assert!(text.contains(said.as_str()), "{said}");
            }
        }
        // Every word that some number needs is there, in both languages.
        let (first, second) = (lesson.style.names, lesson.style.second.expect("a second language"));
        let all: BTreeSet<String> =
            groups.iter().flat_map(|g| &g.words).flat_map(|e| [e.first.clone(), e.second.clone().unwrap()]).collect();
        let all: BTreeSet<String> = all.iter().flat_map(|text| split(text)).collect();
        for number in lesson.sets.iter().flat_map(|set| &set.rows) {
            for names in [first, second] {
                // "Y" is told in a note.
                let needed = words(names, number.value());
                assert!(needed.iter().all(|word| word == "y" || all.contains(word)), "{number}");
            }
        }
    }
}

/// The numbers in a text, in order.
fn figures(text: &str) -> Vec<u32> {
    text.split(|c: char| !c.is_ascii_digit()).filter_map(|part| part.parse().ok()).collect()
}

#[test]
fn the_page_home_says_the_same_in_each_language() {
    for lesson in all() {
        let (packet, bytes) = teachers(&lesson);
        let pages = support::pdf::read(&bytes);
        let family: Vec<usize> = (0..pages.len()).filter(|k| packet.pages[*k].sheet == SheetKind::Family).collect();
        assert_eq!(family.len(), 2);
        let said: Vec<(String, String)> = spoken(&bytes, wording::of(lesson.spec.language.value).tag())
            .into_iter()
            .filter(|(page, ..)| *page == family[1])
            .map(|(_, language, text)| (language, text))
            .collect();
        let second = wording::of(lesson.second().expect("a second language"));
        assert!(said.iter().all(|(language, _)| language == second.tag()), "{said:?}");
        let numbers = |page: usize| {
            let text: Vec<&str> = pages[page].texts.iter().map(|run| run.text.as_str()).collect();
            let mut numbers = figures(&text.join(" "));
            // How many cards to draw is a word in one language and a figure in the other; the last is the page's number.
            numbers.pop();
            numbers.into_iter().filter(|number| *number > 9).collect::<BTreeSet<u32>>()
        };
        assert_eq!(
            numbers(family[0]).difference(&[1_000].into()).collect::<Vec<_>>(),
            numbers(family[1]).difference(&[1_000].into()).collect::<Vec<_>>()
        );
    }
}

// Printed on both sides, the page home has one language a side, and takes no more paper.
#[test]
fn the_page_home_is_printed_front_and_back() {
    let text = |sides: &str| {
        format!(
            "title = \"123\"\nsecond_language = \"es\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 4\nspares = 0\n\
             [sheets]\nmake = [\"board\", \"family\"]\n[print]\nsides = \"{sides}\"\n"
        )
    };
    let family = bundled(Bundled::Andika).expect("a family");
    let made = |sides: &str| {
        let lesson = planned(&text(sides));
        let packets = packets::all(&lesson, &family, &[]).expect("packets");
        let pages = packets.into_iter().filter(|packet| packet.file().starts_with("copy-room-paper"));
        let of = |laid: Laid| {
            let file = laid.file();
            laid.pages
                .into_iter()
                .enumerate()
                .filter(|(_, page)| page.sheet == SheetKind::Family)
                .map(move |(k, page)| (file, k, page.name))
                .collect::<Vec<_>>()
        };
        pages.flat_map(of).collect::<Vec<_>>()
    };
    let one = made("one");
    assert_eq!(one.len(), 8);
    assert!(one.iter().all(|(file, ..)| *file == "copy-room-paper.pdf"));
    let two = made("two");
    assert_eq!(two.len(), 8);
    for pair in two.chunks(2) {
        let [(file, front, first), (_, back, second)] = pair else { panic!("{pair:?}") };
        assert_eq!(*file, "copy-room-paper-both-sides.pdf");
        assert!(front % 2 == 0 && *back == front + 1, "{pair:?}");
        assert!(first == second && first.contains("For your family"), "{pair:?}");
    }
}

#[test]
fn a_substitute_is_told_of_both_languages() {
    let plan = |lesson: &Lesson| pages_of(lesson, SheetKind::Plan).join(" ");
    let text = plan(&lesson("en", "es", BOTH));
    assert!(text.contains("Number words are in two languages, English and Spanish."), "{text}");
    let text = plan(&lesson("en", "es", APART));
    assert!(text.contains("English and Spanish, each on strips of its own and in its own column."), "{text}");
    // "e" before "inglés".
    let text = plan(&lesson("es", "en", BOTH));
    assert!(text.contains("español e inglés"), "{text}");
    let one = planned("title = \"123\"\n[numbers]\nrange = [100, 999]\n");
    assert!(!plan(&one).contains("two languages"));
}

// A check asks what the lesson matched: words of the second language where they are strips of their own, with slips of that
// language alone.
#[test]
fn checks_ask_for_words_of_the_second_language() {
    let lesson = lesson("en", "es", APART);
    let asked = |form: Form| {
        let questions = lesson.checks.iter().flat_map(|check| &check.questions);
        questions.filter(|question| question.task.shown() == form).collect::<Vec<_>>()
    };
    assert!(!asked(Form::Words).is_empty() && !asked(Form::SecondWords).is_empty());
    for question in asked(Form::SecondWords) {
        let Some(Content::Text(shown)) = &question.shown else { panic!("{question:?}") };
        assert_eq!(*shown, wording::of(Language::Es).cardinal(question.of.value(), false));
        assert!(question.wrong().all(|(_, _, slip)| slip.only() != Some("en-US")), "{question:?}");
    }
}

#[test]
fn the_desk_asks_for_both_languages() {
    let text = "title = \"123\"\n\n[numbers]\nrange = [100, 999]\n\n[class]\nlearners = 2\n";
    let (at, desk) = scene(text);
    let page = desk.enter();
    let form = || page.view()["form"].as_str().expect("a form").to_owned();
    for key in ["language", "second_language"] {
        assert!(form().contains(&format!("data-key=\"{key}\"")), "{key}");
    }
    page.fill("language", json!({ "": "es" }));
    page.fill("second_language", json!({ "": "en" }));
    assert!(page.view()["standing"].as_str().expect("told").contains("can be made"));
    assert_eq!(page.does("/save", json!({ "name": "tram.toml", "over": true }))["told"], Value::Null);
    let saved = std::fs::read_to_string(at.path().join("tram.toml")).expect("saved");
    assert!(saved.contains("language = \"es\"") && saved.contains("second_language = \"en\""), "{saved}");
    // The same language twice is told at its field, and undone.
    page.fill("second_language", json!({ "": "es" }));
    assert!(form().contains("first language already"), "{}", form());
    for _ in 0..3 {
        page.does("/back", json!({}));
    }
    assert_eq!(page.text(), text);
}
