//! Slips: known ways of thinking that give a wrong form.
//!
//! In: a number, a form and the lesson's style. Out: the wrong form that a slip makes of it, if it makes one. Everything
//! that is said or made of a slip stands in one table, [`catalogue`]; decoys, exit choices, keys, tallies and plans draw
//! on it, so that one more slip is one more row there.

mod catalogue;
mod rules;

use super::{Content, Form, Number, Style};
use catalogue::{CATALOGUE, Rule};

/// A way of thinking that gives a wrong form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// 406 written 46.
    ZeroDropped,
    /// 406 written 460.
    ZeroMoved,
    /// 614 taken for 640.
    TeenTy,
    /// 617 written 671.
    TeenReversed,
    /// 642 written 600402.
    SideBySide,
    /// 365 written 30065.
    BigPartThenRest,
    /// 365 written 3065.
    HalfOverwritten,
    /// 642 written 610042.
    PlaceWordWritten,
    /// 406 taken for 4 and 0 and 6 ones.
    FaceValue,
    /// 406 written 3106.
    NotTraded,
    /// 834 read "eighty thirty-four".
    ReadInPieces,
    /// 264 taken for 246.
    TensOnesSwapped,
    /// 264 taken for 624.
    HundredsTensSwapped,
    /// 264 taken for 462.
    Reversed,
}

impl Slip {
    /// All slips, in the order of the catalogue: where two make the same wrong form, the first explains it better.
    pub fn all() -> impl ExactSizeIterator<Item = Self> {
        CATALOGUE.iter().map(|entry| entry.slip)
    }

    /// The name in plain words, at most four, in lower case.
    pub fn name(self) -> &'static str {
        self.entry().name
    }

    /// What the learner is thinking: one sentence.
    pub fn thinking(self) -> &'static str {
        self.entry().thinking
    }

    /// What the teacher can do next: one sentence.
    pub fn next_step(self) -> &'static str {
        self.entry().next_step
    }

    /// Where the research describes it, or "common practice, no source".
    pub fn source(self) -> &'static str {
        self.entry().source
    }

    /// Whether it is rare among learners who speak English, so that other slips are worth asking for first.
    pub fn is_rare(self) -> bool {
        self.entry().rare
    }

    /// The wrong form that this slip makes of a number. Returns `None` where it makes none: the result would be right, or
    /// begin with 0, or the thinking does not touch that form. What it makes never shows, nor is worth, the number itself.
    pub fn wrong(self, number: Number, form: Form, style: &Style) -> Option<Content> {
        let wrong = match self.entry().rule {
            Rule::Number(rule) => form.content(rule(number)?, style)?,
            Rule::Numeral(rule) if form == Form::Numeral => Content::Text(numeral(number, &rule(number)?, style)),
            Rule::Numeral(_) => return None,
            Rule::Form(rule) => rule(number, form, style)?,
        };
        let is_right = form.content(number, style).is_some_and(|right| right == wrong)
            || wrong.worth(form) == Some(u64::from(number.value()));
        (!is_right).then_some(wrong)
    }

    fn entry(self) -> &'static catalogue::Entry {
        // The enum and the table keep one order; a test below holds them together.
        &CATALOGUE[self as usize]
    }
}

/// Digits put together wrongly, with thousands marks only where the learner has met them: in numerals from 1,000 up. A
/// mark in 4,006 would show that 406 was not meant.
fn numeral(of: Number, digits: &str, style: &Style) -> String {
    if of.value() < 1_000 { digits.to_owned() } else { style.grouped(digits) }
}

#[cfg(test)]
mod tests;
