//! How large strips and boxes are: one size for all strips of a lesson, so that neither size nor shape tells where a strip
//! belongs, and so that straight cuts free them all.
//!
//! In: everything the strips of all versions show, the paper and the layouts of board and strips. Out: a [`Design`], the one
//! that takes the fewest pages a learner at readable sizes and, among those, shows its content largest. A box is a strip
//! with the layout's play on every side.

use super::blockwork::{Blockwork, Counts, LEAST_UNIT};
use super::desk::Desk;
use super::grid;
use super::head::{self, Head, Headed};
use super::layout::{Layout, Turn};
use super::page::Reader;
use super::picture::Pictures;
use super::text::{self, Face};
use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::{Content, Form, Number};
use crate::spec::SheetKind;

/// The sizes that board and strips share.
#[derive(Debug, Clone)]
pub struct Design {
    /// How the board's pages are held.
    pub board: Turn,
    /// How many rows each board page takes.
    pub rows: Vec<u32>,
    /// How wide the column of given forms is.
    pub given: Length,
    /// A box.
    pub cell: Size,
    /// A strip: a box less the play on every side.
    pub piece: Size,
    /// How the strips' pages are held.
    pub strips: Turn,
    /// Strips side by side on a page.
    pub columns: u32,
    /// How many strips each page takes.
    pub shares: Vec<u32>,
    /// What text on strips is set in; one size for all.
    pub face: Face,
    /// What the given forms are set in; one size for all.
    pub given_face: Face,
    /// The block pictures, if any: one unit for all.
    pub pictures: Option<Pictures>,
}

/// How the room of a piece is divided.
#[derive(Debug, Clone, Copy)]
pub struct Room {
    padding: Length,
    /// The height of the line with the mark.
    mark: Length,
}

impl Room {
    /// Where a piece's content goes.
    pub fn content(self, piece: Rect) -> Rect {
        let sides = Sides { bottom: self.mark + self.padding, ..Sides::splat(self.padding) };
        piece.shrunk(sides)
    }

    /// Where a piece's version and learner mark goes.
    pub fn mark(self, piece: Rect) -> Rect {
        let inner = piece.shrunk(Sides { bottom: MARK_INSET, ..Sides::splat(self.padding) });
        let top = inner.bottom() - self.mark;
        Rect::new(Point::new(inner.left(), top), Size::new(inner.width(), self.mark))
    }
}

/// From a mark to the lower edge of its piece: it stays whole when a cut runs off by a millimetre.
const MARK_INSET: Length = Length::mm100(120);

/// The room of pieces in this layout.
pub fn room(desk: &Desk<'_>, strips: &Layout) -> Result<Room, Problem> {
    let face = desk.face(desk.layouts.page(), "piece")?;
    Ok(Room { padding: strips.padding, mark: face.pitch() })
}

/// A board page held this way.
pub fn board_page(desk: &Desk<'_>, turn: Turn) -> Result<(Size, Headed), Problem> {
    let decoys = desk.lesson.spec.forms.decoys.value > 0;
    let note = if decoys {
        "Lay each strip in the row it belongs to. Some strips belong to no row: keep them beside the board."
    } else {
        "Lay each strip in the row it belongs to."
    };
    let title = super::row(SheetKind::Board).title;
    let head = Head { title, note: Some(note), reader: Reader::Learner, name: true, code: true };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Board)?), &head)?))
}

/// A page of strips held this way.
pub fn strips_page(desk: &Desk<'_>, turn: Turn) -> Result<(Size, Headed), Problem> {
    let note = "Sit down to cut. Cut along the dashed lines.";
    let title = super::row(SheetKind::Strips).title;
    let head = Head { title, note: Some(note), reader: Reader::Learner, name: false, code: true };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Strips)?), &head)?))
}

/// How high the row of column headings of a board is.
pub fn headings(desk: &Desk<'_>, board: &Layout) -> Result<Length, Problem> {
    Ok(desk.face(board, "heading")?.pitch() + board.padding)
}

/// What the given column shows for a number; blocks above 9,999 have no picture and are refused when a lesson is read.
pub fn shown(desk: &Desk<'_>, number: Number, form: Form) -> Result<Content, Problem> {
    let none = || Problem::new(format!("{number} has no block picture")).hint("block pictures go up to 9,999");
    form.content(number, &desk.lesson.style).ok_or_else(none)
}

