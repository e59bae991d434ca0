//! The block picture before trading: 264 as 1 flat, 16 rods and 4 cubes.

use super::{Breadth, Content, Facts, blocks};

pub(super) const FACTS: Facts = Facts {
    word: "untraded",
    content: |number, style| style.trading.pictured(number).map(|counted| picture(&counted)),
    worth: |content, _| blocks::worth_of(content),
    width: Breadth::Picture,
};

/// The picture of so many of each place, from the ones up.
pub(in crate::number) fn picture(counted: &[u32; 6]) -> Content {
    Content::Blocks([counted[3], counted[2], counted[1], counted[0]])
}
