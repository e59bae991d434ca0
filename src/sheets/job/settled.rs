//! What the copies take, settled and not drawn yet: files with their parts, each counted.

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::deal::Seat;
use crate::lesson::job::{Fill, PrintSides, Stock};
use crate::sheets::job::impose::Stacks;
use crate::sheets::job::kits::Kits;
use crate::sheets::job::packets::Packets;
use crate::sheets::job::runs::Runs;
use crate::sheets::job::shared::SlipPages;
use crate::sheets::kinds::blocks::BlockSupply;
use crate::sheets::kinds::layered::CardSupply;
use crate::sheets::kinds::supply::Supply;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// A part of a file that is counted and not drawn yet.
#[derive(Debug, Clone)]
pub enum Settled {
    /// Whole pages of kits.
    Kits(Kits),
    /// Pieces of kits, several kits a sheet: so many kits.
    Supply(SheetKind, Arc<SupplyPlan>, usize),
    /// Pieces of so many kits for the guillotine: a plan for each size.
    Gang(SheetKind, usize, Vec<Runs>),
    /// Strips for the guillotine: which size of strips, which piece is where, and how many piles come before these and are
    /// there in all.
    Piles(usize, Stacks, (usize, usize)),
    /// Pages with slips for several learners.
    Shared(SlipPages),
    /// One packet a learner.
    Packets(Packets),
}

/// Sheets that serve several kits.
#[derive(Debug, Clone)]
pub enum SupplyPlan {
    /// Of blocks.
    Blocks(BlockSupply),
    /// Of layered cards.
    Cards(CardSupply),
}

impl SupplyPlan {
    /// How many sheets.
    fn leaves(&self) -> usize {
        match self {
            Self::Blocks(plan) => plan.leaves(),
            Self::Cards(plan) => plan.leaves(),
        }
    }

    /// The sheets.
    pub(super) fn draw(&self, desk: &Desk<'_>) -> Result<Supply, Problem> {
        match self {
            Self::Blocks(plan) => plan.draw(desk),
            Self::Cards(plan) => plan.draw(desk),
        }
    }
}

impl Settled {
    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        match self {
            Self::Kits(kits) => kits.leaves(),
            Self::Supply(_, plan, _) => plan.leaves(),
            Self::Gang(_, _, sizes) => sizes.iter().map(Runs::sheets).sum(),
            Self::Piles(_, stacks, _) => stacks.sheets(),
            Self::Shared(slips) => slips.leaves(),
            Self::Packets(packets) => packets.leaves(),
        }
    }

    /// Which kits these are, if any.
    pub fn kit(&self) -> Option<SheetKind> {
        match self {
            Self::Kits(kits) => kits.pages.first().map(|page| page.sheet),
            Self::Supply(kind, ..) | Self::Gang(kind, ..) => Some(*kind),
            Self::Piles(..) | Self::Shared(_) | Self::Packets(_) => None,
        }
    }

    /// Whether anything is printed on backs, where strips that are cut as piles have `marks` there.
    pub fn backed(&self, marks: bool) -> bool {
        match self {
            Self::Piles(..) => marks,
            Self::Packets(packets) => packets.backed(),
            Self::Kits(_) | Self::Supply(..) | Self::Gang(..) | Self::Shared(_) => false,
        }
    }
}

/// A file: its parts in print order, none of them empty.
#[derive(Debug, Clone)]
pub struct SettledFile {
    /// What it is printed on.
    pub stock: Stock,
    /// One side or two.
    pub sides: PrintSides,
    /// What it holds besides its proof and its slip-sheets.
    pub parts: Vec<Settled>,
}

impl SettledFile {
    /// How many sheets of paper, without the proof and slip-sheets.
    pub fn leaves(&self) -> usize {
        self.parts.iter().map(Settled::leaves).sum()
    }

    /// How many sheets are printed: with the proof and, where parts are parted, a slip-sheet for each.
    pub fn printed(&self, parted: bool) -> usize {
        1 + if parted { self.parts.len() } else { 0 } + self.leaves()
    }
}

/// All that is printed.
#[derive(Debug, Clone)]
pub struct SettledOrder {
    /// The sets of what is used up, spare ones last.
    pub seats: Vec<Seat>,
    /// What becomes of the places of the last pile that no set asked for.
    pub fill: Fill,
    /// The files, paper first; none is empty.
    pub files: Vec<SettledFile>,
}
