//! Unit form: 4 hundreds 0 tens 6 ones.
//!
//! It says every place that the numeral shows, as the example of CCSSM 2.NBT.A.1 does (7 hundreds, 0 tens, 6 ones).

use super::{Breadth, Content, Facts, Number};
use crate::number::{Names, Place};

pub(super) const FACTS: Facts = Facts {
    word: "units",
    content: |number, style| Some(Content::Text(write(number, style.names))),
    worth: |content, names| match content {
        Content::Text(text) => read(text, names),
        Content::Both(_) | Content::Blocks(_) => None,
    },
    width: Breadth::Share(5),
};

/// 4 hundreds 0 tens 6 ones: every place that the numeral shows.
pub(super) fn write(number: Number, names: &dyn Names) -> String {
    let counted = |(place, digit): (Place, u8)| format!("{digit} {}", names.unit(place, u32::from(digit)));
    number.digits().map(counted).collect::<Vec<_>>().join(" ")
}

/// The worth of "4 hundreds 0 tens 6 ones", in the words of a language.
pub(super) fn read(text: &str, names: &dyn Names) -> Option<u64> {
    let mut sum = 0;
    let mut rest = text;
    while !rest.is_empty() {
        let (count, after) = rest.split_once(' ')?;
        let count: u32 = count.parse().ok()?;
        let end = after.find(|c: char| c.is_ascii_digit()).unwrap_or(after.len());
        let name = after[..end].trim_end();
        let place = Place::ALL.into_iter().find(|place| name == names.unit(*place, count))?;
        sum += u64::from(count) * u64::from(place.worth());
        rest = &after[end..];
    }
    Some(sum)
}
