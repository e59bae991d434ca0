//! Values that are text: lines, lengths, words, fonts.

use toml::de::DeValue;

use super::Value;
use crate::diag::Problem;
use crate::diag::nearest::{hint, listed};
use crate::measure::Length;
use crate::spec::choices::FontChoice;
use crate::spec::limits::{Limit, grouped};
use crate::spec::log::{Log, shortened};
use crate::spec::types::Given;

impl<'t> Value<'t> {
    /// Any string.
    fn string(&self, log: &mut Log, expected: &str) -> Option<&'t str> {
        let text = self.inner.as_str();
        if text.is_none() {
            self.mistaken(log, "text in quotes", expected);
        }
        text
    }

    /// One line of text for people, without control characters, its ends trimmed.
    pub(in crate::spec) fn line(&self, log: &mut Log, limit: Limit) -> Option<Given<String>> {
        let raw = log.text(&self.span).to_owned();
        let quotes = match self.inner {
            DeValue::Integer(_) | DeValue::Float(_) | DeValue::Datetime(_) | DeValue::Boolean(_) => {
                format!("put it in quotes: \"{}\"", shortened(&raw))
            }
            _ => "expected text in quotes".to_owned(),
        };
        let text = self.string(log, &quotes)?.trim();
        let characters = text.chars().count() as u64;
        let problem = if text.is_empty() {
            Problem::new(format!("`{}` is empty", self.name)).hint("expected some text")
        } else if let Some(control) = text.chars().find(|c| c.is_control()) {
            let what = if control == '\n' { "more than one line".to_owned() } else { unprintable(control) };
            Problem::new(format!("`{}` holds {what}", self.name)).hint("expected one line of plain text")
        } else if !limit.allows(characters) {
            Problem::new(format!("`{}` has {} characters", self.name, grouped(characters)))
                .hint(format!("expected at most {}", grouped(limit.most)))
        } else {
            return Some(Given::read(text.to_owned(), self.span()));
        };
        log.error(self.span(), problem);
        None
    }

    /// A length with its unit.
    pub(in crate::spec) fn length(&self, log: &mut Log) -> Option<Given<Length>> {
        if let DeValue::Integer(_) | DeValue::Float(_) = self.inner {
            let text = log.text(&self.span).to_owned();
            let problem =
                Problem::new(format!("`{}` is the number {} without a unit", self.name, shortened(&text))).hint(
                    format!("a length needs quotes and a unit (mm, cm, in or pt), such as \"{} mm\"", shortened(&text)),
                );
            log.error(self.span(), problem);
            return None;
        }
        let text = self.string(log, "expected a length with its unit, such as \"6.35 mm\" or \"1/4 in\"")?;
        match Length::parse(text) {
            Ok(length) => Some(Given::read(length, self.span())),
            Err(problem) => {
                log.error(self.span(), problem);
                None
            }
        }
    }

    /// One of some words.
    pub(in crate::spec) fn one_of<T>(
        &self,
        log: &mut Log,
        words: &[&'static str],
        find: impl Fn(&str) -> Option<T>,
    ) -> Option<Given<T>> {
        let expected = format!("expected {}", listed(words, "or"));
        let text = self.string(log, &format!("{expected}, in quotes"))?;
        if let Some(value) = find(text) {
            return Some(Given::read(value, self.span()));
        }
        let problem = Problem::new(format!("`{}` is not a word for `{}`", shortened(text), self.name));
        log.error(self.span(), problem.hint(hint(text, words.iter().copied(), &expected)));
        None
    }

    /// A bundled family by its word, or a path to a font file.
    pub(in crate::spec) fn font(&self, log: &mut Log, limit: Limit) -> Option<Given<FontChoice>> {
        let text = self.line(log, limit)?.value;
        let choice = match text.to_ascii_lowercase().as_str() {
            "andika" => FontChoice::Andika,
            "lato" => FontChoice::Lato,
            folded => {
                let extension = folded.rsplit_once('.').map(|(_, end)| end);
                if let Some("ttf" | "otf") = extension {
                    FontChoice::File(text)
                } else {
                    let expected = "expected andika, lato, or a path to a .ttf or .otf file";
                    let problem =
                        Problem::new(format!("`{}` is neither a bundled font nor a font file", shortened(&text)));
                    log.error(self.span(), problem.hint(hint(&text, FontChoice::BUNDLED, expected)));
                    return None;
                }
            }
        };
        Some(Given::read(choice, self.span()))
    }
}

/// A character that no page can show, named.
fn unprintable(control: char) -> String {
    format!("a character that cannot be printed, {}", shortened(&control.to_string()))
}
