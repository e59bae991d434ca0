//! The numbers of a range with their facts, fast: a million of them go by in a few milliseconds.
//!
//! A number is looked at as its last three digits and what stands before them; the facts of both halves are in tables.

use std::collections::{BTreeSet, HashMap};
use std::hash::BuildHasherDefault;
use std::sync::LazyLock;

use super::demand::{Demand, Facts, Feature};
use super::state::Mix;

/// The facts of 000 to 999, every digit shown.
static THREE: LazyLock<Vec<Facts>> = LazyLock::new(|| {
    // A leading 1 shows all three digits; what it adds itself is taken away again.
    let shown = (0..1_000).map(|low| {
        let facts = Facts::of(1_000 + low);
        Facts { family: facts.family - (1 << 3), bits: facts.bits & !REPEATS }
    });
    shown.collect()
});

const REPEATS: u16 = 1 << Feature::Repeats.bit();
/// The bits of a family that are set where a digit appears twice or more.
const TWICE: u32 = 0o6_666_666_666;

/// The numbers that a demand allows and `skipped` does not hold, rising, with their facts.
pub(super) fn numbers<'a>(demand: &'a Demand, skipped: &BTreeSet<u32>) -> impl Iterator<Item = (u32, Facts)> + use<'a> {
    let never = demand.never.union(skipped).copied();
    let mut never: Vec<u32> = never.filter(|number| (demand.low..=demand.high).contains(number)).collect();
    never.reverse();
    let fits = |half: u32, limits: &[u8]| {
        let digits = [half % 10, half / 10 % 10, half / 100];
        digits.iter().zip(limits).all(|(&digit, &most)| digit <= u32::from(most))
    };
    let ends: Vec<bool> = (0..1_000).map(|half| fits(half, &demand.at_most[..3])).collect();
    let thousands = (demand.low / 1_000..=demand.high / 1_000).filter(move |&high| fits(high, &demand.at_most[3..]));
    let all = thousands.flat_map(move |high| {
        let first = if high == demand.low / 1_000 { demand.low % 1_000 } else { 0 };
        let last = if high == demand.high / 1_000 { demand.high % 1_000 } else { 999 };
        let before = Facts::of(high);
        (first..=last).map(move |low| (high, low, before))
    });
    all.filter(move |&(_, low, _)| ends[low as usize]).filter_map(move |(high, low, before)| {
        let number = high * 1_000 + low;
        while never.last().is_some_and(|&next| next < number) {
            never.pop();
        }
        if never.last() == Some(&number) {
            return None;
        }
        if high == 0 {
            return Some((number, Facts::of(number)));
        }
        let end = THREE[low as usize];
        let family = before.family + end.family;
        let zeros = (before.bits & 0b111) << 3;
        let repeats = if family & TWICE == 0 { 0 } else { REPEATS };
        Some((number, Facts { family, bits: end.bits | zeros | repeats }))
    })
}

/// Which numbers have halves that show the same: their last three digits, and what stands before them.
#[derive(Debug, Default)]
pub(super) struct Halves {
    /// What a half shows, to its place among those met.
    seen: HashMap<u64, u16, BuildHasherDefault<Mix>>,
    /// For each half one more than its place, 0 when not yet known.
    before: Vec<u16>,
    after: Vec<u16>,
}

/// More than there are different halves.
const HALVES: usize = 1 << 11;

impl Halves {
    /// A small number that tells pairs of halves apart.
    pub fn pair(&mut self, number: u32) -> usize {
        if number < 1_000 {
            // Short numbers show no zeros before their digits: they are halves of their own.
            return usize::from(self.at(number, true));
        }
        usize::from(self.at(number / 1_000, true)) * HALVES + usize::from(self.at(number % 1_000, false))
    }

    fn at(&mut self, half: u32, first: bool) -> u16 {
        let known = if first { &mut self.before } else { &mut self.after };
        known.resize(1_000, 0);
        let known = &mut known[half as usize];
        if *known == 0 {
            let facts = if first { Facts::of(half) } else { THREE[half as usize] };
            let shows = u64::from(first) << 63 | u64::from(facts.bits) << 32 | u64::from(facts.family);
            let next = u16::try_from(self.seen.len() + 1).unwrap_or(u16::MAX);
            *known = *self.seen.entry(shows).or_insert(next);
        }
        *known
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;

    #[test]
    fn a_scan_sees_what_each_number_shows() {
        let demand = Demand {
            low: 0,
            high: 999_999,
            never: BTreeSet::from([5, 1_000, 4_321]),
            at_most: [9, 8, 9, 9, 9, 3],
            count: 1,
            always: BTreeSet::new(),
            wants: BTreeMap::new(),
            same_digits: None,
            look_alikes: 0,
        };
        let skipped = BTreeSet::from([0, 999]);
        let seen: Vec<(u32, Facts)> = numbers(&demand, &skipped).collect();
        let wanted = (0..=999_999).filter(|number| demand.allows(*number) && !skipped.contains(number));
        assert!(seen.into_iter().eq(wanted.map(|number| (number, Facts::of(number)))));
    }
}
