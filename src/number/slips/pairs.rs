//! Which slips a task can provoke, and which explains an answer that several would give.
//!
//! A slip stands in a row only if what it needs is shown: nothing is misheard in a picture, no block is counted wrongly in
//! a numeral, and only a numeral shows or asks for a zero that holds a place. Rows are in the order of explanation:
//!
//! 1. words that were taken for others, since they change the number before anything is written (Miller and Zhu, and the NSW
//!    numeracy continuum, on teens);
//! 2. face value, which Ross 1989 and Price 2001 found in most learners whose places fail;
//! 3. zeros, the commonest trouble in numerals of three digits (Steiner et al. 2021): dropped before moved, and moved before
//!    swapped, since learners move a digit beside a zero more often than others (Byrge, Smith and Mix 2014);
//! 4. parts put together wrongly, the plainest first: all written out, then the greatest only, then half of it (Power and Dal
//!    Martello 1990; Byrge, Smith and Mix 2014);
//! 5. counts of a traded form: put side by side (Fuson 1990) before forgotten;
//! 6. digits that changed places, which are rare where number words run from left to right (Steiner et al. 2021).
//!
//! The compiler asks for the row of every pair when a form is added.

use super::{Form, Slip, Task};
use Form::{Blocks, Expanded, Numeral, Regrouped, SecondWords, Units, Untraded, Words};
use Slip::{
    BigPartThenRest, CountedAlike, CountsSideBySide, FaceValue, FromTheOnes, HalfOverwritten, HundredWord,
    HundredsTensSwapped, NotTakenAway, OneForOne, OneTooFew, PlaceOff, PlaceWordWritten, ReadInPieces, Reversed,
    SideBySide, SoundAlike, TeenReversed, TeenTy, TenLeftOut, TensOnesSwapped, ZeroDropped, ZeroMoved,
};

impl Task {
    /// The slips that what is shown can provoke, the likeliest reason first: where two give the same answer, the first
    /// explains it.
    pub const fn provokes(self) -> &'static [Slip] {
        provoked(self)
    }
}

const fn provoked(task: Task) -> &'static [Slip] {
    match task {
        Task::Worth(_) => &[FaceValue, PlaceOff],
        Task::Greater(_) => &[FromTheOnes, FaceValue],
        Task::Forms { shown, asked } => match (shown, asked) {
            (Numeral, Numeral)
            | (Words, Words)
            | (SecondWords, SecondWords)
            | (Expanded, Expanded)
            | (Units, Units)
            | (Regrouped, Regrouped)
            | (Blocks, Blocks)
            | (Untraded, Untraded) => &[],
            // A piece is traded. The commonest bug of taking away comes first, and what no research reports last.
            (Numeral | Words | SecondWords | Expanded | Units | Blocks | Untraded, Regrouped)
            | (Numeral | Words | SecondWords | Expanded | Units | Blocks | Regrouped, Untraded) => {
                &[NotTakenAway, OneForOne, OneTooFew]
            }
            // Counts beyond nine are read.
            (Regrouped, Numeral) => &[CountsSideBySide, TenLeftOut],
            (Regrouped, Words | SecondWords | Expanded | Units | Blocks) => &[TenLeftOut],
            (Untraded, Numeral) => &[CountedAlike, CountsSideBySide, TenLeftOut],
            (Untraded, Words | SecondWords | Expanded | Units | Blocks) => &[CountedAlike, TenLeftOut],
            // A numeral is read. Only words can be mixed up by their sound, and only digits be read in pieces.
            (Numeral, Words | SecondWords) => &[
                TeenTy,
                TeenReversed,
                SoundAlike,
                ZeroDropped,
                ZeroMoved,
                ReadInPieces,
                HundredWord,
                TensOnesSwapped,
                HundredsTensSwapped,
                Reversed,
            ],
            (Numeral, Expanded | Blocks) => {
                &[FaceValue, ZeroDropped, ZeroMoved, TensOnesSwapped, HundredsTensSwapped, Reversed]
            }
            (Numeral, Units) => &[ZeroDropped, ZeroMoved, TensOnesSwapped, HundredsTensSwapped, Reversed],
            // A numeral is written from what was heard: the parts of the words are put together.
            (Words | SecondWords, Numeral) => &[
                TeenReversed,
                TeenTy,
                SoundAlike,
                ZeroDropped,
                SideBySide,
                BigPartThenRest,
                HalfOverwritten,
                PlaceWordWritten,
                ZeroMoved,
                TensOnesSwapped,
                HundredsTensSwapped,
                Reversed,
            ],
            // Words are read, and said in the other language. What is taken for another is what was read.
            (Words | SecondWords, Expanded | Units | Blocks) | (Words, SecondWords) | (SecondWords, Words) => {
                &[TeenReversed, TeenTy, SoundAlike, TensOnesSwapped, HundredsTensSwapped, Reversed]
            }
            // A numeral is written from parts that stand there in figures.
            (Expanded | Units, Numeral) => {
                &[ZeroDropped, SideBySide, ZeroMoved, TensOnesSwapped, HundredsTensSwapped, Reversed]
            }
            (Expanded, Words | SecondWords | Units | Blocks) | (Units, Words | SecondWords) => {
                &[TensOnesSwapped, HundredsTensSwapped, Reversed]
            }
            // Unit form shows bare digits with the names of their places, which may be passed over.
            (Units, Expanded | Blocks) => &[FaceValue, TensOnesSwapped, HundredsTensSwapped, Reversed],
            // Blocks are counted.
            (Blocks, Numeral) => {
                &[CountedAlike, ZeroDropped, ZeroMoved, TensOnesSwapped, HundredsTensSwapped, Reversed]
            }
            (Blocks, Words | SecondWords | Expanded | Units) => {
                &[CountedAlike, TensOnesSwapped, HundredsTensSwapped, Reversed]
            }
        },
    }
}
