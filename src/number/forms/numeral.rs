//! The numeral: 406.

use super::{Breadth, Content, Facts, Number, Style};

pub(super) const FACTS: Facts = Facts {
    word: "numeral",
    content: |number, style| Some(Content::Text(write(number, style))),
    worth: |content, _| match content {
        Content::Text(text) => read(text),
        Content::Both(_) | Content::Blocks(_) => None,
    },
    width: Breadth::Natural,
};

/// 406; from 1,000 up with the thousands mark.
pub(super) fn write(number: Number, style: &Style) -> String {
    style.grouped(number.value().to_string())
}

/// The worth of digits with or without thousands marks.
pub(super) fn read(text: &str) -> Option<u64> {
    let mut digits = text.chars().filter(|c| !matches!(c, ',' | '\u{202f}')).peekable();
    digits.peek()?;
    digits.try_fold(0_u64, |sum, c| sum.checked_mul(10)?.checked_add(c.to_digit(10)?.into()))
}
