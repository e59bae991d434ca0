//! What a role asks of its numbers: so many, or a least and a greatest count, for the whole set or for each place.

use std::collections::BTreeMap;

use super::keys::kind::{Kind, Places, Readable, Request};
use super::keys::{Keyed, list};
use super::limits::Limit;
use super::log::Log;
use super::table::Table;
use super::types::{Bound, Given};
use super::value::Value;
use super::version::Version;
use crate::diag::Problem;
use crate::number::{Number, Place};

impl Readable for Request {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<Bound>> {
        bound(value, log, self.0)
    }
}

/// A value for each place that the table under a key names.
pub(super) fn places<K: Readable>(
    table: &mut Table,
    key: &impl Keyed<Kind = Places<K>>,
    log: &mut Log,
) -> BTreeMap<Place, Given<K::Value>>
where
    Places<K>: Kind,
{
    let shape = key.key().kind.shape();
    let mut table = match table.take(key) {
        Some(value) if !value.inner().is_table() => {
            value.mistaken(log, "a count for each place", &format!("expected {}", shape.words()));
            return BTreeMap::new();
        }
        Some(value) => Table::of(&value, log),
        None => table.missing(key.key().name),
    };
    let kind = &key.key().kind.0;
    let mut values = BTreeMap::new();
    for place in Place::ALL {
        if let Some(value) = table.take_named(place.key()).and_then(|value| kind.read(&value, log)) {
            values.insert(place, value);
        }
    }
    table.finish(log);
    values
}

/// The numbers of each version that the table under `always_in` names.
pub(super) fn lists(table: &mut Table, log: &mut Log) -> BTreeMap<Version, Vec<Given<Number>>> {
    let shape = list::ALWAYS_IN.kind.shape();
    let mut table = match table.take(&list::ALWAYS_IN) {
        Some(value) if !value.inner().is_table() => {
            let expected = format!("expected {}, such as {}", shape.words(), list::ALWAYS_IN.example);
            value.mistaken(log, "a list for each version", &expected);
            return BTreeMap::new();
        }
        Some(value) => Table::of(&value, log),
        None => return BTreeMap::new(),
    };
    let mut lists = BTreeMap::new();
    for letter in Version::LETTERS {
        let numbers = table.take_named(letter).map(|value| value.numbers(log));
        if let (Some(version), Some(numbers)) = (Version::of(letter), numbers.filter(|numbers| !numbers.is_empty())) {
            lists.insert(version, numbers);
        }
    }
    table.finish(log);
    lists
}

/// `n` (at least n) or `{ min = a, max = b }`.
fn bound(value: &Value, log: &mut Log, limit: Limit) -> Option<Given<Bound>> {
    if value.inner().is_integer() {
        let least = value.count(log, limit)?;
        return Some(Given::read(Bound { min: least.value, max: None }, value.span()));
    }
    if !value.inner().is_table() {
        value.mistaken(log, "a count", &format!("expected {limit}, or {{ min = 1, max = 2 }}"));
        return None;
    }
    let mut table = Table::of(value, log);
    let (min, max) = (table.take_named("min"), table.take_named("max"));
    table.finish(log);
    if min.is_none() && max.is_none() {
        let problem = Problem::new(format!("`{}` has neither min nor max", value.name()));
        log.error(value.span(), problem.hint("expected { min = 1, max = 2 }, or one of the two"));
        return None;
    }
    let least = match &min {
        Some(min) => min.count(log, limit)?.value,
        None => 0,
    };
    let most = match &max {
        Some(max) => Some(max.count(log, limit)?),
        None => None,
    };
    if let Some(most) = &most
        && most.value < least
    {
        let problem = Problem::new(format!("`{}` asks for at least {least} and at most {}", value.name(), most.value))
            .hint(format!("make max {least} or more, or min {} or less", most.value));
        log.error(value.span(), problem);
        return None;
    }
    Some(Given::read(Bound { min: least, max: most.map(|m| m.value) }, value.span()))
}
