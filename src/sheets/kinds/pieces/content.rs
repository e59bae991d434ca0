//! What board and strips show, and the pages they show it on.

use crate::diag::Problem;
use crate::lesson::SortSet;
use crate::measure::{Family, Length, Point, Rect, Sides, Size, Weight};
use crate::number::{Content, Form, Number};
use crate::sheets::blocks::geometry::Counts;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::scrap;
use crate::sheets::page::text::{self, Face};
use crate::sheets::page::tongues::half;
use crate::sheets::page::{Page, Reader};
use crate::spec::SheetKind;

/// Which page of several.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PageNumber {
    /// From 1.
    pub k: usize,
    /// Of how many; of one there is nothing to say.
    pub of: usize,
    /// Whether the number is that of the board's page, which these strips are for.
    pub board: bool,
}

impl PageNumber {
    /// The only page.
    pub const ONLY: Self = Self { k: 1, of: 1, board: false };

    fn after(self, desk: &Desk<'_>, title: &str) -> String {
        let Self { k, of, board } = self;
        match (of, board) {
            (1, _) => title.to_owned(),
            (_, false) => desk.lesson.wording().page_of(title, k, of),
            (_, true) => desk.lesson.wording().for_board(title, k, of),
        }
    }
}

/// Numbers a page's bookmark where there are several.
pub fn name(desk: &Desk<'_>, page: Option<&mut Page>, k: usize, of: usize) {
    if let Some(page) = page.filter(|_| of > 1) {
        page.name = desk.lesson.wording().sheet_of(&page.name, k, of);
    }
}

/// A board page held this way.
pub fn board_page(desk: &Desk<'_>, turn: Turn, number: PageNumber) -> Result<(Size, Headed), Problem> {
    let decoys = |set: &SortSet| set.strips.iter().any(|strip| strip.row.is_none());
    let (some, all) = (desk.lesson.sets.iter().any(decoys), desk.lesson.sets.iter().all(decoys));
    let (wording, marks) = (desk.lesson.wording(), desk.lesson.marks_strips());
    // All boards of a class say the same, also that of a group without decoys.
    let note = if some && !all { wording.board_note_any(marks) } else { wording.board_note(some, marks) };
    let strips = desk.lesson.makes(SheetKind::Strips) && !desk.lesson.keeps_strips_whole();
    let note = if strips { note } else { wording.board_note_written(desk.lesson.draws_in_boxes()) };
    let goal = desk.lesson.can();
    let title = number.after(desk, desk.lesson.wording().sheet_title(SheetKind::Board));
    let head = Head { title: &title, note: Some(note), reader: Reader::Learner, code: true, goal: Some(&goal) };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Board)?), &head)?))
}

/// A page of strips held this way, some of which is scrap or none.
pub fn strips_page(desk: &Desk<'_>, turn: Turn, number: PageNumber, striped: bool) -> Result<(Size, Headed), Problem> {
    let note = scrap::note(desk, desk.lesson.wording().strips_note(), striped);
    let title = number.after(desk, desk.lesson.wording().sheet_title(SheetKind::Strips));
    let head = Head { title: &title, note: Some(&note), reader: Reader::Learner, code: true, goal: None };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Strips)?), &head)?))
}

/// What heads a column: in the lesson's language, and below it in its second one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct ColumnHead<'t> {
    /// In the lesson's language.
    pub first: &'t str,
    /// In its second language, where there is one.
    pub second: Option<&'t str>,
}

impl<'t> ColumnHead<'t> {
    /// What heads a form's column in a set's board.
    pub fn of(desk: &Desk<'t>, set: &SortSet, form: Form) -> Self {
        Self { first: desk.lesson.set_heading(set, form), second: desk.lesson.second_heading(set, form) }
    }

    /// Its texts, each with the frame that it has in its cell.
    pub fn parts(self, board: &Layout, cell: Rect, lines: HeadLines) -> Vec<(&'t str, Rect)> {
        let frame = heading(board, cell);
        let Some(second) = self.second else { return vec![(self.first, frame)] };
        let upper = frame.height().scaled(lines.first, lines.first + lines.second);
        let lower = Point::new(frame.left(), frame.top() + upper);
        vec![
            (self.first, Rect::new(frame.origin(), Size::new(frame.width(), upper))),
            (second, Rect::new(lower, Size::new(frame.width(), frame.height() - upper))),
        ]
    }
}

/// For how many lines the row of column headings has room: in the lesson's language and in its second one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HeadLines {
    first: i64,
    second: i64,
}

/// The fewest lines first.
const HEAD_LINES: [HeadLines; 4] = [
    HeadLines { first: 1, second: 1 },
    HeadLines { first: 1, second: 2 },
    HeadLines { first: 2, second: 1 },
    HeadLines { first: 2, second: 2 },
];

