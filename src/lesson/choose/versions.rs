//! Versions as hard as the first: the same profile, and as near as possible in blocks to build and letters to write.
//!
//! Several sets with the profile of the first are drawn evenly; the nearest is then brought nearer still by trading single
//! numbers for numbers of the others, as long as the profile stays.

use std::collections::BTreeSet;

use super::demand::{Demand, number};
use super::pool::{OPEN, Taken};
use super::sampler::Sampler;
use super::stock::Stock;
use crate::number::{Number, Style};
use crate::rng::Stream;

/// How many sets are drawn blindly before the used numbers are counted out.
const BLIND: usize = 64;
/// How many sets compete to be a version.
const CANDIDATES: usize = 20;
/// How many of them, the nearest, are brought nearer.
const TRADED: usize = 4;

/// What a set takes: blocks to build it (the sum of all digits) and letters to write its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Work {
    /// Blocks.
    pub blocks: u32,
    /// Letters.
    pub letters: u32,
}

impl Work {
    /// What one number takes.
    pub fn of(number: Number, style: &Style) -> Self {
        let letters = style.words(number).chars().filter(|c| c.is_alphabetic()).count();
        Self {
            blocks: number.digits().map(|(_, digit)| u32::from(digit)).sum(),
            letters: u32::try_from(letters).unwrap_or(u32::MAX),
        }
    }

    /// What all of a set take.
    pub fn of_all(set: &[Number], style: &Style) -> Self {
        set.iter().fold(Self { blocks: 0, letters: 0 }, |sum, &number| sum.plus(Self::of(number, style)))
    }

    fn plus(self, other: Self) -> Self {
        Self { blocks: self.blocks + other.blocks, letters: self.letters + other.letters }
    }

    fn minus(self, other: Self) -> Self {
        Self { blocks: self.blocks - other.blocks, letters: self.letters - other.letters }
    }

    /// How far apart two sets are.
    fn apart(self, other: Self) -> u32 {
        self.blocks.abs_diff(other.blocks) + self.letters.abs_diff(other.letters)
    }
}

/// The least and the most work among versions; `None` without any.
pub fn spread(sets: &[Vec<Number>], style: &Style) -> Option<(Work, Work)> {
    let works: Vec<Work> = sets.iter().map(|set| Work::of_all(set, style)).collect();
    let blocks = works.iter().map(|work| work.blocks);
    let letters = works.iter().map(|work| work.letters);
    let least = Work { blocks: blocks.clone().min()?, letters: letters.clone().min()? };
    Some((least, Work { blocks: blocks.max()?, letters: letters.max()? }))
}

/// The sets like a first one.
pub(super) struct Like<'a> {
    demand: Demand,
    stock: &'a Stock,
    sampler: Sampler,
    goal: Work,
    style: Style,
}

impl<'a> Like<'a> {
    /// The sets with the profile of `first`, met as the demand's own sampler `of` meets its sets.
    pub fn new(demand: &Demand, stock: &'a Stock, first: &[u32], style: Style, of: &Sampler) -> Self {
        let demand = demand.like(first);
        let sampler = of.likewise(&demand, stock, OPEN);
        Self { demand, stock, sampler, goal: work(first, style), style }
    }

    /// A set that shares nothing with `used` but what all versions must have, as near to the first as was found.
    pub fn draw(&self, used: &BTreeSet<u32>, stream: &mut Stream) -> Option<Vec<u32>> {
        let fresh = |set: &Vec<u32>| set.iter().all(|n| self.demand.always.contains(n) || !used.contains(n));
        // Sets that must be alike are slow to draw, and so are those that are met by walking.
        let some = if self.demand.look_alikes > 0 || self.sampler.walks() { 4 } else { 1 };
        let mut candidates = Vec::new();
        for _ in 0..BLIND / some {
            candidates.extend(self.sampler.draw(stream).filter(fresh));
            if candidates.len() == CANDIDATES / some {
                break;
            }
        }
        if candidates.is_empty() {
            let taken = Taken { barred: used, shared: None };
            let sampler = self.sampler.likewise(&self.demand, self.stock, taken);
            candidates.extend((0..CANDIDATES / some).map_while(|_| sampler.draw(stream)));
        }
        // Each number once, the first in order of the candidates: it would be no better when it is met again.
        let mut met = BTreeSet::new();
        let fresh = candidates.iter().flatten().filter(|n| met.insert(**n));
        let spare: Vec<(u32, Work)> = fresh.map(|&n| (n, one(n, self.style))).collect();
        let far = |set: &Vec<u32>| work(set, self.style).apart(self.goal);
        candidates.sort_by_cached_key(far);
        let mut best: Option<Vec<u32>> = None;
        for candidate in candidates.into_iter().take(TRADED) {
            let traded = self.trade(candidate, &spare);
            if best.as_ref().is_none_or(|best| far(&traded) < far(best)) {
                best = Some(traded);
            }
            if best.as_ref().is_some_and(|best| far(best) == 0) {
                break;
            }
        }
        best
    }

    /// Trades numbers for spare ones while that brings the set nearer.
    fn trade(&self, mut set: Vec<u32>, spare: &[(u32, Work)]) -> Vec<u32> {
        let mut now = work(&set, self.style);
        let count = set.len() as u64;
        let cost = if self.demand.look_alikes > 0 { count.pow(2) } else { 20 * count };
        while now.apart(self.goal) > 0 {
            let mut best = None;
            let mut apart = now.apart(self.goal);
            for at in 0..set.len() {
                let without = now.minus(one(set[at], self.style));
                for &(number, takes) in spare {
                    let after = without.plus(takes);
                    let nearer = after.apart(self.goal) < apart;
                    if nearer && !set.contains(&number) && self.stock.meter.spend(cost).is_some() {
                        let mut traded = set.clone();
                        traded[at] = number;
                        if self.demand.holds(&traded) {
                            apart = after.apart(self.goal);
                            best = Some((traded, after));
                        }
                    }
                }
            }
            let Some((traded, after)) = best else { break };
            (set, now) = (traded, after);
        }
        set.sort_unstable();
        set
    }
}

fn one(value: u32, style: Style) -> Work {
    Work::of(number(value), &style)
}

fn work(set: &[u32], style: Style) -> Work {
    set.iter().fold(Work { blocks: 0, letters: 0 }, |sum, &value| sum.plus(one(value, style)))
}
