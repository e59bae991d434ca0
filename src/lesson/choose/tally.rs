//! Whole numbers to count sets with: as wide as the lesson needs, and no wider, for speed.
//!
//! Every value met while counting is the number of ways to pick at most `k` of `n` numbers in some restricted manner, so
//! none exceeds the greatest of C(n, 0) .. C(n, k). [`bits`] works that bound out; a width that holds it is exact.

use num_bigint::BigUint;

use crate::rng::Stream;

/// A non-negative whole number.
pub(super) trait Tally: Clone + PartialOrd {
    /// What adding and multiplying costs, about, in units of the meter.
    const COST: u64;

    /// 0.
    fn zero() -> Self;
    /// 1.
    fn one() -> Self;
    /// Whether it is 0.
    fn is_zero(&self) -> bool;
    /// Adds `a * b`.
    fn add_product(&mut self, a: &Self, b: &Self);
    /// Takes `other`, which is no greater, away.
    fn take(&mut self, other: &Self);
    /// The same value; it must fit.
    fn from_big(value: &BigUint) -> Self;
    /// The same value.
    fn to_big(&self) -> BigUint;
    /// Evenly from 0 up to but not including `self`.
    fn below(&self, stream: &mut Stream) -> Self;

    /// `a * b`
    fn product(a: &Self, b: &Self) -> Self {
        let mut out = Self::zero();
        out.add_product(a, b);
        out
    }
}

impl Tally for u128 {
    const COST: u64 = 1;

    fn zero() -> Self {
        0
    }

    fn one() -> Self {
        1
    }

    fn is_zero(&self) -> bool {
        *self == 0
    }

    fn add_product(&mut self, a: &Self, b: &Self) {
        *self += a * b;
    }

    fn take(&mut self, other: &Self) {
        *self -= other;
    }

    fn from_big(value: &BigUint) -> Self {
        value.iter_u64_digits().rev().fold(0, |sum, digit| (sum << 64) | Self::from(digit))
    }

    fn to_big(&self) -> BigUint {
        BigUint::from(*self)
    }

    #[allow(clippy::cast_possible_truncation, reason = "guarded by the comparison")]
    fn below(&self, stream: &mut Stream) -> Self {
        if *self <= Self::from(u64::MAX) {
            return Self::from(stream.below(*self as u64));
        }
        Self::from_big(&stream.below_big(&self.to_big()))
    }
}

impl Tally for BigUint {
    const COST: u64 = 10;

    fn zero() -> Self {
        Self::ZERO
    }

    fn one() -> Self {
        Self::from(1_u8)
    }

    fn is_zero(&self) -> bool {
        *self == Self::ZERO
    }

    fn add_product(&mut self, a: &Self, b: &Self) {
        *self += a * b;
    }

    fn take(&mut self, other: &Self) {
        *self -= other;
    }

    fn from_big(value: &BigUint) -> Self {
        value.clone()
    }

    fn to_big(&self) -> BigUint {
        self.clone()
    }

    fn below(&self, stream: &mut Stream) -> Self {
        stream.below_big(self)
    }
}

/// C(n, k) for k = 0 ..= most.
pub(super) fn binomials(n: usize, most: u32) -> Vec<BigUint> {
    let mut row = vec![BigUint::from(1_u8)];
    for k in 1..=most as usize {
        let next = if k > n { BigUint::ZERO } else { &row[k - 1] * (n - k + 1) / k };
        row.push(next);
    }
    row
}

/// How many bits the number of ways to pick at most `k` of `n` takes.
pub(super) fn bits(n: usize, k: u32) -> u64 {
    binomials(n, k).iter().map(BigUint::bits).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn binomials_follow_pascal() {
        let row: Vec<u64> = binomials(6, 8).iter().map(|c| c.iter_u64_digits().next().unwrap_or(0)).collect();
        assert_eq!(row, [1, 6, 15, 20, 15, 6, 1, 0, 0]);
        assert_eq!(bits(900, 8), (900_u128 * 899 * 898 * 897 * 896 * 895 * 894 * 893 / 40_320).to_big().bits());
    }
}
