//! The numbers a role may choose from, sorted into classes whose members no request can tell apart.
//!
//! In: a [`Demand`], the lesson's [`Stock`] and the numbers taken by other roles. Out: units (families of numbers made of
//! the same digits, or whole classes when no request cares for families) that hold classes (equal features). Units of
//! equal profile go into one group, because they too are interchangeable.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::demand::Demand;
use super::rules::{FamilyRule, Rules};
use super::state::{Shape, State, byte};
use super::stock::Stock;

/// Which numbers are out of reach, and which are better avoided.
#[derive(Debug, Clone, Copy)]
pub(super) struct Taken<'a> {
    /// Never to be chosen.
    pub barred: &'a BTreeSet<u32>,
    /// At most `.1` of these, besides those that must be in the set.
    pub shared: Option<(&'a BTreeSet<u32>, u32)>,
}

/// Nothing is taken.
pub(super) const OPEN: Taken<'static> = Taken { barred: &BTreeSet::new(), shared: None };

/// Numbers with the same features.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Class {
    /// What one of them adds to a tally.
    pub adds: State,
    /// The numbers.
    pub numbers: Vec<u32>,
}

/// Units with equal profiles.
#[derive(Debug, Clone)]
pub(super) struct Group {
    /// How many of each unit's family must be in the set already.
    pub base: u32,
    /// The bytes of the counters it can add to.
    pub touches: State,
    /// The units; class `k` of one is as large as class `k` of any other.
    pub units: Vec<Vec<Class>>,
}

/// Everything a role may choose from.
#[derive(Debug, Clone)]
pub(super) struct Pool {
    /// How tallies add up.
    pub shape: Shape,
    /// The tally of the numbers that must be in the set; none when they break a request.
    pub start: Option<State>,
    /// The numbers that must be in the set.
    pub fixed: Vec<u32>,
    /// What else there is.
    pub groups: Vec<Rc<Group>>,
    /// How many numbers there are besides the fixed ones.
    pub free: usize,
    /// How many numbers a set has.
    pub count: u32,
    /// The counter and size rule for groups made of the same digits.
    pub family: Option<FamilyRule>,
}

/// The features of the classes of a unit, and how many numbers each has.
type Profile = Vec<(u16, usize)>;

/// What the classes of a unit hold, by their features.
type Classes = BTreeMap<u16, Vec<u32>>;

impl Pool {
    /// Gathers the pool from the stock of the same range; `None` when the demand contradicts itself before any counting.
    pub fn new(demand: &Demand, stock: &Stock, taken: Taken<'_>) -> Option<Self> {
        let rules = Rules::new(demand, taken.shared.map(|(_, most)| most))?;
        let skipped: BTreeSet<u32> = rules.fixed.union(taken.barred).copied().collect();
        // Without a rule for families all kinds with the same features are one class, and a unit of its own.
        let mut units: BTreeMap<u32, Classes> = BTreeMap::new();
        for (facts, marked, numbers) in stock.kinds(&skipped, taken.shared.map(|(shared, _)| shared)) {
            let bits = rules.bits(facts, marked);
            let key = if rules.family.is_some() { facts.family } else { bits.into() };
            let class = units.entry(key).or_default().entry(bits).or_default();
            for some in numbers {
                class.extend_from_slice(some);
            }
        }
        let free = units.values().flat_map(BTreeMap::values).map(Vec::len).sum();
        let mut groups: BTreeMap<(Profile, u32), Vec<Vec<Class>>> = BTreeMap::new();
        for (key, classes) in units {
            let profile: Profile = classes.iter().map(|(bits, numbers)| (*bits, numbers.len())).collect();
            let base = if rules.family.is_some() { rules.bases.get(&key).copied().unwrap_or(0) } else { 0 };
            let unit = classes.into_iter().map(|(bits, numbers)| Class { adds: rules.adds(bits), numbers }).collect();
            groups.entry((profile, base)).or_default().push(unit);
        }
        let groups = groups.into_iter().map(|((profile, base), units)| {
            let touches = profile.iter().fold(byte(0), |bytes, (bits, _)| bytes | rules.touches(*bits));
            Group { base, touches, units }
        });
        let groups = ordered(groups.collect(), &rules.sizes()).into_iter().map(Rc::new).collect();
        let fixed = rules.fixed.iter().copied().collect();
        Some(Self {
            shape: rules.shape,
            start: rules.start,
            fixed,
            groups,
            free,
            count: demand.count,
            family: rules.family,
        })
    }

    /// For each layer, before the first group, between two, and after the last: the bytes that no later group touches.
    pub fn closed(&self) -> Vec<State> {
        let mut closed = vec![State::MAX];
        for group in self.groups.iter().rev() {
            closed.push(closed[closed.len() - 1] & !group.touches);
        }
        closed.reverse();
        closed
    }
}

/// Puts groups into an order in which few tallies are in play at a time: those that touch no counter first, then counter
/// by counter, next always the one whose groups tie the fewest tallies together, so that it is settled and forgotten.
fn ordered(mut rest: Vec<Group>, sizes: &[u32]) -> Vec<Group> {
    // How many tallies the counters of these bytes tell apart; sizes of a few dozen at most, so this cannot saturate early.
    let tallies = |bytes: State| {
        let in_play = sizes.iter().enumerate().skip(1).filter(|(at, _)| bytes & byte(*at) != 0);
        in_play.fold(1_u64, |product, (_, &size)| product.saturating_mul(size.into()))
    };
    let (mut ordered, later): (Vec<Group>, Vec<Group>) =
        rest.into_iter().partition(|group| tallies(group.touches) == 1);
    rest = later;
    let mut open = 0;
    while !rest.is_empty() {
        let tied = |at: usize| {
            let with = rest.iter().filter(|group| group.touches & byte(at) != 0);
            with.map(|group| group.touches).reduce(|some, more| some | more)
        };
        let candidates = (1..sizes.len()).filter_map(|at| Some((at, tied(at)?)));
        let Some((at, bytes)) = candidates.min_by_key(|&(_, bytes)| tallies(bytes | open)) else { break };
        let (mut now, later): (Vec<Group>, Vec<Group>) =
            rest.into_iter().partition(|group| group.touches & byte(at) != 0);
        now.sort_by_key(|group| tallies(group.touches));
        ordered.extend(now);
        rest = later;
        open = (open | bytes) & rest.iter().fold(0, |all, group| all | group.touches);
    }
    ordered.extend(rest);
    ordered
}
