//! What commands that read lessons take.

use std::path::PathBuf;

use clap::Args;

use super::words::WordParser;
use crate::spec::{SheetKind, limits};

/// What to read.
#[derive(Debug, Clone, Args)]
pub struct Input {
    /// Lesson files; `-` reads one from standard input
    #[arg(value_name = "LESSON", required = true)]
    pub lessons: Vec<PathBuf>,
    /// Choose by this seed instead of the lesson's: another seed, other numbers
    #[arg(long, value_name = "N", allow_negative_numbers = true, value_parser = clap::value_parser!(u64).range(..=limits::SEED.most))]
    pub seed: Option<u64>,
    /// Make these sheets only, with commas between them; `placewright sheets` lists them
    #[arg(long, value_name = "SHEET", value_delimiter = ',', hide_possible_values = true)]
    #[arg(value_parser = WordParser::new(&SheetKind::ALL, SheetKind::word))]
    pub only: Vec<SheetKind>,
    /// A folder of layout files that override the built-in ones
    #[arg(long, value_name = "DIR")]
    pub layouts: Option<PathBuf>,
}
