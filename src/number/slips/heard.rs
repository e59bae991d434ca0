//! What is heard of two numbers that are taken for each other: fourteen and forty.

use super::{Number, Place, Style};

/// The two digits of each of two numbers in which their words differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Heard {
    /// The two of the number, and of the one that it is taken for: below 100.
    pub both: [Number; 2],
    /// Whether they count thousands.
    pub thousands: bool,
    /// The greatest place in which the numbers differ.
    pub place: Place,
}

impl Heard {
    /// What is heard of two numbers; `None` where they are the same, or differ elsewhere too.
    pub fn new(of: Number, taken: Number) -> Option<Self> {
        let (place, _) = of.digits().find(|(place, digit)| taken.digit(*place) != *digit)?;
        let thousands = place >= Place::Thousands;
        let pair = |number: Number| if thousands { number.value() / 1_000 % 100 } else { number.value() % 100 };
        let rest = |number: Number| number.value() - pair(number) * if thousands { 1_000 } else { 1 };
        let both = [Number::new(pair(of))?, Number::new(pair(taken))?];
        (rest(of) == rest(taken)).then_some(Self { both, thousands, place })
    }

    /// The one of the two that is a teen, if one is.
    pub fn teen(self) -> Option<Number> {
        self.both.into_iter().find(|number| (10..20).contains(&number.value()))
    }

    /// The two in words, with the word for their thousands.
    pub fn words(self, style: &Style) -> [String; 2] {
        let worth = if self.thousands { 1_000 } else { 1 };
        self.both.map(|number| style.names.cardinal(number.value() * worth, false))
    }
}
