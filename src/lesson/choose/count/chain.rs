//! Counts the sets of all batches together, batch by batch, and draws one evenly by going back over the counts.
//!
//! Before each batch stand all standings of the counters that taking from the batches before it can lead to, each with the
//! number of ways to go on from it to a whole set. The first of these numbers is the count of all sets; a draw goes from
//! batch to batch, taking each step as often as the ways behind it say. A counter that no later batch touches is settled,
//! which keeps the standings few.

use num_bigint::BigUint;

use super::batches::Batches;
use super::packed::{Adder, Packed, PackedMap, size};
use super::ways::BatchWays;
use super::wide::Wide;
use crate::lesson::choose::budget::Budget;
use crate::number::Number;
use crate::rng::Stream;

/// The counts of all sets, in integers of one width.
pub(super) struct Chain<const N: usize> {
    adder: Adder,
    fixed: Vec<Number>,
    count: u32,
    batches: Vec<BatchWays<N>>,
    /// Before each batch, and after the last.
    standings: Vec<Standings<N>>,
    /// In the same places, the bytes of the counters that nothing from there on adds to.
    settled: Vec<Packed>,
}

/// The standings of the counters in one place.
struct Standings<const N: usize> {
    all: Vec<Packed>,
    index: PackedMap<usize>,
    /// For each of them, the ways to go on.
    ways: Vec<Wide<N>>,
}

impl<const N: usize> Chain<N> {
    /// Counts all sets; `None` when that takes more than is left of the steps.
    pub fn new(mut of: Batches, budget: &Budget) -> Option<Self> {
        let settled = of.settled();
        let room = of.count - size(of.start);
        let batches = std::mem::take(&mut of.batches).into_iter();
        let batches: Option<Vec<BatchWays<N>>> =
            batches.map(|batch| BatchWays::new(batch, &of, room, budget)).collect();
        let mut chain = Self {
            adder: of.adder,
            fixed: of.fixed,
            count: of.count,
            batches: batches?,
            standings: vec![Standings::of(of.adder.settle(of.start, settled[0]))],
            settled,
        };
        let mut held = 0;
        for at in 0..chain.batches.len() {
            let mut after = Standings::of(None);
            for &counts in &chain.standings[at].all {
                let mut steps = 1;
                for (_, sum) in chain.steps(at, counts) {
                    after.meet(sum);
                    steps += 1;
                }
                budget.spend(steps)?;
                budget.hold(held + after.all.len())?;
            }
            held += after.all.len();
            chain.standings.push(after);
        }
        chain.complete();
        Some(chain)
    }

    /// The steps from a standing before batch `at`, and the standings they lead to: taking nothing first.
    fn steps(&self, at: usize, counts: Packed) -> impl Iterator<Item = (&(Packed, Wide<N>), Packed)> {
        let left = self.count - size(counts);
        let settled = self.settled[at + 1];
        self.batches[at].all.iter().take_while(move |(step, _)| size(*step) <= left).filter_map(move |entry| {
            let sum = self.adder.add(counts, entry.0)?;
            Some((entry, self.adder.settle(sum, settled)?))
        })
    }

    /// Fills in the ways to go on, from the end back.
    fn complete(&mut self) {
        // At the end everything is settled: what is left has enough of all.
        let last = self.standings.len() - 1;
        self.standings[last].ways = vec![Wide::ONE; self.standings[last].all.len()];
        for at in (0..last).rev() {
            let next = &self.standings[at + 1];
            let sum = |&counts: &Packed| {
                let mut sum = Wide::ZERO;
                for ((_, here), after) in self.steps(at, counts) {
                    if let Some(rest) = next.ways(after).filter(|rest| !rest.is_zero()) {
                        sum.add_product(here, rest);
                    }
                }
                sum
            };
            self.standings[at].ways = self.standings[at].all.iter().map(sum).collect();
        }
    }
}

/// Counted sets, whatever the width of the integers.
pub(super) trait Counted {
    /// How many sets there are.
    fn count(&self) -> BigUint;
    /// One of the sets, rising, all equally likely; there must be one.
    fn draw(&self, stream: &mut Stream) -> Vec<Number>;
    /// About how many bytes it takes.
    fn bytes(&self) -> usize;
}

impl<const N: usize> Counted for Chain<N> {
    fn count(&self) -> BigUint {
        self.standings[0].ways.first().map_or(BigUint::ZERO, |ways| ways.to_big())
    }

    fn bytes(&self) -> usize {
        // A standing stands in a list, in an index, and with its ways.
        let standing = size_of::<Packed>() * 2 + size_of::<usize>() + size_of::<Wide<N>>();
        let standings: usize = self.standings.iter().map(|standings| standings.all.len()).sum();
        standings * standing + self.batches.iter().map(BatchWays::bytes).sum::<usize>()
    }

    fn draw(&self, stream: &mut Stream) -> Vec<Number> {
        let mut set = self.fixed.clone();
        let mut counts = self.standings[0].all[0];
        for (at, batch) in self.batches.iter().enumerate() {
            let mut left = self.standings[at].ways(counts).copied().unwrap_or(Wide::ZERO).below(stream);
            for ((step, ways), after) in self.steps(at, counts) {
                let Some(rest) = self.standings[at + 1].ways(after) else { continue };
                let weight = Wide::product(ways, rest);
                if left < weight {
                    batch.draw(*step, stream, &mut set);
                    counts = after;
                    break;
                }
                left.take(&weight);
            }
        }
        set.sort_unstable();
        set
    }
}

impl<const N: usize> Standings<N> {
    fn of(first: Option<Packed>) -> Self {
        let mut standings = Self { all: Vec::new(), index: PackedMap::default(), ways: Vec::new() };
        if let Some(counts) = first {
            standings.meet(counts);
        }
        standings
    }

    fn meet(&mut self, counts: Packed) {
        self.index.entry(counts).or_insert_with(|| {
            self.all.push(counts);
            self.all.len() - 1
        });
    }

    fn ways(&self, counts: Packed) -> Option<&Wide<N>> {
        self.index.get(&counts).map(|&at| &self.ways[at])
    }
}
