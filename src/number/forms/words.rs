//! Number words: four hundred six.

use super::{Breadth, Content, Facts, Texts};

pub(super) const FACTS: Facts = Facts {
    word: "words",
    texts: Texts {
        plural: "number words",
        one: "number words",
        written: "words",
        skill: "number words",
        which: |numeral| format!("Which words say {numeral}?"),
        write: |numeral| format!("Write {numeral} in words."),
        which_numeral: "Which number do the words say?",
        write_numeral: "Write this as a number.",
    },
    content: |number, style| Some(Content::Text(style.words(number))),
    // Words have no worth unless they are spelled right, and then they are compared as they stand.
    worth: |_| None,
    width: Breadth::Share(5),
};
