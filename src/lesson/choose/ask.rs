//! A role's requests one by one: each can be left out, and each knows its line in the file.

use std::collections::BTreeSet;
use std::ops::Range;

use super::demand::{Demand, Feature, of};
use crate::lesson::Role;
use crate::number::Place;
use crate::spec::{Bound, Given, NumbersSpec};

/// One request.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ask {
    /// The numbers lie in the range.
    Range,
    /// There are so many of them.
    Count,
    /// No digit in this place is larger.
    AtMost(Place),
    /// So many have a feature.
    Want(Feature),
    /// The largest group made of the same digits is so large.
    SameDigits,
    /// Each is like so many others.
    LookAlikes,
    /// This number is among them.
    Always(u32),
    /// This number is not among them.
    Never(u32),
}

impl Ask {
    /// All requests that a role has to meet, its own and those of all numbers.
    pub fn all(demand: &Demand) -> Vec<Self> {
        let limits = Place::ALL.into_iter().filter(|place| demand.at_most[place.index()] < 9).map(Self::AtMost);
        let wants = demand.wants.keys().copied().map(Self::Want);
        let always = demand.always.iter().copied().map(Self::Always);
        let never = demand.never.iter().copied().map(Self::Never);
        let same = demand.same_digits.map(|_| Self::SameDigits);
        let like = (demand.look_alikes > 0).then_some(Self::LookAlikes);
        [Self::Range, Self::Count]
            .into_iter()
            .chain(limits)
            .chain(wants)
            .chain(same)
            .chain(like)
            .chain(always)
            .chain(never)
            .collect()
    }

    /// Where the file makes it; none where it is assumed.
    pub fn span(self, numbers: &NumbersSpec, role: Role) -> Option<Range<usize>> {
        let asked = of(numbers, role);
        let bound = |given: &Option<Given<Bound>>| given.as_ref().and_then(Given::span);
        match self {
            Self::Range => numbers.range.span(),
            Self::Count => asked.count.span(),
            Self::AtMost(place) => numbers.at_most.get(&place).and_then(Given::span),
            Self::Want(Feature::Zero(place)) => asked.zeros.get(&place).and_then(Given::span),
            Self::Want(Feature::Repeats) => bound(&asked.repeats),
            Self::Want(Feature::Teens) => bound(&asked.teens),
            Self::SameDigits => bound(&asked.same_digits),
            Self::LookAlikes => asked.look_alikes.as_ref().and_then(Given::span),
            Self::Always(number) => asked.always.iter().find(|n| n.value.value() == number).and_then(Given::span),
            Self::Never(number) => numbers.never.iter().find(|n| n.value.value() == number).and_then(Given::span),
        }
    }

    /// How the file would put it, as `demand` has it.
    pub fn text(self, demand: &Demand, role: Role) -> String {
        let role = role.word();
        match self {
            Self::Range => format!("range = [{}, {}]", demand.low, demand.high),
            Self::Count => format!("{role}.count = {}", demand.count),
            Self::AtMost(place) => format!("at_most.{} = {}", place.key(), demand.at_most[place.index()]),
            Self::Want(feature) => match demand.wants.get(&feature) {
                Some(bound) => format!("{role}.{} = {}", feature.key(), written(*bound)),
                None => format!("no {role}.{}", feature.key()),
            },
            Self::SameDigits => match demand.same_digits {
                Some(bound) => format!("{role}.same_digits = {}", written(bound)),
                None => format!("no {role}.same_digits"),
            },
            Self::LookAlikes => format!("{role}.look_alikes = {}", demand.look_alikes),
            Self::Always(number) if demand.always.contains(&number) => format!("{role}.always with {number}"),
            Self::Always(number) => format!("{role}.always without {number}"),
            Self::Never(number) if demand.never.contains(&number) => format!("never with {number}"),
            Self::Never(number) => format!("never without {number}"),
        }
    }
}

/// A bound as the file puts it.
fn written(bound: Bound) -> String {
    match bound.max {
        None => bound.min.to_string(),
        Some(max) => format!("{{ min = {}, max = {max} }}", bound.min),
    }
}

/// The demand that makes only the requests kept. Without [`Ask::Count`] the count is as it was; see [`super::clash`].
pub fn only(demand: &Demand, kept: &BTreeSet<Ask>) -> Demand {
    let mut less = demand.clone();
    if !kept.contains(&Ask::Range) {
        (less.low, less.high) = (0, 999_999);
    }
    for place in Place::ALL {
        if !kept.contains(&Ask::AtMost(place)) {
            less.at_most[place.index()] = 9;
        }
    }
    less.wants.retain(|&feature, _| kept.contains(&Ask::Want(feature)));
    less.same_digits = less.same_digits.filter(|_| kept.contains(&Ask::SameDigits));
    if !kept.contains(&Ask::LookAlikes) {
        less.look_alikes = 0;
    }
    less.always.retain(|&number| kept.contains(&Ask::Always(number)));
    less.never.retain(|&number| kept.contains(&Ask::Never(number)));
    less
}
