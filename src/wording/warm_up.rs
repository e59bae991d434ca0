//! What the warm-up for the week after says, besides its questions.

use super::area::area;

area! {
    /// The warm-up: a number a day.
    WarmUpWords;

    /// What to do with a number, and for how many days there is one.
    fn warm_up_note(days: u32) -> String;

    /// The heading of a day: which, and its number.
    fn warm_up_day(day: u32, numeral: &str) -> String;

    /// The headings of the table of questions: what to ask, what to expect.
    fn warm_up_heads() -> [&'static str; 2];
}
