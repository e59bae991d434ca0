//! Every packet of a lesson, whether its pages are in hand or made as they are printed.
//!
//! In: a [`Desk`]. Out: a [`Sheaf`] a file, in the order of the contract. What a class of thousands gets is never held as a
//! whole: its pages come one at a time.

use std::borrow::Cow;

use crate::diag::{Diagnostic, Problem, Severity};
use crate::lesson::Version;
use crate::sheets::job::{self, Job};
use crate::sheets::kinds::ticket;
use crate::sheets::packet::Shelf;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Packet, Page, Stock};
use crate::spec::{SheetKind, Sides};

/// A packet.
#[derive(Debug, Clone)]
pub enum Sheaf<'a> {
    /// All its pages are in hand.
    Packet(Packet),
    /// Its pages are made when they are asked for.
    Job(Job<'a>),
}

/// What `contents.json` says about a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// What kind of page it is.
    pub sheet: SheetKind,
    /// The sort set it belongs to.
    pub version: Option<Version>,
    /// The learner it belongs to.
    pub learner: Option<u32>,
    /// What it is printed on.
    pub stock: Stock,
}

impl Sheaf<'_> {
    /// The file's name.
    pub fn file(&self) -> &'static str {
        match self {
            Self::Packet(packet) => packet.file,
            Self::Job(job) => job.file,
        }
    }

    /// The document's title.
    pub fn title(&self) -> &str {
        match self {
            Self::Packet(packet) => &packet.title,
            Self::Job(job) => &job.title,
        }
    }

    /// Which sides are printed.
    pub fn sides(&self) -> Sides {
        match self {
            Self::Packet(packet) => packet.sides,
            Self::Job(job) => job.sides.word(),
        }
    }

    /// How many copies to print.
    pub fn copies(&self) -> u32 {
        match self {
            Self::Packet(packet) => packet.copies,
            Self::Job(_) => 1,
        }
    }

    /// How many pages.
    pub fn len(&self) -> usize {
        match self {
            Self::Packet(packet) => packet.pages.len(),
            Self::Job(job) => job.pages(),
        }
    }

    /// Whether there is nothing to print.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The page at an index below [`Sheaf::len`].
    pub fn page(&self, index: usize) -> Result<Cow<'_, Page>, Problem> {
        match self {
            Self::Packet(packet) => packet.pages.get(index).map(Cow::Borrowed).ok_or_else(|| {
                Problem::new(format!("internal: {} has no page {}", packet.file, index + 1)).hint("please report this")
            }),
            Self::Job(job) => job.page(index).map(Cow::Owned),
        }
    }

    /// What is said about each page, in order, without making it.
    pub fn entries(&self) -> Box<dyn Iterator<Item = Entry> + '_> {
        match self {
            Self::Packet(packet) => Box::new(packet.pages.iter().map(entry)),
            Self::Job(job) => Box::new((0..job.pages()).map(|k| job.entry(k))),
        }
    }
}

/// What is said about a page.
fn entry(page: &Page) -> Entry {
    Entry { sheet: page.sheet, version: page.version, learner: page.learner, stock: page.stock }
}

/// Makes every packet of a lesson, or the pages of the sheets in `only` where it names any; packets without pages are left
/// out.
pub fn make<'a>(desk: &Desk<'a>, only: &[SheetKind]) -> Result<Vec<Sheaf<'a>>, Vec<Diagnostic>> {
    // The contract's order: teacher, copy room, then whoever stands in.
    let shelf = Shelf::new(desk);
    let mut packets = crate::sheets::packets(&shelf, only)?.into_iter().map(Sheaf::Packet);
    let mut all: Vec<Sheaf<'_>> = packets.by_ref().take(1).collect();
    let order = job::order(&shelf, only)?;
    // The ticket is about the whole job, also when it is asked for by itself.
    let whole = if only.contains(&SheetKind::Ticket) { Some(job::order(&shelf, &[])?) } else { None };
    let told = whole.as_ref().or(only.is_empty().then_some(&order));
    let pages = told.map(|order| ticket::draw(desk, order)).transpose().map_err(|problem| vec![unplaced(problem)])?;
    all.extend(order.jobs.into_iter().map(Sheaf::Job));
    let (title, pages) = (format!("{}: job ticket", desk.lesson.spec.title.value), pages.unwrap_or_default());
    all.push(Sheaf::Packet(Packet { file: "copy-room-ticket.pdf", title, sides: Sides::One, copies: 1, pages }));
    all.extend(packets);
    all.retain(|sheaf| !sheaf.is_empty());
    Ok(all)
}

/// A problem that no place in a file is to blame for.
fn unplaced(problem: Problem) -> Diagnostic {
    Diagnostic { severity: Severity::Error, place: None, problem, related: Vec::new() }
}
