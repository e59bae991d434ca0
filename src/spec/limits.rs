//! How much a lesson file may ask for, in one place.
//!
//! Work and memory are bounded by these before they are spent; every message about them names the limit itself.

use std::fmt;

use crate::measure::Length;
use crate::number::Form;

/// The least and the greatest value of a whole number, both allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// The least value.
    pub least: u64,
    /// The greatest value.
    pub most: u64,
}

impl Limit {
    const fn new(least: u64, most: u64) -> Self {
        Self { least, most }
    }

    /// Whether the value lies within.
    pub const fn allows(self, value: u64) -> bool {
        self.least <= value && value <= self.most
    }
}

impl fmt::Display for Limit {
    /// `a whole number from 1 to 20,000`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a whole number from {} to {}", grouped(self.least), grouped(self.most))
    }
}

/// A number with commas between groups of three digits, as messages write it.
pub fn grouped(value: u64) -> String {
    let digits = value.to_string();
    let mut text = String::with_capacity(digits.len() * 4 / 3);
    for (k, digit) in digits.chars().enumerate() {
        if k > 0 && (digits.len() - k).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// Bytes in a lesson file.
pub const LESSON_BYTES: u64 = 1 << 20;
/// Bytes in a roster.
pub const ROSTER_BYTES: u64 = 4 << 20;
/// Bytes in a layout file.
pub const LAYOUT_BYTES: u64 = 1 << 18;
/// Layout files in a folder: one a sheet and `page.toml`, with room for a few that do not belong there and are told.
pub const LAYOUTS: usize = 50;
/// Bytes in a font file.
pub const FONT_BYTES: u64 = 32 << 20;

/// Characters in the title.
pub const TITLE: Limit = Limit::new(1, 120);
/// Characters in the grade.
pub const GRADE: Limit = Limit::new(1, 40);
/// Characters in what a class calls a form.
pub const FORM_NAME: Limit = Limit::new(1, 30);
/// Characters in a path.
pub const PATH: Limit = Limit::new(1, 1_024);
/// Characters in a name of the roster.
pub const NAME: Limit = Limit::new(1, 500);

/// Minutes in a lesson: from a short slot between two others to a double lesson; with room for a whole morning.
pub const MINUTES: Limit = Limit::new(10, 240);
/// The seed: what a TOML integer can hold.
pub const SEED: Limit = Limit::new(0, i64::MAX as u64);
/// Any number of a lesson.
pub const NUMBER: Limit = Limit::new(0, 999_999);
/// Numbers in a role; 0 leaves it out.
pub const COUNT: Limit = Limit::new(0, 100);
/// How many numbers a request can name.
pub const REQUEST: Limit = COUNT;
/// The largest digit in a place, or how many of its blocks there are.
pub const AT_MOST: Limit = Limit::new(0, 99);
/// Entries in a list of numbers.
pub const LIST: usize = 10_000;
/// Extra strips in a set.
pub const DECOYS: Limit = Limit::new(0, 60);
/// Learners in a class.
pub const LEARNERS: Limit = Limit::new(1, 20_000);
/// Extra sets.
pub const SPARES: Limit = Limit::new(0, 1_000);
/// Learners who use one copy of what is kept.
pub const SHARE: Limit = Limit::new(1, 40);
/// Sort sets; they are lettered A to Z.
pub const VERSIONS: Limit = Limit::new(1, 26);
/// Pages of one file for the copy room: hours of printing, and well within the 8,388,607 objects that a PDF reader need
/// not fail at (ISO 32000-1, annex C).
pub const PAGES: usize = 1_000_000;
/// Sheets to make.
pub const SHEETS: Limit = Limit::new(1, 64);
/// Characters in a group's name.
pub const GROUP_NAME: Limit = Limit::new(1, 40);
/// Groups with numbers of their own: each has a letter at least.
pub const GROUPS: u64 = 25;
/// Forms to match.
pub const FORMS: Limit = Limit::new(2, Form::ALL.len() as u64);

/// The largest size of type in a layout: a digit as high as half an A3 page.
pub const TYPE: Length = Length::pt(600);

/// The widest margin: a quarter of the paper's shorter side, so that half of it is left to print on.
pub fn widest_margin(shorter: Length) -> Length {
    shorter.scaled(1, 4)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_read_as_people_write_numbers() {
        assert_eq!(LEARNERS.to_string(), "a whole number from 1 to 20,000");
        assert_eq!(grouped(0), "0");
        assert_eq!(grouped(1_234_567), "1,234,567");
        assert!(VERSIONS.allows(26) && !VERSIONS.allows(27) && !VERSIONS.allows(0));
    }
}
