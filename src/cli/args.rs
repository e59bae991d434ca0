//! What can be typed. The doc comments are the help.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::diag::nearest::{hint, listed};
use crate::spec::SheetKind;
use crate::spec::limits;

/// Makes print-ready packets for a lesson on place value from a short lesson file.
#[derive(Debug, Parser)]
#[command(name = "placewright", version, max_term_width = 100, disable_help_subcommand = true)]
#[command(after_help = "Examples:
  placewright check harbour.toml        what will come out, and what was assumed
  placewright typeset harbour.toml      write the packets into out/harbour/
  placewright sheets                    what can be made

Exit status: 0 done, 1 the lesson cannot be made, 2 wrong usage, 3 a file could not be read or
written.")]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// How to talk.
    #[command(flatten)]
    pub talk: Talk,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read lessons, choose numbers and lay out every page, but write nothing
    #[command(after_help = "Examples:
  placewright check harbour.toml
  placewright check --format json lessons/*.toml")]
    Check {
        /// What to read.
        #[command(flatten)]
        input: Input,
    },
    /// Print the chosen numbers and why each is there
    #[command(after_help = "Examples:
  placewright numbers harbour.toml
  placewright numbers --seed 7 harbour.toml")]
    Numbers {
        /// What to read.
        #[command(flatten)]
        input: Input,
    },
    /// Write the packets of lessons as PDF files
    #[command(after_help = "Examples:
  placewright typeset harbour.toml
  placewright typeset lessons/*.toml --out packets
  placewright typeset harbour.toml --only board

The packets of harbour.toml go into out/harbour/, which is replaced as a whole. A folder that
holds files of other origin is left alone unless --force is given.")]
    Typeset {
        /// What to read.
        #[command(flatten)]
        input: Input,
        /// The folder that gets a folder for each lesson
        #[arg(long, value_name = "DIR", default_value = "out")]
        out: PathBuf,
        /// Also replace files that Placewright did not write
        #[arg(long)]
        force: bool,
    },
    /// List what can be made
    Sheets,
}

/// What to read.
#[derive(Debug, Args)]
pub struct Input {
    /// Lesson files; `-` reads one from standard input
    #[arg(value_name = "LESSON", required = true)]
    pub lessons: Vec<PathBuf>,
    /// Choose by this seed instead of the lesson's: another seed, other numbers
    #[arg(long, value_name = "N", allow_negative_numbers = true, value_parser = clap::value_parser!(u64).range(..=limits::SEED.most))]
    pub seed: Option<u64>,
    /// Make this sheet only; `placewright sheets` lists them
    #[arg(long, value_name = "SHEET", value_parser = sheet)]
    pub only: Option<SheetKind>,
    /// A folder of layout files that override the built-in ones
    #[arg(long, value_name = "DIR")]
    pub layouts: Option<PathBuf>,
}

/// How to talk.
#[derive(Debug, Clone, Copy, Args)]
pub struct Talk {
    /// How results are printed
    #[arg(long, global = true, value_name = "FORMAT", value_enum, default_value_t = Format::Human)]
    pub format: Format,
    /// Print no results and no notes, and each error on one line
    #[arg(short, long, global = true)]
    pub quiet: bool,
    /// When to colour
    #[arg(long, global = true, value_name = "WHEN", value_enum, default_value_t = Color::Auto)]
    pub color: Color,
}

/// For whom results are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people
    Human,
    /// For programs: one JSON object a line for each lesson
    Json,
}

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Color {
    /// On a terminal, unless `NO_COLOR` is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// Reads the name of a sheet.
fn sheet(word: &str) -> Result<SheetKind, String> {
    if let Some(kind) = SheetKind::ALL.into_iter().find(|kind| kind.word() == word) {
        return Ok(kind);
    }
    let words = SheetKind::ALL.map(SheetKind::word);
    Err(hint(word, words, &format!("expected {}", listed(&words, "or"))))
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_arguments_are_sound() {
        Cli::command().debug_assert();
    }

    #[test]
    fn a_misspelt_sheet_gets_the_nearest() {
        assert_eq!(sheet("word-bank"), Ok(SheetKind::WordBank));
        assert!(sheet("bord").expect_err("not a sheet").starts_with("did you mean `board`? expected display, mat"));
    }
}
