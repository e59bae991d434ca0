//! The questions.

use std::path::PathBuf;

use dialoguer::theme::{ColorfulTheme, SimpleTheme, Theme};
use dialoguer::{Confirm, Input, Result, Select};

use super::Answers;
use crate::cli::files::read::shown;
use crate::spec::limits::{self, Limit};
use crate::spec::{Cut, Paper};

/// Ranges that lessons use.
const RANGES: [(&str, (u32, u32)); 5] = [
    ("0 to 20", (0, 20)),
    ("10 to 99", (10, 99)),
    ("100 to 999", (100, 999)),
    ("1,000 to 9,999", (1_000, 9_999)),
    ("10,000 to 999,999 (no block pictures)", (10_000, 999_999)),
];

/// Asks everything. Gives the answers, the file to write, and whether it may be replaced; nothing when a file is there
/// that is to stay.
pub fn all(usual: &Answers, file: impl Fn(&str) -> PathBuf, force: bool) -> Result<Option<(Answers, PathBuf, bool)>> {
    // The library asks the terminal whether it can colour; that knows NO_COLOR too.
    let colourful = dialoguer::console::colors_enabled_stderr();
    let theme: Box<dyn Theme> = if colourful { Box::new(ColorfulTheme::default()) } else { Box::new(SimpleTheme) };
    let theme = theme.as_ref();
    let title: String = Input::with_theme(theme)
        .with_prompt("What is the lesson called?")
        .default(usual.title.clone())
        .validate_with(|text: &String| title(text))
        .interact_text()?;
    let path = file(title.trim());
    let mut replace = false;
    if !force && path.exists() {
        let question = format!("{} is there already. Replace it?", shown(&path));
        replace = Confirm::with_theme(theme).with_prompt(question).default(false).interact()?;
        if !replace {
            return Ok(None);
        }
    }
    let start = RANGES.iter().position(|(_, range)| *range == usual.range).unwrap_or(0);
    let mut ranges: Vec<&str> = RANGES.iter().map(|(name, _)| *name).collect();
    ranges.push("other numbers");
    let chosen = Select::with_theme(theme).with_prompt("Which numbers?").items(&ranges).default(start).interact()?;
    let range = match RANGES.get(chosen) {
        Some((_, range)) => *range,
        None => other(theme)?,
    };
    let learners = Input::with_theme(theme)
        .with_prompt("How many learners?")
        .default(usual.learners)
        .validate_with(|count: &u32| within(limits::LEARNERS, *count))
        .interact_text()?;
    let ways = ["learners, with scissors, each their own page", "the copy room, with a guillotine, in piles"];
    let cut = Select::with_theme(theme).with_prompt("Who cuts the strips?").items(ways).default(0).interact()?;
    let papers = Paper::ALL.map(Paper::word);
    let paper = Select::with_theme(theme).with_prompt("Which paper?").items(papers).default(0).interact()?;
    let large = Confirm::with_theme(theme).with_prompt("Large print?").default(usual.large).interact()?;
    let answers = Answers {
        title: title.trim().to_owned(),
        range,
        learners,
        cut: Cut::ALL.get(cut).copied().unwrap_or(usual.cut),
        paper: Paper::ALL.get(paper).copied().unwrap_or(usual.paper),
        large,
    };
    Ok(Some((answers, path, replace)))
}

/// Numbers of the teacher's own.
fn other(theme: &dyn Theme) -> Result<(u32, u32)> {
    let text: String = Input::with_theme(theme)
        .with_prompt("From which number to which? (such as 100-500)")
        .validate_with(|text: &String| range(text).map(|_| ()))
        .interact_text()?;
    range(&text).map_err(|why| std::io::Error::other(why).into())
}

/// Reads `100-500`.
pub fn range(text: &str) -> std::result::Result<(u32, u32), String> {
    let limit = limits::NUMBER;
    let number = |part: &str| {
        let value = part.trim().replace(',', "").parse().ok().filter(|value| limit.allows(u64::from(*value)));
        value.ok_or_else(|| format!("expected two numbers such as 100-500, each {limit}"))
    };
    let (least, most) = text.split_once('-').or_else(|| text.split_once(" to ")).unwrap_or((text, ""));
    let (least, most) = (number(least)?, number(most)?);
    if least > most {
        Err(format!("{least} is greater than {most}; expected the smaller number first"))
    } else {
        Ok((least, most))
    }
}

/// Whether a text can be a title.
pub fn title(text: &str) -> std::result::Result<(), String> {
    let length = text.trim().chars().count() as u64;
    if !limits::TITLE.allows(length) {
        return Err(format!("expected at most {} characters", limits::TITLE.most));
    }
    if text.chars().any(char::is_control) { Err("expected letters, digits and signs".to_owned()) } else { Ok(()) }
}

fn within(limit: Limit, value: u32) -> std::result::Result<(), String> {
    if limit.allows(u64::from(value)) { Ok(()) } else { Err(format!("expected {limit}")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_read_as_people_write_them() {
        assert_eq!(range("100-500"), Ok((100, 500)));
        assert_eq!(range(" 1,000 to 9,999 "), Ok((1_000, 9_999)));
        for bad in ["", "100", "9-1", "a-b", "-5", "0-1000000", "1-2-3"] {
            assert!(range(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn answers_stay_within_the_limits() {
        assert!(title("Tram stops").is_ok() && title("\u{7}").is_err() && title(&"x".repeat(121)).is_err());
        assert!(within(limits::LEARNERS, 24).is_ok() && within(limits::LEARNERS, 0).is_err());
    }
}
