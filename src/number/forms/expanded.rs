//! Expanded form: 400 + 6.
//!
//! A place that holds 0 gives no term unless the style asks for it (common practice, no source).

use super::{Breadth, Content, Facts, Number, Style, numeral};

pub(super) const FACTS: Facts = Facts {
    word: "expanded",
    content: |number, style| Some(Content::Text(write(number, style))),
    worth: |content, _| match content {
        Content::Text(text) => text.split(" + ").map(numeral::read).sum(),
        Content::Both(_) | Content::Blocks(_) => None,
    },
    width: Breadth::Share(4),
};

/// 400 + 6; a single digit, 0 among them, is its own expanded form.
pub(super) fn write(number: Number, style: &Style) -> String {
    let terms = number.digits().filter(|&(_, digit)| digit != 0 || style.zero_terms);
    let terms: Vec<String> =
        terms.map(|(place, digit)| style.grouped((u32::from(digit) * place.worth()).to_string())).collect();
    if terms.is_empty() { "0".to_owned() } else { terms.join(" + ") }
}
