//! The ways to take numbers out of one batch: for each standing of the counters, how many ways lead to it.
//!
//! With `Q` the ways to take at least one number of one bundle, a batch of `B` bundles has `1 + C(B,1) Q + C(B,2) Q^2 + ...`
//! ways: which bundles give, times what each gives.

use super::batches::{Batch, Batches, Bundle, Lot};
use super::counters::SameDigits;
use super::packed::{Adder, Packed, PackedMap, one, size};
use super::wide::{Wide, binomials};
use crate::lesson::choose::budget::Budget;
use crate::number::Number;
use crate::rng::Stream;

/// How many ways lead to each standing, by rising standing.
pub(super) type Ways<const N: usize> = Vec<(Packed, Wide<N>)>;

/// The ways of one batch.
pub(super) struct BatchWays<const N: usize> {
    batch: Batch,
    same_digits: Option<SameDigits>,
    adder: Adder,
    /// Ways to take none, one, two ... of each lot of a bundle; those of all bundles are as large.
    takes: Vec<Ways<N>>,
    /// Ways to take from the first lots of a bundle: none of them, one, two ...
    first_lots: Vec<Ways<N>>,
    /// Ways to take at least one from each of no bundle, of one, of two ...
    powers: Vec<Ways<N>>,
    /// C(B, i).
    choices: Vec<Wide<N>>,
    /// All ways to take from the batch, by rising size: nothing first.
    pub all: Ways<N>,
}

impl<const N: usize> BatchWays<N> {
    /// The ways to take up to `room` numbers; `None` when counting them takes more than is left of the steps.
    pub fn new(batch: Batch, of: &Batches, room: u32, budget: &Budget) -> Option<Self> {
        let none = || vec![(0, Wide::ONE)];
        let mut ways = Self {
            batch,
            same_digits: of.same_digits,
            adder: of.adder,
            takes: Vec::new(),
            first_lots: vec![none()],
            powers: vec![none()],
            choices: Vec::new(),
            all: Vec::new(),
        };
        for lot in &ways.batch.bundles[0] {
            let before = &ways.first_lots[ways.first_lots.len() - 1];
            let takes = takes(of.adder, lot, room);
            let next = multiply(of.adder, before, &takes, budget)?;
            ways.first_lots.push(next);
            ways.takes.push(takes);
        }
        let whole = &ways.first_lots[ways.first_lots.len() - 1];
        let gives = gather(whole.iter().filter_map(|(counts, n)| Some((ways.judged(*counts)?, *n))), budget)?;
        let bundles = ways.batch.bundles.len();
        for used in 1..=bundles.min(room as usize) {
            let next = multiply(of.adder, &ways.powers[used - 1], &gives, budget)?;
            if next.is_empty() {
                break;
            }
            ways.powers.push(next);
        }
        ways.choices = binomials(bundles, room).iter().take(ways.powers.len()).map(Wide::from_big).collect();
        let terms = ways.powers.iter().zip(&ways.choices);
        let terms =
            terms.flat_map(|(power, choice)| power.iter().map(|(counts, n)| (*counts, Wide::product(choice, n))));
        ways.all = gather(terms, budget)?;
        ways.all.sort_by_key(|(counts, _)| size(*counts));
        Some(ways)
    }

    /// About how many bytes it takes.
    pub fn bytes(&self) -> usize {
        let ways = self.takes.iter().chain(&self.first_lots).chain(&self.powers).chain([&self.all]);
        let ways = ways.map(Vec::len).sum::<usize>();
        let numbers: usize = self.batch.bundles.iter().flatten().map(|lot| lot.numbers.len()).sum();
        ways * size_of::<(Packed, Wide<N>)>() + numbers * size_of::<Number>()
    }

    /// What one bundle counts, with the rule for the same digits applied; `None` when it gives nothing or too much.
    fn judged(&self, counts: Packed) -> Option<Packed> {
        if size(counts) == 0 {
            return None;
        }
        let group = self.batch.base + size(counts);
        match self.same_digits {
            Some(rule) if group > rule.max => None,
            Some(rule) if group >= rule.min => self.adder.add(counts, one(rule.counter)),
            _ => Some(counts),
        }
    }

