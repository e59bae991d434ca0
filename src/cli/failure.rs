//! Why a command did not do what was asked, and the exit status that says so.

use std::io;

use serde_json::{Value, json};

use crate::diag::report::{self, Look};
use crate::diag::{Diagnostic, FilePlace, Problem};

/// Why a command failed.
#[derive(Debug)]
pub enum Failure {
    /// The lesson cannot be made: exit status 1.
    Lesson(Vec<Diagnostic>),
    /// The command line makes no sense: exit status 2.
    Usage(Problem),
    /// A file could not be read or written: exit status 3.
    File {
        /// Its name as the user would write it.
        file: String,
        /// What went wrong, and where: in the file itself, or where a lesson names it.
        diagnostic: Box<Diagnostic>,
    },
    /// A result could not be printed: exit status 3, or 0 when the reader has simply gone.
    Stream(io::Error),
    /// Ctrl-C was pressed at a question: exit status 130, as for any program that it stops.
    Stopped,
}

/// Everything was done.
pub const DONE: u8 = 0;

impl Failure {
    /// A file that could not be read or written.
    pub fn file(file: impl Into<String>, problem: Problem) -> Self {
        Self::File { file: file.into(), diagnostic: Box::new(problem.unplaced()) }
    }

    /// The same failure, at the place that named the file.
    #[must_use]
    pub fn named_at(mut self, place: FilePlace) -> Self {
        if let Self::File { diagnostic, .. } = &mut self {
            diagnostic.place.get_or_insert(place);
        }
        self
    }

    /// The exit status.
    pub fn status(&self) -> u8 {
        match self {
            Self::Lesson(_) => 1,
            Self::Usage(_) => 2,
            Self::Stream(error) if error.kind() == io::ErrorKind::BrokenPipe => DONE,
            Self::File { .. } | Self::Stream(_) => 3,
            Self::Stopped => 130,
        }
    }

    /// For people. What has no place of its own is told to be about `lesson`, if there is one.
    pub fn draw(&self, look: Look, lesson: Option<&str>) -> String {
        match self {
            Self::Lesson(found) => {
                found.iter().map(|diagnostic| report::draw_about(lesson, diagnostic, look)).collect()
            }
            Self::File { diagnostic, .. } => report::draw(diagnostic, look),
            Self::Usage(problem) => report::draw(&problem.clone().unplaced(), look),
            Self::Stream(_) if self.status() == DONE => String::new(),
            Self::Stopped => report::draw(&stopped().unplaced(), look),
            Self::Stream(error) => {
                report::draw(&Problem::new(format!("the results cannot be printed: {error}")).unplaced(), look)
            }
        }
    }

    /// For programs: a list of findings, those without a place of their own about `lesson`.
    pub fn findings(&self, lesson: Option<&str>) -> Vec<Value> {
        match self {
            Self::Lesson(found) => {
                let mut findings: Vec<Value> = found.iter().map(report::json).collect();
                for finding in findings.iter_mut().filter(|finding| finding["file"].is_null()) {
                    finding["file"] = json!(lesson);
                }
                findings
            }
            Self::Usage(problem) => vec![report::json(&problem.clone().unplaced())],
            Self::File { file, diagnostic } => {
                let mut finding = report::json(diagnostic);
                if diagnostic.place.is_none() {
                    finding["file"] = json!(file);
                }
                vec![finding]
            }
            Self::Stream(error) => vec![report::json(&Problem::new(error.to_string()).unplaced())],
            Self::Stopped => vec![report::json(&stopped().unplaced())],
        }
    }
}

fn stopped() -> Problem {
    Problem::new("stopped; nothing was written")
}

/// What the operating system says, in the same words on all of them.
pub fn reason(error: &io::Error) -> String {
    use io::ErrorKind as Kind;
    match error.kind() {
        Kind::NotFound => "there is no such file or folder".to_owned(),
        Kind::PermissionDenied => "permission denied".to_owned(),
        Kind::IsADirectory => "it is a folder".to_owned(),
        Kind::NotADirectory => "a part of its path is not a folder".to_owned(),
        Kind::ReadOnlyFilesystem => "the disk is read-only".to_owned(),
        Kind::StorageFull | Kind::QuotaExceeded => "the disk is full".to_owned(),
        Kind::ResourceBusy => "another program or another run is at work on it".to_owned(),
        Kind::FileTooLarge => "the file would be larger than is allowed here".to_owned(),
        Kind::InvalidFilename => "its name is too long or not allowed here".to_owned(),
        _ => error.to_string(),
    }
}
