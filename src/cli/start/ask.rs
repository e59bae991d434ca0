//! The questions.
//!
//! Some of them hide the cursor while they wait. Ctrl-C would end the program there and then and leave it hidden; so it is
//! caught, and comes back from the question as an error.

use std::path::PathBuf;

use dialoguer::console::{Term, set_colors_enabled_stderr};
use dialoguer::theme::{ColorfulTheme, SimpleTheme, Theme};
use dialoguer::{Input, Result, Select};

use crate::cli::answers::{Answers, learners, range, title, yes};
use crate::cli::files::read::shown;
use crate::spec::{Cut, Language, Paper};

/// Ranges that lessons use.
const RANGES: [(&str, (u32, u32)); 5] = [
    ("0 to 20", (0, 20)),
    ("10 to 99", (10, 99)),
    ("100 to 999", (100, 999)),
    ("1,000 to 9,999", (1_000, 9_999)),
    ("10,000 to 999,999 (no block pictures)", (10_000, 999_999)),
];

/// Someone at a terminal.
#[derive(Debug, Clone, Copy)]
pub struct Asker {
    /// Whether questions are coloured.
    pub coloured: bool,
}

/// What is gathered: the answers, the file to write, and whether it may be replaced.
type Gathered = (Answers, PathBuf, bool);

/// Asks everything. Gives nothing when a file is there that is to stay.
pub fn all(asker: Asker, usual: &Answers, file: impl Fn(&str) -> PathBuf, force: bool) -> Result<Option<Gathered>> {
    // Where it cannot be caught, it stops the program as before.
    let _ = ctrlc::set_handler(|| {
        if cfg!(windows) {
            let _ = Term::stderr().show_cursor();
            std::process::exit(130);
        }
    });
    set_colors_enabled_stderr(asker.coloured);
    let theme: Box<dyn Theme> = if asker.coloured { Box::new(ColorfulTheme::default()) } else { Box::new(SimpleTheme) };
    let gathered = questions(theme.as_ref(), usual, file, force);
    let _ = Term::stderr().show_cursor();
    gathered
}

fn questions(
    theme: &dyn Theme,
    usual: &Answers,
    file: impl Fn(&str) -> PathBuf,
    force: bool,
) -> Result<Option<Gathered>> {
    let named = text(theme, "What is the lesson called?", &usual.title, |text| title(text).map(|_| ()))?;
    let path = file(named.trim());
    let mut replace = false;
    if !force && path.exists() {
        let question = format!("{} is there already. Replace it?", shown(&path));
        replace = agreed(theme, &question, false)?;
        if !replace {
            return Ok(None);
        }
    }
    let languages = Language::ALL.map(Language::name);
    let first = Language::ALL.iter().position(|language| *language == usual.language).unwrap_or(0);
    let language =
        Select::with_theme(theme).with_prompt("Which language on paper?").items(languages).default(first).interact()?;
    let language = Language::ALL.get(language).copied().unwrap_or(usual.language);
    let second_language = second(theme, language)?;
    let start = RANGES.iter().position(|(_, range)| *range == usual.range).unwrap_or(0);
    let mut ranges: Vec<&str> = RANGES.iter().map(|(name, _)| *name).collect();
    ranges.push("other numbers");
    let chosen = Select::with_theme(theme).with_prompt("Which numbers?").items(&ranges).default(start).interact()?;
    let range = match RANGES.get(chosen) {
        Some((_, range)) => *range,
        None => other(theme)?,
    };
    let count = text(theme, "How many learners?", &usual.learners.to_string(), |text| learners(text).map(|_| ()))?;
    let ways = ["learners, with scissors, each their own page", "the copy room, with a guillotine, in piles"];
    let cut = Select::with_theme(theme).with_prompt("Who cuts the strips?").items(ways).default(0).interact()?;
    let papers = Paper::ALL.map(Paper::word);
    let paper = Select::with_theme(theme).with_prompt("Which paper?").items(papers).default(0).interact()?;
    let large = agreed(theme, "Large print?", usual.large)?;
    let answers = Answers {
        title: named.trim().to_owned(),
        language,
        second_language,
        range,
        learners: learners(&count).unwrap_or(usual.learners),
        cut: Cut::ALL.get(cut).copied().unwrap_or(usual.cut),
        paper: Paper::ALL.get(paper).copied().unwrap_or(usual.paper),
        large,
    };
    Ok(Some((answers, path, replace)))
}

/// A second language, if the class works in two.
fn second(theme: &dyn Theme, first: Language) -> Result<Option<Language>> {
    let others: Vec<Language> = first.others().collect();
    let names: Vec<&str> = std::iter::once("none").chain(others.iter().map(|other| other.name())).collect();
    let prompt = "A second language beside it?";
    let chosen = Select::with_theme(theme).with_prompt(prompt).items(&names).default(0).interact()?;
    Ok(chosen.checked_sub(1).and_then(|at| others.get(at)).copied())
}

/// A line of text that Enter answers with what is usual.
fn text(
    theme: &dyn Theme,
    question: &str,
    usual: &str,
    check: impl Fn(&str) -> std::result::Result<(), String>,
) -> Result<String> {
    Input::with_theme(theme)
        .with_prompt(question)
        .default(usual.to_owned())
        .validate_with(|text: &String| check(text))
        .interact_text()
}

/// Yes or no, as a word: a key that is pressed by mistake answers nothing.
fn agreed(theme: &dyn Theme, question: &str, usual: bool) -> Result<bool> {
    let question = format!("{question} (yes or no)");
    let answer = text(theme, &question, if usual { "yes" } else { "no" }, |text| yes(text).map(|_| ()))?;
    Ok(yes(&answer).unwrap_or(usual))
}

/// Numbers of the teacher's own.
fn other(theme: &dyn Theme) -> Result<(u32, u32)> {
    let text: String = Input::with_theme(theme)
        .with_prompt("From which number to which? (such as 100-500)")
        .validate_with(|text: &String| range(text).map(|_| ()))
        .interact_text()?;
    range(&text).map_err(|why| std::io::Error::other(why).into())
}
