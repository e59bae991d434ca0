//! What the teacher says, word for word.

use crate::number::{Form, Number, Place};
use crate::wording::Usage;
use crate::wording::area::area;

/// Something that is said aloud.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Said {
    /// The idea of the day: one digit can be worth different amounts.
    SameDigitIdea,
    /// The idea of the day: the place tells what a digit is worth.
    PlaceIdea,
    /// The idea of the day: large numbers are read in periods.
    PeriodIdea,
    /// The idea of the day: one number in several ways.
    WaysIdea,
    /// The idea of the day in a lesson without numbers of its own.
    DigitsIdea,
    /// A digit that the numeral has more than once, and what it is worth in each place.
    Repeats(Number, u8),
    /// That a number ends in a teen, or is one: one ten and some ones.
    Teen(Number),
    /// That a digit tells how many, and its place how many of what.
    HowManyOfWhat,
    /// A trade leaves a number as it is; `hundreds` where tens are traded too.
    TradeIdea {
        /// Whether numbers have hundreds.
        hundreds: bool,
    },
    /// How a number is drawn by hand: only the marks that it needs.
    Draw(Number),
    /// How numbers that have these places are drawn by hand.
    DrawMarks(Vec<Place>),
    /// What a block of each of these places is worth.
    BlocksWorth(Vec<Place>),
    /// What a piece of each of these places is worth in a picture, where nobody has blocks.
    PicturesWorth(Vec<Place>),
    /// How scissors are used.
    Scissors,
    /// What each row of the board shows, and what to look for; only these rows where not all are done.
    FindStrips(Form, Option<u32>),
    /// How strips are laid in their boxes.
    LayStrips,
    /// What to write, or to draw in one of them, in the boxes of the board; only these rows where not all are done.
    WriteBoxes {
        /// How many rows.
        rows: Option<u32>,
        /// Whether a form is a picture.
        draws: bool,
    },
    /// Strips without sorting boards are put in rows, one for each number that stands on the classroom's board.
    StripsInRows {
        /// Whether each learner has one of several sets.
        sets: bool,
    },
    /// Strips that stay whole: those that show one number get one letter.
    LetterStrips {
        /// Whether each learner has one of several sets.
        sets: bool,
    },
    /// Some strips show none of the numbers that stand on the classroom's board.
    SomeShowNone,
    /// Write the numbers on the board again in these forms.
    WriteAgain(Vec<Form>),
    /// Some strips belong nowhere, in all sets or in some.
    SomeFitNoRow {
        /// Whether all sets have such strips.
        all: bool,
    },
    /// Strips that belong to none of the rows of today.
    SomeFitNoRowToday {
        /// Whether some belong nowhere at all.
        none: bool,
    },
    /// How the quick check is done: choices marked or answers written, as it has them.
    CheckRules {
        /// Whether it has choices to mark.
        marks: bool,
        /// Whether it has lines to write on.
        writes: bool,
    },
    /// Only so many questions of the quick check are done.
    QuestionsToday(u32),
    /// The quick check is asked aloud.
    CheckAloud {
        /// Whether the paper is the one that they have written on.
        same: bool,
    },
}

area! {
    /// What is said aloud.
    Speech;

    /// What is said, word for word.
    fn say(said: &Said, usage: &Usage<'_>) -> String;
}
