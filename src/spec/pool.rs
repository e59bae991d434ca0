//! The numbers that a lesson may choose from.

use std::collections::BTreeSet;

use super::types::NumbersSpec;
use crate::number::{Number, Place};

/// The range without the numbers that `never` and `at_most` take out.
pub struct Pool<'s> {
    asked: &'s NumbersSpec,
    never: BTreeSet<Number>,
}

impl<'s> Pool<'s> {
    /// The numbers that these requests leave.
    pub fn new(asked: &'s NumbersSpec) -> Self {
        Self { asked, never: asked.never.iter().map(|n| n.value).collect() }
    }

    /// Its numbers from the least up.
    pub fn numbers(&self) -> impl Iterator<Item = Number> {
        let (least, most) = self.asked.range.value;
        (least.value()..=most.value()).filter_map(Number::new).filter(|n| self.holds(*n))
    }

    /// Whether a number is one of them.
    pub fn holds(&self, number: Number) -> bool {
        let (least, most) = self.asked.range.value;
        (least..=most).contains(&number) && !self.never.contains(&number) && self.too_high(number).is_none()
    }

    /// The first place whose digit is above the limit.
    pub(super) fn too_high(&self, number: Number) -> Option<Place> {
        self.asked.at_most.iter().find(|(place, most)| number.digit(**place) > most.value).map(|(place, _)| *place)
    }
}

/// Something a role can ask of its numbers one by one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Feature {
    /// The numeral shows a 0 there.
    Zero(Place),
    /// A digit appears more than once.
    Repeat,
    /// It ends in 11..=19.
    Teen,
}

impl Feature {
    pub(super) fn holds(self, number: Number) -> bool {
        match self {
            Self::Zero(place) => number.shows(place) && number.digit(place) == 0,
            Self::Repeat => {
                let mut seen = [false; 10];
                number.digits().any(|(_, digit)| std::mem::replace(&mut seen[usize::from(digit)], true))
            }
            Self::Teen => (11..=19).contains(&(number.value() % 100)),
        }
    }

    /// `a number with 0 in its tens place`, without the article.
    pub(super) fn words(self) -> String {
        match self {
            Self::Zero(place) => format!("with 0 in the {} place", place.words()),
            Self::Repeat => "in which a digit appears more than once".to_owned(),
            Self::Teen => "ending in 11 to 19".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(feature: Feature, least: u32, most: u32, want: &[u32]) {
        let numbers = (least..=most).filter_map(Number::new).filter(|n| feature.holds(*n)).map(Number::value);
        assert_eq!(numbers.collect::<Vec<_>>(), want, "{feature:?}");
    }

    #[test]
    fn features_are_those_of_the_contract() {
        case(Feature::Zero(Place::Tens), 7, 110, &[100, 101, 102, 103, 104, 105, 106, 107, 108, 109]);
        case(Feature::Zero(Place::Hundreds), 0, 1_001, &[1_000, 1_001]);
        case(Feature::Zero(Place::Ones), 0, 20, &[0, 10, 20]);
        case(Feature::Repeat, 95, 102, &[99, 100, 101]);
        case(Feature::Teen, 9, 113, &[11, 12, 13, 14, 15, 16, 17, 18, 19, 111, 112, 113]);
    }
}
