//! How much work choosing may take: no lesson, however odd its requests, keeps a machine busy for long or fills it up.
//!
//! Work is counted in steps and not timed, and a step is the same whatever integers it counts with: so it runs out at the
//! same place on every machine. What a class can use takes a small part of it. Where it runs out, a lesson whose numbers
//! are found keeps them, perhaps with more overlap than need be; a role whose sets are not counted by then is told as too
//! much to work out.

use std::cell::Cell;

/// The steps for counting the sets of one role, again for all that fits the sets to each other, and again for the reasons
/// why there is none. A step takes some 20 to 200 ns.
pub(super) const STEPS: u64 = 50_000_000;
/// The most counts held at once for one role; each takes up to some 400 bytes.
pub(super) const HELD: usize = 1 << 20;

/// What is left of the steps.
#[derive(Debug)]
pub(super) struct Budget(Cell<u64>);

impl Default for Budget {
    fn default() -> Self {
        Self::of(STEPS)
    }
}

impl Budget {
    /// So many steps and no more.
    pub fn of(steps: u64) -> Self {
        Self(Cell::new(steps))
    }

    /// Takes so many steps; `None` when there are not so many left, and from then on.
    pub fn spend(&self, steps: u64) -> Option<()> {
        let left = self.0.get().checked_sub(steps);
        self.0.set(left.unwrap_or(0));
        left.filter(|left| *left > 0).map(|_| ())
    }

    /// Takes all that is left when so many counts are more than can be held.
    pub fn hold(&self, counts: usize) -> Option<()> {
        self.spend(if counts > HELD { u64::MAX } else { 0 })
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
        let budget = Budget::default();
        assert_eq!((budget.spend(1), budget.hold(HELD), budget.is_spent()), (Some(()), Some(()), false));
        assert_eq!((budget.spend(STEPS), budget.is_spent()), (None, true));
        assert_eq!((budget.spend(0), Budget::default().hold(HELD + 1)), (None, None));
    }
}
