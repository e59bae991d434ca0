//! What one role asks of its numbers, without places in the file, and what a number has to offer.

use std::collections::{BTreeMap, BTreeSet};

use crate::lesson::Role;
use crate::number::{Number, Place};
use crate::spec::{Bound, NumbersSpec, RoleSpec};

/// Something a number has or lacks, whatever else is in the set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Feature {
    /// Shows a 0 in this place.
    Zero(Place),
    /// Some digit appears more than once.
    Repeats,
    /// Ends in 11 to 19.
    Teens,
}

impl Feature {
    /// The bit that stands for it in [`Facts::bits`].
    pub const fn bit(self) -> usize {
        match self {
            Self::Zero(place) => place.index(),
            Self::Repeats => 6,
            Self::Teens => 7,
        }
    }

    /// The key in a lesson file.
    pub fn key(self) -> String {
        match self {
            Self::Zero(place) => format!("zeros.{}", place.key()),
            Self::Repeats => "repeats".into(),
            Self::Teens => "teens".into(),
        }
    }
}

/// What a number offers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Facts {
    /// How often each digit appears, three bits a digit: equal for numbers made of the same digits.
    pub family: u32,
    /// A bit for each [`Feature`] it has.
    pub bits: u16,
}

impl Facts {
    /// The facts of a number.
    pub fn of(number: u32) -> Self {
        let (mut rest, mut family, mut bits) = (number, 0_u32, 0_u16);
        let mut place = 0;
        loop {
            let digit = rest % 10;
            if digit == 0 {
                bits |= 1 << place;
            }
            if (family >> (3 * digit)) & 7 != 0 {
                bits |= 1 << Feature::Repeats.bit();
            }
            family += 1 << (3 * digit);
            place += 1;
            rest /= 10;
            if rest == 0 {
                break;
            }
        }
        if (11..=19).contains(&(number % 100)) {
            bits |= 1 << Feature::Teens.bit();
        }
        Self { family, bits }
    }
}

/// Whether two families share at least two digits, counting a digit as often as both have it.
pub fn alike(a: u32, b: u32) -> bool {
    (0..10).map(|digit| ((a >> (3 * digit)) & 7).min((b >> (3 * digit)) & 7)).sum::<u32>() >= 2
}

/// What one role asks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Demand {
    /// Least number.
    pub low: u32,
    /// Greatest number.
    pub high: u32,
    /// Numbers never chosen.
    pub never: BTreeSet<u32>,
    /// The largest digit shown in each place, from the ones up.
    pub at_most: [u8; 6],
    /// How many numbers.
    pub count: u32,
    /// Numbers that must be among them.
    pub always: BTreeSet<u32>,
    /// How many of them have a feature; in a fixed order, so that the order of keys in the file says nothing.
    pub wants: BTreeMap<Feature, Bound>,
    /// How many the largest group made of the same digits has.
    pub same_digits: Option<Bound>,
    /// How many others each must be like.
    pub look_alikes: u32,
}

impl Demand {
    /// What `role` asks of its numbers.
    pub fn new(numbers: &NumbersSpec, role: Role) -> Self {
        let asked = of(numbers, role);
        let (low, high) = numbers.range.value;
        let mut at_most = [9; 6];
        for (place, digit) in &numbers.at_most {
            at_most[place.index()] = digit.value;
        }
        let zeros = asked.zeros.iter().map(|(&place, bound)| (Feature::Zero(place), bound.value));
        let others = [(Feature::Repeats, asked.repeats), (Feature::Teens, asked.teens)];
        Self {
            low: low.value(),
            high: high.value(),
            never: numbers.never.iter().map(|number| number.value.value()).collect(),
            at_most,
            count: asked.count.value,
            always: asked.always.iter().map(|number| number.value.value()).collect(),
            wants: zeros.chain(others.into_iter().filter_map(|(key, given)| Some((key, given?.value)))).collect(),
            same_digits: asked.same_digits.map(|given| given.value),
            look_alikes: asked.look_alikes.map_or(0, |given| given.value),
        }
    }

    /// Whether look-alikes are asked for where only numbers made of the same two digits are: then the request is about
    /// single families, and counted like any other.
    pub fn in_families(&self) -> bool {
        self.look_alikes > 0 && self.high < 100
    }

