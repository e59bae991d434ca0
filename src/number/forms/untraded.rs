//! The block picture before trading: 264 as 1 flat, 16 rods and 4 cubes.

use super::{Breadth, Content, Facts, blocks};

pub(super) const FACTS: Facts = Facts {
    word: "untraded",
    content: |number, style| style.trading.pictured(number).map(|counted| Content::Blocks(blocks::blocks_of(&counted))),
    worth: |content, _| blocks::worth_of(content),
    width: Breadth::Picture,
};
