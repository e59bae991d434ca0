//! How wide the columns are and which pages they go on: no drawing.

use crate::diag::Problem;
use crate::measure::{Count, Length};
use crate::number::{Number, Place};
use crate::sheets::blocks::geometry::{BlockKind, UNIT};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layout;

/// A box of the ten-frame where there is room: larger than the cube it holds, so that a cube goes in and out easily.
pub(super) const FRAME_CELL: Length = Length::mm(13);
/// From the ten-frame to the edge of its column, at least.
pub(super) const FRAME_EDGE: Length = Length::mm(1);

/// One column of a mat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct MatColumn {
    /// Whose it is.
    pub place: Place,
    /// What is built on it; none where the lesson's numbers have no blocks.
    pub kind: Option<BlockKind>,
    /// The least width.
    pub need: Length,
    /// A width that is worth having where there is room, at least `need`.
    pub want: Length,
}

/// What a place is called, in the lesson's language and in its second one.
pub(super) fn names(desk: &Desk<'_>, place: Place) -> Vec<&'static str> {
    let second = desk.lesson.style.second.map(|second| second.place(place));
    std::iter::once(desk.lesson.wording().place(place)).chain(second).collect()
}

/// The columns of a lesson, from the greatest place down.
pub(super) fn of(desk: &Desk<'_>, layout: &Layout) -> Result<Vec<MatColumn>, Problem> {
    let greatest = desk.lesson.greatest();
    let built = greatest <= Number::MAX_BLOCKS;
    let most = |place| desk.lesson.chosen.built().map(|number| i64::from(number.digit(place))).max().unwrap_or(0);
    let (face, around) = (desk.face(layout, "place")?, layout.padding * 2);
    let face = face.at(face.least);
    let column = |place: Place| {
        let words = names(desk, place).into_iter().flat_map(|name| name.split(' '));
        let word = words.map(|word| desk.width(word, &face)).max().unwrap_or_default() + around;
        let flat = UNIT * 10;
        // Flats and thousands are fanned out down the column, rods stand side by side and may become ten before they are
        // traded, cubes lie in the frame.
        let (kind, need, want) = match place {
            _ if !built => (None, layout.length("counters")?, Length::ZERO),
            Place::Ones => (Some(BlockKind::Cube), UNIT * 5, FRAME_CELL * 5 + FRAME_EDGE * 2 - around),
            Place::Tens => (Some(BlockKind::Rod), UNIT * most(place), flat),
            Place::Hundreds => (Some(BlockKind::Flat), flat, flat * most(place).clamp(1, 2)),
            _ => (Some(BlockKind::Thousand), flat, flat * most(place).clamp(1, 2)),
        };
        let ones = if place == Place::Ones { UNIT * 5 + around } else { Length::ZERO };
        let need = (need + around).max(word).max(ones);
        Ok(MatColumn { place, kind, need, want: (want + around).max(need) })
    };
    Place::ALL[..greatest.len()].iter().rev().map(|place| column(*place)).collect()
}

/// The columns shared out over the fewest pages of this width, the widest page as narrow as can be; `None` when one column
/// alone is too wide.
pub(super) fn share(columns: &[MatColumn], width: Length) -> Option<Vec<Vec<MatColumn>>> {
    // Every way of parting up to six columns: bit k parts column k from column k + 1.
    let parts = columns.len().saturating_sub(1);
    (0_u32..1 << parts)
        .filter_map(|ways| {
            let mut pages: Vec<Vec<MatColumn>> = vec![Vec::new()];
            for (k, column) in columns.iter().enumerate() {
                if k > 0 && ways & (1 << (k - 1)) != 0 {
                    pages.push(Vec::new());
                }
                pages.last_mut()?.push(*column);
            }
            let widest = pages.iter().map(|page| page.iter().map(|c| c.need).sum::<Length>()).max()?;
            (widest <= width).then_some((pages.len(), widest, pages))
        })
        .min_by_key(|(count, widest, _)| (*count, *widest))
        .map(|(.., pages)| pages)
}

/// Widths that fill a page: what each column needs, then from the right what it wants, as far as there is room, then equal
/// shares of the rest.
pub(super) fn widths(columns: &[MatColumn], width: Length) -> Vec<Length> {
    let mut widths: Vec<Length> = columns.iter().map(|column| column.need).collect();
    let mut left = width - widths.iter().copied().sum::<Length>();
    for (column, width) in columns.iter().zip(&mut widths).rev() {
        let more = column.want - *width;
        if more <= left {
            *width += more;
            left -= more;
        }
    }
    let count = columns.len().narrow().max(1);
    widths.iter().zip(left.split(count)).map(|(width, share)| *width + share).collect()
}
