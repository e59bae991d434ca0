//! How much work choosing may take: no lesson, however odd its requests, keeps a machine busy for long or fills it up.
//!
//! Work is counted, not timed, so that it runs out at the same place on every machine. What a class can use takes a
//! thousandth of it. Where it runs out, a lesson whose numbers are found keeps them, perhaps with more overlap than need be;
//! a role for which nothing was found or disproved is told as too much to work out.

use std::cell::Cell;
use std::rc::Rc;

/// The work that may be done for a lesson, and again for the reasons why there is none; a unit takes some 20 ns.
pub(super) const WORK: u64 = 300_000_000;
/// The most that the counts of one role may take, in bytes, about.
pub(super) const MEMORY: usize = 400 << 20;

/// What is left of the work. Copies draw on the same store.
#[derive(Debug, Clone)]
pub(super) struct Meter(Rc<Cell<u64>>);

impl Default for Meter {
    fn default() -> Self {
        Self(Rc::new(Cell::new(WORK)))
    }
}

impl Meter {
    /// So much work and no more.
    #[cfg(test)]
    pub fn of(units: u64) -> Self {
        Self(Rc::new(Cell::new(units)))
    }

    /// Takes so many units; `None` when there are not so many left, and from then on.
    pub fn spend(&self, units: u64) -> Option<()> {
        let left = self.0.get().checked_sub(units);
        self.0.set(left.unwrap_or(0));
        left.filter(|left| *left > 0).map(|_| ())
    }

    /// Gives up: what is asked for would take too much.
    pub fn drain(&self) {
        self.0.set(0);
    }

    /// Whether nothing is left.
    pub fn is_spent(&self) -> bool {
        self.0.get() == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_spent_stays_spent() {
        let meter = Meter::default();
        let copy = meter.clone();
        assert_eq!((meter.spend(1), copy.is_spent()), (Some(()), false));
        assert_eq!((copy.spend(WORK), meter.is_spent()), (None, true));
        assert_eq!(meter.spend(0), None);
    }
}
