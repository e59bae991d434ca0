//! The warm-up of the week after a lesson, as it was planned.

use crate::number::Number;
use crate::wording::plan::Asked;

/// The warm-up of a week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WarmUp {
    /// A number a day; fewer than a school week has only where the range has fewer numbers.
    pub days: Vec<WarmUpDay>,
    /// How many sets of numbers would have done, as a decimal string.
    pub solutions: String,
    /// Those of its numbers that another sheet uses too; none where the range has enough.
    pub reused: Vec<Number>,
}

/// A day's number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WarmUpDay {
    /// The number.
    pub number: Number,
    /// What to ask about it, in order.
    pub asked: Vec<Asked>,
}
