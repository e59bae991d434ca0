//! Whole pages of kits: copy after copy, kept for other lessons.
//!
//! In: the leaves of one kit and how many kits there are. Out: which kit and which leaf a sheet is.

use crate::sheets::job::packets::Leaf;

/// Copies of whole pages.
#[derive(Debug, Clone)]
pub struct Kits {
    /// The leaves of one copy.
    pub leaves: Vec<Leaf>,
    /// How many copies.
    pub copies: usize,
}

impl Kits {
    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.leaves.len() * self.copies
    }

    /// Whether anything is printed on backs.
    pub fn backed(&self) -> bool {
        self.leaves.iter().any(|leaf| leaf.back.is_some())
    }

    /// The kit, from 1, and the leaf at a place in the print order.
    pub fn leaf(&self, index: usize) -> Option<(usize, &Leaf)> {
        let a_kit = self.leaves.len().max(1);
        Some((index / a_kit + 1, self.leaves.get(index % a_kit)?)).filter(|(kit, _)| *kit <= self.copies)
    }
}
