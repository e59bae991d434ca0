//! Why a role has no set: the requests that cannot hold together, and what would work.
//!
//! The group is found by halving (the `QuickXplain` scheme): it needs a number of counts that grows with the size of the
//! group, not of the file, and whatever it finds is minimal. Requests that come earlier in [`Constraint::all`] are kept in
//! preference, so that a clash with the range or the count is told as such.

use std::cell::LazyCell;
use std::collections::BTreeSet;
use std::sync::Arc;

use super::budget::{Budget, STEPS};
use super::constraint::{Constraint, only};
use super::count::{Avoided, Candidates, Counters, MOST, Solutions};
use super::demand::Demand;
use crate::diag::{Diagnostic, FilePlace, Problem, Severity, Source};
use crate::lesson::Role;
use crate::measure::Count;
use crate::number::Number;
use crate::rng::Stream;
use crate::spec::{Bound, NumbersSpec};

/// How many ways out are told.
const WAYS_OUT: usize = 3;

/// A set that meets the requests kept; without [`Constraint::Count`] it may have any size from 1 to 100.
pub fn example(demand: &Demand, kept: &BTreeSet<Constraint>) -> Option<Vec<Number>> {
    found(demand, kept, &Budget::default())
}

/// [`example`], as far as the steps go.
fn found(demand: &Demand, kept: &BTreeSet<Constraint>, budget: &Budget) -> Option<Vec<Number>> {
    let less = only(demand, kept);
    // Any set of the widest range will do, and one of small numbers is quickest to find.
    let ends = if kept.contains(&Constraint::Range) { vec![less.high] } else { ends(2).collect() };
    let bounds = less.features.values().chain(&less.same_digits);
    let least = bounds.map(|bound| bound.min as usize).chain([less.always.len()]).max().unwrap_or(1);
    let least = least.narrow().max(1);
    let counts = if kept.contains(&Constraint::Count) { less.count..=less.count } else { least..=MOST.max(least) };
    ends.into_iter().find_map(|high| {
        let less = Demand { high, ..less.clone() };
        let candidates = LazyCell::new(|| Candidates::new(&less));
        counts.clone().find_map(|count| {
            let sized = Demand { count, ..less.clone() };
            // Requests that contradict each other whatever the numbers need no numbers gathered.
            Counters::new(&sized, None)?;
            let solutions = Solutions::new(&sized, &candidates, Avoided::default(), budget).ok()?;
            Some(solutions.draw(&mut Stream::new(0, "example")))
        })
    })
}

/// The greatest numbers of more than so many places, least first.
fn ends(places: u32) -> impl Iterator<Item = Number> {
    (places + 1..=6).filter_map(|places| Number::new(10_u32.pow(places) - 1))
}

/// A minimal group of requests that cannot hold together: leave any one out, and some set meets the others. Empty when
/// all requests can be met.
pub fn clash(demand: &Demand) -> Vec<Constraint> {
    minimal(demand, &Budget::default())
}

/// [`clash`], as far as the work goes: when the budget is spent the group may not be minimal.
fn minimal(demand: &Demand, budget: &Budget) -> Vec<Constraint> {
    let all = Constraint::all(demand);
    if found(demand, &all.iter().copied().collect(), budget).is_some() {
        return Vec::new();
    }
    let mut group = halve(demand, budget, &BTreeSet::new(), false, &all);
    group.sort();
    group
}

/// A minimal part of `requests` that clashes together with `kept`; `grown` says whether `kept` has changed since last tried.
fn halve(
    demand: &Demand,
    budget: &Budget,
    kept: &BTreeSet<Constraint>,
    grown: bool,
    requests: &[Constraint],
) -> Vec<Constraint> {
    if budget.is_spent() || grown && found(demand, kept, budget).is_none() {
        return Vec::new();
    }
    if requests.len() <= 1 {
        return requests.to_vec();
    }
    let (first, second) = requests.split_at(requests.len() / 2);
    let with_first = kept.iter().chain(first).copied().collect();
    let from_second = halve(demand, budget, &with_first, true, second);
    let with_second = kept.iter().chain(&from_second).copied().collect();
    let mut group = halve(demand, budget, &with_second, !from_second.is_empty(), first);
    group.extend(from_second);
    group
}

/// The nearest change of one request of the group with which the role has a set, for each that has one.
pub fn ways_out(demand: &Demand, group: &[Constraint]) -> Vec<(Constraint, Demand)> {
    softened(demand, group, &Budget::default())
}

