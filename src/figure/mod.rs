//! A number as a picture by itself, for a slide or a document of one's own.
//!
//! In: numbers, or how many of each place show them; a [`View`], an ink, a width. Out: a [`Drawing`] a number, all of one
//! scale and size, so that they can be compared wherever they are put.

mod amounts;
mod blocks;
mod cards;
mod chart;
mod frames;
mod line;
mod sheet;

use crate::diag::Problem;
use crate::measure::{Family, Length};
use crate::spec::Ink;
use crate::svg::Drawing;

pub use amounts::Amounts;

/// How a number is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// Flats, rods and cubes, up to 9,999.
    Blocks,
    /// A place-value chart.
    Chart,
    /// The cards of its expanded form, apart and laid on top of each other.
    Cards,
    /// Frames of two rows of five, up to 100.
    TenFrame,
    /// Its place between two neighbours on a line.
    NumberLine,
}

impl View {
    /// All views.
    pub const ALL: [Self; 5] = [Self::Blocks, Self::Chart, Self::Cards, Self::TenFrame, Self::NumberLine];

    /// The word on the command line.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Blocks => "blocks",
            Self::Chart => "chart",
            Self::Cards => "cards",
            Self::TenFrame => "ten-frame",
            Self::NumberLine => "number-line",
        }
    }
}

/// What all pictures of a run share.
#[derive(Debug, Clone, Copy)]
pub struct Finish<'a> {
    /// The type for digits and words.
    pub family: &'a Family,
    /// Grey or colour.
    pub ink: Ink,
    /// How wide a picture is at most.
    pub width: Length,
}

/// The narrowest and the widest picture that can be asked for.
pub const WIDTHS: (Length, Length) = (Length::mm(20), Length::mm(2_000));

/// Draws each of the numbers. Fails when a number has no such picture, or none of this width, and says what would serve.
pub fn draw(view: View, shown: &[Amounts], finish: &Finish<'_>) -> Result<Vec<Drawing>, Problem> {
    if !matches!(view, View::Blocks | View::Chart)
        && let Some(traded) = shown.iter().find(|amounts| amounts.is_traded())
    {
        let problem = Problem::new(format!("{} shows numbers, not trades such as {traded}", view.word()));
        return Err(problem.hint("expected --form blocks or --form chart"));
    }
    match view {
        View::Blocks => blocks::draw(shown, finish),
        View::Chart => chart::draw(shown, finish),
        View::Cards => cards::draw(shown, finish),
        View::TenFrame => frames::draw(shown, finish),
        View::NumberLine => line::draw(shown, finish),
    }
}
