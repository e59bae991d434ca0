//! An answer before it is written out: thousands are looked at for a lesson, and a few of them are printed.

use super::{Content, Form, Number, Style, Task};

/// What a slip makes of a number in a task, right or wrong.
pub(super) struct Answer {
    /// What it is worth, read as the form that is asked for; see [`Content::worth`]. It tells nearly all answers apart.
    pub worth: Option<u64>,
    written: Written,
}

/// How an answer would be written.
enum Written {
    /// The form that is asked for, of a number that has it.
    Form(Number),
    /// A numeral of digits put together, one after another as a learner writes them: a mark for thousands would show that
    /// something else was meant. They never begin with 0.
    Digits(u64),
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
        let worth = if form.is_words() { None } else { Some(number.value().into()) };
        form.is_of(number, style).then_some(Self { worth, written: Written::Form(number) })
    }

    /// A numeral.
    pub fn numeral(number: Number) -> Self {
        Self { worth: Some(number.value().into()), written: Written::Form(number) }
    }

    /// Digits put together.
    pub fn digits(digits: u64) -> Self {
        Self { worth: Some(digits), written: Written::Digits(digits) }
    }

    /// An answer of its own, written in the form that is asked for.
    pub fn other(content: Content, asked: Form, style: &Style) -> Self {
        Self { worth: content.worth(asked, style.names), written: Written::Other(content) }
    }

    /// Whether it is right: worth the same as the right answer, or where answers have no worth, the same.
    pub fn is_as(&self, right: &Self, asked: Form, style: &Style) -> bool {
        self.worth == right.worth && (right.worth.is_some() || self.looks_like(right, asked, style))
    }

    /// Whether both are written alike, but for marks of thousands.
    pub fn looks_like(&self, other: &Self, asked: Form, style: &Style) -> bool {
        self.worth == other.worth
            && match (&self.written, &other.written) {
                (Written::Form(one), Written::Form(another)) => one == another,
                (Written::Digits(_), _) | (_, Written::Digits(_)) => true,
                _ => self.content(asked, style) == other.content(asked, style),
            }
    }

    /// As it is written.
    pub fn content(&self, asked: Form, style: &Style) -> Option<Content> {
        match &self.written {
            Written::Form(number) => asked.content(*number, style),
            Written::Digits(digits) => Some(Content::Text(digits.to_string())),
            Written::Other(content) => Some(content.clone()),
        }
    }
}
