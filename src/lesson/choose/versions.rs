//! Versions as hard as the first: the same profile, and as near as possible in blocks to build.

use std::collections::BTreeSet;

use super::demand::Demand;
use super::pool::Taken;
use super::sampler::Sampler;
use crate::rng::Stream;

/// How many sets are drawn blindly before the used numbers are counted out.
const BLIND: u32 = 24;
/// How many sets compete to be a version.
const CANDIDATES: usize = 12;

/// The sets like a first one.
pub(super) struct Like<'a> {
    demand: Demand,
    reserved: &'a BTreeSet<u32>,
    sampler: Sampler,
    blocks: u32,
}

impl<'a> Like<'a> {
    /// The sets with the profile of `first`.
    pub fn new(demand: &Demand, first: &[u32], reserved: &'a BTreeSet<u32>) -> Self {
        let demand = demand.like(first);
        let sampler = Sampler::new(&demand, Taken { barred: reserved, shared: None });
        Self { demand, reserved, sampler, blocks: blocks(first) }
    }

    /// The nearest of several sets that share nothing with `used` but what all versions must have.
    pub fn draw(&self, used: &BTreeSet<u32>, stream: &mut Stream) -> Option<Vec<u32>> {
        let fresh = |set: &Vec<u32>| set.iter().all(|n| self.demand.always.contains(n) || !used.contains(n));
        let mut candidates = Vec::new();
        for _ in 0..BLIND {
            candidates.extend(self.sampler.draw(stream).filter(fresh));
            if candidates.len() == CANDIDATES {
                break;
            }
        }
        if candidates.is_empty() {
            let barred = used.union(self.reserved).copied().collect();
            let sampler = Sampler::new(&self.demand, Taken { barred: &barred, shared: None });
            candidates.extend((0..CANDIDATES).map_while(|_| sampler.draw(stream)));
        }
        candidates.into_iter().min_by_key(|set| blocks(set).abs_diff(self.blocks))
    }
}

/// How many blocks it takes to build a set: the sum of all digits.
pub(super) fn blocks(set: &[u32]) -> u32 {
    let digits = |mut number: u32| {
        let mut sum = 0;
        while number > 0 {
            sum += number % 10;
            number /= 10;
        }
        sum
    };
    set.iter().map(|&number| digits(number)).sum()
}
