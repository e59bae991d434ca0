//! The streams of a run, when to colour them, and how far the work is.

use std::io::{Write, stderr};

use super::args::{Color, Format, Talk};
use crate::diag::report::Look;

/// Where results and talk go, and what stands at the other end of each.
pub struct Io<'s> {
    /// Results.
    pub out: &'s mut dyn Write,
    /// Talk: errors, warnings, notes and progress.
    pub err: &'s mut dyn Write,
    /// The end of results.
    pub out_is: End,
    /// The end of talk.
    pub err_is: End,
    /// Whether someone at a terminal can answer questions.
    pub can_ask: bool,
    /// Whether the program was started without a terminal where it can open a browser: by a double click.
    pub clicked: bool,
}

impl<'s> Io<'s> {
    /// Streams that end in files: no colours, no progress, no questions.
    pub fn plain(out: &'s mut dyn Write, err: &'s mut dyn Write) -> Self {
        Self { out, err, out_is: End::default(), err_is: End::default(), can_ask: false, clicked: false }
    }
}

/// What a stream ends in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct End {
    /// Whether it is a terminal that can rewrite a line.
    pub terminal: bool,
    /// Whether it can colour and no one asked to leave it plain.
    pub colourful: bool,
}

/// Whether a stream is coloured: `--color` first, then its end.
pub fn coloured(talk: Talk, end: End) -> bool {
    match talk.color {
        Color::Always => true,
        Color::Never => false,
        Color::Auto => end.colourful,
    }
}

/// How errors look.
pub fn look(talk: Talk, end: End) -> Look {
    Look { colour: coloured(talk, end), short: talk.quiet }
}

/// A line on the terminal that says how far the work is; nothing anywhere else.
#[derive(Debug, Clone, Copy, Default)]
pub struct Progress {
    shown: bool,
}

impl Progress {
    /// Shown at a terminal, to people who did not ask for quiet.
    pub fn new(talk: Talk, end: End) -> Self {
        Self { shown: end.terminal && !talk.quiet && talk.format == Format::Human }
    }

    /// Replaces the line. A terminal that has gone is no reason to stop.
    pub fn say(self, text: &str) {
        if self.shown {
            let _ = write!(stderr(), "\r\u{1b}[2K{text}");
        }
    }

    /// Takes the line away.
    pub fn clear(self) {
        self.say("");
    }
}

/// Bold where the stream is coloured.
pub fn bold(text: &str, coloured: bool) -> String {
    if coloured { format!("\u{1b}[1m{text}\u{1b}[0m") } else { text.to_owned() }
}
