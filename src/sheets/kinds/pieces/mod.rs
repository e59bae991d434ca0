//! How large strips and boxes are.
//!
//! In: everything the strips of all versions show, the paper, and the layouts of board and strips. Out: a [`Design`], the
//! one that takes the fewest pages a learner at readable sizes and, among those, shows its content largest. A box is a
//! strip with the layout's play on every side.
//!
//! All strips are equally high, and all text strips equally wide: neither size nor shape tells which row a strip belongs
//! to, and straight cuts across the page free them all. Block pictures may take wider strips, on pages of their own,
//! unless the pile is cut at once: then every strip of a set must come from the same grid.

mod bench;
mod plans;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::{Content, Form, Number};
use crate::sheets::blocks::geometry::Counts;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::page::Reader;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Face};
use crate::spec::SheetKind;
use bench::Bench;

/// A strip is smaller than its box by at least this much on every side.
pub const LEAST_PLAY: Length = Length::mm(1);

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
    pub classes: Vec<Class>,
    /// What text on strips is set in; one size for all.
    pub face: Face,
    /// What the given forms are set in; one size for all.
    pub given_face: Face,
    /// The block pictures, if any: one unit for all.
    pub pictures: Option<Pictures>,
    room: Room,
    /// Whether text stands in the middle of its strip, or in the middle of what the mark leaves.
    centred: bool,
}

/// Strips of one size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Class {
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
    /// How many strips each page takes.
    pub shares: Vec<u32>,
}

impl Design {
    /// The size of the strips of a form.
    pub fn class(&self, form: Form) -> Result<&Class, Problem> {
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
        self.room.content(piece)
    }

    /// Where a strip's version and learner mark goes.
    pub fn mark(&self, piece: Rect) -> Rect {
        self.room.mark(piece)
    }
}

/// How the room of a strip is divided.
#[derive(Debug, Clone, Copy)]
struct Room {
    padding: Length,
    /// The height of the line with the mark.
    mark: Length,
}

impl Room {
    /// What the mark's line leaves.
    fn content(self, piece: Rect) -> Rect {
        piece.shrunk(Sides { bottom: self.mark + self.padding, ..Sides::splat(self.padding) })
    }

    /// As much above as the mark's line takes below.
    fn middle(self, piece: Rect) -> Rect {
        let ends = self.mark + self.padding;
        piece.shrunk(Sides { left: self.padding, right: self.padding, top: ends, bottom: ends })
    }

    fn mark(self, piece: Rect) -> Rect {
        let inner = piece.shrunk(Sides { bottom: MARK_INSET, ..Sides::splat(self.padding) });
        let top = inner.bottom() - self.mark;
        Rect::new(Point::new(inner.left(), top), Size::new(inner.width(), self.mark))
    }
}

/// From a mark to the lower edge of its strip: it stays whole when a cut runs off by a millimetre.
const MARK_INSET: Length = Length::mm100(120);

/// A board page held this way.
pub fn board_page(desk: &Desk<'_>, turn: Turn) -> Result<(Size, Headed), Problem> {
    let note = if desk.lesson.spec.forms.decoys.value > 0 {
        "Lay each strip in the row it belongs to. Some strips belong to no row: keep them beside the board."
    } else {
        "Lay each strip in the row it belongs to."
    };
    let title = desk.lesson.wording().sheet_title(SheetKind::Board);
    let head = Head { title, note: Some(note), reader: Reader::Learner, name: true, code: true };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Board)?), &head)?))
}

/// A page of strips held this way.
pub fn strips_page(desk: &Desk<'_>, turn: Turn) -> Result<(Size, Headed), Problem> {
    let note = "Sit down to cut. Cut along the dashed lines.";
    let title = desk.lesson.wording().sheet_title(SheetKind::Strips);
    let head = Head { title, note: Some(note), reader: Reader::Learner, name: false, code: true };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Strips)?), &head)?))
}

/// How high the row of column headings is over columns of these forms and widths: one line where all headings fit on one,
/// otherwise two. `None` where a heading fits on neither.
pub fn headings(desk: &Desk<'_>, board: &Layout, columns: &[(Form, Length)]) -> Result<Option<Length>, Problem> {
    let face = desk.face(board, "heading")?;
    let fits = |high: Length| {
        columns.iter().all(|(form, wide)| {
            let frame = heading(board, Rect::new(Point::ORIGIN, Size::new(*wide, high)));
            text::fitting(desk.family, &[form.heading()], frame.size(), &face).is_ok()
        })
    };
    Ok([1, 2].map(|lines| face.pitch() * lines + board.padding).into_iter().find(|high| fits(*high)))
}

