//! Unit form: 4 hundreds 0 tens 6 ones.
//!
//! It says every place that the numeral shows, as the example of CCSSM 2.NBT.A.1 does (7 hundreds, 0 tens, 6 ones).

use super::{Breadth, Content, Facts, Number, Texts};
use crate::number::Place;

pub(super) const FACTS: Facts = Facts {
    word: "units",
    texts: Texts {
        plural: "unit forms",
        one: "hundreds, tens and ones",
        written: "hundreds, tens and ones",
        skill: "unit form",
        which: |numeral| format!("Which says the same as {numeral}?"),
        write: |numeral| format!("Write how many of each place {numeral} has."),
        which_numeral: "Which number is this?",
        write_numeral: "Write this as a number.",
    },
    content: |number, _| Some(Content::Text(write(number))),
    worth: |content| match content {
        Content::Text(text) => read(text),
        Content::Blocks(_) => None,
    },
    width: Breadth::Share(5),
};

/// 4 hundreds 0 tens 6 ones: every place that the numeral shows.
pub(super) fn write(number: Number) -> String {
    let units: Vec<String> = number.digits().map(|(place, digit)| counted(u32::from(digit), place)).collect();
    units.join(" ")
}

/// "1 ten", "4 hundreds", "0 ones": so many of a place.
pub fn counted(count: u32, place: Place) -> String {
    format!("{count} {}", if count == 1 { place.singular() } else { place.words() })
}

/// The worth of "4 hundreds 0 tens 6 ones".
fn read(text: &str) -> Option<u64> {
    let mut sum = 0;
    let mut rest = text;
    while !rest.is_empty() {
        let (count, after) = rest.split_once(' ')?;
        let count: u64 = count.parse().ok()?;
        let end = after.find(|c: char| c.is_ascii_digit()).unwrap_or(after.len());
        let name = after[..end].trim_end();
        let place =
            Place::ALL.into_iter().find(|place| name == if count == 1 { place.singular() } else { place.words() })?;
        sum += count * u64::from(place.worth());
        rest = &after[end..];
    }
    Some(sum)
}
