//! What is asked of the numbers where a lesson asks nothing of them: what a teacher picks numbers for.
//!
//! A zero that holds a place, a teen, a digit that comes again and the same digits in other places, as far as the range
//! has plenty of them. All are least counts, no role is asked for more of them than it has numbers, and each is asked for
//! only where the range has twice as many as all sets together want: so some set always meets them, and is soon found.

use std::collections::BTreeMap;

use super::pool::Pool;
use super::types::{Bound, Given, NumbersSpec, RoleSpec};
use crate::number::{Digits, Feature, Features, Number, Place};

/// How many times what is asked for the range must have.
const PLENTY: u32 = 2;

/// The most numbers of a role that is asked for anything: among more there is some of everything by chance, and to count
/// the sets of many would take long.
const MOST: u32 = 12;

/// Something that is asked for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Wish {
    Feature(Feature),
    /// So many numbers made of the same digits.
    Alike(u32),
}

/// Asks for it, unless a role asks for something itself.
pub(super) fn assume(numbers: &mut NumbersSpec, versions: u32) {
    let roles = [&numbers.sort, &numbers.model, &numbers.exit];
    if roles.iter().any(|role| asks(role)) {
        return;
    }
    let copies = [versions, 1, 1];
    let supply = Supply::of(numbers, copies.iter().sum::<u32>() * 2 * PLENTY);
    let [sort, model, exit] = wishes(numbers, &supply, versions * PLENTY);
    let all = roles.iter().zip(copies).map(|(role, copies)| role.count.value * copies).sum::<u32>();
    let is_tight = Pool::new(numbers).numbers().take((all * PLENTY) as usize).count() < (all * PLENTY) as usize;
    let mut wanted = BTreeMap::new();
    let roles = [&mut numbers.sort, &mut numbers.model, &mut numbers.exit];
    // Few numbers are better all different than all telling.
    let asked = if is_tight { 1 } else { roles.len() };
    for ((role, copies), wishes) in roles.into_iter().zip(copies).zip([sort, model, exit]).take(asked) {
        let mut seats = if role.count.value > MOST { 0 } else { role.count.value };
        for wish in wishes {
            let (takes, of) = match wish {
                Wish::Feature(_) => (1, wish),
                // Three alike are two alike and one more.
                Wish::Alike(alike) => (alike.saturating_sub(role.same_digits.map_or(0, |had| had.value.min)), wish),
            };
            let wants = wanted.get(&of).copied().unwrap_or(0) + copies;
            if takes <= seats && wants * PLENTY <= supply.has(wish) {
                seats -= takes;
                wanted.insert(of, wants);
                role.ask(wish);
            }
        }
    }
}

/// Whether a role says anything of its numbers but how many.
fn asks(role: &RoleSpec) -> bool {
    role.features().next().is_some() || role.same_digits.is_some() || role.named() > 0
}

/// What the sort, the model and the exit numbers are asked for, the most telling first: a role of few numbers gets the
/// first. A digit that comes again leaves a quick check of two-digit numbers nothing to ask.
fn wishes(numbers: &NumbersSpec, supply: &Supply, least: u32) -> [Vec<Wish>; 3] {
    let places = numbers.range.value.1.digits().skip(1).map(|(place, _)| Feature::Zero(place));
    let zeros: Vec<Feature> = places.filter(|zero| supply.has(Wish::Feature(*zero)) >= least).collect();
    let first = zeros.iter().take(1).copied();
    let first: Vec<Wish> = first.chain([Feature::Teen, Feature::Repeat]).map(Wish::Feature).collect();
    // A second zero in the middle, and one at the end.
    let inner = zeros.iter().filter(|zero| **zero != Feature::Zero(Place::Ones));
    let second = if inner.clone().count() > 1 { inner.clone().nth(1) } else { inner.clone().next() };
    let last = zeros.iter().filter(|zero| **zero == Feature::Zero(Place::Ones) && zeros.len() > 1);
    let more = second.into_iter().chain(last).copied().map(Wish::Feature);
    let sort = first.iter().copied().chain([Wish::Alike(2)]).chain(more).chain([Wish::Alike(3)]);
    let exit = first.iter().copied().filter(|wish| *wish != Wish::Feature(Feature::Repeat)).collect();
    [sort.collect(), first.clone(), exit]
}

impl RoleSpec {
    fn ask(&mut self, wish: Wish) {
        let more = |bound: Option<Given<Bound>>| {
            Given::assumed(Bound { min: bound.map_or(0, |bound| bound.value.min) + 1, max: None })
        };
        match wish {
            Wish::Feature(Feature::Zero(place)) => {
                let had = self.zeros.get(&place).copied();
                self.zeros.insert(place, more(had));
            }
            Wish::Feature(Feature::Repeat) => self.repeats = Some(more(self.repeats)),
            Wish::Feature(Feature::Teen) => self.teens = Some(more(self.teens)),
            Wish::Alike(alike) => self.same_digits = Some(Given::assumed(Bound { min: alike, max: None })),
        }
    }
}

/// What the range has, each counted up to a limit. A single digit shows no place beside it and counts for nothing.
struct Supply {
    features: BTreeMap<Feature, u32>,
    /// How many groups of two and of three made of the same digits.
    alike: [u32; 2],
}

impl Supply {
    fn of(numbers: &NumbersSpec, limit: u32) -> Self {
        let zeros = numbers.range.value.1.digits().skip(1).map(|(place, _)| Feature::Zero(place));
        let mut supply = Self {
            features: zeros.chain([Feature::Teen, Feature::Repeat]).map(|feature| (feature, 0)).collect(),
            alike: [0; 2],
        };
        let mut groups: BTreeMap<Digits, u32> = BTreeMap::new();
        let tens = Number::new(10).unwrap_or(Number::MIN);
        for number in Pool::new(numbers).numbers().filter(|number| *number >= tens) {
            let features = Features::of(number);
            for (_, count) in supply.features.iter_mut().filter(|(feature, _)| features.has(**feature)) {
                *count += 1;
            }
            if supply.alike[1] < limit {
                let group = groups.entry(features.digits()).or_default();
                *group += 1;
                match group {
                    2 => supply.alike[0] += 1,
                    3 => supply.alike[1] += 1,
                    _ => {}
                }
            }
            if supply.features.values().chain(&supply.alike).all(|count| *count >= limit) {
                break;
            }
        }
        supply
    }

    fn has(&self, wish: Wish) -> u32 {
        match wish {
            Wish::Feature(feature) => self.features.get(&feature).copied().unwrap_or(0),
            Wish::Alike(2) => self.alike[0],
            Wish::Alike(_) => self.alike[1],
        }
    }
}
