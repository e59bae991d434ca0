//! The numbers a role may choose from, sorted by what its requests can tell apart.
//!
//! A *lot* holds numbers that no request can tell apart. A *bundle* holds the lots that are made of the same digits; when
//! no request looks at digits, every lot is a bundle of its own. A *batch* holds bundles whose lots are of the same sizes
//! and count the same, because they too are interchangeable.

use std::collections::{BTreeMap, BTreeSet};

use super::candidates::Candidates;
use super::counters::{Counters, SameDigits};
use super::packed::{Adder, Packed, byte};
use crate::lesson::choose::demand::Demand;
use crate::number::{Digits, Number};

/// Which numbers are out of reach, and which are better avoided.
#[derive(Debug, Clone, Copy, Default)]
pub struct Avoided<'a> {
    /// Never to be chosen, unless they must be in the set.
    pub barred: Option<&'a BTreeSet<Number>>,
    /// At most `.1` of these, besides those that must be in the set.
    pub shared: Option<(&'a BTreeSet<Number>, u32)>,
}

/// Numbers that count the same.
#[derive(Debug, Clone)]
pub(super) struct Lot {
    /// What one of them adds to the counters.
    pub adds: Packed,
    /// The numbers.
    pub numbers: Vec<Number>,
}

/// The lots of a bundle.
pub(super) type Bundle = Vec<Lot>;

/// Bundles that are interchangeable.
#[derive(Debug, Clone)]
pub(super) struct Batch {
    /// How many numbers of each bundle's digits must be in the set already.
    pub base: u32,
    /// The bytes of the counters it can add to.
    pub touches: Packed,
    /// The bundles; lot `k` of one is as large as lot `k` of any other.
    pub bundles: Vec<Bundle>,
}

/// Everything a role may choose from.
#[derive(Debug)]
pub(super) struct Batches {
    /// How counters add up.
    pub adder: Adder,
    /// What the numbers that must be in the set count.
    pub start: Packed,
    /// The numbers that must be in the set.
    pub fixed: Vec<Number>,
    /// What else there is.
    pub batches: Vec<Batch>,
    /// How many numbers there are besides the fixed ones.
    pub free: usize,
    /// How many numbers a set has.
    pub count: u32,
    /// The rule for groups made of the same digits.
    pub same_digits: Option<SameDigits>,
}

impl Batches {
    /// Sorts the candidates of the same range; `None` when the demand contradicts itself before any counting.
    pub fn new(demand: &Demand, candidates: &Candidates, avoided: Avoided<'_>) -> Option<Self> {
        let counters = Counters::new(demand, avoided.shared.map(|(_, most)| most))?;
        let start = counters.start?;
        let skipped: BTreeSet<Number> =
            demand.always.iter().chain(avoided.barred.into_iter().flatten()).copied().collect();
        // The numbers of each bundle by their features. Without a rule for digits the features alone tell bundles apart.
        let mut found: BTreeMap<(Option<Digits>, u16), BTreeMap<u16, Vec<Number>>> = BTreeMap::new();
        for (features, marked, numbers) in candidates.varieties(&skipped, avoided.shared.map(|(shared, _)| shared)) {
            if demand.mixed && features.digits().is_one() {
                continue;
            }
            let bits = counters.bits(features, marked);
            let key = if counters.same_digits.is_some() { (Some(features.digits()), 0) } else { (None, bits) };
            let lot = found.entry(key).or_default().entry(bits).or_default();
            for some in numbers {
                lot.extend_from_slice(some);
            }
        }
        let free = found.values().flat_map(BTreeMap::values).map(Vec::len).sum();
        let mut alike: BTreeMap<(Vec<(u16, usize)>, u32), Vec<Bundle>> = BTreeMap::new();
        for ((digits, _), lots) in found {
            let sizes = lots.iter().map(|(bits, numbers)| (*bits, numbers.len())).collect();
            let base = digits.and_then(|digits| counters.bases.get(&digits).copied()).unwrap_or(0);
            let bundle = lots.into_iter().map(|(bits, numbers)| Lot { adds: counters.adds(bits), numbers }).collect();
            alike.entry((sizes, base)).or_default().push(bundle);
        }
        let batches = alike.into_iter().map(|((sizes, base), bundles)| {
            let touches = sizes.iter().fold(byte(0), |bytes, (bits, _)| bytes | counters.touches(*bits));
            Batch { base, touches, bundles }
        });
        Some(Self {
            adder: counters.adder,
            start,
            fixed: demand.always.iter().copied().collect(),
            batches: ordered(batches.collect(), &counters.sizes()),
            free,
            count: demand.count,
            same_digits: counters.same_digits,
        })
    }

    /// Before the first batch, between two, and after the last: the bytes that no later batch touches.
    pub fn settled(&self) -> Vec<Packed> {
        let mut settled = vec![Packed::MAX];
        for batch in self.batches.iter().rev() {
            settled.push(settled[settled.len() - 1] & !batch.touches);
        }
        settled.reverse();
        settled
    }
}

/// Puts batches into an order in which few counts are in play at a time: those that touch no counter first, then counter
/// by counter, next always the one whose batches tie the fewest counts together, so that it is settled and forgotten.
fn ordered(all: Vec<Batch>, sizes: &[u32]) -> Vec<Batch> {
    // How many standings the counters of these bytes can have; sizes of a few dozen at most, so this saturates late.
    let standings = |bytes: Packed| {
        let in_play = sizes.iter().enumerate().skip(1).filter(|(at, _)| bytes & byte(*at) != 0);
        in_play.fold(1_u64, |product, (_, &size)| product.saturating_mul(size.into()))
    };
    let (mut ordered, mut rest): (Vec<Batch>, Vec<Batch>) =
        all.into_iter().partition(|batch| standings(batch.touches) == 1);
    let mut open = 0;
    while !rest.is_empty() {
        let tied = |at: usize| {
            let with = rest.iter().filter(|batch| batch.touches & byte(at) != 0);
            with.map(|batch| batch.touches).reduce(|some, more| some | more)
        };
        let counters = (1..sizes.len()).filter_map(|at| Some((at, tied(at)?)));
        let Some((at, bytes)) = counters.min_by_key(|&(_, bytes)| standings(bytes | open)) else { break };
        let (mut now, later): (Vec<Batch>, Vec<Batch>) =
            rest.into_iter().partition(|batch| batch.touches & byte(at) != 0);
        now.sort_by_key(|batch| standings(batch.touches));
        ordered.extend(now);
        rest = later;
        open = (open | bytes) & rest.iter().fold(0, |all, batch| all | batch.touches);
    }
    ordered.extend(rest);
    ordered
}
