//! What Spanish pages must not say: readings that are right word by word and mean something else to whoever reads them.

use std::path::Path;

use placewright::number::{Form, Number, Slip, Task};
use placewright::wording::{self, GroupStep, ReadIn, Tools};

use crate::support;
use crate::support::packets;
use crate::support::samples;
use crate::support::setup::planned;
use placewright::lesson::{self, Lesson};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::files::PacketKind;
use placewright::spec::Language;

const SHEETS: &str =
    "[sheets]\nmake = [\"display\", \"word-bank\", \"board\", \"strips\", \"exit\", \"key\", \"tally\",
    \"small-groups\", \"warm-up\", \"practice\", \"family\"]\n";

fn in_spanish(range: &str, forms: &str) -> Lesson {
    planned(&format!(
        "title = \"x\"\nlanguage = \"es\"\nseed = 11\n[numbers]\nrange = [{range}]\n[forms]\nmatch = [{forms}]\n[class]\n\
         learners = 3\n{SHEETS}"
    ))
}

/// Lessons of every size of number, with every form.
fn lessons() -> Vec<Lesson> {
    vec![
        in_spanish("10, 99", r#""numeral", "words", "units", "regrouped", "blocks""#),
        in_spanish("100, 999", r#""blocks", "numeral", "words", "expanded""#),
        in_spanish("1000, 9999", r#""numeral", "words", "units", "blocks""#),
        in_spanish("1000, 999999", r#""words", "numeral", "expanded""#),
    ]
}

/// Every line of the teacher's and the substitute's packets.
fn lines(lesson: &Lesson) -> Vec<String> {
    let family = bundled(Bundled::Andika).expect("a family");
    let packets = packets::all(lesson, &family, &[]).expect("packets");
    let told = packets.iter().filter(|laid| matches!(laid.kind, PacketKind::Teacher | PacketKind::Substitute));
    let bytes = told.map(|laid| laid.bytes(&family, 1));
    let pages = bytes.flat_map(|bytes| support::pdf::read(&bytes));
    pages.flat_map(|page| page.texts).map(|run| run.text).collect()
}

// "8 por 4" is eight times four.
#[test]
fn no_wrong_answer_reads_as_a_product() {
    for line in lessons().iter().flat_map(lines) {
        let words: Vec<&str> = line.split(' ').collect();
        let figure = |word: &str| word.ends_with(|c: char| c.is_ascii_digit());
        let product = words.windows(3).find(|three| {
            let measured = line.contains("mm") || line.contains(" in ");
            figure(three[0]) && three[1] == "por" && three[2].starts_with(|c: char| c.is_ascii_digit()) && !measured
        });
        assert_eq!(product, None, "{line}");
        assert!(!line.contains("cien por ciento"), "{line}");
    }
}

#[test]
fn no_line_ends_in_a_lone_conjunction() {
    for line in lessons().iter().flat_map(lines) {
        assert!(!line.ends_with(" y"), "{line}");
    }
}

// 100 by itself is cien; ciento is what begins a longer name.
#[test]
fn the_word_bank_says_a_hundred_as_it_is_read() {
    let mut seen = 0;
    for (language, second) in [("es", ""), ("en", "second_language = \"es\"\n"), ("es", "second_language = \"en\"\n")] {
        let lesson = planned(&format!(
            "title = \"x\"\nlanguage = \"{language}\"\n{second}[numbers]\nrange = [101, 199]\n{SHEETS}"
        ));
        for entry in lesson::words::groups(&lesson, lesson::words::BankOf::Given).iter().flat_map(|group| &group.words)
        {
            for words in [Some(&entry.first), entry.second.as_ref()].into_iter().flatten() {
                if entry.numeral == "100" {
                    seen += 1;
                    let first = words.split([' ', ',']).next();
                    assert!(matches!(first, Some("cien" | "one")), "{words}");
                }
            }
        }
    }
    assert_eq!(seen, 5);
}

// Eight hundred sixteen thousand sounds like eight hundred twenty-six thousand: the ten thousands are in question, and of tens
// there are 81,678.
#[test]
fn a_small_group_is_asked_for_the_digit_that_the_slip_changes() {
    let number = Number::new(816_786).expect("in range");
    let style = in_spanish("1000, 999999", r#""words", "numeral""#).style;
    let words = wording::of(Language::Es);
    let tools = Tools { mat: false, blocks: false, cards: false, read: ReadIn::Periods };
    let task = Task::forms(Form::Words, Form::Numeral);
    let step = |of: Number| {
        let taken = Slip::SoundAlike.taken_for(of, task, &style);
        GroupStep { slip: Slip::SoundAlike, of, task, taken, tools, two_sets: false, style: &style }
    };
    let (question, answer) = (words.group_question(&step(number)), words.group_answer(&step(number)));
    assert!(question.contains("decenas de millar") && !question.contains("Cuántas decenas"), "{question}");
    assert!(question.contains("«dieciséis mil» y «veintiséis mil»"), "{question}");
    // Neither of the two is the answer by itself.
    assert!(
        answer.contains("va un 1;") && answer.contains("un 2.") && answer.contains("es 816\u{202f}786"),
        "{answer}"
    );
    let tens = Number::new(364).expect("in range");
    let question = words.group_question(&step(tens));
    assert!(question.contains("decenas") && !question.contains("millar"), "{question}");
}

#[test]
fn a_grade_is_an_ordinal() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/panaderia.toml");
    let sample = samples::lay(&path);
    let teacher = sample.packets.iter().find(|laid| laid.kind == PacketKind::Teacher).expect("a packet");
    let pages = support::pdf::read(&teacher.bytes(&sample.family, 1));
    let said = pages.iter().flat_map(|page| &page.texts).filter(|run| run.text.contains("grado")).count();
    let right = pages.iter().flat_map(|page| &page.texts).filter(|run| run.text.contains("2.\u{ba} grado")).count();
    assert!(said > 0 && said == right, "{right} of {said}");
}

/// What no teacher would say, each with what it was said of; `#` is a figure.
const STRUCK: &[&str] = &[
    // Somebody who laid a strip is one.
    "¿Qué pasó? Respuesta: Dejaron",
    "¿Qué pasó? Respuesta: Pusieron",
    "¿Qué pasó? Respuesta: Contaron",
    // One does not change a number into another.
    "cámbielo a",
    "cámbienlo a",
    // Of several the verb is plural.
    "barras: vale ",
    "placas: vale ",
    "cubos: vale ",
    "unos ceros",
    // "¿Qué nos dice...?" asks for what is told.
    "Respuesta: La posición de las",
    // Strips are feminine: "las de palabras".
    "primero palabras",
    "primero cifras",
    "primero formas",
    // A title has a colon of its own.
    ": plan",
    // What stands under "Haga" is told to the teacher.
    "Haga Canjeen",
    "de memoria",
    // The ticket has one address.
    "Imprimir a tamaño",
    "No ajustar",
    "Cargar ",
    "No cortar",
    "Cortar ",
    "compartir tapete",
    "girar por",
    "está ahí hasta el último corte",
    "escala está activada",
];

/// All texts of a lesson's packets, line after line.
fn said(lesson: &Lesson) -> String {
    let family = bundled(Bundled::Andika).expect("a family");
    let packets = packets::all(lesson, &family, &[]).expect("packets");
    let pages = packets.iter().flat_map(|laid| support::pdf::read(&laid.bytes(&family, 1)));
    pages.flat_map(|page| page.texts).map(|run| run.text).collect::<Vec<_>>().join(" ")
}

#[test]
fn no_page_says_what_a_teacher_would_strike() {
    let alone = planned(
        "title = \"x: y\"\nlanguage = \"es\"\nseed = 3\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 1\n",
    );
    for lesson in lessons().iter().chain([&alone]) {
        let said = said(lesson);
        let found: Vec<&&str> = STRUCK.iter().filter(|struck| said.contains(**struck)).collect();
        assert!(found.is_empty(), "{found:?}");
    }
    let said = said(&alone);
    for struck in ["De la lista a los grupos", "las tijeras: 1", "Lo escriben", "Armen "] {
        assert!(!said.contains(struck), "one learner is told: {struck}");
    }
}