/// The form printed on the board.
pub fn given(desk: &Desk<'_>) -> Form {
    desk.lesson.spec.forms.matched.value.first().copied().unwrap_or(Form::Numeral)
}

/// One way to do it, before anything is measured.
#[derive(Debug, Clone)]
struct Plan {
    board: Turn,
    rows: Vec<u32>,
    given: Length,
    cell: Size,
    piece: Size,
    strips: Turn,
    columns: u32,
    shares: Vec<u32>,
}

/// Everything that strips and given cells show.
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
    let mut plans = plans(desk, board, strips, play, &shown)?;
    plans.sort_by_key(|plan| plan.rows.len() + plan.shares.len());
    let room = room(desk, strips)?;
    let mut wrong = None;
    let mut best: Option<(usize, i64, Design)> = None;
    for plan in plans {
        let pages = plan.rows.len() + plan.shares.len();
        if best.as_ref().is_some_and(|(fewest, ..)| pages > *fewest) {
            break;
        }
        match measure(desk, board, strips, room, &shown, plan) {
            Ok((worth, design)) if best.as_ref().is_none_or(|(.., most, _)| worth > *most) => {
                best = Some((pages, worth, design));
            }
            Ok(_) => {}
            // The plans with the most pages come last and give the most room: what fails there is what to tell.
            Err(problem) => wrong = Some(problem),
        }
    }
    match (best, wrong) {
        (Some((.., design)), _) => Ok(design),
        (None, wrong) => {
            let problem = wrong.unwrap_or_else(|| Problem::new("no strip fits on this paper"));
            let hint = problem.hint.clone().map(|hint| format!("{hint}; ")).unwrap_or_default();
            Err(problem.hint(format!("{hint}larger paper or fewer forms under `match` give strips more room")))
        }
    }
}

/// A strip is smaller than its box by at least this much on every side.
pub const LEAST_PLAY: Length = Length::mm(1);

/// Everything shown, each once.
fn gather(desk: &Desk<'_>) -> Result<Shown, Problem> {
    let mut shown = Shown { texts: Vec::new(), pictures: Vec::new(), given_texts: Vec::new() };
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
    }
    shown.pictures.sort_unstable();
    shown.pictures.dedup();
    Ok(shown)
}

/// Every way worth measuring: each way to hold both sheets, each number of rows a page, and heights at which one more row
/// of strips goes on a page.
fn plans(desk: &Desk<'_>, board: &Layout, strips: &Layout, play: Length, shown: &Shown) -> Result<Vec<Plan>, Problem> {
    let lesson = desk.lesson;
    let rows = lesson.sets.iter().map(|set| set.rows.len()).max().unwrap_or(0);
    let pieces = lesson.sets.iter().map(|set| set.strips.len()).max().unwrap_or(0);
    let boxes = lesson.sets.iter().map(|set| set.forms.len()).max().unwrap_or(0);
    let (rows, pieces, boxes) = (narrow(rows), narrow(pieces), narrow(boxes));
    if rows == 0 || boxes == 0 {
        return Err(Problem::new("the lesson has no numbers to sort").hint("give `numbers.sort.count` at least 1"));
    }
    let heads = headings(desk, board)?;
    let tallest = board.length("tallest")?;
    let mut all = Vec::new();
    for &turn in &board.turns {
        let body = board_page(desk, turn)?.1.body;
        let given = given_width(desk, board, shown, body.width(), boxes)?;
        let width = hundredths((body.width() - given).scaled(1, i64::from(boxes)));
        let mut last = Vec::new();
        for most in (board.grid.rows.0.min(rows)..=board.grid.rows.1.min(rows)).rev() {
            let shares = grid::share(rows, most, 1);
            if shares == last {
                continue;
            }
            let room = (body.height() - heads).scaled(1, i64::from(shares.first().copied().unwrap_or(1)));
            // Boxes stay low where that serves; pictures may need all the room there is.
            let mut heights = vec![hundredths(room.min(tallest)), hundredths(room)];
            heights.dedup();
            for height in heights {
                for (held, columns, down, height) in sheets(desk, strips, width - play * 2, height - play * 2)? {
                    let piece = Size::new(width - play * 2, height);
                    all.push(Plan {
                        board: turn,
                        rows: shares.clone(),
                        given,
                        cell: Size::new(width, height + play * 2),
                        piece,
                        strips: held,
                        columns,
                        shares: grid::share(pieces, columns * down, columns),
                    });
                }
            }
            last = shares;
        }
    }
    if all.is_empty() { Err(Problem::new("no strip fits on this paper")) } else { Ok(all) }
}

