//! Sets in which every number is like some others: the one request that ties all numbers of a set together.
//!
//! In: a demand with `look_alikes`. Out: all its sets, listed in classes of interchangeable numbers, when they are few; or
//! one of them, or the proof that there is none, by a search that always adds a look-alike to a number that lacks one.

use std::collections::{BTreeMap, BTreeSet};

use num_bigint::BigUint;

use super::demand::{Demand, alike};
use super::meter::Meter;
use super::scan;
use super::tally::binomials;
use crate::rng::Stream;

/// Numbers that no request can tell apart.
struct Class {
    family: u32,
    bits: u16,
    numbers: Vec<u32>,
    /// How many of them must be in the set; these come first.
    fixed: usize,
}

/// The classes of a demand and which of them are alike.
pub(super) struct Web<'a> {
    demand: &'a Demand,
    classes: Vec<Class>,
    /// The classes whose numbers are like those of a class, itself among them where its numbers are like each other.
    like: Vec<Vec<usize>>,
}

/// All sets of a demand.
pub(super) struct Listed {
    /// How many of each class, and how many sets that makes.
    leaves: Vec<(Vec<usize>, BigUint)>,
    total: BigUint,
}

/// What a search found.
pub(super) enum Found {
    /// A set.
    Set(Vec<u32>),
    /// There is none.
    None,
    /// Neither, within the steps allowed.
    Unknown,
}

impl<'a> Web<'a> {
    /// The classes of a demand, without what is barred; `None` when there are more than `most`, or so many that comparing
    /// them takes more than is left of the work.
    pub fn new(demand: &'a Demand, barred: &BTreeSet<u32>, most: usize, meter: &Meter) -> Option<Self> {
        let wanted = demand.wants.keys().fold(0_u16, |mask, feature| mask | 1 << feature.bit());
        let mut classes: BTreeMap<(u32, u16), (Vec<u32>, Vec<u32>)> = BTreeMap::new();
        for (number, facts) in scan::numbers(demand, &BTreeSet::new()) {
            let fixed = demand.always.contains(&number);
            if fixed || !barred.contains(&number) {
                let class = classes.entry((facts.family, facts.bits & wanted)).or_default();
                if fixed { class.0.push(number) } else { class.1.push(number) }
            }
            if classes.len() > most {
                return None;
            }
        }
        // Every two classes are compared, digit by digit.
        meter.spend(2 * (classes.len() as u64).pow(2))?;
        let classes: Vec<Class> = classes
            .into_iter()
            .map(|((family, bits), (fixed, free))| Class {
                family,
                bits,
                fixed: fixed.len(),
                numbers: fixed.into_iter().chain(free).collect(),
            })
            .collect();
        let like = classes.iter().map(|a| {
            let with = classes.iter().enumerate().filter(|(_, b)| alike(a.family, b.family));
            with.map(|(at, _)| at).collect()
        });
        Some(Self { demand, like: like.collect(), classes })
    }

    /// Lists all sets; `None` when that takes more than `steps`.
    pub fn list(&self, steps: u32, meter: &Meter) -> Option<Listed> {
        let mut listing = Listing { web: self, meter, left: steps, leaves: Vec::new() };
        // How many numbers like those of a class the classes from one on still hold.
        let mut taken = Vec::with_capacity(self.classes.len());
        if !listing.go(&mut taken, self.demand.count as usize) {
            return None;
        }
        let mut leaves = Vec::new();
        let mut total = BigUint::ZERO;
        for taken in listing.leaves {
            let mut ways = BigUint::from(1_u8);
            for (class, &used) in self.classes.iter().zip(&taken) {
                let free = used - class.fixed;
                if free > 0 {
                    ways *= &binomials(class.numbers.len() - class.fixed, u32::try_from(free).unwrap_or(0))[free];
                }
            }
            total += &ways;
            leaves.push((taken, ways));
        }
        Some(Listed { leaves, total })
    }

    /// Whether a full choice of how many of each class is what was asked.
    fn holds(&self, taken: &[usize]) -> bool {
        let chosen = self.classes.iter().zip(taken);
        let set: Vec<u32> = chosen.flat_map(|(class, &used)| class.numbers[..used].iter().copied()).collect();
        self.demand.holds(&set)
    }

    /// Draws one of the sets listed, all equally likely.
    pub fn draw(&self, listed: &Listed, stream: &mut Stream) -> Option<Vec<u32>> {
        let mut left = stream.below_big(&listed.total);
        let mut leaves = listed.leaves.iter();
        let taken = loop {
            let (taken, ways) = leaves.next()?;
            if left < *ways {
                break taken;
            }
            left -= ways;
        };
        Some(self.fill(taken, stream))
    }

    /// Numbers for how many of each class are taken.
    fn fill(&self, taken: &[usize], stream: &mut Stream) -> Vec<u32> {
        let mut set = Vec::new();
        for (class, &used) in self.classes.iter().zip(taken) {
            set.extend(&class.numbers[..class.fixed]);
            let mut free = class.numbers[class.fixed..].to_vec();
            stream.shuffle(&mut free);
            set.extend(&free[..used - class.fixed]);
        }
        set.sort_unstable();
        set
    }

