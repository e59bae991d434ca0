//! Counts the sets of a pool exactly and draws one evenly, by walking the counts back.
//!
//! Layer `g` holds every tally that taking from the groups before `g` can reach, with the number of ways to complete it from
//! the groups from `g` on. The count of all sets stands in layer 0; a draw goes down the layers, taking each step as often
//! as the ways behind it say.

use std::rc::Rc;

use num_bigint::BigUint;

use super::cell::Cell;
use super::pool::Pool;
use super::state::{Index, State, size};
use super::tally::{Tally, bits};
use crate::rng::Stream;

/// The counts for one pool.
pub(super) enum Net {
    /// Counts below 2^127.
    Narrow(Layers<u128>),
    /// Counts of any size.
    Wide(Layers<BigUint>),
}

impl Net {
    /// Counts the sets of a pool.
    pub fn new(pool: &Rc<Pool>) -> Self {
        if bits(pool.free, pool.count) < 128 { Self::Narrow(Layers::new(pool)) } else { Self::Wide(Layers::new(pool)) }
    }

    /// How many sets there are.
    pub fn count(&self) -> BigUint {
        match self {
            Self::Narrow(layers) => layers.count().to_big(),
            Self::Wide(layers) => layers.count().to_big(),
        }
    }

    /// Whether there is any.
    pub fn is_empty(&self) -> bool {
        self.count() == BigUint::ZERO
    }

    /// One of the sets, rising, all equally likely; `None` when there is none.
    pub fn draw(&self, stream: &mut Stream) -> Option<Vec<u32>> {
        match self {
            Self::Narrow(layers) => layers.draw(stream),
            Self::Wide(layers) => layers.draw(stream),
        }
    }
}

/// The layers of a net, in one width of integer.
pub(super) struct Layers<T> {
    pool: Rc<Pool>,
    cells: Vec<Cell<T>>,
    /// One more than there are cells.
    layers: Vec<Layer<T>>,
}

/// The tallies that can be met before a cell.
struct Layer<T> {
    states: Vec<State>,
    index: Index,
    ways: Vec<T>,
}

impl<T: Tally> Layers<T> {
    fn new(pool: &Rc<Pool>) -> Self {
        let Some(start) = pool.start else {
            return Self { pool: Rc::clone(pool), cells: Vec::new(), layers: Vec::new() };
        };
        let room = pool.count - size(start);
        let cells: Vec<Cell<T>> = pool.groups.iter().map(|group| Cell::new(group, pool, room)).collect();
        let mut layers = vec![Layer::of(vec![start])];
        for cell in &cells {
            let last = &layers[layers.len() - 1];
            let mut next = Layer::of(Vec::new());
            for &state in &last.states {
                let left = pool.count - size(state);
                for (step, _) in cell.all.iter().take_while(|(step, _)| size(*step) <= left) {
                    if let Some(sum) = pool.shape.add(state, *step) {
                        next.meet(sum);
                    }
                }
            }
            layers.push(next);
        }
        let mut net = Self { pool: Rc::clone(pool), cells, layers };
        net.complete();
        net
    }

    /// Fills in the ways, from the last layer back.
    fn complete(&mut self) {
        let last = self.layers.len() - 1;
        let end = &mut self.layers[last];
        end.ways = end.states.iter().map(|&s| if self.pool.shape.meets(s) { T::one() } else { T::zero() }).collect();
        for at in (0..last).rev() {
            let (before, after) = self.layers.split_at_mut(at + 1);
            let (layer, next) = (&mut before[at], &after[0]);
            layer.ways = Vec::with_capacity(layer.states.len());
            for &state in &layer.states {
                let mut sum = T::zero();
                let left = self.pool.count - size(state);
                for (step, ways) in self.cells[at].all.iter().take_while(|(step, _)| size(*step) <= left) {
                    if let Some(rest) = self.pool.shape.add(state, *step).and_then(|sum| next.ways(sum)) {
                        if !rest.is_zero() {
                            sum.add_product(ways, rest);
                        }
                    }
                }
                layer.ways.push(sum);
            }
        }
    }

    fn count(&self) -> T {
        self.layers.first().map_or_else(T::zero, |layer| layer.ways[0].clone())
    }

    fn draw(&self, stream: &mut Stream) -> Option<Vec<u32>> {
        let mut state = self.pool.start?;
        if self.count().is_zero() {
            return None;
        }
        let mut set = self.pool.fixed.clone();
        for (at, cell) in self.cells.iter().enumerate() {
            let mut left = self.layers[at].ways(state)?.below(stream);
            for (step, ways) in &cell.all {
                let Some(sum) = self.pool.shape.add(state, *step) else { continue };
                let Some(rest) = self.layers[at + 1].ways(sum) else { continue };
                let weight = T::product(ways, rest);
                if left < weight {
                    cell.draw(*step, stream, &mut set);
                    state = sum;
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
    fn of(states: Vec<State>) -> Self {
        let mut layer = Self { states: Vec::new(), index: Index::default(), ways: Vec::new() };
        for state in states {
            layer.meet(state);
        }
        layer
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
