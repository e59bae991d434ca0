//! One role's sets: how many there are, whether there is one, and one of them drawn evenly.
//!
//! Without `look_alikes` all of that comes from the counts. With it, sets are listed one by one when they are few. When
//! they are too many to list, they are not counted; draws from the sets without the request are repeated until one meets
//! it, which is even as well, and a search decides whether any does. Where all that is too much, a sampler that may do so
//! walks from set to set by trading numbers ([`Walk`]), which is nearly even.

use std::cell::Cell;
use std::collections::BTreeSet;
use std::rc::Rc;

use num_bigint::BigUint;

use super::alike::{Found, Listed, Web};
use super::demand::{Demand, Facts, look_alikes_hold};
use super::meter::Meter;
use super::net::Net;
use super::pool::{OPEN, Pool, Taken};
use super::stock::Stock;
use super::walk::Walk;
use crate::rng::Stream;

/// How many steps listing may take.
const LISTING: u32 = 20_000;
/// How many classes may be listed.
const CLASSES: usize = 150;
/// How many draws are made before a search asks whether there is any set.
const DRAWS: u32 = 4_000;
/// How many draws are made when the search has found one.
const MORE_DRAWS: u32 = 40_000;
/// How many steps the search may take, times the number of classes, which is what a step costs.
const SEARCH: u32 = 20_000_000;

/// The sets that satisfy a demand.
pub struct Sampler {
    demand: Demand,
    barred: BTreeSet<u32>,
    /// How many of these draws may meet at most, which the search does not know of.
    shared: Option<(BTreeSet<u32>, u32)>,
    net: Option<Net>,
    listed: Option<Listed>,
    /// What is left of the work.
    meter: Meter,
    /// Whether counting took more than there was.
    unknown: bool,
    /// What may be spent on walking; `None` where a set that nobody counted is no answer.
    walk: Option<Meter>,
    /// Whether sets are met by walking from now on.
    walks: Cell<bool>,
}

impl Sampler {
    /// Counts the sets of numbers that meet `demand` and are not barred. The stock is that of the demand's range.
    pub(super) fn new(demand: &Demand, stock: &Stock, taken: Taken<'_>) -> Self {
        Self::metered(demand, stock, taken, &stock.meter)
    }

    /// The same with work of its own; and where that does not do, sets are met by walking.
    pub(super) fn or_walk(demand: &Demand, stock: &Stock, taken: Taken<'_>) -> Self {
        let counted = Self::metered(demand, stock, taken, &Meter::default());
        let walks = Cell::new(counted.unknown);
        Self { walk: Some(Meter::default()), walks, ..counted }
    }

    /// Sets are met by walking alone.
    pub(super) fn walking(demand: &Demand, taken: Taken<'_>) -> Self {
        Self {
            demand: demand.clone(),
            barred: taken.barred.clone(),
            shared: taken.shared.map(|(shared, most)| (shared.clone(), most)),
            net: None,
            listed: None,
            meter: Meter::default(),
            unknown: true,
            walk: Some(Meter::default()),
            walks: Cell::new(true),
        }
    }

    /// A sampler of another demand that meets sets as this one does: by counting, or by walking.
    pub(super) fn likewise(&self, demand: &Demand, stock: &Stock, taken: Taken<'_>) -> Self {
        if self.walks() { Self::walking(demand, taken) } else { Self::new(demand, stock, taken) }
    }

    fn metered(demand: &Demand, stock: &Stock, taken: Taken<'_>, meter: &Meter) -> Self {
        let meter = meter.clone();
        let pool = if meter.is_spent() { None } else { Pool::new(demand, stock, taken) };
        let net = pool.and_then(|pool| Net::new(&Rc::new(pool), &meter)).filter(|net| !net.is_empty());
        let unknown = net.is_none() && meter.is_spent();
        let impossible = demand.look_alikes >= demand.count.max(1);
        let mut sampler = Self {
            demand: demand.clone(),
            barred: taken.barred.clone(),
            shared: taken.shared.map(|(shared, most)| (shared.clone(), most)),
            net: net.filter(|_| !impossible),
            listed: None,
            meter,
            unknown,
            walk: None,
            walks: Cell::new(false),
        };
        if sampler.is_tied() && sampler.net.is_some() && taken.shared.is_none() {
            sampler.listed = sampler.web(CLASSES).and_then(|web| web.list(LISTING, &sampler.meter));
        }
        sampler
    }

