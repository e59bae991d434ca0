//! Lines of a known length, to lay a ruler on: 10 cm and 4 in.
//!
//! A page that was scaled on its way through the printer shows here: one per cent is a millimetre on ten centimetres.

use crate::measure::{Length, Point};
use crate::sheets::page::Item;
use crate::sheets::page::ink::OUTLINE;

/// What the check lines measure, and how a ruler calls it.
pub const LINES: [(Length, &str); 2] = [(Length::mm(100), "10 cm"), (Length::inches(4), "4 in")];

/// The longer of the two.
pub const LONGEST: Length = Length::inches(4);

/// A line of `length` to the right of `from`, with upright ends of `tick` above and below: it measures from the middle of
/// one end to the middle of the other.
pub fn items(from: Point, length: Length, tick: Length) -> Vec<Item> {
    let to = from.moved(length, Length::ZERO);
    let line = |from: Point, to: Point| Item::Line { from, to, stroke: OUTLINE };
    let end = |at: Point| line(at.moved(Length::ZERO, -tick), at.moved(Length::ZERO, tick));
    vec![line(from, to), end(from), end(to)]
}
