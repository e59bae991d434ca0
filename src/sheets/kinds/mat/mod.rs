//! The sheet *mat*: a column for each place, wide enough for its blocks at true size, with a ten-frame for the ones.
//!
//! In: the lesson's range and the digits of its numbers. Out: one page where the columns fit side by side, otherwise pages
//! that join: each but the first is cut along its left edge and laid on the right edge of the page before it, so that the
//! halves of the joining marks meet. In lessons whose numbers have no blocks the columns are for counters.

mod columns;
mod draw;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink::OUTLINE;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::{CutLine, Item, Layer, Node, Page, Reader, Tag};
use crate::spec::SheetKind;
use columns::MatColumn;

/// Lays the masters out. Fails when a single column is wider than the page, saying which.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Mat)?;
    let columns = columns::of(desk, layout)?;
    let mut best: Option<(Size, Vec<Vec<MatColumn>>)> = None;
    for &turn in &layout.turns {
        let size = desk.page(turn);
        let Some(pages) = columns::share(&columns, live(desk, layout, size).width()) else { continue };
        if best.as_ref().is_none_or(|(_, so_far)| pages.len() < so_far.len()) {
            best = Some((size, pages));
        }
    }
    let Some((size, pages)) = best else { return Err(too_wide(desk, layout, &columns)) };
    let count = pages.len();
    let high = draw::heading_height(desk, layout, &columns)?;
    let mat = Mat { size, high, count };
    pages.iter().zip(0..).map(|(columns, k)| page(desk, layout, &mat, columns, k)).collect()
}

fn too_wide(desk: &Desk<'_>, layout: &Layout, columns: &[MatColumn]) -> Problem {
    let widest = columns.iter().max_by_key(|column| column.need);
    let (name, need) = widest.map_or(("", Length::ZERO), |column| (column.place.words(), column.need));
    let widths = layout.turns.iter().map(|turn| live(desk, layout, desk.page(*turn)).width());
    let width = widths.max().unwrap_or_default();
    Problem::new(format!("the {name} column needs {need}, and the page has {width}"))
        .hint("a smaller margin, larger paper or standard text would fit")
}

/// The room that leaves the pen of the mat's edge inside what the printer reaches.
fn live(desk: &Desk<'_>, layout: &Layout, page: Size) -> Rect {
    desk.live(page, layout).shrunk(Sides::splat(OUTLINE.width.half()))
}

/// What all pages of a mat share.
struct Mat {
    size: Size,
    /// How high the headings are.
    high: Length,
    /// How many pages.
    count: usize,
}

/// Page `k`, from 0.
fn page(desk: &Desk<'_>, layout: &Layout, mat: &Mat, columns: &[MatColumn], k: usize) -> Result<Page, Problem> {
    let Mat { size, high, count } = *mat;
    let live = live(desk, layout, size);
    let headed = headed(desk, live, (k, count))?;
    let body = headed.body;
    let mut layer = Layer::default();
    let (mut headings, mut cells, mut lines) = (Vec::new(), Vec::new(), Vec::new());
    let mut x = body.left();
    for (column, width) in columns.iter().zip(columns::widths(columns, body.width())) {
        let whole = Rect::new(Point::new(x, body.top()), Size::new(width, body.height()));
        let heading = Rect::new(whole.origin(), Size::new(width, high));
        let field = Rect::between(Point::new(x, heading.bottom()), Point::new(whole.right(), whole.bottom()));
        lines.extend(draw::frame(heading, field));
        headings.push(draw::heading(desk, layout, column, heading)?);
        cells.push(draw::field(desk, column, layout, field));
        layer.boxes.push(field);
        x += width;
    }
    layer.nodes.push(Node::Artifact(lines));
    let rows = [headings, cells].map(|cells| Node::Tagged(Tag::Row, cells));
    layer.nodes.push(Node::tagged(Tag::Table, rows));
    if k > 0 {
        layer.cuts.push(CutLine::Upright(body.left()));
        let (from, to) = (Point::new(body.left(), live.top()), Point::new(body.left(), live.bottom()));
        // The heading and foot start at the same edge: the cut is drawn over the mat and a little beyond it.
        let beyond = Length::mm(3).min(body.top() - from.y).min(to.y - body.bottom());
        let (from, to) = (Point::new(from.x, body.top() - beyond), Point::new(to.x, body.bottom() + beyond));
        layer.nodes.push(Node::Artifact(vec![Item::Line { from, to, stroke: layout.cut }]));
        layer.nodes.push(draw::join(desk, layout, body, body.left(), k - 1)?);
    }
    if k + 1 < count {
        layer.nodes.push(draw::join(desk, layout, body, body.right(), k)?);
    }
    let mut page = desk.finish(SheetKind::Mat, size, layout.stock, headed, layer);
    if count > 1 {
        page.name = desk.lesson.wording().mat_page(&page.name, k + 1, count);
    }
    Ok(page)
}

/// The heading, the same height on every page of a mat so that the columns meet.
fn headed(desk: &Desk<'_>, live: Rect, (k, count): (usize, usize)) -> Result<Headed, Problem> {
    let title = desk.lesson.wording().sheet_title(SheetKind::Mat);
    let wording = desk.lesson.wording();
    let title = if count > 1 { wording.mat_page(title, k + 1, count) } else { title.to_owned() };
    let note = wording.mat_note(count);
    head::lay(desk, live, &Head { title: &title, note, reader: Reader::Learner, code: true, goal: None })
}