    /// The same with no number out of reach.
    pub fn alone(demand: &Demand) -> Self {
        Self::new(demand, &Stock::new(demand), OPEN)
    }

    /// Whether `look_alikes` ties numbers of different families together, so that the net does not know of it.
    fn is_tied(&self) -> bool {
        self.demand.look_alikes > 0 && !self.demand.in_families()
    }

    /// How many sets there are; `None` when that is not counted.
    pub fn count(&self) -> Option<BigUint> {
        match (&self.net, &self.listed) {
            _ if self.unknown => None,
            (None, _) => Some(BigUint::ZERO),
            (_, Some(listed)) => Some(listed.total().clone()),
            (Some(net), None) => (!self.is_tied()).then(|| net.count()),
        }
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.has_any() == Some(false)
    }

    /// Whether there is any; `None` when that takes more than is left of the work.
    pub fn has_any(&self) -> Option<bool> {
        if let Some(count) = self.count() {
            return Some(count > BigUint::ZERO);
        }
        let drawn = self.draw(&mut Stream::new(0, "any")).is_some();
        (drawn || !(self.walks() || self.meter.is_spent())).then_some(drawn)
    }

    /// Whether sets are met by walking, because all else is too much.
    pub(super) fn walks(&self) -> bool {
        self.walks.get()
    }

    /// One of the sets, all equally likely; `None` when there is none, or none was met by walking.
    pub fn draw(&self, stream: &mut Stream) -> Option<Vec<u32>> {
        if self.walks() {
            let shared = self.shared.as_ref().map(|(shared, most)| (shared, *most));
            let taken = Taken { barred: &self.barred, shared };
            return Walk::draw(&self.demand, taken, self.walk.as_ref()?, stream);
        }
        let net = self.net.as_ref()?;
        if !self.is_tied() {
            return net.draw(stream);
        }
        if let Some(listed) = &self.listed {
            return self.web(CLASSES)?.draw(listed, stream);
        }
        if let Some(set) = self.try_draws(net, DRAWS, stream) {
            return Some(set);
        }
        if self.shared.is_some() {
            return None;
        }
        let found = match self.web(usize::MAX)?.search(SEARCH, &self.meter, stream) {
            Found::Set(set) => Some(set),
            Found::None => return None,
            Found::Unknown if self.walk.is_some() => {
                self.walks.set(true);
                return self.draw(stream);
            }
            Found::Unknown => None,
        };
        // There are sets, but they are one in many thousands: try on for an even choice before taking the one found.
        let set = self.try_draws(net, MORE_DRAWS, stream).or(found);
        if set.is_none() {
            // Neither found nor disproved.
            self.meter.drain();
        }
        set
    }

    fn web(&self, most: usize) -> Option<Web<'_>> {
        Web::new(&self.demand, &self.barred, most, &self.meter)
    }

    fn try_draws(&self, net: &Net, draws: u32, stream: &mut Stream) -> Option<Vec<u32>> {
        // Whether numbers are alike is looked up for every two of them.
        let cost = net.draw_cost() + u64::from(self.demand.count).pow(2);
        (0..draws).map_while(|_| self.meter.spend(cost)).find_map(|()| {
            let set = net.draw(stream)?;
            let facts: Vec<Facts> = set.iter().map(|&number| Facts::of(number)).collect();
            look_alikes_hold(&facts, self.demand.look_alikes).then_some(set)
        })
    }
}
