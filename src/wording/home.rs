//! The page for home.
//!
//! Read by families, some of whom do not read much English: short sentences of common words. A test measures them with a
//! published readability formula: grade 6 or lower.

use super::area::area;
use super::usage::Usage;
use crate::number::{Form, Number, Place};

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

    /// Three things to try with household objects, for numbers that reach up to this place.
    fn home_tries(number: Number, greatest: Place, usage: &Usage<'_>) -> [String; 3];

    /// The caution about small things.
    fn home_caution() -> &'static str;

    /// Which number an expanded form is.
    fn home_join(expanded: &str) -> String;

    /// Before the answers, which are given in order.
    fn home_answers(answers: &[&str]) -> String;
}
