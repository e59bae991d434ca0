//! One file for the copy room: what is printed on one stock, page by page.

use crate::diag::Problem;
use crate::lesson::job::{Edge, PrintSides};
use crate::sheets::job::deal::Seat;
use crate::sheets::job::packets::Packets;
use crate::sheets::job::piles::Piles;
use crate::sheets::job::shared::Shared;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::entry::Entry;
use crate::sheets::page::mark::{self, Copy};
use crate::sheets::page::{Page, Stock};
use crate::spec::SheetKind;

/// A part of a job, printed before the next begins.
#[derive(Debug, Clone)]
pub enum Part {
    /// Sheets for the guillotine: cut as piles.
    Piles(Box<Piles>),
    /// Pages with slips for several learners.
    Shared(Shared),
    /// One packet a learner.
    Packets(Packets),
}

impl Part {
    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        match self {
            Self::Piles(piles) => piles.leaves(),
            Self::Shared(shared) => shared.leaves(),
            Self::Packets(packets) => packets.leaves(),
        }
    }

    /// Whether anything is printed on backs.
    fn backed(&self) -> bool {
        match self {
            Self::Piles(piles) => piles.backed(),
            Self::Shared(_) => false,
            Self::Packets(packets) => packets.backed(),
        }
    }
}

/// Everything that is printed on one stock.
#[derive(Debug, Clone)]
pub struct Job<'a> {
    /// What it is printed on.
    pub stock: Stock,
    /// One side or two.
    pub sides: PrintSides,
    /// Its parts in print order; none is empty.
    pub parts: Vec<Part>,
    desk: Desk<'a>,
    seats: Vec<Seat>,
}

impl<'a> Job<'a> {
    /// The job for a stock; `None` when it has nothing to print.
    pub(super) fn of(
        desk: Desk<'a>,
        stock: Stock,
        seats: &[Seat],
        parts: Vec<Part>,
        edge: Option<Edge>,
    ) -> Option<Self> {
        if parts.is_empty() {
            return None;
        }
        let sides = edge.filter(|_| parts.iter().any(Part::backed)).map_or(PrintSides::One, PrintSides::Two);
        Some(Self { stock, sides, parts, desk, seats: seats.to_vec() })
    }

    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.parts.iter().map(Part::leaves).sum()
    }

    /// How many sheets of paper a kind of page takes.
    pub fn leaves_of(&self, kind: SheetKind) -> usize {
        let step = if self.sides == PrintSides::One { 1 } else { 2 };
        (0..self.pages()).step_by(step).filter(|page| self.entry(*page).sheet == kind).count()
    }

    /// How many pages the file has: a printed side each, so that in a two-sided job every sheet has two.
    pub fn pages(&self) -> usize {
        match self.sides {
            PrintSides::One => self.leaves(),
            PrintSides::Two(_) => self.leaves() * 2,
        }
    }

    /// Which part a page belongs to, which leaf of that part, and whether it is a back.
    fn find(&self, index: usize) -> Option<(&Part, usize, bool)> {
        let (mut leaf, back) = match self.sides {
            PrintSides::One => (index, false),
            PrintSides::Two(_) => (index / 2, index % 2 == 1),
        };
        for part in &self.parts {
            if leaf < part.leaves() {
                return Some((part, leaf, back));
            }
            leaf -= part.leaves();
        }
        None
    }

    /// What `contents.json` says about a page, without making it.
    pub fn entry(&self, index: usize) -> Entry {
        let piled = Entry { sheet: SheetKind::Strips, version: None, learner: None, stock: self.stock };
        let packets = match self.find(index) {
            Some((Part::Shared(_), ..)) => return Entry { sheet: SheetKind::Exit, ..piled },
            Some((Part::Packets(packets), leaf, _)) => Some((packets, leaf)),
            _ => None,
        };
        let Some((packets, leaf)) = packets else { return piled };
        let found = packets.leaf(leaf).and_then(|(seat, leaf)| Some((self.seats.get(seat)?, leaf)));
        found.map_or(piled, |(seat, leaf)| Entry {
            sheet: leaf.front.sheet,
            version: leaf.front.version,
            learner: Some(seat.number),
            stock: self.stock,
        })
    }

    /// The page at an index below [`Job::pages`], finished with its learner's mark. Pages may be asked for in any order.
    pub fn page(&self, index: usize) -> Result<Page, Problem> {
        match self.find(index) {
            Some((Part::Piles(piles), leaf, back)) => piles.page(&self.desk, &self.seats, leaf, back),
            Some((Part::Shared(shared), leaf, back)) => match shared.leaf(leaf) {
                Some(front) if back => Ok(blank(front)),
                Some(front) => Ok(front.clone()),
                None => Err(lost(self.stock, index)),
            },
            Some((Part::Packets(packets), leaf, back)) => self.packet_page(packets, leaf, back),
            None => Err(lost(self.stock, index)),
        }
    }

    /// A learner's copy of a master, or what is behind it.
    fn packet_page(&self, packets: &Packets, leaf: usize, back: bool) -> Result<Page, Problem> {
        let found = packets.leaf(leaf).and_then(|(seat, leaf)| Some((self.seats.get(seat)?, leaf)));
        let Some((seat, leaf)) = found else {
            return Err(lost(self.stock, leaf));
        };
        let master = match (back, &leaf.back) {
            (false, _) => leaf.front.clone(),
            (true, Some(back)) => back.clone(),
            (true, None) => blank(&leaf.front),
        };
        let copy = Copy { learner: Some(seat.number), name: name(&self.desk, seat), folio: None };
        // Every copy says which version its learner has, also on sheets that are the same for all.
        let version = master.version;
        let coded = Page { version: Some(seat.version), ..master };
        let page = mark::on(coded, &copy, self.desk.layouts, self.desk.family, self.desk.text())?;
        Ok(Page { version, ..page })
    }
}

/// The name on the roster for a seat; empty for spares and where the roster ends.
pub fn name<'a>(desk: &Desk<'a>, seat: &Seat) -> &'a str {
    let index = usize::try_from(seat.number).unwrap_or(usize::MAX).wrapping_sub(1);
    desk.lesson.roster.get(index).filter(|_| !seat.spare).map_or("", String::as_str)
}

/// An empty back, so that the next front starts on a new sheet.
fn blank(front: &Page) -> Page {
    Page { name: format!("{} (back)", front.name), layers: Vec::new(), ..front.clone() }
}

/// A fault of ours: a page that was counted and is not there.
fn lost(stock: Stock, index: usize) -> Problem {
    Problem::new(format!("internal: the copies on {} have no page {}", stock.word(), index + 1))
        .hint("please report this")
}
