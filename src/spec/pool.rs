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
