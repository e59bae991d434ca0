//! How forms are written, for the whole lesson.

use super::{Form, Trading};
use crate::number::Names;

/// The narrow no-break space.
const THIN_SPACE: char = '\u{202f}';

/// How forms are written, for the whole lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Style {
    /// `true`: four hundred **and** six.
    pub and: bool,
    /// `true`: 400 **+ 0** + 6, in expanded form. Unit form says its zeros always.
    pub zero_terms: bool,
    /// What stands between thousands and hundreds: `Some(',')`, `Some('\u{202f}')` or `None`.
    pub thousands: Option<char>,
    /// How numbers are traded.
    pub trading: Trading,
    /// What numbers, places and blocks are called.
    pub names: &'static dyn Names,
    /// The same in the lesson's second language, if it has one.
    pub second: Option<&'static dyn Names>,
    /// Whether number words are shown in both languages at once. Only pieces that are matched are: what is said aloud, and
    /// what a learner writes, is in one language.
    pub both: bool,
}

impl Style {
    /// The plainest style of a language: no joiner, no terms for zeros, a comma between thousands and hundreds, any trade.
    pub const fn plain(names: &'static dyn Names) -> Self {
        let (and, zero_terms, both) = (false, false, false);
        Self { and, zero_terms, thousands: Some(','), trading: Trading::ANY, names, second: None, both }
    }

    /// The same style in the second language alone; `None` where there is none.
    pub fn in_second(&self) -> Option<Self> {
        Some(Self { names: self.second?, second: None, both: false, ..*self })
    }

    /// The same style in the language that a form's words are in: the second language's for its words, else the lesson's.
    pub(in crate::number) fn spoken(&self, form: Form) -> Self {
        self.in_second().filter(|_| form == Form::SecondWords).unwrap_or(*self)
    }

    /// Bare digits with the thousands mark between each three, counted from the right.
    pub(in crate::number) fn grouped(&self, digits: String) -> String {
        let Some(mark) = self.thousands else { return digits };
        if digits.len() <= 3 || mark == THIN_SPACE && digits.len() <= self.names.unspaced() {
            return digits;
        }
        let mut text = String::new();
        for (at, digit) in digits.chars().enumerate() {
            if at > 0 && (digits.len() - at).is_multiple_of(3) {
                text.push(mark);
            }
            text.push(digit);
        }
        text
    }
}
