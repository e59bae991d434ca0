//! The block picture: flats, rods and cubes.

use super::{Breadth, Content, Counted, Facts, Number};
use crate::number::Place;

pub(super) const FACTS: Facts = Facts {
    word: "blocks",
    content: |number, _| fewest_blocks(number).map(Content::Blocks),
    worth: |content, _| worth_of(content),
    width: Breadth::Picture,
};

/// How many thousands, flats, rods and cubes show the number with the fewest pieces. Returns `None` above 9,999.
pub fn fewest_blocks(number: Number) -> Option<[u32; 4]> {
    let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
    (number <= Number::MAX_BLOCKS).then(|| places.map(|place| u32::from(number.digit(place))))
}

/// The blocks of so many of each place, largest first: none of the places that have no block.
pub const fn blocks_of(&[ones, tens, hundreds, thousands, ..]: &Counted) -> [u32; 4] {
    [thousands, hundreds, tens, ones]
}

/// What a picture shows.
pub(super) fn worth_of(content: &Content) -> Option<u64> {
    match content {
        Content::Text(_) | Content::Both(_) => None,
        Content::Blocks(counts) => Some(worth(*counts)),
    }
}

/// How many cubes all pieces are together.
fn worth(counts: [u32; 4]) -> u64 {
    counts.iter().zip([1_000, 100, 10, 1]).map(|(&count, worth)| u64::from(count) * worth).sum()
}
