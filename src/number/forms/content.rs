//! What a strip, a box or an answer shows.

use std::fmt;

use super::Form;

/// What a strip, a box or an answer shows.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Content {
    /// A line of text: numeral, words, expanded or unit form.
    Text(String),
    /// The block picture with so many thousands, flats, rods and cubes; a wrong picture may have more than nine of one.
    Blocks([u32; 4]),
}

impl Content {
    /// What it is worth, read as `form`: the sum of its terms, units or blocks. Returns `None` for words, which have no
    /// worth unless they are spelled right, and for anything not written in that form.
    pub fn worth(&self, form: Form) -> Option<u64> {
        (form.facts().worth)(self)
    }

    /// The same for a listener: thousands marks left out, since a voice may stop at them, and "plus" for the sign.
    pub fn aloud(&self) -> String {
        match self {
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
                plain.replace(" + ", " plus ")
            }
            Self::Blocks(_) => self.to_string(),
        }
    }
}

impl fmt::Display for Content {
    /// A text as it is printed; blocks by kind, largest first: "4 flats, 6 cubes".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => f.write_str(text),
            Self::Blocks([0, 0, 0, 0]) => f.write_str("no blocks"),
            Self::Blocks(counts) => {
                let kinds =
                    counts.iter().zip(["thousand block", "flat", "rod", "cube"]).filter(|&(&count, _)| count > 0);
                for (at, (count, kind)) in kinds.enumerate() {
                    let mark = if at > 0 { ", " } else { "" };
                    write!(f, "{mark}{count} {kind}{}", if *count == 1 { "" } else { "s" })?;
                }
                Ok(())
            }
        }
    }
}
