//! Versions as hard as the first: the same profile, and as near as possible in blocks to build and letters to write.
//!
//! Several sets with the profile of the first are drawn evenly; the nearest is then brought nearer still by trading single
//! numbers for numbers of the others, as long as the profile stays.

use std::collections::BTreeSet;

use super::budget::Budget;
use super::count::{Avoided, Candidates, Solutions};
use super::demand::Demand;
use crate::measure::Count;
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
        Self { blocks: number.digits().map(|(_, digit)| u32::from(digit)).sum(), letters: letters.narrow() }
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
    pub fn apart(self, other: Self) -> u32 {
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
pub(super) struct Versions<'a> {
    demand: Demand,
    candidates: &'a Candidates,
    budget: &'a Budget,
    solutions: Solutions,
    goal: Work,
    style: Style,
}

impl<'a> Versions<'a> {
    /// The sets that meet a demand, as near to `first` in work as can be; `None` when counting them takes more than is left of
    /// the steps.
    pub fn of(
        first: &[Number],
        demand: &Demand,
        candidates: &'a Candidates,
        budget: &'a Budget,
        style: Style,
    ) -> Option<Self> {
        let solutions = Solutions::new(demand, candidates, Avoided::default(), budget).ok()?;
        let goal = Work::of_all(first, &style);
        Some(Self { demand: demand.clone(), candidates, budget, solutions, goal, style })
    }

    /// A set that shares nothing with `used` but what all versions must have, as near to the first as was found.
    pub fn draw(&self, used: &BTreeSet<Number>, stream: &mut Stream) -> Option<Vec<Number>> {
        let fresh = |set: &Vec<Number>| set.iter().all(|n| self.demand.always.contains(n) || !used.contains(n));
        let mut candidates = Vec::new();
        for _ in 0..BLIND {
            candidates.extend(Some(self.solutions.draw(stream)).filter(fresh));
            if candidates.len() == CANDIDATES {
                break;
            }
        }
        if candidates.is_empty() {
            let avoided = Avoided { barred: Some(used), shared: None };
            let solutions = Solutions::new(&self.demand, self.candidates, avoided, self.budget).ok()?;
            candidates.extend((0..CANDIDATES).map(|_| solutions.draw(stream)));
        }
        // Each number once, the first in order of the candidates: it would be no better when it is met again.
        let mut met = BTreeSet::new();
        let fresh = candidates.iter().flatten().filter(|n| met.insert(**n));
        let spare: Vec<(Number, Work)> = fresh.map(|&n| (n, Work::of(n, &self.style))).collect();
        let far = |set: &Vec<Number>| Work::of_all(set, &self.style).apart(self.goal);
        candidates.sort_by_cached_key(far);
        let mut best: Option<Vec<Number>> = None;
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
    fn trade(&self, mut set: Vec<Number>, spare: &[(Number, Work)]) -> Vec<Number> {
        let mut now = Work::of_all(&set, &self.style);
        // Whether a set holds is a look at each of its numbers, some four steps.
        let steps = 4 * set.len() as u64;
        while now.apart(self.goal) > 0 {
            let mut best = None;
            let mut apart = now.apart(self.goal);
            for at in 0..set.len() {
                let without = now.minus(Work::of(set[at], &self.style));
                for &(number, takes) in spare {
                    let after = without.plus(takes);
                    let nearer = after.apart(self.goal) < apart;
                    if nearer && !set.contains(&number) && self.budget.spend(steps).is_some() {
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
