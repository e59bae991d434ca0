//! Counts the sets of a pool exactly and draws one evenly, by walking the counts back.
//!
//! Layer `g` holds every tally that taking from the groups before `g` can reach, with the number of ways to complete it from
//! the groups from `g` on. The count of all sets stands in layer 0; a draw goes down the layers, taking each step as often
//! as the ways behind it say.

use std::rc::Rc;

use num_bigint::BigUint;

use super::cell::Cell;
use super::meter::{MEMORY, Meter};
use super::pool::Pool;
use super::state::{Index, State, size};
use super::tally::{Tally, bits};
use super::wide::Wide;
use crate::rng::Stream;

/// The counts for one pool, in integers as wide as they need.
pub(super) enum Net {
    /// Below 2^128.
    Narrow(Layers<u128>),
    /// Below 2^256.
    Wide(Layers<Wide<4>>),
    /// Below 2^512.
    Wider(Layers<Wide<8>>),
    /// Of any size.
    Any(Layers<BigUint>),
}

/// The same call on the layers of any width.
macro_rules! layers {
    ($net:expr, $layers:ident => $call:expr) => {
        match $net {
            Net::Narrow($layers) => $call,
            Net::Wide($layers) => $call,
            Net::Wider($layers) => $call,
            Net::Any($layers) => $call,
        }
    };
}

impl Net {
    /// Counts the sets of a pool; `None` when that takes more than is left of the work.
    pub fn new(pool: &Rc<Pool>, meter: &Meter) -> Option<Self> {
        Some(match bits(pool.free, pool.count) {
            0..=128 => Self::Narrow(Layers::new(pool, meter)?),
            129..=256 => Self::Wide(Layers::new(pool, meter)?),
            257..=512 => Self::Wider(Layers::new(pool, meter)?),
            _ => Self::Any(Layers::new(pool, meter)?),
        })
    }

    /// What one draw costs, about, in units of the meter.
    pub fn draw_cost(&self) -> u64 {
        layers!(self, layers => 4 * layers.cells.len() as u64 + 40 * u64::from(layers.pool.count))
    }

    /// How many sets there are.
    pub fn count(&self) -> BigUint {
        layers!(self, layers => layers.count().to_big())
    }

    /// Whether there is any.
    pub fn is_empty(&self) -> bool {
        layers!(self, layers => layers.count().is_zero())
    }

    /// One of the sets, rising, all equally likely; `None` when there is none.
    pub fn draw(&self, stream: &mut Stream) -> Option<Vec<u32>> {
        layers!(self, layers => layers.draw(stream))
    }
}

/// The layers of a net, in one width of integer.
pub(super) struct Layers<T> {
    pool: Rc<Pool>,
    cells: Vec<Cell<T>>,
    /// One more than there are cells.
    tallies: Vec<Layer<T>>,
    /// For each layer the bytes of the counters that nothing from there on adds to.
    closed: Vec<State>,
}

/// The tallies that can be met before a cell.
struct Layer<T> {
    states: Vec<State>,
    index: Index,
    ways: Vec<T>,
}

impl<T: Tally> Layers<T> {
    fn new(pool: &Rc<Pool>, meter: &Meter) -> Option<Self> {
        let Some(start) = pool.start else {
            return Some(Self { pool: Rc::clone(pool), cells: Vec::new(), tallies: Vec::new(), closed: Vec::new() });
        };
        let room = pool.count - size(start);
        let cells: Option<Vec<Cell<T>>> = pool.groups.iter().map(|group| Cell::new(group, pool, room, meter)).collect();
        let cells = cells?;
        let closed = pool.closed();
        let mut net = Self { pool: Rc::clone(pool), cells, tallies: Vec::new(), closed };
        net.tallies.push(Layer::of(pool.shape.close(start, net.closed[0])));
        let mut states = 0;
        for at in 0..net.cells.len() {
            let mut after = Layer::of(None);
            for &state in &net.tallies[at].states {
                let mut steps = 1;
                for (_, sum) in net.steps(at, state) {
                    after.meet(sum);
                    steps += 1;
                }
                // Each step is taken twice: there, and back with the ways.
                meter.spend(steps * (1 + T::COST))?;
                if (states + after.states.len()) * Layer::<T>::BYTES > MEMORY {
                    meter.drain();
                    return None;
                }
            }
            states += after.states.len();
            net.tallies.push(after);
        }
        net.complete();
        Some(net)
    }

    /// The ways to go on from a tally before cell `at`, and the tallies they lead to: taking nothing first.
    fn steps(&self, at: usize, state: State) -> impl Iterator<Item = (&(State, T), State)> {
        let left = self.pool.count - size(state);
        let shape = self.pool.shape;
        let closed = self.closed[at + 1];
        self.cells[at].all.iter().take_while(move |(step, _)| size(*step) <= left).filter_map(move |entry| {
            let sum = shape.add(state, entry.0)?;
            Some((entry, shape.close(sum, closed)?))
        })
    }

    /// Fills in the ways, from the last layer back.
    fn complete(&mut self) {
        // In the last layer everything is closed: what is left has enough of all.
        let last = self.tallies.len() - 1;
        self.tallies[last].ways = vec![T::one(); self.tallies[last].states.len()];
        for at in (0..last).rev() {
            let next = &self.tallies[at + 1];
            let mut ways = Vec::with_capacity(self.tallies[at].states.len());
            for &state in &self.tallies[at].states {
                let mut sum = T::zero();
                for ((_, here), after) in self.steps(at, state) {
                    if let Some(rest) = next.ways(after).filter(|rest| !rest.is_zero()) {
                        sum.add_product(here, rest);
                    }
                }
                ways.push(sum);
            }
            self.tallies[at].ways = ways;
        }
    }

    fn count(&self) -> T {
        self.tallies.first().and_then(|layer| layer.ways.first()).cloned().unwrap_or_else(T::zero)
    }

    fn draw(&self, stream: &mut Stream) -> Option<Vec<u32>> {
        let mut state = *self.tallies.first()?.states.first()?;
        if self.count().is_zero() {
            return None;
        }
        let mut set = self.pool.fixed.clone();
        for (at, cell) in self.cells.iter().enumerate() {
            let mut left = self.tallies[at].ways(state)?.below(stream);
            for ((step, ways), after) in self.steps(at, state) {
                let Some(rest) = self.tallies[at + 1].ways(after) else { continue };
                let weight = T::product(ways, rest);
                if left < weight {
                    cell.draw(*step, stream, &mut set);
                    state = after;
                    break;
                }
                left.take(&weight);
            }
        }
        set.sort_unstable();
        Some(set)
    }
}

impl<T> Layer<T> {
    /// What a tally takes, about: itself, its place in the index, its ways.
    const BYTES: usize = 2 * size_of::<State>() + 2 * size_of::<(State, u32)>() + 2 * size_of::<T>();

    fn of(states: Option<State>) -> Self {
        let index = states.iter().map(|&state| (state, 0)).collect();
        Self { states: states.into_iter().collect(), index, ways: Vec::new() }
    }

    fn meet(&mut self, state: State) {
        let states = &mut self.states;
        self.index.entry(state).or_insert_with(|| {
            states.push(state);
            u32::try_from(states.len() - 1).unwrap_or(u32::MAX)
        });
    }

    fn ways(&self, state: State) -> Option<&T> {
        self.index.get(&state).map(|&at| &self.ways[at as usize])
    }
}
