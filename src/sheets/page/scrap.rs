//! The sign for what is thrown away when a page has been cut apart: slanted stripes, the same on every sheet.

use crate::measure::{Length, Point, Rect, Sides};
use crate::sheets::page::Item;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink::FINE;

/// How to cut a page, and what its stripes mean where it has any.
pub fn note(desk: &Desk<'_>, said: &str, striped: bool) -> String {
    if striped { desk.lesson.wording().with_scrap(said) } else { said.to_owned() }
}

/// Slanted lines in a rectangle that touch neither its edges nor each other.
pub fn stripes(rect: Rect) -> Vec<Item> {
    let inner = rect.shrunk(Sides::splat(STRIPES_INSET));
    let mut lines = Vec::new();
    // Lines on which x + y is a whole number of steps: stripes of neighbouring rectangles go on in line.
    let least = (inner.left() + inner.top()).holds(STRIPES_APART) + 1;
    let most = (inner.right() + inner.bottom()).holds(STRIPES_APART);
    for sum in (least..=most).map(|k| STRIPES_APART * k) {
        let (low, high) = ((sum - inner.bottom()).max(inner.left()), (sum - inner.top()).min(inner.right()));
        if high - low > Length::mm(1) {
            lines.push(Item::Line { from: Point::new(low, sum - low), to: Point::new(high, sum - high), stroke: FINE });
        }
    }
    lines
}

/// From an edge to the stripes.
const STRIPES_INSET: Length = Length::mm100(150);
/// From one stripe to the next, level or upright.
const STRIPES_APART: Length = Length::mm(7);
