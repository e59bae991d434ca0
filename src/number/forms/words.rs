//! Number words: four hundred six; on strips of a lesson in two languages also cuatrocientos seis.

use super::{Breadth, Content, Facts};

pub(super) const FACTS: Facts = Facts {
    word: "words",
    content: |number, style| {
        let words = style.words(number);
        Some(match style.in_second().filter(|_| style.both) {
            Some(second) => Content::Both([words, second.words(number)]),
            None => Content::Text(words),
        })
    },
    // Words have no worth unless they are spelled right, and then they are compared as they stand.
    worth: |_, _| None,
    width: Breadth::Share(5),
};
