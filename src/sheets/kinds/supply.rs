//! Sheets that serve several kits at once.
//!
//! Pieces of a kit are the same for everyone, so that sheets which hold those of several kits waste less. A few different
//! pages are enough, however large the class is: each is printed so many times.

use std::fmt;

use crate::diag::Problem;
use crate::lesson::job::Stock;
use crate::measure::{Rect, Size};
use crate::sheets::page::{Node, Page};
use crate::spec::SheetKind;
use crate::wording::ticket::PiecesCut;

/// What is printed of a sheet so that there is enough for so many kits.
#[derive(Debug, Clone, Default)]
pub struct Supply {
    /// Each page and how many times it is printed, in print order; no count is 0.
    pub pages: Vec<(Page, usize)>,
}

impl Supply {
    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.pages.iter().map(|(_, times)| times).sum()
    }

    /// The page on a leaf.
    pub fn leaf(&self, mut index: usize) -> Option<&Page> {
        self.pages.iter().find_map(|(page, times)| {
            let here = index < *times;
            index = index.saturating_sub(*times);
            here.then_some(page)
        })
    }
}

/// Pieces of one size that a kit holds, for sheets that are cut as piles.
pub struct Suit<'d> {
    /// The sheet whose pieces they are.
    pub kind: SheetKind,
    /// What they are.
    pub what: PiecesCut,
    /// The size of each.
    pub size: Size,
    /// What each is called, in the order of the pile.
    pub names: Vec<String>,
    /// What they are printed on.
    pub stock: Stock,
    /// Draws a piece into a place.
    pub draw: Box<dyn Fn(usize, Rect) -> Result<Vec<Node>, Problem> + 'd>,
}

impl fmt::Debug for Suit<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Suit").field("what", &self.what).field("size", &self.size).field("names", &self.names).finish()
    }
}
