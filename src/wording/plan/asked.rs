//! Questions, each with the answer to expect.

use crate::number::{Content, Counted, Form, Number, Place, Slip};
use crate::spec::Version;
use crate::wording::Usage;
use crate::wording::area::area;

/// A question that has one answer. Two that are equal are the same question.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Asked {
    /// How the number on the board is read.
    Read(Number),
    /// How many digits it has.
    Digits(Number),
    /// What a digit is worth; by its place where the numeral has it twice. The digit is not 0.
    Worth(Number, Place),
    /// In which place a digit stands that the numeral has once.
    WhichPlace(Number, Place),
    /// Which digit stands in a place, and what it is worth. The digit is not 0.
    DigitAt(Number, Place),
    /// What the zeros tell; the number shows one.
    ZeroTells(Number),
    /// Why the zeros are written; the number shows one.
    WhyZero(Number),
    /// The number in expanded form, which has more than one part.
    Expanded(Number),
    /// How many parts the expanded form has; it has one.
    OnePart(Number),
    /// The number in words.
    Words(Number),
    /// Where the hyphen goes in its words; its last two digits are 21 to 99 and not round.
    Hyphen(Number),
    /// Which blocks show it; it has a picture.
    Blocks(Number),
    /// How many of each place there are; 10 to 999,999.
    Units(Number),
    /// How many thousands are read first; 10,000 or more.
    Thousands(Number),
    /// Which number the cards of its parts make; it has several parts.
    Cards(Number),
    /// Whether a digit is worth the same in two numbers, each of which has it once, in different places; of a set
    /// where there are several.
    Twins(u8, (Number, Place), (Number, Place), Option<Version>),
    /// How two numbers of the same digits are told apart; of a set where there are several.
    TellApart(Number, Number, Option<Version>),
    /// Which of two numbers of the same length is greater, and how one knows.
    Greater(Number, Number),
    /// Which strips belong to a number: these forms of it.
    Belongs(Number, Vec<Form>, Option<Version>),
    /// Why the expanded form has no part for the places that hold 0, or has one where the class writes it.
    ZeroParts(Number),
    /// What went wrong with a wrong strip.
    WentWrong(Number, Form, Content, Slip),
    /// What belongs in the first row of a board that does not show numerals: these forms of its number.
    FirstRow(Number, Vec<Form>, Option<Version>),
    /// How else a number is shown: these forms of it.
    Ways(Number, Vec<Form>, Option<Version>),
    /// What the number is after the trades that lead to these counts.
    Regrouped(Number, Counted),
    /// One more and one less of a place; both are numbers of the program.
    MoreLess(Number, Place),
    /// What 0, 1, 2 ... are called, in a lesson without numbers of its own.
    TenDigits,
    /// How a number is written in figures that is said in another form.
    Written(String, Number),
}

impl Asked {
    /// The same question without the letter of a set: whoever was asked it once is not asked again.
    #[must_use]
    pub fn of_no_set(mut self) -> Self {
        if let Self::Twins(_, _, _, of)
        | Self::TellApart(_, _, of)
        | Self::Belongs(_, _, of)
        | Self::FirstRow(_, _, of)
        | Self::Ways(_, _, of) = &mut self
        {
            *of = None;
        }
        self
    }
}

/// A question and the answer to expect.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Reply {
    /// The question, word for word.
    pub question: String,
    /// The answer, as a child would say it.
    pub expect: String,
}

#[cfg(test)]
impl crate::wording::marked::Marks for Reply {
    fn marked(self) -> Self {
        Self { question: self.question.marked(), expect: self.expect.marked() }
    }
}

area! {
    /// Questions and their answers.
    Questions;

    /// A question with its answer.
    fn ask(asked: &Asked, usage: &Usage<'_>) -> Reply;

    /// What somebody did who laid a strip that a slip gives, as a child says it and without its full stop.
    fn went_wrong(slip: Slip) -> &'static str;
}
