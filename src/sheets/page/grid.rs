//! Rows and columns of equal cells, the cuts between them, and how many cells each page takes.
//!
//! In: an area, how many cells are wanted and limits from a layout. Out: a [`Grid`] whose cells are all exactly equal
//! (what does not divide is left over around them) and whose cuts are straight lines across the page.

use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::page::CutLine;

/// Which grids a layout allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Least and most columns, 1 or more.
    pub columns: (u32, u32),
    /// Least and most rows, 1 or more.
    pub rows: (u32, u32),
    /// Between neighbouring cells; zero where they share a cut.
    pub gutter: Length,
}

/// Equal cells in rows and columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Grid {
    /// The top left corner of the first cell.
    pub origin: Point,
    /// Every cell's size.
    pub cell: Size,
    /// How many columns.
    pub columns: u32,
    /// How many rows.
    pub rows: u32,
    /// Between neighbouring cells.
    pub gutter: Length,
}

impl Grid {
    /// The grid of the largest equal cells in `area`, in the middle of it. Cells are whole hundredths of a millimetre.
    /// `columns` and `rows` count as at least 1.
    pub fn filling(area: Rect, columns: u32, rows: u32, gutter: Length) -> Self {
        let (columns, rows) = (columns.max(1), rows.max(1));
        let share = |room: Length, parts: u32| {
            let rest = (room - gutter * i64::from(parts - 1)).max(Length::ZERO);
            Length::mm100(rest.holds(Length::mm100(1)) / i64::from(parts))
        };
        let cell = Size::new(share(area.width(), columns), share(area.height(), rows));
        Self::of(area, cell, columns, rows, gutter)
    }

    /// The grid of cells of this size, in the middle of `area` from left to right and at its top.
    pub fn of(area: Rect, cell: Size, columns: u32, rows: u32, gutter: Length) -> Self {
        let (columns, rows) = (columns.max(1), rows.max(1));
        let width = span(cell.width, columns, gutter);
        let x = area.left() + (area.width() - width).half();
        Self { origin: Point::new(x, area.top()), cell, columns, rows, gutter }
    }

    /// How many cells.
    pub fn len(&self) -> u32 {
        self.columns * self.rows
    }

    /// Never: a grid has at least one cell.
    pub fn is_empty(&self) -> bool {
        false
    }

    /// The cell at this row and column, both from 0.
    pub fn at(&self, row: u32, column: u32) -> Rect {
        let dx = (self.cell.width + self.gutter) * i64::from(column);
        let dy = (self.cell.height + self.gutter) * i64::from(row);
        Rect::new(self.origin.moved(dx, dy), self.cell)
    }

    /// The k-th cell from 0, row by row.
    pub fn cell(&self, k: u32) -> Rect {
        self.at(k / self.columns, k % self.columns)
    }

    /// All cells, row by row.
    pub fn cells(&self) -> impl Iterator<Item = Rect> + '_ {
        (0..self.len()).map(|k| self.cell(k))
    }

    /// The whole grid.
    pub fn area(&self) -> Rect {
        let width = span(self.cell.width, self.columns, self.gutter);
        Rect::new(self.origin, Size::new(width, span(self.cell.height, self.rows, self.gutter)))
    }

    /// The cuts that part the cells from each other; what lies outside the outer edges stays with them.
    pub fn parting(&self) -> Vec<CutLine> {
        let area = self.area();
        let inside = |cut: &CutLine| match *cut {
            CutLine::Level(y) => area.top() < y && y < area.bottom(),
            CutLine::Upright(x) => area.left() < x && x < area.right(),
        };
        self.cuts().into_iter().filter(inside).collect()
    }

    /// The cuts that free every cell: two along each gutter, one along each shared edge, and the outer edges.
    pub fn cuts(&self) -> Vec<CutLine> {
        let rows = (0..self.rows).map(|row| self.at(row, 0)).flat_map(|cell| [cell.top(), cell.bottom()]);
        let columns = (0..self.columns).map(|column| self.at(0, column)).flat_map(|cell| [cell.left(), cell.right()]);
        let mut cuts: Vec<_> = rows.map(CutLine::Level).chain(columns.map(CutLine::Upright)).collect();
        cuts.sort_unstable();
        cuts.dedup();
        cuts
    }
}

