//! What can be typed. The doc comments are the help.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use super::generate::Kind;
use super::pages::Pages;
use super::start::Answers;
use super::start::range;
use crate::diag::nearest::{hint, listed};
use crate::raster::{DPI, LEAST_DPI, MOST_DPI};
use crate::spec::{Cut, Paper, SheetKind, limits};

/// Makes print-ready packets for a lesson on place value from a short lesson file.
#[derive(Debug, Parser)]
#[command(name = "placewright", version, max_term_width = 100, disable_help_subcommand = true)]
#[command(arg_required_else_help = true)]
#[command(after_help = "Examples:
  placewright start harbour.toml        write a first lesson file, asking a few questions
  placewright check harbour.toml        what will come out, and what was assumed
  placewright typeset harbour.toml      write the packets into out/harbour/
  placewright preview harbour.toml      the same, with pictures of every page
  placewright sheets                    what can be made

Exit status: 0 done, 1 the lesson cannot be made, 2 wrong usage, 3 a file could not be read or
written.")]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Print completions for a shell, or the manual page.
    #[arg(long, value_name = "WHAT", value_enum, hide = true, exclusive = true)]
    pub generate: Option<Kind>,
    /// How to talk.
    #[command(flatten)]
    pub talk: Talk,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Write a short lesson file with comments, asking a few plain questions on a terminal
    #[command(after_help = "Examples:
  placewright start                                        asks; Enter takes the answer shown
  placewright start harbour.toml                           asks, and writes this file
  placewright start --title \"Tram stops\" --range 10-99    asks nothing

With any of the options that answer a question, or without a terminal, nothing is asked. A file
that is there already is left alone unless --force is given.")]
    Start(Start),
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
        /// Make the packets again each time a lesson file is saved, until stopped with Ctrl-C
        #[arg(long)]
        watch: bool,
    },
    /// Write the packets together with pictures of their pages, and a page that shows them
    #[command(after_help = "Examples:
  placewright preview harbour.toml
  placewright preview harbour.toml --only board --dpi 150
  placewright preview harbour.toml --pages 1-3,7 --watch

Open out/harbour/index.html in a browser: it shows what each file looks like, who gets it and how to
print it. The pictures are in out/harbour/pictures/, a PNG a page and one of all pages of a file.
The packets are always written whole; --only and --pages choose what is pictured.")]
    Preview {
        /// What to read.
        #[command(flatten)]
        input: Input,
        /// The folder that gets a folder for each lesson
        #[arg(long, value_name = "DIR", default_value = "out")]
        out: PathBuf,
        /// Picture these pages of each file, such as 3, 2-5 or 1,4-6
        #[arg(long, value_name = "PAGES", value_parser = Pages::parse)]
        pages: Option<Pages>,
        /// Dots to the inch
        #[arg(long, value_name = "N", default_value_t = DPI)]
        #[arg(value_parser = clap::value_parser!(u16).range(i64::from(LEAST_DPI)..=i64::from(MOST_DPI)))]
        dpi: u16,
        /// Also replace files that Placewright did not write
        #[arg(long)]
        force: bool,
        /// Make everything again each time a lesson file is saved, until stopped with Ctrl-C
        #[arg(long)]
        watch: bool,
    },
    /// List what can be made
    #[command(after_help = "Examples:
  placewright sheets
  placewright sheets --format json")]
    Sheets,
}

/// What a first lesson file says.
#[derive(Debug, Args)]
pub struct Start {
    /// The file to write; named after the title when left out
    #[arg(value_name = "FILE")]
    pub file: Option<PathBuf>,
    /// What the lesson is called
    #[arg(long, value_name = "TEXT", value_parser = title)]
    pub title: Option<String>,
    /// The smallest and the largest number, such as 100-999
    #[arg(long, value_name = "RANGE", value_parser = range)]
    pub range: Option<(u32, u32)>,
    /// How many learners
    #[arg(long, value_name = "N")]
    #[arg(value_parser = clap::value_parser!(u32).range(1..=i64::try_from(limits::LEARNERS.most).unwrap_or(1)))]
    pub learners: Option<u32>,
    /// How the strips are cut: scissors (learners, their own page) or stack (a guillotine, in piles)
    #[arg(long, value_name = "WAY", value_parser = |word: &str| one_of(word, &Cut::ALL, Cut::word))]
    pub cut: Option<Cut>,
    /// The paper: letter, legal, tabloid, a4 or a3
    #[arg(long, value_name = "PAPER", value_parser = |word: &str| one_of(word, &Paper::ALL, Paper::word))]
    pub paper: Option<Paper>,
    /// Large print
    #[arg(long)]
    pub large: bool,
    /// Replace the file if it is there already
    #[arg(long)]
    pub force: bool,
}

impl Start {
    /// Whether any question is answered.
    pub fn answers_anything(&self) -> bool {
        let Self { title, range, learners, cut, paper, large, .. } = self;
        title.is_some() || range.is_some() || learners.is_some() || cut.is_some() || paper.is_some() || *large
    }

    /// Puts what was given in the place of what Enter answers.
    pub fn fill(&self, answers: &mut Answers) {
        if let Some(title) = &self.title {
            answers.title.clone_from(title);
        }
        answers.range = self.range.unwrap_or(answers.range);
        answers.learners = self.learners.unwrap_or(answers.learners);
        answers.cut = self.cut.unwrap_or(answers.cut);
        answers.paper = self.paper.unwrap_or(answers.paper);
        answers.large |= self.large;
    }
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
    one_of(word, &SheetKind::ALL, SheetKind::word)
}

/// Reads one of some words; the nearest is named when it is none of them.
fn one_of<T: Copy>(word: &str, all: &[T], name: fn(T) -> &'static str) -> Result<T, String> {
    if let Some(found) = all.iter().copied().find(|one| name(*one) == word) {
        return Ok(found);
    }
    let words: Vec<&str> = all.iter().copied().map(name).collect();
    Err(hint(word, words.iter().copied(), &format!("expected {}", listed(&words, "or"))))
}

/// Reads a title.
fn title(text: &str) -> Result<String, String> {
    super::start::title(text).map(|()| text.trim().to_owned())
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
