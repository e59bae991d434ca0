//! Number words in the lesson's second language: cuatrocientos seis.

use super::{Breadth, Content, Facts};

pub(super) const FACTS: Facts = Facts {
    word: "words2",
    content: |number, style| Some(Content::Text(style.in_second()?.words(number))),
    // As of words in the first language.
    worth: |_, _| None,
    width: Breadth::Share(5),
};
