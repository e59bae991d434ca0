//! What was worked out for a lesson, kept for the next ones: at a desk most changes leave the requests as they are.
//!
//! Nothing that is remembered changes what is chosen: it is kept under all that it was worked out from, places in the file
//! left out, and is what working it out again would give. What was asked for longest ago goes first.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use super::count::{Candidates, NoSets, Solutions};
use super::demand::Demand;
use crate::lesson::{Chosen, Role};
use crate::number::Style;

/// How many choices are kept: as many as somebody goes back to. Each has some hundred numbers.
const CHOICES: usize = 64;

/// What was worked out before.
#[derive(Default)]
pub struct Memory {
    /// The bytes that may be kept; 0 keeps nothing.
    room: usize,
    kept: Mutex<Kept>,
}

/// All that a choice of numbers follows from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Asked {
    /// What each role asks.
    pub demands: Vec<(Role, Demand)>,
    /// What each version asks of its sort numbers, where that is not the same for all.
    pub sorts: Vec<Demand>,
    /// How many sort sets there are.
    pub versions: u32,
    /// The lesson's seed.
    pub seed: u64,
    /// How words are written.
    pub style: Style,
}

#[derive(Default)]
struct Kept {
    choices: VecDeque<(Asked, Chosen)>,
    candidates: VecDeque<(Demand, Arc<Candidates>)>,
    solutions: VecDeque<(Demand, Arc<Solutions>)>,
}

impl Memory {
    /// A memory for a program that lays out a lesson again and again. The numbers to 999,999 with the sets of three roles
    /// take a quarter of its room.
    pub fn lasting() -> Self {
        Self::of(64 << 20)
    }

    /// A memory of up to so many bytes beside the choices themselves. One without room keeps nothing.
    fn of(room: usize) -> Self {
        Self { room, ..Self::default() }
    }

    fn kept<T>(&self, look: impl FnOnce(&mut Kept) -> T) -> T {
        look(&mut self.kept.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// The numbers that were chosen for this.
    pub(super) fn chosen(&self, asked: &Asked) -> Option<Chosen> {
        self.kept(|kept| found(&mut kept.choices, asked))
    }

    /// Keeps the numbers that were chosen for this.
    pub(super) fn keep(&self, asked: Asked, chosen: &Chosen) {
        if self.room > 0 {
            self.kept(|kept| {
                kept.choices.push_front((asked, chosen.clone()));
                kept.choices.truncate(CHOICES);
            });
        }
    }

    /// The numbers that a demand's range, `never` and `at_most` leave.
    pub(super) fn candidates(&self, demand: &Demand) -> Arc<Candidates> {
        let pool = demand.pool();
        self.kept(|kept| found(&mut kept.candidates, &pool)).unwrap_or_else(|| {
            let made = Arc::new(Candidates::new(demand));
            self.put(made.bytes(), |kept| kept.candidates.push_front((pool, Arc::clone(&made))));
            made
        })
    }

    /// The sets that meet a demand, counted by `count` unless they are known.
    pub(super) fn solutions(
        &self,
        demand: &Demand,
        count: impl FnOnce() -> Result<Solutions, NoSets>,
    ) -> Result<Arc<Solutions>, NoSets> {
        if let Some(known) = self.kept(|kept| found(&mut kept.solutions, demand)) {
            return Ok(known);
        }
        let made = Arc::new(count()?);
        self.put(made.bytes(), |kept| kept.solutions.push_front((demand.clone(), Arc::clone(&made))));
        Ok(made)
    }

    /// Puts something of so many bytes in front, unless it is more than there is room for, and makes that room.
    fn put(&self, bytes: usize, put: impl FnOnce(&mut Kept)) {
        if bytes > self.room / 2 {
            return;
        }
        self.kept(|kept| {
            put(kept);
            fit(&mut kept.candidates, Candidates::bytes, self.room / 2);
            fit(&mut kept.solutions, Solutions::bytes, self.room / 2);
        });
    }
}

/// What is kept under a key, which comes to the front.
fn found<K: PartialEq, T: Clone>(kept: &mut VecDeque<(K, T)>, key: &K) -> Option<T> {
    let at = kept.iter().position(|(known, _)| known == key)?;
    let entry = kept.remove(at)?;
    kept.push_front(entry);
    Some(kept[0].1.clone())
}

/// Lets go of what is farthest back until the rest has no more than so many bytes.
fn fit<K, T>(kept: &mut VecDeque<(K, Arc<T>)>, bytes: impl Fn(&T) -> usize, room: usize) {
    let mut sum = 0;
    let fitting = kept.iter().take_while(|(_, value)| {
        sum += bytes(value);
        sum <= room
    });
    let fitting = fitting.count();
    kept.truncate(fitting);
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::diag::Source;
    use crate::lesson::choose::{choose, choose_with};
    use crate::spec;

    fn chosen(text: &str, memory: &Memory) -> (Chosen, Chosen) {
        let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.to_owned() });
        let spec = spec::read(&source).expect("a lesson");
        (choose_with(&spec, &source, memory).expect("numbers"), choose(&spec, &source).expect("numbers"))
    }

    #[test]
    fn what_is_remembered_is_what_would_be_chosen_again() {
        let memory = Memory::of(1 << 24);
        let changes = ["", "seed = 2\n", "seed = 3\nminutes = 90\n", "seed = 2\n", "seed = 2\ngrade = \"3\"\n", ""];
        let requests = ["", "sort.count = 6\n", "sort.repeats = 2\n", "never = [500]\n", "exit.count = 0\n"];
        for head in changes {
            for asked in requests {
                let text =
                    format!("title = \"x\"\n{head}[numbers]\nrange = [100, 999]\n{asked}[class]\nversions = 2\n");
                let (remembered, fresh) = chosen(&text, &memory);
                assert_eq!(remembered, fresh, "{text}");
            }
        }
        // Of the thirty, seeds and requests told apart fifteen; the pools are two.
        memory.kept(|kept| assert_eq!((kept.choices.len(), kept.candidates.len()), (15, 2)));
    }

    #[test]
    fn no_more_is_kept_than_there_is_room_for() {
        let text = |count: u32| format!("title = \"x\"\n[numbers]\nrange = [10, 99999]\nsort.count = {count}\n");
        let memory = Memory::of(3 << 20);
        for count in 3..30 {
            chosen(&text(count), &memory);
        }
        memory.kept(|kept| {
            let bytes = |sum: usize, solutions: &Arc<Solutions>| sum + solutions.bytes();
            let held = kept.solutions.iter().map(|(_, solutions)| solutions).fold(0, bytes);
            assert!(!kept.solutions.is_empty() && held <= 3 << 19, "{held}");
        });
        let none = Memory::default();
        chosen(&text(8), &none);
        none.kept(|kept| assert!(kept.choices.is_empty() && kept.candidates.is_empty() && kept.solutions.is_empty()));
    }
}
