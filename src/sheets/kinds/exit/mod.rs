//! The quick check: several slips a page, each with a name line and up to three questions.
//!
//! In: the lesson's [`Check`]s. Out: pages of equal slips that are cut apart by straight lines. The grid and the number of
//! questions are chosen together: rather more questions than larger type, and four slips a page unless that would leave
//! no question at all. Every slip has the same number of questions.

mod key;
mod slip;

use crate::diag::Problem;
use crate::lesson::exit::{Check, MOST_QUESTIONS, checks};
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::Content;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::Grid;
use crate::sheets::page::head::{self, Head};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::Face;
use crate::sheets::page::{CutLine, Item, Layer, Node, Page, Piece, Reader, Tag};
use crate::spec::SheetKind;

pub use key::lay as key;

/// How the slips of a lesson look.
struct Design {
    page: Size,
    grid: Grid,
    /// How many of a check's questions are on a slip.
    questions: usize,
    look: slip::Look,
}

/// How many questions each slip has; none of them without exit numbers or when the lesson leaves the sheet out.
pub fn questions(desk: &Desk<'_>) -> Result<usize, Problem> {
    if !desk.lesson.spec.sheets.make.value.contains(&SheetKind::Exit) {
        return Ok(MOST_QUESTIONS);
    }
    let checks = checks(desk.lesson);
    if checks.is_empty() { Ok(0) } else { design(desk, &checks).map(|design| design.questions) }
}

/// Lays the pages of slips out; none without exit numbers.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let checks = checks(desk.lesson);
    if checks.is_empty() {
        return Ok(Vec::new());
    }
    let design = design(desk, &checks)?;
    let slips = usize::try_from(design.grid.len()).unwrap_or(1);
    // Whole pages: checks start again until the last page is full, so that no paper comes back blank.
    let all: Vec<&Check> = checks.iter().cycle().take(checks.len().div_ceil(slips) * slips).collect();
    all.chunks(slips).map(|these| page(desk, &design, these)).collect()
}

fn page(desk: &Desk<'_>, design: &Design, checks: &[&Check]) -> Result<Page, Problem> {
    let layout = desk.layout(SheetKind::Exit)?;
    let headed = headed(desk, layout, design.page)?;
    let mut layer = Layer { cuts: design.grid.cuts(), ..Layer::default() };
    for (cell, check) in design.grid.cells().zip(checks) {
        let frame = cell.shrunk(Sides::splat(layout.padding));
        let nodes = slip::draw(desk, &design.look, frame, check, design.questions)?;
        layer.nodes.push(Node::Tagged(Tag::Section, nodes));
        layer.pieces.push(Piece { rect: cell, name: format!("quick check {}", check.mark) });
    }
    let printable = desk.printable(design.page);
    layer.nodes.push(Node::Artifact(layer.cuts.iter().map(|cut| cut_line(*cut, printable, layout)).collect()));
    Ok(desk.finish(SheetKind::Exit, design.page, layout.stock, headed, layer))
}

/// A cut as it is printed: across all that the printer reaches.
fn cut_line(cut: CutLine, printable: Rect, layout: &Layout) -> Item {
    let (from, to) = match cut {
        CutLine::Level(y) => (Point::new(printable.left(), y), Point::new(printable.right(), y)),
        CutLine::Upright(x) => (Point::new(x, printable.top()), Point::new(x, printable.bottom())),
    };
    Item::Line { from, to, stroke: layout.cut }
}

fn headed(desk: &Desk<'_>, layout: &Layout, page: Size) -> Result<head::Headed, Problem> {
    let title = desk.lesson.wording().sheet_title(SheetKind::Exit);
    let head = Head { title, note: None, reader: Reader::Staff, name: false, code: false };
    // Cuts run along the edge of what can be printed: the heading keeps clear of them, the slips do not.
    let live = desk.live(page, layout);
    let clear = Sides { left: Length::mm(3), right: Length::mm(3), ..Sides::default() };
    let headed = head::lay(desk, live.shrunk(clear), &head)?;
    let body =
        Rect::between(Point::new(live.left(), headed.body.top()), Point::new(live.right(), headed.body.bottom()));
    Ok(head::Headed { body, ..headed })
}

/// Chooses grid, number of questions and type size.
fn design(desk: &Desk<'_>, checks: &[Check]) -> Result<Design, Problem> {
    let layout = desk.layout(SheetKind::Exit)?;
    let page = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let body = headed(desk, layout, page)?.body;
    let most = checks.iter().map(|check| check.questions.len()).max().unwrap_or(1);
    let wanted = layout.count("slips")?;
    let grids: Vec<Grid> = (layout.grid.columns.0..=layout.grid.columns.1)
        .flat_map(|columns| (layout.grid.rows.0..=layout.grid.rows.1).map(move |rows| (columns, rows)))
        .map(|(columns, rows)| Grid::filling(body, columns, rows, layout.grid.gutter))
        .collect();
    let fits = |grid: &Grid, questions: usize, size: Length| {
        let room = Rect::new(Point::ORIGIN, grid.cell).shrunk(Sides::splat(layout.padding)).size();
        // A picture stands under its question's words, right of the question's number.
        let under = Size::new(room.width - slip::number(size), room.height);
        let look = slip::Look::new(desk, layout, pictures(desk, layout, checks, under).ok()?, size).ok()?;
        let high = |check| slip::height(desk, &look, room.width, check, questions);
        checks.iter().all(|check| high(check).is_some_and(|high| high <= room.height)).then_some(look)
    };
    let face = desk.face(layout, "question")?;
    let sizes: Vec<Length> = std::iter::successors(Some(face.size), |size| Some(*size - Length::pt(1)))
        .take_while(|s| *s >= face.least)
        .collect();
    for least in [wanted, 2, 1] {
        for questions in (1..=most).rev() {
            for &size in &sizes {
                // The fewest slips a page leave the most room to write; more would only save paper.
                let mut open: Vec<&Grid> = grids.iter().filter(|grid| grid.len() >= least).collect();
                open.sort_by_key(|grid| (grid.len(), grid.columns));
                if let Some((grid, look)) = open.iter().find_map(|grid| Some((**grid, fits(grid, questions, size)?))) {
                    return Ok(Design { page, grid, questions, look });
                }
            }
        }
    }
    // A whole page for one question is not enough: say what is too wide or too high.
    pictures(desk, layout, checks, body.size())?;
    Err(Problem::new("a single question of the quick check does not fit on a page")
        .hint("choose larger paper, or `text = \"standard\"`"))
}

/// Block pictures at one unit; `None` where no question shows one.
fn pictures(desk: &Desk<'_>, layout: &Layout, checks: &[Check], room: Size) -> Result<Option<Pictures>, Problem> {
    let shown = checks.iter().flat_map(|check| &check.questions).filter_map(|question| match question.shown {
        Some(Content::Blocks(counts)) => Some(counts),
        _ => None,
    });
    let counts: Vec<_> = shown.collect();
    if counts.is_empty() {
        return Ok(None);
    }
    let room = Size::new(room.width, layout.length("picture")?);
    Pictures::fit(&counts, room, layout.length("unit")?, desk.ink()).map(Some)
}

/// The same face at another size, never under its least.
fn sized(face: Face, size: Length) -> Face {
    face.at(size.max(face.least))
}