/// The length of `count` cells in a line.
fn span(cell: Length, count: u32, gutter: Length) -> Length {
    cell * i64::from(count) + gutter * i64::from(count - 1)
}

/// The best grid in `area` for `count` equal cells: the fewest pages at which the content of every cell is readable, then
/// the largest content, then the fewest columns. `content` says how large the content gets in a cell of a size (any
/// measure that grows with it), or `None` where it is not readable. `None` when no grid serves.
pub fn choose<M: Ord>(area: Rect, count: u32, limits: &Limits, content: impl Fn(Size) -> Option<M>) -> Option<Grid> {
    let mut best: Option<(u32, M, Grid)> = None;
    for columns in limits.columns.0.max(1)..=limits.columns.1 {
        for rows in limits.rows.0.max(1)..=limits.rows.1 {
            let grid = Grid::filling(area, columns, rows, limits.gutter);
            let pages = count.div_ceil(grid.len());
            if best.as_ref().is_some_and(|(fewest, ..)| pages > *fewest) {
                continue;
            }
            let Some(size) = content(grid.cell) else { continue };
            if best.as_ref().is_none_or(|(fewest, largest, _)| pages < *fewest || size > *largest) {
                best = Some((pages, size, grid));
            }
        }
    }
    best.map(|(.., grid)| grid)
}

/// Shares `count` pieces out over the fewest pages of `most` each, `columns` a row, evenly by whole rows: no page has more
/// than one row more than another, so that no piece is stranded on a page of its own where others could join it.
pub fn share(count: u32, most: u32, columns: u32) -> Vec<u32> {
    let columns = columns.clamp(1, most.max(1));
    let rows_a_page = (most / columns).max(1);
    let rows = count.div_ceil(columns);
    let pages = rows.div_ceil(rows_a_page);
    let mut left = count;
    let mut taken = Vec::new();
    for page in 0..pages {
        let rows_here = rows / pages + u32::from(page < rows % pages);
        let here = left.min(rows_here * columns);
        taken.push(here);
        left -= here;
    }
    taken
}

#[cfg(test)]
mod tests {
    use super::*;

    fn letter() -> Rect {
        Rect::new(Point::new(Length::mm(10), Length::mm(10)), Size::new(Length::mm(196), Length::mm(259)))
    }

    #[test]
    fn cells_are_equal_and_share_their_edges() {
        let grid = Grid::filling(letter(), 3, 7, Length::ZERO);
        assert!(grid.cells().all(|cell| cell.size() == grid.cell && letter().contains(cell)));
        assert_eq!(grid.at(0, 0).right(), grid.at(0, 1).left());
        assert_eq!(grid.cuts().len(), 8 + 4);
        let apart = Grid::filling(letter(), 3, 7, Length::mm(4));
        assert_eq!(apart.cuts().len(), 14 + 6);
    }

    #[test]
    fn pages_are_balanced_and_nothing_is_stranded() {
        assert_eq!(share(9, 8, 1), [5, 4]);
        assert_eq!(share(22, 21, 3), [12, 10]);
        assert_eq!(share(28, 30, 3), [28]);
        assert_eq!(share(0, 8, 2), Vec::<u32>::new());
        for count in 1..200 {
            for (most, columns) in [(8, 1), (8, 2), (21, 3), (30, 3), (4, 2), (1, 1)] {
                let pages = share(count, most, columns);
                assert_eq!(pages.iter().sum::<u32>(), count);
                assert_eq!(pages.len(), usize::try_from(count.div_ceil(most)).unwrap());
                let rows: Vec<u32> = pages.iter().map(|n| n.div_ceil(columns)).collect();
                assert!(rows.iter().max().unwrap() - rows.iter().min().unwrap() <= 1, "{count} {pages:?}");
            }
        }
    }

    #[test]
    fn the_grid_with_the_largest_readable_content_wins() {
        let limits = Limits { columns: (1, 4), rows: (1, 12), gutter: Length::ZERO };
        // Content: a square as high as the cell is high, readable from 20 mm up.
        let content = |cell: Size| Some(cell.width.min(cell.height)).filter(|side| *side >= Length::mm(20));
        let grid = choose(letter(), 24, &limits, content).expect("a grid");
        assert_eq!((grid.columns, grid.rows), (4, 6));
        assert_eq!(choose(letter(), 1, &limits, |_| None::<u32>), None);
    }
}
