//! A role's requests one by one: each can be left out, and each knows its place in the file.

use std::collections::BTreeSet;
use std::ops::Range;

use super::demand::{Demand, of};
use crate::lesson::Role;
use crate::number::{Feature, Number, Place};
use crate::spec::{Bound, Given, NumbersSpec};

/// One request.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Constraint {
    /// The numbers lie in the range.
    Range,
    /// There are so many of them.
    Count,
    /// No digit in this place is larger.
    AtMost(Place),
    /// So many have a feature.
    Feature(Feature),
    /// The largest group made of the same digits is so large.
    SameDigits,
    /// This number is among them.
    Always(Number),
    /// This number is not among them.
    Never(Number),
}

impl Constraint {
    /// All requests that a role has to meet, its own and those of all numbers.
    pub fn all(demand: &Demand) -> Vec<Self> {
        let limits = Place::ALL.into_iter().filter(|place| demand.at_most[place.index()] < 9).map(Self::AtMost);
        let features = demand.features.keys().copied().map(Self::Feature);
        let same = demand.same_digits.map(|_| Self::SameDigits);
        let always = demand.always.iter().copied().map(Self::Always);
        let never = demand.never.iter().copied().map(Self::Never);
        let two = [Self::Range, Self::Count];
        two.into_iter().chain(limits).chain(features).chain(same).chain(always).chain(never).collect()
    }

    /// Where the file makes it; none where it is assumed.
    pub fn span(self, numbers: &NumbersSpec, role: Role) -> Option<Range<usize>> {
        let asked = of(numbers, role);
        match self {
            Self::Range => numbers.range.span(),
            Self::Count => asked.count.span(),
            Self::AtMost(place) => numbers.at_most.get(&place).and_then(Given::span),
            Self::Feature(feature) => asked.features().find(|(of, _)| *of == feature).and_then(|(_, b)| b.span()),
            Self::SameDigits => asked.same_digits.as_ref().and_then(Given::span),
            Self::Always(number) => asked.by_name().find(|(_, n)| n.value == number).and_then(|(_, n)| n.span()),
            Self::Never(number) => numbers.never.iter().find(|n| n.value == number).and_then(Given::span),
        }
    }

    /// How the file would put it, as `demand` has it.
    pub fn text(self, demand: &Demand, role: Role) -> String {
        let role = role.word();
        let bounded = |key: &str, bound: Option<Bound>| match bound {
            Some(bound) => format!("{role}.{key} = {}", written(bound)),
            None => format!("no {role}.{key}"),
        };
        match self {
            Self::Range => format!("range = [{}, {}]", demand.low, demand.high),
            Self::Count => format!("{role}.count = {}", demand.count),
            Self::AtMost(place) => format!("at_most.{} = {}", place.key(), demand.at_most[place.index()]),
            Self::Feature(feature) => bounded(&feature.key(), demand.features.get(&feature).copied()),
            Self::SameDigits => bounded("same_digits", demand.same_digits),
            Self::Always(number) => {
                let with = if demand.always.contains(&number) { "with" } else { "without" };
                match &demand.own {
                    Some((version, own)) if own.contains(&number) => {
                        format!("{role}.always_in.{version} {with} {number}")
                    }
                    _ => format!("{role}.always {with} {number}"),
                }
            }
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

/// The demand that makes only the requests kept. Without [`Constraint::Count`] the count is as it was; see [`super::clash`].
pub fn only(demand: &Demand, kept: &BTreeSet<Constraint>) -> Demand {
    let mut less = demand.clone();
    if !kept.contains(&Constraint::Range) {
        (less.low, less.high) = (Number::MIN, Number::MAX);
    }
    for place in Place::ALL {
        if !kept.contains(&Constraint::AtMost(place)) {
            less.at_most[place.index()] = 9;
        }
    }
    less.features.retain(|&feature, _| kept.contains(&Constraint::Feature(feature)));
    less.same_digits = less.same_digits.filter(|_| kept.contains(&Constraint::SameDigits));
    less.always.retain(|&number| kept.contains(&Constraint::Always(number)));
    less.never.retain(|&number| kept.contains(&Constraint::Never(number)));
    less
}
