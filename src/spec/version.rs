//! The letters of sort sets.

use std::fmt;

/// One of the sort sets: 0 prints as A, 25 as Z.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Version(pub u8);

impl Version {
    /// The letters of all versions that a lesson can have.
    pub const LETTERS: [&str; 26] = [
        "A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K", "L", "M", "N", "O", "P", "Q", "R", "S", "T", "U", "V",
        "W", "X", "Y", "Z",
    ];

    /// The version of a letter.
    pub fn of(letter: &str) -> Option<Self> {
        let at = Self::LETTERS.iter().position(|known| *known == letter)?;
        u8::try_from(at).ok().map(Self)
    }
}

impl fmt::Display for Version {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", char::from(b'A' + self.0))
    }
}
