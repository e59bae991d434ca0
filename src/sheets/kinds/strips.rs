//! The strips: the pieces for the board's boxes, shuffled, with decoys among them that look like any other.
//!
//! In: the sort sets and the [`Design`] that board and strips share. Out: a master a version. Pieces share their edges, so
//! that straight cuts across the whole page free them all; each has room for its version and learner mark.

use crate::diag::Problem;
use crate::lesson::Strip;
use crate::measure::{Length, Point, Rect};
use crate::number::Content;
use crate::sheets::kinds::pieces::{self, Design, StripSize};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::Grid;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Align;
use crate::sheets::page::{CutLine, Item, Layer, Mark, Node, Page, Piece, Says, Tag};
use crate::spec::SheetKind;

/// Lays out the masters of all versions.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    if desk.lesson.sets.is_empty() {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::Strips)?;
    let design = pieces::design(desk)?;
    let mut pages = Vec::new();
    for set in &desk.lesson.sets {
        for class in &design.classes {
            let mut strips = set.strips.iter().enumerate().filter(|(_, strip)| class.forms.contains(&strip.form));
            for &count in &class.shares {
                let these: Vec<_> = strips.by_ref().take(usize::try_from(count).unwrap_or(usize::MAX)).collect();
                if !these.is_empty() {
                    pages.push(desk.versioned(page(desk, layout, design, class, &these)?, set.version));
                }
            }
        }
    }
    Ok(pages)
}

/// One page of strips of one size, each with its number in the set from 0.
fn page(
    desk: &Desk<'_>,
    layout: &Layout,
    design: &Design,
    class: &StripSize,
    strips: &[(usize, &Strip)],
) -> Result<Page, Problem> {
    let (size, headed) = pieces::strips_page(desk, class.turn)?;
    let rows = u32::try_from(strips.len()).unwrap_or(u32::MAX).div_ceil(class.columns);
    let grid = Grid::of(headed.body, class.piece, class.columns, rows, layout.grid.gutter);
    let mut layer = Layer { cuts: grid.cuts(), ..Layer::default() };
    let mut nodes = Vec::new();
    for (cell, &(k, strip)) in grid.cells().zip(strips) {
        let content = Node::tagged(Tag::ListBody, draw(desk, design, strip, cell)?);
        nodes.push(Node::tagged(Tag::ListItem, [content]));
        layer.pieces.push(Piece { rect: cell, name: format!("strip {}", k + 1) });
        layer.marks.push(Mark { frame: design.mark(cell), says: Says::Piece });
    }
    layer.nodes.push(Node::Tagged(Tag::List, nodes));
    layer.nodes.push(Node::Artifact(lines(layout, &grid, desk.printable(size))));
    Ok(desk.finish(SheetKind::Strips, size, layout.stock, headed, layer))
}

/// What a strip shows, in the middle of its cell and clear of its mark.
pub fn draw(desk: &Desk<'_>, design: &Design, strip: &Strip, cell: Rect) -> Result<Vec<Node>, Problem> {
    match (&strip.content, &design.pictures) {
        (Content::Text(text), _) => Ok(desk.set(text, design.text(cell), &design.face, Align::CENTRE)?.nodes()),
        (Content::Blocks(counts), Some(pictures)) => Ok(vec![pictures.figure(*counts, design.picture(cell))]),
        (Content::Blocks(_), None) => Err(Problem::new("internal: a picture was never measured")),
    }
}

/// The cuts as lines: level ones across all that the printer reaches, upright ones a little beyond the pieces, so that a
/// ruler or a guillotine finds them.
fn lines(layout: &Layout, grid: &Grid, printable: Rect) -> Vec<Item> {
    let area = grid.area();
    let (top, bottom) = (area.top() - BEYOND, (area.bottom() + BEYOND).min(printable.bottom()));
    let line = |cut: CutLine| {
        let (from, to) = match cut {
            CutLine::Level(y) => (Point::new(printable.left(), y), Point::new(printable.right(), y)),
            CutLine::Upright(x) => (Point::new(x, top), Point::new(x, bottom)),
        };
        Item::Line { from, to, stroke: layout.cut }
    };
    grid.cuts().into_iter().map(line).collect()
}

/// How far upright cut lines reach beyond the pieces.
const BEYOND: Length = Length::mm(2);
