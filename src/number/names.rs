//! What a language calls numbers, places and blocks.
//!
//! Forms and slips are the same in every language; the words in them are not. A language implements [`Names`], a lesson's
//! [`Style`](super::Style) holds it, and nothing in this folder spells a word.

use std::fmt;
use std::hash::{Hash, Hasher};

use super::Place;

/// A language's words for numbers, places and blocks.
pub trait Names: Sync {
    /// The language's tag (BCP 47): `en-US`. Two languages with one tag are the same.
    fn tag(&self) -> &'static str;

    /// The words of a value from 0 to 999,999, in small letters: four hundred six. `joined` asks for the longer way where
    /// the language has two: four hundred and six.
    fn cardinal(&self, value: u32, joined: bool) -> String;

    /// What a place is called: tens.
    fn place(&self, place: Place) -> &'static str;

    /// What so many units of a place are called, without the count: ten for 1, tens for 4.
    fn unit(&self, place: Place, count: u32) -> &'static str;

    /// What so many block pieces that each show one unit of a place are called, without the count: rod for 1, rods for 4.
    /// `None` above the thousands, which have no piece.
    fn piece(&self, place: Place, count: u32) -> Option<&'static str>;

    /// What is said of a picture that holds no piece.
    fn no_pieces(&self) -> &'static str;

    /// Whether the words from thirteen to nineteen say their ones first and sound like those of whole tens: thirteen, thirty.
    fn teens_turned(&self) -> bool;

    /// The value below 100 whose words sound so much like those of `two` that one is taken for the other, teens apart:
    /// sesenta and setenta. `None` where there is none.
    fn sounds_like(&self, two: u32) -> Option<u32>;

    /// Words that learners write for a value though the language asks for others: cien cinco for ciento cinco.
    fn misspelt(&self, value: u32) -> Option<String>;

    /// The longest numeral that stands without a thin space between its thousands and hundreds.
    fn unspaced(&self) -> usize;

    /// How the sign + is read aloud.
    fn plus(&self) -> &'static str;
}

impl fmt::Debug for dyn Names {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.tag())
    }
}

impl PartialEq for dyn Names {
    fn eq(&self, other: &Self) -> bool {
        self.tag() == other.tag()
    }
}

impl Eq for dyn Names {}

impl Hash for dyn Names {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.tag().hash(state);
    }
}
