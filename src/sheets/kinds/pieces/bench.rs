//! What a way shows: its content measured, or what does not fit.

use crate::diag::Problem;
use crate::lesson::SortSet;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::blocks::geometry::{Arranged, Counts, least_unit};
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::kinds::pieces::content::Shown;
use crate::sheets::kinds::pieces::design::{Design, MarkPlace, MarkedRoom, PICTURE_EDGES, StripMarks, StripSize};
use crate::sheets::kinds::pieces::ways::Way;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Face;

/// What is measured for each way.
pub(super) struct Bench<'a> {
    pub(super) desk: &'a Desk<'a>,
    /// Whose board and strips.
    pub(super) sets: &'a [&'a SortSet],
    pub(super) board: &'a Layout,
    pub(super) room: MarkedRoom,
    pub(super) texts: Shown<&'a str>,
    /// Those of the texts that take the most room.
    pub(super) widest: Shown<&'a str>,
    pub(super) given_texts: Shown<&'a str>,
    pub(super) pictures: Vec<Counts>,
    /// The same in every arrangement.
    pub(super) arranged: Arranged,
    pub(super) face: Face,
    pub(super) given_face: Face,
    /// The unit of block pictures at most.
    pub(super) unit: Length,
}

impl Bench<'_> {
    /// What a way shows and how good that is, in thousandths of the preferred sizes; `None` when something does not fit.
    pub(super) fn measure(&self, way: &Way, texts: &Shown<&str>) -> Option<(i64, Design)> {
        let share = |value: Length, of: Length| (value.to_raw() * 1_000 / of.to_raw().max(1)).min(1_000);
        let family = self.desk.family;
        let given = self.given_texts.fitting(family, self.given_room(way), &self.given_face).ok()?;
        let mut worth = share(given, self.given_face.size);
        let (mut face, mut centred) = (self.face, false);
        let mut marks = StripMarks { text: MarkPlace::Below, picture: MarkPlace::Below };
        if let Some(class) = text_class(way) {
            let fit = |place| {
                let room = self.room.at(place).content(piece(class));
                texts.fitting(family, room.size(), &face).ok().map(|size| (size, ()))
            };
            let (size, ()) = placed(&mut marks.text, fit, face.size)?;
            worth += share(size, face.size) * 2;
            face = face.at(size);
            let middle = self.room.at(marks.text).middle(piece(class)).size();
            centred = texts.fitting(family, middle, &face).is_ok();
        }
        let (mut pictures, mut picture_edge) = (None, Length::ZERO);
        if !self.pictures.is_empty() {
            let fit = |place, edge| {
                let room = self.picture_room(way, place, edge)?;
                let work = self.arranged.tried(room, self.least(), self.unit)?;
                Some((work.unit(), work))
            };
            let (edge, work) = PICTURE_EDGES.into_iter().find_map(|edge| {
                let (_, work) = placed(&mut marks.picture, |place| fit(place, edge), self.unit)?;
                Some((edge, work))
            })?;
            worth += share(work.worth(), self.unit) * 3;
            picture_edge = edge;
            pictures = Some(Pictures::new(work, self.desk.ink(), self.desk.lesson.wording()));
        }
        let design = Design {
            board: way.board,
            rows: way.rows.clone(),
            given: way.given,
            heads: way.heads,
            head_lines: way.head_lines,
            high: way.high,
            classes: way.classes.clone(),
            pages: way.pages.clone(),
            face,
            given_face: self.given_face.at(given),
            pictures,
            room: self.room,
            picture_edge,
            marks,
            centred,
        };
        Some((worth, design))
    }

    /// What does not fit in a way, in words.
    pub(super) fn misfit(&self, way: &Way) -> Result<(), Problem> {
        let family = self.desk.family;
        self.given_texts.settable(family, self.given_room(way), &self.given_face)?;
        if let Some(class) = text_class(way) {
            let room = self.room.at(MarkPlace::Below).content(piece(class));
            self.texts.settable(family, room.size(), &self.face)?;
        }
        let [.., least] = PICTURE_EDGES;
        if let Some(room) = self.picture_room(way, MarkPlace::Below, least) {
            self.arranged.fit(room, self.least(), self.unit)?;
        }
        Ok(())
    }

    /// The unit of block pictures at least.
    fn least(&self) -> Length {
        least_unit(&self.pictures).min(self.unit)
    }

    /// The frame of the given form.
    fn given_room(&self, way: &Way) -> Size {
        let cell = Rect::new(Point::ORIGIN, Size::new(way.given, way.high));
        cell.shrunk(Sides::splat(self.board.padding)).size()
    }

    /// The frame that every picture must fit, so far from the edges of a strip: the same unit on the board and on strips.
    fn picture_room(&self, way: &Way, mark: MarkPlace, edge: Length) -> Option<Size> {
        if self.pictures.is_empty() {
            return None;
        }
        let class = way.classes.iter().find(|class| class.forms.iter().any(|form| form.is_picture()));
        let on_strips = class.map(|class| self.room.at(mark).picture(piece(class), edge).size());
        let on_board = self.sets.iter().any(|set| set.given.is_picture()).then(|| self.given_room(way));
        let frames = [on_strips, on_board].into_iter().flatten();
        frames.reduce(|a, b| Size::new(a.width.min(b.width), a.height.min(b.height)))
    }
}

/// The size of what fits with its mark at the better place, which is written to `place`. A line of its own below keeps content in the
/// middle of its strip, so that the corner must win by a twentieth.
fn placed<T>(
    place: &mut MarkPlace,
    fit: impl Fn(MarkPlace) -> Option<(Length, T)>,
    most: Length,
) -> Option<(Length, T)> {
    let below = fit(MarkPlace::Below);
    if below.as_ref().is_some_and(|(size, _)| *size >= most) {
        return below;
    }
    let beside = fit(MarkPlace::Beside);
    let wins = match (&below, &beside) {
        (Some((below, _)), Some((beside, _))) => *beside >= below.scaled(21, 20),
        (below, _) => below.is_none(),
    };
    *place = if wins { MarkPlace::Beside } else { MarkPlace::Below };
    if wins { beside } else { below }
}

/// The strips that show text, if any do.
fn text_class(way: &Way) -> Option<&StripSize> {
    way.classes.iter().find(|class| class.forms.iter().any(|form| !form.is_picture()))
}

/// A strip in the corner of a page.
fn piece(class: &StripSize) -> Rect {
    Rect::new(Point::ORIGIN, class.piece)
}
