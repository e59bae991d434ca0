//! Lists: items one below the other, each with a mark at its left.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::flow::pages::Flow;
use crate::sheets::page::ink;
use crate::sheets::page::text::{self, Face};
use crate::sheets::page::{Item, Node, Tag};

/// What stands before an item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ListMark {
    /// A dot, drawn rather than set: no font need have it.
    Dot,
    /// A box of this side, to tick.
    Tick(Length),
}

/// How a list is set.
#[derive(Debug, Clone, Copy)]
pub struct ListLook {
    /// The type of its items.
    pub face: Face,
    /// What stands before each.
    pub mark: ListMark,
    /// How far the items stand from the left edge.
    pub indent: Length,
    /// The room above an item.
    pub gap: Length,
    /// Whether the list stays on one page, where a page can hold it.
    pub whole: bool,
}

impl Flow<'_> {
    /// A list; no item is broken.
    pub fn list(&mut self, items: &[String], look: &ListLook) -> Result<(), Problem> {
        let mut broken = Vec::new();
        for item in items {
            broken.push(self.column().broken(item, &look.face, look.indent)?);
        }
        let highs: Vec<Length> = broken.iter().map(|lines| look.gap + text::height(lines.len(), &look.face)).collect();
        let all: Length = highs.iter().copied().sum();
        let mut nodes = Vec::new();
        for (k, lines) in broken.iter().enumerate() {
            let wanted = if k == 0 && look.whole && all <= self.whole() { all } else { along(&highs, k) };
            if k > 0 && self.left() < wanted {
                self.push(Node::Tagged(Tag::List, std::mem::take(&mut nodes)));
            }
            self.begin(wanted)?;
            self.gap(look.gap);
            let (left, y) = (self.frame().left(), self.column().y);
            let body = self.column().lines(lines, &look.face, look.indent, Tag::ListBody);
            nodes.push(Node::tagged(Tag::ListItem, [Node::artifact(mark(look, left, y)), body]));
        }
        if !nodes.is_empty() {
            self.push(Node::Tagged(Tag::List, nodes));
        }
        Ok(())
    }
}

/// The mark of an item that begins at `y`.
fn mark(look: &ListLook, left: Length, y: Length) -> Item {
    let pitch = look.face.pitch();
    match look.mark {
        ListMark::Dot => {
            let centre = Point::new(left + Length::mm(2), y + pitch.half());
            Item::Circle { centre, radius: Length::mm100(70), fill: Some(ink::TEXT), stroke: None }
        }
        ListMark::Tick(side) => {
            let rect = Rect::new(Point::new(left, y + (pitch - side).half()), Size::new(side, side));
            let rect = rect.shrunk(Sides::splat(ink::OUTLINE.width.half()));
            Item::Rect { rect, fill: None, stroke: Some(ink::OUTLINE) }
        }
    }
}

/// How much room there must be for item k to begin on a page: the first takes the second along, and the one before the last
/// takes the last along, so that none stands alone.
pub fn along(highs: &[Length], k: usize) -> Length {
    let pair = k == 0 || k + 2 == highs.len();
    highs.iter().skip(k).take(if pair { 2 } else { 1 }).copied().sum()
}
