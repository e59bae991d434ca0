//! What programs are told about a page.

use crate::lesson::Version;
use crate::sheets::page::{Page, Stock};
use crate::spec::SheetKind;

/// What `contents.json` says about a page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// What kind of page it is.
    pub sheet: SheetKind,
    /// The sort set it belongs to.
    pub version: Option<Version>,
    /// The learner it belongs to.
    pub learner: Option<u32>,
    /// The kit it belongs to, counted from 1.
    pub kit: Option<u32>,
    /// What it is printed on.
    pub stock: Stock,
}

impl From<&Page> for Entry {
    fn from(page: &Page) -> Self {
        Self { sheet: page.sheet, version: page.version, learner: page.learner, kit: None, stock: page.stock }
    }
}
