//! Counting all sets of numbers that meet a role's requests, and drawing one of them evenly.
//!
//! In: a [`Demand`], the lesson's [`Candidates`] and the numbers to avoid. Out: the exact count of sets, and sets drawn
//! from them, all equally likely; or that there is none; or that counting them takes too much.
//!
//! What a request sees of a number is its digits and its features. [`batches`] sorts the candidates by both: numbers that
//! no request can tell apart are interchangeable, so taking j of n counts C(n, j) ways. [`counters`] turns the requests into
//! counters that stop at the least number asked for, or break above the most; [`packed`] keeps them a byte each. Only
//! `same_digits` looks at digits: then the numbers made of the same digits form a bundle with a rule of its own for how
//! many may be taken, and bundles that are alike are interchangeable in turn ([`ways`]): i of B of them count C(B, i) ways.
//! [`chain`] goes through all batches. Integers are as wide as the bound C(candidates, count) demands ([`wide`]).

mod batches;
mod candidates;
mod chain;
mod counters;
mod packed;
mod ways;
mod wide;

use num_bigint::BigUint;

pub(super) use batches::Avoided;
pub(super) use candidates::{Candidates, each};
pub(super) use counters::{Counters, MOST};

use super::budget::Budget;
use super::demand::Demand;
use crate::number::Number;
use crate::rng::Stream;
use batches::Batches;
use chain::{Chain, Counted};

/// Why there are no sets to draw from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSets {
    /// No set meets the requests.
    Impossible,
    /// Counting them takes too many steps.
    TooMany,
}

/// The sets that meet a demand: at least one.
pub struct Solutions {
    count: BigUint,
    counted: Box<dyn Counted + Send + Sync>,
}

impl Solutions {
    /// Counts the sets without the numbers to avoid. The candidates are those of the demand's range.
    pub(super) fn new(
        demand: &Demand,
        candidates: &Candidates,
        avoided: Avoided<'_>,
        budget: &Budget,
    ) -> Result<Self, NoSets> {
        let batches = Batches::new(demand, candidates, avoided).ok_or(NoSets::Impossible)?;
        let counted: Option<Box<dyn Counted + Send + Sync>> = match wide::bits(batches.free, batches.count) {
            0..=128 => boxed::<2>(batches, budget),
            129..=256 => boxed::<4>(batches, budget),
            257..=512 => boxed::<8>(batches, budget),
            // A hundred of all numbers that a lesson can ask for have 1,469 bits.
            _ => boxed::<24>(batches, budget),
        };
        let counted = counted.ok_or(NoSets::TooMany)?;
        let count = counted.count();
        if count == BigUint::ZERO { Err(NoSets::Impossible) } else { Ok(Self { count, counted }) }
    }

    /// All sets of a demand.
    pub fn of(demand: &Demand) -> Result<Self, NoSets> {
        Self::new(demand, &Candidates::new(demand), Avoided::default(), &Budget::default())
    }

    /// How many sets there are.
    pub fn count(&self) -> &BigUint {
        &self.count
    }

    /// About how many bytes all these counts and numbers take.
    pub(super) fn bytes(&self) -> usize {
        self.counted.bytes()
    }

    /// One of the sets, rising, all equally likely.
    pub fn draw(&self, stream: &mut Stream) -> Vec<Number> {
        self.counted.draw(stream)
    }
}

fn boxed<const N: usize>(batches: Batches, budget: &Budget) -> Option<Box<dyn Counted + Send + Sync>> {
    Some(Box::new(Chain::<N>::new(batches, budget)?))
}
