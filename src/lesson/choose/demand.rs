//! What one role asks of its numbers, without places in the file.

use std::collections::{BTreeMap, BTreeSet};

use crate::lesson::Role;
use crate::number::{Digits, Feature, Features, Number, Place};
use crate::spec::{Bound, NumbersSpec, RoleSpec, Version};

/// What one role asks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Demand {
    /// Least number.
    pub low: Number,
    /// Greatest number.
    pub high: Number,
    /// Numbers never chosen.
    pub never: BTreeSet<Number>,
    /// The largest digit shown in each place, from the ones up.
    pub at_most: [u8; 6],
    /// How many numbers.
    pub count: u32,
    /// Numbers that must be among them.
    pub always: BTreeSet<Number>,
    /// Those of them that this version alone must have, and which version it is.
    pub own: Option<(Version, BTreeSet<Number>)>,
    /// How many of them have a feature; in a fixed order, so that the order of keys in the file says nothing.
    pub features: BTreeMap<Feature, Bound>,
    /// How many the largest group made of the same digits has.
    pub same_digits: Option<Bound>,
    /// Whether a number needs two different digits to be chosen, unless it is named: nothing can be asked about the places
    /// of 7 and 44 that a wrong answer would tell anything of.
    pub mixed: bool,
}

impl Demand {
    /// So many numbers of a range, and nothing else.
    pub fn any_of(low: Number, high: Number, count: u32) -> Self {
        Self {
            low,
            high,
            never: BTreeSet::new(),
            at_most: [9; 6],
            count,
            always: BTreeSet::new(),
            own: None,
            features: BTreeMap::new(),
            same_digits: None,
            mixed: false,
        }
    }

    /// What `role` asks of its numbers.
    pub fn new(numbers: &NumbersSpec, role: Role) -> Self {
        let asked = of(numbers, role);
        let (low, high) = numbers.range.value;
        let mut demand = Self::any_of(low, high, asked.count.value);
        for (place, digit) in &numbers.at_most {
            demand.at_most[place.index()] = digit.value.min(9);
        }
        demand.never = numbers.never.iter().map(|number| number.value).collect();
        demand.always = asked.always.iter().map(|number| number.value).collect();
        demand.features = asked.features().map(|(feature, bound)| (feature, bound.value)).collect();
        demand.same_digits = asked.same_digits.map(|given| given.value);
        demand
    }

    /// What a version of the class or group asks; `None` where it asks what all of them do.
    pub fn of_version(&self, numbers: &NumbersSpec, version: Version) -> Option<Self> {
        let own: BTreeSet<Number> = numbers.sort.always_in.get(&version)?.iter().map(|number| number.value).collect();
        let always = self.always.union(&own).copied().collect();
        Some(Self { always, own: Some((version, own)), ..self.clone() })
    }

    /// The numbers that must be among them, without those that one version alone must have.
    pub fn common(&self) -> impl Iterator<Item = Number> {
        let own = |number: &Number| self.own.as_ref().is_some_and(|(_, own)| own.contains(number));
        self.always.iter().copied().filter(move |number| !own(number))
    }

    /// What it says of the numbers there are to choose from, and nothing else.
    #[must_use]
    pub fn pool(&self) -> Self {
        Self { never: self.never.clone(), at_most: self.at_most, ..Self::any_of(self.low, self.high, 0) }
    }

    /// Whether a number may be chosen at all.
    pub fn allows(&self, number: Number) -> bool {
        (self.low..=self.high).contains(&number)
            && !self.never.contains(&number)
            && Place::ALL.iter().all(|place| number.digit(*place) <= self.at_most[place.index()])
    }

    /// Whether a number has the digits it needs.
    pub fn suits(&self, number: Number) -> bool {
        !self.mixed || self.always.contains(&number) || !Digits::of(number).is_one()
    }

    /// Whether a set is what was asked: the plain reading of each request, used to check what cleverer code finds.
    pub fn holds(&self, set: &[Number]) -> bool {
        let distinct: BTreeSet<Number> = set.iter().copied().collect();
        let (counts, largest) = self.profile(set);
        distinct.len() == set.len()
            && set.len() == self.count as usize
            && self.always.is_subset(&distinct)
            && set.iter().all(|&number| self.allows(number) && self.suits(number))
            && self.features.values().zip(counts).all(|(bound, count)| bound.allows(count))
            && self.same_digits.is_none_or(|bound| bound.allows(largest))
    }

    /// How many of a set have each feature asked for, and the size of its largest group when that is asked for: what makes
    /// two versions equally hard.
    pub fn profile(&self, set: &[Number]) -> (Vec<u32>, u32) {
        let features: Vec<Features> = set.iter().map(|&number| Features::of(number)).collect();
        let count = |&feature: &Feature| features.iter().map(|of| u32::from(of.has(feature))).sum();
        let largest = if self.same_digits.is_some() { largest_group(&features) } else { 0 };
        (self.features.keys().map(count).collect(), largest)
    }

    /// The same demand, narrowed to sets with the profile of `set`.
    #[must_use]
    pub fn like(&self, set: &[Number]) -> Self {
        let (counts, largest) = self.profile(set);
        let exactly = |n: u32| Bound { min: n, max: Some(n) };
        let mut narrowed = self.clone();
        narrowed.features = self.features.keys().copied().zip(counts.into_iter().map(exactly)).collect();
        narrowed.same_digits = self.same_digits.map(|_| exactly(largest));
        narrowed
    }
}

/// The requests of a role.
pub fn of(numbers: &NumbersSpec, role: Role) -> &RoleSpec {
    match role {
        Role::Model => &numbers.model,
        Role::Sort => &numbers.sort,
        Role::Exit => &numbers.exit,
    }
}

/// The size of the largest group made of the same digits.
fn largest_group(features: &[Features]) -> u32 {
    let mut groups: BTreeMap<Digits, u32> = BTreeMap::new();
    for of in features {
        *groups.entry(of.digits()).or_default() += 1;
    }
    groups.into_values().max().unwrap_or(0)
}
