//! The seeded stream behind every choice and shuffle, fixed for good.
//!
//! `rand_chacha` promises that a seed gives the same stream in every release; what turns the stream into picks is written
//! out here, so that no other crate's release can change a lesson. Each purpose draws from a stream of its own: asking for
//! one more decoy does not change the numbers.

use num_bigint::BigUint;
use rand_chacha::ChaCha20Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// A stream of random picks.
#[derive(Debug, Clone)]
pub struct Stream(ChaCha20Rng);

/// The 64 bits that stand for the name of a purpose.
fn named(purpose: &str) -> u64 {
    // FNV-1a (Fowler, Noll and Vo; 64-bit constants from memory): any fixed mixing of the name serves.
    purpose
        .bytes()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

/// An index into something of length `len`, the same each time for a seed, a purpose and a thing's own number; 0 when it is
/// empty. For picks that are looked up one at a time, thousands of times a lesson: a stream a thing would be too slow.
///
/// The finishing steps of `SplitMix64` (Steele, Lea and Flood 2014; constants from memory). That the remainder favours low
/// indexes by 2^-60 for short lists is far below what any test can see.
pub fn pick(seed: u64, purpose: &str, thing: u64, len: usize) -> usize {
    const STEP: u64 = 0x9e37_79b9_7f4a_7c15;
    let mix = |bits: u64| {
        let bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    };
    let keys = [seed, named(purpose), thing];
    let bits = keys.into_iter().fold(0_u64, |bits, key| mix((bits ^ key).wrapping_add(STEP)));
    usize::try_from(bits % (len as u64).max(1)).unwrap_or(0)
}

impl Stream {
    /// The stream of a lesson's seed for one purpose, such as `"sort"` or `"strips A"`.
    pub fn new(seed: u64, purpose: &str) -> Self {
        let name = named(purpose);
        let mut key = [0; 32];
        key[..8].copy_from_slice(&seed.to_le_bytes());
        key[8..16].copy_from_slice(&name.to_le_bytes());
        Self(ChaCha20Rng::from_seed(key))
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0.next_u64()
    }

    /// A number from 0 up to but not including `end`, all equally likely; 0 when `end` is 0.
    pub fn below(&mut self, end: u64) -> u64 {
        if end == 0 {
            return 0;
        }
        // Throw away the uneven tail so that no remainder is favoured.
        let tail = (u64::MAX % end + 1) % end;
        loop {
            let bits = self.bits();
            if bits <= u64::MAX - tail {
                return bits % end;
            }
        }
    }

    /// A number from 0 up to but not including `end`, all equally likely; 0 when `end` is 0.
    ///
    /// Takes as many bits as `end - 1` has, 64 at a time from the low end up, and starts over when they reach `end`.
    pub fn below_big(&mut self, end: &BigUint) -> BigUint {
        if *end == BigUint::ZERO {
            return BigUint::ZERO;
        }
        let width = (end - 1_u8).bits();
        loop {
            let mut bytes = Vec::new();
            for _ in 0..width.div_ceil(64) {
                bytes.extend(self.bits().to_le_bytes());
            }
            let picked = BigUint::from_bytes_le(&bytes) >> (width.div_ceil(64) * 64 - width);
            if picked < *end {
                return picked;
            }
        }
    }

    /// An index into something of length `len`; 0 when it is empty.
    #[allow(clippy::cast_possible_truncation, reason = "below a usize")]
    pub fn index(&mut self, len: usize) -> usize {
        self.below(len as u64) as usize
    }

    /// Puts the items into an order in which all orders are equally likely (Fisher and Yates).
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for end in (1..items.len()).rev() {
            let pick = self.index(end + 1);
            items.swap(end, pick);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pick_is_the_same_each_time_and_even() {
        assert_eq!(pick(1, "regrouped", 264, 8), pick(1, "regrouped", 264, 8));
        assert_eq!(pick(1, "none", 0, 0), 0);
        // Neighbouring things and seeds: 8,000 picks of 8, each index within 5 standard deviations (29.6 each) of a thousand.
        for of in [|at| pick(at, "seeds", 7, 8), |at| pick(7, "things", at, 8)] as [fn(u64) -> usize; 2] {
            let mut met = [0_u32; 8];
            (0..8_000).for_each(|at| met[of(at)] += 1);
            assert!(met.iter().all(|count| count.abs_diff(1_000) < 160), "{met:?}");
        }
    }

    #[test]
    fn the_stream_never_changes() {
        let mut stream = Stream::new(1, "sort");
        let first: Vec<u64> = (0..4).map(|_| stream.below(1_000)).collect();
        assert_eq!(first, Stream::new(1, "sort").take(4, 1_000));
        assert_ne!(first, Stream::new(1, "exit").take(4, 1_000));
        assert_ne!(first, Stream::new(2, "sort").take(4, 1_000));
    }

    impl Stream {
        fn take(mut self, count: usize, end: u64) -> Vec<u64> {
            (0..count).map(|_| self.below(end)).collect()
        }
    }

    #[test]
    fn big_picks_are_even_and_below_their_end() {
        // Ten cells of a number far above 64 bits; chi-square as below.
        let end = BigUint::from(10_u8).pow(40);
        let cell = BigUint::from(10_u8).pow(39);
        let mut counts = [0_u32; 10];
        let mut stream = Stream::new(3, "big");
        for _ in 0..10_000 {
            let at = usize::try_from(stream.below_big(&end) / &cell).unwrap();
            counts[at] += 1;
        }
        let chi: f64 = counts.iter().map(|&c| (f64::from(c) - 1_000.0).powi(2) / 1_000.0).sum();
        assert!(chi < 27.877, "{chi}");
        assert_eq!(stream.below_big(&BigUint::from(1_u8)), BigUint::ZERO);
    }

    #[test]
    fn picks_are_even() {
        // Chi-square with 9 degrees of freedom, 0.001 level: 27.877 (NIST/SEMATECH table).
        let mut counts = [0_u32; 10];
        let mut stream = Stream::new(7, "even");
        for _ in 0..10_000 {
            counts[stream.index(10)] += 1;
        }
        let chi: f64 = counts.iter().map(|&c| (f64::from(c) - 1_000.0).powi(2) / 1_000.0).sum();
        assert!(chi < 27.877, "{chi}");
    }
}
