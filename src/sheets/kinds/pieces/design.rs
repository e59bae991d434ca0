//! The sizes that board and strips share, and how a strip is divided.

use std::ops::Range;

use crate::diag::Problem;
use crate::lesson::{SortSet, Strip};
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::Form;
use crate::sheets::blocks::picture::Pictures;
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
    /// How high every box is.
    pub high: Length,
    /// One or two sizes of strips, and which forms have them.
    pub classes: Vec<StripSize>,
    /// What text on strips is set in; one size for all.
    pub face: Face,
    /// What the given forms are set in; one size for all.
    pub given_face: Face,
    /// The block pictures, if any: one unit for all.
    pub pictures: Option<Pictures>,
    pub(super) room: StripRoom,
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
    /// How the strips' pages are held.
    pub turn: Turn,
    /// Strips side by side on a page.
    pub columns: u32,
    /// How many strips each page takes: a list for each page of the board, or one list for all of them.
    pub shares: Vec<Vec<u32>>,
}

impl Design {
    /// The rows whose strips go on pages of their own: those of each page of the board, or all of them.
    pub fn groups(&self) -> Vec<Range<usize>> {
        let own = self.classes.iter().all(|class| class.shares.len() == self.rows.len());
        if own { groups(&self.rows) } else { std::iter::once(0..usize::MAX).collect() }
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
        if self.centred { self.room.middle(piece) } else { self.room.content(piece) }
    }

    /// Where a strip's picture goes.
    pub fn picture(&self, piece: Rect) -> Rect {
        self.room.picture(piece)
    }

    /// Where a strip's version and learner mark goes.
    pub fn mark(&self, piece: Rect) -> Rect {
        self.room.mark(piece)
    }
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

/// How the room of a strip is divided.
#[derive(Debug, Clone, Copy)]
pub(super) struct StripRoom {
    pub(super) padding: Length,
    /// The height of the line with the mark.
    pub(super) mark: Length,
}

impl StripRoom {
    /// What the mark's line leaves.
    pub(super) fn content(self, piece: Rect) -> Rect {
        piece.shrunk(Sides { bottom: self.mark + self.padding, ..Sides::splat(self.padding) })
    }

    /// All that a cut which runs off by a millimetre leaves: pictures are worth more room than a margin.
    pub(super) fn picture(self, piece: Rect) -> Rect {
        piece.shrunk(Sides { bottom: self.mark + MARK_INSET, ..Sides::splat(PICTURE_EDGE.min(self.padding)) })
    }

    /// As much above as the mark's line takes below.
    pub(super) fn middle(self, piece: Rect) -> Rect {
        let ends = self.mark + self.padding;
        piece.shrunk(Sides { left: self.padding, right: self.padding, top: ends, bottom: ends })
    }

    pub(super) fn mark(self, piece: Rect) -> Rect {
        let inner = piece.shrunk(Sides { bottom: MARK_INSET, ..Sides::splat(self.padding) });
        let top = inner.bottom() - self.mark;
        Rect::new(Point::new(inner.left(), top), Size::new(inner.width(), self.mark))
    }
}

/// From a picture to the edge of its strip.
const PICTURE_EDGE: Length = Length::mm100(150);
/// From a mark to the lower edge of its strip: it stays whole when a cut runs off by a millimetre.
const MARK_INSET: Length = Length::mm100(120);
