//! What strips, choices and answers show, told to grown-ups.

use crate::number::Content;
use crate::sheets::page::desk::Desk;

/// A content as a text: the pieces of a picture counted.
pub fn pictured(desk: &Desk<'_>, content: &Content) -> String {
    match content {
        Content::Text(text) => text.clone(),
        Content::Blocks(counts) => desk.lesson.wording().blocks_told(*counts),
    }
}
