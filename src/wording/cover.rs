//! What the substitute's first page says.

use super::area::area;
use super::digits::figures;
use crate::number::{Form, Number};
use crate::spec::{SheetKind, Version};
use crate::wording::Usage;
use crate::wording::class_groups::GroupShare;

/// Pages that follow each other, as they are numbered in the packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PageRange {
    /// The first.
    pub first: usize,
    /// The last; the first itself for a single page.
    pub last: usize,
}

impl PageRange {
    /// In figures: "3–5", "3".
    pub fn figures(self) -> String {
        figures((self.first, self.last))
    }
}

/// Where the keys of boards and strips are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyPages {
    /// All of them.
    pub all: PageRange,
    /// The pages of each set's, by its letter; empty where there is one set.
    pub sets: Vec<(Version, PageRange)>,
}

/// Something to be careful about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Caution {
    /// The school's own rules come first.
    SchoolFirst,
    /// How learners use scissors.
    Scissors,
    /// Who may not use scissors, where there are boxes to write in instead.
    NoScissors,
    /// The same where there are none.
    NoScissorsNoBoxes,
    /// A guillotine is for grown-ups.
    Guillotine,
    /// Small pieces.
    SmallPieces,
}

/// On which sheets learners sort.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SortSheets {
    /// On boards, with strips.
    BoardsAndStrips,
    /// On boards.
    Boards,
    /// With strips.
    Strips,
    /// On none: the numbers are written by hand.
    Numbers,
}

/// Which sets of a class are copied from a packet that does not hold all of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CopiedSets {
    /// All of them.
    All,
    /// This one, for everybody.
    One(Version),
    /// Of each group its first, for all of the group: they stand in the table of letters.
    FirstOfGroups,
}

/// What learners hand in at the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Papers {
    /// Quick checks.
    Checks,
    /// Answers to questions that were asked aloud.
    Answers,
}

/// What a substitute leaves for the teacher besides the cover itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeftBehind<'a> {
    /// Sheets that learners wrote on.
    pub written: &'a [SheetKind],
    /// Whether strips went into envelopes.
    pub envelopes: bool,
    /// Whether there is a tally.
    pub tally: bool,
    /// What learners handed in.
    pub papers: Option<Papers>,
    /// Whether there is a page of small groups.
    pub groups: bool,
}

/// What goes on the board by hand where nothing can be copied.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ByHand {
    /// Numbers, the same for all.
    Numbers(Vec<Number>),
    /// A list for each group, at least one number each.
    Lists(Vec<(GroupShare, Vec<Number>)>),
    /// Of each group the numbers of so many first rows of its sorting boards, where the lists are too many to spell out.
    Boards(u32),
    /// The questions of a quick check, where there is nothing to sort.
    Check {
        /// The check's number.
        mark: u32,
        /// The page that it is on.
        page: usize,
        /// Whether it has choices.
        choices: bool,
    },
    /// Nothing: the plan's questions are asked aloud.
    Aloud,
}

area! {
    /// The substitute's first page.
    CoverWords;

    /// The heading: what the page is, and the lesson's title.
    fn cover_heading(title: &str) -> String;

    /// The heading where it goes on over a page.
    fn cover_again() -> &'static str;

    /// Under the heading: for whom, how long, how many, which grade.
    fn cover_note(minutes: u32, learners: u32, grade: Option<&str>) -> String;

    /// The heading over what to do first.
    fn first_title() -> &'static str;

    /// Read the plan on these pages.
    fn read_plan(pages: PageRange) -> String;

    /// Put things on a side table; `cut` where the plan has a way without what nobody has cut.
    fn lay_out_first(cut: bool) -> &'static str;

    /// The number that the lesson begins with: the plan says when to write it, or to show it step by step.
    fn begin_with(number: Number, shown: bool, usage: &Usage<'_>) -> String;

    /// Where answers are: of the sort numbers on these sheets, and of quick checks, as far as there are any.
    /// `planned` where quick checks are printed and the plan answers them.
    fn answers_on(sorts: Option<(KeyPages, SortSheets)>, checks: Option<PageRange>, planned: bool) -> String;

    /// The heading over the packet's pages, and the headings of their table: page, what, copies where there are none.
    fn contents_heads() -> (&'static str, [&'static str; 3]);

    /// The pages that each group has of its own, in the table of the packet's pages: the table of letters is below it.
    fn pages_with_letters() -> &'static str;

    /// The heading over the table of letters, and the headings of its first columns: letter, whose, copies of each page.
    fn set_heads() -> (&'static str, [&'static str; 3]);

    /// In the table of letters: pages of which there are other copies than of the rest.
    fn pages_copied(pages: PageRange, copies: u32) -> String;

    /// The heading over what to lay out, and the headings of its table.
    fn things_heads() -> (&'static str, [&'static str; 2]);

    /// The heading over what to do with less time.
    fn late_title() -> &'static str;

    /// The heading over what to do without copies.
    fn missing_title() -> &'static str;

    /// Copies are made as the table of pages counts them; `uncut` where strips would have come in pieces, so that learners write
    /// instead; `kits` that would have come in pieces too, so that the plan's way without them is gone; `unmarked` where strips would
    /// have had marks on their backs; `apart` where several quick checks are on a page.
    fn copy_pages(sets: &CopiedSets, uncut: bool, kits: &[SheetKind], unmarked: bool, apart: bool) -> String;

    /// Without a copier: what to write on the board, and the forms that learners write.
    fn no_copier(by_hand: &ByHand, forms: &[Form], usage: &Usage<'_>) -> String;

    /// The heading over cautions.
    fn cautions_title() -> &'static str;

    /// A caution, in a sentence or two; `alone` where the class is one learner.
    fn caution(caution: Caution, alone: bool) -> &'static str;

    /// The heading over what only the school knows, and the labels of its lines.
    fn school_lines() -> (&'static str, [&'static str; 5]);

    /// The heading over the note back, and the labels of its lines.
    fn back_lines() -> (&'static str, [&'static str; 5]);

    /// What to leave behind.
    fn leave_behind(left: &LeftBehind<'_>, learners: u32) -> String;
}
