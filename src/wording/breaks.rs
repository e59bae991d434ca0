//! Where a line of words may not break: parts of a number's name that belong together.
//!
//! A page may hold two languages and a line does not say which it is in, so the rules of all languages hold at once. Their
//! words differ: no language may name a word that means something else in another.

use super::en::English;
use super::es::Spanish;

/// Which words of a number's name stay together.
pub trait Breaks: Sync {
    /// Whether a word stays with what stands before it, which it counts: "hundred", "thousand".
    fn holds_back(&self, word: &str) -> bool;

    /// Whether a word stays with what stands after it, which it adds: "and".
    fn holds_on(&self, word: &str) -> bool;
}

const ALL: [&dyn Breaks; 2] = [&English, &Spanish];

/// Whether a word stays with what stands before it, in any language.
pub fn holds_back(word: &str) -> bool {
    ALL.iter().any(|language| language.holds_back(word))
}

/// Whether a word stays with what stands after it, in any language.
pub fn holds_on(word: &str) -> bool {
    ALL.iter().any(|language| language.holds_on(word))
}