/// [`ways_out`], as far as the work goes.
fn softened(demand: &Demand, group: &[Constraint], budget: &Budget) -> Vec<(Constraint, Demand)> {
    // A change within the file's own words is more help than one that gives a number up.
    let mut requests: Vec<Constraint> = group.to_vec();
    requests.sort_by_key(|request| match request {
        Constraint::Feature(_) | Constraint::SameDigits => 0,
        Constraint::Count | Constraint::AtMost(_) => 1,
        Constraint::Always(_) | Constraint::Never(_) => 2,
        Constraint::Range => 3,
    });
    let candidates = Candidates::new(demand);
    let same_numbers = |request| !matches!(request, Constraint::AtMost(_) | Constraint::Never(_) | Constraint::Range);
    let works = |request: Constraint, softer: &Demand| {
        let any = |candidates| Solutions::new(softer, candidates, Avoided::default(), budget).is_ok();
        Counters::new(softer, None).is_some()
            && if same_numbers(request) { any(&candidates) } else { any(&Candidates::new(softer)) }
    };
    let nearest = |request: Constraint| {
        Some((request, nearer(demand, request).into_iter().find(|softer| works(request, softer))?))
    };
    requests.into_iter().filter_map(nearest).take(WAYS_OUT).collect()
}

/// Softer versions of one request, nearest first.
fn nearer(demand: &Demand, request: Constraint) -> Vec<Demand> {
    let with = |change: &dyn Fn(&mut Demand)| {
        let mut softer = demand.clone();
        change(&mut softer);
        softer
    };
    match request {
        Constraint::Feature(feature) => {
            let Some(&bound) = demand.features.get(&feature) else { return Vec::new() };
            softer(bound, demand.count)
                .into_iter()
                .map(|bound| with(&|d| *d.features.entry(feature).or_insert(bound) = bound))
                .collect()
        }
        Constraint::SameDigits => {
            let Some(bound) = demand.same_digits else { return Vec::new() };
            softer(bound, demand.count).into_iter().map(|bound| with(&|d| d.same_digits = Some(bound))).collect()
        }
        Constraint::Count => {
            let mut counts: Vec<u32> = (1..=MOST).filter(|&count| count != demand.count).collect();
            counts.sort_by_key(|&count| (count.abs_diff(demand.count), count));
            counts.into_iter().map(|count| with(&|d| d.count = count)).collect()
        }
        Constraint::AtMost(place) => {
            let at = place.index();
            (demand.at_most[at] + 1..=9).map(|most| with(&|d| d.at_most[at] = most)).collect()
        }
        Constraint::Always(number) => vec![with(&|d| d.always.retain(|&n| n != number))],
        Constraint::Never(number) => vec![with(&|d| d.never.retain(|&n| n != number))],
        Constraint::Range => {
            // One or two more places at either end; farther is another lesson.
            let ends = ends(1).filter(|&end| end > demand.high).take(2);
            let starts = [100_000, 10_000, 1_000, 100, 10, 0].into_iter().filter_map(Number::new);
            let starts = starts.filter(|&start| start < demand.low).take(2);
            let upward = ends.map(|end| (demand.low, end));
            let mut ranges: Vec<(Number, Number)> = upward.chain(starts.map(|start| (start, demand.high))).collect();
            ranges.sort_by_key(|(low, high)| high.value() - low.value());
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
    let budget = Budget::default();
    let group = minimal(demand, &budget);
    if budget.is_spent() {
        let problem = Problem::new(format!("no {} numbers meet all that is asked of them", role.word()))
            .hint("which requests clash was not worked out: there are too many ways to look at; request for less");
        return at_count(numbers, role, problem, source);
    }
    let texts: Vec<String> = group.iter().map(|request| format!("`{}`", request.text(demand, role))).collect();
    let message = match texts.as_slice() {
        [one] => format!("no {} numbers meet {one}", role.word()),
        texts => format!("no {} numbers meet {} together", role.word(), listed(texts, "and")),
    };
    let ways: Vec<String> = softened(demand, &group, &budget)
        .into_iter()
        .map(|(request, softer)| format!("`{}`", request.text(&softer, role)))
        .collect();
    let hint = match ways.as_slice() {
        [] if budget.is_spent() => "leave one of them out, or request for less".to_owned(),
        [] => "no change of a single one of them is enough: other requests clash as well".to_owned(),
        ways => format!("{} would work", listed(ways, "or")),
    };
    // The most particular request comes first: the range is to blame only when nothing else is.
    let mut places: Vec<(FilePlace, String)> = group
        .iter()
        .rev()
        .filter_map(|request| {
            let place = FilePlace { source: Arc::clone(source), span: request.span(numbers, role)? };
            Some((place, format!("`{}`", request.text(demand, role))))
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
    let steps = crate::spec::limits::grouped(STEPS);
    let problem = Problem::new(format!("{what} is too much to work out: it takes more than {steps} steps"))
        .hint("request for fewer numbers, or leave out one of the role's requests");
    at_count(numbers, role, problem, source)
}

/// A problem of a role, at its count if the file gives one.
fn at_count(numbers: &NumbersSpec, role: Role, problem: Problem, source: &Arc<Source>) -> Diagnostic {
    let place = Constraint::Count.span(numbers, role).map(|span| FilePlace { source: Arc::clone(source), span });
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
