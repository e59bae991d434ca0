//! The lesson as all sheets see it.

use super::exit::check::Check;
use super::in_play::InPlay;
use super::types::{Chosen, SortSet};
use crate::number::{Number, Slip, Style};
use crate::spec::{SheetKind, Spec};
use crate::wording::Tools;

/// A lesson ready to be laid out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lesson {
    /// What was asked for.
    pub spec: Spec,
    /// How forms are written.
    pub style: Style,
    /// The numbers.
    pub chosen: Chosen,
    /// One a version.
    pub sets: Vec<SortSet>,
    /// The quick checks, one for each exit number.
    pub checks: Vec<Check>,
    /// The slips behind decoys and wrong choices, with the letters that all sheets use.
    pub slips: Vec<InPlay>,
    /// Names from the roster in order; empty without one.
    pub roster: Vec<String>,
}

impl Lesson {
    /// What learners can touch when something goes wrong with a number: kits that are made, and the class's own blocks.
    pub fn tools(&self, number: Number) -> Tools {
        let makes = |kind| self.spec.sheets.make.value.contains(&kind);
        Tools {
            mat: makes(SheetKind::Mat),
            blocks: number <= Number::MAX_BLOCKS && (makes(SheetKind::Blocks) || self.has_tub()),
            cards: makes(SheetKind::Layered),
        }
    }

    /// Whether the class has blocks of its own: whoever makes mats and says what the class's tub holds has one.
    pub fn has_tub(&self) -> bool {
        self.spec.sheets.make.value.contains(&SheetKind::Mat) && !self.spec.numbers.at_most.is_empty()
    }

    /// The letter of a slip on every sheet; none for one that is not in play.
    pub fn letter(&self, slip: Slip) -> Option<char> {
        self.slips.iter().find(|in_play| in_play.slip == slip).map(|in_play| in_play.letter)
    }
}
