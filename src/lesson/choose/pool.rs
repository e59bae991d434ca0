//! The numbers a role may choose from, sorted into classes whose members no request can tell apart.
//!
//! In: a [`Demand`] and the numbers taken by other roles. Out: units (families of numbers made of the same digits, or the
//! whole pool when no request cares for families) that hold classes (equal features). Units of equal profile go into one
//! group, because they too are interchangeable.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::hash::BuildHasherDefault;
use std::rc::Rc;

use super::demand::{Demand, Facts};
use super::scan;
use super::state::{Counter, MOST, Mix, Shape, State, byte, one};

/// Which numbers are out of reach, and which are better avoided.
#[derive(Debug, Clone, Copy)]
pub(super) struct Taken<'a> {
    /// Never to be chosen.
    pub barred: &'a BTreeSet<u32>,
    /// At most `.1` of these, besides those that must be in the set.
    pub shared: Option<(&'a BTreeSet<u32>, u32)>,
}

/// Numbers with the same features.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Class {
    /// What one of them adds to a tally.
    pub adds: State,
    /// The numbers, rising.
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

/// The rule for numbers made of the same digits.
#[derive(Debug, Clone, Copy)]
pub(super) struct FamilyRule {
    /// The counter that says whether some family is large enough.
    pub counter: usize,
    /// What is large enough.
    pub min: u32,
    /// No family may have more.
    pub max: u32,
}

/// The bit of numbers better avoided, after those of the features.
const SHARED: usize = 8;

impl Pool {
    /// Gathers the pool; `None` when the demand contradicts itself before any counting.
    pub fn new(demand: &Demand, taken: Taken<'_>) -> Option<Self> {
        let count = demand.count;
        if count > MOST
            || demand.always.len() > count as usize
            || !demand.always.iter().all(|&number| demand.allows(number))
            || demand.wants.values().chain(&demand.same_digits).any(|bound| bound.min > count)
            // A number alone is a group of one.
            || demand.same_digits.is_some_and(|bound| bound.max == Some(0) && count > 0)
        {
            return None;
        }
        let mut counters = vec![counter(count, Some(count), count)];
        let mut places = [None; SHARED + 1];
        for (feature, bound) in &demand.wants {
            let max = bound.max.filter(|&max| max < count);
            if bound.min > 0 || max.is_some() {
                places[feature.bit()] = Some(counters.len());
                counters.push(counter(bound.min, max, count));
            }
        }
        if let Some((_, most)) = taken.shared {
            places[SHARED] = Some(counters.len());
            counters.push(counter(0, Some(most), count));
        }
        let family = demand.same_digits.and_then(|bound| {
            let max = bound.max.unwrap_or(count);
            if bound.min <= 1 && max >= count {
                return None;
            }
            let rule = FamilyRule { counter: counters.len(), min: bound.min, max };
            counters.push(Counter { least: 1, cap: 1, strict: false });
            Some(rule)
        });
        let shape = Shape::new(&counters);
        let adds = |bits: u16| {
            places.iter().enumerate().fold(one(0), |sum, (bit, place)| match place {
                Some(at) if bits >> bit & 1 == 1 => sum + one(*at),
                _ => sum,
            })
        };
        let wanted = places.iter().enumerate().fold(0, |mask, (bit, at)| mask | u16::from(at.is_some()) << bit);
        let fixed: Vec<u32> = demand.always.iter().copied().collect();
        let mut bases: BTreeMap<u32, u32> = BTreeMap::new();
        let mut start = Some(0);
        for &number in &fixed {
            let facts = Facts::of(number);
            *bases.entry(facts.family).or_default() += 1;
            // Numbers that must be in the set are never held against it.
            start = start.and_then(|sum| shape.add(sum, capped(shape, adds(facts.bits & wanted & !(1 << SHARED)))?));
        }
        if let Some(rule) = family {
            let largest = bases.values().copied().max().unwrap_or(0);
            if largest > rule.max {
                start = None;
            } else if largest >= rule.min {
                start = start.and_then(|sum| shape.add(sum, one(rule.counter)));
            }
        }
        let skipped: BTreeSet<u32> = demand.always.union(taken.barred).copied().collect();
        let open = scan::numbers(demand, &skipped).map(|(number, facts)| {
            let shared = taken.shared.is_some_and(|(shared, _)| shared.contains(&number));
            (number, facts.family, (facts.bits | u16::from(shared) << SHARED) & wanted)
        });
        let units = if family.is_some() { families(open) } else { whole(open) };
        let free = units.iter().flat_map(|(_, classes)| classes).map(|(_, numbers)| numbers.len()).sum();
        let mut groups: BTreeMap<Vec<(u16, usize)>, BTreeMap<u32, Vec<Vec<Class>>>> = BTreeMap::new();
        for (key, classes) in units {
            let profile = classes.iter().map(|(bits, numbers)| (*bits, numbers.len())).collect();
            let base = if family.is_some() { bases.get(&key).copied().unwrap_or(0) } else { 0 };
            let unit = classes.into_iter().map(|(bits, numbers)| Class { adds: adds(bits), numbers }).collect();
            groups.entry(profile).or_default().entry(base).or_default().push(unit);
        }
        let groups = groups.into_iter().flat_map(|(profile, bases)| {
            let reach = profile.iter().fold(0, |mask, (bits, _)| mask | bits);
            let bytes = places.iter().enumerate().filter(move |(bit, _)| reach >> bit & 1 == 1);
            let touches = bytes.filter_map(|(_, at)| *at).chain(family.map(|rule| rule.counter));
            let touches = touches.fold(byte(0), |bytes, at| bytes | byte(at));
            bases.into_iter().map(move |(base, units)| Group { base, touches, units })
        });
        let sizes: Vec<u32> = counters.iter().map(|counter| u32::from(counter.cap) + 1).collect();
        let groups = ordered(groups.collect(), &sizes).into_iter().map(Rc::new).collect();
        Some(Self { shape, start, fixed, groups, free, count, family })
    }
}

