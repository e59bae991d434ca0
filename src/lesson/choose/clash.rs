//! Why a role has no set: the requests that cannot hold together, and what would work.
//!
//! The group is found by halving (the `QuickXplain` scheme): it needs a number of counts that grows with the size of the
//! group, not of the file, and whatever it finds is minimal. Requests that come earlier in [`Ask::all`] are kept in
//! preference, so that a clash with the range or the count is told as such.

use std::cell::LazyCell;
use std::collections::BTreeSet;
use std::sync::Arc;

use super::ask::{Ask, only};
use super::demand::{Demand, len};
use super::meter::{Meter, WORK};
use super::pool::OPEN;
use super::rules::Rules;
use super::sampler::Sampler;
use super::stock::Stock;
use crate::diag::{Diagnostic, Place, Problem, Severity, Source};
use crate::lesson::Role;
use crate::rng::Stream;
use crate::spec::{Bound, NumbersSpec};

/// The largest count tried when the count may be anything; as large as a lesson file can ask for.
const MOST_NUMBERS: u32 = 100;
/// How many ways out are told.
const WAYS_OUT: usize = 3;

/// A set that meets the requests kept; without [`Ask::Count`] it may have any size from 1 to 100.
pub fn example(demand: &Demand, kept: &BTreeSet<Ask>) -> Option<Vec<u32>> {
    found(demand, kept, &Meter::default())
}

/// [`example`], as far as the work goes.
fn found(demand: &Demand, kept: &BTreeSet<Ask>, meter: &Meter) -> Option<Vec<u32>> {
    let less = only(demand, kept);
    // Any set of the widest range will do, and one of small numbers is quickest to find.
    let ends = if kept.contains(&Ask::Range) { vec![less.high] } else { vec![999, 9_999, 999_999] };
    let bounds = less.wants.values().chain(&less.same_digits);
    let least = bounds.map(|bound| bound.min).chain([len(&less.always), less.look_alikes + 1]).max().unwrap_or(1);
    let counts =
        if kept.contains(&Ask::Count) { less.count..=less.count } else { least.max(1)..=MOST_NUMBERS.max(least) };
    ends.into_iter().find_map(|high| {
        let less = Demand { high, ..less.clone() };
        let stock = LazyCell::new(|| Stock::metered(&less, meter));
        counts.clone().find_map(|count| {
            let sized = Demand { count, ..less.clone() };
            // Requests that contradict each other whatever the numbers need no numbers gathered.
            Rules::new(&sized, None)?;
            Sampler::new(&sized, &stock, OPEN).draw(&mut Stream::new(0, "example"))
        })
    })
}

/// A minimal group of requests that cannot hold together: leave any one out, and some set meets the others. Empty when
/// all requests can be met.
pub fn clash(demand: &Demand) -> Vec<Ask> {
    minimal(demand, &Meter::default())
}

/// [`clash`], as far as the work goes: when the meter is spent the group may not be minimal.
fn minimal(demand: &Demand, meter: &Meter) -> Vec<Ask> {
    let all = Ask::all(demand);
    if found(demand, &all.iter().copied().collect(), meter).is_some() {
        return Vec::new();
    }
    let mut group = halve(demand, meter, &BTreeSet::new(), false, &all);
    group.sort();
    group
}

/// A minimal part of `asks` that clashes together with `kept`; `grown` says whether `kept` has changed since last tried.
fn halve(demand: &Demand, meter: &Meter, kept: &BTreeSet<Ask>, grown: bool, asks: &[Ask]) -> Vec<Ask> {
    if meter.is_spent() || grown && found(demand, kept, meter).is_none() {
        return Vec::new();
    }
    if asks.len() <= 1 {
        return asks.to_vec();
    }
    let (first, second) = asks.split_at(asks.len() / 2);
    let with_first = kept.iter().chain(first).copied().collect();
    let from_second = halve(demand, meter, &with_first, true, second);
    let with_second = kept.iter().chain(&from_second).copied().collect();
    let mut group = halve(demand, meter, &with_second, !from_second.is_empty(), first);
    group.extend(from_second);
    group
}

/// The nearest change of one request of the group with which the role has a set, for each that has one.
pub fn ways_out(demand: &Demand, group: &[Ask]) -> Vec<(Ask, Demand)> {
    softened(demand, group, &Meter::default())
}

/// [`ways_out`], as far as the work goes.
fn softened(demand: &Demand, group: &[Ask], meter: &Meter) -> Vec<(Ask, Demand)> {
    // A change within the file's own words is more help than one that gives a number up.
    let mut asks: Vec<Ask> = group.to_vec();
    asks.sort_by_key(|ask| match ask {
        Ask::Want(_) | Ask::SameDigits | Ask::LookAlikes => 0,
        Ask::Count | Ask::AtMost(_) => 1,
        Ask::Always(_) | Ask::Never(_) => 2,
        Ask::Range => 3,
    });
    let stock = Stock::metered(demand, meter);
    let same_numbers = |ask| !matches!(ask, Ask::AtMost(_) | Ask::Never(_) | Ask::Range);
    let works = |ask: Ask, softer: &Demand| {
        let any = |stock: &Stock| Sampler::new(softer, stock, OPEN).has_any() == Some(true);
        Rules::new(softer, None).is_some()
            && if same_numbers(ask) { any(&stock) } else { any(&Stock::metered(softer, meter)) }
    };
    let nearest = |ask: Ask| Some((ask, nearer(demand, ask).into_iter().find(|softer| works(ask, softer))?));
    asks.into_iter().filter_map(nearest).take(WAYS_OUT).collect()
}

