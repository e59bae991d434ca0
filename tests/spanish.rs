//! Lessons in Spanish: nothing English on any page, the language in the file, every letter in every font.

use std::sync::Arc;

use hayro_syntax::Pdf;
use hayro_syntax::object::String as PdfString;
use placewright::diag::Source;
use placewright::lesson::{self, Lesson};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::pdf;
use placewright::sheets::packets;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{Node, Tag};
use placewright::spec::{self, Cut, Language, Paper, TextSize};

use crate::support;
use crate::support::structure;

/// Letters and marks that Spanish pages are written with.
const LETTERS: &str = "áéíóúüñÁÉÍÓÚÜÑ¿¡«»\u{202f}–·×²…";

/// English words that no Spanish text has; "no", "a" and the like mean something in both.
const ENGLISH: [&str; 22] = [
    "the", "of", "and", "learner", "learners", "sheet", "sheets", "page", "pages", "strip", "strips", "number",
    "numbers", "word", "words", "ones", "tens", "hundreds", "minutes", "each", "with", "for",
];

fn planned(text: &str) -> Lesson {
    let source = Arc::new(Source { name: "clase.toml".to_owned(), text: text.to_owned() });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{found:#?}"));
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{found:#?}"))
}

fn heard(node: &Node, all: &mut Vec<String>) {
    if let Node::Tagged(tag, nodes) = node {
        if let Tag::Figure(instead) = tag {
            all.push(instead.clone());
        }
        nodes.iter().for_each(|node| heard(node, all));
    }
}

/// Every text of a lesson's files, printed or heard, as an independent reader finds it.
fn texts(lesson: &Lesson) -> Vec<String> {
    let family = bundled(Bundled::Andika).expect("a family");
    let layouts = Layouts::read(&[]).expect("layouts");
    let desk = Desk::new(lesson, &layouts, &family);
    let mut all = Vec::new();
    for packet in packets::make(&desk, &[]).unwrap_or_else(|found| panic!("{found:#?}")) {
        let bytes = pdf::bytes(&packet, &family, 1).expect("a file");
        let opened = Pdf::new(bytes.clone()).expect("it opens");
        let root = opened.xref().get::<hayro_syntax::object::Dict<'_>>(opened.xref().root_id()).expect("a catalog");
        let language = root.get::<PdfString<'_>>("Lang").map(|text| structure::decode(text.as_bytes()));
        assert_eq!(language.as_deref(), Some("es"), "{}", packet.file());
        all.extend(support::pdf::read(&bytes).iter().flat_map(|page| &page.texts).map(|run| run.text.clone()));
        for index in 0..packet.len() {
            let page = packet.page(index).expect("a page");
            all.push(page.name.clone());
            page.layers.iter().flat_map(|layer| &layer.nodes).for_each(|node| heard(node, &mut all));
        }
        all.push(packet.title.clone());
    }
    all
}

#[track_caller]
fn is_spanish(text: &str) -> Vec<String> {
    let texts = texts(&planned(text));
    let english: Vec<&String> = texts
        .iter()
        .filter(|text| !text.contains(".pdf") && !text.starts_with("-o "))
        .filter(|text| {
            let mut words = text.split(|c: char| !c.is_alphabetic() && c != '-');
            words.any(|word| ENGLISH.contains(&word.to_lowercase().as_str()))
        })
        .collect();
    assert!(english.is_empty(), "{english:#?}");
    texts
}

#[test]
fn the_sample_is_spanish_from_end_to_end() {
    let texts = is_spanish(include_str!("../samples/panaderia.toml"));
    for part in ["placa", "Fecha", "Recorte", "Hoja de registro", "Orden de trabajo"] {
        assert!(texts.iter().any(|text| text.contains(part)), "{part}");
    }
}

#[test]
fn piles_and_large_numbers_are_spanish() {
    let class = "[class]\nlearners = 12\nversions = 2\n[print]\ncut = \"stack\"\nsides = \"two\"\n";
    let file = |range: &str, forms: &str| {
        format!("title = \"Mercado\"\nlanguage = \"es\"\n[numbers]\nrange = [{range}]\n{forms}{class}")
    };
    is_spanish(&file("1000, 9999", ""));
    let texts = is_spanish(&file("10000, 99999", "[forms]\nmatch = [\"numeral\", \"words\", \"units\"]\n"));
    // From five digits up a thin space, as the academy asks, and never a comma.
    let numerals: Vec<&String> = texts.iter().filter(|text| text.starts_with(|c: char| c.is_ascii_digit())).collect();
    assert!(numerals.iter().any(|text| text.contains('\u{202f}')), "{numerals:?}");
    let comma = |text: &str| {
        let letters: Vec<char> = text.chars().collect();
        letters.windows(3).any(|three| three[1] == ',' && three[0].is_ascii_digit() && three[2].is_ascii_digit())
    };
    assert!(!texts.iter().any(|text| comma(text)), "a comma between digits");
}

#[test]
fn four_digits_stand_together_and_five_apart() {
    let lesson = planned("title = \"x\"\nlanguage = \"es\"\n[numbers]\nrange = [1000, 99999]\n");
    let numeral = |value| lesson.style.numeral(placewright::number::Number::new(value).expect("in range"));
    assert_eq!([1_010, 21_010].map(numeral), ["1010", "21\u{202f}010"]);
    let asked =
        planned("title = \"x\"\nlanguage = \"es\"\n[numbers]\nrange = [1000, 9999]\n[forms]\nthousands = \"comma\"\n");
    assert_eq!(asked.style.numeral(placewright::number::Number::new(1_010).expect("in range")), "1,010");
}

#[test]
fn every_bundled_font_has_every_spanish_letter() {
    for family in [Bundled::Andika, Bundled::Lato] {
        let fonts = bundled(family).expect("a family");
        for font in [&fonts.regular, &fonts.bold] {
            assert_eq!(font.lacks(LETTERS), None, "{family:?}");
        }
    }
}

// Words are longer in Spanish: what fits in English must fit here, at both text sizes and on letter and A4.
#[test]
fn every_sample_can_be_said_in_spanish() {
    let family = bundled(Bundled::Andika).expect("a family");
    let layouts = Layouts::read(&[]).expect("layouts");
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let mut made = 0;
    for entry in std::fs::read_dir(folder).expect("samples") {
        let path = entry.expect("a file").path();
        if path.extension().is_none_or(|end| end != "toml") {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a sample");
        let source = Arc::new(Source { name: path.display().to_string(), text });
        let read = spec::read(&source).expect("a sample can be read");
        for (paper, size) in [(Paper::Letter, TextSize::Standard), (Paper::A4, TextSize::Large)] {
            let made_in = |language| {
                let mut spec = read.clone();
                spec.language.value = language;
                spec.paper.value = paper;
                spec.print.text.value = size;
                let lesson = lesson::plan(&source, spec, Vec::new()).ok()?;
                let desk = Desk::new(&lesson, &layouts, &family);
                Some(packets::make(&desk, &[]).map(|packets| packets.len()))
            };
            // Piles have one size of piece, which long words in large print outgrow: the program says so.
            if size == TextSize::Large && read.print.cut.value == Cut::Stack {
                continue;
            }
            // Not every sample fits that paper in large print in English.
            if let (Some(Ok(_)), Some(spanish)) = (made_in(Language::En), made_in(Language::Es)) {
                made += spanish.unwrap_or_else(|found| panic!("{} on {paper:?}: {found:#?}", path.display()));
            }
        }
    }
    assert!(made > 40, "{made} packets");
}
