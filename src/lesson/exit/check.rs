//! A quick check: what stands on one learner's paper.

use crate::number::{Content, Number, Skill, Slip, Task};

/// One learner's quick check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    /// Which of the lesson's checks, counted from 1.
    pub mark: u32,
    /// Its questions, each about another skill; all checks of a lesson ask about the same skills in the same order.
    pub questions: Vec<Question>,
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// The number it is about.
    pub of: Number,
    /// The skill that it asks for.
    pub skill: Skill,
    /// What is shown and what is asked.
    pub task: Task,
    /// The sentence to print, such as "Which number do the words say?"; at most twelve words.
    pub sentence: String,
    /// What is shown under the sentence: a block picture, or a form other than the numeral.
    pub shown: Option<Content>,
    /// The right answer.
    pub answer: Content,
    /// What to choose from, the right answer among them; empty where no slip gives a wrong answer, and then the answer is
    /// written on a line.
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
    /// Whether blocks are shown or looked for.
    pub fn has_blocks(&self) -> bool {
        let picture = |content: &Content| matches!(content, Content::Blocks(_));
        self.shown.as_ref().is_some_and(picture) || picture(&self.answer)
    }

    /// The letter of the right answer, `A` for the first choice; none when the answer is written.
    pub fn letter(&self) -> Option<char> {
        (0_u8..).zip(&self.choices).find(|(_, choice)| choice.slip.is_none()).map(|(k, _)| letter(k))
    }

    /// The wrong choices with their letters.
    pub fn wrong(&self) -> impl Iterator<Item = (char, &Choice, Slip)> {
        (0_u8..).zip(&self.choices).filter_map(|(k, choice)| Some((letter(k), choice, choice.slip?)))
    }
}

impl Check {
    /// The place of each right answer among its choices, from 0; questions whose answer is written have none.
    pub fn places(&self) -> Vec<usize> {
        let place = |question: &Question| question.choices.iter().position(|choice| choice.slip.is_none());
        self.questions.iter().filter_map(place).collect()
    }

    /// The numbers that its questions are about, in their order; where two are compared, both.
    pub fn numbers(&self) -> Vec<Number> {
        let both = self.questions.iter().flat_map(|question| {
            let other = if let Task::Greater(other) = question.task { Some(other) } else { None };
            [Some(question.of), other]
        });
        both.flatten().collect()
    }
}

/// The letter before a choice: `A` for 0.
pub fn letter(index: u8) -> char {
    char::from(b'A' + index % 26)
}
