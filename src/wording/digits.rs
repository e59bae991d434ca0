//! Digits and places of numbers, and letters of sets, as sentences of every language need them.

use std::fmt::Display;

use super::Phrases;
use crate::number::{Content, Counted, Number, Place, Style, Task, traded};
use crate::spec::Version;

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

/// The first and the last of so many letters in a row that naming each would only be long.
pub fn runs_on(versions: &[Version]) -> Option<(Version, Version)> {
    let follow = versions.windows(2).all(|pair| pair[1].0 == pair[0].0 + 1);
    let (first, last) = (versions.first()?, versions.last()?);
    (follow && versions.len() > 3).then_some((*first, *last))
}

/// A run by its first and its last in figures: "12–18", or "12" where they are the same.
pub fn figures<T: Display + PartialEq>((first, last): (T, T)) -> String {
    if first == last { first.to_string() } else { format!("{first}\u{2013}{last}") }
}

/// The greatest place in which two numbers differ.
pub fn first_difference(a: Number, b: Number) -> Option<Place> {
    Place::ALL.into_iter().rev().find(|place| a.digit(*place) != b.digit(*place))
}

/// The places of a number above this one, from the greatest down.
pub fn above(number: Number, place: Place) -> Vec<Place> {
    number.digits().map(|(own, _)| own).filter(|own| *own > place).collect()
}

/// The number that is read where a numeral's zeros are left out; `None` for 0.
pub fn without_zeros(number: Number) -> Option<Number> {
    let kept: String = number.to_string().chars().filter(|c| *c != '0').collect();
    kept.parse().ok().and_then(Number::new)
}

/// The place whose digit a task is about: the greatest one where the whole number is.
pub fn asked(number: Number, task: Task) -> Place {
    match task {
        Task::Worth(place) => place,
        Task::Forms { .. } | Task::Greater(_) => number.greatest_place(),
    }
}

/// The words in a number's words that name a column and say no count: hundred and thousand; in Spanish only mil, since
/// "doscientos" is one word.
pub fn column_words(number: Number, style: &Style) -> Vec<String> {
    let said = style.words(number);
    let named = [100, 1_000].into_iter().filter_map(|unit| {
        let two = style.names.cardinal(2 * unit, false);
        Some(two.rsplit_once(' ')?.1.to_owned())
    });
    named.filter(|name| said.split(' ').any(|word| word == name)).collect()
}

/// The greatest and the least numeral that can be made of all digits of a number; the least does not begin with 0.
pub fn extremes(number: Number, style: &Style) -> (String, String) {
    let (least, greatest) = number.rearranged();
    (style.numeral(greatest), style.numeral(least))
}

/// What the digits of a number that are not 0 are worth: 400, 60 and 2.
pub fn parts(number: Number, style: &Style) -> Vec<String> {
    number.parts().map(|(place, _)| worth(number, place, style)).collect()
}

/// How many of each place, without those that hold nothing: "1 hundred", "16 tens", "4 ones".
pub fn held(words: &impl Phrases, counted: &Counted) -> Vec<String> {
    let held = Place::ALL.into_iter().zip(counted).rev().filter(|(_, count)| **count > 0);
    held.map(|(place, count)| words.units(*count, place)).collect()
}

/// The same in one: "1 hundred 16 tens 4 ones".
pub fn counts(words: &impl Phrases, counted: &Counted) -> String {
    held(words, counted).join(" ")
}

/// The trades that lead from a number's digits to these counts, the greatest first: what is given for what.
pub fn trades(number: Number, counted: &Counted) -> Vec<[(u32, Place); 2]> {
    let gone = traded(number, counted);
    let trades = (1..gone.len()).rev().filter(|at| gone[*at] > 0);
    trades.map(|at| [(gone[at], Place::ALL[at]), (gone[at] * 10, Place::ALL[at - 1])]).collect()
}

/// The greatest trade that a task asks for: what is given for what. `None` where nothing is traded.
pub fn first_trade(number: Number, task: Task, style: &Style) -> Option<[(u32, Place); 2]> {
    trades(number, &task.counted(number, style)?).into_iter().next()
}

/// The blocks of the picture that a task shows; `None` where it shows none.
pub fn pictured(number: Number, task: Task, style: &Style) -> Option<[u32; 4]> {
    match task.shown().content(number, style)? {
        Content::Blocks(counts) => Some(counts),
        Content::Text(_) | Content::Both(_) => None,
    }
}

/// How many have come after each of so many trades: "10, 20, 30".
pub fn tens_counted(pieces: u32) -> String {
    let counted: Vec<String> = (1..=pieces).map(|piece| (piece * 10).to_string()).collect();
    counted.join(", ")
}

/// The places that hold more than a digit can say.
pub fn over(counted: &Counted) -> Vec<Place> {
    Place::ALL.into_iter().filter(|place| counted[place.index()] > 9).collect()
}

/// The worth of a place, and the number with one of it more and one less.
pub(super) fn steps(number: Number, place: Place) -> [Number; 3] {
    let worth = place.worth();
    [worth, number.value() + worth, number.value().saturating_sub(worth)]
        .map(|value| Number::new(value).unwrap_or(Number::MAX))
}
