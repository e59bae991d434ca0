//! What grown-ups read of groups: learners with numbers of their own.

use super::area::area;
use super::digits::figures;
use crate::number::{Number, Style};
use crate::spec::Version;

/// What a group, or everyone else, works with.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct GroupShare {
    /// What the teacher calls it; none for everyone else.
    pub name: Option<String>,
    /// The numbers of its learners, neighbours drawn together: first and last.
    pub learners: Vec<(u32, u32)>,
    /// Its versions, rising.
    pub versions: Vec<Version>,
    /// The marks of its quick checks, rising.
    pub checks: Vec<u32>,
    /// How many rows its boards have.
    pub rows: u32,
    /// How many strips it has, decoys among them.
    pub strips: u32,
    /// The least and the greatest number of its range.
    pub range: (Number, Number),
}

/// So many runs of numbers can be read; of more, how many learners they are says more. Our choice.
const RUNS: usize = 12;

impl GroupShare {
    /// How many learners it has, where a roster has them in more runs than anybody reads: the tally and their pages then tell them.
    pub fn scattered(&self) -> Option<u32> {
        let count = || self.learners.iter().map(|(first, last)| last - first + 1).sum();
        (self.learners.len() > RUNS).then(count)
    }

    /// Its sets from the first to the last: "C–D", "A"; `None` where it has none.
    pub fn sets(&self) -> Option<String> {
        Some(figures((*self.versions.first()?, *self.versions.last()?)))
    }

    /// Its learners' numbers in figures where they follow on each other: "8–11", "3"; `None` where a roster has them apart.
    pub fn run(&self) -> Option<String> {
        match self.learners.as_slice() {
            [run] => Some(figures(*run)),
            _ => None,
        }
    }
}

area! {
    /// Who has which numbers: never on a learner's page.
    ClassGroups;

    /// What is said over all boards where some sets have strips that belong to no row and others have not; `marks` where
    /// the backs of strips tell.
    fn board_note_any(marks: bool) -> &'static str;

    /// Whose set this is, over its key.
    fn whose_key(share: &GroupShare) -> String;

    /// Learners of a group, or everyone else, as a cell of a table.
    fn whose_numbers(name: Option<&str>) -> String;

    /// What heads such cells.
    fn whose_head() -> &'static str;

    /// Whose practice pages these are, over their answers.
    fn whose_practice(share: &GroupShare) -> String;

    /// Whose quick checks these are, over their key.
    fn whose_checks(share: &GroupShare) -> String;

    /// What stands beside the names of the tally, or beside the room for them where there is no roster: the learner's number,
    /// and where sets have letters the set's.
    fn tally_marks(named: bool, lettered: bool) -> &'static str;

    /// Who and what belongs together, in a line: a group with its learners, its sets and its quick checks.
    fn belongs(share: &GroupShare) -> String;

    /// The numbers of each group, written on the board by hand.
    fn lists_by_hand(lists: &[(GroupShare, Vec<Number>)], style: &Style) -> String;

    /// The heading over learners' numbers.
    fn learners_head() -> &'static str;

    /// Over tomorrow's tasks, where groups have numbers of their own: which of them are for whom.
    fn tasks_apart() -> &'static str;

    /// Where whoever stands in finds who is in which group: on the tally, if it is in the packet, on this page. Where no roster names
    /// anybody, a learner in the wrong group is worse than none in any: all then have the set that most have.
    fn who_is_who(tally: Option<usize>, named: bool, common: Option<Version>) -> String;

    /// How sets, or packets, are given out: who gets which letters.
    fn give_sets(what: &str, shares: &[GroupShare]) -> String;

    /// What each group does while sorting.
    fn group_sorts(share: &GroupShare, style: &Style) -> String;

    /// How quick checks are given out: who gets which numbers.
    fn give_checks(shares: &[GroupShare]) -> String;

    /// What the quick checks with these marks are called on the ticket, with how many slips there are and how many to a page.
    fn checks_printed(first: u32, last: u32, slips: u32, to_page: u32) -> String;

    /// Why slips of different pages stay apart when they are cut.
    fn checks_apart() -> &'static str;

    /// A reminder for whoever teaches that groups are named on no learner's page.
    fn groups_quiet() -> &'static str;
}
