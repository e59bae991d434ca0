//! The sets of a lesson, each in its seat: who needs one, and how much they overlap.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::budget::Budget;
use super::count::{Candidates, Solutions};
use super::demand::Demand;
use crate::lesson::Role;
use crate::number::{Number, Style};

/// A set and the role it is for.
pub(super) type Seat = (Role, Vec<Number>);

/// The sets of a lesson: model, sort A, B, ..., exit; roles left out are missing.
#[derive(Debug)]
pub(super) struct Seated {
    /// Whose set, and which numbers, rising.
    pub seats: Vec<Seat>,
    /// How many uses of a number are one too many.
    pub overlap: usize,
    /// Whether it is known that no choice overlaps less.
    pub proven: bool,
}

/// What a role or a version asks, and the sets that meet it.
pub(super) type Counted = (Demand, Arc<Solutions>);

/// What all sets of a lesson have to be.
pub(super) struct Seating<'a> {
    /// What each role that is not left out asks, and its sets; of the sort numbers what the version asks that is drawn first.
    pub roles: &'a BTreeMap<Role, Counted>,
    /// What each version asks and its sets, where they do not all ask the same; else empty.
    pub sorts: &'a [Counted],
    /// Which version is drawn first; the others are to be as hard.
    pub first: usize,
    /// The numbers there are.
    pub candidates: &'a Candidates,
    /// How many sort sets.
    pub versions: u32,
    /// The lesson's seed.
    pub seed: u64,
    /// How words are written; versions should take equally long to write.
    pub style: Style,
    /// What is left for fitting sets to each other.
    pub budget: Budget,
}

/// The numbers that the versions but one ask for by themselves.
pub(super) fn named_elsewhere(sorts: &[Counted], version: usize) -> BTreeSet<Number> {
    let others = sorts.iter().enumerate().filter(|(other, _)| *other != version);
    others.filter_map(|(_, (demand, _))| demand.own.as_ref()).flat_map(|(_, own)| own.iter().copied()).collect()
}

impl Seating<'_> {
    /// What a role asks that is not left out.
    pub fn demand(&self, role: Role) -> &Demand {
        &self.roles[&role].0
    }

    /// What a version asks of its sort numbers.
    pub fn sort(&self, version: usize) -> &Demand {
        self.sorts.get(version).map_or_else(|| self.demand(Role::Sort), |(demand, _)| demand)
    }

    /// What the set in a seat has to meet.
    pub fn demand_at(&self, seats: &[Seat], at: usize) -> &Demand {
        match seats[at].0 {
            Role::Sort => self.sort(seats[..at].iter().filter(|(role, _)| *role == Role::Sort).count()),
            role => self.demand(role),
        }
    }

    /// How many sets a role needs.
    pub fn copies(&self, role: Role) -> u32 {
        if role == Role::Sort { self.versions } else { 1 }
    }

    /// The numbers that each role must have, and of the sort numbers each version; as often as they are asked for.
    fn always(&self) -> impl Iterator<Item = Number> {
        let common = self.roles.values().flat_map(|(demand, _)| demand.common());
        let own = self.sorts.iter().filter_map(|(demand, _)| demand.own.as_ref());
        common.chain(own.flat_map(|(_, own)| own.iter().copied()))
    }

    /// Numbers that several sets must have: they overlap in any case.
    pub fn forced(&self) -> BTreeSet<Number> {
        let mut seen = BTreeSet::new();
        self.always().filter(|&number| !seen.insert(number)).collect()
    }

    /// How often numbers that several sets must have are used once too many.
    pub fn forced_overlap(&self) -> usize {
        self.always().count() - self.always().collect::<BTreeSet<Number>>().len()
    }

    /// How many uses of a number are one too many. What all versions must have counts once among them.
    pub fn overlap(&self, seats: &[Seat]) -> usize {
        let everywhere: BTreeSet<Number> =
            self.roles.get(&Role::Sort).into_iter().flat_map(|(demand, _)| demand.common()).collect();
        let (mut seen, mut counted, mut overlap) = (BTreeSet::new(), BTreeSet::new(), 0);
        for (role, set) in seats {
            for &number in set {
                let in_all = *role == Role::Sort && everywhere.contains(&number);
                if !in_all || counted.insert(number) {
                    overlap += usize::from(!seen.insert(number));
                }
            }
        }
        overlap
    }

    /// An overlap no choice can avoid: what two sets must both have, and what there are too few numbers for.
    pub fn least_overlap(&self) -> usize {
        let needed = self.roles.iter().map(|(&role, (demand, _))| {
            let common = demand.common().count();
            common + (demand.count as usize - common) * self.copies(role) as usize
        });
        self.forced_overlap().max(needed.sum::<usize>().saturating_sub(self.candidates.len()))
    }
}
