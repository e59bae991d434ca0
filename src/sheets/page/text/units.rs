//! Where a text may be broken, and the lines that come of it.
//!
//! In: a text and a font. Out: the parts that stay together (`+ 60`, `6 ones`, `four hundred`), in font units, so that every
//! type size shares them.

use std::ops::Range;

use crate::measure::{Font, Length};
use crate::wording;

/// The parts of a text that lines may be broken between, measured in font units so that every type size shares them.
pub(super) struct Units {
    texts: Vec<String>,
    widths: Vec<i64>,
    space: i64,
}

impl Units {
    /// The parts of `text`. With `sense` a hundred or a thousand stays with what it counts.
    pub(super) fn new(font: &Font, text: &str, sense: bool) -> Self {
        Self::measured(font, units(text, sense))
    }

    fn measured(font: &Font, texts: Vec<String>) -> Self {
        let wide = |text: &str| text.chars().filter_map(|c| font.glyph(c)).map(|glyph| glyph.advance).sum();
        let widths = texts.iter().map(|text| wide(text)).collect();
        Self { texts, widths, space: wide(" ") }
    }

    /// The parts of a text that is nothing but counts, "3 hundred thousands 7 ten thousands 5 tens": each with all of its name.
    /// None of any other text.
    pub(super) fn of_counts(font: &Font, text: &str) -> Option<Self> {
        let mut texts: Vec<String> = Vec::new();
        for word in text.split(' ').filter(|word| !word.is_empty()) {
            match texts.last_mut() {
                _ if is_numeral(word) => texts.push(word.to_owned()),
                Some(count) if word.chars().all(char::is_lowercase) => {
                    count.push(' ');
                    count.push_str(word);
                }
                _ => return None,
            }
        }
        let named = texts.len() > 1 && texts.iter().all(|count| count.contains(' '));
        named.then(|| Self::measured(font, texts))
    }

    /// A width at a type size, in font units.
    pub(super) fn limit(font: &Font, width: Length, size: Length) -> i64 {
        width.max(Length::ZERO).scaled(font.per_em(), size.to_raw().max(1)).to_raw()
    }

    /// The widths of the parts.
    pub(super) fn into_widths(self) -> Vec<i64> {
        self.widths
    }

    /// The width of the widest part.
    pub(super) fn widest(&self) -> i64 {
        self.widths.iter().copied().max().unwrap_or(0)
    }

    /// How wide some of the parts are on one line.
    pub(super) fn wide(&self, parts: Range<usize>) -> i64 {
        let spaces = self.space * i64::try_from(parts.len().saturating_sub(1)).unwrap_or(0);
        self.widths[parts].iter().sum::<i64>() + spaces
    }

    /// Where lines as full as the limit allows end: for each the number of parts up to there.
    pub(super) fn ends(&self, limit: i64) -> Vec<usize> {
        let mut ends = Vec::new();
        let mut used = 0;
        for (k, &wide) in self.widths.iter().enumerate() {
            if k > 0 && used + self.space + wide > limit {
                ends.push(k);
                used = wide;
            } else {
                used += if k > 0 { self.space + wide } else { wide };
            }
        }
        if !self.widths.is_empty() {
            ends.push(self.widths.len());
        }
        ends
    }

    /// The fewest lines, as narrow as possible.
    pub(super) fn balanced(&self, limit: i64) -> Vec<String> {
        let full = self.ends(limit);
        if full.len() < 2 {
            return self.lines(&full);
        }
        let (mut narrow, mut wide) = (0, limit);
        while wide - narrow > 1 {
            let middle = narrow + (wide - narrow) / 2;
            if self.ends(middle).len() > full.len() { narrow = middle } else { wide = middle }
        }
        self.lines(&self.ends(wide))
    }

    /// The lines that end there.
    pub(super) fn lines(&self, ends: &[usize]) -> Vec<String> {
        let starts = std::iter::once(&0).chain(ends);
        starts.zip(ends).map(|(&start, &end)| self.texts[start..end].join(" ")).collect()
    }
}

/// Words that stay together, in order. With `sense` a hundred or a thousand stays with what it counts, and an "and" with
/// what it adds, as the languages say. Numbers that are compared stay with their sign.
fn units(text: &str, sense: bool) -> Vec<String> {
    let mut units: Vec<String> = Vec::new();
    let mut glue = false;
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let numeral = is_numeral(word);
        let lower = word.starts_with(|c: char| c.is_ascii_lowercase());
        let sign = matches!(word, "<" | "=" | ">") && units.last().is_some_and(|unit| numeral_last(unit));
        let counted = sign || sense && wording::holds_back(word);
        match units.last_mut() {
            Some(unit) if counted || compared(unit) || glue && (!numeral_last(unit) || lower) => {
                unit.push(' ');
                unit.push_str(word);
            }
            _ => units.push(word.to_owned()),
        }
        // A single letter at the end of a line is lost there.
        let lone = word.chars().nth(1).is_none();
        glue = word == "+" || numeral || (sense || lone) && wording::holds_on(word);
    }
    units
}

/// Whether a unit ends in a bare numeral.
fn numeral_last(unit: &str) -> bool {
    let last = unit.rsplit(' ').next().unwrap_or(unit);
    is_numeral(last)
}

/// Whether a word is digits, with or without a mark between thousands.
fn is_numeral(word: &str) -> bool {
    word.chars().all(|c| c.is_ascii_digit() || matches!(c, ',' | '\u{202f}'))
}

/// Whether a unit ends in a sign that compares a numeral with the next.
fn compared(unit: &str) -> bool {
    let mut words = unit.rsplit(' ');
    words.next().is_some_and(|last| matches!(last, "<" | "=" | ">")) && words.next().is_some_and(is_numeral)
}