/// How strips of this width and at most this height go on a page: the way it is held, columns, rows and the height.
fn sheets(
    desk: &Desk<'_>,
    strips: &Layout,
    width: Length,
    tallest: Length,
) -> Result<Vec<(Turn, u32, u32, Length)>, Problem> {
    let mut ways = Vec::new();
    for &turn in &strips.turns {
        let body = strips_page(desk, turn)?.1.body;
        let (most_columns, most_rows) = (strips.grid.columns.1, strips.grid.rows.1);
        let columns = whole(body.width().holds(width)).min(most_columns);
        let rows = whole(body.height().holds(tallest)).min(most_rows);
        if columns == 0 || rows == 0 {
            continue;
        }
        ways.push((turn, columns, rows, tallest));
        for rows in rows + 1..=(rows + 6).min(most_rows) {
            ways.push((turn, columns, rows, hundredths(body.height().scaled(1, i64::from(rows)))));
        }
    }
    Ok(ways)
}

/// How wide the column of given forms is: a numeral's own width, otherwise an equal share.
fn given_width(desk: &Desk<'_>, board: &Layout, shown: &Shown, width: Length, boxes: u32) -> Result<Length, Problem> {
    if given(desk) != Form::Numeral {
        return Ok(width.scaled(1, i64::from(boxes + 1)));
    }
    let face = desk.face(board, "given")?;
    let widest = shown.given_texts.iter().map(|text| desk.width(text, &face)).max().unwrap_or(Length::ZERO);
    let heading = desk.face(board, "heading")?;
    let heading = desk.width(Form::Numeral.heading(), &heading.at(heading.least)) + board.padding * 2 + Length::mm(1);
    Ok((widest + board.padding * 2).min(board.length("given_most")?).max(board.length("given")?).max(heading))
}

/// What a plan shows and how good that is, in thousandths of the preferred sizes.
fn measure(
    desk: &Desk<'_>,
    board: &Layout,
    strips: &Layout,
    room: Room,
    shown: &Shown,
    plan: Plan,
) -> Result<(i64, Design), Problem> {
    let frame = room.content(Rect::new(Point::ORIGIN, plan.piece)).size();
    let face = desk.face(strips, "strip")?;
    let texts: Vec<&str> = shown.texts.iter().map(String::as_str).collect();
    let size = text::largest(desk.family, &texts, frame, &face)?;
    let cell = Rect::new(Point::ORIGIN, Size::new(plan.given, plan.cell.height)).shrunk(Sides::splat(board.padding));
    let given_face = desk.face(board, "given")?;
    let given_texts: Vec<&str> = shown.given_texts.iter().map(String::as_str).collect();
    let given_size = text::largest(desk.family, &given_texts, cell.size(), &given_face)?;
    let most = strips.length("unit")?;
    let pictures = if shown.pictures.is_empty() {
        None
    } else {
        let room = if given(desk) == Form::Blocks {
            Size::new(frame.width.min(cell.width()), frame.height.min(cell.height()))
        } else {
            frame
        };
        let work = Blockwork::fit(&shown.pictures, room, LEAST_UNIT.min(most), most)?;
        Some(Pictures::new(work, desk.ink()))
    };
    let share = |value: Length, of: Length| value.to_raw() * 1_000 / of.to_raw().max(1);
    let mut worth = share(given_size, given_face.size).min(1_000);
    if !texts.is_empty() {
        worth += share(size, face.size) * 2;
    }
    if let Some(pictures) = &pictures {
        worth += share(pictures.work().unit(), most) * 3;
    }
    let Plan { board, rows, given, cell, piece, strips, columns, shares } = plan;
    let (face, given_face) = (face.at(size), given_face.at(given_size));
    Ok((worth, Design { board, rows, given, cell, piece, strips, columns, shares, face, given_face, pictures }))
}

/// Rounded down to a whole hundredth of a millimetre.
fn hundredths(length: Length) -> Length {
    Length::mm100(length.holds(Length::mm100(1)))
}

fn narrow(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

fn whole(count: i64) -> u32 {
    u32::try_from(count).unwrap_or(0)
}
