//! The numbers that a lesson may choose from.

use std::collections::BTreeSet;

use super::types::NumbersSpec;
use crate::number::{Number, Place};

/// The range without the numbers that `never` and `at_most` take out.
pub struct Pool {
    least: Number,
    most: Number,
    never: BTreeSet<Number>,
    /// The greatest digit of each place, from the ones up.
    digits: [u8; Place::ALL.len()],
}

impl Pool {
    /// The numbers that these requests leave.
    pub fn new(asked: &NumbersSpec) -> Self {
        let (least, most) = asked.range.value;
        let digits = Place::ALL.map(|place| asked.at_most.get(&place).map_or(u8::MAX, |most| most.value));
        Self { least, most, never: asked.never.iter().map(|n| n.value).collect(), digits }
    }

    /// Its numbers from the least up.
    pub fn numbers(&self) -> impl Iterator<Item = Number> {
        (self.least.value()..=self.most.value()).filter_map(Number::new).filter(|n| self.holds(*n))
    }

    /// Whether a number is one of them.
    pub fn holds(&self, number: Number) -> bool {
        (self.least..=self.most).contains(&number) && !self.never.contains(&number) && self.too_high(number).is_none()
    }

    /// The first place whose digit is above the limit.
    pub(super) fn too_high(&self, number: Number) -> Option<Place> {
        number.digits().rev().zip(self.digits).find(|((_, digit), most)| digit > most).map(|((place, _), _)| place)
    }
}
