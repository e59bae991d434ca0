//! What a strip, a box or an answer shows.

use super::{Form, Names};
use crate::number::Place;

/// What a strip, a box or an answer shows.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Content {
    /// A line of text: numeral, words, expanded or unit form.
    Text(String),
    /// The same words in the lesson's language and in its second one, to be shown one below the other.
    Both([String; 2]),
    /// The block picture with so many thousands, flats, rods and cubes; a wrong picture may have more than nine of one.
    Blocks([u32; 4]),
}

impl Content {
    /// What it is worth, read as `form` in the words of a language: the sum of its terms, units or blocks. Returns `None` for words, which have no
    /// worth unless they are spelled right, and for anything not written in that form.
    pub fn worth(&self, form: Form, names: &dyn Names) -> Option<u64> {
        (form.facts().worth)(self, names)
    }

    /// The same without thousands marks: they tell two texts apart, but not what was meant.
    #[must_use]
    pub fn unmarked(&self, names: &dyn Names) -> Self {
        match self {
            Self::Text(_) => Self::Text(self.aloud(names)),
            Self::Both(_) | Self::Blocks(_) => self.clone(),
        }
    }

    /// The same for a listener: thousands marks left out, since a voice may stop at them, and "plus" for the sign.
    pub fn aloud(&self, names: &dyn Names) -> String {
        match self {
            // Most are words, or short: as they stand.
            Self::Text(text) if !text.contains([',', '\u{202f}', '+']) => text.clone(),
            Self::Text(text) => {
                let mut chars = text.chars().peekable();
                let mut plain = String::new();
                let mut after_digit = false;
                while let Some(c) = chars.next() {
                    let is_mark =
                        after_digit && matches!(c, ',' | '\u{202f}') && chars.peek().is_some_and(char::is_ascii_digit);
                    if !is_mark {
                        plain.push(c);
                    }
                    after_digit = c.is_ascii_digit();
                }
                plain.replace(" + ", &format!(" {} ", names.plus()))
            }
            Self::Both(_) | Self::Blocks(_) => self.text(names),
        }
    }

    /// Its text, or both of them, in the order of the languages; none for blocks.
    pub fn texts(&self) -> &[String] {
        match self {
            Self::Text(text) => std::slice::from_ref(text),
            Self::Both(texts) => texts,
            Self::Blocks(_) => &[],
        }
    }

    /// Its text, of two the one in the lesson's language; `None` for blocks.
    pub fn line(&self) -> Option<&str> {
        self.texts().first().map(String::as_str)
    }

    /// A text as it is printed, of two the one in the lesson's language; blocks by kind, largest first: "4 flats, 6 cubes".
    pub fn text(&self, names: &dyn Names) -> String {
        let counts = match self {
            Self::Text(text) | Self::Both([text, _]) => return text.clone(),
            Self::Blocks([0, 0, 0, 0]) => return names.no_pieces().to_owned(),
            Self::Blocks(counts) => counts,
        };
        let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
        let shown = counts.iter().zip(places).filter(|(count, _)| **count > 0);
        let shown = shown.filter_map(|(count, place)| Some(format!("{count} {}", names.piece(place, *count)?)));
        shown.collect::<Vec<_>>().join(", ")
    }
}
