//! Options that take one of a few words.
//!
//! A misspelt word gets the nearest one, and shells are told all of them, so that they complete words and not file names.

use std::ffi::OsStr;

use clap::builder::{PossibleValue, TypedValueParser};
use clap::error::ErrorKind;
use clap::{Arg, Command, Error};

use crate::diag::nearest::{hint, listed};

/// Reads one of some words, in capitals or not.
#[derive(Debug, Clone)]
pub struct WordParser<T: 'static> {
    all: &'static [T],
    word: fn(T) -> &'static str,
}

impl<T: Copy> WordParser<T> {
    /// A reader of these words.
    pub const fn new(all: &'static [T], word: fn(T) -> &'static str) -> Self {
        Self { all, word }
    }

    fn words(&self) -> Vec<&'static str> {
        self.all.iter().copied().map(self.word).collect()
    }

    /// The value of a word, or what to say about it.
    fn read(&self, word: &str) -> Result<T, String> {
        let found = self.all.iter().copied().find(|one| (self.word)(*one).eq_ignore_ascii_case(word));
        let words = self.words();
        found.ok_or_else(|| hint(word, words.iter().copied(), &format!("expected {}", listed(&words, "or"))))
    }
}

impl<T: Copy + Send + Sync + 'static> TypedValueParser for WordParser<T> {
    type Value = T;

    fn parse_ref(&self, command: &Command, arg: Option<&Arg>, value: &OsStr) -> Result<T, Error> {
        let text = value.to_string_lossy();
        self.read(text.trim()).map_err(|why| {
            let of = arg.map_or_else(String::new, |arg| format!(" for '{arg}'"));
            Error::raw(ErrorKind::ValueValidation, format!("invalid value '{text}'{of}: {why}\n")).with_cmd(command)
        })
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        Some(Box::new(self.words().into_iter().map(PossibleValue::new)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::SheetKind;

    #[test]
    fn a_misspelt_sheet_gets_the_nearest() {
        let sheets = WordParser::new(&SheetKind::ALL, SheetKind::word);
        assert_eq!(sheets.read("word-bank"), Ok(SheetKind::WordBank));
        assert_eq!(sheets.read("Board"), Ok(SheetKind::Board));
        assert!(
            sheets.read("bord").expect_err("not a sheet").starts_with("did you mean `board`? expected display, mat")
        );
    }
}
