//! A language for tests: English with a mark on every letter.
//!
//! A lesson set in it shows which texts come from the wording and which do not: those that do not have bare letters.

use super::en::English;
use crate::number::{Names, Place};

/// English with a mark on every letter.
#[derive(Debug)]
pub struct Marked;

/// What can be said with marked letters.
pub trait Marks {
    /// The same with a mark on every bare letter; letters that are marked already stay.
    #[must_use]
    fn marked(self) -> Self;
}

const BARE: &str = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
// Capitals of another script, as high as ours: a mark above would need more room than a line has.
const MARKED: &str = "àƀċđèƒġħìĵķłṁńòṗɋṙṡŧùṽẇẋẏżАБСДЕФГНИЈКЛМЊОПЂЯЗТУВШХЧЖ";

impl Marks for String {
    fn marked(self) -> Self {
        let mark = |c: char| BARE.find(c).and_then(|at| MARKED.chars().nth(at)).unwrap_or(c);
        self.chars().map(mark).collect()
    }
}

impl Marks for &'static str {
    fn marked(self) -> Self {
        // A test's few texts may stay until it ends.
        self.to_owned().marked().leak()
    }
}

impl<T: Marks> Marks for Option<T> {
    fn marked(self) -> Self {
        self.map(Marks::marked)
    }
}

impl<T: Marks> Marks for Vec<T> {
    fn marked(self) -> Self {
        self.into_iter().map(Marks::marked).collect()
    }
}

impl<T: Marks, const N: usize> Marks for [T; N] {
    fn marked(self) -> Self {
        self.map(Marks::marked)
    }
}

impl<A: Marks, B: Marks> Marks for (A, B) {
    fn marked(self) -> Self {
        (self.0.marked(), self.1.marked())
    }
}

impl<A: Marks, B: Marks, C: Marks> Marks for (A, B, C) {
    fn marked(self) -> Self {
        (self.0.marked(), self.1.marked(), self.2.marked())
    }
}

impl Names for Marked {
    fn tag(&self) -> &'static str {
        "en-x-marked"
    }

    fn cardinal(&self, value: u32, joined: bool) -> String {
        English.cardinal(value, joined).marked()
    }

    fn place(&self, place: Place) -> &'static str {
        English.place(place).marked()
    }

    fn unit(&self, place: Place, count: u32) -> &'static str {
        English.unit(place, count).marked()
    }

    fn piece(&self, place: Place, count: u32) -> Option<&'static str> {
        English.piece(place, count).marked()
    }

    fn no_pieces(&self) -> &'static str {
        English.no_pieces().marked()
    }

    fn teens_turned(&self) -> bool {
        English.teens_turned()
    }

    fn sounds_like(&self, two: u32) -> Option<u32> {
        English.sounds_like(two)
    }

    fn misspelt(&self, value: u32) -> Option<String> {
        English.misspelt(value).marked()
    }

    fn unspaced(&self) -> usize {
        English.unspaced()
    }

    fn plus(&self) -> &'static str {
        English.plus().marked()
    }
}

#[test]
fn every_letter_has_a_mark_of_its_own() {
    let marked = BARE.to_owned().marked();
    assert_eq!(marked, MARKED);
    assert_eq!(marked.clone().marked(), marked);
    let mut letters: Vec<char> = MARKED.chars().collect();
    letters.sort_unstable();
    letters.dedup();
    assert_eq!(letters.len(), BARE.len());
}
