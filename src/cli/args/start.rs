//! What `start` takes.

use std::path::PathBuf;

use clap::Args;

use super::words::WordParser;
use crate::cli::answers::{self, Answers};
use crate::spec::{Cut, Language, Paper};

/// What a first lesson file says.
#[derive(Debug, Args)]
pub struct Start {
    /// The file to write; named after the title when left out
    #[arg(value_name = "FILE")]
    pub file: Option<PathBuf>,
    /// What the lesson is called
    #[arg(long, value_name = "TEXT", value_parser = answers::title)]
    pub title: Option<String>,
    /// The language of the pages: en (English) or es (Spanish)
    #[arg(long, value_name = "LANGUAGE", value_parser = WordParser::new(&Language::ALL, Language::word))]
    pub language: Option<Language>,
    /// A second language, for classes that work in two
    #[arg(long, value_name = "LANGUAGE", value_parser = WordParser::new(&Language::ALL, Language::word))]
    pub second_language: Option<Language>,
    /// The smallest and the largest number, such as 100-999
    #[arg(long, value_name = "RANGE", value_parser = answers::range)]
    pub range: Option<(u32, u32)>,
    /// How many learners
    #[arg(long, value_name = "N", value_parser = answers::learners)]
    pub learners: Option<u32>,
    /// How the strips are cut: scissors (learners, their own page) or stack (a guillotine, in piles)
    #[arg(long, value_name = "WAY", value_parser = WordParser::new(&Cut::ALL, Cut::word))]
    pub cut: Option<Cut>,
    /// The paper
    #[arg(long, value_name = "PAPER", value_parser = WordParser::new(&Paper::ALL, Paper::word))]
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
        let Self { title, language, second_language, range, learners, cut, paper, large, .. } = self;
        title.is_some()
            || language.is_some()
            || second_language.is_some()
            || range.is_some()
            || learners.is_some()
            || cut.is_some()
            || paper.is_some()
            || *large
    }

    /// Puts what was given in the place of what Enter answers.
    pub fn fill(&self, answers: &mut Answers) {
        if let Some(title) = &self.title {
            answers.title.clone_from(title);
        }
        answers.language = self.language.unwrap_or(answers.language);
        answers.second_language = self.second_language.or(answers.second_language);
        answers.range = self.range.unwrap_or(answers.range);
        answers.learners = self.learners.unwrap_or(answers.learners);
        answers.cut = self.cut.unwrap_or(answers.cut);
        answers.paper = self.paper.unwrap_or(answers.paper);
        answers.large |= self.large;
    }
}
