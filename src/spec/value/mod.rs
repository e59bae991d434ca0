//! One value of the file and the kinds of thing it can be read as.
//!
//! Each reader returns `None` after it has reported what is wrong, so that the rest of the file is still read.

mod many;
mod text;

use std::ops::Range;

use toml::Spanned;
use toml::de::DeValue;

use super::limits::{self, Limit};
use super::log::{Log, shortened};
use super::types::Given;
use crate::diag::Problem;
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

    /// Its name: `class.learners`.
    pub(super) fn name(&self) -> &str {
        &self.name
    }

    /// Where its key stands.
    pub(super) fn key(&self) -> Range<usize> {
        self.key.clone()
    }

    /// The value as the parser gives it.
    pub(super) fn inner(&self) -> &'t DeValue<'t> {
        self.inner
    }

    pub(super) fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// Reports that the value is of another kind than `kind`; `expected` says it at length.
    pub(super) fn mistaken(&self, log: &mut Log, kind: &str, expected: &str) {
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
}
