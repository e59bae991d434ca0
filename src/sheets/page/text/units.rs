//! Where a text may be broken, and the lines that come of it.
//!
//! In: a text and a font. Out: the parts that stay together (`+ 60`, `6 ones`, `four hundred`), in font units, so that every
//! type size shares them. Parts and lines are pieces of the text itself: nothing is copied to find out where it breaks.

use std::borrow::Cow;
use std::ops::Range;

use crate::measure::{Font, Length};
use crate::wording;

/// The parts of a text that lines may be broken between, measured in font units so that every type size shares them.
pub(super) struct Units<'t> {
    /// The text, its words one space apart.
    text: Cow<'t, str>,
    parts: Vec<Unit>,
    space: i64,
}

/// A part of a text.
struct Unit {
    /// Where it stands in the text.
    at: Range<usize>,
    wide: i64,
}

impl<'t> Units<'t> {
    /// The parts of `text`. With `sense` a hundred or a thousand stays with what it counts.
    pub(super) fn new(font: &Font, text: &'t str, sense: bool) -> Self {
        let text = spaced(text);
        let parts = units(font, &text, sense);
        Self { text, parts, space: font.units(" ") }
    }

    /// The parts of a text that is nothing but counts, "3 hundred thousands 7 ten thousands 5 tens": each with all of its name.
    /// None of any other text.
    pub(super) fn of_counts(font: &Font, text: &'t str) -> Option<Self> {
        // Most texts are told by their first letter.
        if !text.trim_start_matches(' ').starts_with(is_figure) {
            return None;
        }
        let text = spaced(text);
        let mut counts: Vec<(Range<usize>, bool)> = Vec::new();
        for (at, word) in words(&text) {
            match counts.last_mut() {
                _ if is_numeral(word) => counts.push((at..at + word.len(), false)),
                Some((count, named)) if word.chars().all(char::is_lowercase) => {
                    (count.end, *named) = (at + word.len(), true);
                }
                _ => return None,
            }
        }
        if counts.len() < 2 || !counts.iter().all(|(_, named)| *named) {
            return None;
        }
        let parts = counts.into_iter().map(|(at, _)| Unit { wide: font.units(&text[at.clone()]), at }).collect();
        Some(Self { text, parts, space: font.units(" ") })
    }

    /// A width at a type size, in font units.
    pub(super) fn limit(font: &Font, width: Length, size: Length) -> i64 {
        width.max(Length::ZERO).scaled(font.per_em(), size.to_raw().max(1)).to_raw()
    }

    /// The widths of the parts.
    pub(super) fn widths(&self) -> Vec<i64> {
        self.parts.iter().map(|part| part.wide).collect()
    }

    /// The width of the widest part.
    pub(super) fn widest(&self) -> i64 {
        self.parts.iter().map(|part| part.wide).max().unwrap_or(0)
    }

    /// How wide some of the parts are on one line.
    pub(super) fn wide(&self, parts: Range<usize>) -> i64 {
        let spaces = self.space * i64::try_from(parts.len().saturating_sub(1)).unwrap_or(0);
        self.parts[parts].iter().map(|part| part.wide).sum::<i64>() + spaces
    }

    /// Where lines as full as the limit allows end: for each the number of parts up to there.
    pub(super) fn ends(&self, limit: i64) -> Vec<usize> {
        let mut ends = Vec::new();
        self.each_end(limit, |end| ends.push(end));
        ends
    }

    /// How many lines as full as the limit allows there are.
    pub(super) fn count(&self, limit: i64) -> usize {
        let mut count = 0;
        self.each_end(limit, |_| count += 1);
        count
    }

    fn each_end(&self, limit: i64, mut ends: impl FnMut(usize)) {
        let mut used = 0;
        for (k, &Unit { wide, .. }) in self.parts.iter().enumerate() {
            if k > 0 && used + self.space + wide > limit {
                ends(k);
                used = wide;
            } else {
                used += if k > 0 { self.space + wide } else { wide };
            }
        }
        if !self.parts.is_empty() {
            ends(self.parts.len());
        }
    }

