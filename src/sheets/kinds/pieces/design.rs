//! The sizes that board and strips share, and how a strip is divided.

use std::ops::Range;

use crate::diag::Problem;
use crate::lesson::{SortSet, Strip};
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::number::Form;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::kinds::pieces::content::HeadLines;
use crate::sheets::page::grid;
use crate::sheets::page::layout::Turn;
use crate::sheets::page::text::Face;

/// The sizes that board and strips share.
#[derive(Debug, Clone)]
pub struct Design {
    /// How the board's pages are held.
    pub board: Turn,
    /// How many rows each board page takes.
    pub rows: Vec<u32>,
    /// How wide the column of given forms is.
    pub given: Length,
    /// How high the row of column headings is.
    pub heads: Length,
    /// The lines of the column headings.
    pub head_lines: HeadLines,
    /// How high every box is.
    pub high: Length,
    /// One or two sizes of strips, and which forms have them.
    pub classes: Vec<StripSize>,
    /// The pages of strips: a list for each page of the board, or one list for all of them.
    pub pages: Vec<Vec<StripPage>>,
    /// What text on strips is set in; one size for all.
    pub face: Face,
    /// What the given forms are set in; one size for all.
    pub given_face: Face,
    /// The block pictures, if any: one unit for all.
    pub pictures: Option<Pictures>,
    pub(super) room: MarkedRoom,
    /// From a picture to the edge of its strip.
    pub(super) picture_edge: Length,
    /// Where strips have their marks.
    pub(super) marks: StripMarks,
    /// Whether text stands in the middle of its strip, or in the middle of what the mark leaves.
    pub(super) centred: bool,
}

/// Strips of one size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripSize {
    /// The forms whose strips these are.
    pub forms: Vec<Form>,
    /// How wide their boxes are.
    pub wide: Length,
    /// A strip.
    pub piece: Size,
}

/// A page of strips.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripPage {
    /// How it is held.
    pub turn: Turn,
    /// What stands on it, from the top.
    pub bands: Vec<StripBand>,
}

/// Strips of one size, row by row below each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StripBand {
    /// Which of the design's sizes.
    pub class: usize,
    /// Strips side by side.
    pub columns: u32,
    /// How many strips; at least 1.
    pub count: u32,
}

impl Design {
    /// How many rows each page of a set's board takes: a group with fewer rows may need fewer pages.
    pub fn rows_of(&self, set: &SortSet) -> Vec<u32> {
        rows_of(&self.rows, set)
    }

    /// The rows whose strips go on pages of their own: those of each page of the set's board, or all of them.
    pub fn groups(&self, set: &SortSet) -> Vec<Range<usize>> {
        let apart = self.pages.len() == self.rows.len();
        if apart { groups(&self.rows_of(set)) } else { std::iter::once(0..usize::MAX).collect() }
    }

    /// The size of the strips of a form.
    pub fn class(&self, form: Form) -> Result<&StripSize, Problem> {
        let internal = || Problem::new(format!("internal: no strips of {} were measured", form.word()));
        self.classes.iter().find(|class| class.forms.contains(&form)).ok_or_else(internal)
    }

    /// The one size of strips of a lesson whose pile is cut at once.
    pub fn single(&self) -> Result<Size, Problem> {
        match self.classes.as_slice() {
            [class] => Ok(class.piece),
            _ => Err(Problem::new("internal: strips of several sizes cannot be stacked")),
        }
    }

    /// The box of a form, at a place.
    pub fn cell(&self, form: Form, at: Point) -> Result<Rect, Problem> {
        Ok(Rect::new(at, Size::new(self.class(form)?.wide, self.high)))
    }

    /// Where a strip's text goes.
    pub fn text(&self, piece: Rect) -> Rect {
        let room = self.room.at(self.marks.text);
        if self.centred { room.middle(piece) } else { room.content(piece) }
    }

    /// Where a strip's picture goes.
    pub fn picture(&self, piece: Rect) -> Rect {
        self.room.at(self.marks.picture).picture(piece, self.picture_edge)
    }

    /// Where a strip's version and learner mark goes.
    pub fn mark(&self, piece: Rect) -> Rect {
        self.room.mark(piece)
    }
}

