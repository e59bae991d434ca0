//! All sets of a tight lesson at once: an exact search for sets that overlap at most so much.
//!
//! Sets are decided one after the other, each as a number of numbers from every class of interchangeable ones. What is left
//! of the classes afterwards decides all that follows, so a remainder that failed once is never tried again.

use std::collections::{BTreeMap, BTreeSet};

use super::demand::Demand;
use super::meter::Meter;
use super::scan;
use crate::lesson::Role;
use crate::rng::Stream;

/// What the search found.
pub(super) enum Dealt {
    /// Sets, one a seat.
    Sets(Vec<Vec<u32>>),
    /// There are none.
    None,
    /// Neither, within the steps allowed.
    Unknown,
}

/// The numbers of a lesson in classes, and who needs sets of them.
pub(super) struct Deal<'a> {
    seats: &'a [(Role, &'a Demand)],
    classes: Vec<Class>,
    allowed: u32,
    steps: u32,
    /// What is left of the work for the whole lesson.
    meter: Meter,
    /// What was left of the classes, and of the overlap, before a seat from which there was no way on.
    dead: BTreeSet<Dead>,
}

/// A seat, what is unused of each class, the overlap still allowed, and the profile the seat must have.
type Dead = (usize, Vec<u8>, usize, (Vec<u32>, u32));

/// Numbers that no seat can tell apart.
struct Class {
    numbers: Vec<u32>,
    /// The roles that must have it; then it is a class of one.
    always: Vec<Role>,
    bits: u16,
}

/// How far a deal has come.
struct State {
    /// How many of each class are unused.
    left: Vec<u8>,
    /// How much more overlap is allowed.
    slack: usize,
    /// What was taken, by seat.
    taken: Vec<Vec<u8>>,
}

