//! All numbers a lesson may use, by what they show: gathered once, shared by every role, version and retry.
//!
//! In: the range, `never` and `at_most` of a demand. Out: kinds, each a family and a choice of features with its numbers.

use std::collections::{BTreeMap, BTreeSet};

use super::demand::{Demand, Facts};
use super::meter::Meter;
use super::scan;

/// Numbers made of the same digits with the same features.
#[derive(Debug, Clone)]
pub(super) struct Kind {
    /// What each of them shows.
    pub facts: Facts,
    /// The numbers, rising.
    pub numbers: Vec<u32>,
}

/// The numbers of a lesson.
#[derive(Debug, Clone, Default)]
pub(super) struct Stock {
    /// By family, then features.
    kinds: Vec<Kind>,
    /// What may still be spent on choosing from them.
    pub meter: Meter,
}

impl Stock {
    /// The numbers that a demand's range, `never` and `at_most` leave.
    pub fn new(demand: &Demand) -> Self {
        Self::metered(demand, &Meter::default())
    }

    /// The same, with what is left of the work.
    pub fn metered(demand: &Demand, meter: &Meter) -> Self {
        let mut kinds: Vec<Kind> = Vec::new();
        let mut halves = scan::Halves::default();
        // The kind of each pair of halves met so far: two table look-ups a number instead of a search.
        let mut pairs: Vec<u32> = Vec::new();
        for (number, facts) in scan::numbers(demand, &BTreeSet::new()) {
            let pair = halves.pair(number);
            if pair >= pairs.len() {
                pairs.resize(pair + 1, u32::MAX);
            }
            if pairs[pair] == u32::MAX {
                pairs[pair] = u32::try_from(kinds.len()).unwrap_or(u32::MAX - 1);
                kinds.push(Kind { facts, numbers: Vec::new() });
            }
            kinds[pairs[pair] as usize].numbers.push(number);
        }
        // Different pairs of halves can be of one kind.
        kinds.sort_by_key(|kind| (kind.facts.family, kind.facts.bits));
        let mut merged: Vec<Kind> = Vec::new();
        for kind in kinds {
            match merged.last_mut() {
                Some(last) if last.facts == kind.facts => last.numbers.extend(kind.numbers),
                _ => merged.push(kind),
            }
        }
        Self { kinds: merged, meter: meter.clone() }
    }

    /// How many numbers there are.
    pub fn len(&self) -> usize {
        self.kinds.iter().map(|kind| kind.numbers.len()).sum()
    }

    /// The kinds without what is skipped; numbers of `marked` are told apart. Kinds that run out are left out.
    pub fn kinds<'a>(
        &'a self,
        skipped: &'a BTreeSet<u32>,
        marked: Option<&'a BTreeSet<u32>>,
    ) -> impl Iterator<Item = (Facts, bool, Vec<&'a [u32]>)> {
        let none = BTreeSet::new();
        let special = skipped.iter().chain(marked.unwrap_or(&none));
        let mut touched: BTreeMap<(u32, u16), BTreeSet<u32>> = BTreeMap::new();
        for &number in special {
            let facts = Facts::of(number);
            touched.entry((facts.family, facts.bits)).or_default().insert(number);
        }
        self.kinds.iter().flat_map(move |kind| {
            let numbers = kind.numbers.as_slice();
            let Some(special) = touched.get(&(kind.facts.family, kind.facts.bits)) else {
                return vec![(kind.facts, false, vec![numbers])];
            };
            let plain: Vec<&[u32]> =
                numbers.split(|number| special.contains(number)).filter(|s| !s.is_empty()).collect();
            let apart = numbers
                .iter()
                .filter(|number| marked.is_some_and(|marked| marked.contains(number)) && !skipped.contains(number));
            let apart: Vec<&[u32]> = apart.map(std::slice::from_ref).collect();
            let both = [(kind.facts, false, plain), (kind.facts, true, apart)];
            both.into_iter().filter(|(_, _, numbers)| !numbers.is_empty()).collect()
        })
    }
}
