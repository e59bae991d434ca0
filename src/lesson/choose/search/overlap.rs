//! All sets of a tight lesson at once: an exact search for sets that overlap at most so much.
//!
//! Sets are decided one after the other, each as a number of numbers from every bin of interchangeable ones. What is left
//! in the bins afterwards decides all that follows, so a remainder that failed once is never tried again.

use std::collections::{BTreeMap, BTreeSet};

use crate::lesson::Role;
use crate::lesson::choose::budget::Budget;
use crate::lesson::choose::count::each;
use crate::lesson::choose::demand::Demand;
use crate::number::{Digits, Feature, Number};
use crate::rng::Stream;

/// How many steps one search may take.
const STEPS: u32 = 400_000;
/// How many bins there may be.
const BINS: usize = 250;

/// What a search found.
pub(super) enum Outcome {
    /// Sets, one a seat.
    Sets(Vec<Vec<Number>>),
    /// There are none.
    None,
    /// Neither, within the steps allowed.
    Unknown,
}

/// The numbers of a lesson in bins, and who needs sets of them.
pub(super) struct Overlap<'a> {
    seats: &'a [(Role, &'a Demand)],
    bins: Vec<Bin>,
    /// What this search may still take.
    steps: u32,
    /// What is left for the whole lesson.
    budget: &'a Budget,
    dead: BTreeSet<DeadEnd>,
}

/// A seat from which there was no way on: what was left in each bin, the overlap still allowed, and the profile the seat
/// must have.
type DeadEnd = (usize, Vec<usize>, usize, (Vec<u32>, u32));

/// Numbers that no seat can tell apart.
struct Bin {
    numbers: Vec<Number>,
    /// The roles that must have it; then it is a bin of one.
    always: Vec<Role>,
    /// Whether they are all of one digit.
    is_one: bool,
    bits: u16,
}

impl Bin {
    fn has(&self, feature: Feature) -> bool {
        self.bits >> feature.index() & 1 == 1
    }
}

/// How far a search has come.
struct Course {
    /// How many of each bin are unused.
    left: Vec<usize>,
    /// How much more overlap is allowed.
    allowed: usize,
    /// What was taken, by seat.
    taken: Vec<Vec<usize>>,
}

