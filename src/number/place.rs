//! Numbers from 0 to 999,999 and the places of their digits.

use std::fmt;

/// A place in a numeral.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Worth 1.
    Ones,
    /// Worth 10.
    Tens,
    /// Worth 100.
    Hundreds,
    /// Worth 1,000.
    Thousands,
    /// Worth 10,000.
    TenThousands,
    /// Worth 100,000.
    HundredThousands,
}

impl Place {
    /// All places, from the ones up.
    pub const ALL: [Self; 6] =
        [Self::Ones, Self::Tens, Self::Hundreds, Self::Thousands, Self::TenThousands, Self::HundredThousands];

    /// 0 for ones, 1 for tens, up to 5.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// What one in this place is worth: 1, 10, 100 ...
    pub const fn worth(self) -> u32 {
        // Of every digit that is looked at: written out, since a power would be worked out each time.
        match self {
            Self::Ones => 1,
            Self::Tens => 10,
            Self::Hundreds => 100,
            Self::Thousands => 1_000,
            Self::TenThousands => 10_000,
            Self::HundredThousands => 100_000,
        }
    }

    /// The key in a lesson file: `ones`, `tens`, ..., `ten_thousands`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Ones => "ones",
            Self::Tens => "tens",
            Self::Hundreds => "hundreds",
            Self::Thousands => "thousands",
            Self::TenThousands => "ten_thousands",
            Self::HundredThousands => "hundred_thousands",
        }
    }

    /// The words in the program's messages: `ones`, `ten thousands`. Pages say what their language calls it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::TenThousands => "ten thousands",
            Self::HundredThousands => "hundred thousands",
            other => other.key(),
        }
    }
}

/// A whole number from 0 to 999,999.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number(u32);

impl Number {
    /// The least number.
    pub const MIN: Self = Self(0);
    /// The greatest number.
    pub const MAX: Self = Self(999_999);
    /// The greatest number that has a block picture.
    pub const MAX_BLOCKS: Self = Self(9_999);

    /// Returns `None` above 999,999.
    pub const fn new(value: u32) -> Option<Self> {
        if value <= Self::MAX.0 { Some(Self(value)) } else { None }
    }

    /// The value.
    pub const fn value(self) -> u32 {
        self.0
    }

    /// How many digits the numeral has: 1 for 0, 6 for 100,000 and up.
    #[allow(clippy::len_without_is_empty, reason = "a numeral is never empty")]
    pub const fn len(self) -> usize {
        match self.0 {
            0..=9 => 1,
            10..=99 => 2,
            100..=999 => 3,
            1_000..=9_999 => 4,
            10_000..=99_999 => 5,
            _ => 6,
        }
    }

    /// The digit in a place, 0 to 9; 0 also where the numeral does not reach. See [`Number::shows`].
    #[allow(clippy::cast_possible_truncation, reason = "a remainder by ten")]
    pub const fn digit(self, place: Place) -> u8 {
        (self.0 / place.worth() % 10) as u8
    }

    /// The least and the greatest number made of all its digits; neither begins with 0, unless all are.
    pub fn rearranged(self) -> (Self, Self) {
        let mut digits = [0; Place::ALL.len()];
        let digits = &mut digits[..self.len()];
        for (into, (_, digit)) in digits.iter_mut().zip(self.digits()) {
            *into = digit;
        }
        digits.sort_unstable();
        let add = |sum: u32, digit: &u8| sum * 10 + u32::from(*digit);
        let greatest = digits.iter().rev().fold(0, add);
        if let Some(first) = digits.iter().position(|digit| *digit > 0) {
            digits.swap(0, first);
            digits[1..].sort_unstable();
        }
        (Self(digits.iter().fold(0, add)), Self(greatest))
    }

    /// Whether the numeral has a digit in this place: 7 shows ones only, 0 shows ones only.
    pub const fn shows(self, place: Place) -> bool {
        place.index() < self.len()
    }

    /// The digits that the numeral shows with their places, from the greatest place down.
    pub fn digits(self) -> impl DoubleEndedIterator<Item = (Place, u8)> + ExactSizeIterator {
        Place::ALL[..self.len()].iter().rev().map(move |&place| (place, self.digit(place)))
    }

    /// The digits that are not 0 with their places, from the greatest down: what its expanded form adds up.
    pub fn parts(self) -> impl DoubleEndedIterator<Item = (Place, u8)> {
        self.digits().filter(|(_, digit)| *digit > 0)
    }

    /// The place of the numeral's first digit: the ones of 7, and of 0.
    pub const fn greatest_place(self) -> Place {
        Place::ALL[self.len() - 1]
    }
}

impl fmt::Debug for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl fmt::Display for Number {
    /// The bare digits, without a thousands mark.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_rebuild_the_number() {
        for value in (0..=9_999).chain((10_000..=999_999).step_by(37)) {
            let number = Number::new(value).expect("in range");
            let sum: u32 = number.digits().map(|(place, digit)| u32::from(digit) * place.worth()).sum();
            assert_eq!(sum, value);
            let text: String = number.digits().map(|(_, digit)| char::from(b'0' + digit)).collect();
            assert_eq!(text, value.to_string());
        }
        assert_eq!(Number::new(1_000_000), None);
    }

    #[test]
    fn a_numeral_shows_no_leading_zeros() {
        let seven = Number::new(7).expect("in range");
        assert!(seven.shows(Place::Ones) && !seven.shows(Place::Tens));
        assert!(Number::MIN.shows(Place::Ones));
    }
}
