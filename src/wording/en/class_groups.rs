//! What grown-ups read of groups in English.

use super::English;
use super::phrases::{counted, lettered, listed, plural};
use super::ticket::checks_to_page;
use crate::measure::Count;
use crate::number::{Number, Style};
use crate::spec::Version;
use crate::wording::Phrases;
use crate::wording::class_groups::{ClassGroups, GroupShare};
use crate::wording::stamps::Stamps;

/// "the group Gulls", "everyone else".
fn who(share: &GroupShare) -> String {
    share.name.as_ref().map_or_else(|| "everyone else".to_owned(), |name| format!("the group {name}"))
}

/// Its letters in a list.
fn letters(share: &GroupShare) -> String {
    lettered(&share.versions)
}

/// "quick check 3", "quick checks 1 to 4".
fn checks(share: &GroupShare) -> String {
    match (share.checks.first(), share.checks.last()) {
        (Some(first), Some(last)) if first == last => format!("quick check {first}"),
        (Some(first), Some(last)) => format!("quick checks {first} to {last}"),
        _ => "no quick check".to_owned(),
    }
}

/// "learners 1 to 6", "learner 3"; "1000 learners" where they are all over the list.
fn learners(share: &GroupShare) -> String {
    if let Some(count) = share.scattered() {
        return counted(count, "learner");
    }
    match share.learners.as_slice() {
        [(first, last)] if first == last => format!("learner {first}"),
        runs => format!("learners {}", English.runs(runs)),
    }
}

/// Groups first, everyone else last.
fn rest_last(shares: &[GroupShare]) -> Vec<&GroupShare> {
    let (groups, rest): (Vec<_>, Vec<_>) = shares.iter().partition(|share| share.name.is_some());
    groups.into_iter().chain(rest).collect()
}

