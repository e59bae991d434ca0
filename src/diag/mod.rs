//! What can be wrong with a lesson, as data.
//!
//! A low stage makes a [`Problem`], which knows no file. The stage that read the text adds the place and gets a
//! [`Diagnostic`]. Drawing one, for people or for programs, is left to the command line.

pub mod nearest;
pub mod report;

use std::fmt;
use std::ops::Range;
use std::sync::Arc;

/// Something wrong, not yet tied to a place in a file.
///
/// The message starts in lower case, ends without a full stop and says what is wrong; the hint says what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong.
    pub message: String,
    /// What was expected, or what would work.
    pub hint: Option<String>,
    /// What to write instead, where that is known.
    pub fix: Option<Box<Fix>>,
}

/// A repair of the text in which something is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fix {
    /// The bytes that are replaced: a line without its end.
    pub span: Range<usize>,
    /// What takes their place.
    pub text: String,
    /// Whether nothing else can be meant, so that it may be written without asking.
    pub sure: bool,
}

impl Problem {
    /// A problem without a hint.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), hint: None, fix: None }
    }

    /// The same problem, said of a group of the class.
    #[must_use]
    pub fn of_group(mut self, group: &str) -> Self {
        // What is said of the class's tables is said of the group's.
        let own = |text: &str| {
            ["sort", "exit"].iter().fold(text.replace("`forms.", "`group."), |text, role| {
                text.replace(&format!("numbers.{role}."), &format!("group.{role}."))
            })
        };
        self.message = format!("in the group `{group}`: {}", own(&self.message));
        self.hint = self.hint.map(|hint| own(&hint));
        self
    }

    /// The same problem with a hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same problem, tied to the bytes `span` of `source`.
    pub fn at(self, source: &Arc<Source>, span: Range<usize>) -> Diagnostic {
        Diagnostic {
            severity: Severity::Error,
            place: Some(FilePlace { source: Arc::clone(source), span }),
            problem: self,
            related: Vec::new(),
        }
    }

    /// The same problem, when no place in a file is to blame for it.
    pub fn unplaced(self) -> Diagnostic {
        Diagnostic { severity: Severity::Error, place: None, problem: self, related: Vec::new() }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

/// A text that was read: a lesson, a layout or a roster.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// The file's name as the user gave it, or `-` for standard input.
    pub name: String,
    /// The whole text.
    pub text: String,
}

impl Source {
    /// Where a quoted word stands within a stretch; the whole stretch when it does not, or is written with escapes.
    pub fn word(&self, word: &str, within: &Range<usize>) -> Range<usize> {
        let text = self.text.get(within.clone()).unwrap_or("");
        let at = ['"', '\''].iter().find_map(|mark| text.find(&format!("{mark}{word}{mark}")));
        at.map_or(within.clone(), |at| within.start + at..within.start + at + word.len() + 2)
    }
}

/// A stretch of a source.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FilePlace {
    /// The text that holds it.
    pub source: Arc<Source>,
    /// Its bytes.
    pub span: Range<usize>,
}

impl FilePlace {
    /// Line and column of the first byte, both counted from 1; the column counts characters.
    pub fn line_column(&self) -> (usize, usize) {
        let text = &self.source.text;
        let mut start = self.span.start.min(text.len());
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        let before = &text[..start];
        let line_start = before.rfind('\n').map_or(0, |k| k + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }
}

/// How bad it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth knowing; nothing is wrong.
    Note,
    /// The lesson can be made, though perhaps not as meant.
    Warning,
    /// The lesson cannot be made.
    Error,
}

impl Severity {
    /// The word for people and programs.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// How many mistakes of one text are told. A file can hold hundreds of thousands; nobody reads on.
pub const TOLD: usize = 100;

/// The first [`TOLD`] of the mistakes of a text, which come in the order of the text, and a word on there being more.
pub fn first(mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    if found.len() > TOLD {
        found.truncate(TOLD + 1);
        if let Some(last) = found.last_mut() {
            last.problem = Problem::new(format!("there are more mistakes than the {TOLD} shown"))
                .hint("put these right; then the next ones are shown");
            last.related.clear();
        }
    }
    found
}

/// A problem tied to a place, with the other places that take part in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// How bad it is.
    pub severity: Severity,
    /// Where it is; none when no file is to blame.
    pub place: Option<FilePlace>,
    /// What is wrong and what to do.
    pub problem: Problem,
    /// Other places that belong to it (the other requests of a clash), each with a few words.
    pub related: Vec<(FilePlace, String)>,
}
