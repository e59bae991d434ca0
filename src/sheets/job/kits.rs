//! Whole pages of kits: copy after copy, kept for other lessons.
//!
//! In: the pages of one kit and how many kits there are. Out: which kit and which page a sheet is. Nothing is printed behind
//! them: the mat is full of blocks when a learner looks for a word.

use crate::sheets::page::Page;

/// Copies of whole pages.
#[derive(Debug, Clone)]
pub struct Kits {
    /// The pages of one copy.
    pub pages: Vec<Page>,
    /// How many copies.
    pub copies: usize,
}

impl Kits {
    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.pages.len() * self.copies
    }

    /// The kit, from 1, and the page at a place in the print order.
    pub fn page(&self, index: usize) -> Option<(usize, &Page)> {
        let a_kit = self.pages.len().max(1);
        Some((index / a_kit + 1, self.pages.get(index % a_kit)?)).filter(|(kit, _)| *kit <= self.copies)
    }
}
