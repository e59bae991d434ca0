//! All roles and versions together: disjoint where the range allows, else with the least overlap.
//!
//! First model, version A and exit are drawn evenly and independently and kept when no two share a number: so they are
//! even among all disjoint triples. The other versions are drawn from the sets with the same profile as A (see
//! [`super::versions`]). When the range is too tight for that, sets are redrawn one at a time so that each shares as few
//! numbers as possible with the rest, from several beginnings; an exact search ([`super::deal`]) then finds less overlap or
//! proves that there is none.

use std::collections::{BTreeMap, BTreeSet};

use super::deal::{Deal, Dealt};
use super::demand::Demand;
use super::pool::Taken;
use super::sampler::Sampler;
use super::stock::Stock;
use super::versions;
use crate::lesson::Role;
use crate::number::Style;
use crate::rng::Stream;

/// How many independent draws are made before sets are fitted around each other.
const EVEN_TRIES: u32 = 128;
/// The same where sets are met by walking, which takes longer.
const WALKED_TRIES: u32 = 8;
/// How many beginnings the fitting has.
const BEGINNINGS: u32 = 4;
/// How many sets are redrawn from each beginning without getting nearer.
const REDRAWS: u32 = 16;
/// How many steps the exact search for less overlap may take, for each overlap tried.
const STEPS: u32 = 400_000;
/// How many classes of numbers it may have to look at.
const CLASSES: usize = 250;

/// The sets of a lesson: model, sort A, B, ..., exit; roles left out are missing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Sets {
    /// Whose set, and which numbers, rising.
    pub seats: Vec<(Role, Vec<u32>)>,
    /// How many uses of a number are one too many.
    pub overlap: usize,
    /// Whether it is known that no choice overlaps less.
    pub proven: bool,
}

/// What all sets have to be.
pub(super) struct Table<'a> {
    /// The demands of the roles that are not left out.
    pub demands: &'a BTreeMap<Role, Demand>,
    /// The numbers there are.
    pub stock: &'a Stock,
    /// The sets of each role.
    pub samplers: &'a BTreeMap<Role, Sampler>,
    /// How many sort sets.
    pub versions: u32,
    /// The lesson's seed.
    pub seed: u64,
    /// How words are written; versions should take equally long to write.
    pub style: Style,
}

