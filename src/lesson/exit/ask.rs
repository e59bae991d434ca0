//! What a question may ask, and in which sentence.

use crate::lesson::say::written;
use crate::number::{Content, Form, Number, Place, Style};

/// What is asked of a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ask {
    /// Shown in one form, wanted in another.
    Match {
        /// The form that the question shows.
        given: Form,
        /// The form that the answer has.
        wanted: Form,
    },
    /// What the digit in a place is worth. The digit stands in the numeral only once and is not 0.
    Worth(Place),
    /// The digit in a place.
    Digit(Place),
    /// Which of two numbers is greater; the other one is a wrong numeral of the same length.
    Greater,
}

/// The three kinds of question on every check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Family {
    /// The numeral is given.
    Given,
    /// The numeral is wanted.
    Wanted,
    /// Digits and sizes.
    Sense,
}

impl Family {
    /// All that this family can ask about a number, forms kept to those that the lesson matches.
    pub(super) fn asks(self, number: Number, matched: &[Form]) -> Vec<Ask> {
        // A number with a single part looks the same in expanded form.
        let parts = number.digits().filter(|(_, digit)| *digit > 0).count();
        let has = |form: &Form| matched.contains(form) && (*form != Form::Expanded || parts > 1);
        let shown = [Form::Words, Form::Expanded, Form::Units];
        match self {
            Self::Given => {
                shown.into_iter().filter(has).map(|wanted| Ask::Match { given: Form::Numeral, wanted }).collect()
            }
            Self::Wanted => [Form::Blocks, Form::Words, Form::Expanded, Form::Units]
                .into_iter()
                .filter(|form| has(form) && (*form != Form::Blocks || number <= Number::MAX_BLOCKS))
                .map(|given| Ask::Match { given, wanted: Form::Numeral })
                .collect(),
            Self::Sense => {
                let digits: Vec<(Place, u8)> = number.digits().collect();
                if digits.len() < 2 {
                    return Vec::new();
                }
                let once = |digit: u8| digits.iter().filter(|(_, d)| *d == digit).count() == 1;
                let worth = digits.iter().filter(|(_, d)| *d != 0 && once(*d)).map(|(place, _)| Ask::Worth(*place));
                let zeros = digits.iter().filter(|(_, d)| *d == 0).map(|(place, _)| Ask::Digit(*place));
                worth.chain([Ask::Greater]).chain(zeros).collect()
            }
        }
    }
}

impl Ask {
    /// The right answer; `None` where the number has no such form.
    pub(super) fn answer(self, number: Number, style: &Style) -> Option<Content> {
        Some(match self {
            Self::Match { wanted, .. } => wanted.content(number, style)?,
            Self::Worth(place) => {
                let worth = Number::new(u32::from(number.digit(place)) * place.worth())?;
                Form::Numeral.content(worth, style)?
            }
            Self::Digit(place) => Content::Text(number.digit(place).to_string()),
            Self::Greater => Form::Numeral.content(number, style)?,
        })
    }

    /// The form that the question shows under its sentence: a picture or a line of text.
    pub(super) fn shown(self, number: Number, style: &Style) -> Option<Content> {
        match self {
            Self::Match { given: Form::Numeral, .. } | Self::Worth(_) | Self::Digit(_) | Self::Greater => None,
            Self::Match { given, .. } => given.content(number, style),
        }
    }

    /// The sentence over the choices.
    pub(super) fn sentence(self, number: Number, style: &Style) -> String {
        let numeral = written(number, style);
        match self {
            Self::Match { given: Form::Numeral, wanted } => wanted.which(&numeral),
            Self::Match { .. } => "Which number is this?".to_owned(),
            Self::Worth(place) => format!("What is the {} in {numeral} worth?", number.digit(place)),
            Self::Digit(place) => format!("Which digit of {numeral} is in the {} place?", place.words()),
            Self::Greater => "Which number is greater?".to_owned(),
        }
    }

    /// The sentence over a line to write on.
    pub(super) fn request(self, number: Number, style: &Style) -> String {
        let numeral = written(number, style);
        match self {
            Self::Match { given: Form::Numeral, wanted } => wanted.write(&numeral),
            Self::Match { given, .. } => given.write_numeral().to_owned(),
            Self::Worth(_) | Self::Digit(_) | Self::Greater => self.sentence(number, style),
        }
    }
}
