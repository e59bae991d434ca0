//! Regrouped form: 264 as 1 hundred 16 tens 4 ones, or as 26 tens 4 ones.
//!
//! Which of its regroupings a number shows is drawn once a lesson: see `trading.rs`. A place that holds nothing is left out.

use super::{Breadth, Content, Facts, Style, units};
use crate::number::Place;

pub(super) const FACTS: Facts = Facts {
    word: "regrouped",
    content: |number, style| style.trading.regrouped(number).map(|counted| Content::Text(write(&counted, style))),
    worth: |content, names| match content {
        Content::Text(text) => units::read(text, names),
        Content::Both(_) | Content::Blocks(_) => None,
    },
    width: Breadth::Share(5),
};

/// 26 tens 4 ones: every place that holds something, from the greatest down.
pub(in crate::number) fn write(counted: &[u32; 6], style: &Style) -> String {
    let held = Place::ALL.into_iter().zip(counted).rev().filter(|(_, count)| **count > 0);
    let texts: Vec<String> =
        held.map(|(place, count)| format!("{count} {}", style.names.unit(place, *count))).collect();
    texts.join(" ")
}
