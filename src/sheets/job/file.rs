//! One file for the copy room: what is printed on one stock and one or both sides, page by page.

use crate::diag::Problem;
use crate::lesson::deal::Seat;
use crate::lesson::job::{Edge, PrintSides, Stock};
use crate::sheets::files::PacketKind;
use crate::sheets::job::gang::Gang;
use crate::sheets::job::kits::Kits;
use crate::sheets::job::packets::Packets;
use crate::sheets::job::piles::Piles;
use crate::sheets::job::shared::SlipPages;
use crate::sheets::job::stamp::name;
use crate::sheets::kinds::supply::Supply;
use crate::sheets::kinds::ticket::proof::{self, Proved};
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::entry::Entry;
use crate::sheets::page::mark::{self, Copy};
use crate::spec::SheetKind;

/// A part of a file, printed before the next begins.
#[derive(Debug, Clone)]
pub enum Part {
    /// One sheet to try the printer with: its front, and its back where there is one.
    Proof(Vec<Page>),
    /// One sheet that says which part follows.
    SlipSheet(Box<Page>),
    /// Whole pages of kits, copy after copy.
    Kits(Kits),
    /// Pieces of kits, several kits a sheet: so many kits.
    Supply(Supply, usize),
    /// Pieces of kits for the guillotine.
    Gang(Box<Gang>),
    /// Strips for the guillotine: cut as piles.
    Piles(Box<Piles>),
    /// Pages with slips for several learners.
    Shared(SlipPages),
    /// One packet a learner.
    Packets(Packets),
}

impl Part {
    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        match self {
            Self::Proof(_) | Self::SlipSheet(_) => 1,
            Self::Kits(kits) => kits.leaves(),
            Self::Supply(supply, _) => supply.leaves(),
            Self::Gang(gang) => gang.leaves(),
            Self::Piles(piles) => piles.leaves(),
            Self::Shared(shared) => shared.leaves(),
            Self::Packets(packets) => packets.leaves(),
        }
    }
}

/// A file of the copy room.
#[derive(Debug, Clone)]
pub struct Job<'a> {
    /// Which.
    pub kind: PacketKind,
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
    /// A file with these parts.
    pub(super) fn of(desk: &Desk<'a>, stock: Stock, sides: PrintSides, seats: &[Seat], parts: Vec<Part>) -> Self {
        let kind = match (stock, sides) {
            (Stock::Paper, PrintSides::One) => PacketKind::Paper,
            (Stock::Paper, PrintSides::Two(_)) => PacketKind::PaperBothSides,
            (Stock::Card, PrintSides::One) => PacketKind::Card,
            (Stock::Card, PrintSides::Two(_)) => PacketKind::CardBothSides,
        };
        Self { kind, stock, sides, parts, desk: desk.clone(), seats: seats.to_vec() }
    }

    /// Begins the file with a proof.
    pub(super) fn prove(&mut self) -> Result<(), Problem> {
        let (file, stock, sides, sheets) = (self.kind.about().file, self.stock, self.sides, self.leaves() + 1);
        let edge = match sides {
            PrintSides::One => Edge::Long,
            PrintSides::Two(edge) => edge,
        };
        let proved = Proved { file, stock, sides, sheets };
        let pages = proof::pages(&self.desk, &proved, |front, page| edge.behind(front, page))?;
        self.parts.insert(0, Part::Proof(pages));
        Ok(())
    }

    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.parts.iter().map(Part::leaves).sum()
    }

    /// How many pages the file has: a printed side each, so that in a two-sided file every sheet has two.
    pub fn pages(&self) -> usize {
        self.leaves() * self.sides.a_sheet()
    }

    /// Which part a page belongs to, which leaf of that part, and whether it is a back.
    fn find(&self, index: usize) -> Option<(&Part, usize, bool)> {
        let a_sheet = self.sides.a_sheet();
        let (mut leaf, back) = (index / a_sheet, index % a_sheet == 1);
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
        let of = |sheet| Entry { sheet, version: None, learner: None, kit: None, stock: self.stock };
        let strips = of(SheetKind::Strips);
        match self.find(index) {
            None | Some((Part::Piles(_), ..)) => strips,
            Some((Part::Proof(_) | Part::SlipSheet(_), ..)) => of(SheetKind::Ticket),
            Some((Part::Shared(_), ..)) => of(SheetKind::Exit),
            Some((Part::Gang(gang), ..)) => of(gang.kind),
            Some((Part::Supply(supply, _), leaf, _)) => supply.leaf(leaf).map_or(strips, |page| of(page.sheet)),
            Some((Part::Kits(kits), leaf, _)) => {
                let found = kits.page(leaf);
                found.map_or(strips, |(kit, page)| Entry { kit: u32::try_from(kit).ok(), ..of(page.sheet) })
            }
            Some((Part::Packets(packets), leaf, _)) => {
                let found = packets.leaf(leaf).and_then(|(seat, leaf)| Some((self.seats.get(seat)?, leaf)));
                found.map_or(strips, |(seat, leaf)| Entry {
                    version: leaf.front.version,
                    learner: Some(seat.number),
                    ..of(leaf.front.sheet)
                })
            }
        }
    }

    /// The page at an index below [`Job::pages`], finished with its mark. Pages may be asked for in any order.
    pub fn page(&self, index: usize) -> Result<Page, Problem> {
        let desk = &self.desk;
        let side = |front: Option<&Page>, back| match front {
            Some(front) if back => Ok(blank(&self.desk, front)),
            Some(front) => Ok(front.clone()),
            None => Err(lost(self.stock, index)),
        };
        match self.find(index) {
            Some((Part::Piles(piles), leaf, back)) => piles.page(desk, leaf, back),
            Some((Part::Proof(pages), _, back)) => match pages.get(usize::from(back)) {
                Some(page) => Ok(page.clone()),
                None => side(pages.first(), back),
            },
            Some((Part::SlipSheet(page), _, back)) => side(Some(&**page), back),
            Some((Part::Gang(gang), leaf, back)) => side(gang.page(desk, leaf)?.as_ref(), back),
            Some((Part::Shared(shared), leaf, back)) => side(shared.leaf(leaf), back),
            Some((Part::Supply(supply, _), leaf, back)) => side(supply.leaf(leaf), back),
            Some((Part::Kits(kits), leaf, back)) => {
                let Some((kit, page)) = kits.page(leaf) else { return Err(lost(self.stock, index)) };
                let copy = Copy { kit: u32::try_from(kit).ok(), ..Copy::default() };
                mark::on(desk, side(Some(page), back)?, &copy)
            }
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
        let master = match &leaf.back {
            Some(behind) if back => behind.clone(),
            None if back => blank(&self.desk, &leaf.front),
            _ => leaf.front.clone(),
        };
        let copy = Copy { learner: Some(seat.number), name: name(&self.desk, seat), ..Copy::default() };
        // Every copy says which version its learner has, also on sheets that are the same for all.
        let version = master.version;
        let coded = Page { version: Some(seat.version), ..master };
        let page = mark::on(&self.desk, coded, &copy)?;
        Ok(Page { version, ..page })
    }
}

/// An empty back, so that the next front starts on a new sheet.
fn blank(desk: &Desk<'_>, front: &Page) -> Page {
    Page { name: desk.lesson.wording().back_of(&front.name), layers: Vec::new(), ..front.clone() }
}

/// A fault of ours: a page that was counted and is not there.
fn lost(stock: Stock, index: usize) -> Problem {
    Problem::new(format!("internal: the copies on {} have no page {}", stock.word(), index + 1))
        .hint("please report this")
}