    /// The fewest lines, as narrow as possible.
    pub(super) fn balanced(&self, limit: i64) -> Vec<Cow<'t, str>> {
        let full = self.ends(limit);
        if full.len() < 2 {
            return self.lines(&full);
        }
        let (mut narrow, mut wide) = (0, limit);
        while wide - narrow > 1 {
            let middle = narrow + (wide - narrow) / 2;
            if self.count(middle) > full.len() { narrow = middle } else { wide = middle }
        }
        self.lines(&self.ends(wide))
    }

    /// The lines that end there.
    pub(super) fn lines(&self, ends: &[usize]) -> Vec<Cow<'t, str>> {
        let starts = std::iter::once(&0).chain(ends);
        starts.zip(ends).map(|(&start, &end)| self.line(start..end)).collect()
    }

    fn line(&self, parts: Range<usize>) -> Cow<'t, str> {
        let at = match &self.parts[parts] {
            [] => 0..0,
            [only] => only.at.clone(),
            [first, .., last] => first.at.start..last.at.end,
        };
        match &self.text {
            Cow::Borrowed(text) => Cow::Borrowed(&text[at]),
            Cow::Owned(text) => Cow::Owned(text[at].to_owned()),
        }
    }
}

/// The same text with one space between any two words and none at its ends: nearly every text is so already.
fn spaced(text: &str) -> Cow<'_, str> {
    let bytes = text.as_bytes();
    let even = bytes.first() != Some(&b' ')
        && bytes.last() != Some(&b' ')
        && !bytes.windows(2).any(|two| matches!(two, b"  "));
    if even {
        return Cow::Borrowed(text);
    }
    let words: Vec<&str> = text.split(' ').filter(|word| !word.is_empty()).collect();
    Cow::Owned(words.join(" "))
}

/// The words of a text that are one space apart, each with where it stands.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let mut next = 0;
    // A space is one byte, and no part of another character.
    let word = move |bytes: &[u8]| {
        let at = next;
        next += bytes.len() + 1;
        (at, &text[at..at + bytes.len()])
    };
    text.as_bytes().split(|byte| *byte == b' ').map(word).filter(|(_, word)| !word.is_empty())
}

/// Words that stay together, in order. With `sense` a hundred or a thousand stays with what it counts, and an "and" with
/// what it adds, as the languages say. Numbers that are compared stay with their sign.
fn units(font: &Font, text: &str, sense: bool) -> Vec<Unit> {
    let space = font.units(" ");
    // Words have some five letters: the list grows once where they are shorter.
    let mut units: Vec<Unit> = Vec::with_capacity(text.len() / 6 + 1);
    // Of the part that is being put together: whether it goes on, ends in a bare numeral, and ends in a sign that compares one
    // with the next.
    let (mut glue, mut numeral_last, mut compared) = (false, false, false);
    for (at, word) in words(text) {
        let numeral = is_numeral(word);
        let lower = word.starts_with(|c: char| c.is_ascii_lowercase());
        let sign = matches!(word, "<" | "=" | ">");
        let counted = sign && numeral_last || sense && wording::holds_back(word);
        let wide = font.units(word);
        match units.last_mut() {
            Some(unit) if counted || compared || glue && (!numeral_last || lower) => {
                unit.at.end = at + word.len();
                unit.wide += space + wide;
                compared = sign && numeral_last;
            }
            _ => {
                units.push(Unit { at: at..at + word.len(), wide });
                compared = false;
            }
        }
        numeral_last = numeral;
        // A single letter at the end of a line is lost there.
        let lone = word.chars().nth(1).is_none();
        glue = word == "+" || numeral || (sense || lone) && wording::holds_on(word);
    }
    units
}

/// Whether a word is digits, with or without a mark between thousands.
fn is_numeral(word: &str) -> bool {
    word.chars().all(is_figure)
}

/// Whether a character is a digit, or a mark between thousands.
fn is_figure(character: char) -> bool {
    character.is_ascii_digit() || matches!(character, ',' | '\u{202f}')
}
