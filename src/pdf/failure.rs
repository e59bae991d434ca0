//! Why a file could not be written.

use std::io;

use crate::diag::Problem;

/// Why a file could not be written.
#[derive(Debug)]
pub enum WriteFailure {
    /// The pages cannot be put into a PDF.
    Problem(Problem),
    /// The bytes could not be put where they belong.
    Io(io::Error),
}

impl From<Problem> for WriteFailure {
    fn from(problem: Problem) -> Self {
        Self::Problem(problem)
    }
}

impl From<io::Error> for WriteFailure {
    fn from(error: io::Error) -> Self {
        Self::Io(error)
    }
}

/// A mistake of the program, not of a lesson.
pub fn internal(what: &str) -> Problem {
    Problem::new(format!("internal mistake while writing a PDF: {what}"))
        .hint("this is a fault of placewright; please report it with the lesson file")
}
