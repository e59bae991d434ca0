//! The smallest parts of English sentences.

use super::English;
use crate::measure::Count;
use crate::number::{Content, Names, Number, Place, Style};
use crate::spec::Version;
use crate::wording::digits::runs_on;
use crate::wording::{Language, Phrases};

pub(super) use crate::wording::phrases::uncapped as inside;

/// "learner" for 1, "learners" for any other count: nouns whose plural adds an s.
pub(super) fn plural(count: u32, noun: &str) -> String {
    if count == 1 { noun.to_owned() } else { format!("{noun}s") }
}

/// "1 learner", "24 learners".
pub(super) fn counted(count: u32, noun: &str) -> String {
    format!("{count} {}", plural(count, noun))
}

/// The same of a count of things that are held in memory.
pub(super) fn many(count: usize, noun: &str) -> String {
    counted(count.narrow(), noun)
}

/// "a 7" or "an 8".
pub(super) fn a_digit(digit: u8) -> String {
    format!("{} {digit}", article(digit.into()))
}

/// "a" or "an", as the number is spoken: an 8, an 11, an 80, but a 1 and a 100.
fn article(number: u32) -> &'static str {
    // Of all words that can begin a number's name only eight, eighty, eighteen and eleven begin with a vowel sound.
    let leading = if number >= 1_000 { number / 1_000 } else { number };
    match leading {
        8 | 11 | 18 | 80..=89 | 800..=899 => "an",
        _ => "a",
    }
}

/// "a, b and c" of owned texts.
pub(super) fn listed(items: &[String]) -> String {
    English.list(&items.iter().map(String::as_str).collect::<Vec<_>>())
}

/// "A", "A, B and C", "A to F".
pub(super) fn lettered(versions: &[Version]) -> String {
    match runs_on(versions) {
        Some((first, last)) => format!("{first} to {last}"),
        None => listed(&versions.iter().map(ToString::to_string).collect::<Vec<_>>()),
    }
}

fn joined(items: &[&str], word: &str) -> String {
    match items {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [head @ .., last] => format!("{} {word} {last}", head.join(", ")),
    }
}

impl Phrases for English {
    fn list(&self, items: &[&str]) -> String {
        joined(items, "and")
    }

    fn either(&self, items: &[&str]) -> String {
        joined(items, "or")
    }

    fn small(&self, count: usize) -> String {
        const WORDS: [&str; 10] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
        WORDS.get(count).map_or_else(|| count.to_string(), |word| (*word).to_owned())
    }

    fn capital(&self, text: &str) -> String {
        let mut letters = text.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }

    fn inside(&self, heading: &str) -> String {
        inside(heading)
    }

    fn a_number(&self, number: Number, style: &Style) -> String {
        format!("{} {}", article(number.value()), style.numeral(number))
    }

    fn units(&self, count: u32, place: Place) -> String {
        format!("{count} {}", self.unit(place, count))
    }

    fn pieces(&self, count: u32, place: Place) -> Option<String> {
        Some(format!("{count} {}", self.piece(place, count)?))
    }

    fn pieces_of(&self, number: Number) -> String {
        let count = |place| u32::from(number.digit(place));
        self.content(&Content::Blocks([Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones].map(count)))
    }

    fn learners(&self, count: u32) -> String {
        counted(count, "learner")
    }

    fn content(&self, content: &Content) -> String {
        let Content::Blocks(counts) = content else { return content.text(self) };
        let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
        let shown = places.into_iter().zip(counts).filter(|(_, count)| **count > 0);
        let shown: Vec<String> = shown.filter_map(|(place, count)| self.pieces(*count, place)).collect();
        if shown.is_empty() {
            return self.no_pieces().to_owned();
        }
        self.list(&shown.iter().map(String::as_str).collect::<Vec<_>>())
    }

    fn language(&self, language: Language) -> &'static str {
        match language {
            Language::En => "English",
            Language::Es => "Spanish",
            #[cfg(test)]
            Language::Marked => "marked English",
        }
    }

    fn columns(&self, places: &[Place]) -> String {
        let words: Vec<&str> = places.iter().map(|place| self.place(*place)).collect();
        format!("the {} {}", self.list(&words), plural(places.len() as u32, "column"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_article_follows_the_spoken_number() {
        for n in [8, 11, 18, 80, 88, 800, 811, 8_000, 11_000, 18_500, 80_000, 811_000] {
            assert_eq!(article(n), "an", "{n}");
        }
        for n in [0, 1, 6, 10, 17, 70, 100, 108, 110, 118, 1_100, 1_800, 100_000, 118_000] {
            assert_eq!(article(n), "a", "{n}");
        }
    }

    #[test]
    fn lists_and_plurals_agree() {
        let n = |value| Number::new(value).expect("in range");
        assert_eq!(English.pieces_of(n(406)), "4 flats and 6 cubes");
        assert_eq!(English.pieces_of(n(1_111)), "1 thousand-block, 1 flat, 1 rod and 1 cube");
        assert_eq!(English.pieces_of(n(0)), "no blocks");
        assert_eq!(English.columns(&[Place::Tens, Place::Ones]), "the tens and ones columns");
        assert_eq!(English.columns(&[Place::Tens]), "the tens column");
        assert_eq!(English.list(&["a", "b", "c"]), "a, b and c");
        assert_eq!((counted(1, "learner"), counted(0, "learner")), ("1 learner".to_owned(), "0 learners".to_owned()));
    }
}