/// How many rows each page of a set's board takes, where the longest board has so many on each: as evenly as its pages allow.
pub(super) fn rows_of(rows: &[u32], set: &SortSet) -> Vec<u32> {
    let (own, most) = (set.rows.len().narrow(), rows.iter().max().copied().unwrap_or(1));
    if own < rows.iter().sum() { grid::share(own, most, 1) } else { rows.to_vec() }
}

/// The rows of each page of a board.
pub(super) fn groups(rows: &[u32]) -> Vec<Range<usize>> {
    let mut from = 0;
    let group = |count: &u32| {
        let first = from;
        from += *count as usize;
        first..from
    };
    rows.iter().map(group).collect()
}

/// The row that a strip belongs to, or that it was made from.
pub fn home(set: &SortSet, strip: &Strip) -> usize {
    let made_of = || strip.wrong.and_then(|(of, _)| set.rows.iter().position(|row| *row == of));
    strip.row.or_else(made_of).unwrap_or(0)
}

/// Where a strip has room for its mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum MarkPlace {
    /// On a line of its own at the foot.
    Below,
    /// At the right of what the strip shows, in the lower corner: a low strip has more room for its content like this.
    Beside,
}

/// The same for text and for pictures.
#[derive(Debug, Clone, Copy)]
pub(super) struct StripMarks {
    pub(super) text: MarkPlace,
    pub(super) picture: MarkPlace,
}

/// What the room of every strip is made of.
#[derive(Debug, Clone, Copy)]
pub(super) struct MarkedRoom {
    pub(super) padding: Length,
    /// The height of a mark's line, and the width of the widest mark.
    pub(super) mark: Size,
}

impl MarkedRoom {
    /// With the mark here.
    pub(super) fn at(self, place: MarkPlace) -> StripRoom {
        let Self { padding, mark } = self;
        let (below, beside) = match place {
            MarkPlace::Below => (mark.height, Length::ZERO),
            MarkPlace::Beside => (Length::ZERO, mark.width),
        };
        StripRoom { padding, below, beside }
    }

    /// The mark of a strip: in its lower right corner, wherever its content leaves room for it.
    pub(super) fn mark(self, piece: Rect) -> Rect {
        let inner = piece.shrunk(Sides { bottom: MARK_INSET, ..Sides::splat(self.padding) });
        Rect::new(Point::new(inner.right() - self.mark.width, inner.bottom() - self.mark.height), self.mark)
    }
}

/// How the room of a strip is divided.
#[derive(Debug, Clone, Copy)]
pub(super) struct StripRoom {
    padding: Length,
    /// What the mark takes at the foot.
    below: Length,
    /// What it takes at the right.
    beside: Length,
}

impl StripRoom {
    /// What the mark leaves.
    pub(super) fn content(self, piece: Rect) -> Rect {
        let (bottom, right) = (self.below + self.padding, self.beside + self.padding);
        piece.shrunk(Sides { right, bottom, ..Sides::splat(self.padding) })
    }

    /// All that keeps clear of the cuts: pictures are worth more room than a margin.
    pub(super) fn picture(self, piece: Rect, edge: Length) -> Rect {
        let edge = edge.min(self.padding);
        let bottom = if self.below > Length::ZERO { self.below + MARK_INSET } else { edge };
        let right = if self.beside > Length::ZERO { self.beside + self.padding } else { edge };
        piece.shrunk(Sides { right, bottom, ..Sides::splat(edge) })
    }

    /// As much on the other side as the mark takes on its own.
    pub(super) fn middle(self, piece: Rect) -> Rect {
        let (ends, sides) = (self.below + self.padding, self.beside + self.padding);
        piece.shrunk(Sides { left: sides, right: sides, top: ends, bottom: ends })
    }
}

/// From a picture to the edge of its strip, the roomiest first: what a cut may run off by, and half as much again or more, so
/// that the picture is seen to stand clear of the cut line. Common practice, no source. The least is for pictures that would
/// take more pages otherwise.
pub(super) const PICTURE_EDGES: [Length; 2] = [Length::mm100(250), Length::mm100(175)];
/// From a mark to the lower edge of its strip: it stays whole when a cut runs off by a millimetre.
const MARK_INSET: Length = Length::mm100(120);
