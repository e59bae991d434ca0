//! Digits and places of numbers, as sentences of every language need them.

use crate::number::{Number, Place, Style, Task};

/// What a digit in a place is worth, as a numeral: 400.
pub fn worth(number: Number, place: Place, style: &Style) -> String {
    let worth = u32::from(number.digit(place)) * place.worth();
    Number::new(worth).map_or_else(|| worth.to_string(), |worth| style.numeral(worth))
}

/// The places in which the numeral shows a 0, from the greatest down.
pub fn empty(number: Number) -> Vec<Place> {
    number.digits().filter(|(_, digit)| *digit == 0).map(|(place, _)| place).collect()
}

/// Whether the numeral has this digit once only.
pub fn once(number: Number, digit: u8) -> bool {
    number.digits().filter(|(_, d)| *d == digit).count() == 1
}

/// The greatest place in which two numbers differ.
pub fn first_difference(a: Number, b: Number) -> Option<Place> {
    Place::ALL.into_iter().rev().find(|place| a.digit(*place) != b.digit(*place))
}

/// The number that is read where a numeral's zeros are left out; `None` for 0.
pub fn without_zeros(number: Number) -> Option<Number> {
    let kept: String = number.to_string().chars().filter(|c| *c != '0').collect();
    kept.parse().ok().and_then(Number::new)
}

/// How many tens the last two digits show; of a round thousand, those of the thousands, which sound alike just as well.
pub fn tens(number: Number) -> u32 {
    let last = number.value() % 100;
    let pair = if last == 0 { number.value() / 1_000 % 100 } else { last };
    pair / 10
}

/// The place whose digit a task is about: the greatest one where the whole number is.
pub fn asked(number: Number, task: Task) -> Place {
    match task {
        Task::Worth(place) => place,
        Task::Forms { .. } | Task::Greater(_) => number.digits().next().map_or(Place::Ones, |(place, _)| place),
    }
}

/// The greatest and the least numeral that can be made of all digits of a number; the least does not begin with 0.
pub fn extremes(number: Number, style: &Style) -> (String, String) {
    let mut digits: Vec<u8> = number.digits().map(|(_, digit)| digit).collect();
    digits.sort_unstable();
    let made = |digits: &[u8]| digits.iter().fold(0, |sum, digit| sum * 10 + u32::from(*digit));
    let numeral = |value: u32| Number::new(value).map_or_else(String::new, |number| style.numeral(number));
    let greatest: Vec<u8> = digits.iter().rev().copied().collect();
    if let Some(first) = digits.iter().position(|digit| *digit > 0) {
        digits.swap(0, first);
        digits[1..].sort_unstable();
    }
    (numeral(made(&greatest)), numeral(made(&digits)))
}

/// The largest count of each place among numbers that are built one at a time, from the greatest place down; no zeros.
pub fn most(numbers: &[Number]) -> Vec<(Place, u32)> {
    let most = |place: Place| numbers.iter().map(|n| u32::from(n.digit(place))).max().unwrap_or(0);
    Place::ALL.into_iter().rev().map(|place| (place, most(place))).filter(|(_, count)| *count > 0).collect()
}
