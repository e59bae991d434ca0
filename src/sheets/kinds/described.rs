//! What strips, choices and answers show, told to grown-ups.

use crate::measure::Weight;
use crate::number::{Content, Form};
use crate::sheets::flow::table::TableCell;
use crate::sheets::page::desk::Desk;

/// A content as a text: the pieces of a picture counted.
pub fn pictured(desk: &Desk<'_>, content: &Content) -> String {
    match content {
        Content::Text(_) | Content::Both(_) => content.text(desk.lesson.style.names),
        Content::Blocks(counts) => desk.lesson.wording().blocks_told(*counts),
    }
}

/// A content in a form as the cell of a table; text in this weight.
pub fn cell(desk: &Desk<'_>, form: Form, content: &Content, weight: Weight) -> TableCell {
    match content {
        Content::Text(text) => match (desk.language(form), weight) {
            (None, Weight::Regular) => TableCell::Text(text.clone()),
            (None, Weight::Bold) => TableCell::Bold(text.clone()),
            (language, _) => TableCell::Words(vec![(text.clone(), language)], weight),
        },
        Content::Both([first, second]) => {
            TableCell::Words(vec![(first.clone(), None), (second.clone(), desk.lesson.second())], weight)
        }
        Content::Blocks(counts) => {
            let kinds = desk.lesson.wording().blocks_each(*counts);
            // A line a kind; with thousands two, so that the row is no higher than its picture.
            let lines = kinds.chunks(if kinds.len() > 3 { 2 } else { 1 });
            TableCell::Picture(*counts, lines.map(|line| line.join(", ")).collect())
        }
    }
}
