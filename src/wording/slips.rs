//! What slips are called, what a learner thinks who shows one, and what helps.
//!
//! For a teacher or a substitute who reads it cold: a name of at most four words in small letters, sentences of at most 22
//! words, about any number.

use super::area::area;
use crate::number::Slip;

/// What a remedy depends on: what learners can touch when something has gone wrong, and how long the numeral is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Tools {
    /// A mat to build on.
    pub mat: bool,
    /// Blocks that show the number.
    pub blocks: bool,
    /// Expanded-form cards.
    pub cards: bool,
    /// How the numeral is read.
    pub read: ReadIn,
}

/// How a numeral is read aloud.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ReadIn {
    /// A hundred, and the rest as one number: up to 999.
    Hundreds,
    /// Digit by digit from the greatest place: up to 9,999.
    Digits,
    /// In two groups of digits, thousands and ones: from 10,000 up.
    Periods,
}

impl Tools {
    /// Everything that a class can have.
    pub const ALL: Self = Self { mat: true, blocks: true, cards: true, read: ReadIn::Digits };
}

area! {
    /// What is said of slips in key, tally, plan and small groups.
    Slips;

    /// What it is called, in small letters.
    fn slip_name(slip: Slip) -> &'static str;

    /// What the learner is thinking: one sentence.
    fn slip_thinking(slip: Slip, read: ReadIn) -> &'static str;

    /// What the teacher can do next with what there is: one sentence.
    fn slip_next(slip: Slip, tools: Tools) -> &'static str;
}
