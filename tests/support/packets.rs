//! Packets with all their pages in hand, for tests that look at pages.

use placewright::diag::{Diagnostic, Problem};
use placewright::lesson::Lesson;
use placewright::lesson::job::{JobFacts, PrintSides};
use placewright::measure::Family;
use placewright::pdf;
use placewright::sheets::files::PacketKind;
use placewright::sheets::packets::{self, Packet};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{Item, Page};
use placewright::sheets::{Lay, row};
use placewright::spec::SheetKind;

/// A packet as the program makes it, and every page of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Laid {
    pub kind: PacketKind,
    pub title: String,
    pub sides: PrintSides,
    pub pages: Vec<Page>,
}

impl Laid {
    pub fn new(packet: &Packet<'_>) -> Self {
        let pages = (0..packet.len()).map(|index| packet.page(index).expect("a page").into_owned()).collect();
        Self { kind: packet.kind, title: packet.title.clone(), sides: packet.sides, pages }
    }

    pub fn file(&self) -> &'static str {
        self.kind.about().file
    }

    /// Its file, as the program writes it.
    pub fn bytes(&self, family: &Family, threads: usize) -> Vec<u8> {
        let packet = Packet::of(self.kind, self.title.clone(), "en-US", self.sides, self.pages.clone());
        pdf::bytes(&packet, &pdf::Common::new(family), threads).expect("a file")
    }
}

/// Pages as a teacher's packet.
pub fn teachers(title: &str, pages: Vec<Page>) -> Laid {
    Laid { kind: PacketKind::Teacher, title: title.to_owned(), sides: PrintSides::One, pages }
}

/// Every packet of a lesson with the bundled layouts, or the pages of the sheets in `only`.
pub fn all(lesson: &Lesson, family: &Family, only: &[SheetKind]) -> Result<Vec<Laid>, Vec<Diagnostic>> {
    let layouts = Layouts::read(&[]).expect("bundled layouts");
    let desk = Desk::new(lesson, &layouts, family);
    Ok(packets::make(&desk, only)?.iter().map(Laid::new).collect())
}

/// One packet of a lesson.
#[track_caller]
pub fn one(lesson: &Lesson, family: &Family, kind: PacketKind) -> Laid {
    let all = all(lesson, family, &[]).unwrap_or_else(|found| panic!("{found:#?}"));
    all.into_iter().find(|packet| packet.kind == kind).expect("the packet")
}

/// The masters of a sheet.
pub fn masters(desk: &Desk<'_>, kind: SheetKind) -> Result<Vec<Page>, Problem> {
    match row(kind).lay {
        Lay::Masters(lay) => lay(desk),
        Lay::Plan(lay) => lay(desk, &JobFacts::default()),
        Lay::Cover(_) | Lay::Ticket(_) => panic!("{} has no masters", kind.word()),
    }
}

/// All that is printed as text on these pages, in order.
pub fn texts<'p>(pages: impl IntoIterator<Item = &'p Page>) -> Vec<String> {
    let mut all = Vec::new();
    for node in pages.into_iter().flat_map(|page| &page.layers).flat_map(|layer| &layer.nodes) {
        node.each(&mut |item| {
            if let Item::Text(text) = item {
                all.push(text.text.clone());
            }
        });
    }
    all
}
