//! `[numbers]`: which numbers.

use std::collections::BTreeMap;

use super::limits;
use super::log::Log;
use super::pool::Pool;
use super::table::Table;
use super::types::{AtMost, Bound, Given, NumbersSpec, RoleSpec};
use super::value::Value;
use crate::diag::Problem;
use crate::number::{Number, Place};

/// Model, sort and exit numbers of a lesson whose file does not say.
const COUNTS: [u32; 3] = [3, 8, 4];

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
    let range = table.take("range");
    if range.is_none() && whole && table.is_sound() {
        let problem = Problem::new("the lesson has no range of numbers");
        log.missing("range", table.header(), problem.hint("expected range = [100, 999] under [numbers]"));
    }
    let range = range.and_then(|v| read_range(&v, log));
    let never = table.take("never").map(|v| v.numbers(log)).unwrap_or_default();
    let at_most = places(table.table("at_most", log), log, |v, log| {
        let digit = v.count(log, limits::DIGIT)?;
        Some(Given::read(u8::try_from(digit.value).ok()?, v.span()))
    });
    let roles = ["model", "sort", "exit"].map(|key| role(table.table(key, log), log));
    table.finish(log);
    Some(Asked { range: range?, never, at_most, roles })
}

/// `[least, greatest]`, both included.
fn read_range(value: &Value, log: &mut Log) -> Option<Given<(Number, Number)>> {
    let items = value.list(log, "the least and the greatest number")?;
    let [least, most] = items.as_slice() else {
        let problem = Problem::new(format!("`numbers.range` lists {}", counted(items.len())))
            .hint("expected the least and the greatest number, such as [100, 999]");
        log.error(value.span(), problem);
        return None;
    };
    let (least, most) = (least.number(log), most.number(log));
    let (least, most) = (least?.value, most?.value);
    if least > most {
        let problem = Problem::new(format!("the range goes down from {least} to {most}"))
            .hint(format!("the least number comes first: [{most}, {least}]"));
        log.error(value.span(), problem);
        return None;
    }
    Some(Given::read((least, most), value.span()))
}

/// `1 number`, `2 numbers`.
fn counted(count: usize) -> String {
    if count == 1 { "1 number".to_owned() } else { format!("{count} numbers") }
}

/// A value for each place that the table names.
fn places<T>(mut table: Table, log: &mut Log, read: fn(&Value, &mut Log) -> Option<T>) -> BTreeMap<Place, T> {
    let mut values = BTreeMap::new();
    for place in Place::ALL {
        if let Some(value) = table.take(place.key()).and_then(|v| read(&v, log)) {
            values.insert(place, value);
        }
    }
    table.finish(log);
    values
}

fn bound(value: &Value, log: &mut Log) -> Option<Given<Bound>> {
    value.bound(log)
}

/// A role's requests. A role without `count` has 0 for now.
fn role(mut table: Table, log: &mut Log) -> RoleSpec {
    let count = table.take("count").and_then(|v| v.count(log, limits::COUNT));
    let always = table.take("always").map(|v| v.numbers(log)).unwrap_or_default();
    let role = RoleSpec {
        count: count.unwrap_or(Given::assumed(0)),
        always,
        zeros: places(table.table("zeros", log), log, bound),
        repeats: table.take("repeats").and_then(|v| v.bound(log)),
        teens: table.take("teens").and_then(|v| v.bound(log)),
        same_digits: table.take("same_digits").and_then(|v| v.bound(log)),
        look_alikes: table.take("look_alikes").and_then(|v| v.count(log, limits::REQUEST)),
    };
    table.finish(log);
    role
}

impl Asked {
    /// Gives the silent roles a count: the usual one, scaled down when the pool is too small for all roles and versions to
    /// have numbers of their own, but never below what the role's requests need.
    pub(super) fn settle(self, versions: u32) -> NumbersSpec {
        let [model, sort, exit] = self.roles;
        let mut numbers =
            NumbersSpec { range: self.range, never: self.never, at_most: self.at_most, model, sort, exit };
        let [of_model, of_sort, of_exit] = COUNTS;
        let wanted = of_model + of_sort * versions + of_exit;
        let pool = Pool::new(&numbers).numbers().take(wanted as usize).count();
        let pool = u32::try_from(pool).unwrap_or(wanted);
        for (role, usual) in
            [(&mut numbers.model, of_model), (&mut numbers.sort, of_sort), (&mut numbers.exit, of_exit)]
        {
            if role.count.is_assumed() {
                let share = (usual * pool / wanted).max(1);
                let most = u32::try_from(limits::COUNT.most).unwrap_or(u32::MAX);
                role.count = Given::assumed(share.max(needed(role)).min(most));
            }
        }
        numbers
    }
}

/// The fewest numbers with which a role's requests could hold.
fn needed(role: &RoleSpec) -> u32 {
    let least = |bound: &Option<Given<Bound>>| bound.map_or(0, |b| b.value.min);
    let zeros = role.zeros.values().map(|b| b.value.min).max().unwrap_or(0);
    let always = u32::try_from(role.always.len()).unwrap_or(u32::MAX);
    // Each number and the others that look like it.
    let alike = role.look_alikes.map_or(0, |n| if n.value == 0 { 0 } else { n.value + 1 });
    [always, zeros, least(&role.repeats), least(&role.teens), least(&role.same_digits), alike]
        .into_iter()
        .max()
        .unwrap_or(0)
}
