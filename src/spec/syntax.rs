//! Text to TOML, with what is wrong with it.

use std::sync::Arc;

use toml::Spanned;
use toml::de::{DeTable, Error};

use super::log::shortened;
use crate::diag::{Diagnostic, Problem, Source, TOLD, first};

/// A text as far as it parses.
pub(super) struct Document<'t> {
    /// What could be read of it.
    pub(super) table: Spanned<DeTable<'t>>,
    /// What could not, in the order of the text, one a line.
    errors: Vec<Diagnostic>,
    /// Where the part of the text begins whose mistakes were left out, if any were.
    rest: Option<usize>,
}

/// What is said of a line about which nothing better can be said.
pub(super) const UNREADABLE: &str = "this line cannot be read";

/// How many mistakes of the text are placed at most.
const MOST: usize = 4 * TOLD;

/// Parses as much of the text as can be.
pub(super) fn parse(source: &Arc<Source>) -> Document<'_> {
    let (table, errors) = DeTable::parse_recoverable(&source.text);
    let mut errors: Vec<&Error> = errors.iter().collect();
    errors.sort_by_key(|error| error.span().map_or(0, |span| span.start));
    // More than will be told are not worth the work of placing them.
    let rest = errors.get(MOST).map(|error| error.span().map_or(0, |span| span.start));
    errors.truncate(MOST);
    let mut errors: Vec<Diagnostic> = errors.into_iter().map(|error| diagnostic(error, source)).collect();
    // What follows a mistake on the same line is most often its echo.
    errors.dedup_by_key(|error| line(error));
    Document { table, errors, rest }
}

impl Document<'_> {
    /// Whether the whole text parsed.
    pub(super) fn is_whole(&self) -> bool {
        self.errors.is_empty()
    }

    /// The mistakes of the text: lines that do not parse.
    pub(super) fn garbled(&self) -> &[Diagnostic] {
        &self.errors
    }

    /// The mistakes of the text and those of its values, without the values of lines that did not parse.
    pub(super) fn merge(&self, mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
        if let Some(rest) = self.rest {
            found.retain(|diagnostic| start(diagnostic) < rest);
        }
        found.truncate(MOST);
        let bad: Vec<usize> = self.errors.iter().map(line).collect();
        // So are values that the parser made up, which stand nowhere.
        let made_up = |diagnostic: &Diagnostic| {
            !bad.is_empty() && diagnostic.place.as_ref().is_some_and(|place| place.span == (0..0))
        };
        found.retain(|diagnostic| !bad.contains(&line(diagnostic)) && !made_up(diagnostic));
        found.extend(self.errors.iter().cloned());
        found.sort_by_key(start);
        first(found)
    }
}

fn start(diagnostic: &Diagnostic) -> usize {
    diagnostic.place.as_ref().map_or(0, |place| place.span.start)
}

fn line(diagnostic: &Diagnostic) -> usize {
    diagnostic.place.as_ref().map_or(0, |place| place.line_column().0)
}

/// The parser's words as ours: what is wrong, then what it expected.
fn diagnostic(error: &Error, source: &Arc<Source>) -> Diagnostic {
    let end = source.text.len();
    let span = error.span().map_or(0..0, |span| span.start.min(end)..span.end.min(end));
    let text = shortened(source.text.get(span.clone()).unwrap_or(""));
    let (what, expected) = match error.message().split_once(", expected ") {
        Some((what, expected)) => (what, Some(expected)),
        None => (error.message(), None),
    };
    let problem = match what {
        "duplicate key" => Problem::new(format!("`{text}` is given twice")).hint("keep one of them"),
        "string values must be quoted" => {
            Problem::new(format!("{text} has no quotes")).hint(format!("text needs quotes: \"{text}\""))
        }
        "cannot recurse further; max recursion depth met" => {
            Problem::new("there are too many brackets inside brackets").hint("a lesson never needs more than three")
        }
        "key with no value" => Problem::new("this line gives no value")
            .hint("expected a key, an equals sign and a value, such as minutes = 50; a note begins with #"),
        // Whether a quote or a character is at fault, the parser says only by what it expected.
        "invalid basic string" if expected == Some("`\"`") => {
            Problem::new("the text in quotes on this line never ends").hint("expected `\"` at the end of the text")
        }
        "invalid basic string" => Problem::new("the text in quotes holds a character that a lesson file cannot have")
            .hint("write it again by hand; a backslash is written twice: \\\\"),
        _ => Problem::new(format!("{UNREADABLE}: {what}"))
            .hint("expected a key, an equals sign and a value, such as minutes = 50"),
    };
    problem.at(source, span)
}
