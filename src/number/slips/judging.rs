//! What slips make of a numeral that is looked at, not rewritten: what a digit is worth, and which of two is greater.

use super::{Content, Form, Number, Place, Slip, Style};

/// A wrong judgement of two numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Judged {
    /// The lesser is taken for the greater.
    Lesser,
    /// The two are taken to be equal.
    Equal,
}

/// What a digit is taken to be worth, right or wrong.
pub(super) fn worths(slip: Slip, number: Number, place: Place, style: &Style) -> Vec<Content> {
    let digit = u32::from(number.digit(place));
    if digit == 0 || !number.shows(place) {
        return Vec::new();
    }
    let worths = match slip {
        Slip::FaceValue => vec![digit],
        Slip::PlaceOff => beside(number, place).into_iter().map(|place| digit * place.worth()).collect(),
        _ => Vec::new(),
    };
    worths.into_iter().filter_map(|worth| Form::Numeral.content(Number::new(worth)?, style)).collect()
}

/// The places beside one, the smaller first. The larger one counts where the numeral shows it; a numeral of two digits has
/// only one place that can be taken for a smaller one, and its tens are taken for hundreds.
fn beside(number: Number, place: Place) -> Vec<Place> {
    let smaller = place.index().checked_sub(1).and_then(|index| Place::ALL.get(index));
    let larger = Place::ALL.get(place.index() + 1).filter(|larger| number.shows(**larger) || number.len() == 2);
    smaller.into_iter().chain(larger).copied().collect()
}

/// How a slip judges two different numbers; `None` where it judges right or does not bear on it. Numerals of different
/// lengths are told apart by their lengths, so no slip bears on them.
pub(super) fn greater(slip: Slip, one: Number, other: Number) -> Option<Judged> {
    if one == other || one.len() != other.len() {
        return None;
    }
    let (greater, lesser) = (one.max(other), one.min(other));
    let from_ones = |number: Number| number.digits().rev().map(|(_, digit)| digit).collect::<Vec<_>>();
    let sum = |number: Number| number.digits().map(|(_, digit)| u32::from(digit)).sum::<u32>();
    match slip {
        // The last digits that differ decide, wherever they stand.
        Slip::FromTheOnes => (from_ones(lesser) > from_ones(greater)).then_some(Judged::Lesser),
        // At face value 67 and 76 are both 6 and 7.
        Slip::FaceValue if sum(lesser) == sum(greater) => Some(Judged::Equal),
        Slip::FaceValue => (sum(lesser) > sum(greater)).then_some(Judged::Lesser),
        _ => None,
    }
}
