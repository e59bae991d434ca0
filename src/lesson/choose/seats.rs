//! The sets of a lesson, each in its seat: who needs one, and how much they overlap.

use std::collections::{BTreeMap, BTreeSet};

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

/// What all sets of a lesson have to be.
pub(super) struct Seating<'a> {
    /// What each role that is not left out asks, and its sets.
    pub roles: &'a BTreeMap<Role, (Demand, Solutions)>,
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

impl Seating<'_> {
    /// What a role asks that is not left out.
    pub fn demand(&self, role: Role) -> &Demand {
        &self.roles[&role].0
    }

    /// How many sets a role needs.
    pub fn copies(&self, role: Role) -> u32 {
        if role == Role::Sort { self.versions } else { 1 }
    }

    fn always(&self) -> impl Iterator<Item = Number> {
        self.roles.values().flat_map(|(demand, _)| demand.always.iter().copied())
    }

    /// Numbers that several roles must have: they overlap in any case.
    pub fn forced(&self) -> BTreeSet<Number> {
        let mut seen = BTreeSet::new();
        self.always().filter(|&number| !seen.insert(number)).collect()
    }

    /// How often numbers that several roles must have are used once too many.
    pub fn forced_overlap(&self) -> usize {
        self.always().count() - self.always().collect::<BTreeSet<Number>>().len()
    }

    /// How many uses of a number are one too many. What all versions must have counts once among them.
    pub fn overlap(&self, seats: &[Seat]) -> usize {
        let everywhere = self.roles.get(&Role::Sort).map(|(demand, _)| &demand.always);
        let (mut seen, mut counted, mut overlap) = (BTreeSet::new(), BTreeSet::new(), 0);
        for (role, set) in seats {
            for &number in set {
                let in_all = *role == Role::Sort && everywhere.is_some_and(|always| always.contains(&number));
                if !in_all || counted.insert(number) {
                    overlap += usize::from(!seen.insert(number));
                }
            }
        }
        overlap
    }

    /// An overlap no choice can avoid: what two roles must both have, and what there are too few numbers for.
    pub fn least_overlap(&self) -> usize {
        let needed = self.roles.iter().map(|(&role, (demand, _))| {
            demand.always.len() + (demand.count as usize - demand.always.len()) * self.copies(role) as usize
        });
        self.forced_overlap().max(needed.sum::<usize>().saturating_sub(self.candidates.len()))
    }
}
