//! Bands to rectangles and cuts.

use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::blocks::geometry::{BlockKind, UNIT};
use crate::sheets::blocks::packing::Band;
use crate::sheets::blocks::picture::CUT_EDGE;
use crate::sheets::page::scrap::stripes;
use crate::sheets::page::{CutLine, Item, Snip};

/// One piece, from the top left corner of the first band.
#[derive(Debug, Clone, Copy)]
pub(super) struct CutBlock {
    /// What it is; squares are flats here.
    pub kind: BlockKind,
    /// Whether it is a rod that lies level.
    pub lying: bool,
    /// Its edges.
    pub rect: Rect,
}

/// All pieces of a page.
pub(super) struct Placed {
    /// The pieces in reading order.
    pub blocks: Vec<CutBlock>,
    /// The bands, as wide as the widest.
    pub bands: Vec<Rect>,
    /// What they take together.
    pub size: Size,
}

impl Placed {
    /// Whether some of it is left over.
    pub(super) fn has_scrap(&self) -> bool {
        !scrap(self).is_empty()
    }
}

/// Pieces from the left edge of each band, bands below one another.
pub(super) fn place(bands: &[Band]) -> Placed {
    let units = |count: u32| UNIT * i64::from(count);
    let width = units(bands.iter().map(Band::width).max().unwrap_or(0));
    let mut placed = Placed { blocks: Vec::new(), bands: Vec::new(), size: Size::default() };
    let mut y = Length::ZERO;
    for band in bands {
        let (mut x, high) = (Length::ZERO, units(band.height()));
        let mut put = |kind: BlockKind, lying: bool, x: Length, dy: Length, size: Size| {
            placed.blocks.push(CutBlock { kind, lying, rect: Rect::new(Point::new(x, y + dy), size) });
        };
        for _ in 0..band.squares {
            put(BlockKind::Flat, false, x, Length::ZERO, BlockKind::Flat.size(UNIT));
            x += units(10);
        }
        let upright = BlockKind::Rod.size(UNIT);
        let rod = if band.tall { upright } else { upright.turned() };
        for _ in 0..band.rods {
            put(BlockKind::Rod, !band.tall, x, Length::ZERO, rod);
            x += rod.width;
        }
        for k in 0..band.cubes {
            let (column, row) = if band.tall { (k / 10, k % 10) } else { (k, 0) };
            put(BlockKind::Cube, false, x + units(column), units(row), BlockKind::Cube.size(UNIT));
        }
        placed.bands.push(Rect::new(Point::new(Length::ZERO, y), Size::new(width, high)));
        y += high;
    }
    placed.size = Size::new(width, y);
    placed
}

/// Where the first band starts: below `top`, in the middle from left to right.
pub(super) fn origin(live: Rect, size: Size, top: Length) -> Point {
    Point::new(live.left() + (live.width() - size.width).half(), top)
}

/// The cuts that free every piece: first level ones between bands and those upright ones that cross no piece, from edge to
/// edge; then snips across single bands. The pieces' own edges show them, so that no line runs through scrap; what is drawn
/// here are ticks beside the pieces, where a ruler or a trimmer finds a cut that goes right across, and stripes on scrap.
pub(super) fn cuts(placed: &Placed, origin: Point, live: Rect) -> (Vec<CutLine>, Vec<Snip>, Vec<Item>) {
    let blocks: Vec<Rect> = placed.blocks.iter().map(|block| block.rect).collect();
    let mut levels: Vec<Length> = placed.bands.iter().flat_map(|band| [band.top(), band.bottom()]).collect();
    let mut edges: Vec<Length> = blocks.iter().flat_map(|rect| [rect.left(), rect.right()]).collect();
    for list in [&mut levels, &mut edges] {
        list.sort_unstable();
        list.dedup();
    }
    let crosses = |x: Length, rect: &Rect| rect.left() < x && x < rect.right();
    let (full, short): (Vec<Length>, Vec<Length>) = edges.iter().partition(|x| !blocks.iter().any(|r| crosses(**x, r)));
    let (full, short): (Vec<Length>, Vec<Length>) = (full, short);

    let mut snips = Vec::new();
    for band in &placed.bands {
        let inside: Vec<Rect> = blocks.iter().copied().filter(|rect| band.contains(*rect)).collect();
        let ends = |x: Length| inside.iter().any(|rect| rect.left() == x || rect.right() == x);
        for &x in short.iter().filter(|x| ends(**x)) {
            snips.push(Snip { from: Point::new(x, band.top()), to: Point::new(x, band.bottom()) });
        }
        // Columns of cubes in a tall band fall apart last.
        for cube in inside.iter().filter(|rect| rect.height() < band.height()) {
            for y in [cube.top(), cube.bottom()].into_iter().filter(|y| band.top() < *y && *y < band.bottom()) {
                let snip = Snip { from: Point::new(cube.left(), y), to: Point::new(cube.right(), y) };
                if !snips.contains(&snip) {
                    snips.push(snip);
                }
            }
        }
    }
    let snips = snips
        .into_iter()
        .map(|Snip { from, to }| Snip { from: from.moved(origin.x, origin.y), to: to.moved(origin.x, origin.y) })
        .collect();
    let (top, bottom) = (origin.y, origin.y + placed.size.height);
    let (left, right) = (origin.x, origin.x + placed.size.width);
    let ruled = |from: Point, to: Point| Item::Line { from, to, stroke: CUT_EDGE };
    let mut lines = Vec::new();
    let mut cuts = Vec::new();
    for y in levels.into_iter().map(|y| y + origin.y) {
        cuts.push(CutLine::Level(y));
        lines.push(ruled(Point::new((left - TICK).max(live.left()), y), Point::new(left, y)));
        lines.push(ruled(Point::new(right, y), Point::new((right + TICK).min(live.right()), y)));
    }
    for x in full {
        cuts.push(CutLine::Upright(x + origin.x));
        // A tick stands where a piece meets it.
        let meets = |band: Option<&Rect>| {
            let inside = |rect: &&Rect| band.is_some_and(|band| band.contains(**rect));
            blocks.iter().filter(inside).any(|rect| rect.left() == x || rect.right() == x)
        };
        let x = x + origin.x;
        if meets(placed.bands.first()) {
            lines.push(ruled(Point::new(x, top - TICK.min(GAP_ABOVE)), Point::new(x, top)));
        }
        if meets(placed.bands.last()) {
            lines.push(ruled(Point::new(x, bottom), Point::new(x, (bottom + TICK).min(live.bottom()))));
        }
    }
    for scrap in scrap(placed) {
        lines.extend(stripes(scrap.moved(origin.x, origin.y)));
    }
    (cuts, snips, lines)
}

/// How far ticks reach.
const TICK: Length = Length::mm(4);
/// They keep clear of the check lines and words above.
const GAP_ABOVE: Length = Length::mm100(50);

/// What is left over of the bands at their right ends; of bands below one another that end alike, together.
fn scrap(placed: &Placed) -> Vec<Rect> {
    let mut all: Vec<Rect> = Vec::new();
    for band in &placed.bands {
        let inside = placed.blocks.iter().map(|block| block.rect).filter(|rect| band.contains(*rect));
        let end = inside.map(Rect::right).max().unwrap_or(band.left());
        if end >= band.right() {
            continue;
        }
        let rest = Rect::between(Point::new(end, band.top()), Point::new(band.right(), band.bottom()));
        match all.last_mut() {
            Some(above) if above.left() == rest.left() && above.bottom() == rest.top() => *above = above.union(rest),
            _ => all.push(rest),
        }
    }
    all
}
