//! Block pictures as things to draw: every kind of block is one symbol, shown as often as the counts say.
//!
//! In: counts and the room for them. Out: a tagged figure whose alternative text tells the counts. Every cube, and every
//! unit of a rod or flat, is a closed cell: black strokes on a light ground, because thin grey lines break up on a printer
//! that makes grey from dots.

use std::sync::Arc;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size};
use crate::number::{Content, Place};
use crate::sheets::blocks::geometry::{Block, BlockKind, Blockwork, Counts, LEAST_UNIT, layer};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink::{OUTLINE, Pattern, Tone, tone};
use crate::sheets::page::layout;
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Node, Paint, Stroke, Symbol, Tag};
use crate::spec::Ink;
use crate::wording::Wording;

/// The lines between the units of a block in a picture. They step back behind the outline, so that at arm's length a block
/// reads as a block; they are still so dark that a copy of a copy keeps them.
const fn grid(tone: Tone) -> Stroke {
    // A coloured ground leaves less contrast.
    let paint = if matches!(tone.fill, Paint::Grey(_)) { Paint::Grey(80) } else { Paint::BLACK };
    Stroke { width: Length::pt100(50), paint, dash: None }
}

/// The lines between the units of a block that is cut out: unlike its edge, which is for the scissors.
const UNIT_LINE: Stroke = Stroke { width: Length::pt100(50), paint: Paint::Grey(118), dash: None };

/// The edge of a block that is cut out: where to cut.
pub const CUT_EDGE: Stroke = Stroke { width: Length::pt100(125), paint: Paint::BLACK, dash: None };

/// The pictures of a sheet: one unit, one arrangement, one symbol a kind.
#[derive(Debug, Clone)]
pub struct Pictures {
    work: Blockwork,
    symbols: [Arc<Symbol>; 4],
    /// Says what a listener hears.
    wording: &'static dyn Wording,
}

impl Pictures {
    /// Pictures as large as a room allows, with units from 1.2 mm to `most`. Fails when they do not fit.
    pub fn fit(pictures: &[Counts], room: Size, most: Length, desk: &Desk<'_>) -> Result<Self, Problem> {
        Ok(Self::new(Blockwork::fit(pictures, room, LEAST_UNIT, most)?, desk.ink(), desk.lesson.wording()))
    }

    /// Pictures in an arrangement made before.
    pub fn new(work: Blockwork, ink: Ink, wording: &'static dyn Wording) -> Self {
        let symbols = BlockKind::ALL.map(|kind| Arc::new(symbol(kind, work.unit(), tone(ink, place(kind)))));
        Self { work, symbols, wording }
    }

    /// The unit and the arrangement.
    pub fn work(&self) -> &Blockwork {
        &self.work
    }

    /// How wide a picture is, pen included.
    pub fn width(&self, counts: Counts) -> Length {
        let blocks = self.work.place(counts, Rect::default());
        let whole = blocks.into_iter().map(|block| block.rect).reduce(Rect::union);
        whole.map_or(Length::ZERO, Rect::width) + OUTLINE.width
    }

    /// One picture in the middle of `room`, as a figure that a listener hears as `6 flats, no rods, 2 cubes`.
    pub fn figure(&self, counts: Counts, room: Rect) -> Node {
        let items = self.items(counts, room).into_iter().map(Node::Item).collect();
        Node::Tagged(Tag::Figure(self.wording.blocks_told(counts)), items)
    }

    /// What a learner sees of a number in the middle of `room`: its picture, or words where there is nothing to draw, since a
    /// blank piece looks like a mistake. They are in this face, or smaller; fails when they fit at no size that learners read.
    pub fn seen(&self, desk: &Desk<'_>, counts: Counts, room: Rect, face: &Face) -> Result<Node, Problem> {
        if counts != [0; 4] {
            return Ok(self.figure(counts, room));
        }
        let said = self.wording.content(&Content::Blocks(counts));
        let face = Face { least: layout::least(face.reader, desk.text()), ..*face };
        let face = face.at(text::largest(desk.family, &[&said], room.size(), &face)?);
        Ok(desk.set(&said, room, &face, Align::INK)?.tagged(Tag::Paragraph))
    }

    /// One picture in the middle of `room`, untagged.
    pub fn items(&self, counts: Counts, room: Rect) -> Vec<Item> {
        self.work.place(counts, room).into_iter().map(|block| self.shown(block)).collect()
    }