    /// Adds to `out` numbers that count `counts`, evenly among all ways.
    pub fn draw(&self, counts: Packed, stream: &mut Stream, out: &mut Vec<Number>) {
        if size(counts) == 0 {
            return;
        }
        let at = |power: &Ways<N>| find(power, counts).copied().unwrap_or(Wide::ZERO);
        let weights: Vec<Wide<N>> =
            self.powers.iter().zip(&self.choices).map(|(power, choice)| Wide::product(&at(power), choice)).collect();
        let used = pick(&weights, stream);
        let bundles = sample(self.batch.bundles.len(), used, stream);
        let mut left = counts;
        for (done, bundle) in bundles.into_iter().enumerate() {
            let (mine, rest) = self.split(&self.powers[1], &self.powers[used - done - 1], left, stream);
            self.draw_bundle(&self.batch.bundles[bundle], mine, stream, out);
            left = rest;
        }
    }

    /// Adds numbers of one bundle whose judged standing is `counts`.
    fn draw_bundle(&self, bundle: &Bundle, counts: Packed, stream: &mut Stream, out: &mut Vec<Number>) {
        let whole = &self.first_lots[bundle.len()];
        let fitting: Vec<&(Packed, Wide<N>)> =
            whole.iter().filter(|(raw, _)| self.judged(*raw) == Some(counts)).collect();
        let weights: Vec<Wide<N>> = fitting.iter().map(|(_, ways)| *ways).collect();
        let mut left = fitting[pick(&weights, stream)].0;
        for (at, lot) in bundle.iter().enumerate().rev() {
            let (mine, rest) = self.split(&self.takes[at], &self.first_lots[at], left, stream);
            let chosen = sample(lot.numbers.len(), size(mine) as usize, stream);
            out.extend(chosen.into_iter().map(|k| lot.numbers[k]));
            left = rest;
        }
    }

    /// Two standings, one of each, that add up to `sum`, evenly among all ways.
    fn split(&self, first: &Ways<N>, second: &Ways<N>, sum: Packed, stream: &mut Stream) -> (Packed, Packed) {
        let (mut pairs, mut weights) = (Vec::with_capacity(first.len()), Vec::with_capacity(first.len()));
        for (a, ways) in first.iter().filter(|(a, _)| size(*a) <= size(sum)) {
            for (b, more) in second.iter().filter(|(b, _)| size(*b) == size(sum) - size(*a)) {
                if self.adder.add(*a, *b) == Some(sum) {
                    pairs.push((*a, *b));
                    weights.push(Wide::product(ways, more));
                }
            }
        }
        pairs[pick(&weights, stream)]
    }
}

/// The ways to take none, one, two ... of a lot.
fn takes<const N: usize>(adder: Adder, lot: &Lot, room: u32) -> Ways<N> {
    let mut ways = Ways::new();
    let mut counts = Some(0);
    for choices in binomials(lot.numbers.len(), room).iter().take(lot.numbers.len() + 1) {
        let Some(now) = counts else { break };
        ways.push((now, Wide::from_big(choices)));
        counts = adder.add(now, lot.adds);
    }
    ways
}

/// All sums of a standing of `a` and a standing of `b`; `None` when that takes more than is left of the steps.
fn multiply<const N: usize>(adder: Adder, a: &Ways<N>, b: &Ways<N>, budget: &Budget) -> Option<Ways<N>> {
    budget.spend(a.len() as u64 * b.len() as u64)?;
    let pairs = a.iter().flat_map(|(left, ways)| b.iter().map(move |(right, more)| (left, ways, right, more)));
    gather(
        pairs.filter_map(|(left, ways, right, more)| Some((adder.add(*left, *right)?, Wide::product(ways, more)))),
        budget,
    )
}

/// The ways with each standing once; `None` when that is more than can be held.
fn gather<const N: usize>(entries: impl Iterator<Item = (Packed, Wide<N>)>, budget: &Budget) -> Option<Ways<N>> {
    let mut ways: Ways<N> = Vec::new();
    let mut index = PackedMap::default();
    for (counts, more) in entries {
        let at = *index.entry(counts).or_insert_with(|| {
            ways.push((counts, Wide::ZERO));
            ways.len() - 1
        });
        ways[at].1.add(&more);
        budget.hold(ways.len())?;
    }
    ways.sort_unstable_by_key(|(counts, _)| *counts);
    Some(ways)
}

/// The ways to one standing.
fn find<const N: usize>(ways: &Ways<N>, counts: Packed) -> Option<&Wide<N>> {
    ways.binary_search_by_key(&counts, |(known, _)| *known).ok().map(|at| &ways[at].1)
}

/// An index, as likely as its weight says; weights are not all 0.
fn pick<const N: usize>(weights: &[Wide<N>], stream: &mut Stream) -> usize {
    let mut total = Wide::ZERO;
    for weight in weights {
        total.add(weight);
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