/// How high the row of column headings is over columns of these widths, and its lines: one for each language where all headings
/// fit on one, otherwise two. `None` where a heading fits on neither.
pub fn headings(
    desk: &Desk<'_>,
    board: &Layout,
    columns: &[(ColumnHead<'_>, Length)],
) -> Result<Option<(Length, HeadLines)>, Problem> {
    let face = desk.face(board, "heading")?;
    let fits = |(high, lines): &(Length, HeadLines)| {
        columns.iter().all(|(head, wide)| {
            let parts = head.parts(board, Rect::new(Point::ORIGIN, Size::new(*wide, *high)), *lines);
            parts.into_iter().all(|(text, frame)| text::fitting(desk.family, &[text], frame.size(), &face).is_ok())
        })
    };
    let two = columns.iter().any(|(head, _)| head.second.is_some());
    let all =
        HEAD_LINES.iter().map(|lines| (face.pitch() * (lines.first + if two { lines.second } else { 0 }), *lines));
    Ok(all.map(|(high, lines)| (high + board.padding, lines)).find(fits))
}

/// The frame of a heading in its cell.
fn heading(board: &Layout, cell: Rect) -> Rect {
    cell.shrunk(Sides { left: board.padding.half(), right: board.padding.half(), ..Sides::default() })
}

/// A number of a set in a form; blocks above 9,999 have no picture and are refused when a lesson is read.
pub fn shown(set: &SortSet, number: Number, form: Form) -> Result<Content, Problem> {
    let none = || Problem::new(format!("{number} has no block picture")).hint("block pictures go up to 9,999");
    form.content(number, &set.style).ok_or_else(none)
}

/// Everything that strips and given cells show, each once.
#[derive(Debug, Default)]
pub(super) struct Contents {
    pub(super) texts: Shown<String>,
    pub(super) pictures: Vec<Counts>,
    pub(super) given_texts: Shown<String>,
}

/// Texts: those that have their piece to themselves, and those that share it with the same in another language.
#[derive(Debug, Clone, Default)]
pub(super) struct Shown<T> {
    pub(super) alone: Vec<T>,
    pub(super) halves: Vec<T>,
}

impl Shown<String> {
    fn add(&mut self, content: Content, pictures: &mut Vec<Counts>) {
        match content {
            Content::Text(text) => self.alone.push(text),
            Content::Both(texts) => self.halves.extend(texts),
            Content::Blocks(counts) => pictures.push(counts),
        }
    }

    /// Each text once; what takes the most room first: what does not fit shows soonest.
    fn sort(&mut self) {
        for texts in [&mut self.alone, &mut self.halves] {
            texts.sort_unstable();
            texts.dedup();
            texts.sort_by_key(|text| std::cmp::Reverse(text.len()));
        }
    }

    pub(super) fn as_strs(&self) -> Shown<&str> {
        let [alone, halves] = [&self.alone, &self.halves].map(|texts| texts.iter().map(String::as_str).collect());
        Shown { alone, halves }
    }
}

impl<'t> Shown<&'t str> {
    /// Those that take the most room; see [`text::widest`].
    pub(super) fn widest(&self, family: &Family, weight: Weight) -> Self {
        Self { alone: text::widest(family, weight, &self.alone), halves: text::widest(family, weight, &self.halves) }
    }

    /// The largest size at which all of them fit a room; the first text that does not, where there is none.
    pub(super) fn fitting(&self, family: &Family, room: Size, face: &Face) -> Result<Length, &'t str> {
        let size = text::fitting(family, &self.alone, room, face)?;
        text::fitting(family, &self.halves, half(room), &Face { size, ..*face })
    }

    /// Fails where they do not fit, in words.
    pub(super) fn settable(&self, family: &Family, room: Size, face: &Face) -> Result<(), Problem> {
        text::largest(family, &self.alone, room, face)?;
        text::largest(family, &self.halves, half(room), face).map(drop)
    }
}

/// Gathers it from some sets.
pub(super) fn gather(sets: &[&SortSet]) -> Result<Contents, Problem> {
    let mut all = Contents::default();
    for set in sets {
        for strip in &set.strips {
            all.texts.add(strip.content.clone(), &mut all.pictures);
        }
        for &number in &set.rows {
            all.given_texts.add(shown(set, number, set.given)?, &mut all.pictures);
        }
    }
    all.texts.sort();
    all.given_texts.sort();
    // A picture with no more of any kind than another takes no more room.
    all.pictures.sort_unstable();
    all.pictures.dedup();
    let every = all.pictures.clone();
    let covers = |a: &Counts, b: &Counts| a != b && a.iter().zip(b).all(|(a, b)| a >= b);
    all.pictures.retain(|counts| !every.iter().any(|other| covers(other, counts)));
    Ok(all)
}
