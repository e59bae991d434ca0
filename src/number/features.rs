//! What teachers ask of a numeral: a 0 in a place, a digit that appears twice, a teen at the end, the same digits as another.
//!
//! Defined here and nowhere else: the chooser, the checks of a lesson file, the plan and the sheets all ask this file.

use super::{Number, Place};

/// Something that a numeral shows or does not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Feature {
    /// A 0 in this place, written: 7 has none in its tens place.
    Zero(Place),
    /// Some digit appears more than once.
    Repeat,
    /// The number ends in 11 to 19, which words say ones first.
    Teen,
}

impl Feature {
    /// How many there are.
    pub const COUNT: usize = 8;

    /// Its index, from 0.
    pub const fn index(self) -> usize {
        match self {
            Self::Zero(place) => place.index(),
            Self::Repeat => 6,
            Self::Teen => 7,
        }
    }

    /// Whether a number has it.
    pub fn is_in(self, number: Number) -> bool {
        Features::of(number).has(self)
    }

    /// The key of a lesson file that asks for it, such as `zeros.tens`.
    pub fn key(self) -> String {
        match self {
            Self::Zero(place) => format!("zeros.{}", place.key()),
            Self::Repeat => "repeats".to_owned(),
            Self::Teen => "teens".to_owned(),
        }
    }
}

/// How often each digit appears in a numeral: equal for numbers made of the same digits, such as 406, 460 and 640.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digits(u32);

impl Digits {
    /// The digits of a number.
    pub fn of(number: Number) -> Self {
        Features::of(number).digits
    }

    /// Whether there is only one digit, once or several times: 7, 44.
    pub const fn is_one(self) -> bool {
        let lowest = self.0 >> (self.0.trailing_zeros() / 3 * 3);
        lowest < 8
    }
}

/// All features of one numeral, and its digits whatever their order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Features {
    /// Three bits a digit.
    digits: Digits,
    /// One bit a feature, at its index.
    bits: u16,
}

impl Features {
    /// The features of a number.
    pub fn of(number: Number) -> Self {
        const fn read(value: u32) -> Features {
            match value {
                0..=9 => Features::of_digit(value),
                _ => read(value / 10).then(value / 10, value % 10),
            }
        }
        read(number.value())
    }

    /// The features of a numeral of one digit, 0 to 9.
    pub const fn of_digit(digit: u32) -> Self {
        Self { digits: Digits(1 << (3 * digit)), bits: (digit == 0) as u16 }
    }

    /// The features with one more digit written behind: of 40 and 6 those of 406. `before` is the number so far, whose
    /// features these are, and has at most five digits.
    #[must_use]
    pub const fn then(self, before: u32, digit: u32) -> Self {
        const ZEROS: u16 = (1 << Feature::Repeat.index()) - 1;
        let again = (self.digits.0 >> (3 * digit)) & 7 != 0;
        let repeat = (self.bits & 1 << Feature::Repeat.index()) | (again as u16) << Feature::Repeat.index();
        let teen = ((before % 10 == 1 && digit != 0) as u16) << Feature::Teen.index();
        let zeros = ((self.bits & ZEROS) << 1) & ZEROS | (digit == 0) as u16;
        Self { digits: Digits(self.digits.0 + (1 << (3 * digit))), bits: zeros | repeat | teen }
    }

    /// Whether a feature is among them.
    pub const fn has(self, feature: Feature) -> bool {
        self.bits >> feature.index() & 1 == 1
    }

    /// One bit for each of them, at its index.
    pub const fn bits(self) -> u16 {
        self.bits
    }

    /// The digits.
    pub const fn digits(self) -> Digits {
        self.digits
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(value: u32) -> Features {
        Features::of(Number::new(value).expect("in range"))
    }

    #[test]
    fn features_are_what_the_numeral_shows() {
        for value in (0..=12_345).chain((12_346..=999_999).step_by(7)) {
            let (text, features) = (value.to_string(), of(value));
            for place in Place::ALL {
                let zero = text.chars().rev().nth(place.index()) == Some('0');
                assert_eq!(features.has(Feature::Zero(place)), zero, "{value} {place:?}");
            }
            let repeat = text.chars().any(|digit| text.matches(digit).count() > 1);
            let teen = text.len() > 1 && text[text.len() - 2..].starts_with('1') && !text.ends_with('0');
            assert_eq!((features.has(Feature::Repeat), features.has(Feature::Teen)), (repeat, teen), "{value}");
        }
    }

    #[test]
    fn numbers_of_the_same_digits_are_known() {
        assert_eq!(of(640).digits(), of(406).digits());
        assert_ne!(of(64).digits(), of(640).digits());
        assert_ne!(of(644).digits(), of(664).digits());
        assert_eq!(of(999_999).digits(), Digits(6 << 27));
        for value in 0..=100_000 {
            let text = value.to_string();
            let one = text.chars().all(|digit| text.starts_with(digit));
            assert_eq!(of(value).digits().is_one(), one, "{value}");
        }
    }
}
