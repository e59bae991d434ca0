//! What is said in small groups.

use super::Tools;
use super::area::area;
use crate::number::{Heard, Number, Slip, SlipFamily, Style, Task};

/// The first number of a slip's group, which it works on together.
#[derive(Debug, Clone, Copy)]
pub struct GroupStep<'s> {
    /// The slip.
    pub slip: Slip,
    /// The number.
    pub of: Number,
    /// What is shown and what is asked.
    pub task: Task,
    /// The number that the slip takes it for, where it takes it for another one.
    pub taken: Option<Number>,
    /// What lies on the table and is enough for this number.
    pub tools: Tools,
    /// Whether its blocks come from two sets.
    pub two_sets: bool,
    /// How numbers are written.
    pub style: &'s Style,
}

impl GroupStep<'_> {
    /// What is heard of the number and of the one that the slip takes it for; `None` where the slip is no matter of hearing.
    pub fn heard(&self) -> Option<Heard> {
        Heard::new(self.of, self.taken?)
    }

    /// The one of the two that is a teen, if one is.
    pub fn teen(&self) -> Option<Number> {
        self.heard()?.teen()
    }
}

/// How many sets of blocks lie on the table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum BlocksOut {
    /// Nothing is built.
    #[default]
    None,
    /// One, or the class's own blocks.
    OneSet,
    /// Two, since two numbers are built side by side.
    TwoSets,
}

/// What the groups need on their table, apart from paper and pencils.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct GroupTable {
    /// Blocks.
    pub blocks: BlocksOut,
    /// A mat.
    pub mat: bool,
    /// Layered cards.
    pub cards: bool,
    /// Whether the class is one learner, who makes no groups.
    pub one_learner: bool,
}

area! {
    /// How the tally is read into groups, and what each group does in ten minutes.
    Groups;

    /// What the page is for, and what lies on the table.
    fn groups_note(table: GroupTable) -> String;

    /// The heading over how to read the tally; `one_learner` makes no groups.
    fn reading_title(one_learner: bool) -> &'static str;

    /// How to read the tally into groups, one sentence or two a step; `one_learner` makes none.
    fn reading_steps(one_learner: bool) -> Vec<&'static str>;

    /// The headings of the table of groups: group, letters on the tally, what it is about, room for names; one learner's day
    /// for each.
    fn groups_heads(one_learner: bool) -> [&'static str; 4];

    /// What a group is called.
    fn family(family: SlipFamily) -> &'static str;

    /// What a group finds out.
    fn family_aim(family: SlipFamily) -> &'static str;

    /// What the group is called that shows no slip.
    fn has_it() -> &'static str;

    /// What heads its tasks, which learners do not have on a page of their own, and their answers.
    fn has_it_heads() -> (&'static str, &'static str);

    /// What is on the tally for it.
    fn no_letter() -> &'static str;

    /// What it does, about three numbers: a task for each, with its answer.
    fn has_it_tasks(numbers: &[Number], style: &Style) -> Vec<(String, String)>;
}

area! {
    /// The ten minutes of a slip's group.
    GroupSteps;

    /// The heading of a slip's lesson: its letter, its name, its group; one learner is in none.
    fn lesson_title(letter: char, slip: Slip, one_learner: bool) -> String;

    /// What to build, draw or write first, and what helps then.
    fn group_build(step: &GroupStep<'_>) -> String;

    /// What to ask about it.
    fn group_question(step: &GroupStep<'_>) -> String;

    /// The answer to expect.
    fn group_answer(step: &GroupStep<'_>) -> String;

    /// How to go on with the numbers of the table.
    fn group_try(task: Task, tools: Tools, one_learner: bool) -> String;

    /// What tells that the slip is gone.
    fn group_gone(slip: Slip, tools: Tools) -> String;

    /// The headings of the table of numbers: what is said, shown, laid out or drawn, what is right, what the slip gives.
    fn numbers_heads(task: Task, tools: Tools) -> [&'static str; 3];

    /// What is said, shown, laid out or drawn in a task: the number in a form, a digit of it, or two numbers; with the trade
    /// that is asked for, where one is.
    fn shown_in(number: Number, task: Task, tools: Tools, style: &Style) -> String;
}
