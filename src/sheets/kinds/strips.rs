//! The strips: the pieces for the board's boxes, shuffled, with decoys among them that look like any other.
//!
//! In: the sort sets and the [`Design`] that board and strips share. Out: a master a version. Pieces share their edges, so
//! that straight cuts across the whole page free them all; each has room for its version and learner mark.

use crate::diag::Problem;
use crate::lesson::{SortSet, Strip};
use crate::measure::{Count, Length, Point, Rect, Sides};
use crate::number::Content;
use crate::sheets::kinds::pieces::{self, Design, PageNumber, StripPage, StripSize, home, name};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::Grid;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::scrap;
use crate::sheets::page::text::Align;
use crate::sheets::page::tongues::within;
use crate::sheets::page::{CutLine, Item, Layer, Mark, Node, Page, Piece, Says, Snip, Tag};
use crate::spec::SheetKind;

/// Lays out the masters of all versions.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    if desk.lesson.sets.is_empty() {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::Strips)?;
    let designs = pieces::designs(desk)?;
    let mut pages = Vec::new();
    for set in &desk.lesson.sets {
        let design = designs.of(set)?;
        let parts = parts(design, set);
        for (k, part) in parts.iter().enumerate() {
            // Where a page of the board has one page of strips, the two have one number.
            let paired = parts.iter().filter(|other| other.group == part.group).count() == 1;
            let boards = design.groups(set).len();
            let number = match boards {
                1 => PageNumber { k: k + 1, of: parts.len(), board: false },
                boards if paired => PageNumber { k: part.group + 1, of: boards, board: true },
                _ => PageNumber { k: k + 1, of: parts.len(), board: false },
            };
            pages.push(desk.versioned(page(desk, layout, design, part, number)?, set.version));
            name(desk, pages.last_mut(), k + 1, parts.len());
        }
    }
    Ok(pages)
}

/// How many pages a set's strips take.
pub fn pages(design: &Design, set: &SortSet) -> usize {
    parts(design, set).len()
}

/// What goes on one page: strips of one size below those of another, each with its number in the set from 0.
struct PagePart<'s> {
    turn: Turn,
    /// Which page of the board they belong to, from 0.
    group: usize,
    bands: Vec<(&'s StripSize, u32, Vec<(usize, &'s Strip)>)>,
}

/// The pages of a set's strips: those of the board's first page first.
fn parts<'s>(design: &'s Design, set: &'s SortSet) -> Vec<PagePart<'s>> {
    let mut parts = Vec::new();
    for ((group, rows), pages) in design.groups(set).into_iter().enumerate().zip(&design.pages) {
        let mut strips: Vec<_> = (design.classes.iter())
            .map(|class| {
                let here = |strip: &Strip| class.forms.contains(&strip.form) && rows.contains(&home(set, strip));
                set.strips.iter().enumerate().filter(move |(_, strip)| here(strip))
            })
            .collect();
        for StripPage { turn, bands } in pages {
            let taken = bands.iter().map(|band| {
                let strips: Vec<_> = strips[band.class].by_ref().take(band.count.index()).collect();
                (&design.classes[band.class], band.columns, strips)
            });
            let bands: Vec<_> = taken.filter(|(.., strips)| !strips.is_empty()).collect();
            if !bands.is_empty() {
                parts.push(PagePart { turn: *turn, group, bands });
            }
        }
    }
    parts
}

/// One page of strips.
fn page(
    desk: &Desk<'_>,
    layout: &Layout,
    design: &Design,
    PagePart { turn, bands, .. }: &PagePart<'_>,
    number: PageNumber,
) -> Result<Page, Problem> {
    let full = |(_, columns, strips): &(&StripSize, u32, Vec<_>)| strips.len().is_multiple_of(columns.index());
    let (size, headed) = pieces::strips_page(desk, *turn, number, !bands.iter().all(full))?;
    let (mut layer, mut lines) = (Layer::default(), Vec::new());
    let (mut nodes, mut room) = (Vec::new(), headed.body);
    for (class, columns, strips) in bands {
        let rows = strips.len().narrow().div_ceil(*columns);
        let grid = Grid::of(room, class.piece, *columns, rows, layout.grid.gutter);
        room = room.shrunk(Sides { top: grid.area().height(), ..Sides::default() });
        for (cell, (k, strip)) in grid.cells().zip(strips) {
            let drawn = draw(desk, design, strip, cell)?;
            match strip.content {
                Content::Blocks(_) => nodes.extend(drawn),
                Content::Text(_) | Content::Both(_) => nodes.push(Node::tagged(Tag::Paragraph, drawn)),
            }
            layer.pieces.push(Piece::strip(*k, cell));
            layer.marks.push(Mark { frame: design.mark(cell), says: Says::Piece });
        }
        lines.extend(grid.cells().skip(strips.len()).flat_map(scrap::stripes));
        cut(&mut layer, &mut lines, layout, &grid, desk.printable(size), bands.len() > 1);
    }
    layer.nodes.extend(nodes);
    layer.nodes.push(Node::Artifact(lines));
    Ok(desk.finish(SheetKind::Strips, size, layout.stock, headed, layer))
}

/// What a strip shows, in the middle of its cell and clear of its mark.
pub fn draw(desk: &Desk<'_>, design: &Design, strip: &Strip, cell: Rect) -> Result<Vec<Node>, Problem> {
    match (&strip.content, &design.pictures) {
        (Content::Text(text), _) => {
            let set = desk.set(text, design.text(cell), &design.face, Align::INK)?;
            Ok(within(desk.language(strip.form), set.nodes()))
        }
        (Content::Both(texts), _) => desk.both(texts, design.text(cell), &design.face),
        (Content::Blocks(counts), Some(pictures)) => {
            Ok(vec![pictures.seen(desk, *counts, design.picture(cell), &design.face)?])
        }
        (Content::Blocks(_), None) => Err(Problem::new("internal: a picture was never measured")),
    }
}

/// The cuts of a band, and their lines: level ones across all that the printer reaches, upright ones across the page where all
/// strips are one size, a little beyond the pieces, so that a ruler or a guillotine finds them; otherwise across the band alone.
fn cut(layer: &mut Layer, lines: &mut Vec<Item>, layout: &Layout, grid: &Grid, printable: Rect, several: bool) {
    let area = grid.area();
    let beyond = if several { Length::ZERO } else { BEYOND };
    let (top, bottom) = (area.top() - beyond, (area.bottom() + beyond).min(printable.bottom()));
    for cut in grid.cuts() {
        let (from, to) = match cut {
            CutLine::Level(y) => (Point::new(printable.left(), y), Point::new(printable.right(), y)),
            CutLine::Upright(x) => (Point::new(x, top), Point::new(x, bottom)),
        };
        match cut {
            CutLine::Upright(_) if several => layer.snips.push(Snip { from, to }),
            // Where two bands meet one cut parts them.
            _ if layer.cuts.contains(&cut) => continue,
            _ => layer.cuts.push(cut),
        }
        lines.push(Item::Line { from, to, stroke: layout.cut });
    }
}

/// How far upright cut lines reach beyond the pieces.
const BEYOND: Length = Length::mm(2);
