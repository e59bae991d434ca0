//! What a mat's columns look like: headings, the ten-frame, joining marks.

use std::sync::Arc;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::Place;
use crate::sheets::blocks::geometry::{LEAST_UNIT, UNIT};
use crate::sheets::blocks::picture::symbol;
use crate::sheets::kinds::mat::columns::{FRAME_CELL, FRAME_EDGE, MatColumn, names};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink::{self, OUTLINE};
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Across, Align, Down};
use crate::sheets::page::tongues::{parted, within};
use crate::sheets::page::{Item, Node, Paint, Scope, Symbol, Tag};

/// How high the headings of all pages are: as high as the tallest block in them, and as two lines where a name may need
/// two.
pub(super) fn heading_height(desk: &Desk<'_>, layout: &Layout, columns: &[MatColumn]) -> Result<Length, Problem> {
    let face = desk.face(layout, "place")?;
    let tallest = columns.iter().filter_map(|column| column.kind).map(|kind| kind.size(LEAST_UNIT).height).max();
    let lines = |column: &MatColumn| names(desk, column.place).iter().map(|name| name.split(' ').count()).sum();
    let lines: usize = columns.iter().map(lines).max().unwrap_or(1);
    let words = text::height(lines, &face.at(face.least));
    let least = if desk.lesson.second().is_some() { Length::mm(20) } else { Length::mm(14) };
    Ok(tallest.unwrap_or_default().max(words).max(least) + layout.padding * 2)
}

/// The ground and the edges of a column.
pub(super) fn frame(heading: Rect, field: Rect) -> Vec<Item> {
    let rect = |rect: Rect, fill: Option<Paint>| Item::Rect { rect, fill, stroke: Some(OUTLINE) };
    vec![rect(heading, Some(ink::SHADE)), rect(field, None)]
}

/// A small block, and the place's name beside it, with the name in the second language below.
pub(super) fn heading(desk: &Desk<'_>, layout: &Layout, column: &MatColumn, rect: Rect) -> Result<Node, Problem> {
    let face = desk.face(layout, "place")?;
    let inner = rect.shrunk(Sides::splat(layout.padding));
    let names = names(desk, column.place);
    let named = |frame: Rect, across: Across| -> Result<Vec<Node>, Problem> {
        let [first, second] = names.as_slice() else {
            let whole = names.first().copied().unwrap_or_default();
            return Ok(desk.set(whole, frame, &face, Align { across, ..Align::CENTRE })?.nodes());
        };
        let [upper, lower] = parted(frame, Length::ZERO);
        let mut nodes = desk.set(first, upper, &face, Align { across, down: Down::Bottom })?.nodes();
        let below = desk.set(second, lower, &face.regular(), Align { across, down: Down::Top })?;
        nodes.extend(within(desk.lesson.second(), below.nodes()));
        Ok(nodes)
    };
    let Some(kind) = column.kind else {
        return Ok(Node::Tagged(Tag::HeaderCell(Scope::Column), named(inner, Across::Centre)?));
    };
    let block = Arc::new(symbol(kind, LEAST_UNIT, ink::tone(desk.ink(), column.place)));
    let gap = Length::mm(3);
    // Block and name stand in the middle together.
    let word = names.iter().map(|name| desk.width(name, &face)).max().unwrap_or_default();
    let word = word.min(inner.width() - block.size.width - gap);
    let left = inner.left() + (inner.width() - word - gap - block.size.width).half();
    let at = Point::new(left, inner.top() + (inner.height() - block.size.height).half());
    let text = Point::new(left + block.size.width + gap, inner.top());
    let frame = Rect::between(text, Point::new(inner.right(), inner.bottom()));
    // In a narrow column the name matters more than the picture.
    let nodes = match named(frame, Across::Left) {
        Ok(named) => {
            let picture = Node::Artifact(vec![Item::Symbol { symbol: block, at }]);
            std::iter::once(picture).chain(named).collect()
        }
        Err(_) => named(inner, Across::Centre)?,
    };
    Ok(Node::Tagged(Tag::HeaderCell(Scope::Column), nodes))
}

/// The part of a column that blocks are laid on; the ones have a ten-frame at its top.
pub(super) fn field(desk: &Desk<'_>, column: &MatColumn, layout: &Layout, rect: Rect) -> Node {
    let mut nodes = Vec::new();
    if column.place == Place::Ones {
        let frame = ten_frame(rect.width());
        let at = Point::new(
            rect.left() + (rect.width() - frame.size.width).half(),
            rect.top() + layout.padding.max(Length::mm(6)).min((rect.height() - frame.size.height).half()),
        );
        let items = vec![Node::Item(Item::Symbol { symbol: Arc::new(frame), at })];
        nodes.push(Node::Tagged(Tag::Figure(desk.lesson.wording().ten_frame().to_owned()), items));
    }
    Node::Tagged(Tag::Cell, nodes)
}

/// Two rows of five boxes, as large as a column of this width allows and never smaller than the cubes that go in.
fn ten_frame(width: Length) -> Symbol {
    let half = Length::mm100(50);
    let side = (half * ((width - FRAME_EDGE * 2).holds(half) / 5)).min(FRAME_CELL).max(UNIT);
    let cell = Size::new(side, side);
    let boxes = (0..10).map(|k| {
        let corner = Point::new(side * (k % 5), side * (k / 5));
        Item::Rect { rect: Rect::new(corner, cell), fill: None, stroke: Some(OUTLINE) }
    });
    Symbol { size: Size::new(side * 5, side * 2), items: boxes.collect() }
}

/// Half of each joining mark at the edge `x` of the mat: the other half is on the other page, so that joined they are
/// diamonds. Letters tell several joins apart.
pub(super) fn join(desk: &Desk<'_>, layout: &Layout, body: Rect, x: Length, which: usize) -> Result<Node, Problem> {
    let half = layout.length("mark")?;
    let face = desk.face(layout, "join")?;
    let letter = char::from(b'A' + u8::try_from(which).unwrap_or(0)).to_string();
    // Towards the inside of the page.
    let inward = if x == body.left() { 1 } else { -1 };
    let mut items = Vec::new();
    for part in [1, 3] {
        let y = body.top() + body.height().scaled(part, 4);
        let points = vec![Point::new(x, y - half), Point::new(x + half * inward, y), Point::new(x, y + half)];
        items.push(Item::Polygon { points, fill: Some(Paint::BLACK), stroke: None });
        let (near, far) = (x + (half + Length::mm(1)) * inward, x + (half + Length::mm(6)) * inward);
        let frame = Rect::between(Point::new(near, y - half), Point::new(far, y + half));
        let set = desk.set(&letter, frame, &face, Align::CENTRE)?;
        items.extend(set.lines.into_iter().map(Item::Text));
    }
    Ok(Node::Artifact(items))
}
