//! The smallest parts of sentences: lists, counts, articles.

use super::area::area;
use crate::number::{Content, Number, Place, Style};
use crate::spec::Language;

area! {
    /// The smallest parts of sentences. Whole sentences are better: use these where the parts come from elsewhere.
    Phrases;

    /// "a", "a and b", "a, b and c".
    fn list(items: &[&str]) -> String;

    /// "a", "a or b", "a, b or c".
    fn either(items: &[&str]) -> String;

    /// A whole number up to nine as a word ("no" for 0), others in figures: for "two 3s" and "three digits".
    fn small(count: usize) -> String;

    /// The text with its first letter made a capital.
    fn capital(text: &str) -> String;

    /// A heading as it stands inside a sentence: small at its start, unless it begins with capitals.
    fn inside(heading: &str) -> String;

    /// A number with the word for one thing: "an 8", "a 100".
    fn a_number(number: Number, style: &Style) -> String;

    /// So many units of a place: "1 ten", "4 hundreds", "0 ones".
    fn units(count: u32, place: Place) -> String;

    /// So many block pieces of a place: "1 rod", "4 flats"; `None` above the thousands, which have no piece.
    fn pieces(count: u32, place: Place) -> Option<String>;

    /// The pieces that show a number, largest first: "4 flats and 6 cubes"; "no blocks" for 0.
    fn pieces_of(number: Number) -> String;

    /// "1 learner", "24 learners".
    fn learners(count: u32) -> String;

    /// What a strip, a box or an answer shows, as a text: pieces for a picture.
    fn content(content: &Content) -> String;

    /// A language, inside a sentence: "Spanish".
    fn language(language: Language) -> &'static str;

    /// Columns of a mat: "the tens column", "the tens and ones columns".
    fn columns(places: &[Place]) -> String;
}

/// [`Phrases::inside`] where headings have capitals at the start of a sentence only.
pub fn uncapped(heading: &str) -> String {
    let mut letters = heading.chars();
    let (Some(first), second) = (letters.next(), heading.chars().nth(1)) else { return String::new() };
    if second.is_some_and(char::is_uppercase) {
        heading.to_owned()
    } else {
        first.to_lowercase().chain(letters).collect()
    }
}