impl Table<'_> {
    /// Draws all sets; every role has at least one set of its own. `None` is a bug.
    pub fn draw(&self) -> Option<Sets> {
        if let Some(sets) = self.draw_evenly() {
            return Some(sets);
        }
        self.fit()
    }

    /// Numbers that several roles must have: they overlap in any case.
    fn forced(&self) -> BTreeSet<u32> {
        let mut seen = BTreeSet::new();
        let all = self.demands.values().flat_map(|demand| &demand.always).copied();
        all.filter(|&number| !seen.insert(number)).collect()
    }

    fn draw_evenly(&self) -> Option<Sets> {
        let forced = self.forced();
        let streams = self.demands.keys().map(|&role| (role, Stream::new(self.seed, role.word())));
        let mut streams: Vec<(Role, Stream)> = streams.collect();
        let walks = self.samplers.values().any(Sampler::walks);
        'tries: for _ in 0..if walks { WALKED_TRIES } else { EVEN_TRIES } {
            if self.stock.meter.is_spent() {
                break;
            }
            let mut used = BTreeSet::new();
            let mut seats = Vec::new();
            for (role, stream) in &mut streams {
                let set = self.samplers[role].draw(stream)?;
                for &number in &set {
                    if !used.insert(number) && !forced.contains(&number) {
                        continue 'tries;
                    }
                }
                seats.push((*role, set));
            }
            if self.add_versions(&mut seats, &mut used).is_some() {
                seats.sort_by_key(|(role, _)| *role);
                return Some(Sets { overlap: self.overlap(&seats), seats, proven: true });
            }
        }
        None
    }

    /// Adds versions B, C, ... that share nothing with what is used.
    fn add_versions(&self, seats: &mut Vec<(Role, Vec<u32>)>, used: &mut BTreeSet<u32>) -> Option<()> {
        let Some(demand) = self.demands.get(&Role::Sort).filter(|_| self.versions > 1) else { return Some(()) };
        let first = seats.iter().find(|(role, _)| *role == Role::Sort)?.1.clone();
        let like = versions::Like::new(demand, self.stock, &first, self.style, &self.samplers[&Role::Sort]);
        for version in 1..self.versions {
            let set = like.draw(used, &mut Stream::new(self.seed, &format!("sort {version}")))?;
            used.extend(&set);
            seats.push((Role::Sort, set));
        }
        Some(())
    }

    /// Fits the sets around each other, with the least overlap.
    fn fit(&self) -> Option<Sets> {
        let least = self.least_overlap();
        let mut stream = Stream::new(self.seed, "fit");
        let mut best: Option<Sets> = None;
        for _ in 0..BEGINNINGS {
            let mut seats = self.begin(&mut stream)?;
            let mut near = self.overlap(&seats);
            let mut idle = 0;
            while near > least && idle < REDRAWS && !self.stock.meter.is_spent() {
                let at = stream.index(seats.len());
                if let Some(set) = self.redraw(&seats, at, &mut stream) {
                    seats[at].1 = set;
                }
                let overlap = self.overlap(&seats);
                idle = if overlap < near { 0 } else { idle + 1 };
                near = near.min(overlap);
            }
            let overlap = self.overlap(&seats);
            if best.as_ref().is_none_or(|sets| overlap < sets.overlap) {
                best = Some(Sets { seats, overlap, proven: overlap <= least });
            }
            if best.as_ref().is_some_and(|sets| sets.proven) {
                return best;
            }
        }
        Some(self.prove(best?, &mut stream))
    }

    /// Less overlap than that of `best`, if there is, by an exact search.
    fn prove(&self, mut best: Sets, stream: &mut Stream) -> Sets {
        let forced = self.demands.values().map(|demand| demand.always.len()).sum::<usize>()
            - self.demands.values().flat_map(|demand| &demand.always).collect::<BTreeSet<_>>().len();
        let seats: Vec<(Role, &Demand)> = best.seats.iter().map(|(role, _)| (*role, &self.demands[role])).collect();
        let Some(mut deal) = Deal::new(&seats, STEPS, CLASSES, &self.stock.meter) else { return best };
        best.proven = true;
        for slack in self.least_overlap().saturating_sub(forced)..best.overlap.saturating_sub(forced) {
            match deal.deal(slack, stream) {
                Dealt::None => {}
                Dealt::Unknown => best.proven = false,
                Dealt::Sets(found) => {
                    best.seats = seats.iter().map(|(role, _)| *role).zip(found).collect();
                    best.overlap = self.overlap(&best.seats);
                    break;
                }
            }
        }
        best
    }

    /// A beginning: each role drawn for itself, every version as A.
    fn begin(&self, stream: &mut Stream) -> Option<Vec<(Role, Vec<u32>)>> {
        let mut seats = Vec::new();
        for (&role, sampler) in self.samplers {
            let set = sampler.draw(stream)?;
            let copies = if role == Role::Sort { self.versions } else { 1 };
            seats.extend((0..copies).map(|_| (role, set.clone())));
        }
        Some(seats)
    }

    /// Another set for one seat that shares as few numbers as possible with the rest.
    fn redraw(&self, seats: &[(Role, Vec<u32>)], at: usize, stream: &mut Stream) -> Option<Vec<u32>> {
        let (role, set) = &seats[at];
        let demand = &self.demands[role];
        let alone = *role != Role::Sort || self.versions == 1;
        let demand = if alone { demand.clone() } else { demand.like(set) };
        let others = seats.iter().enumerate().filter(|(seat, _)| *seat != at);
        let taken: BTreeSet<u32> = others.flat_map(|(_, (_, set))| set.iter().copied()).collect();
        let barred = BTreeSet::new();
        (0..=demand.count).find_map(|most| {
            let taken = Taken { barred: &barred, shared: Some((&taken, most)) };
            self.samplers[role].likewise(&demand, self.stock, taken).draw(stream)
        })
    }

    /// How many uses of a number are one too many. What all versions must have counts once among them.
    pub fn overlap(&self, seats: &[(Role, Vec<u32>)]) -> usize {
        let everywhere = self.demands.get(&Role::Sort).map(|demand| demand.always.clone()).unwrap_or_default();
        let mut seen = BTreeSet::new();
        let mut counted = BTreeSet::new();
        let mut overlap = 0;
        for (role, set) in seats {
            for &number in set {
                if *role == Role::Sort && everywhere.contains(&number) && !counted.insert(number) {
                    continue;
                }
                overlap += usize::from(!seen.insert(number));
            }
        }
        overlap
    }

    /// An overlap no choice can avoid: what two roles must both have, and what the pool is too small for.
    fn least_overlap(&self) -> usize {
        let mut forced = 0;
        let mut seen = BTreeSet::new();
        let mut needed = 0;
        for (role, demand) in self.demands {
            forced += demand.always.iter().filter(|&&number| !seen.insert(number)).count();
            let copies = if *role == Role::Sort { self.versions as usize } else { 1 };
            needed += demand.always.len() + (demand.count as usize - demand.always.len()) * copies;
        }
        let pool = self.stock.len();
        forced.max(needed.saturating_sub(pool))
    }
}
