//! Class sets: what the copy room gets, read back from the files with an independent reader, cut and stacked.

mod support;

use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::{self, Chosen, Lesson};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::Number;
use placewright::sheets::copyroom::{self, Order};
use placewright::sheets::desk::Desk;
use placewright::sheets::layout::Layouts;
use placewright::{pdf, spec};

/// A lesson with numbers that are not what is tested.
fn lesson(text: &str, roster: &[&str]) -> Lesson {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{found:#?}"));
    let count = spec.numbers.sort.count.value;
    let versions = spec.class.versions.value;
    let number = |n: u32| Number::new(n).expect("a number");
    let set = |version: u32| (0..count).map(|k| number(102 + 97 * k % 890 + version * 3)).collect();
    let chosen = Chosen {
        model: vec![number(406)],
        sort: (0..versions).map(set).collect(),
        exit: vec![number(911)],
        why: Default::default(),
        solutions: Default::default(),
        notes: Vec::new(),
    };
    let roster = roster.iter().map(|name| (*name).to_owned()).collect();
    lesson::with_numbers(&source, spec, chosen, roster).unwrap_or_else(|found| panic!("{found:#?}"))
}

struct Shop {
    layouts: Layouts,
    family: Family,
}

impl Shop {
    fn open() -> Self {
        let layouts = Layouts::read(&[]).expect("bundled layouts");
        Self { layouts, family: bundled(Bundled::Andika).expect("a font") }
    }

    fn desk<'a>(&'a self, lesson: &'a Lesson) -> Desk<'a> {
        Desk { lesson, layouts: &self.layouts, family: &self.family }
    }

    fn order<'a>(&'a self, lesson: &'a Lesson) -> Order<'a> {
        copyroom::order(&self.desk(lesson), None).unwrap_or_else(|found| panic!("{found:#?}"))
    }
}

#[test]
fn look() {
    let shop = Shop::open();
    let text = std::fs::read_to_string("samples/print-shop.toml").unwrap();
    let lesson = lesson(&text, &["Marrow", "Quill"]);
    let order = shop.order(&lesson);
    for job in &order.jobs {
        let bytes = pdf::write(&job.packet().unwrap(), &shop.family, &pdf::Options::default()).unwrap();
        std::fs::write(format!("/tmp/w8-{}", job.file), bytes).unwrap();
    }
    let pages = placewright::sheets::ticket::draw(&shop.desk(&lesson), &order).unwrap();
    let packet = placewright::sheets::page::Packet { file: "copy-room-ticket.pdf", title: "T".into(), pages };
    let bytes = pdf::write(&packet, &shop.family, &pdf::Options::default()).unwrap();
    std::fs::write("/tmp/w8-ticket.pdf", bytes).unwrap();
}