/// Softer versions of one request, nearest first.
fn nearer(demand: &Demand, ask: Ask) -> Vec<Demand> {
    let with = |change: &dyn Fn(&mut Demand)| {
        let mut softer = demand.clone();
        change(&mut softer);
        softer
    };
    match ask {
        Ask::Want(feature) => {
            let Some(&bound) = demand.wants.get(&feature) else { return Vec::new() };
            softer(bound, demand.count)
                .into_iter()
                .map(|bound| with(&|d| *d.wants.entry(feature).or_insert(bound) = bound))
                .collect()
        }
        Ask::SameDigits => {
            let Some(bound) = demand.same_digits else { return Vec::new() };
            softer(bound, demand.count).into_iter().map(|bound| with(&|d| d.same_digits = Some(bound))).collect()
        }
        Ask::LookAlikes => (0..demand.look_alikes).rev().map(|least| with(&|d| d.look_alikes = least)).collect(),
        Ask::Count => {
            let mut counts: Vec<u32> = (1..=MOST_NUMBERS).filter(|&count| count != demand.count).collect();
            counts.sort_by_key(|&count| (count.abs_diff(demand.count), count));
            counts.into_iter().map(|count| with(&|d| d.count = count)).collect()
        }
        Ask::AtMost(place) => {
            let at = place.index();
            (demand.at_most[at] + 1..=9).map(|most| with(&|d| d.at_most[at] = most)).collect()
        }
        Ask::Always(number) => vec![with(&|d| d.always.retain(|&n| n != number))],
        Ask::Never(number) => vec![with(&|d| d.never.retain(|&n| n != number))],
        Ask::Range => {
            // One or two more places at either end; farther is another lesson.
            let ends = [99, 999, 9_999, 99_999, 999_999].into_iter().filter(|&end| end > demand.high).take(2);
            let starts = [100_000, 10_000, 1_000, 100, 10, 0].into_iter().filter(|&start| start < demand.low).take(2);
            let upward = ends.map(|end| (demand.low, end));
            let mut ranges: Vec<(u32, u32)> = upward.chain(starts.map(|start| (start, demand.high))).collect();
            ranges.sort_by_key(|(low, high)| high - low);
            ranges.into_iter().map(|(low, high)| with(&|d| (d.low, d.high) = (low, high))).collect()
        }
    }
}

/// Softer bounds, nearest first.
fn softer(bound: Bound, count: u32) -> Vec<Bound> {
    let lower = (0..bound.min).rev().map(|min| Bound { min, max: bound.max });
    let Some(max) = bound.max else { return lower.collect() };
    let higher = (max + 1..=count).map(|max| Bound { min: bound.min, max: Some(max) });
    let mut all: Vec<Bound> = lower.chain(higher).collect();
    all.sort_by_key(|b| (bound.min - b.min) + b.max.map_or(0, |m| m - max));
    all
}

/// Says which requests of a role clash, where they stand, and what would work.
pub fn report(numbers: &NumbersSpec, role: Role, demand: &Demand, source: &Arc<Source>) -> Diagnostic {
    let meter = Meter::default();
    let group = minimal(demand, &meter);
    if meter.is_spent() {
        let problem = Problem::new(format!("no {} numbers meet all that is asked of them", role.word()))
            .hint("which requests clash was not worked out: there are too many ways to look at; ask for less");
        return at_count(numbers, role, problem, source);
    }
    let texts: Vec<String> = group.iter().map(|ask| format!("`{}`", ask.text(demand, role))).collect();
    let message = match texts.as_slice() {
        [one] => format!("no {} numbers meet {one}", role.word()),
        texts => format!("no {} numbers meet {} together", role.word(), listed(texts, "and")),
    };
    let ways: Vec<String> = softened(demand, &group, &meter)
        .into_iter()
        .map(|(ask, softer)| format!("`{}`", ask.text(&softer, role)))
        .collect();
    let hint = match ways.as_slice() {
        [] if meter.is_spent() => "leave one of them out, or ask for less".to_owned(),
        [] => "no change of a single one of them is enough: other requests clash as well".to_owned(),
        ways => format!("{} would work", listed(ways, "or")),
    };
    // The most particular request comes first: the range is to blame only when nothing else is.
    let mut places: Vec<(Place, String)> = group
        .iter()
        .rev()
        .filter_map(|ask| {
            let place = Place { source: Arc::clone(source), span: ask.span(numbers, role)? };
            Some((place, format!("`{}`", ask.text(demand, role))))
        })
        .collect();
    let first = if places.is_empty() { None } else { Some(places.remove(0).0) };
    let problem = Problem::new(message).hint(hint);
    Diagnostic { severity: Severity::Error, place: first, problem, related: places }
}

/// What to say of a role whose sets took more work than there is.
pub(super) fn too_much(numbers: &NumbersSpec, role: Role, source: &Arc<Source>) -> Diagnostic {
    let asked = super::demand::of(numbers, role);
    let what = format!("what is asked of the {} {} numbers", asked.count.value, role.word());
    let steps = crate::spec::limits::grouped(WORK);
    let problem = Problem::new(format!("{what} is too much to work out: it takes more than {steps} steps"))
        .hint("ask for fewer numbers, or leave out one of the role's requests");
    at_count(numbers, role, problem, source)
}

/// A problem of a role, at its count if the file gives one.
fn at_count(numbers: &NumbersSpec, role: Role, problem: Problem, source: &Arc<Source>) -> Diagnostic {
    let place = Ask::Count.span(numbers, role).map(|span| Place { source: Arc::clone(source), span });
    Diagnostic { severity: Severity::Error, place, problem, related: Vec::new() }
}

/// "a, b and c"
fn listed(items: &[String], last: &str) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., end] => format!("{} {last} {end}", most.join(", ")),
    }
}
