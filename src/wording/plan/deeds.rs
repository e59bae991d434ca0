//! What the teacher does, or has the class do.

use crate::number::{Content, Counted, Form, Number};
use crate::spec::{DisplayForm, SheetKind, Version};
use crate::wording::area::area;
use crate::wording::class_groups::GroupShare;
use crate::wording::cover::Papers;
use crate::wording::{Phrases, Usage};

/// Who gets which packet or set.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Whose {
    /// All are alike.
    Anyone,
    /// Each bears a learner's name.
    Names,
    /// Each bears the letter and the number of a packet that the learner has.
    Packet,
    /// Neighbours get different letters.
    Letters(Vec<Version>),
    /// Each group gets its letters.
    Groups(Vec<GroupShare>),
}

/// The right answer to a question of a quick check.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Right {
    /// The letter of the choice.
    Letter(char),
    /// What is written on the line.
    Written(Content),
}

impl Right {
    /// The same in the words of a language: "B", "406".
    pub fn said(&self, words: &impl Phrases) -> String {
        match self {
            Self::Letter(letter) => letter.to_string(),
            Self::Written(content) => words.content(content),
        }
    }
}

/// Something that is done.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Deed {
    /// Write a number where all see it, and wait.
    WriteAndWait(Number),
    /// Write a number on the board.
    Write(Number),
    /// Point to a number that is on the board.
    PointTo(Number),
    /// Let the class read, then one learner.
    ReadTogether,
    /// Say a number that is not shown yet: learners write its numeral.
    Dictate(Number),
    /// How cubes lie in the mat's ten-frame.
    CubesInFrame,
    /// How several flats lie in one column of the mat.
    FlatsOnEachOther,
    /// Trade blocks of a number that is built, as its regrouped picture has them.
    TradeBlocks(Number, Counted),
    /// The same in a drawing.
    TradeDrawn(Number, Counted),
    /// Trade several pieces of one place in the head, one after another: kits and pictures do not hold what comes.
    TradeSeveral(Number, Counted),
    /// Another trade than the key's is right too, such as these counts of a number.
    AnyTrade(Number, Counted),
    /// Walk round, and mark in the tally who builds the number.
    MarkBuilding,
    /// Walk round, and mark skills in the tally, and slips where it has any.
    MarkSorting {
        /// Whether the tally has letters of slips.
        slips: bool,
    },
    /// With or without "and" in this lesson: an example of it.
    SayJoined(Number),
    /// Build a number with blocks in columns.
    Build {
        /// Which number.
        number: Number,
        /// Whether it was talked about; where it was not, it is shown and built in one step.
        first: bool,
    },
    /// One digit in each column, of the mat or of a chart drawn on paper; with periods from 10,000.
    WriteColumns {
        /// Which number.
        number: Number,
        /// Whether a mat has the columns.
        mat: bool,
        /// Whether it is said how the columns are drawn.
        first: bool,
    },
    /// Show a number's display page.
    ShowDisplay(Number),
    /// Show the first page of a number's display, the numeral by itself; wait where it is the first that learners see.
    ShowNumeral {
        /// Which number.
        number: Number,
        /// Whether nothing is said for a moment.
        wait: bool,
    },
    /// Turn to the next pages of the display, each with a form more: its step, and the form.
    TurnTo(Vec<(u32, DisplayForm)>),
    /// Turn through the pages of a number's display as the class answers.
    TurnThrough {
        /// Which number.
        number: Number,
        /// The first and the last step.
        steps: (u32, u32),
    },
    /// Lay the cards of a number's parts on top of each other.
    LayCards(Number),
    /// Fill in a number's row of the recording sheet together.
    FillRow(Number),
    /// Fill in the first row of the recording sheet, where rows differ from learner to learner.
    OwnFirstRow,
    /// Nothing more is filled in on the recording sheet.
    OtherRows,
    /// Write a number at the top of a page and work on it together.
    TopOfPage(Number),
    /// The same on the other side of a sheet that is full of drawings: the number is written again in these forms.
    OtherSide(Number, Vec<Form>),
    /// Point to the word bank.
    PointToWordBank,
    /// Where no word bank is printed: words that learners cannot spell.
    SpellWords,
    /// Learners do these numbers by themselves, and these where there is time.
    Alone(Vec<Number>, Vec<Number>),
    /// Each learner, or each two who share what they build with, picks one more number.
    PickOne {
        /// Whether two share it.
        pairs: bool,
    },
    /// Learners go on with further rows of their own.
    OwnRows,
    /// Whoever is done writes a number of their own into the last row.
    OwnNumberLast,
    /// Give each learner a packet, or the one sheet that comes for each.
    GivePackets {
        /// What is in it.
        sheets: Vec<SheetKind>,
        /// What is taken out now.
        now: Vec<SheetKind>,
        /// Who gets which.
        whose: Whose,
    },
    /// Learners take these sheets out of packets that they have.
    TakeOut(Vec<SheetKind>),
    /// Give each learner the pile of strips that goes with the packet.
    GivePiles {
        /// Whether piles and packets bear names; else numbers.
        named: bool,
    },
    /// Give each learner one set.
    GiveSets {
        /// Whether a set is a board and no strips, because there is no time for them.
        boards: bool,
        /// Who gets which.
        whose: Whose,
    },
    /// Groups are named on no learner's page.
    GroupsQuiet,
    /// What a group does while sorting.
    GroupSorts(GroupShare),
    /// Give each learner one quick check: who gets which numbers.
    GiveGroupChecks(Vec<GroupShare>),
    /// Learners cut along the lines: so many pieces.
    CutStrips(u32),
    /// Learners cut along the lines, some of them fewer pieces than others.
    CutOwnStrips,
    /// Strips that are not cut today.
    LeaveStrips,
    /// Strips of a row that is done are turned over: right ones have one mark on their backs, and decoys match nothing.
    TurnOver,
    /// Only so many rows today; the others are for whoever is early.
    RowsToday {
        /// How many.
        count: u32,
        /// Whether some boards have fewer.
        uneven: bool,
    },
    /// One kind of strip at a time, this first.
    OneKindFirst(Form),
    /// Only so many of the numbers on the board today; so many others are for whoever is early.
    NumbersToday {
        /// How many.
        count: u32,
        /// How many others are on the board.
        more: u32,
    },
    /// Write these numbers on the board, for all to work on.
    WriteAll(Vec<Number>),
    /// Write the numbers of a set on the board, for those who have it.
    WriteSet(Version, Vec<Number>),
    /// Learners who are done early.
    DoneEarly {
        /// Whether there are other letters to check.
        letters: bool,
        /// Whether more rows of the recording sheet are left.
        record: bool,
    },
    /// A moment to stand and stretch.
    Stretch,
    /// Everyone stops, hands off the strips.
    StopStrips,
    /// Everyone stops, pencils down.
    StopPencils,
    /// Two or three learners show a row, or a number that they wrote in every form.
    ShowRows {
        /// Whether they have rows.
        rows: bool,
    },
    /// Long lessons: the practice page, for so many minutes.
    DoPractice(u32),
    /// Long lessons: partners check each other's boards, for so many minutes.
    SwapBoards(u32),
    /// Long lessons: a break, with what is on the tables left there.
    TakeBreak,
    /// Long lessons: the work is done; what to do with the time that is left.
    SpareTime,
    /// Long lessons: numbers in order, for so many minutes.
    PutInOrder {
        /// How many.
        minutes: u32,
        /// Whether they stand on sorting boards; else on the classroom's board.
        board: bool,
    },
    /// Long lessons: each makes one wrong form, for so many minutes.
    MakeWrong(u32),
    /// Long lessons: clues about digits and places, for so many minutes.
    GuessMine(u32),
    /// Long lessons: a number of one's own in every form, for so many minutes.
    OwnNumber(u32),
    /// Give each learner one quick check; the corners differ where there are several.
    GiveChecks {
        /// Whether there are several.
        several: bool,
    },
    /// Read aloud, do not help.
    ReadAloud,
    /// The right answers of a quick check, in the order of its questions, where there is no key.
    CheckAnswers(u32, Vec<Right>),
    /// Scissors are counted back in: so many pairs.
    CountScissors(u32),
    /// Strips go into envelopes.
    BagStrips,
    /// A sheet of the kit goes back to whoever keeps it.
    PutAway(Vec<SheetKind>),
    /// Blocks go back to the tub.
    BlocksToTub,
    /// Sheets that learners wrote on are collected.
    CollectSheets(Vec<SheetKind>),
    /// Papers are collected and counted.
    Collect {
        /// How many.
        count: u32,
        /// What they are.
        papers: Papers,
    },
    /// Pages that learners take home.
    TakeHome(Vec<SheetKind>),
    /// What was left undone is noted for the teacher.
    NoteUndone(Vec<Undone>),
}

/// What may be left undone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Undone {
    /// Rows of the sorting board.
    Rows,
    /// Numbers that stand on the classroom's board.
    Numbers,
    /// Questions of the quick check.
    Questions,
}

area! {
    /// What is done.
    Deeds;

    /// What to do, in a sentence or two.
    fn deed(deed: &Deed, usage: &Usage<'_>) -> String;
}
