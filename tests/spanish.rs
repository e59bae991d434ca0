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
const LETTERS: &str = "áéíóúüñÁÉÍÓÚÜÑ¿¡«»\u{202f}–·×²º…";

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
        let bytes = pdf::bytes(&packet, &pdf::Common::new(&family), 1).expect("a file");
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
    for family in Bundled::ALL {
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

/// The syllables of a Spanish word: one for each strong vowel (a, e, o) or accented weak one, and one for weak vowels (i, u) that
/// stand with neither. The u of que, qui, gue and gui is silent.
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase();
    let word = word.replace("qu", "q").replace("gue", "ge").replace("gui", "gi").replace("gué", "gé");
    let letters: Vec<char> = word.chars().collect();
    let strong = |c: char| "aeoáéóíú".contains(c);
    let weak = |k: usize| "iuü".contains(letters[k]) || letters[k] == 'y' && (k + 1 == letters.len());
    let mut count = 0;
    let mut k = 0;
    while k < letters.len() {
        let start = k;
        while k < letters.len() && (strong(letters[k]) || weak(k)) {
            k += 1;
        }
        if k > start {
            count += letters[start..k].iter().filter(|c| strong(**c)).count().max(1);
        } else {
            k += 1;
        }
    }
    count.max(1)
}

#[test]
fn syllables_are_counted_as_they_are_said() {
    for (word, count) in [
        ("cifra", 2),
        ("decena", 3),
        ("familia", 3),
        ("puñado", 3),
        ("queso", 2),
        ("guía", 2),
        ("dieciséis", 3),
        ("setecientos", 4),
        ("unidades", 4),
        ("niño", 2),
        ("pequeñas", 3),
        ("ahora", 3),
        ("hay", 1),
        ("y", 1),
        ("lee", 2),
        ("ciudad", 2),
        ("Guárdenlas", 3),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
}

/// How easily a Spanish text reads (Szigriszt Pazos 1993, doctoral thesis, "fórmula de perspicuidad"): 206.835 - 62.3 syllables a word -
/// words a sentence. A numeral is one word, as many syllables as its name has.
fn perspicuity(lesson: &Lesson, sentences: &[String]) -> f64 {
    let (mut words, mut sounds) = (0, 0);
    for word in sentences.iter().flat_map(|sentence| sentence.split_whitespace()) {
        let figures: String = word.chars().filter(char::is_ascii_digit).collect();
        let letters: String = word.chars().filter(|c| c.is_alphabetic()).collect();
        if let Some(number) = figures.parse().ok().and_then(placewright::number::Number::new) {
            words += 1;
            sounds += lesson.style.words(number).split(' ').map(syllables).sum::<usize>();
        } else if !letters.is_empty() {
            words += 1;
            sounds += syllables(&letters);
        }
    }
    let (words, sounds, count) = (words as f64, sounds as f64, sentences.len() as f64);
    206.835 - 62.3 * sounds / words - words / count
}

// On the INFLESZ scale (Barrio-Cantalejo et al. 2008, An. Sist. Sanit. Navar. 31(2), 135-152) 65 to 80 is "fairly easy", as primary
// schoolbooks are.
#[test]
fn the_page_for_home_reads_easily() {
    for range in ["10, 99", "100, 999", "1000, 9999", "10000, 99999"] {
        let lesson = planned(&format!("title = \"1\"\nlanguage = \"es\"\n[numbers]\nrange = [{range}]\n"));
        let (wording, usage) = (lesson.wording(), lesson.usage());
        let home = lesson::home::home(&lesson, &lesson.whole()).expect("numbers");
        let mut said = vec![wording.home_note(&lesson.can()), wording.home_caution().to_owned()];
        said.extend(wording.home_learned(home.number, home.place, home.zero, &usage));
        said.extend(wording.home_tries(
            home.number,
            lesson.spec.numbers.range.value.1,
            lesson.teaches_trading(),
            &usage,
        ));
        let sentences: Vec<String> =
            said.iter().flat_map(|text| support::sentences::sentences(text).map(str::to_owned)).collect();
        let ease = perspicuity(&lesson, &sentences);
        println!("{range}: {ease:.1}");
        assert!(ease >= 65.0, "{range}: {ease:.1}: {sentences:#?}");
    }
}
