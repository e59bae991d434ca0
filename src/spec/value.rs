//! One value of the file and the kinds of thing it can be read as.
//!
//! Each reader returns `None` after it has reported what is wrong, so that the rest of the file is still read.

use std::ops::Range;

use toml::Spanned;
use toml::de::DeValue;

use super::limits::{self, Limit, grouped};
use super::log::{Log, shortened};
use super::table::Table;
use super::types::{Bound, Given};
use crate::diag::Problem;
use crate::diag::nearest::{hint, listed};
use crate::measure::Length;
use crate::number::Number;

/// A value with its name and place.
pub(super) struct Value<'t> {
    /// `class.learners`, or `numbers.never` for each item of a list.
    name: String,
    key: Range<usize>,
    span: Range<usize>,
    inner: &'t DeValue<'t>,
}

impl<'t> Value<'t> {
    pub(super) fn new(name: String, key: Range<usize>, value: &'t Spanned<DeValue<'t>>) -> Self {
        Self { name, key, span: value.span(), inner: value.get_ref() }
    }

    pub(super) fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// Reports that the value is of another kind than `kind`; `expected` says it at length.
    fn mistaken(&self, log: &mut Log, kind: &str, expected: &str) {
        let text = shortened(log.text(&self.span).lines().next().unwrap_or(""));
        let what = match self.inner {
            DeValue::String(_) => format!("the text {text} in quotes"),
            DeValue::Integer(_) => format!("the number {text}"),
            DeValue::Float(f) if f.as_str().ends_with("nan") || f.as_str().ends_with("inf") => format!("`{text}`"),
            DeValue::Float(_) => format!("the decimal number {text}"),
            DeValue::Boolean(_) => text,
            DeValue::Datetime(_) => format!("the date or time {text}"),
            DeValue::Array(_) => "a list".to_owned(),
            DeValue::Table(_) => "a section of its own".to_owned(),
        };
        // The span of a table that is written as a header is the header; the key is the better place.
        let span = if self.inner.is_table() { self.key.clone() } else { self.span() };
        log.error(span, Problem::new(format!("`{}` is {what}, not {kind}", self.name)).hint(expected));
    }

    /// A whole number within a limit.
    pub(super) fn whole(&self, log: &mut Log, limit: Limit) -> Option<Given<u64>> {
        let DeValue::Integer(integer) = self.inner else {
            let quotes = if self.inner.is_str() { ", without quotes" } else { "" };
            self.mistaken(log, "a whole number", &format!("expected {limit}{quotes}"));
            return None;
        };
        let value = i128::from_str_radix(integer.as_str(), integer.radix()).ok().and_then(|v| u64::try_from(v).ok());
        if let Some(value) = value.filter(|value| limit.allows(*value)) {
            return Some(Given::read(value, self.span()));
        }
        let text = shortened(log.text(&self.span));
        let problem = Problem::new(format!("`{}` is {text}", self.name)).hint(format!("expected {limit}"));
        log.error(self.span(), problem);
        None
    }

    /// A whole number within a limit that is itself below 2^32.
    pub(super) fn count(&self, log: &mut Log, limit: Limit) -> Option<Given<u32>> {
        let given = self.whole(log, limit)?;
        Some(Given::read(u32::try_from(given.value).ok()?, self.span()))
    }

    /// A number of the lesson, 0..=999,999.
    pub(super) fn number(&self, log: &mut Log) -> Option<Given<Number>> {
        let given = self.count(log, limits::NUMBER)?;
        Some(Given::read(Number::new(given.value)?, self.span()))
    }

    /// True or false.
    pub(super) fn switch(&self, log: &mut Log) -> Option<Given<bool>> {
        if let DeValue::Boolean(value) = self.inner {
            return Some(Given::read(*value, self.span()));
        }
        self.mistaken(log, "true or false", "expected true or false, without quotes");
        None
    }

