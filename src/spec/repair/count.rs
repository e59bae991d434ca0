//! Numbers as people write them: with commas or spaces between groups of three, in words, with a word behind.

use crate::number::english::{SMALL, TENS};

/// One whole number: `1,000`, `24.0`, `024`, `24 learners`, `twenty-four`.
pub(super) fn one(text: &str) -> Option<u64> {
    let text = text.trim();
    if !text.starts_with(|c: char| c.is_ascii_digit()) {
        return spelled(text);
    }
    let end = text.find(|c: char| !(c.is_ascii_digit() || is_group(c) || c == '.')).unwrap_or(text.len());
    let (number, behind) = (text[..end].trim_end(), text[end..].trim());
    if !behind.chars().all(|c| c.is_alphabetic() || c == ' ') {
        return None;
    }
    let number = number.strip_suffix(".0").unwrap_or(number);
    if number.contains('.') {
        return None;
    }
    match numbers(number, true).as_slice() {
        [one] => Some(*one),
        _ => None,
    }
}

/// The word for a number from 0 to 19.
pub(super) fn word(value: usize) -> Option<&'static str> {
    SMALL.get(value).copied()
}

/// All whole numbers in a text; with `grouped`, digits in groups of three belong together.
pub(super) fn numbers(text: &str, grouped: bool) -> Vec<u64> {
    let chars: Vec<char> = text.chars().collect();
    let mut found = Vec::new();
    let mut digits = String::new();
    let mut at = 0;
    while at < chars.len() {
        let c = chars[at];
        if c.is_ascii_digit() {
            digits.push(c);
        } else if !(c == '_' || grouped && !digits.is_empty() && is_group(c) && is_triple(&chars[at + 1..])) {
            found.extend(digits.parse::<u64>().ok());
            digits.clear();
        }
        at += 1;
    }
    found.extend(digits.parse::<u64>().ok());
    found
}

/// What stands between groups of digits in one country or another.
fn is_group(c: char) -> bool {
    matches!(c, ',' | ' ' | '\'' | '\u{2019}' | '\u{a0}' | '\u{202f}' | '_')
}

/// Three digits and no fourth.
fn is_triple(rest: &[char]) -> bool {
    rest.len() >= 3 && rest[..3].iter().all(char::is_ascii_digit) && !rest.get(3).is_some_and(char::is_ascii_digit)
}

/// A number in English words.
fn spelled(text: &str) -> Option<u64> {
    let (mut total, mut part, mut seen) = (0, 0, false);
    for word in text.to_lowercase().split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()) {
        if let Some(value) = SMALL.iter().position(|small| *small == word) {
            part += value as u64;
        } else if let Some(tens) = TENS.iter().position(|tens| *tens == word) {
            part += 10 * (tens as u64 + 2);
        } else {
            match word {
                "hundred" => part = part.max(1) * 100,
                "thousand" => (total, part) = (total + part.max(1) * 1_000, 0),
                "dozen" => part = part.max(1) * 12,
                "none" | "no" | "nil" => {}
                "and" | "a" => continue,
                _ => return None,
            }
        }
        seen = true;
    }
    seen.then_some(total + part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_people_write_them() {
        #[track_caller]
        fn case(text: &str, want: Option<u64>) {
            assert_eq!(one(text), want, "{text}");
        }
        case("1,000", Some(1_000));
        case("12 000", Some(12_000));
        case("24.0", Some(24));
        case("007", Some(7));
        case("24 learners", Some(24));
        case("twenty-four", Some(24));
        case("Two hundred and six", Some(206));
        case("two dozen", Some(24));
        case("one thousand ten", Some(1_010));
        for bad in ["", "24.5", "many", "1,00", "24 (about)", "-3"] {
            case(bad, None);
        }
    }

    #[test]
    fn groups_of_three_belong_together_where_they_may() {
        assert_eq!(numbers("1,000, 9,999", true), [1_000, 9_999]);
        assert_eq!(numbers("100, 999", true), [100, 999]);
        assert_eq!(numbers("100,999", false), [100, 999]);
        assert_eq!(numbers("1 000–9 999", true), [1_000, 9_999]);
    }
}
