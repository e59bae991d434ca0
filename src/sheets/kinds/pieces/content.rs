//! What board and strips show, and the pages they show it on.

use crate::diag::Problem;
use crate::lesson::SortSet;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::{Content, Form, Number};
use crate::sheets::blocks::geometry::Counts;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text;
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
    let title = number.after(desk, desk.lesson.wording().sheet_title(SheetKind::Board));
    let head = Head { title: &title, note: Some(note), reader: Reader::Learner, name: true, code: true };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Board)?), &head)?))
}

/// A page of strips held this way.
pub fn strips_page(desk: &Desk<'_>, turn: Turn, number: PageNumber) -> Result<(Size, Headed), Problem> {
    let note = desk.lesson.wording().strips_note();
    let title = number.after(desk, desk.lesson.wording().sheet_title(SheetKind::Strips));
    let head = Head { title: &title, note: Some(note), reader: Reader::Learner, name: false, code: true };
    let page = desk.page(turn);
    Ok((page, head::lay(desk, desk.live(page, desk.layout(SheetKind::Strips)?), &head)?))
}

/// How high the row of column headings is over columns of these widths: one line where all headings fit on one,
/// otherwise two. `None` where a heading fits on neither.
pub fn headings(desk: &Desk<'_>, board: &Layout, columns: &[(&str, Length)]) -> Result<Option<Length>, Problem> {
    let face = desk.face(board, "heading")?;
    let fits = |high: Length| {
        columns.iter().all(|(text, wide)| {
            let frame = heading(board, Rect::new(Point::ORIGIN, Size::new(*wide, high)));
            text::fitting(desk.family, &[text], frame.size(), &face).is_ok()
        })
    };
    Ok([1, 2].map(|lines| face.pitch() * lines + board.padding).into_iter().find(|high| fits(*high)))
}

/// The frame of a heading in its cell.
pub fn heading(board: &Layout, cell: Rect) -> Rect {
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
    pub(super) texts: Vec<String>,
    pub(super) pictures: Vec<Counts>,
    pub(super) given_texts: Vec<String>,
}

/// Gathers it.
pub(super) fn gather(desk: &Desk<'_>) -> Result<Contents, Problem> {
    let mut all = Contents::default();
    for set in &desk.lesson.sets {
        for strip in &set.strips {
            match &strip.content {
                Content::Text(text) => all.texts.push(text.clone()),
                Content::Blocks(counts) => all.pictures.push(*counts),
            }
        }
        for &number in &set.rows {
            match shown(set, number, set.given)? {
                Content::Text(text) => all.given_texts.push(text),
                Content::Blocks(counts) => all.pictures.push(counts),
            }
        }
    }
    for texts in [&mut all.texts, &mut all.given_texts] {
        texts.sort_unstable();
        texts.dedup();
        // What takes the most room first: what does not fit shows soonest.
        texts.sort_by_key(|text| std::cmp::Reverse(text.len()));
    }
    // A picture with no more of any kind than another takes no more room.
    all.pictures.sort_unstable();
    all.pictures.dedup();
    let every = all.pictures.clone();
    let covers = |a: &Counts, b: &Counts| a != b && a.iter().zip(b).all(|(a, b)| a >= b);
    all.pictures.retain(|counts| !every.iter().any(|other| covers(other, counts)));
    Ok(all)
}
