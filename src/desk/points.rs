//! Starting points: lessons to begin with where there is none yet.

use serde_json::{Value, json};

use super::document;
use super::workshop::Workshop;

/// A lesson to begin with.
#[derive(Debug, Clone, Copy)]
pub struct StartingPoint {
    /// Its word in requests.
    pub word: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// What it asks for, in a sentence.
    pub says: &'static str,
    range: (u32, u32),
    /// What it asks of its numbers, by the path of the key.
    asks: &'static [(&'static str, Ask)],
}

#[derive(Debug, Clone, Copy)]
enum Ask {
    Count(u32),
    Places(&'static [(&'static str, u32)]),
}

/// All of them, from the smallest numbers to the largest.
pub const POINTS: [StartingPoint; 4] = [
    StartingPoint {
        word: "teens",
        title: "Teens: a ten and some ones",
        says: "Numbers from 10 to 29; most of them end in 11 to 19.",
        range: (10, 29),
        asks: &[("numbers.model.teens", Ask::Count(2)), ("numbers.sort.teens", Ask::Count(4))],
    },
    StartingPoint {
        word: "tens",
        title: "Tens and ones",
        says: "Numbers from 10 to 99, some of the same digits in different places, such as 36 and 63.",
        range: (10, 99),
        asks: &[("numbers.sort.same_digits", Ask::Count(2)), ("numbers.sort.repeats", Ask::Count(1))],
    },
    StartingPoint {
        word: "hundreds",
        title: "Hundreds, with zeros that hold a place",
        says: "Numbers from 100 to 999, some with a 0 in the tens place and some with a 0 in the ones place.",
        range: (100, 999),
        asks: &[
            ("numbers.model.zeros", Ask::Places(&[("tens", 1)])),
            ("numbers.sort.zeros", Ask::Places(&[("tens", 2), ("ones", 1)])),
            ("numbers.sort.same_digits", Ask::Count(3)),
        ],
    },
    StartingPoint {
        word: "thousands",
        title: "Thousands",
        says: "Numbers from 1,000 to 9,999, some with a 0 in the hundreds place.",
        range: (1_000, 9_999),
        asks: &[
            ("numbers.model.zeros", Ask::Places(&[("hundreds", 1)])),
            ("numbers.sort.zeros", Ask::Places(&[("hundreds", 2)])),
        ],
    },
];

impl StartingPoint {
    /// The lesson file, with comments.
    pub fn text(&self, workshop: &dyn Workshop) -> String {
        self.asks.iter().fold(workshop.blank(self.title, self.range), |text, (path, ask)| {
            let value: Value = match *ask {
                Ask::Count(count) => json!(count),
                Ask::Places(each) => each.iter().map(|(place, count)| ((*place).to_owned(), json!(count))).collect(),
            };
            document::set(&text, path, Some(&value))
        })
    }
}
