//! Lessons with numbers that are not what is tested, and the files that the copy room gets for them.

use std::collections::BTreeMap;
use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::job::JobFacts;
use placewright::lesson::{self, Chosen, Lesson};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::Number;
use placewright::sheets::files::PacketKind;
use placewright::sheets::job;
use placewright::sheets::masters::Masters;
use placewright::sheets::packets::{self, Packet};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::SheetKind;
use placewright::{pdf, spec};

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

    /// What the copy room has to do for a lesson.
    pub fn job(&self, lesson: &Lesson) -> JobFacts {
        let desk = self.desk(lesson);
        let order = job::order(&Masters::new(&desk), &[]).unwrap_or_else(|found| panic!("{found:?}"));
        job::facts::of(&desk, &order).expect("facts")
    }

    /// Every packet, as the program makes it.
    pub fn packets<'a>(&'a self, lesson: &'a Lesson) -> Vec<Packet<'a>> {
        packets::make(&self.desk(lesson), &[]).unwrap_or_else(|found| panic!("{found:#?}"))
    }

    /// The copy room's packets of copies.
    pub fn copies<'a>(&'a self, lesson: &'a Lesson) -> Vec<Packet<'a>> {
        let copies = |packet: &Packet<'_>| {
            packet.kind.about().sheets().all(|held| held != SheetKind::Ticket)
                && packet.kind.about().reader == "copy room"
        };
        self.packets(lesson).into_iter().filter(copies).collect()
    }

    /// A packet's file.
    pub fn write(&self, packet: &Packet<'_>) -> Vec<u8> {
        pdf::bytes(packet, &pdf::Common::new(&self.family), 1).expect("a file")
    }

    /// The ticket's file.
    pub fn ticket(&self, lesson: &Lesson) -> Vec<u8> {
        let packets = self.packets(lesson);
        self.write(packets.iter().find(|packet| packet.kind == PacketKind::Ticket).expect("a ticket"))
    }
}