/// The frame of a heading in its cell.
pub fn heading(board: &Layout, cell: Rect) -> Rect {
    cell.shrunk(Sides { left: board.padding.half(), right: board.padding.half(), ..Sides::default() })
}

/// A number in a form; blocks above 9,999 have no picture and are refused when a lesson is read.
pub fn shown(desk: &Desk<'_>, number: Number, form: Form) -> Result<Content, Problem> {
    let none = || Problem::new(format!("{number} has no block picture")).hint("block pictures go up to 9,999");
    form.content(number, &desk.lesson.style).ok_or_else(none)
}

/// The form printed on the board.
pub fn given(desk: &Desk<'_>) -> Form {
    desk.lesson.spec.forms.matched.value.first().copied().unwrap_or(Form::Numeral)
}

/// Everything that strips and given cells show, each once.
#[derive(Debug, Default)]
struct Shown {
    texts: Vec<String>,
    pictures: Vec<Counts>,
    given_texts: Vec<String>,
}

/// The best design for this lesson. Fails when its content fits no arrangement at its least size, and says what would.
pub fn design(desk: &Desk<'_>) -> Result<Design, Problem> {
    let (board, strips) = (desk.layout(SheetKind::Board)?, desk.layout(SheetKind::Strips)?);
    let play = strips.length("play")?;
    if play < LEAST_PLAY {
        return Err(Problem::new(format!("the layout of strips leaves {play} round a strip in its box"))
            .hint(format!("expected a play of at least {LEAST_PLAY}")));
    }
    let shown = gather(desk)?;
    let face = desk.face(strips, "strip")?;
    let texts: Vec<&str> = shown.texts.iter().map(String::as_str).collect();
    let bench = Bench {
        desk,
        board,
        room: Room { padding: strips.padding, mark: desk.face(desk.layouts.page(), "piece")?.pitch() },
        widest: text::widest(desk.family, face.weight, &texts),
        texts,
        given_texts: shown.given_texts.iter().map(String::as_str).collect(),
        pictures: shown.pictures.clone(),
        face,
        given_face: desk.face(board, "given")?,
        unit: strips.length("unit")?,
    };
    let mut failed = None;
    let mut best: Option<(usize, i64, Design)> = None;
    for plan in plans::all(desk, board, strips, play, &shown)? {
        let pages = plan.pages();
        if best.as_ref().is_some_and(|(fewest, ..)| pages > *fewest) {
            break;
        }
        let most = best.as_ref().map_or(-1, |(.., most, _)| *most);
        match bench.measure(&plan, &bench.widest) {
            // Only what would win is measured in full.
            Some((worth, _)) if worth > most => {
                if let Some((worth, design)) = bench.measure(&plan, &bench.texts).filter(|(worth, _)| *worth > most) {
                    best = Some((pages, worth, design));
                }
            }
            Some(_) => {}
            // The plans with the most pages come last and give the most room: what fails there is what to tell.
            None => failed = Some(plan),
        }
    }
    match (best, failed) {
        (Some((.., design)), _) => Ok(design),
        (None, failed) => {
            let problem = failed.and_then(|plan| bench.misfit(&plan).err());
            let problem = problem.unwrap_or_else(|| Problem::new("no strip fits on this paper"));
            let hint = problem.hint.clone().map(|hint| format!("{hint}; ")).unwrap_or_default();
            Err(problem.hint(format!("{hint}larger paper or fewer forms under `match` give strips more room")))
        }
    }
}

fn gather(desk: &Desk<'_>) -> Result<Shown, Problem> {
    let mut shown = Shown::default();
    for set in &desk.lesson.sets {
        for strip in &set.strips {
            match &strip.content {
                Content::Text(text) => shown.texts.push(text.clone()),
                Content::Blocks(counts) => shown.pictures.push(*counts),
            }
        }
        for &number in &set.rows {
            match self::shown(desk, number, given(desk))? {
                Content::Text(text) => shown.given_texts.push(text),
                Content::Blocks(counts) => shown.pictures.push(counts),
            }
        }
    }
    for texts in [&mut shown.texts, &mut shown.given_texts] {
        texts.sort_unstable();
        texts.dedup();
        // What takes the most room first: what does not fit shows soonest.
        texts.sort_by_key(|text| std::cmp::Reverse(text.len()));
    }
    // A picture with no more of any kind than another takes no more room.
    shown.pictures.sort_unstable();
    shown.pictures.dedup();
    let all = shown.pictures.clone();
    let covers = |a: &Counts, b: &Counts| a != b && a.iter().zip(b).all(|(a, b)| a >= b);
    shown.pictures.retain(|counts| !all.iter().any(|other| covers(other, counts)));
    Ok(shown)
}
