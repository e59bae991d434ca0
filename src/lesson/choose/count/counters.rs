//! The requests of a role as counters: what each number adds to them, and where they must end.

use std::collections::{BTreeMap, BTreeSet};

use super::packed::{Adder, Counter, Packed, byte, one};
use crate::lesson::choose::demand::Demand;
use crate::number::{Digits, Feature, Features, Number};
use crate::spec::limits;

/// The most numbers that a set can have, as a lesson file can ask for no more. It fits a counter.
pub const MOST: u32 = {
    assert!(limits::COUNT.most < 128);
    limits::COUNT.most as u32
};

/// The rule for numbers made of the same digits.
#[derive(Debug, Clone, Copy)]
pub(super) struct SameDigits {
    /// The counter that says whether some group is large enough.
    pub counter: usize,
    /// What is large enough.
    pub min: u32,
    /// No group may have more.
    pub max: u32,
}

/// The bit of numbers better avoided, after those of the features.
const MARKED: usize = Feature::COUNT;

/// The counters of a role.
pub struct Counters {
    counters: Vec<Counter>,
    /// The counter of each feature that one of the requests is about.
    of_feature: [Option<usize>; MARKED + 1],
    /// How they add up.
    pub(super) adder: Adder,
    /// The rule for groups made of the same digits, when a request is about them.
    pub(super) same_digits: Option<SameDigits>,
    /// How many of the numbers that must be in the set are made of the same digits.
    pub(super) bases: BTreeMap<Digits, u32>,
    /// What those numbers count; none when they break a request.
    pub(super) start: Option<Packed>,
}

impl Counters {
    /// The counters of a demand, with one for at most `marked` marked numbers; `None` when it contradicts itself.
    pub fn new(demand: &Demand, marked: Option<u32>) -> Option<Self> {
        let count = demand.count;
        if count > MOST
            || demand.always.len() > count as usize
            || !demand.always.iter().all(|&number| demand.allows(number))
            || demand.features.values().chain(&demand.same_digits).any(|bound| bound.min > count)
            // A number alone is a group of one.
            || demand.same_digits.is_some_and(|bound| bound.max == Some(0) && count > 0)
        {
            return None;
        }
        let mut counters = vec![counter(count, Some(count), count)];
        let mut of_feature = [None; MARKED + 1];
        for (feature, bound) in &demand.features {
            let max = bound.max.filter(|&max| max < count);
            if bound.min > 0 || max.is_some() {
                of_feature[feature.index()] = Some(counters.len());
                counters.push(counter(bound.min, max, count));
            }
        }
        if let Some(most) = marked {
            of_feature[MARKED] = Some(counters.len());
            counters.push(counter(0, Some(most), count));
        }
        let bound = demand.same_digits.map(|bound| (bound.min, bound.max.unwrap_or(count)));
        let same_digits = bound.filter(|&(min, max)| min > 1 || max < count);
        let same_digits = same_digits.map(|(min, max)| SameDigits { counter: counters.len(), min, max });
        if same_digits.is_some() {
            counters.push(Counter { least: 1, cap: 1, strict: false });
        }
        let adder = Adder::new(&counters);
        let mut all = Self { counters, of_feature, adder, same_digits, bases: BTreeMap::new(), start: None };
        all.start = all.begin(&demand.always);
        Some(all)
    }

    /// Counts what must be in the set.
    fn begin(&mut self, always: &BTreeSet<Number>) -> Option<Packed> {
        let mut start = 0;
        for &number in always {
            let features = Features::of(number);
            *self.bases.entry(features.digits()).or_default() += 1;
            // Numbers that must be in the set are never held against it.
            let adds = self.adder.add(self.adds(self.bits(features, false)), 0)?;
            start = self.adder.add(start, adds)?;
        }
        let largest = self.bases.values().copied().max().unwrap_or(0);
        match self.same_digits {
            Some(rule) if largest > rule.max => None,
            Some(rule) if largest >= rule.min => self.adder.add(start, one(rule.counter)),
            _ => Some(start),
        }
    }

    /// The features of a number that matter here, a bit each.
    pub(super) fn bits(&self, features: Features, marked: bool) -> u16 {
        let counted = self.of_feature.iter().enumerate().filter(|(_, at)| at.is_some());
        let mask = counted.fold(0, |mask, (bit, _)| mask | 1 << bit);
        (features.bits() | u16::from(marked) << MARKED) & mask
    }

    /// What a number with these features adds.
    pub(super) fn adds(&self, bits: u16) -> Packed {
        self.counted(bits).fold(one(0), |sum, at| sum + one(at))
    }

    /// The bytes of the counters that numbers with these features add to.
    pub(super) fn touches(&self, bits: u16) -> Packed {
        let same_digits = self.same_digits.map(|rule| rule.counter);
        self.counted(bits).chain(same_digits).fold(byte(0), |bytes, at| bytes | byte(at))
    }

    fn counted(&self, bits: u16) -> impl Iterator<Item = usize> {
        self.of_feature.iter().enumerate().filter(move |(bit, _)| bits >> bit & 1 == 1).filter_map(|(_, at)| *at)
    }

    /// How many values each counter can have.
    pub(super) fn sizes(&self) -> Vec<u32> {
        self.counters.iter().map(|counter| u32::from(counter.cap) + 1).collect()
    }
}

/// A counter for at least `min` and at most `max` of `count`.
#[allow(clippy::cast_possible_truncation, reason = "all are at most MOST, which fits a byte")]
fn counter(min: u32, max: Option<u32>, count: u32) -> Counter {
    let least = min.min(count) as u8;
    Counter { least, cap: max.map_or(least, |max| max.min(count) as u8), strict: max.is_some() }
}
