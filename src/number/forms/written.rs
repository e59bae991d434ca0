//! Numbers written in the lesson's style.

use super::{Style, expanded, numeral, units};
use crate::number::Number;

impl Style {
    /// 406; from 1,000 up with the thousands mark.
    pub fn numeral(&self, number: Number) -> String {
        numeral::write(number, self)
    }

    /// Four hundred six, in small letters: as the language spells it.
    pub fn words(&self, number: Number) -> String {
        self.names.cardinal(number.value(), self.and)
    }

    /// 400 + 6; a single digit, 0 among them, is its own expanded form.
    pub fn expanded(&self, number: Number) -> String {
        expanded::write(number, self)
    }

    /// 4 hundreds 0 tens 6 ones: every place that the numeral shows.
    pub fn units(&self, number: Number) -> String {
        units::write(number, self.names)
    }
}
