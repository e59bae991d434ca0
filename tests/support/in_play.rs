//! Every slip put in play at once, each by the example of the catalogue.

use placewright::lesson::{InPlay, Wrong};
use placewright::number::{Content, Slip};

use super::setup::number;

/// Every slip of English words.
pub fn all() -> Vec<InPlay> {
    let in_play = |(letter, slip): (char, Slip)| {
        let example = slip.example();
        let content = Content::Text(example.answer.to_owned());
        let wrong = Wrong { of: number(example.of), task: example.task, content, slip };
        InPlay { letter, slip, seen: vec![wrong] }
    };
    let english = Slip::all().filter(|slip| slip.only().is_none_or(|tag| tag == "en-US"));
    ('a'..='z').zip(english).map(in_play).collect()
}