impl<'a> Overlap<'a> {
    /// Sorts the numbers into bins; `None` when there are too many.
    pub fn new(seats: &'a [(Role, &'a Demand)], budget: &'a Budget) -> Option<Self> {
        let demands = || seats.iter().map(|(_, demand)| demand);
        let by_digits = demands().any(|demand| demand.same_digits.is_some());
        let asked = demands().flat_map(|demand| demand.features.keys()).fold(0, |mask, f| mask | 1_u16 << f.index());
        let by_kind = demands().any(|demand| demand.mixed);
        let mut bins: BTreeMap<(Option<Digits>, u16, bool, Option<Number>), Bin> = BTreeMap::new();
        each(seats.first()?.1, |number, features| {
            if bins.len() <= BINS {
                let must = seats.iter().filter(|(_, demand)| demand.always.contains(&number));
                let mut always: Vec<Role> = must.map(|(role, _)| *role).collect();
                always.dedup();
                let own = (!always.is_empty()).then_some(number);
                let bits = features.bits() & asked;
                let is_one = by_kind && features.digits().is_one();
                let key = (by_digits.then_some(features.digits()), bits, is_one, own);
                let bin = bins.entry(key).or_insert_with(|| Bin { numbers: Vec::new(), always, is_one, bits });
                bin.numbers.push(number);
            }
        });
        let bins = (bins.len() <= BINS).then(|| bins.into_values().collect())?;
        Some(Self { seats, bins, steps: STEPS, budget, dead: BTreeSet::new() })
    }

    /// Sets that overlap at most `allowed` beyond what several roles must have.
    pub fn sets(&mut self, allowed: usize, stream: &mut Stream) -> Outcome {
        self.steps = STEPS;
        // A number that some role must have is used up from the start; the seats that must have it take it for nothing.
        let left = self.bins.iter().map(|bin| if bin.always.is_empty() { bin.numbers.len() } else { 0 }).collect();
        let mut course = Course { left, allowed, taken: Vec::new() };
        match self.seat(&mut course) {
            Some(true) => Outcome::Sets(self.numbers(&course.taken, stream)),
            Some(false) => Outcome::None,
            None => Outcome::Unknown,
        }
    }

    /// Decides the next seat; `None` when the steps run out.
    fn seat(&mut self, course: &mut Course) -> Option<bool> {
        let at = course.taken.len();
        let Some(&(role, demand)) = self.seats.get(at) else { return Some(true) };
        // Versions have the profile of the first.
        let first = self.seats[..at].iter().position(|(other, _)| *other == role);
        let first = first.map(|first| self.example(&course.taken[first]));
        let demand = first.as_ref().map_or_else(|| demand.clone(), |first| demand.like(first));
        let profile = first.map_or_else(Default::default, |first| demand.profile(&first));
        let key = (at, course.left.clone(), course.allowed, profile);
        if self.dead.contains(&key) {
            return Some(false);
        }
        let found = self.bin(course, role, &demand, &mut Vec::new(), demand.count as usize)?;
        if !found {
            self.dead.insert(key);
        }
        Some(found)
    }

    /// Decides how many of the next bin the current seat takes.
    fn bin(
        &mut self,
        course: &mut Course,
        role: Role,
        demand: &Demand,
        taken: &mut Vec<usize>,
        room: usize,
    ) -> Option<bool> {
        self.steps = self.steps.checked_sub(1)?;
        // Each step goes through all bins for each request.
        self.budget.spend(self.bins.len() as u64 * (1 + demand.features.len() as u64) / 4)?;
        let at = taken.len();
        let Some(bin) = self.bins.get(at) else {
            if room > 0 || !demand.holds(&self.example(taken)) {
                return Some(false);
            }
            course.taken.push(taken.clone());
            let found = self.seat(course)?;
            if !found {
                course.taken.pop();
            }
            return Some(found);
        };
        if !self.hopeful(demand, taken, room) {
            return Some(false);
        }
        let mine = bin.always.contains(&role);
        let (left, allowed) = (course.left[at], course.allowed);
        // As many as are unused first: what overlaps comes last. What the role must have is neither left out nor overlap.
        let unused = if mine { 1 } else { left }.min(room);
        let barred = demand.mixed && bin.is_one && !mine;
        let (unused, most) = if barred { (0, 0) } else { (unused, bin.numbers.len().min(room)) };
        for used in (usize::from(mine)..=unused).rev().chain(unused + 1..=most) {
            let over = used.saturating_sub(unused.max(usize::from(mine)));
            let Some(allowed) = allowed.checked_sub(over) else { break };
            course.allowed = allowed;
            course.left[at] = if mine { left } else { left.saturating_sub(used) };
            taken.push(used);
            let found = self.bin(course, role, demand, taken, room - used)?;
            taken.pop();
            if found {
                return Some(true);
            }
        }
        (course.left[at], course.allowed) = (left, allowed);
        Some(false)
    }

    /// Whether features can still come right with `room` more numbers from the bins to come.
    fn hopeful(&self, demand: &Demand, taken: &[usize], room: usize) -> bool {
        let to_come = || self.bins[taken.len()..].iter();
        to_come().map(|bin| bin.numbers.len()).sum::<usize>() >= room
            && demand.features.iter().all(|(&feature, bound)| {
                let so_far = self.bins.iter().zip(taken).filter(|(bin, _)| bin.has(feature));
                let having: usize = so_far.map(|(_, &used)| used).sum();
                let more: usize = to_come().filter(|bin| bin.has(feature)).map(|bin| bin.numbers.len()).sum();
                having + more.min(room) >= bound.min as usize && bound.max.is_none_or(|max| having <= max as usize)
            })
    }

    /// Some set with so many of each bin.
    fn example(&self, taken: &[usize]) -> Vec<Number> {
        self.bins.iter().zip(taken).flat_map(|(bin, &used)| bin.numbers[..used].iter().copied()).collect()
    }

    /// Numbers for every seat: each bin is given out in turn, from the top again when it is used up.
    fn numbers(&self, taken: &[Vec<usize>], stream: &mut Stream) -> Vec<Vec<Number>> {
        let mut sets = vec![Vec::new(); taken.len()];
        for (at, bin) in self.bins.iter().enumerate() {
            let mut numbers = bin.numbers.clone();
            stream.shuffle(&mut numbers);
            let mut next = numbers.iter().copied().cycle();
            for (set, taken) in sets.iter_mut().zip(taken) {
                set.extend(next.by_ref().take(taken[at]));
            }
        }
        for set in &mut sets {
            set.sort_unstable();
        }
        sets
    }
}
