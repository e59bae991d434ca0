//! One role's sets: how many there are, whether there is one, and one of them drawn evenly.

use std::collections::BTreeSet;
use std::rc::Rc;

use num_bigint::BigUint;

use super::demand::{Demand, Facts, look_alikes_hold};
use super::net::Net;
use super::pool::{Pool, Taken};
use crate::rng::Stream;

/// How often a draw is repeated until its numbers are alike.
const TRIES: u32 = 20_000;

/// The sets that satisfy a demand.
pub struct Sampler {
    net: Option<Net>,
    look_alikes: u32,
}

impl Sampler {
    /// Counts the sets of numbers that meet `demand` and are not barred.
    pub(super) fn new(demand: &Demand, taken: Taken<'_>) -> Self {
        let net = Pool::new(demand, taken).map(|pool| Net::new(&Rc::new(pool)));
        Self { net, look_alikes: demand.look_alikes }
    }

    /// The same with no number out of reach.
    pub fn alone(demand: &Demand) -> Self {
        Self::new(demand, Taken { barred: &BTreeSet::new(), shared: None })
    }

    /// How many sets there are; `None` when that is not counted.
    pub fn count(&self) -> Option<BigUint> {
        let all = self.net.as_ref().map_or(BigUint::ZERO, Net::count);
        (self.look_alikes == 0 || all == BigUint::ZERO).then_some(all)
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        match &self.net {
            None => true,
            Some(net) if self.look_alikes == 0 => net.is_empty(),
            Some(_) => self.draw(&mut Stream::new(0, "any")).is_none(),
        }
    }

    /// One of the sets, all equally likely; `None` when there is none.
    pub fn draw(&self, stream: &mut Stream) -> Option<Vec<u32>> {
        let net = self.net.as_ref()?;
        for _ in 0..TRIES {
            let set = net.draw(stream)?;
            if self.look_alikes == 0 {
                return Some(set);
            }
            let facts: Vec<Facts> = set.iter().map(|&number| Facts::of(number)).collect();
            if look_alikes_hold(&facts, self.look_alikes) {
                return Some(set);
            }
        }
        None
    }
}
