//! The numbers a role may choose from, sorted into classes whose members no request can tell apart.
//!
//! In: a [`Demand`] and the numbers taken by other roles. Out: units (families of numbers made of the same digits, or the
//! whole pool when no request cares for families) that hold classes (equal features). Units of equal profile go into one
//! group, because they too are interchangeable.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::hash::BuildHasherDefault;
use std::rc::Rc;

use super::demand::{Demand, Facts};
use super::state::{Counter, MOST, Mix, Shape, State, one};

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
        let open =
            |number: u32| demand.allows(number) && !demand.always.contains(&number) && !taken.barred.contains(&number);
        let class = |number: u32| {
            let facts = Facts::of(number);
            let shared = taken.shared.is_some_and(|(shared, _)| shared.contains(&number));
            (facts.family, (facts.bits | u16::from(shared) << SHARED) & wanted)
        };
        let units = if family.is_some() { families(demand, open, class) } else { whole(demand, open, class) };
        let free = units.iter().flat_map(|(_, classes)| classes.values()).map(Vec::len).sum();
        let mut groups: BTreeMap<Vec<(u16, usize)>, BTreeMap<u32, Vec<Vec<Class>>>> = BTreeMap::new();
        for (key, classes) in units {
            let profile = classes.iter().map(|(&bits, numbers)| (bits, numbers.len())).collect();
            let base = if family.is_some() { bases.get(&key).copied().unwrap_or(0) } else { 0 };
            let unit = classes.into_iter().map(|(bits, numbers)| Class { adds: adds(bits), numbers }).collect();
            groups.entry(profile).or_default().entry(base).or_default().push(unit);
        }
        let mut groups: Vec<(u32, Group)> = groups
            .into_iter()
            .flat_map(|(profile, bases)| {
                let reach = profile.iter().fold(0, |mask, (bits, _)| mask | bits);
                bases.into_iter().map(move |(base, units)| (reach.reverse_bits().into(), Group { base, units }))
            })
            .collect();
        // Groups that can change few counters come first, so that few tallies are in play for as long as possible.
        groups.sort_by_key(|(reach, _)| *reach);
        let groups = groups.into_iter().map(|(_, group)| Rc::new(group)).collect();
        Some(Self { shape, start, fixed, groups, free, count, family })
    }
}

/// What a class holds, by its features.
type Classes = BTreeMap<u16, Vec<u32>>;

/// One unit a family.
fn families(demand: &Demand, open: impl Fn(u32) -> bool, class: impl Fn(u32) -> (u32, u16)) -> Vec<(u32, Classes)> {
    let mut index: HashMap<u32, usize, BuildHasherDefault<Mix>> = HashMap::default();
    let mut units: Vec<(u32, Classes)> = Vec::new();
    for number in (demand.low..=demand.high).filter(|&number| open(number)) {
        let (family, bits) = class(number);
        let at = *index.entry(family).or_insert_with(|| {
            units.push((family, Classes::new()));
            units.len() - 1
        });
        units[at].1.entry(bits).or_default().push(number);
    }
    units
}

/// One unit a class: families do not matter.
fn whole(demand: &Demand, open: impl Fn(u32) -> bool, class: impl Fn(u32) -> (u32, u16)) -> Vec<(u32, Classes)> {
    let mut classes = vec![Vec::new(); 1 << (SHARED + 1)];
    for number in (demand.low..=demand.high).filter(|&number| open(number)) {
        classes[usize::from(class(number).1)].push(number);
    }
    let filled = (0_u16..).zip(classes).filter(|(_, numbers)| !numbers.is_empty());
    filled.map(|(bits, numbers)| (0, Classes::from([(bits, numbers)]))).collect()
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
