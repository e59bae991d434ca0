//! Counters of a half-built set, packed a byte each into one integer, so that adding two tallies is a few instructions.
//!
//! A counter stops at its cap: either it stays there (a request for "at least so many" needs to know no more) or the tally
//! is dead (a request for "at most so many" is broken).

use std::hash::{BuildHasherDefault, Hasher};

/// One tally: byte 0 counts the numbers, the others what the requests count.
pub(super) type State = u128;

/// The index of tallies in a layer. Never iterated over, so its order cannot reach the output.
pub(super) type Index = std::collections::HashMap<State, u32, BuildHasherDefault<Mix>>;

/// The most a counter can hold.
pub(super) const MOST: u32 = 127;

const HIGH: u128 = 0x8080_8080_8080_8080_8080_8080_8080_8080;

/// One counter.
#[derive(Debug, Clone, Copy)]
pub(super) struct Counter {
    /// The least it must hold in the end.
    pub least: u8,
    /// Where it stops.
    pub cap: u8,
    /// Whether going past the cap breaks the tally.
    pub strict: bool,
}

/// How tallies of one role add up.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shape {
    caps: u128,
    slack: u128,
    strict: u128,
    least: u128,
}

impl Shape {
    /// The shape of up to 16 counters; the first counts the numbers.
    pub fn new(counters: &[Counter]) -> Self {
        let mut shape = Self { caps: 0, slack: 0, strict: 0, least: 0 };
        for byte in 0..16 {
            let counter = counters.get(byte).copied().unwrap_or(Counter { least: 0, cap: 0, strict: false });
            let shift = 8 * byte;
            shape.caps |= u128::from(counter.cap) << shift;
            shape.slack |= u128::from(127 - counter.cap.min(127)) << shift;
            shape.strict |= if counter.strict { 0x80 << shift } else { 0 };
            shape.least |= u128::from(counter.least) << shift;
        }
        shape
    }

    /// The sum of two tallies, each within the caps; `None` when it breaks a request.
    pub fn add(&self, a: State, b: State) -> Option<State> {
        let sum = a + b;
        // No byte carries: a sum is at most twice its cap, so with the slack at most cap + 127.
        let over = (sum + self.slack) & HIGH;
        if over & self.strict != 0 {
            return None;
        }
        let full = (over << 1).wrapping_sub(over >> 7);
        Some((sum & !full) | (self.caps & full))
    }

    /// Settles the counters whose bytes `last` covers, because nothing can add to them any more: `None` when one of them
    /// has too few, and else the same tally for all that have enough.
    pub fn close(&self, state: State, last: State) -> Option<State> {
        let enough = ((state | HIGH) - self.least) & HIGH;
        (enough & last == HIGH & last).then_some((state & !last) | (self.least & last))
    }
}

/// A tally of one in counter `at`.
pub(super) const fn one(at: usize) -> State {
    1 << (8 * at)
}

/// The byte of counter `at`.
pub(super) const fn byte(at: usize) -> State {
    0xff << (8 * at)
}

/// How many numbers a tally holds.
pub(super) const fn size(state: State) -> u32 {
    (state & 0xff) as u32
}

/// A multiplying hash; tallies are few and no one chooses them to collide.
#[derive(Debug, Default, Clone, Copy)]
pub(super) struct Mix(u64);

impl Hasher for Mix {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        for &byte in bytes {
            self.write_u64(u64::from(byte));
        }
    }

    fn write_u64(&mut self, word: u64) {
        let mixed = (self.0.rotate_left(23) ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        self.0 = mixed ^ (mixed >> 29);
    }

    #[allow(clippy::cast_possible_truncation, reason = "both halves are taken")]
    fn write_u128(&mut self, word: u128) {
        self.write_u64(word as u64);
        self.write_u64((word >> 64) as u64);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counters_stop_or_die_at_their_caps() {
        let shape = Shape::new(&[
            Counter { least: 3, cap: 3, strict: true },
            Counter { least: 1, cap: 2, strict: false },
            Counter { least: 0, cap: 127, strict: true },
        ]);
        assert_eq!(shape.add(one(0) + one(1), one(1) * 2), Some(one(0) + one(1) * 2));
        assert_eq!(shape.add(one(0) * 2, one(0) * 2), None);
        assert_eq!(shape.add(one(2) * 127, one(2) * 127), None);
        assert_eq!(shape.add(one(2) * 126, one(2)), Some(one(2) * 127));
        let all = State::MAX;
        assert_eq!(shape.close(one(0) * 3 + one(1) * 2, all), Some(one(0) * 3 + one(1)));
        assert_eq!(shape.close(one(0) * 3, all), None);
        assert_eq!(shape.close(one(0) * 2 + one(1), all), None);
        assert_eq!(shape.close(one(0) * 2 + one(1) * 2, 0xff << 8), Some(one(0) * 2 + one(1)));
    }
}
