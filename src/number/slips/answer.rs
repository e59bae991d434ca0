//! An answer before it is written out: thousands are looked at for a lesson, and a few of them are printed.

use super::{Content, Form, Number, Style, Task};

/// What a slip makes of a number in a task, right or wrong.
pub(super) enum Answer {
    /// The form that is asked for, of a number that has it.
    Form(Number),
    /// A numeral of digits put together, one after another as a learner writes them: a mark for thousands would show that
    /// something else was meant. They never begin with 0.
    Digits(u64),
    /// Anything else, with what it is worth: read once, however often answers are told apart.
    Other(Content, Option<u64>),
}

impl Answer {
    /// The right answer to a task; none where the number does not have the form.
    pub fn right(task: Task, number: Number, style: &Style) -> Option<Self> {
        let number = match task {
            Task::Forms { .. } => number,
            Task::Worth(place) => Number::new(u32::from(number.digit(place)) * place.worth())?,
            Task::Greater(other) => number.max(other),
        };
        Self::of(number, task.asked(), style)
    }

    /// The form of a number, where it has it.
    pub fn of(number: Number, form: Form, style: &Style) -> Option<Self> {
        form.is_of(number, style).then_some(Self::Form(number))
    }

    /// An answer of its own, written in the form that is asked for.
    pub fn other(content: Content, asked: Form, style: &Style) -> Self {
        let worth = content.worth(asked, style.names);
        Self::Other(content, worth)
    }

    /// What it is worth; see [`Content::worth`].
    pub fn worth(&self, asked: Form) -> Option<u64> {
        match self {
            Self::Form(_) if asked.is_words() => None,
            Self::Form(number) => Some(number.value().into()),
            Self::Digits(digits) => Some(*digits),
            Self::Other(_, worth) => *worth,
        }
    }

    /// Whether an answer that is worth as much as the right one is right: where answers have no worth it has to be the same.
    pub fn is_as(&self, right: &Self, asked: Form, style: &Style) -> bool {
        right.worth(asked).is_some() || self.looks_like(right, asked, style)
    }

    /// Whether it is written like another one that is worth as much, but for marks of thousands.
    pub fn looks_like(&self, other: &Self, asked: Form, style: &Style) -> bool {
        match (self, other) {
            (Self::Form(one), Self::Form(another)) => one == another,
            (Self::Digits(_), _) | (_, Self::Digits(_)) => true,
            _ => self.content(asked, style) == other.content(asked, style),
        }
    }

    /// As it is written.
    pub fn content(&self, asked: Form, style: &Style) -> Option<Content> {
        match self {
            Self::Form(number) => asked.content(*number, style),
            Self::Digits(digits) => Some(Content::Text(digits.to_string())),
            Self::Other(content, _) => Some(content.clone()),
        }
    }
}
