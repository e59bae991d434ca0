//! Pages that go to one learner after the other: each learner's packet, whole, before the next.
//!
//! In: masters and seats. Out: for any leaf of the job whose it is and which master it copies. Nothing is copied here.

use crate::lesson::deal::Seat;
use crate::lesson::job::Edge;
use crate::lesson::{SortSet, Version};
use crate::sheets::job::backs;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Page, Stock};
use crate::spec::SheetKind;

/// One leaf of a packet.
#[derive(Debug, Clone)]
pub struct Leaf {
    /// The master of its front.
    pub front: Page,
    /// What is printed behind it, if anything.
    pub back: Option<Page>,
}

/// What each version's packet holds on one stock.
#[derive(Debug, Clone)]
pub struct Leaves(Vec<Vec<Leaf>>);

impl Leaves {
    /// How many leaves the longest packet has.
    pub fn most(&self) -> usize {
        self.0.iter().map(Vec::len).max().unwrap_or(0)
    }

    /// Those with something printed behind them, or those without.
    #[must_use]
    pub fn only(&self, backed: bool) -> Self {
        let of = |leaves: &Vec<Leaf>| leaves.iter().filter(|leaf| leaf.back.is_some() == backed).cloned().collect();
        Self(self.0.iter().map(of).collect())
    }
}

/// The leaves on a stock for every version, with backs for strips where the sheet is turned over an edge.
pub fn leaves(desk: &Desk<'_>, masters: &[Page], stock: Stock, edge: Option<Edge>) -> Leaves {
    if desk.lesson.sets.is_empty() {
        // Nothing is sorted: everyone gets the same.
        let same = masters.iter().filter(|page| page.stock == stock);
        let leaves = same.map(|front| Leaf { front: front.clone(), back: None }).collect();
        return Leaves(vec![backed_by_language(leaves, edge)]);
    }
    let of = |set: &SortSet| {
        let marks = backs::marks(set, desk.lesson.spec.seed.value);
        let mine = masters.iter().filter(|page| page.version.is_none_or(|version| version == set.version));
        let leaf = |front: &Page| {
            let edge = edge.filter(|_| front.sheet == SheetKind::Strips);
            Leaf { front: front.clone(), back: edge.map(|edge| backs::page(desk, front, &marks, edge)) }
        };
        let leaves = mine.filter(|page| page.stock == stock).map(leaf).collect();
        backed_by_language(leaves, edge)
    };
    Leaves(desk.lesson.sets.iter().map(of).collect())
}

/// The same with the page home in a second language behind the one in the first, where sheets turn like a book's.
fn backed_by_language(leaves: Vec<Leaf>, edge: Option<Edge>) -> Vec<Leaf> {
    let mut backed: Vec<Leaf> = Vec::new();
    for leaf in leaves {
        match backed.last_mut() {
            Some(Leaf { front, back: back @ None })
                if front.sheet == SheetKind::Family
                    && leaf.front.sheet == SheetKind::Family
                    && edge == Some(Edge::of(front.size)) =>
            {
                *back = Some(leaf.front);
            }
            _ => backed.push(leaf),
        }
    }
    backed
}

/// Every learner's packet in order.
#[derive(Debug, Clone)]
pub struct Packets {
    leaves: Leaves,
    /// The versions of the seats, in order.
    versions: Vec<Version>,
    /// The first leaf of each seat, and at the end the number of leaves.
    starts: Vec<usize>,
}

impl Packets {
    /// Packets for these seats.
    pub fn plan(leaves: Leaves, seats: &[Seat]) -> Self {
        let versions: Vec<Version> = seats.iter().map(|seat| seat.version).collect();
        let mut starts = vec![0];
        let mut next = 0;
        for version in &versions {
            next += leaves.0.get(usize::from(version.0)).map_or(0, Vec::len);
            starts.push(next);
        }
        Self { leaves, versions, starts }
    }

    /// How many leaves in all.
    pub fn leaves(&self) -> usize {
        self.starts[self.starts.len() - 1]
    }

    /// How many packets.
    pub fn len(&self) -> usize {
        self.versions.len()
    }

    /// Whether nobody gets anything.
    pub fn is_empty(&self) -> bool {
        self.leaves() == 0
    }

    /// Whether any leaf has something printed behind it.
    pub fn backed(&self) -> bool {
        self.leaves.0.iter().flatten().any(|leaf| leaf.back.is_some())
    }

    /// The first leaf of each packet, and at the end the number of leaves.
    pub fn starts(&self) -> &[usize] {
        &self.starts
    }

    /// What a packet of each version holds.
    pub fn versions(&self) -> &[Vec<Leaf>] {
        &self.leaves.0
    }

    /// The seat's index and the leaf at a place in the print order.
    pub fn leaf(&self, index: usize) -> Option<(usize, &Leaf)> {
        let seat = self.starts.partition_point(|start| *start <= index).checked_sub(1)?;
        let version = self.versions.get(seat)?;
        Some((seat, self.leaves.0.get(usize::from(version.0))?.get(index - self.starts[seat])?))
    }
}
