//! Before the lesson: chores with their minutes, what to lay out, and what to do when there was no time.

use super::frame::Phase;
use crate::number::{Counted, Number};
use crate::spec::{SheetKind, Version};
use crate::wording::Usage;
use crate::wording::area::area;
use crate::wording::cover::Papers;

/// Something to be done before the class comes in.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Chore {
    /// Cut out a kit's pieces.
    Cut {
        /// Which sheet.
        sheet: SheetKind,
        /// How many sheets there are to cut.
        sheets: usize,
        /// How many kits they make.
        copies: u32,
        /// The thousands, flats, rods and cubes of a kit of blocks.
        holds: Option<[u32; 4]>,
        /// How many pieces a kit has.
        pieces: usize,
    },
    /// Cut the rows of cubes apart that a guillotine leaves: in so many kits, so many cuts each.
    CutCubes {
        /// How many kits.
        copies: u32,
        /// Straight cuts in each.
        cuts: usize,
    },
    /// Join the pages of each copy at their edges.
    Join {
        /// Which sheet.
        sheet: SheetKind,
        /// How many copies of it.
        copies: u32,
        /// Pages of each copy.
        pages: u32,
    },
    /// Band or bag each set.
    Band(u32),
    /// Count blocks out of the tub: so many sets, each of so many blocks of each place, from the ones up.
    CountOut(u32, Counted),
    /// Lay everything on a side table, one pile a kind.
    LayOut {
        /// Whether some of it comes in packets, one a learner.
        packets: bool,
    },
    /// Count pairs of scissors.
    CountScissors(u32),
    /// Find on the tally who is in which group; whether it has names.
    KnowGroups {
        /// Whether a roster gave names; else they are written in.
        named: bool,
        /// The set that most have, for all where nobody knows the names.
        common: Option<Version>,
    },
    /// Put up the display pages: so many; of these numbers where not all are shown today, each with which model number it is.
    Display(u32, Vec<(Number, u32)>),
}

/// What to do instead where a chore was not done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Shortcut {
    /// No blocks cut: draw squares, lines and dots, as far as the numbers have such places.
    DrawBlocks {
        /// Whether a number has thousands.
        thousands: bool,
        /// Whether a number has hundreds.
        hundreds: bool,
    },
    /// Mats not joined: lay the pages side by side.
    SideBySide,
    /// No cards cut: write the parts below each other.
    WriteParts,
}

/// One thing to lay out.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Thing {
    /// Copies of a sheet, with pages of each, and learners and spares where they are not the copies' sum already.
    Sheet {
        /// Which.
        sheet: SheetKind,
        /// How many copies.
        copies: u32,
        /// Pages of each; 1 of what lies there in pieces.
        pages: u32,
        /// How many learners use one together.
        share: u32,
        /// The letters they come in; none or one where all are alike.
        letters: Vec<Version>,
    },
    /// Sheets that come together, a packet for each learner.
    Packets {
        /// How many packets.
        copies: u32,
        /// What is in each.
        sheets: Vec<SheetKind>,
        /// The letters they come in; none or one where all are alike.
        letters: Vec<Version>,
    },
    /// Sets of blocks from the class's tub, with so many of each place, from the ones up.
    TubBlocks(u32, Counted),
    /// Sheets of paper to write on.
    Paper(u32),
    /// Envelopes, one a learner.
    Envelopes(u32),
    /// Pairs of scissors, and tape where a grown-up joins pages with it.
    Scissors(u32, bool),
    /// What a grown-up cuts with before the lesson where learners cut nothing, and tape where pages are joined.
    Tools {
        /// Whether pages are joined.
        tape: bool,
    },
    /// Pencils.
    Pencils(u32),
}

/// How rows of the board are done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RowsBy {
    /// Strips are matched, or marked.
    Matching,
    /// Learners write in the boxes, as in the whole lesson.
    Writing,
    /// Learners write in the boxes, because there is no time to cut.
    WritingUncut,
}

/// Where the numbers stand that learners sort.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SortedOn {
    /// On sorting boards, which have rows.
    SortingBoards,
    /// On the classroom's board.
    ClassroomBoard,
}

/// What a shorter lesson does, in the order of the plan.
#[allow(clippy::struct_excessive_bools, reason = "parts of a lesson are done or not, each by itself")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Short {
    /// Minutes that are left: the fewest and the most.
    pub minutes: (u32, u32),
    /// Whether the plan's opening is left out.
    pub unopened: bool,
    /// Model numbers that are shown.
    pub models: u32,
    /// How they are: built, drawn or written in columns.
    pub shown: Phase,
    /// Rows of the board that are done, of how many.
    pub rows: (u32, u32),
    /// Whether some boards have fewer rows.
    pub uneven: bool,
    /// Where the numbers stand.
    pub on: SortedOn,
    /// How rows are done.
    pub by: RowsBy,
    /// Whether one example is worked together.
    pub together: bool,
    /// Whether learners compare what they did.
    pub sharing: bool,
    /// Questions of the quick check, of how many.
    pub questions: (u32, u32),
    /// On what they are answered: printed checks, or where they are asked aloud, paper.
    pub papers: Papers,
}

area! {
    /// What is done before the lesson.
    Prepare;

    /// The heading of what is done before the lesson.
    fn before_title() -> &'static str;

    /// Under the heading: how long all of it takes; `hurried` where that is longer than there usually is, and some of it can be left.
    fn before_note(minutes: u32, hurried: bool) -> String;

    /// A chore, in a sentence.
    fn chore(chore: &Chore, usage: &Usage<'_>) -> String;

    /// The heading of what to do when nobody prepared.
    fn shortcut_title() -> &'static str;

    /// What to do instead.
    fn shortcut(shortcut: Shortcut) -> &'static str;

    /// Something to lay out: what it is, and what else there is to know, which may be empty.
    fn thing(thing: &Thing) -> (String, String);

    /// What a shorter lesson does.
    fn short(short: &Short) -> String;
}
