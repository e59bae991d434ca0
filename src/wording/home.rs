//! The page for home.
//!
//! Read by families, some of whom do not read much English: short sentences of common words. A test measures them with a
//! published readability formula: grade 6 or lower.

use super::area::area;
use super::usage::Usage;
use crate::number::{Form, Number, Place};

/// Up to this number one of the things to try is counting beans: more than a handful are not counted.
pub const MOST_BEANS: u32 = 999;

/// How many cards with a digit make numbers that a range up to `most` has: most of those with so many digits lie in it. At least 2.
pub fn cards(most: Number) -> usize {
    let digits = most.digits().count();
    let first = most.digits().next().map_or(0, |(_, digit)| digit);
    // Three cards make numbers to 987: too far for a range that ends at 120.
    let all = if first >= 5 { digits } else { digits.saturating_sub(1) };
    all.max(2)
}

area! {
    /// The page for home.
    HomeWords;

    /// Below the title: what the page is, and what the child can do now, a sentence that is given.
    fn home_note(can: &str) -> String;

    /// Its headings: what was learned, words, things to try, questions.
    fn home_headings() -> [&'static str; 4];

    /// What was learned, shown with a digit of a number and with a number that has a zero.
    fn home_learned(number: Number, place: Place, zero: Option<Number>, usage: &Usage<'_>) -> Vec<String>;

    /// The words for these forms of a number, each with what it is; pictures are told in words.
    fn home_words(forms: &[Form], number: Number, usage: &Usage<'_>) -> Vec<String>;

    /// Three things to try with household objects, for numbers up to `most`; with trading where the lesson is on that.
    fn home_tries(number: Number, most: Number, trades: bool, usage: &Usage<'_>) -> [String; 3];

    /// The caution about small things.
    fn home_caution() -> &'static str;

    /// Which number an expanded form is.
    fn home_join(expanded: &str) -> String;

    /// Before the answers, which are given in order.
    fn home_answers(answers: &[&str]) -> String;
}
