//! `[numbers]`: which numbers.

use std::collections::BTreeMap;

use super::keys::kind::Readable;
use super::keys::{ROLES, list};
use super::limits;
use super::log::Log;
use super::pool::Pool;
use super::request;
use super::table::Table;
use super::types::{AtMost, Given, NumbersSpec, RoleSpec};
use super::usual;
use crate::diag::Problem;
use crate::measure::Count;
use crate::number::Number;

/// What the table says; how many numbers a silent role has depends on the rest.
pub(super) struct Asked {
    range: Given<(Number, Number)>,
    never: Vec<Given<Number>>,
    at_most: AtMost,
    /// Model, sort and exit.
    roles: [RoleSpec; 3],
}

/// Reads the table; `None` without a range that can be used.
pub(super) fn read(mut table: Table, whole: bool, log: &mut Log) -> Option<Asked> {
    let range = table.take(&list::RANGE);
    if range.is_none() && whole && table.is_sound() {
        let problem = Problem::new("the lesson has no range of numbers");
        log.missing(
            [list::RANGE.table, list::RANGE.name],
            table.header(),
            problem.hint("expected range = [100, 999] under [numbers]"),
        );
    }
    let range = range.and_then(|value| list::RANGE.kind.read(&value, log));
    let never = table.read(&list::NEVER, log).map(|given| given.value).unwrap_or_default();
    let at_most = at_most(&mut table, log);
    let roles = ROLES.map(|role| read_role(table.inner(role, log), log));
    table.finish(log);
    Some(Asked { range: range?, never, at_most, roles })
}

/// The largest digit in each place that the table limits.
pub(super) fn at_most(table: &mut Table, log: &mut Log) -> AtMost {
    let places = request::places(table, &list::AT_MOST, log).into_iter();
    places
        .filter_map(|(place, digit)| Some((place, Given::read(u8::try_from(digit.value).ok()?, digit.span()?))))
        .collect()
}

/// A role's requests. A role without `count` has 0 for now.
pub(super) fn read_role(mut table: Table, log: &mut Log) -> RoleSpec {
    let count = table.read(&list::COUNT, log);
    let always = table.read(&list::ALWAYS, log).map(|given| given.value).unwrap_or_default();
    let always_in = if table.is_of(list::ALWAYS_IN.table) { request::lists(&mut table, log) } else { BTreeMap::new() };
    let role = RoleSpec {
        count: count.unwrap_or(Given::assumed(0)),
        always,
        always_in,
        zeros: request::places(&mut table, &list::ZEROS, log),
        repeats: table.read(&list::REPEATS, log),
        teens: table.read(&list::TEENS, log),
        same_digits: table.read(&list::SAME_DIGITS, log),
    };
    table.finish(log);
    role
}

impl Asked {
    /// Gives the silent roles a count: the usual one, scaled down when the pool is too small for all roles and versions to
    /// have numbers of their own, but never below what the role's requests need. Where no role requests anything, asks for
    /// what teachers pick numbers for.
    pub(super) fn settle(self, versions: u32) -> NumbersSpec {
        let [model, sort, exit] = self.roles;
        let mut numbers =
            NumbersSpec { range: self.range, never: self.never, at_most: self.at_most, model, sort, exit };
        let [of_model, of_sort, of_exit] = list::COUNTS;
        let wanted = of_model + of_sort * versions + of_exit;
        let pool = Pool::new(&numbers).numbers().take(wanted as usize).count();
        let pool = pool.narrow();
        for (role, usual) in
            [(&mut numbers.model, of_model), (&mut numbers.sort, of_sort), (&mut numbers.exit, of_exit)]
        {
            if role.count.is_assumed() {
                let share = (usual * pool / wanted).max(1);
                let most = limits::COUNT.most.narrow();
                role.count = Given::assumed(share.max(needed(role)).min(most));
            }
        }
        usual::assume(&mut numbers, versions);
        numbers
    }
}

/// The fewest numbers with which a role's requests could hold.
fn needed(role: &RoleSpec) -> u32 {
    let always = role.named().narrow();
    let features = role.features().map(|(_, bound)| bound.value.min);
    let same_digits = role.same_digits.map_or(0, |bound| bound.value.min);
    features.chain([always, same_digits]).max().unwrap_or(0)
}
