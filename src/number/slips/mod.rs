//! Slips: known ways of thinking that turn what is shown into a wrong answer.
//!
//! In: a number, a [`Task`] (what is shown and what is asked) and the lesson's style. Out: the wrong answers that a slip
//! makes of it. Everything that is known of a slip stands in one row of [`catalogue`]; which slips a task can provoke, and
//! which of them explains an answer that several would give, stands in one table, [`pairs`]. Decoys, quick checks, key,
//! tally, plan and small groups draw on these two.

mod answer;
mod catalogue;
mod explain;
mod heard;
mod judging;
mod pairs;
mod rules;
mod slip;
mod task;
mod trades;

use super::{Content, Form, Number, Place, Style};

pub use catalogue::Example;
pub use heard::Heard;
pub use judging::Judged;
pub use slip::{Slip, SlipFamily, SlipSet};
pub use task::Task;

#[cfg(test)]
mod tests;
