//! Lessons with numbers that are not what is tested, and the files that the copy room gets for them.

use std::collections::BTreeMap;
use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::{self, Chosen, Lesson};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::Number;
use placewright::sheets::job::{self, Job, Order};
use placewright::sheets::kinds::ticket;
use placewright::sheets::packet::Shelf;
use placewright::sheets::page::Packet;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec;
use placewright::spec::Sides;

/// A lesson on numbers from 102 to 999, different in every version.
pub fn lesson(text: &str, roster: &[&str]) -> Lesson {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{found:#?}"));
    let count = spec.numbers.sort.count.value;
    let versions = spec.class.versions.value;
    let number = |n: u32| Number::new(n).expect("a number");
    let set = |version: u32| (0..count).map(|k| number(102 + (97 * k + 3 * version) % 890)).collect();
    let chosen = Chosen {
        model: vec![number(406)],
        sort: (0..versions).map(set).collect(),
        exit: vec![number(911)],
        why: BTreeMap::new(),
        solutions: BTreeMap::new(),
        notes: Vec::new(),
    };
    let roster = roster.iter().map(|name| (*name).to_owned()).collect();
    lesson::with_numbers(&source, spec, chosen, roster).unwrap_or_else(|found| panic!("{found:#?}"))
}

/// Layouts and a typeface.
pub struct Shop {
    pub layouts: Layouts,
    pub family: Family,
}

impl Shop {
    pub fn open() -> Self {
        let layouts = Layouts::read(&[]).expect("bundled layouts");
        Self { layouts, family: bundled(Bundled::Andika).expect("a font") }
    }

    pub fn desk<'a>(&'a self, lesson: &'a Lesson) -> Desk<'a> {
        Desk::new(lesson, &self.layouts, &self.family)
    }

    pub fn order<'a>(&'a self, lesson: &'a Lesson) -> Order<'a> {
        job::order(&Shelf::new(&self.desk(lesson)), &[]).unwrap_or_else(|found| panic!("{found:#?}"))
    }

    /// A job's file.
    pub fn write(&self, job: &Job<'_>) -> Vec<u8> {
        super::pdf::write(&job.packet().expect("pages"), &self.family, 1)
    }

    /// The ticket's file.
    pub fn ticket(&self, lesson: &Lesson, order: &Order<'_>) -> Vec<u8> {
        let pages = ticket::draw(&self.desk(lesson), order).expect("a ticket");
        let title = "Job ticket".to_owned();
        let packet = Packet { file: "copy-room-ticket.pdf", title, sides: Sides::One, copies: 1, pages };
        super::pdf::write(&packet, &self.family, 1)
    }
}
