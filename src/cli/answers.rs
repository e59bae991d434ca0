//! What a first lesson file says, and how people write each answer.
//!
//! Questions at a terminal and options on the command line are read by the same functions.

use crate::spec::keys::list;
use crate::spec::limits;
use crate::spec::{Cut, Language, Paper};

/// What a first lesson file says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answers {
    /// The title.
    pub title: String,
    /// The language of its pages.
    pub language: Language,
    /// Another language beside it.
    pub second_language: Option<Language>,
    /// Least and greatest number.
    pub range: (u32, u32),
    /// How many learners.
    pub learners: u32,
    /// Scissors or guillotine.
    pub cut: Cut,
    /// The paper.
    pub paper: Paper,
    /// Whether text is large.
    pub large: bool,
}

impl Default for Answers {
    /// What Enter answers.
    fn default() -> Self {
        Self {
            title: "Hundreds, tens and ones".to_owned(),
            language: list::LANGUAGE.value,
            second_language: None,
            range: (100, 999),
            learners: list::LEARNERS.value,
            cut: list::CUT.value,
            paper: list::PAPER.value,
            large: false,
        }
    }
}

/// Reads a title, its ends trimmed.
pub fn title(text: &str) -> Result<String, String> {
    let title = text.trim();
    if !limits::TITLE.allows(title.chars().count() as u64) {
        return Err(format!("expected 1 to {} characters", limits::TITLE.most));
    }
    if title.chars().any(char::is_control) {
        return Err("expected letters, digits and signs".to_owned());
    }
    Ok(title.to_owned())
}

/// Reads `100-500`, with any of the dashes that word processors type, or `100 to 500`.
pub fn range(text: &str) -> Result<(u32, u32), String> {
    let limit = limits::NUMBER;
    let number = |part: &str| {
        let value = part.trim().replace(',', "").parse().ok().filter(|value| limit.allows(u64::from(*value)));
        value.ok_or_else(|| format!("expected two numbers such as 100-500, each {limit}"))
    };
    let (least, most) = text.split_once(is_dash).or_else(|| text.split_once(" to ")).unwrap_or((text, ""));
    let (least, most) = (number(least)?, number(most)?);
    if least > most {
        Err(format!("{least} is greater than {most}; expected the smaller number first"))
    } else {
        Ok((least, most))
    }
}

/// The hyphen, the dashes and the minus sign of Unicode that people put between two numbers.
fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2015}' | '\u{2212}')
}

/// Reads how many learners.
pub fn learners(text: &str) -> Result<u32, String> {
    let count: Option<u32> = text.trim().replace(',', "").parse().ok();
    count
        .filter(|count| limits::LEARNERS.allows(u64::from(*count)))
        .ok_or_else(|| format!("expected {} in digits, such as 24", limits::LEARNERS))
}

/// Reads yes or no.
pub fn yes(text: &str) -> Result<bool, String> {
    match text.trim().to_lowercase().as_str() {
        "y" | "yes" => Ok(true),
        "n" | "no" => Ok(false),
        _ => Err("expected yes or no".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_read_as_people_write_them() {
        assert_eq!(range("100-500"), Ok((100, 500)));
        assert_eq!(range("100–999"), Ok((100, 999)));
        assert_eq!(range("100 — 999"), Ok((100, 999)));
        assert_eq!(range(" 1,000 to 9,999 "), Ok((1_000, 9_999)));
        for bad in ["", "100", "9-1", "a-b", "-5", "0-1000000", "1-2-3"] {
            assert!(range(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn answers_stay_within_the_limits() {
        assert!(title("Tram stops").is_ok() && title("\u{7}").is_err() && title(&"x".repeat(121)).is_err());
        assert!(title(" ").is_err());
        assert_eq!(learners(" 24 "), Ok(24));
        assert!(learners("0").is_err());
        assert_eq!(
            learners("twenty"),
            Err("expected a whole number from 1 to 20,000 in digits, such as 24".to_owned())
        );
    }

    #[test]
    fn only_yes_and_no_answer() {
        assert_eq!((yes("Y"), yes(" no ")), (Ok(true), Ok(false)));
        assert!(yes("maybe").is_err() && yes("").is_err());
    }
}
