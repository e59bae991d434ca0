//! What is said in small groups.

use super::Tools;
use super::area::area;
use crate::number::{Number, Slip, SlipFamily, Style, Task};

area! {
    /// How the tally is read into groups, and what each group does in ten minutes.
    Groups;

    /// What the page is for; `built` tells whether blocks are at hand.
    fn groups_note(built: bool) -> &'static str;

    /// The heading over how to read the tally.
    fn reading_title() -> &'static str;

    /// How to read the tally into groups, one sentence or two a step. `letters` tells whether any slip is in play.
    fn reading_steps() -> [&'static str; 4];

    /// The headings of the table of groups: group, letters on the tally, what it is about, room for names.
    fn groups_heads() -> [&'static str; 4];

    /// What a group is called.
    fn family(family: SlipFamily) -> &'static str;

    /// What a group finds out.
    fn family_aim(family: SlipFamily) -> &'static str;

    /// What the group is called that shows no slip.
    fn has_it() -> &'static str;

    /// What is on the tally for it.
    fn no_letter() -> &'static str;

    /// What it does, about three numbers: a task for each, with its answer.
    fn has_it_tasks(numbers: &[Number], style: &Style) -> Vec<(String, String)>;

    /// The heading of a slip's lesson: its letter, its name, its group.
    fn lesson_title(letter: char, slip: Slip) -> String;

    /// What to build or write first.
    fn group_build(number: Number, task: Task, tools: Tools, style: &Style) -> String;

    /// What to ask about it.
    fn group_question(slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String;

    /// The answer to expect.
    fn group_answer(slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String;

    /// How to go on with three numbers.
    fn group_try(task: Task, tools: Tools) -> String;

    /// What tells that the slip is gone.
    fn group_gone(slip: Slip, tools: Tools) -> String;

    /// The headings of the table of numbers: what is shown, what is right, what the slip gives.
    fn numbers_heads() -> [&'static str; 3];

    /// What is shown in a task: the number in a form, a digit of it, or two numbers.
    fn shown_in(number: Number, task: Task, style: &Style) -> String;
}
