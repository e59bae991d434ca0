//! What slips make of a numeral that is looked at, not rewritten: what a digit is worth, and which of two is greater.

use super::{Number, Place, Slip};

/// A wrong judgement of two numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Judged {
    /// The lesser is taken for the greater.
    Lesser,
    /// The two are taken to be equal.
    Equal,
}

/// What a digit is taken to be worth, right or wrong.
pub(super) fn worths(slip: Slip, number: Number, place: Place) -> impl Iterator<Item = Number> {
    let digit = u32::from(number.digit(place));
    let worths = match slip {
        _ if digit == 0 || !number.shows(place) => [None; 2],
        Slip::FaceValue => [Some(digit), None],
        Slip::PlaceOff => beside(number, place).map(|place| place.map(|place| digit * place.worth())),
        _ => [None; 2],
    };
    worths.into_iter().flatten().filter_map(Number::new)
}

/// The places beside one, the smaller first. The larger one counts where the numeral shows it; a numeral of two digits has
/// only one place that can be taken for a smaller one, and its tens are taken for hundreds.
fn beside(number: Number, place: Place) -> [Option<Place>; 2] {
    let smaller = place.index().checked_sub(1).and_then(|index| Place::ALL.get(index));
    let larger = Place::ALL.get(place.index() + 1).filter(|larger| number.shows(**larger) || number.len() == 2);
    [smaller.copied(), larger.copied()]
}

/// How a slip judges two different numbers; `None` where it judges right or does not bear on it. Numerals of different
/// lengths are told apart by their lengths, so no slip bears on them.
pub(super) fn greater(slip: Slip, one: Number, other: Number) -> Option<Judged> {
    if one == other || one.len() != other.len() {
        return None;
    }
    let (greater, lesser) = (one.max(other), one.min(other));
    let from_ones = |number: Number| number.digits().rev().map(|(_, digit)| digit);
    let sum = |number: Number| number.digits().map(|(_, digit)| u32::from(digit)).sum::<u32>();
    match slip {
        // The last digits that differ decide, wherever they stand.
        Slip::FromTheOnes => from_ones(lesser).gt(from_ones(greater)).then_some(Judged::Lesser),
        // At face value 67 and 76 are both 6 and 7.
        Slip::FaceValue if sum(lesser) == sum(greater) => Some(Judged::Equal),
        Slip::FaceValue => (sum(lesser) > sum(greater)).then_some(Judged::Lesser),
        _ => None,
    }
}