    fn shown(&self, block: Block) -> Item {
        Item::Symbol { symbol: Arc::clone(&self.symbols[block.kind as usize]), at: block.rect.origin() }
    }
}

/// The place that a kind of block stands for.
pub const fn place(kind: BlockKind) -> Place {
    match kind {
        BlockKind::Thousand => Place::Thousands,
        BlockKind::Flat => Place::Hundreds,
        BlockKind::Rod => Place::Tens,
        BlockKind::Cube => Place::Ones,
    }
}

/// One block at a unit, drawn from its own top left corner.
pub fn symbol(kind: BlockKind, unit: Length, tone: Tone) -> Symbol {
    let size = kind.size(unit);
    let items = match kind {
        BlockKind::Thousand => stack(Point::ORIGIN, unit, tone),
        BlockKind::Flat | BlockKind::Rod | BlockKind::Cube => {
            face(Rect::new(Point::ORIGIN, size), unit, tone, drawn(tone))
        }
    };
    Symbol { size, items }
}

/// A block that is cut out, with an edge to cut along: a flat, a rod upright or level, a cube. A thousand is a card as large as a
/// flat with a picture of ten flats behind one another, so that nobody takes it for one.
pub fn piece(kind: BlockKind, level: bool, unit: Length, tone: Tone) -> Symbol {
    if kind == BlockKind::Thousand {
        return card(unit, tone);
    }
    let size = if level { kind.size(unit).turned() } else { kind.size(unit) };
    Symbol { size, items: face(Rect::new(Point::ORIGIN, size), unit, tone, CUT_OUT) }
}

/// The front of the block on the card of a thousand: where its number goes.
pub fn card_front(unit: Length) -> Rect {
    let (small, corner) = on_card(unit);
    Rect::new(corner.moved(Length::ZERO, layer(small) * 10), BlockKind::Flat.size(small))
}

/// The unit of the block on a card, and the block's top left corner.
fn on_card(unit: Length) -> (Length, Point) {
    let room = BlockKind::Flat.size(unit);
    // A twentieth of the card stays free all round.
    let small = room.width.scaled(9, 10).scaled(unit.to_raw(), BlockKind::Thousand.size(unit).width.to_raw());
    let small = Length::mm100(small.holds(Length::mm100(4)) * 4);
    (small, Rect::new(Point::ORIGIN, room).centred(BlockKind::Thousand.size(small)).origin())
}

fn card(unit: Length, tone: Tone) -> Symbol {
    let size = BlockKind::Flat.size(unit);
    let (small, corner) = on_card(unit);
    let rect = Rect::new(Point::ORIGIN, size);
    let mut items = vec![Item::Rect { rect, fill: Some(Paint::WHITE), stroke: Some(CUT_EDGE) }];
    items.extend(stack(corner, small, tone));
    Symbol { size, items }
}

/// The pens of a block's face.
#[derive(Debug, Clone, Copy)]
struct FacePens {
    edge: Stroke,
    units: Stroke,
}

/// The pens of a block that is cut out.
const CUT_OUT: FacePens = FacePens { edge: CUT_EDGE, units: UNIT_LINE };

/// The pens of a block in a picture.
const fn drawn(tone: Tone) -> FacePens {
    FacePens { edge: OUTLINE, units: grid(tone) }
}

/// A block's face: an edge, and lines that close a cell around every unit.
fn face(rect: Rect, unit: Length, tone: Tone, pens: FacePens) -> Vec<Item> {
    let FacePens { edge, units } = pens;
    let line = |from: Point, to: Point| Item::Line { from, to, stroke: units };
    let (across, down) = (rect.width().holds(unit), rect.height().holds(unit));
    let mut items = vec![Item::Rect { rect, fill: Some(tone.fill), stroke: None }];
    items.extend((1..across).map(|k| {
        let x = rect.left() + unit * k;
        line(Point::new(x, rect.top()), Point::new(x, rect.bottom()))
    }));
    items.extend((1..down).map(|k| {
        let y = rect.top() + unit * k;
        line(Point::new(rect.left(), y), Point::new(rect.right(), y))
    }));
    let cells = (0..down).flat_map(|row| (0..across).map(move |column| (column, row)));
    items.extend(cells.filter_map(|(column, row)| {
        let corner = rect.origin().moved(unit * column, unit * row);
        pattern(Rect::new(corner, Size::new(unit, unit)), tone.pattern)
    }));
    // The edge once, and last: the lines end under it, without a seam.
    items.push(Item::Rect { rect, fill: None, stroke: Some(edge) });
    items
}

