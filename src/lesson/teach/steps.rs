//! What happens in a phase, step by step.

use crate::lesson::Wrong;
use crate::spec::Version;
use crate::wording::Tools;
use crate::wording::plan::{Asked, Deed, Said};

/// Something that happens in class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// The teacher does this.
    Do(Deed),
    /// The teacher says this, word for word.
    Say(Said),
    /// The teacher asks.
    Ask(Asked),
    /// The teacher looks out for a wrong form and knows what it means.
    Watch {
        /// Where it is seen.
        seen: Seen,
        /// The wrong form itself.
        wrong: Wrong,
        /// What there is to help with.
        tools: Tools,
        /// The slip's letter in key and tally; none for a slip that is not in play.
        letter: Option<char>,
        /// Whether an earlier step has explained this slip already.
        told: bool,
    },
}

/// Where a wrong form is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Seen {
    /// In what a learner writes.
    Work,
    /// A wrong strip in a row of the board, of this set where there are several.
    Strip(Option<Version>),
    /// A choice of a quick check.
    Choice {
        /// The number in its corner.
        check: u32,
        /// Which question, from 1.
        question: u32,
        /// The choice's letter.
        letter: char,
    },
}
