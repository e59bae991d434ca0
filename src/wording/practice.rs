//! What the practice page asks, and what the key says of it.

use super::area::area;
use crate::number::{Number, Place, Style};

area! {
    /// The practice page: short child language, at most twelve words a sentence.
    PracticeWords;

    /// Before a unit form whose numeral is to be written.
    fn write_number() -> &'static str;

    /// A number with one of its greatest place traded: what stands before the gap for the count, and what after it.
    fn trade_gap(number: Number, left: (Place, u32), next: Place, style: &Style) -> (String, String);

    /// To write <, = or > between numbers.
    fn compare_signs() -> &'static str;

    /// To write numbers in order.
    fn write_in_order() -> &'static str;

    /// Which number an arrow shows.
    fn at_the_arrow() -> &'static str;

    /// What a listener hears of a number line from one number to another, without the answer.
    fn line_told(from: &str, to: &str) -> String;

    /// To ring what shows another number.
    fn ring_the_odd() -> &'static str;

    /// The heading of the answers in the key.
    fn practice_answers() -> &'static str;

    /// The headings of their table: exercise, right answer, wrong answer.
    fn practice_heads() -> [&'static str; 3];

    /// That a lesser number was taken for the greater.
    fn taken_for_greater(lesser: &str, greater: &str) -> String;

    /// That what is odd was not seen.
    fn overlooked() -> &'static str;
}