/// The pen of a ring.
const RING: Stroke = Stroke { width: Length::pt100(50), paint: Paint::BLACK, dash: None };

/// The mark of a place in the middle of a cell, half as large as the cell or less: it touches no edge.
fn pattern(cell: Rect, pattern: Pattern) -> Option<Item> {
    let unit = cell.width();
    let bar = |width: i64, height: i64| {
        let rect = cell.centred(Size::new(unit.scaled(width, 8), unit.scaled(height, 8)));
        Some(Item::Rect { rect, fill: Some(Paint::BLACK), stroke: None })
    };
    match pattern {
        Pattern::Plain => None,
        Pattern::Dot => {
            let (centre, radius) = (cell.centre(), unit.scaled(1, 8));
            Some(Item::Circle { centre, radius, fill: Some(Paint::BLACK), stroke: None })
        }
        Pattern::Ring => {
            let (centre, radius) = (cell.centre(), unit.scaled(3, 16));
            Some(Item::Circle { centre, radius, fill: None, stroke: Some(RING) })
        }
        Pattern::Bar => bar(4, 1),
        Pattern::Post => bar(1, 4),
        Pattern::Square => bar(2, 2),
    }
}

/// Ten flats behind one another: the first is seen whole, of the others the edges above and at the right.
fn stack(corner: Point, unit: Length, tone: Tone) -> Vec<Item> {
    let (side, step) = (unit * 10, layer(unit));
    let depth = step * 10;
    let at = |x: Length, y: Length| corner.moved(x, y);
    let outline = vec![
        at(Length::ZERO, depth),
        at(depth, Length::ZERO),
        at(depth + side, Length::ZERO),
        at(depth + side, side),
        at(side, depth + side),
        at(Length::ZERO, depth + side),
    ];
    let mut items = vec![Item::Polygon { points: outline, fill: Some(tone.fill), stroke: Some(OUTLINE) }];
    for k in 1..10 {
        let out = step * k;
        let turn = at(out + side, depth - out);
        items.push(Item::Line { from: at(out, depth - out), to: turn, stroke: grid(tone) });
        items.push(Item::Line { from: turn, to: at(out + side, depth - out + side), stroke: grid(tone) });
    }
    items.push(Item::Line { from: at(side, depth), to: at(side + depth, Length::ZERO), stroke: OUTLINE });
    let front = Rect::new(at(Length::ZERO, depth), Size::new(side, side));
    items.extend(face(front, unit, tone, drawn(tone)));
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(kind: BlockKind) -> Symbol {
        symbol(kind, Length::mm(2), tone(Ink::Grey, place(kind)))
    }

    #[test]
    fn a_flat_has_a_line_between_any_two_rows_of_cells() {
        let flat = shown(BlockKind::Flat);
        let lines = flat.items.iter().filter(|item| matches!(item, Item::Line { .. })).count();
        assert_eq!((lines, flat.size.width), (18, Length::mm(20)));
    }

    #[test]
    fn a_thousand_shows_the_edges_of_ten_flats() {
        let block = shown(BlockKind::Thousand);
        let whole = Rect::new(Point::ORIGIN, block.size);
        // The nine flats behind the first show one level edge each; the lines of the first start at the left edge.
        let edges = block.items.iter().filter(|item| match item {
            Item::Line { from, to, .. } => {
                assert!(whole.contains(Rect::between(*from, *to)));
                from.y == to.y && from.x != Length::ZERO
            }
            _ => false,
        });
        assert_eq!(edges.count(), 9);
    }

    #[test]
    fn marks_of_colour_ink_lie_inside_their_cells() {
        let unit = Length::mm(2);
        for kind in BlockKind::ALL {
            let symbol = symbol(kind, unit, tone(Ink::Colour, place(kind)));
            for item in &symbol.items {
                if let Item::Circle { centre, radius, .. } = item {
                    let offset = centre.x.to_raw().rem_euclid(unit.to_raw());
                    assert!(offset >= radius.to_raw() * 2 && offset + radius.to_raw() * 2 <= unit.to_raw());
                }
            }
        }
    }
}
