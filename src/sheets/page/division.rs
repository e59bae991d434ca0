//! How a sheet for the guillotine is divided into places.
//!
//! In: the lesson's paper and the size of its pieces. Out: the places, the cuts around them and the line that tells which
//! sheet it is.

use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::Grid;
use crate::sheets::page::layout::Turn;
use crate::sheets::page::{CutLine, Item, Layer, Node, Stroke};

/// How a sheet is divided: as many places as the paper holds.
#[derive(Debug, Clone)]
pub struct Division {
    size: Size,
    line: Rect,
    grid: Grid,
    cut: Stroke,
}

impl Division {
    /// The division that takes the most pieces of a size below a line of this height. Fails when none fits.
    pub fn of(desk: &Desk<'_>, piece: Size, high: Length, cut: Stroke) -> Result<Self, Problem> {
        let divide = |(size, line, area): (Size, Rect, Rect)| {
            let (columns, rows) =
                (area.width().holds(piece.width).narrow(), area.height().holds(piece.height).narrow());
            (columns * rows > 0).then(|| {
                let mut grid = Grid::of(area, piece, columns, rows, Length::ZERO);
                grid.origin = snapped(area, grid.area().size());
                Self { size, line, grid, cut }
            })
        };
        let mut best: Option<Self> = None;
        for found in Self::rooms(desk, high, cut).into_iter().filter_map(divide) {
            if best.as_ref().is_none_or(|best| found.grid.len() > best.grid.len()) {
                best = Some(found);
            }
        }
        best.ok_or_else(|| {
            Problem::new(format!("no piece of {} by {} fits on a sheet", piece.width, piece.height))
                .hint("use larger paper, or a smaller margin")
        })
    }

    /// The two ways to hold a sheet: its size, a line of this height for its text, and the room for pieces below that.
    pub fn rooms(desk: &Desk<'_>, high: Length, cut: Stroke) -> [(Size, Rect, Rect); 2] {
        [Turn::Portrait, Turn::Landscape].map(|turn| {
            let size = desk.page(turn);
            // The pens of the outermost cuts stay inside what the printer reaches.
            let room = desk.printable(size).shrunk(Sides::splat(cut.width.half()));
            let line = Rect::new(room.origin(), Size::new(room.width(), high));
            (size, line, Rect::between(Point::new(room.left(), line.bottom()), Point::new(room.right(), room.bottom())))
        })
    }

    /// How high the line of small text is that tells which sheet it is.
    pub fn line_height(desk: &Desk<'_>) -> Result<Length, Problem> {
        Ok(desk.face(desk.layouts.page(), "foot")?.pitch() + Length::mm(1))
    }

    /// How many places.
    pub fn places(&self) -> usize {
        self.grid.len().index()
    }

    /// The places and the cuts around them.
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// The place with this number, seen on the front.
    pub fn place(&self, place: usize) -> Rect {
        self.grid.cell(place.narrow())
    }

    /// Where it says which it is, on the front.
    pub fn line(&self) -> Rect {
        self.line
    }

    /// Its size as it is read.
    pub fn size(&self) -> Size {
        self.size
    }

    /// The cuts, as lines across all that the printer reaches.
    pub fn frame(&self, desk: &Desk<'_>) -> Layer {
        let printable = desk.printable(self.size);
        let cuts = self.grid.cuts();
        let line = |cut: &CutLine| {
            let (from, to) = match *cut {
                CutLine::Level(y) => (Point::new(printable.left(), y), Point::new(printable.right(), y)),
                // Upright lines start below the line of text at the top.
                CutLine::Upright(x) => (Point::new(x, self.line.bottom()), Point::new(x, printable.bottom())),
            };
            Item::Line { from, to, stroke: self.cut }
        };
        let lines = cuts.iter().map(line).collect();
        Layer { nodes: vec![Node::Artifact(lines)], cuts, ..Layer::default() }
    }
}

/// Where a grid of this size starts in the middle of an area. The first cut stands on a tenth of a millimetre, for people
/// who set it by hand, unless that would take the grid out of its area.
fn snapped(area: Rect, grid: Size) -> Point {
    let tenth = Length::mm100(10);
    let middle = area.centred(grid).origin();
    let snap = |at: Length, least: Length, most: Length| {
        let down = tenth * at.holds(tenth);
        [down, down + tenth].into_iter().find(|at| least <= *at && *at <= most).unwrap_or(at)
    };
    Point::new(
        snap(middle.x, area.left(), area.right() - grid.width),
        snap(middle.y, area.top(), area.bottom() - grid.height),
    )
}