    /// Looks for a set, in an order that the stream decides, looking at up to `looks` classes.
    pub fn search(&self, looks: u32, meter: &Meter, stream: &mut Stream) -> Found {
        let taken: Vec<usize> = self.classes.iter().map(|class| class.fixed).collect();
        let size: usize = taken.iter().sum();
        if size > self.demand.count as usize {
            return Found::None;
        }
        let mut order: Vec<usize> = (0..self.classes.len()).collect();
        stream.shuffle(&mut order);
        let room: Vec<usize> = self.classes.iter().map(|class| class.numbers.len()).collect();
        let steps = looks / u32::try_from(self.classes.len().max(1)).unwrap_or(looks);
        let mut search = Search { web: self, meter, left: steps, order, taken, room };
        match search.go(self.demand.count as usize - size) {
            Some(true) => Found::Set(self.fill(&search.taken, stream)),
            Some(false) => Found::None,
            None => Found::Unknown,
        }
    }

    /// What a step of a search costs, about, in units of the meter: a look at each class that is taken from, and at those
    /// like it.
    fn cost(&self) -> u64 {
        let (classes, count) = (self.classes.len() as u64, u64::from(self.demand.count));
        classes + classes.min(count) * classes / 8
    }

    /// How many others a number of class `at` is like.
    fn degree(&self, taken: &[usize], at: usize) -> usize {
        let like: usize = self.like[at].iter().map(|&other| taken.get(other).copied().unwrap_or(0)).sum();
        if self.like[at].contains(&at) { like - 1 } else { like }
    }

    /// Whether features can still come right with `left` more numbers.
    fn hopeful(&self, taken: &[usize], left: usize) -> bool {
        self.demand.wants.iter().all(|(feature, bound)| {
            let having: usize = self
                .classes
                .iter()
                .zip(taken)
                .filter(|(class, _)| class.bits >> feature.bit() & 1 == 1)
                .map(|(_, &used)| used)
                .sum();
            having + left >= bound.min as usize && bound.max.is_none_or(|max| having <= max as usize)
        })
    }
}

impl Listed {
    /// How many sets there are.
    pub fn total(&self) -> &BigUint {
        &self.total
    }
}

/// The state of a listing: classes are decided one after the other.
struct Listing<'a> {
    web: &'a Web<'a>,
    meter: &'a Meter,
    left: u32,
    leaves: Vec<Vec<usize>>,
}

impl Listing<'_> {
    /// Decides the next class; false when the steps run out.
    fn go(&mut self, taken: &mut Vec<usize>, room: usize) -> bool {
        let web = self.web;
        if self.left == 0 || self.meter.spend(web.cost()).is_none() {
            return false;
        }
        self.left -= 1;
        let at = taken.len();
        if at == web.classes.len() {
            if room == 0 && web.holds(taken) {
                self.leaves.push(taken.clone());
            }
            return true;
        }
        // A number must still be able to get the look-alikes it lacks from the classes to come.
        let lacks = |k: usize| (web.demand.look_alikes as usize).saturating_sub(web.degree(taken, k));
        let starved = (0..at).filter(|&k| taken[k] > 0).any(|k| {
            let lacking = lacks(k);
            lacking > 0 && {
                let to_come = web.like[k].iter().filter(|&&other| other >= at);
                lacking > room.min(to_come.map(|&other| web.classes[other].numbers.len()).sum())
            }
        });
        if starved || !web.hopeful(taken, room) {
            return true;
        }
        let class = &web.classes[at];
        for used in class.fixed..=class.numbers.len().min(room) {
            taken.push(used);
            let go_on = self.go(taken, room - used);
            taken.pop();
            if !go_on {
                return false;
            }
        }
        true
    }
}

/// The state of a search: a set grows by one number at a time.
struct Search<'a> {
    web: &'a Web<'a>,
    meter: &'a Meter,
    left: u32,
    order: Vec<usize>,
    taken: Vec<usize>,
    /// How many of each class may be taken at all, on this branch.
    room: Vec<usize>,
}

impl Search<'_> {
    /// Adds `left` numbers; whether that was possible, or `None` when the steps run out. On success `taken` is the set.
    fn go(&mut self, left: usize) -> Option<bool> {
        let web = self.web;
        self.left = self.left.checked_sub(1)?;
        self.meter.spend(web.cost())?;
        if left == 0 {
            return Some(web.holds(&self.taken));
        }
        if !web.hopeful(&self.taken, left) {
            return Some(false);
        }
        // Any set that holds a number with too few look-alikes holds one more of them: branch over which.
        let least = web.demand.look_alikes as usize;
        let lacking = (0..self.taken.len())
            .filter(|&k| self.taken[k] > 0)
            .map(|k| (least.saturating_sub(web.degree(&self.taken, k)), k))
            .max_by_key(|&(lacks, _)| lacks);
        let branches: Vec<usize> = match lacking {
            Some((lacks, _)) if lacks > left => return Some(false),
            Some((lacks, k)) if lacks > 0 => {
                self.order.iter().copied().filter(|other| web.like[k].binary_search(other).is_ok()).collect()
            }
            _ => self.order.clone(),
        };
        let before = self.room.clone();
        for class in branches {
            if self.taken[class] < self.room[class] {
                self.taken[class] += 1;
                let found = self.go(left - 1);
                if found != Some(false) {
                    return found;
                }
                self.taken[class] -= 1;
                // Every set with more of this class on this branch has been ruled out.
                self.room[class] = self.taken[class];
            }
        }
        self.room = before;
        Some(false)
    }
}