    /// Any string.
    fn string(&self, log: &mut Log, expected: &str) -> Option<&'t str> {
        let text = self.inner.as_str();
        if text.is_none() {
            self.mistaken(log, "text in quotes", expected);
        }
        text
    }

    /// One line of text for people, without control characters, its ends trimmed.
    pub(super) fn line(&self, log: &mut Log, limit: Limit) -> Option<Given<String>> {
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
    pub(super) fn length(&self, log: &mut Log) -> Option<Given<Length>> {
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
    pub(super) fn one_of<T: Copy>(&self, log: &mut Log, all: &[T], word: fn(T) -> &'static str) -> Option<Given<T>> {
        let words: Vec<&str> = all.iter().map(|value| word(*value)).collect();
        let expected = format!("expected {}", listed(&words, "or"));
        let text = self.string(log, &format!("{expected}, in quotes"))?;
        if let Some(value) = all.iter().find(|value| word(**value) == text) {
            return Some(Given::read(*value, self.span()));
        }
        let problem = Problem::new(format!("`{}` is not a word for `{}`", shortened(text), self.name));
        log.error(self.span(), problem.hint(hint(text, words, &expected)));
        None
    }

    /// The items of a list.
    pub(super) fn list(&self, log: &mut Log, of: &str) -> Option<Vec<Self>> {
        let DeValue::Array(items) = self.inner else {
            self.mistaken(log, "a list", &format!("expected {of} in square brackets"));
            return None;
        };
        if items.len() > limits::LIST {
            let problem = Problem::new(format!("`{}` lists {} items", self.name, grouped(items.len() as u64)));
            log.error(self.key.clone(), problem.hint(format!("expected at most {}", grouped(limits::LIST as u64))));
            return None;
        }
        Some(items.iter().map(|item| Self::new(self.name.clone(), self.key.clone(), item)).collect())
    }

    /// A list of numbers; wrong items are reported and left out.
    pub(super) fn numbers(&self, log: &mut Log) -> Vec<Given<Number>> {
        let items = self.list(log, "numbers").unwrap_or_default();
        items.iter().filter_map(|item| item.number(log)).collect()
    }

    /// A list of words, none twice; wrong items are reported and left out.
    pub(super) fn words<T: Copy + PartialEq>(
        &self,
        log: &mut Log,
        all: &[T],
        word: fn(T) -> &'static str,
    ) -> Option<Given<Vec<T>>> {
        let mut values: Vec<Given<T>> = Vec::new();
        for item in self.list(log, "words")? {
            let Some(given) = item.one_of(log, all, word) else { continue };
            if let Some(first) = values.iter().find(|v| v.value == given.value) {
                let problem = Problem::new(format!("`{}` lists `{}` twice", self.name, word(given.value)))
                    .hint("keep one of them");
                let first = (first.span(), "first listed here".to_owned());
                log.clash(item.span(), problem, vec![first]);
            } else {
                values.push(given);
            }
        }
        Some(Given::read(values.into_iter().map(|v| v.value).collect(), self.span()))
    }

    /// A table.
    pub(super) fn table(&self, log: &mut Log) -> Table<'t> {
        if !self.inner.is_table() {
            self.mistaken(log, "a section", &format!("expected a section that begins with the line [{}]", self.name));
        }
        Table::new(self.name.clone(), self.key.clone(), self.inner.as_table(), self.inner.is_table())
    }

    /// `n` (at least n) or `{ min = a, max = b }`.
    pub(super) fn bound(&self, log: &mut Log) -> Option<Given<Bound>> {
        if self.inner.is_integer() {
            let least = self.count(log, limits::REQUEST)?;
            return Some(Given::read(Bound { min: least.value, max: None }, self.span()));
        }
        if !self.inner.is_table() {
            self.mistaken(log, "a count", &format!("expected {}, or {{ min = 1, max = 2 }}", limits::REQUEST));
            return None;
        }
        let mut table = self.table(log);
        let (min, max) = (table.take("min"), table.take("max"));
        table.finish(log);
        if min.is_none() && max.is_none() {
            let problem = Problem::new(format!("`{}` has neither min nor max", self.name));
            log.error(self.span(), problem.hint("expected { min = 1, max = 2 }, or one of the two"));
            return None;
        }
        let least = match &min {
            Some(min) => min.count(log, limits::REQUEST)?.value,
            None => 0,
        };
        let most = match &max {
            Some(max) => Some(max.count(log, limits::REQUEST)?),
            None => None,
        };
        if let Some(most) = &most
            && most.value < least
        {
            let problem = Problem::new(format!("`{}` asks for at least {least} and at most {}", self.name, most.value))
                .hint(format!("make max {least} or more, or min {} or less", most.value));
            log.error(self.span(), problem);
            return None;
        }
        Some(Given::read(Bound { min: least, max: most.map(|m| m.value) }, self.span()))
    }
}

/// A character that no page can show, named.
fn unprintable(control: char) -> String {
    format!("a character that cannot be printed, {}", shortened(&control.to_string()))
}
