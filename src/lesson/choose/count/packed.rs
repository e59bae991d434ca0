//! Counters of a half-built set, packed a byte each into one integer, so that adding two of them is a few instructions.
//!
//! A counter stops at its cap: either it stays there (a request for "at least so many" needs to know no more) or the sum
//! is dead (a request for "at most so many" is broken). The most it can hold is 127.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// Where all counters stand: byte 0 counts the numbers, the others what the requests count.
pub(super) type Packed = u128;

/// Something for each standing of the counters. Never iterated over, so its order cannot reach the output.
pub(super) type PackedMap<T> = HashMap<Packed, T, BuildHasherDefault<Mix>>;

const HIGH: u128 = 0x8080_8080_8080_8080_8080_8080_8080_8080;

/// One counter.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Counter {
    /// The least it must hold in the end.
    pub least: u8,
    /// Where it stops.
    pub cap: u8,
    /// Whether going past the cap breaks a request.
    pub strict: bool,
}

/// How the counters of one role add up.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Adder {
    caps: u128,
    slack: u128,
    strict: u128,
    least: u128,
}

impl Adder {
    /// Adds up to 16 counters; the first counts the numbers.
    pub fn new(counters: &[Counter]) -> Self {
        let mut adder = Self::default();
        for byte in 0..16 {
            let counter = counters.get(byte).copied().unwrap_or_default();
            let shift = 8 * byte;
            adder.caps |= u128::from(counter.cap) << shift;
            adder.slack |= u128::from(127 - counter.cap.min(127)) << shift;
            adder.strict |= if counter.strict { 0x80 << shift } else { 0 };
            adder.least |= u128::from(counter.least) << shift;
        }
        adder
    }

    /// The sum, each part within the caps; `None` when it breaks a request.
    pub fn add(&self, a: Packed, b: Packed) -> Option<Packed> {
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
    /// has too few, and else the same for all that have enough.
    pub fn settle(&self, counts: Packed, last: Packed) -> Option<Packed> {
        let enough = ((counts | HIGH) - self.least) & HIGH;
        (enough & last == HIGH & last).then_some((counts & !last) | (self.least & last))
    }
}

/// One in counter `at`.
pub(super) const fn one(at: usize) -> Packed {
    1 << (8 * at)
}

/// The byte of counter `at`.
pub(super) const fn byte(at: usize) -> Packed {
    0xff << (8 * at)
}

/// How many numbers were counted.
pub(super) const fn size(counts: Packed) -> u32 {
    (counts & 0xff) as u32
}

/// A multiplying hash; its keys are few and no one chooses them to collide.
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

    fn write_u16(&mut self, word: u16) {
        self.write_u64(u64::from(word));
    }

    fn write_u32(&mut self, word: u32) {
        self.write_u64(u64::from(word));
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
        let adder = Adder::new(&[
            Counter { least: 3, cap: 3, strict: true },
            Counter { least: 1, cap: 2, strict: false },
            Counter { least: 0, cap: 127, strict: true },
        ]);
        assert_eq!(adder.add(one(0) + one(1), one(1) * 2), Some(one(0) + one(1) * 2));
        assert_eq!(adder.add(one(0) * 2, one(0) * 2), None);
        assert_eq!(adder.add(one(2) * 127, one(2) * 127), None);
        assert_eq!(adder.add(one(2) * 126, one(2)), Some(one(2) * 127));
        let all = Packed::MAX;
        assert_eq!(adder.settle(one(0) * 3 + one(1) * 2, all), Some(one(0) * 3 + one(1)));
        assert_eq!(adder.settle(one(0) * 3, all), None);
        assert_eq!(adder.settle(one(0) * 2 + one(1), all), None);
        assert_eq!(adder.settle(one(0) * 2 + one(1) * 2, 0xff << 8), Some(one(0) * 2 + one(1)));
    }
}
