//! What slips are called, what a learner thinks who shows one, and what helps.
//!
//! For a teacher or a substitute who reads it cold: a name of at most four words in small letters, sentences of at most 22
//! words, about any number.

use super::area::area;
use crate::number::Slip;

area! {
    /// What is said of slips in key, tally, plan and small groups.
    Slips;

    /// What it is called, in small letters.
    fn slip_name(slip: Slip) -> &'static str;

    /// What the learner is thinking: one sentence.
    fn slip_thinking(slip: Slip) -> &'static str;

    /// What the teacher can do next: one sentence.
    fn slip_next(slip: Slip) -> &'static str;
}