impl ClassGroups for English {
    fn board_note_any(&self, marks: bool) -> &'static str {
        if marks {
            "Lay each strip in its row, if it has one. Then turn a row over: its strips have the same mark."
        } else {
            "Lay each strip in its row. If one fits no row, put it aside."
        }
    }

    fn whose_key(&self, share: &GroupShare) -> String {
        let several = share.versions.len() > 1;
        let which = if several { format!(" They have the sets {}.", letters(share)) } else { String::new() };
        format!("For {}: {}.{which}", who(share), learners(share))
    }

    fn whose_numbers(&self, name: Option<&str>) -> String {
        name.unwrap_or("Everyone else").to_owned()
    }

    fn whose_head(&self) -> &'static str {
        "For"
    }

    fn whose_practice(&self, share: &GroupShare) -> String {
        format!("For {}: {}.", who(share), learners(share))
    }

    fn whose_checks(&self, share: &GroupShare) -> String {
        let verb = if share.checks.len() == 1 { "is" } else { "are" };
        format!("{} {verb} for {}: {}.", self.capital(&checks(share)), who(share), learners(share))
    }

    fn tally_marks(&self, named: bool, lettered: bool) -> &'static str {
        match (named, lettered) {
            (true, true) => "The number on the left is on the learner's pages, the letter is that of the set.",
            (true, false) => "The number on the left is on the learner's pages.",
            (false, true) => {
                "Write the names in: the number on the left is on the learner's pages, the letter is that of the set."
            }
            (false, false) => "Write the names in: the number on the left is on the learner's pages.",
        }
    }

    fn belongs(&self, share: &GroupShare) -> String {
        let mut parts = vec![learners(share)];
        if !share.versions.is_empty() {
            parts.push(format!("{} {}", plural(share.versions.len().narrow(), "set"), letters(share)));
        }
        if !share.checks.is_empty() {
            parts.push(checks(share));
        }
        format!("{}: {}.", self.whose_numbers(share.name.as_deref()), parts.join("; "))
    }

    fn lists_by_hand(&self, lists: &[(GroupShare, Vec<Number>)], style: &Style) -> String {
        let numerals = |numbers: &[Number]| listed(&numbers.iter().map(|n| style.numeral(*n)).collect::<Vec<_>>());
        let each = lists.iter();
        // A sentence each: numerals may have commas, and lists of them semicolons.
        let each = each.map(|(share, own)| format!("{}: {}", self.capital(&who(share)), numerals(own)));
        each.collect::<Vec<_>>().join(". ")
    }

    fn learners_head(&self) -> &'static str {
        "Learners"
    }

    fn tasks_apart(&self) -> &'static str {
        "Tasks are for those whose group stands before them; a group that has none takes those of another. Who is in it stands \
         below the tally."
    }

    fn who_is_who(&self, tally: Option<usize>, named: bool, common: Option<Version>) -> String {
        let place = match (tally, named) {
            (Some(page), true) => {
                return format!("The class tally on page {page} has each learner's number and letter, and each group.");
            }
            (None, true) => return "Each learner's pages bear the name, the number and the letter.".to_owned(),
            (Some(page), false) => format!("on the class tally (page {page})"),
            (None, false) => "here".to_owned(),
        };
        let common = common.map_or_else(String::new, |set| {
            format!(" If they are not there and nobody knows them, copy set {set} for all.")
        });
        format!("Names belong {place}, group by group.{common}")
    }

    fn give_sets(&self, what: &str, shares: &[GroupShare]) -> String {
        let each = rest_last(shares).into_iter().map(|share| format!("{} for {}", letters(share), who(share)));
        format!("Give each learner one {what}: {}.", each.collect::<Vec<_>>().join(", "))
    }

    fn group_sorts(&self, share: &GroupShare, style: &Style) -> String {
        let (least, most) = share.range;
        let strips = match share.strips {
            0 => String::new(),
            strips => format!(" and {}", counted(strips, "strip")),
        };
        format!(
            "{}: {}{strips} each, numbers from {} to {}.",
            self.capital(&who(share)),
            counted(share.rows, "row"),
            style.numeral(least),
            style.numeral(most)
        )
    }

    fn give_checks(&self, shares: &[GroupShare]) -> String {
        let with = rest_last(shares).into_iter().filter(|share| !share.checks.is_empty());
        let each: Vec<String> = with.map(|share| format!("{} for {}", checks(share), who(share))).collect();
        format!("Give each learner one quick check: {}.", each.join(", "))
    }

    fn checks_printed(&self, first: u32, last: u32, slips: u32, to_page: u32) -> String {
        let which =
            if first == last { format!("quick check {first}") } else { format!("quick checks {first} to {last}") };
        format!("{which}: {}", checks_to_page(slips, to_page))
    }

    fn checks_apart(&self) -> &'static str {
        "Each line of quick checks under “What is where” is a pile of its own: do not mix them."
    }

    fn groups_quiet(&self) -> &'static str {
        "Learners need not know who has which numbers: no page of theirs names a group."
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::Version;

    #[test]
    fn groups_are_named_with_their_letters() {
        let share = GroupShare {
            name: Some("Gulls".to_owned()),
            learners: vec![(1, 5), (9, 9)],
            versions: vec![Version(1)],
            checks: vec![4],
            rows: 1,
            strips: 8,
            range: (Number::MIN, Number::MAX_BLOCKS),
        };
        let rest =
            GroupShare { name: None, versions: vec![Version(0), Version(2)], checks: vec![1, 2, 3], ..share.clone() };
        assert_eq!(English.whose_key(&share), "For the group Gulls: learners 1 to 5, 9.");
        assert_eq!(English.whose_checks(&share), "Quick check 4 is for the group Gulls: learners 1 to 5, 9.");
        assert_eq!(English.whose_checks(&rest), "Quick checks 1 to 3 are for everyone else: learners 1 to 5, 9.");
        let both = [rest, share];
        let give = "Give each learner one set: B for the group Gulls, A and C for everyone else.";
        assert_eq!(English.give_sets("set", &both), give);
    }
}
