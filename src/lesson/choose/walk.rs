//! A set by trading numbers, where counting all sets would take too much: many requests at once on a wide range.
//!
//! In: a demand and what is taken. Out: a set that meets all of it, or none where none was met on the way. A walk (Metropolis,
//! Rosenbluth, Rosenbluth, Teller and Teller, 1953) goes from set to set by one trade at a time, each as likely as its way
//! back; trades that break a request are seldom made. Once all requests are met it goes on for a while and takes the next
//! set that meets them: near enough to an even choice for a class, though nobody has counted.

use std::collections::BTreeMap;

use super::demand::{Demand, Facts, alike};
use super::meter::Meter;
use super::pool::Taken;
use crate::rng::Stream;

/// How many trades are tried for each number of a set until all requests are met.
const SEARCH: u64 = 4_000;
/// How many for each number after that.
const MIX: u64 = 120;
/// A trade that breaks one request more is made once in so many times.
const SELDOM: u64 = 8;

/// A walk among the sets of one demand.
pub(super) struct Walk<'a> {
    demand: &'a Demand,
    taken: Taken<'a>,
    /// The numbers that may be traded, behind those that must be there.
    set: Vec<u32>,
    facts: Vec<Facts>,
    fixed: usize,
}

impl<'a> Walk<'a> {
    /// A set that meets the demand; `None` when none was met.
    pub fn draw(demand: &'a Demand, taken: Taken<'a>, meter: &Meter, stream: &mut Stream) -> Option<Vec<u32>> {
        let mut walk = Self::begin(demand, taken, stream)?;
        let count = walk.set.len() as u64;
        let cost = 4 * count + if demand.look_alikes > 0 { count.pow(2) / 2 } else { 0 };
        let mut now = walk.amiss();
        let mut searched = 0;
        while now > 0 {
            searched += 1;
            if searched > SEARCH * count {
                return None;
            }
            meter.spend(cost)?;
            let change = if stream.below(3) == 0 { walk.join(stream) } else { walk.trade(stream) };
            now = walk.step(&change, now, stream);
        }
        let mut found = walk.set.clone();
        for _ in 0..MIX * count {
            meter.spend(cost)?;
            let change = walk.trade(stream);
            now = walk.step(&change, now, stream);
            if now == 0 {
                found.clone_from(&walk.set);
            }
        }
        found.sort_unstable();
        demand.holds(&found).then_some(found)
    }

    /// What must be there, and any other numbers.
    fn begin(demand: &'a Demand, taken: Taken<'a>, stream: &mut Stream) -> Option<Self> {
        let set: Vec<u32> = demand.always.iter().copied().collect();
        let mut walk = Self { demand, taken, fixed: set.len(), facts: Vec::new(), set };
        let mut tries = 0;
        while walk.set.len() < demand.count as usize {
            let number = walk.any(stream);
            if walk.allows(number) {
                walk.set.push(number);
            }
            tries += 1;
            if tries > 100_000 {
                return None;
            }
        }
        walk.facts = walk.set.iter().map(|&number| Facts::of(number)).collect();
        (walk.set.len() > walk.fixed).then_some(walk)
    }

    fn any(&self, stream: &mut Stream) -> u32 {
        let width = u64::from(self.demand.high - self.demand.low) + 1;
        self.demand.low + u32::try_from(stream.below(width)).unwrap_or(0)
    }

    fn allows(&self, number: u32) -> bool {
        self.demand.allows(number) && !self.taken.barred.contains(&number) && !self.set.contains(&number)
    }

    /// The index of a number that may be traded.
    fn at(&self, stream: &mut Stream) -> usize {
        self.fixed + stream.index(self.set.len() - self.fixed)
    }

    /// A trade that is as likely as its way back.
    fn trade(&self, stream: &mut Stream) -> Vec<(usize, u32)> {
        let at = self.at(stream);
        let number = self.set[at];
        match stream.below(8) {
            0..=2 => vec![(at, self.any(stream))],
            3..=4 => vec![(at, with_digit(number, place(stream), digit(stream)))],
            5..=6 => vec![(at, swapped(number, place(stream), place(stream)))],
            _ => self.renamed(self.facts[at].family, digit(stream), digit(stream)),
        }
    }

