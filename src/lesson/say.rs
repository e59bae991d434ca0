//! Plain English about numbers: articles, plurals, lists and the names of block pieces.
//!
//! Sentences for grown-ups and learners are put together from these, so that "an 8", "1 ten" and "no rods" come out right
//! for every number.

use crate::number::{Content, Feature, Form, Number, Place, Style};

/// A number's form as a line of text; `None` for a form that is a picture or that the number does not have.
pub fn form(form: Form, number: Number, style: &Style) -> Option<String> {
    match form.content(number, style)? {
        Content::Text(text) => Some(text),
        Content::Blocks(_) => None,
    }
}

/// The numeral: `1,010`.
pub fn written(number: Number, style: &Style) -> String {
    form(Form::Numeral, number, style).unwrap_or_else(|| number.to_string())
}

/// The number words: `four hundred six`.
pub fn spoken(number: Number, style: &Style) -> String {
    form(Form::Words, number, style).unwrap_or_else(|| number.to_string())
}

/// The expanded form: `400 + 6`.
pub fn expanded(number: Number, style: &Style) -> String {
    form(Form::Expanded, number, style).unwrap_or_else(|| number.to_string())
}

/// What the digit in a place is worth, as a numeral: `400`.
pub fn worth(number: Number, place: Place, style: &Style) -> String {
    let worth = u32::from(number.digit(place)) * place.worth();
    Number::new(worth).map_or_else(|| worth.to_string(), |worth| written(worth, style))
}

/// "a" or "an", as the number is spoken: an 8, an 11, an 80, but a 1 and a 100.
pub fn article(number: u32) -> &'static str {
    // Of all words that can begin a number's name only eight, eighty, eighteen and eleven begin with a vowel sound.
    let leading = |n: u32| {
        let mut n = n;
        while n >= 1_000 {
            n /= 1_000;
        }
        n
    };
    match leading(number) {
        8 | 11 | 18 | 80..=89 | 800..=899 => "an",
        _ => "a",
    }
}

/// "1 rod", "2 rods", "0 rods".
pub fn counted(count: u32, singular: &str, plural: &str) -> String {
    if count == 1 { format!("1 {singular}") } else { format!("{count} {plural}") }
}

/// The plural by an s: "1 learner", "24 learners".
pub fn counted_s(count: u32, singular: &str) -> String {
    if count == 1 { format!("1 {singular}") } else { format!("{count} {singular}s") }
}

/// "a", "a and b", "a, b and c".
pub fn list<T: AsRef<str>>(items: &[T]) -> String {
    joined(items, "and")
}

/// "a", "a or b", "a, b or c".
pub fn either<T: AsRef<str>>(items: &[T]) -> String {
    joined(items, "or")
}

fn joined<T: AsRef<str>>(items: &[T], word: &str) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [head @ .., last] => {
            let head: Vec<&str> = head.iter().map(AsRef::as_ref).collect();
            format!("{} {word} {}", head.join(", "), last.as_ref())
        }
    }
}

/// A whole number up to nine as a word, others in figures: for "two 3s" and "three digits".
pub fn small(count: usize) -> String {
    const WORDS: [&str; 10] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    WORDS.get(count).map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// The sentence's first letter made a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The block piece that stands for one of a place, and its plural; `None` above the thousands, which have no piece.
pub fn piece(place: Place) -> Option<(&'static str, &'static str)> {
    match place {
        Place::Ones => Some(("cube", "cubes")),
        Place::Tens => Some(("rod", "rods")),
        Place::Hundreds => Some(("flat", "flats")),
        Place::Thousands => Some(("thousand-block", "thousand-blocks")),
        Place::TenThousands | Place::HundredThousands => None,
    }
}

/// The pieces of the block picture: "4 flats and 6 cubes"; "no blocks" for 0.
pub fn pieces(number: Number) -> String {
    let shown: Vec<String> = number
        .digits()
        .filter(|(_, digit)| *digit > 0)
        .filter_map(|(place, digit)| piece(place).map(|(one, many)| counted(digit.into(), one, many)))
        .collect();
    if shown.is_empty() { "no blocks".to_owned() } else { list(&shown) }
}

/// The places in which the numeral shows a 0, from the greatest down.
pub fn empty_places(number: Number) -> Vec<Place> {
    Place::ALL.into_iter().rev().filter(|place| Feature::Zero(*place).is_in(number)).collect()
}

/// The numeral with its zeros left out: 46 for 406; `None` when it has none or nothing is left.
pub fn without_zeros(number: Number) -> Option<Number> {
    if empty_places(number).is_empty() {
        return None;
    }
    let kept: String = number.to_string().chars().filter(|c| *c != '0').collect();
    kept.parse().ok().and_then(Number::new)
}

/// "the tens column", "the tens and ones columns".
pub fn columns(places: &[Place]) -> String {
    let words: Vec<&str> = places.iter().map(|place| place.words()).collect();
    format!("the {} column{}", list(&words), if places.len() == 1 { "" } else { "s" })
}

/// The sentences of a text, without their last marks.
pub fn sentences(text: &str) -> impl Iterator<Item = &str> {
    text.split_inclusive(['.', '?', '!'])
        .scan(0, |start, part| {
            let from = *start;
            *start += part.len();
            Some((from, *start))
        })
        .map(|(from, to)| text[from..to].trim())
        .filter(|sentence| !sentence.is_empty())
}

/// How many words a sentence has; signs such as + do not count.
pub fn word_count(sentence: &str) -> usize {
    sentence.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).count()
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
        assert_eq!(pieces(n(406)), "4 flats and 6 cubes");
        assert_eq!(pieces(n(1_111)), "1 thousand-block, 1 flat, 1 rod and 1 cube");
        assert_eq!(pieces(n(0)), "no blocks");
        assert_eq!(columns(&empty_places(n(400))), "the tens and ones columns");
        assert_eq!(columns(&empty_places(n(406))), "the tens column");
        assert_eq!(without_zeros(n(406)), Some(n(46)));
        assert_eq!(without_zeros(n(0)), None);
        assert_eq!(without_zeros(n(46)), None);
    }

    #[test]
    fn sentences_are_told_apart() {
        let parts: Vec<_> = sentences("Read 1,010. Why? Because 400 + 6 is 406.").collect();
        assert_eq!(parts, ["Read 1,010.", "Why?", "Because 400 + 6 is 406."]);
        assert_eq!(word_count("Because 400 + 6 is 406."), 5);
    }
}