    /// Whether a number may be chosen at all.
    pub fn allows(&self, number: u32) -> bool {
        if number < self.low || number > self.high || self.never.contains(&number) {
            return false;
        }
        let mut rest = number;
        for most in self.at_most {
            if rest % 10 > u32::from(most) {
                return false;
            }
            rest /= 10;
        }
        true
    }

    /// Whether a set is what was asked: the plain reading of each request, used to check what cleverer code finds.
    pub fn holds(&self, set: &[u32]) -> bool {
        let facts: Vec<Facts> = set.iter().map(|&number| Facts::of(number)).collect();
        let distinct: BTreeSet<u32> = set.iter().copied().collect();
        let having = |feature: Feature| facts.iter().filter(|f| f.bits >> feature.bit() & 1 == 1).count();
        distinct.len() == set.len()
            && set.len() == self.count as usize
            && self.always.is_subset(&distinct)
            && set.iter().all(|&number| self.allows(number))
            && self
                .wants
                .iter()
                .all(|(&feature, bound)| bound.allows(u32::try_from(having(feature)).unwrap_or(u32::MAX)))
            && self.same_digits.is_none_or(|bound| bound.allows(largest_group(&facts)))
            && look_alikes_hold(&facts, self.look_alikes)
    }

    /// How many of a set have each feature asked for, and the size of its largest group when that is asked for: what makes
    /// two versions equally hard.
    pub fn profile(&self, set: &[u32]) -> (Vec<u32>, u32) {
        let facts: Vec<Facts> = set.iter().map(|&number| Facts::of(number)).collect();
        let having = |feature: &Feature| facts.iter().filter(|f| f.bits >> feature.bit() & 1 == 1).count();
        let counts = self.wants.keys().map(|feature| u32::try_from(having(feature)).unwrap_or(u32::MAX)).collect();
        (counts, if self.same_digits.is_some() { largest_group(&facts) } else { 0 })
    }

    /// The same demand, narrowed to sets with the profile of `set`.
    #[must_use]
    pub fn like(&self, set: &[u32]) -> Self {
        let (counts, group) = self.profile(set);
        let exactly = |n: u32| Bound { min: n, max: Some(n) };
        let mut narrowed = self.clone();
        narrowed.wants = self.wants.keys().copied().zip(counts.into_iter().map(exactly)).collect();
        narrowed.same_digits = self.same_digits.map(|_| exactly(group));
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
fn largest_group(facts: &[Facts]) -> u32 {
    let mut groups = BTreeMap::new();
    for fact in facts {
        *groups.entry(fact.family).or_insert(0_u32) += 1;
    }
    groups.into_values().max().unwrap_or(0)
}

/// Whether each is like at least `least` others.
pub fn look_alikes_hold(facts: &[Facts], least: u32) -> bool {
    least == 0
        || facts.iter().enumerate().all(|(k, a)| {
            let like = facts.iter().enumerate().filter(|(other, b)| *other != k && alike(a.family, b.family)).count();
            like >= least as usize
        })
}

/// A length that is known to be small.
#[allow(clippy::cast_possible_truncation, reason = "a set holds at most 127 numbers")]
pub fn len(set: &BTreeSet<u32>) -> u32 {
    set.len() as u32
}

/// Back to a checked number; every number here came from one.
pub fn number(value: u32) -> Number {
    Number::new(value).unwrap_or(Number::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_offers_what_its_numeral_shows() {
        let has = |number: u32, feature: Feature| Facts::of(number).bits >> feature.bit() & 1 == 1;
        assert!(has(0, Feature::Zero(Place::Ones)) && !has(7, Feature::Zero(Place::Tens)));
        assert!(has(406, Feature::Zero(Place::Tens)) && !has(406, Feature::Zero(Place::Ones)));
        assert!(has(383, Feature::Repeats) && !has(384, Feature::Repeats));
        assert!(
            has(11, Feature::Teens) && has(919, Feature::Teens) && !has(910, Feature::Teens) && !has(7, Feature::Teens)
        );
        assert_eq!(Facts::of(640).family, Facts::of(406).family);
        assert_ne!(Facts::of(64).family, Facts::of(640).family);
        assert!(
            alike(Facts::of(640).family, Facts::of(64).family) && !alike(Facts::of(66).family, Facts::of(64).family)
        );
        assert!(alike(Facts::of(33).family, Facts::of(383).family));
    }
}
