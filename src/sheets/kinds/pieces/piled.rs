//! What strips that are cut as piles cost the class.
//!
//! In: some sets, and who gets them. Out: how many sheets of paper their boards and piles take with strips of a size.

use crate::diag::Problem;
use crate::lesson::SortSet;
use crate::measure::{Length, Size};
use crate::sheets::kinds::pieces::design::rows_of;
use crate::sheets::page::Stroke;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::division::Division;
use crate::spec::{Cut, SheetKind};

/// Whether strips are cut as piles.
pub(super) fn stacked(desk: &Desk<'_>) -> bool {
    desk.lesson.spec.print.cut.value == Cut::Stack
}

/// Some sets for the guillotine.
pub(super) struct Piled<'a> {
    desk: &'a Desk<'a>,
    /// The set of everyone who gets one of them.
    mine: Vec<&'a SortSet>,
    /// How many pieces each of these has, the longest first.
    lengths: Vec<usize>,
    line: Length,
    cut: Stroke,
}

/// The piece on top of a set that says whose it is.
const BAND: usize = 1;

impl<'a> Piled<'a> {
    /// These sets, where there are so many spare ones of all.
    pub(super) fn of(desk: &'a Desk<'_>, spares: u32, sets: &[&'a SortSet]) -> Result<Self, Problem> {
        let set = |version| sets.iter().copied().find(|set| set.version == version);
        let mine: Vec<&SortSet> = desk.lesson.seats(spares).iter().filter_map(|seat| set(seat.version)).collect();
        let mut lengths: Vec<usize> = mine.iter().map(|set| set.strips.len() + BAND).collect();
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        let (line, cut) = (Division::line_height(desk)?, desk.layout(SheetKind::Strips)?.cut);
        Ok(Self { desk, mine, lengths, line, cut })
    }

    /// How high the room for pieces is on each way to hold a sheet.
    pub(super) fn rooms(&self) -> impl Iterator<Item = Length> {
        Division::rooms(self.desk, self.line, self.cut).into_iter().map(|(_, _, room)| room.height())
    }

    /// Sheets for everyone's board, whose longest has so many rows on its pages, and strips of this size. Fails where no piece fits on
    /// a sheet.
    pub(super) fn leaves(&self, rows: &[u32], piece: Size) -> Result<usize, Problem> {
        let places = Division::of(self.desk, piece, self.line, self.cut)?.places();
        let board: usize = self.mine.iter().map(|set| rows_of(rows, set).len()).sum();
        Ok(board + self.lengths.iter().step_by(places.max(1)).sum::<usize>())
    }
}
