//! What the practice page asks, and what the key says of it.

use super::Wording;
use super::area::area;
use crate::number::{Number, Place, Style};
use crate::spec::Version;

/// A number with one of its greatest place traded, as an equation with a gap: what stands before the gap for the count, and
/// what after it. An equation reads alike in every language.
pub fn trade_gap(
    wording: &dyn Wording,
    number: Number,
    left: (Place, u32),
    next: Place,
    style: &Style,
) -> (String, String) {
    let rest = Number::new(number.value() % next.worth()).filter(|rest| *rest > Number::MIN);
    let rest = rest.map(|rest| format!(" + {}", style.numeral(rest))).unwrap_or_default();
    let before = format!("{} = {} +", style.numeral(number), wording.units(left.1, left.0));
    (before, format!("{}{rest}", wording.unit(next, 2)))
}

area! {
    /// The practice page: short child language, at most twelve words a sentence.
    PracticeWords;

    /// Before a unit form whose numeral is to be written.
    fn write_number() -> &'static str;

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

    /// The heading of the answers in the key; of the pages with these letters where not all learners have the same.
    fn practice_answers(letters: &[Version]) -> String;

    /// The headings of their table: exercise, right answer, wrong answer.
    fn practice_heads() -> [&'static str; 3];

    /// That a lesser number was taken for the greater.
    fn taken_for_greater(lesser: &str, greater: &str) -> String;

    /// That what is odd was not seen.
    fn overlooked() -> &'static str;
}
