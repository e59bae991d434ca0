//! The quick check at the end: questions over the forms both ways, with wrong choices made by slips.
//!
//! In: a [`Lesson`]. Out: [`Check`]s, one a piece of paper, all built alike and so equally hard: a question that gives
//! the numeral, one that asks for it, and one about what a digit is worth or which number is greater. The three ask about
//! different numbers where the lesson has them, so that no question answers another.

mod ask;
mod choices;

use super::Lesson;
use crate::number::{Content, Number, Slip};

use ask::Family;

pub use ask::Ask;

/// One learner's quick check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    /// Which of the lesson's checks, counted from 1.
    pub mark: u32,
    /// One to three questions.
    pub questions: Vec<Question>,
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// The number it is about.
    pub of: Number,
    /// What is asked.
    pub ask: Ask,
    /// The sentence to print, such as "Which words say 406?"; at most twelve words.
    pub sentence: String,
    /// What is shown under the sentence: a block picture, or a form other than the numeral.
    pub shown: Option<Content>,
    /// The right answer.
    pub answer: Content,
    /// What to choose from, shuffled, the right answer among them; empty where no slip gives a wrong form, and then the
    /// answer is written on a line.
    pub choices: Vec<Choice>,
}

/// One thing to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// What is shown.
    pub content: Content,
    /// The thinking that chooses it; none for the right answer.
    pub slip: Option<Slip>,
}

impl Question {
    /// The letter of the right answer, `A` for the first choice; none when the answer is written.
    pub fn letter(&self) -> Option<char> {
        (0_u8..).zip(&self.choices).find(|(_, choice)| choice.slip.is_none()).map(|(k, _)| letter(k))
    }

    /// The wrong choices with their letters.
    pub fn wrong(&self) -> impl Iterator<Item = (char, &Choice, Slip)> {
        (0_u8..).zip(&self.choices).filter_map(|(k, choice)| Some((letter(k), choice, choice.slip?)))
    }
}

/// The letter before a choice: `A` for 0.
pub fn letter(index: u8) -> char {
    char::from(b'A' + index % 26)
}

/// The most questions on a check.
pub const MOST_QUESTIONS: usize = 3;

/// All checks of a lesson: one for each exit number, which its first question is about; none without exit numbers.
pub fn checks(lesson: &Lesson) -> Vec<Check> {
    let numbers = &lesson.chosen.exit;
    let count = numbers.len();
    (1_u32..)
        .zip(0..count)
        .map(|(mark, k)| {
            let number = |step: usize| numbers[(k + step) % count];
            // With a single number, asking for its numeral would be answered by the other questions.
            let mut wanted = match count {
                1 => vec![(Family::Given, number(0)), (Family::Sense, number(0))],
                2 => vec![(Family::Given, number(0)), (Family::Wanted, number(1)), (Family::Sense, number(0))],
                _ => vec![(Family::Given, number(0)), (Family::Wanted, number(1)), (Family::Sense, number(2))],
            };
            // Neighbours begin with different questions, and where paper has room for fewer the class still meets all.
            let turn = k % wanted.len();
            wanted.rotate_left(turn);
            let mut questions: Vec<Question> = Vec::with_capacity(MOST_QUESTIONS);
            for (family, of) in wanted {
                let question = choices::question(lesson, mark, family, of, &questions);
                questions.extend(question);
            }
            Check { mark, questions }
        })
        .collect()
}
