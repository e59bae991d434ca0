//! The requests of a role as counters: what each number adds to a tally, and where a tally must end.

use std::collections::{BTreeMap, BTreeSet};

use super::demand::{Demand, Facts};
use super::state::{Counter, MOST, Shape, State, byte, one};

/// The rule for numbers made of the same digits.
#[derive(Debug, Clone, Copy)]
pub(super) struct FamilyRule {
    /// The counter that says whether some family is large enough.
    pub counter: usize,
    /// What is large enough.
    pub min: u32,
    /// No family may have more.
    pub max: u32,
    /// A family that is there at all must have so many.
    pub least: u32,
}

/// The bit of numbers better avoided, after those of the features.
const MARKED: usize = 8;

/// The counters of a role.
pub(super) struct Rules {
    counters: Vec<Counter>,
    /// The counter of each feature that one of the requests is about.
    places: [Option<usize>; MARKED + 1],
    wanted: u16,
    /// How tallies add up.
    pub shape: Shape,
    /// The rule for families, when a request is about them.
    pub family: Option<FamilyRule>,
    /// The numbers that must be in the set.
    pub fixed: BTreeSet<u32>,
    /// How many of them each family has.
    pub bases: BTreeMap<u32, u32>,
    /// Their tally; none when they break a request.
    pub start: Option<State>,
}

impl Rules {
    /// The counters of a demand, with one for at most `marked` marked numbers; `None` when it contradicts itself.
    pub fn new(demand: &Demand, marked: Option<u32>) -> Option<Self> {
        let count = demand.count;
        let fixed = if demand.in_families() { with_partners(demand)? } else { demand.always.clone() };
        if count > MOST
            || fixed.len() > count as usize
            || !fixed.iter().all(|&number| demand.allows(number))
            || demand.wants.values().chain(&demand.same_digits).any(|bound| bound.min > count)
            // A number alone is a group of one.
            || demand.same_digits.is_some_and(|bound| bound.max == Some(0) && count > 0)
        {
            return None;
        }
        let mut counters = vec![counter(count, Some(count), count)];
        let mut places = [None; MARKED + 1];
        for (feature, bound) in &demand.wants {
            let max = bound.max.filter(|&max| max < count);
            if bound.min > 0 || max.is_some() {
                places[feature.bit()] = Some(counters.len());
                counters.push(counter(bound.min, max, count));
            }
        }
        if let Some(most) = marked {
            places[MARKED] = Some(counters.len());
            counters.push(counter(0, Some(most), count));
        }
        let family = family_rule(demand, counters.len());
        if family.is_some() {
            counters.push(Counter { least: 1, cap: 1, strict: false });
        }
        let shape = Shape::new(&counters);
        let wanted = places.iter().enumerate().fold(0, |mask, (bit, at)| mask | u16::from(at.is_some()) << bit);
        let mut rules = Self { counters, places, wanted, shape, family, fixed, bases: BTreeMap::new(), start: Some(0) };
        rules.begin();
        Some(rules)
    }

    /// Tallies what must be in the set.
    fn begin(&mut self) {
        let mut start = Some(0);
        for &number in &self.fixed {
            let facts = Facts::of(number);
            *self.bases.entry(facts.family).or_default() += 1;
            // Numbers that must be in the set are never held against it.
            let adds = self.shape.add(self.adds(self.bits(facts, false)), 0);
            start = start.and_then(|sum| self.shape.add(sum, adds?));
        }
        if let Some(rule) = self.family {
            let largest = self.bases.values().copied().max().unwrap_or(0);
            if largest > rule.max {
                start = None;
            } else if largest >= rule.min {
                start = start.and_then(|sum| self.shape.add(sum, one(rule.counter)));
            }
        }
        self.start = start;
    }

    /// The features of a number that matter here.
    pub fn bits(&self, facts: Facts, marked: bool) -> u16 {
        (facts.bits | u16::from(marked) << MARKED) & self.wanted
    }

    /// What a number with these features adds to a tally.
    pub fn adds(&self, bits: u16) -> State {
        self.counted(bits).fold(one(0), |sum, at| sum + one(at))
    }

    /// The bytes of the counters that numbers with these features add to.
    pub fn touches(&self, bits: u16) -> State {
        let family = self.family.map(|rule| rule.counter);
        self.counted(bits).chain(family).fold(byte(0), |bytes, at| bytes | byte(at))
    }

    fn counted(&self, bits: u16) -> impl Iterator<Item = usize> {
        self.places.iter().enumerate().filter(move |(bit, _)| bits >> bit & 1 == 1).filter_map(|(_, at)| *at)
    }

    /// How many values each counter can have.
    pub fn sizes(&self) -> Vec<u32> {
        self.counters.iter().map(|counter| u32::from(counter.cap) + 1).collect()
    }
}

/// The rule for families, when a request is about them.
fn family_rule(demand: &Demand, counter: usize) -> Option<FamilyRule> {
    let count = demand.count;
    let min = demand.same_digits.map_or(0, |bound| bound.min);
    let max = demand.same_digits.and_then(|bound| bound.max).unwrap_or(count);
    let least = if demand.in_families() { 2 } else { 0 };
    (min > 1 || max < count || least > 0).then_some(FamilyRule { counter, min, max, least })
}

/// Below 100, where a look-alike is the number with its two digits turned around: what must be in the set, each with its
/// look-alike. `None` when there is a number that has none, or when more are asked for.
fn with_partners(demand: &Demand) -> Option<BTreeSet<u32>> {
    let turned = |number: u32| number % 10 * 10 + number / 10;
    let alike = demand.always.iter().all(|&number| number >= 10 && turned(number) != number && turned(number) >= 10);
    let fixed = demand.always.iter().flat_map(|&number| [number, turned(number)]).collect();
    (alike && demand.look_alikes == 1).then_some(fixed)
}

/// A counter for at least `min` and at most `max` of `count`.
#[allow(clippy::cast_possible_truncation, reason = "all are at most MOST, which fits a byte")]
fn counter(min: u32, max: Option<u32>, count: u32) -> Counter {
    match max {
        Some(max) => Counter { least: min.min(count) as u8, cap: max.min(count) as u8, strict: true },
        None => Counter { least: min.min(count) as u8, cap: min.min(count) as u8, strict: false },
    }
}
