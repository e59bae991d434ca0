//! Number words: four hundred six.

use super::{Breadth, Content, Facts};

pub(super) const FACTS: Facts = Facts {
    word: "words",
    content: |number, style| Some(Content::Text(style.words(number))),
    // Words have no worth unless they are spelled right, and then they are compared as they stand.
    worth: |_, _| None,
    width: Breadth::Share(5),
};
