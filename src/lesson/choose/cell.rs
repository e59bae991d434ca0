//! The ways to take numbers out of one group of interchangeable units, as tables from tally to number of ways.
//!
//! With `Q` the table of one unit that gives at least one number, a group of `N` units has the table
//! `1 + C(N,1) Q + C(N,2) Q^2 + ...`: which units give, times what each gives.

use std::rc::Rc;

use super::meter::{MEMORY, Meter};
use super::pool::{Class, Group, Pool};
use super::rules::FamilyRule;
use super::state::{Shape, State, one, size};
use super::tally::{Tally, binomials};
use crate::rng::Stream;

/// Ways by tally, by rising tally.
pub(super) type Table<T> = Vec<(State, T)>;

/// The tables of one group.
pub(super) struct Cell<T> {
    group: Rc<Group>,
    family: Option<FamilyRule>,
    shape: Shape,
    /// Ways to take from the first classes of a unit: none of them, one, two ...
    prefixes: Vec<Table<T>>,
    /// Ways to take at least one from one unit; to take so from each of two, three ... units.
    powers: Vec<Table<T>>,
    /// C(N, i).
    choices: Vec<T>,
    /// All ways to take from the group, by rising size: nothing first.
    pub all: Table<T>,
}

impl<T: Tally> Cell<T> {
    /// The tables for up to `room` numbers; `None` when they take more than is left of the work.
    pub fn new(group: &Rc<Group>, pool: &Pool, room: u32, meter: &Meter) -> Option<Self> {
        let shape = pool.shape;
        let family = pool.family;
        let mut prefixes: Vec<Table<T>> = vec![vec![(0, T::one())]];
        for class in &group.units[0] {
            let last = &prefixes[prefixes.len() - 1];
            prefixes.push(multiply(shape, last, &takes(shape, class, room), meter)?);
        }
        let whole = &prefixes[prefixes.len() - 1];
        let mut cell = Self {
            group: Rc::clone(group),
            family,
            shape,
            powers: vec![vec![(0, T::one())]],
            choices: Vec::new(),
            all: Vec::new(),
            prefixes: Vec::new(),
        };
        let gives = gather(whole.iter().filter_map(|(state, ways)| Some((cell.judged(*state)?, ways.clone()))));
        for used in 1..=group.units.len().min(room as usize) {
            let next = multiply(shape, &cell.powers[used - 1], &gives, meter)?;
            if next.is_empty() {
                break;
            }
            cell.powers.push(next);
        }
        #[allow(clippy::cast_possible_truncation, reason = "no more powers than room")]
        let most = (cell.powers.len() - 1) as u32;
        cell.choices = binomials(group.units.len(), most).iter().map(T::from_big).collect();
        let terms = cell
            .powers
            .iter()
            .zip(&cell.choices)
            .flat_map(|(power, choice)| power.iter().map(move |(state, ways)| (*state, T::product(choice, ways))));
        cell.all = gather(terms.collect::<Vec<_>>());
        cell.all.sort_by_key(|(state, _)| size(*state));
        cell.prefixes = prefixes;
        Some(cell)
    }

    /// The tally of what one unit gives, with the rule for families applied; `None` when it gives nothing or too much.
    fn judged(&self, state: State) -> Option<State> {
        let given = size(state);
        if given == 0 {
            return None;
        }
        match self.family {
            Some(rule) if self.group.base + given > rule.max || self.group.base + given < rule.least => None,
            Some(rule) if self.group.base + given >= rule.min => self.shape.add(state, one(rule.counter)),
            _ => Some(state),
        }
    }

    /// Adds to `out` numbers whose tally is `state`, evenly among all ways.
    pub fn draw(&self, state: State, stream: &mut Stream, out: &mut Vec<u32>) {
        if size(state) == 0 {
            return;
        }
        let at = |table: &Table<T>| find(table, state).cloned().unwrap_or_else(T::zero);
        let weights: Vec<T> = self.powers.iter().zip(&self.choices).map(|(p, c)| T::product(&at(p), c)).collect();
        let used = pick(&weights, stream);
        let units = sample(self.group.units.len(), used, stream);
        let mut left = state;
        for (done, unit) in units.into_iter().enumerate() {
            let (one, rest) = self.split(&self.powers[1], &self.powers[used - done - 1], left, stream);
            self.draw_unit(&self.group.units[unit], one, stream, out);
            left = rest;
        }
    }