    /// One digit for another in all numbers made of the same digits, which stay so.
    fn renamed(&self, family: u32, one: u32, other: u32) -> Vec<(usize, u32)> {
        let members = (self.fixed..self.set.len()).filter(|&at| self.facts[at].family == family);
        let all: Vec<(usize, u32)> = members.map(|at| (at, exchanged(self.set[at], one, other))).collect();
        // Where it meets others there would be no way back.
        let met = all
            .iter()
            .map(|(_, number)| Facts::of(*number).family)
            .any(|new| self.facts.iter().any(|f| f.family == new));
        // Nor where a first digit becomes a 0 that is not shown.
        let shorter = all.iter().any(|&(at, number)| number.checked_ilog10() != self.set[at].checked_ilog10());
        if met || shorter { Vec::new() } else { all }
    }

    /// A number made more like another: quicker to what is asked, but with no way back that is as likely.
    fn join(&self, stream: &mut Stream) -> Vec<(usize, u32)> {
        let (at, mut model) = (self.at(stream), self.set[stream.index(self.set.len())]);
        for _ in 0..4 {
            model = swapped(model, place(stream), place(stream));
        }
        if stream.below(2) == 0 {
            model = with_digit(model, place(stream), digit(stream));
        }
        vec![(at, model)]
    }

    /// Makes a change, or leaves it; what is amiss then.
    fn step(&mut self, change: &[(usize, u32)], now: u32, stream: &mut Stream) -> u32 {
        if change.is_empty() || !change.iter().all(|(_, number)| self.allows(*number)) {
            return now;
        }
        let before: Vec<(usize, u32)> = change.iter().map(|&(at, _)| (at, self.set[at])).collect();
        self.put(change);
        let then = self.amiss();
        let worse = then.saturating_sub(now).min(6);
        if worse > 0 && stream.below(SELDOM.pow(worse)) > 0 {
            self.put(&before);
            return now;
        }
        then
    }

    fn put(&mut self, change: &[(usize, u32)]) {
        for &(at, number) in change {
            self.set[at] = number;
            self.facts[at] = Facts::of(number);
        }
    }

    /// By how much the set misses what is asked, each request counted for itself.
    fn amiss(&self) -> u32 {
        let demand = self.demand;
        let off = |have: u32, min: u32, max: Option<u32>| {
            min.saturating_sub(have) + max.map_or(0, |max| have.saturating_sub(max))
        };
        let mut amiss = 0;
        for (feature, bound) in &demand.wants {
            let having: u32 = self.facts.iter().map(|facts| u32::from(facts.bits >> feature.bit() & 1)).sum();
            amiss += off(having, bound.min, bound.max);
        }
        if let Some(bound) = demand.same_digits {
            let mut groups: BTreeMap<u32, u32> = BTreeMap::new();
            for facts in &self.facts {
                *groups.entry(facts.family).or_default() += 1;
            }
            let largest = groups.values().max().copied().unwrap_or(0);
            // Every group that is too large is a mistake of its own.
            let over = bound.max.map_or(0, |max| groups.values().map(|size| size.saturating_sub(max)).sum());
            amiss += bound.min.saturating_sub(largest) + over;
        }
        if demand.look_alikes > 0 {
            for (at, one) in self.facts.iter().enumerate() {
                let others =
                    self.facts.iter().enumerate().filter(|(k, other)| *k != at && alike(one.family, other.family));
                amiss += demand.look_alikes.saturating_sub(others.count() as u32);
            }
        }
        if let Some((shared, most)) = self.taken.shared {
            let shared = self.set.iter().skip(self.fixed).filter(|number| shared.contains(number)).count();
            amiss += (shared as u32).saturating_sub(most);
        }
        amiss
    }
}

/// The values of six places, from the ones up.
const PLACES: [u32; 6] = [1, 10, 100, 1_000, 10_000, 100_000];

fn place(stream: &mut Stream) -> usize {
    stream.index(PLACES.len())
}

fn digit(stream: &mut Stream) -> u32 {
    u32::try_from(stream.index(10)).unwrap_or(0)
}

fn digit_at(number: u32, place: usize) -> u32 {
    number / PLACES[place] % 10
}

fn with_digit(number: u32, place: usize, digit: u32) -> u32 {
    number - digit_at(number, place) * PLACES[place] + digit * PLACES[place]
}

/// Two places exchanged.
fn swapped(number: u32, one: usize, other: usize) -> u32 {
    let (a, b) = (digit_at(number, one), digit_at(number, other));
    with_digit(with_digit(number, one, b), other, a)
}

/// One digit for another and back, wherever the numeral shows them.
fn exchanged(number: u32, one: u32, other: u32) -> u32 {
    let shown = |place: &usize| *place == 0 || number >= PLACES[*place];
    (0..PLACES.len()).filter(shown).fold(number, |made, place| match digit_at(number, place) {
        digit if digit == one => with_digit(made, place, other),
        digit if digit == other => with_digit(made, place, one),
        _ => made,
    })
}
