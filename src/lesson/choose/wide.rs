//! Whole numbers of a fixed width above 128 bits: no allocation, so counting over a million numbers stays quick.

use num_bigint::BigUint;

use super::tally::Tally;
use crate::rng::Stream;

/// A whole number below 2^(64 N), its least 64 bits first. Arithmetic is exact as long as results fit, which
/// [`super::tally`] makes sure of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Wide<const N: usize>([u64; N]);

impl<const N: usize> PartialOrd for Wide<N> {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.0.iter().rev().cmp(other.0.iter().rev()))
    }
}

impl<const N: usize> Tally for Wide<N> {
    const COST: u64 = N as u64;

    fn zero() -> Self {
        Self([0; N])
    }

    fn one() -> Self {
        let mut limbs = [0; N];
        limbs[0] = 1;
        Self(limbs)
    }

    fn is_zero(&self) -> bool {
        self.0.iter().all(|&limb| limb == 0)
    }

    #[allow(clippy::cast_possible_truncation, reason = "the low and the high half are both kept")]
    fn add_product(&mut self, a: &Self, b: &Self) {
        for (at, &x) in a.0.iter().enumerate() {
            if x == 0 {
                continue;
            }
            let mut carry = 0_u128;
            for (sum, &y) in self.0[at..].iter_mut().zip(&b.0) {
                // At most (2^64 - 1)^2 + 2 (2^64 - 1), which is 2^128 - 1.
                let exact = u128::from(x) * u128::from(y) + u128::from(*sum) + carry;
                *sum = exact as u64;
                carry = exact >> 64;
            }
            debug_assert_eq!(carry, 0, "a count outgrew its width");
        }
    }

    fn take(&mut self, other: &Self) {
        let mut borrow = false;
        for (limb, &less) in self.0.iter_mut().zip(&other.0) {
            let (rest, first) = limb.overflowing_sub(less);
            let (rest, second) = rest.overflowing_sub(u64::from(borrow));
            *limb = rest;
            borrow = first || second;
        }
    }

    fn from_big(value: &BigUint) -> Self {
        let mut limbs = [0; N];
        for (limb, digit) in limbs.iter_mut().zip(value.iter_u64_digits()) {
            *limb = digit;
        }
        Self(limbs)
    }

    fn to_big(&self) -> BigUint {
        let bytes: Vec<u8> = self.0.iter().flat_map(|limb| limb.to_le_bytes()).collect();
        BigUint::from_bytes_le(&bytes)
    }

    fn below(&self, stream: &mut Stream) -> Self {
        Self::from_big(&stream.below_big(&self.to_big()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_numbers_reckon_as_big_ones_do() {
        let mut stream = Stream::new(1, "wide");
        let most = BigUint::from(1_u8) << 127;
        for _ in 0..500 {
            let [left, right, more] = [0; 3].map(|_| stream.below_big(&most));
            let wide = [&left, &right, &more].map(Wide::<4>::from_big);
            let mut sum = wide[2];
            sum.add_product(&wide[0], &wide[1]);
            assert_eq!(sum.to_big(), &left * &right + &more);
            assert_eq!(wide[0] < wide[1], left < right);
            sum.take(&wide[2]);
            assert_eq!(sum.to_big(), &left * &right);
        }
    }
}
