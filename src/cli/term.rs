//! The streams of a run, and when to colour them.

use std::io::Write;

use super::args::{Color, Talk};
use crate::diag::report::Look;

/// Where results and talk go.
pub struct Io<'s> {
    /// Results.
    pub out: &'s mut dyn Write,
    /// Talk: errors, warnings and notes.
    pub err: &'s mut dyn Write,
    /// Whether talk goes to a terminal that can colour and no one asked to leave it plain.
    pub err_is_colourful: bool,
}

/// How errors look: `--color` first, then the terminal.
pub fn look(talk: Talk, err_is_colourful: bool) -> Look {
    let colour = match talk.color {
        Color::Always => true,
        Color::Never => false,
        Color::Auto => err_is_colourful,
    };
    Look { colour, short: talk.quiet }
}
