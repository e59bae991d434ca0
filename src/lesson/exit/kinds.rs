//! How well each kind of question serves a skill.
//!
//! In: all that a skill can ask, number by number. Out: each [`Kind`] that is among it with how many numbers it has, what it
//! shows of what the lesson asks for, and how likely its slips are. A task gives a question for each two of its slips: tens
//! of thousands in a lesson, which are counted here and never held.

use std::collections::BTreeMap;

use super::item::{Ask, Kind, Looks, rank};
use crate::number::{Number, Slip};

/// The kinds of a skill.
pub(super) struct Kinds {
    /// The slips that its tasks provoke.
    provoked: &'static [Slip],
    /// For numbers that look alike a row of all pairs of these slips, the first slip's pairs first.
    rows: BTreeMap<Looks, Vec<Option<Serves>>>,
    /// The slips of one task at a time, each as its place among all and its rank.
    slips: Vec<(usize, usize)>,
}

/// How well a kind serves a skill.
#[derive(Debug, Clone, Copy)]
pub(super) struct Serves {
    /// How many numbers there are that learners have not seen.
    pub(super) numbers: usize,
    /// The last of them.
    last: Option<Number>,
    /// How well they show what the lesson asks for, at best.
    pub(super) met: u8,
    /// The least rank of its questions.
    pub(super) rank: usize,
}

impl Kinds {
    /// No kinds yet, of a skill whose tasks provoke these slips.
    pub(super) fn of(provoked: &'static [Slip]) -> Self {
        Self { provoked, rows: BTreeMap::new(), slips: Vec::with_capacity(provoked.len()) }
    }

    /// Adds all questions of one task about a number; tasks about the same number come one after the other.
    pub(super) fn add(&mut self, ask: &Ask, is_new: bool, met: u8) {
        let wide = self.provoked.len();
        let row = self.rows.entry(ask.looks).or_insert_with(|| vec![None; wide * wide]);
        self.slips.clear();
        self.slips.extend(ask.slips().enumerate().map(|(k, (at, slip))| (at, rank(k, slip))));
        for (k, &(first, likely)) in self.slips.iter().enumerate() {
            for &(second, less) in &self.slips[k + 1..] {
                let rank = likely + less;
                let fresh = Serves { numbers: 0, last: None, met, rank };
                let serves = row[first * wide + second].get_or_insert(fresh);
                if is_new && serves.last != Some(ask.of) {
                    serves.numbers += 1;
                    serves.last = Some(ask.of);
                }
                serves.met = serves.met.max(met);
                serves.rank = serves.rank.min(rank);
            }
        }
    }

    /// Each kind that was met.
    pub(super) fn all(&self) -> impl Iterator<Item = (Kind, Serves)> {
        let pairs = || self.provoked.iter().flat_map(|first| self.provoked.iter().map(|second| [*first, *second]));
        self.rows.iter().flat_map(move |(looks, row)| {
            let kinds = pairs().zip(row);
            kinds.filter_map(|(slips, serves)| Some((Kind { slips, looks: *looks }, (*serves)?)))
        })
    }
}
