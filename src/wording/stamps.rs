//! What tells copies and sheets of a pile apart: lines at the top, bands, marks on backs.

use super::area::area;
use super::ticket::PiecesCut;
use crate::spec::{SheetKind, Version};

/// A shape on the back of a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BackShape {
    /// A circle.
    Circle,
    /// A square.
    Square,
    /// A triangle.
    Triangle,
    /// A square on its corner, narrow.
    Diamond,
    /// A cross.
    Cross,
    /// A hexagon.
    Hexagon,
    /// A square with a roof.
    House,
    /// Two triangles, tip to tip.
    BowTie,
}

/// How a shape on the back of a strip is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BackStyle {
    /// Its outline.
    Open,
    /// Its outline with a dot in it.
    Dotted,
    /// Its outline in dashes.
    Dashed,
}

/// Which sheet of which pile; all from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct PileSheet {
    /// The pile, and how many there are.
    pub pile: (usize, usize),
    /// The sheet, and how many the pile has.
    pub sheet: (usize, usize),
}

area! {
    /// Lines, bands and marks that tell copies apart.
    Stamps;

    /// What a bookmark calls a sheet of a pile.
    fn pile_sheet(pile: usize, sheet: usize, back: bool) -> String;

    /// The line at the top of a sheet of strips: which, of what versions, for whom, neighbours drawn together.
    fn pile_line(at: PileSheet, back: bool, versions: &str, learners: &[(u32, u32)]) -> String;

    /// The line at the top of a sheet of a kit's pieces: which, and the first and last kit.
    fn gang_line(sheet: SheetKind, pieces: PiecesCut, at: PileSheet, kits: (usize, usize)) -> String;

    /// What a bookmark calls it.
    fn gang_name(sheet: SheetKind, pieces: PiecesCut, pile: usize, number: usize) -> String;

    /// The band on a kit: which of how many, and what it holds.
    fn kit_band(kit: usize, kits: usize, holds: &str) -> String;

    /// The mark of a copy of a kit's page.
    fn kit_code(kit: u32) -> String;

    /// Numbers in runs of neighbours: "1 to 3, 7".
    fn runs(runs: &[(u32, u32)]) -> String;

    /// Whose set a band is on, where there is no name.
    fn whose_set(number: u32, spare: bool) -> String;

    /// What a bookmark calls a learner's pages: names stay on the page.
    fn copy_of(learner: u32, version: Option<Version>) -> String;

    /// What a band's set is.
    fn set_holds(version: Version, strips: usize) -> String;

    /// The back of a page that has this name.
    fn back_of(name: &str) -> String;

    /// So many shapes side by side, for a listener: "2 dashed squares".
    fn back_mark(style: BackStyle, shape: BackShape, count: u8) -> String;
}