    /// Adds numbers of one unit whose judged tally is `state`.
    fn draw_unit(&self, unit: &[Class], state: State, stream: &mut Stream, out: &mut Vec<u32>) {
        let whole = &self.prefixes[unit.len()];
        let fitting: Vec<&(State, T)> = whole.iter().filter(|(raw, _)| self.judged(*raw) == Some(state)).collect();
        let weights: Vec<T> = fitting.iter().map(|(_, ways)| ways.clone()).collect();
        let mut left = fitting[pick(&weights, stream)].0;
        for (at, class) in unit.iter().enumerate().rev() {
            let takes = takes(self.shape, class, size(left));
            let (mine, rest) = self.split(&takes, &self.prefixes[at], left, stream);
            let chosen = sample(class.numbers.len(), size(mine) as usize, stream);
            out.extend(chosen.into_iter().map(|k| class.numbers[k]));
            left = rest;
        }
    }

    /// Two tallies, one of each table, that add up to `sum`, evenly among all ways.
    fn split(&self, first: &Table<T>, second: &Table<T>, sum: State, stream: &mut Stream) -> (State, State) {
        let (mut pairs, mut weights) = (Vec::new(), Vec::new());
        for (a, ways) in first.iter().filter(|(a, _)| size(*a) <= size(sum)) {
            for (b, more) in second.iter().filter(|(b, _)| size(*b) == size(sum) - size(*a)) {
                if self.shape.add(*a, *b) == Some(sum) {
                    pairs.push((*a, *b));
                    weights.push(T::product(ways, more));
                }
            }
        }
        pairs[pick(&weights, stream)]
    }
}

/// The ways to take none, one, two ... of a class.
fn takes<T: Tally>(shape: Shape, class: &Class, room: u32) -> Table<T> {
    let mut table = Table::new();
    let mut state = Some(0);
    for ways in &binomials(class.numbers.len(), room.min(u32::try_from(class.numbers.len()).unwrap_or(room))) {
        let Some(tally) = state else { break };
        table.push((tally, T::from_big(ways)));
        state = shape.add(tally, class.adds);
    }
    table
}

/// All sums of a tally of `a` and a tally of `b`; `None` when that takes more than is left of the work.
fn multiply<T: Tally>(shape: Shape, a: &Table<T>, b: &Table<T>, meter: &Meter) -> Option<Table<T>> {
    let pairs = a.len().saturating_mul(b.len());
    // They are held all at once.
    if pairs > MEMORY / size_of::<(State, T)>() {
        meter.drain();
    }
    meter.spend(pairs as u64 * (2 + T::COST))?;
    Some(gather(a.iter().flat_map(|(left, ways)| {
        b.iter().filter_map(move |(right, more)| Some((shape.add(*left, *right)?, T::product(ways, more))))
    })))
}

/// A table with each tally once.
fn gather<T: Tally>(entries: impl IntoIterator<Item = (State, T)>) -> Table<T> {
    let mut entries: Vec<(State, T)> = entries.into_iter().collect();
    entries.sort_by_key(|(state, _)| *state);
    let mut table: Table<T> = Vec::new();
    for (state, ways) in entries {
        match table.last_mut() {
            Some((last, sum)) if *last == state => sum.add_product(&ways, &T::one()),
            _ => table.push((state, ways)),
        }
    }
    table
}

/// The ways in a table sorted by tally.
fn find<T>(table: &Table<T>, state: State) -> Option<&T> {
    table.binary_search_by_key(&state, |(tally, _)| *tally).ok().map(|at| &table[at].1)
}

/// An index, as likely as its weight says; weights are not all 0.
pub(super) fn pick<T: Tally>(weights: &[T], stream: &mut Stream) -> usize {
    let mut total = T::zero();
    for weight in weights {
        total.add_product(weight, &T::one());
    }
    let mut left = total.below(stream);
    for (at, weight) in weights.iter().enumerate() {
        if left < *weight {
            return at;
        }
        left.take(weight);
    }
    weights.len() - 1
}

/// `count` different indices below `len`, in an order in which all orders are equally likely.
fn sample(len: usize, count: usize, stream: &mut Stream) -> Vec<usize> {
    let mut chosen = Vec::with_capacity(count);
    // The same in order of size.
    let mut sorted: Vec<usize> = Vec::with_capacity(count);
    while chosen.len() < count.min(len) {
        // Skip over those already chosen: the index counts only what is left.
        let mut at = stream.index(len - chosen.len());
        let mut before = 0;
        while sorted.get(before).is_some_and(|taken| at >= *taken) {
            at += 1;
            before += 1;
        }
        sorted.insert(before, at);
        chosen.push(at);
    }
    chosen
}
