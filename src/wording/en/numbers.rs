//! What numbers, places and blocks are called in English.
//!
//! Numbers from 0 to 999,999 are spelled as Unicode CLDR spells them: `%spellout-cardinal` without the joiner,
//! `%spellout-cardinal-verbose` with it. The latter sets a comma before the hundreds from 100,100 up; so does this.

use super::English;
use crate::number::english::{SMALL, TENS};
use crate::number::{Names, Place};
use crate::wording::{Breaks, Lookalikes};

impl Names for English {
    fn tag(&self) -> &'static str {
        "en-US"
    }

    fn cardinal(&self, value: u32, joined: bool) -> String {
        // Room for nearly all: growing would move what is written again and again.
        let mut words = String::with_capacity(48);
        append(&mut words, value, joined);
        words
    }

    fn place(&self, place: Place) -> &'static str {
        self.unit(place, 2)
    }

    fn unit(&self, place: Place, count: u32) -> &'static str {
        let (one, many) = match place {
            Place::Ones => ("one", "ones"),
            Place::Tens => ("ten", "tens"),
            Place::Hundreds => ("hundred", "hundreds"),
            Place::Thousands => ("thousand", "thousands"),
            Place::TenThousands => ("ten thousand", "ten thousands"),
            Place::HundredThousands => ("hundred thousand", "hundred thousands"),
        };
        if count == 1 { one } else { many }
    }

    fn piece(&self, place: Place, count: u32) -> Option<&'static str> {
        let (one, many) = match place {
            Place::Ones => ("cube", "cubes"),
            Place::Tens => ("rod", "rods"),
            Place::Hundreds => ("flat", "flats"),
            Place::Thousands => ("thousand-block", "thousand-blocks"),
            Place::TenThousands | Place::HundredThousands => return None,
        };
        Some(if count == 1 { one } else { many })
    }

    fn no_pieces(&self) -> &'static str {
        "no blocks"
    }

    fn teens_turned(&self) -> bool {
        true
    }

    fn sounds_like(&self, _two: u32) -> Option<u32> {
        None
    }

    fn misspelt(&self, _value: u32) -> Option<String> {
        None
    }

    fn unspaced(&self) -> usize {
        3
    }

    fn plus(&self) -> &'static str {
        "plus"
    }
}

impl Breaks for English {
    fn holds_back(&self, word: &str) -> bool {
        matches!(word, "hundred" | "thousand")
    }

    fn holds_on(&self, word: &str) -> bool {
        word == "and"
    }
}

impl Lookalikes for English {
    fn means_no_number(&self, word: &str) -> bool {
        word == "once"
    }
}

fn append(words: &mut String, value: u32, and: bool) {
    match value {
        0..20 => words.push_str(SMALL[value as usize]),
        20..100 => {
            words.push_str(TENS[value as usize / 10 - 2]);
            if !value.is_multiple_of(10) {
                words.push('-');
                words.push_str(SMALL[value as usize % 10]);
            }
        }
        100..1_000 => {
            append(words, value / 100, and);
            words.push_str(" hundred");
            append_rest(words, value % 100, and, " ");
        }
        _ => {
            append(words, value / 1_000, and);
            words.push_str(" thousand");
            // CLDR's verbose rules put the comma only behind a thousands part of three digits.
            append_rest(words, value % 1_000, and, if and && value >= 100_000 { ", " } else { " " });
        }
    }
}

/// What follows "hundred" or "thousand": nothing, "and" before 1 to 99, or the larger rest behind `mark`.
fn append_rest(words: &mut String, rest: u32, and: bool, mark: &str) {
    if rest > 0 {
        words.push_str(if and && rest < 100 { " and " } else { mark });
        append(words, rest, and);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(value: u32, plain: &str, and: &str) {
        assert_eq!(English.cardinal(value, false), plain);
        assert_eq!(English.cardinal(value, true), and);
    }

    // Unicode CLDR through ICU 78.3; every number is checked against CLDR's rules in tests/words.rs.
    #[test]
    fn tricky_names() {
        case(0, "zero", "zero");
        case(40, "forty", "forty");
        case(406, "four hundred six", "four hundred and six");
        case(1_010, "one thousand ten", "one thousand and ten");
        case(9_999, "nine thousand nine hundred ninety-nine", "nine thousand nine hundred and ninety-nine");
        case(100_100, "one hundred thousand one hundred", "one hundred thousand, one hundred");
        case(101_000, "one hundred one thousand", "one hundred and one thousand");
    }
}