/// Puts groups into an order in which few tallies are in play at a time: those that touch no counter first, then counter
/// by counter, next always the one whose groups tie the fewest tallies together, so that it is settled and forgotten.
fn ordered(mut rest: Vec<Group>, sizes: &[u32]) -> Vec<Group> {
    let tallies = |bytes: State| -> f64 {
        let in_play = sizes.iter().enumerate().skip(1).filter(|(at, _)| bytes & byte(*at) != 0);
        in_play.map(|(_, &size)| f64::from(size)).product()
    };
    let mut ordered: Vec<Group> = Vec::with_capacity(rest.len());
    let mut open = 0;
    while !rest.is_empty() {
        let cost = |at: usize| {
            let with = rest.iter().filter(|group| at == 0 || group.touches & byte(at) != 0);
            match at {
                // Those that touch nothing but the count.
                0 => with.filter(|group| tallies(group.touches) == 1.0).map(|group| group.touches).next(),
                _ => with.map(|group| group.touches).reduce(|a, b| a | b),
            }
        };
        let candidates = (0..sizes.len()).filter_map(|at| Some((at, cost(at)?)));
        let Some((at, bytes)) = candidates.min_by(|a, b| tallies(a.1 | open).total_cmp(&tallies(b.1 | open))) else {
            break;
        };
        let goes = |group: &Group| if at == 0 { tallies(group.touches) == 1.0 } else { group.touches & byte(at) != 0 };
        let (mut next, later): (Vec<Group>, Vec<Group>) = rest.into_iter().partition(goes);
        next.sort_by(|a, b| tallies(a.touches).total_cmp(&tallies(b.touches)));
        ordered.extend(next);
        rest = later;
        open = (open | bytes) & rest.iter().fold(0, |all, group| all | group.touches);
    }
    ordered.extend(rest);
    ordered
}

impl Pool {
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

/// What the classes of a unit hold, by their features.
type Classes = Vec<(u16, Vec<u32>)>;

/// One unit a family; numbers come with their family and features.
fn families(numbers: impl Iterator<Item = (u32, u32, u16)>) -> Vec<(u32, Classes)> {
    let mut index: HashMap<u32, usize, BuildHasherDefault<Mix>> = HashMap::default();
    let mut units: Vec<(u32, Classes)> = Vec::new();
    for (number, family, bits) in numbers {
        let at = *index.entry(family).or_insert_with(|| {
            units.push((family, Classes::new()));
            units.len() - 1
        });
        let classes = &mut units[at].1;
        match classes.iter_mut().find(|(other, _)| *other == bits) {
            Some((_, numbers)) => numbers.push(number),
            None => classes.push((bits, vec![number])),
        }
    }
    for (_, classes) in &mut units {
        classes.sort_unstable_by_key(|(bits, _)| *bits);
    }
    units
}

/// One unit a class: families do not matter.
fn whole(numbers: impl Iterator<Item = (u32, u32, u16)>) -> Vec<(u32, Classes)> {
    let mut classes = vec![Vec::new(); 1 << (SHARED + 1)];
    for (number, _, bits) in numbers {
        classes[usize::from(bits)].push(number);
    }
    let filled = (0_u16..).zip(classes).filter(|(_, numbers)| !numbers.is_empty());
    filled.map(|class| (0, vec![class])).collect()
}

/// A counter for at least `min` and at most `max` of `count`.
#[allow(clippy::cast_possible_truncation, reason = "all are at most MOST, which fits a byte")]
fn counter(min: u32, max: Option<u32>, count: u32) -> Counter {
    match max {
        Some(max) => Counter { least: min.min(count) as u8, cap: max.min(count) as u8, strict: true },
        None => Counter { least: min.min(count) as u8, cap: min.min(count) as u8, strict: false },
    }
}

/// A tally cut down to its caps; `None` when it breaks a request.
pub(super) fn capped(shape: Shape, state: State) -> Option<State> {
    shape.add(state, 0)
}
