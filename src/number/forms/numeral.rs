//! The numeral: 406.

use super::{Breadth, Content, Facts, Number, Style, Texts};

pub(super) const FACTS: Facts = Facts {
    word: "numeral",
    texts: Texts {
        plural: "numerals",
        one: "a numeral",
        written: "a numeral",
        skill: "numeral",
        which: |numeral| format!("Which says the same as {numeral}?"),
        write: |numeral| format!("Write {numeral} again."),
        which_numeral: "Which number is this?",
        write_numeral: "Write this as a number.",
    },
    content: |number, style| Some(Content::Text(write(number, style))),
    worth: |content| match content {
        Content::Text(text) => read(text),
        Content::Blocks(_) => None,
    },
    width: Breadth::Natural,
};

/// 406; from 1,000 up with the thousands mark.
pub(super) fn write(number: Number, style: &Style) -> String {
    style.grouped(&number.to_string())
}

/// The worth of digits with or without thousands marks.
pub(super) fn read(text: &str) -> Option<u64> {
    let digits: String = text.chars().filter(|c| !matches!(c, ',' | '\u{202f}')).collect();
    digits.parse().ok()
}