impl<'a> Deal<'a> {
    /// The deal of a lesson; `None` when it has more than `most` classes.
    pub fn new(seats: &'a [(Role, &'a Demand)], steps: u32, most: usize, meter: &Meter) -> Option<Self> {
        let demand = seats.first()?.1;
        let families = seats.iter().any(|(_, demand)| demand.same_digits.is_some() || demand.look_alikes > 0);
        let wanted =
            seats.iter().flat_map(|(_, demand)| demand.wants.keys()).fold(0_u16, |mask, f| mask | 1 << f.bit());
        let mut classes: BTreeMap<(u32, u16, Option<u32>), Class> = BTreeMap::new();
        for (number, facts) in scan::numbers(demand, &BTreeSet::new()) {
            let mut always: Vec<Role> =
                seats.iter().filter(|(_, demand)| demand.always.contains(&number)).map(|(role, _)| *role).collect();
            always.dedup();
            let own = (!always.is_empty()).then_some(number);
            let key = (if families { facts.family } else { 0 }, facts.bits & wanted, own);
            let class =
                classes.entry(key).or_insert_with(|| Class { numbers: Vec::new(), always, bits: facts.bits & wanted });
            class.numbers.push(number);
            if classes.len() > most || class_full(&classes, key) {
                return None;
            }
        }
        let (classes, dead) = (classes.into_values().collect(), BTreeSet::new());
        Some(Self { seats, classes, allowed: steps, steps, meter: meter.clone(), dead })
    }

    /// Sets that overlap at most `slack` beyond what several roles must have.
    pub fn deal(&mut self, slack: usize, stream: &mut Stream) -> Dealt {
        // A number that some role must have is used up from the start; the seats that must have it take it for nothing.
        self.steps = self.allowed;
        let left =
            self.classes.iter().map(|class| if class.always.is_empty() { len(&class.numbers) } else { 0 }).collect();
        let mut state = State { left, slack, taken: Vec::new() };
        match self.seat(&mut state) {
            Some(true) => Dealt::Sets(self.name(&state.taken, stream)),
            Some(false) => Dealt::None,
            None => Dealt::Unknown,
        }
    }

    /// Decides the next seat; `None` when the steps run out.
    fn seat(&mut self, state: &mut State) -> Option<bool> {
        let at = state.taken.len();
        let Some(&(role, demand)) = self.seats.get(at) else { return Some(true) };
        // Versions have the profile of the first.
        let first = self.seats[..at].iter().position(|(other, _)| *other == role);
        let demand = first.map_or_else(|| demand.clone(), |first| demand.like(&self.sample(&state.taken[first])));
        let profile = first.map_or_else(Default::default, |first| demand.profile(&self.sample(&state.taken[first])));
        let key = (at, state.left.clone(), state.slack, profile);
        if self.dead.contains(&key) {
            return Some(false);
        }
        let found = self.class(state, role, &demand, &mut Vec::new(), demand.count as usize)?;
        if !found {
            self.dead.insert(key);
        }
        Some(found)
    }

    /// Decides how many of the next class the current seat takes.
    fn class(
        &mut self,
        state: &mut State,
        role: Role,
        demand: &Demand,
        taken: &mut Vec<u8>,
        room: usize,
    ) -> Option<bool> {
        self.steps = self.steps.checked_sub(1)?;
        // Each step goes through all classes for each request.
        self.meter.spend(self.classes.len() as u64 * (1 + demand.wants.len() as u64))?;
        let at = taken.len();
        if at == self.classes.len() {
            if room > 0 || !demand.holds(&self.sample(taken)) {
                return Some(false);
            }
            state.taken.push(taken.clone());
            let found = self.seat(state)?;
            if !found {
                state.taken.pop();
            }
            return Some(found);
        }
        if !self.hopeful(demand, taken, room) {
            return Some(false);
        }
        let class = &self.classes[at];
        let size = len(&class.numbers);
        let mine = class.always.contains(&role);
        let before = (state.left[at], state.slack);
        // As many as are unused first: what overlaps comes last.
        let unused = usize::from(if mine { 1 } else { before.0 }).min(room);
        let most = usize::from(size).min(room);
        for used in (0..=unused).rev().chain(unused + 1..=most) {
            if mine && used == 0 {
                continue;
            }
            let over = used.saturating_sub(unused.max(usize::from(mine)));
            let Some(slack) = before.1.checked_sub(over) else { continue };
            state.slack = slack;
            state.left[at] = before.0.saturating_sub(if mine { 0 } else { u8::try_from(used).unwrap_or(u8::MAX) });
            taken.push(u8::try_from(used).unwrap_or(u8::MAX));
            let found = self.class(state, role, demand, taken, room - used)?;
            taken.pop();
            if found {
                return Some(true);
            }
        }
        (state.left[at], state.slack) = before;
        Some(false)
    }

    /// Whether the features of a seat can still come right with `room` more numbers from the classes to come.
    fn hopeful(&self, demand: &Demand, taken: &[u8], room: usize) -> bool {
        let to_come: usize = self.classes[taken.len()..].iter().map(|class| class.numbers.len()).sum();
        to_come >= room
            && demand.wants.iter().all(|(feature, bound)| {
                let with = |class: &&Class| class.bits >> feature.bit() & 1 == 1;
                let so_far = self.classes.iter().zip(taken).filter(|(class, _)| with(class));
                let having: usize = so_far.map(|(_, &used)| usize::from(used)).sum();
                let more: usize =
                    self.classes[taken.len()..].iter().filter(with).map(|class| class.numbers.len()).sum();
                having + more.min(room) >= bound.min as usize && bound.max.is_none_or(|max| having <= max as usize)
            })
    }

    /// Some set with so many of each class.
    fn sample(&self, taken: &[u8]) -> Vec<u32> {
        let chosen = self.classes.iter().zip(taken);
        chosen.flat_map(|(class, &used)| class.numbers[..usize::from(used)].iter().copied()).collect()
    }

    /// Numbers for every seat: each class is dealt out in turn, from the top again when it is used up.
    fn name(&self, taken: &[Vec<u8>], stream: &mut Stream) -> Vec<Vec<u32>> {
        let mut sets = vec![Vec::new(); taken.len()];
        for (at, class) in self.classes.iter().enumerate() {
            let mut numbers = class.numbers.clone();
            stream.shuffle(&mut numbers);
            let mut next = numbers.iter().copied().cycle();
            for (set, taken) in sets.iter_mut().zip(taken) {
                set.extend(next.by_ref().take(usize::from(taken[at])));
            }
        }
        for set in &mut sets {
            set.sort_unstable();
        }
        sets
    }
}

/// Whether a class has outgrown a byte.
fn class_full(classes: &BTreeMap<(u32, u16, Option<u32>), Class>, key: (u32, u16, Option<u32>)) -> bool {
    classes.get(&key).is_some_and(|class| class.numbers.len() >= usize::from(u8::MAX))
}

fn len(numbers: &[u32]) -> u8 {
    u8::try_from(numbers.len()).unwrap_or(u8::MAX)
}
