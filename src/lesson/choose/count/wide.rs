//! Whole numbers to count sets with: of a fixed width, so that counting allocates nothing.
//!
//! Every value met while counting is the number of ways to pick at most `k` of `n` numbers in some restricted manner, so
//! none exceeds the greatest of C(n, 0) .. C(n, k). [`bits`] works that bound out; a width that holds it is exact.

use num_bigint::BigUint;

use crate::rng::Stream;

/// A whole number below 2^(64 N), its least 64 bits first. Arithmetic is exact as long as results fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Wide<const N: usize>([u64; N]);

impl<const N: usize> PartialOrd for Wide<N> {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.0.iter().rev().cmp(other.0.iter().rev()))
    }
}

impl<const N: usize> Wide<N> {
    /// 0.
    pub const ZERO: Self = Self([0; N]);
    /// 1.
    pub const ONE: Self = Self::of(1);

    /// A small number.
    const fn of(value: u64) -> Self {
        let mut limbs = [0; N];
        limbs[0] = value;
        Self(limbs)
    }

    /// Whether it is 0.
    pub fn is_zero(&self) -> bool {
        self.0.iter().all(|&limb| limb == 0)
    }

    /// Adds `other`.
    pub fn add(&mut self, other: &Self) {
        let mut carry = false;
        for (limb, &more) in self.0.iter_mut().zip(&other.0) {
            let (sum, first) = limb.overflowing_add(more);
            let (sum, second) = sum.overflowing_add(u64::from(carry));
            *limb = sum;
            carry = first || second;
        }
        debug_assert!(!carry, "a count outgrew its width");
    }

    /// Adds `a * b`.
    #[allow(clippy::cast_possible_truncation, reason = "the low and the high half are both kept")]
    pub fn add_product(&mut self, a: &Self, b: &Self) {
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

    /// `a * b`
    pub fn product(a: &Self, b: &Self) -> Self {
        let mut product = Self::ZERO;
        product.add_product(a, b);
        product
    }

    /// Takes `other`, which is no greater, away.
    pub fn take(&mut self, other: &Self) {
        let mut borrow = false;
        for (limb, &less) in self.0.iter_mut().zip(&other.0) {
            let (rest, first) = limb.overflowing_sub(less);
            let (rest, second) = rest.overflowing_sub(u64::from(borrow));
            *limb = rest;
            borrow = first || second;
        }
    }

    /// The same value; it must fit.
    pub fn from_big(value: &BigUint) -> Self {
        let mut limbs = [0; N];
        for (limb, digit) in limbs.iter_mut().zip(value.iter_u64_digits()) {
            *limb = digit;
        }
        Self(limbs)
    }

    /// The same value.
    pub fn to_big(self) -> BigUint {
        let bytes: Vec<u8> = self.0.iter().flat_map(|limb| limb.to_le_bytes()).collect();
        BigUint::from_bytes_le(&bytes)
    }

    /// Evenly from 0 up to but not including `self`.
    pub fn below(&self, stream: &mut Stream) -> Self {
        if self.0[1..].iter().all(|&limb| limb == 0) {
            return Self::of(stream.below(self.0[0]));
        }
        Self::from_big(&stream.below_big(&self.to_big()))
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
            sum.add(&wide[2]);
            assert_eq!(sum.to_big(), &left * &right + &more);
        }
    }

    #[test]
    fn a_width_draws_no_other_numbers_than_a_wider_one() {
        for bits in [1, 20, 63, 64, 65, 100, 127] {
            let (end, purpose) = ((BigUint::from(1_u8) << bits) - 1_u8, format!("{bits} bits"));
            let (mut narrow, mut wide) = (Stream::new(1, &purpose), Stream::new(1, &purpose));
            for _ in 0..20 {
                let one = Wide::<2>::from_big(&end).below(&mut narrow).to_big();
                assert!(one < end);
                assert_eq!(one, Wide::<24>::from_big(&end).below(&mut wide).to_big());
            }
        }
    }

    #[test]
    fn binomials_follow_pascal() {
        let row: Vec<u64> = binomials(6, 8).iter().map(|c| c.iter_u64_digits().next().unwrap_or(0)).collect();
        assert_eq!(row, [1, 6, 15, 20, 15, 6, 1, 0, 0]);
        let eight = (900 - 7..=900).product::<u128>() / (1..=8).product::<u128>();
        assert_eq!(bits(900, 8), BigUint::from(eight).bits());
    }
}
