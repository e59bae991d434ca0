//! What a way shows: its content measured, or what does not fit.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::blocks::geometry::{Blockwork, Counts, LEAST_UNIT};
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::kinds::pieces::design::{Design, StripRoom, StripSize};
use crate::sheets::kinds::pieces::ways::Way;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Face};

/// What is measured for each way.
pub(super) struct Bench<'a> {
    pub(super) desk: &'a Desk<'a>,
    pub(super) board: &'a Layout,
    pub(super) room: StripRoom,
    pub(super) texts: Vec<&'a str>,
    /// Those of the texts that take the most room.
    pub(super) widest: Vec<&'a str>,
    pub(super) given_texts: Vec<&'a str>,
    pub(super) pictures: Vec<Counts>,
    pub(super) face: Face,
    pub(super) given_face: Face,
    /// The unit of block pictures at most.
    pub(super) unit: Length,
}

impl Bench<'_> {
    /// What a way shows and how good that is, in thousandths of the preferred sizes; `None` when something does not fit.
    pub(super) fn measure(&self, way: &Way, texts: &[&str]) -> Option<(i64, Design)> {
        let share = |value: Length, of: Length| (value.to_raw() * 1_000 / of.to_raw().max(1)).min(1_000);
        let family = self.desk.family;
        let given = text::fitting(family, &self.given_texts, self.given_room(way), &self.given_face).ok()?;
        let mut worth = share(given, self.given_face.size);
        let (mut face, mut centred) = (self.face, false);
        if let Some(class) = text_class(way) {
            let size = text::fitting(family, texts, self.room.content(piece(class)).size(), &face).ok()?;
            worth += share(size, face.size) * 2;
            face = face.at(size);
            centred = text::fitting(family, texts, self.room.middle(piece(class)).size(), &face).is_ok();
        }
        let mut pictures = None;
        if let Some(room) = self.picture_room(way) {
            let work = Blockwork::fit(&self.pictures, room, LEAST_UNIT.min(self.unit), self.unit).ok()?;
            worth += share(work.unit(), self.unit) * 3;
            pictures = Some(Pictures::new(work, self.desk.ink(), self.desk.lesson.wording()));
        }
        let design = Design {
            board: way.board,
            rows: way.rows.clone(),
            given: way.given,
            heads: way.heads,
            high: way.high,
            classes: way.classes.clone(),
            face,
            given_face: self.given_face.at(given),
            pictures,
            room: self.room,
            centred,
        };
        Some((worth, design))
    }

    /// What does not fit in a way, in words.
    pub(super) fn misfit(&self, way: &Way) -> Result<(), Problem> {
        let family = self.desk.family;
        text::largest(family, &self.given_texts, self.given_room(way), &self.given_face)?;
        if let Some(class) = text_class(way) {
            text::largest(family, &self.texts, self.room.content(piece(class)).size(), &self.face)?;
        }
        if let Some(room) = self.picture_room(way) {
            Blockwork::fit(&self.pictures, room, LEAST_UNIT.min(self.unit), self.unit)?;
        }
        Ok(())
    }

    /// The frame of the given form.
    fn given_room(&self, way: &Way) -> Size {
        let cell = Rect::new(Point::ORIGIN, Size::new(way.given, way.high));
        cell.shrunk(Sides::splat(self.board.padding)).size()
    }

    /// The frame that every picture must fit: the same unit on the board and on strips.
    fn picture_room(&self, way: &Way) -> Option<Size> {
        if self.pictures.is_empty() {
            return None;
        }
        let class = way.classes.iter().find(|class| class.forms.iter().any(|form| form.is_picture()));
        let on_strips = class.map(|class| self.room.picture(piece(class)).size());
        let on_board = self.desk.lesson.sets.iter().any(|set| set.given.is_picture()).then(|| self.given_room(way));
        let frames = [on_strips, on_board].into_iter().flatten();
        frames.reduce(|a, b| Size::new(a.width.min(b.width), a.height.min(b.height)))
    }
}

/// The strips that show text, if any do.
fn text_class(way: &Way) -> Option<&StripSize> {
    way.classes.iter().find(|class| class.forms.iter().any(|form| !form.is_picture()))
}

/// A strip in the corner of a page.
fn piece(class: &StripSize) -> Rect {
    Rect::new(Point::ORIGIN, class.piece)
}
