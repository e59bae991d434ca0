//! Block pictures as things to draw: every kind of block is one symbol, shown as often as the counts say.
//!
//! In: counts and the room for them. Out: a tagged figure whose alternative text tells the counts. Every cube, and every
//! unit of a rod or flat, is a closed cell: black strokes on a light ground, because thin grey lines break up on a printer
//! that makes grey from dots.

use std::sync::Arc;

use super::blockwork::{Block, Blockwork, Counts, Kind, LEAST_UNIT, OUTLINE, layer, words};
use super::page::{Item, Node, Paint, Stroke, Symbol, Tag};
use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size};

/// The lines between the units of a block.
const GRID: Stroke = Stroke { width: Length::pt100(50), paint: Paint::BLACK, dash: None };
/// The edge of a block.
const EDGE: Stroke = Stroke { width: OUTLINE, paint: Paint::BLACK, dash: None };

/// What the four kinds are filled with, in place order.
pub type Fills = [Paint; 4];

/// White all over: what a copy of a copy keeps best.
pub const PLAIN: Fills = [Paint::WHITE; 4];

/// The pictures of a sheet: one unit, one arrangement, one symbol a kind.
#[derive(Debug, Clone)]
pub struct Pictures {
    work: Blockwork,
    symbols: [Arc<Symbol>; 4],
}

impl Pictures {
    /// Pictures as large as a room allows, with units from 1.2 mm to `most`. Fails when they do not fit.
    pub fn fit(pictures: &[Counts], room: Size, most: Length, fills: Fills) -> Result<Self, Problem> {
        Ok(Self::new(Blockwork::fit(pictures, room, LEAST_UNIT, most)?, fills))
    }

    /// Pictures in an arrangement made before.
    pub fn new(work: Blockwork, fills: Fills) -> Self {
        let symbols = Kind::ALL.map(|kind| Arc::new(symbol(kind, work.unit(), fills[kind as usize])));
        Self { work, symbols }
    }

    /// The unit and the arrangement.
    pub fn work(&self) -> &Blockwork {
        &self.work
    }

    /// One picture in the middle of `room`, as a figure that a listener hears as `6 flats, no rods, 2 cubes`.
    pub fn figure(&self, counts: Counts, room: Rect) -> Node {
        let items = self.items(counts, room).into_iter().map(Node::Item).collect();
        Node::Tagged(Tag::Figure(words(counts)), items)
    }

    /// One picture in the middle of `room`, untagged.
    pub fn items(&self, counts: Counts, room: Rect) -> Vec<Item> {
        self.work.place(counts, room).into_iter().map(|block| self.shown(block)).collect()
    }

    fn shown(&self, block: Block) -> Item {
        Item::Symbol { symbol: Arc::clone(&self.symbols[block.kind as usize]), at: block.rect.origin() }
    }
}

/// One block at a unit, drawn from its own top left corner.
pub fn symbol(kind: Kind, unit: Length, fill: Paint) -> Symbol {
    let size = kind.size(unit);
    let whole = Rect::new(Point::ORIGIN, size);
    let items = match kind {
        Kind::Thousand => stack(unit, fill),
        Kind::Flat => grid(whole, unit, (10, 10), fill),
        Kind::Rod => grid(whole, unit, (1, 10), fill),
        Kind::Cube => grid(whole, unit, (1, 1), fill),
    };
    Symbol { size, items }
}

/// A block face of `across` by `down` closed cells.
pub fn grid(rect: Rect, unit: Length, (across, down): (i64, i64), fill: Paint) -> Vec<Item> {
    let line = |from: Point, to: Point| Item::Line { from, to, stroke: GRID };
    let mut items = vec![Item::Rect { rect, fill: Some(fill), stroke: Some(EDGE) }];
    items.extend((1..across).map(|k| {
        let x = rect.left() + unit * k;
        line(Point::new(x, rect.top()), Point::new(x, rect.bottom()))
    }));
    items.extend((1..down).map(|k| {
        let y = rect.top() + unit * k;
        line(Point::new(rect.left(), y), Point::new(rect.right(), y))
    }));
    items
}

/// Ten flats behind one another: the first is seen whole, of the others the edges above and at the right.
fn stack(unit: Length, fill: Paint) -> Vec<Item> {
    let (face, step) = (unit * 10, layer(unit));
    let depth = step * 10;
    let at = Point::new;
    let outline = vec![
        at(Length::ZERO, depth),
        at(depth, Length::ZERO),
        at(depth + face, Length::ZERO),
        at(depth + face, face),
        at(face, depth + face),
        at(Length::ZERO, depth + face),
    ];
    let mut items = vec![Item::Polygon { points: outline, fill: Some(fill), stroke: Some(EDGE) }];
    for k in 1..10 {
        let out = step * k;
        let corner = at(out + face, depth - out);
        items.push(Item::Line { from: at(out, depth - out), to: corner, stroke: GRID });
        items.push(Item::Line { from: corner, to: at(out + face, depth - out + face), stroke: GRID });
    }
    items.push(Item::Line { from: at(face, depth), to: at(face + depth, Length::ZERO), stroke: EDGE });
    let front = Rect::new(at(Length::ZERO, depth), Size::new(face, face));
    items.extend(grid(front, unit, (10, 10), fill));
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flat_has_a_line_between_any_two_rows_of_cells() {
        let flat = symbol(Kind::Flat, Length::mm(2), Paint::WHITE);
        let lines = flat.items.iter().filter(|item| matches!(item, Item::Line { .. })).count();
        assert_eq!((lines, flat.size.width), (18, Length::mm(20)));
    }

    #[test]
    fn a_thousand_shows_the_edges_of_ten_flats() {
        let block = symbol(Kind::Thousand, Length::mm(2), Paint::WHITE);
        // Each of the nine flats between the first and the back shows one level and one upright edge.
        let whole = Rect::new(Point::ORIGIN, block.size);
        let edges = block.items.iter().filter(|item| match item {
            Item::Line { from, to, .. } => {
                assert!(whole.contains(Rect::between(*from, *to)));
                from.x != to.x && from.y == to.y && from.x != Length::ZERO
            }
            _ => false,
        });
        assert_eq!(edges.count(), 9);
    }
}
