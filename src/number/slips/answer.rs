//! An answer before it is written out: thousands are looked at for a lesson, and a few of them are printed.

use super::{Content, Form, Number, Style, Task};

/// What a slip makes of a number in a task, right or wrong.
pub(super) enum Answer {
    /// The form that is asked for, of a number that has it.
    Form(Number),
    /// A numeral of digits put together, one after another as a learner writes them: a mark for thousands would show that
    /// something else was meant.
    Digits(String),
    /// Anything else.
    Other(Content),
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

    /// What it is worth; see [`Content::worth`].
    fn worth(&self, asked: Form, style: &Style) -> Option<u64> {
        match self {
            Self::Form(_) if asked.is_words() => None,
            Self::Form(number) => Some(number.value().into()),
            Self::Digits(digits) => digits.parse().ok(),
            Self::Other(content) => content.worth(asked, style.names),
        }
    }

    /// Whether it is worth the same as the right answer, or where answers have no worth, is the same.
    pub fn is_as(&self, right: &Self, asked: Form, style: &Style) -> bool {
        match right.worth(asked, style) {
            Some(worth) => self.worth(asked, style) == Some(worth),
            None => self.looks_like(right, asked, style),
        }
    }

    /// Whether both are written alike, but for marks of thousands.
    pub fn looks_like(&self, other: &Self, asked: Form, style: &Style) -> bool {
        if let (Self::Form(one), Self::Form(another)) = (self, other) {
            return one == another;
        }
        let digits = matches!(self, Self::Digits(_)) || matches!(other, Self::Digits(_));
        self.worth(asked, style) == other.worth(asked, style)
            && (digits || self.content(asked, style) == other.content(asked, style))
    }

    /// As it is written.
    pub fn content(&self, asked: Form, style: &Style) -> Option<Content> {
        match self {
            Self::Form(number) => asked.content(*number, style),
            Self::Digits(digits) => Some(Content::Text(digits.clone())),
            Self::Other(content) => Some(content.clone()),
        }
    }
}
