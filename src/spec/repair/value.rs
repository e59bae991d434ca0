//! A value read as people write it, and written as the lesson file wants it.

use super::count;
use super::each;
use crate::diag::nearest::nearest;
use crate::measure::Length;
use crate::number::Place;
use crate::spec::keys::Shape;
use crate::spec::limits::Limit;
use crate::spec::log::shortened;

/// A value as it was probably meant.
pub(super) struct Read {
    /// As the lesson file writes it.
    pub(super) text: String,
    /// Whether there is no other way to read it.
    pub(super) sure: bool,
    /// What is wrong with it as it stands; nothing where it stands as it should.
    pub(super) says: Option<String>,
}

/// Reads a value of a shape. What stands as it should is given back as it is.
pub(super) fn read(shape: &Shape, raw: &str) -> Option<Read> {
    let value = raw.trim_end_matches([',', ';', ' ']);
    let bare = bare(value);
    let text = match shape {
        Shape::Whole(limit) => whole(bare, *limit).map(|text| (text, true)),
        Shape::Line(_) | Shape::Path(..) => line(value).map(|text| (text, true)),
        Shape::Word(words) => word(bare, words).map(|(word, sure)| (quoted(word), sure)),
        Shape::Words(words, _) => list(value, words),
        Shape::Switch => switch(bare).map(|text| (text.to_owned(), true)),
        Shape::Length => length(bare),
        Shape::Font(words) => font(value, words),
        Shape::Range(limit) => range(bare, *limit).map(|text| (text, true)),
        Shape::Numbers(limit) => numbers(bare, *limit).map(|text| (text, true)),
        Shape::Bound(limit) => bound(bare, *limit).map(|text| (text, true)),
        Shape::Digits(limit) | Shape::Bounds(limit) => {
            each::read(value, &Place::ALL.map(Place::key), Some("tens"), *limit)
        }
        Shape::Sheets(words, limit) => each::read(value, words, None, *limit),
        Shape::Lists(_) => None,
    };
    // What parses may stay as it is, for the sake of what else is wrong on the line.
    let parses = is_value(raw);
    let (text, sure) = match text {
        Some((text, sure)) if !(parses && same(&text, raw)) => (text, sure),
        _ if parses => return Some(Read { text: raw.to_owned(), sure: true, says: None }),
        _ if is_value(value) => {
            let says = Some("a line ends with its value, without a comma behind it".to_owned());
            return Some(Read { text: value.to_owned(), sure: true, says });
        }
        _ => return None,
    };
    Some(Read { text, sure, says: Some(says(shape, value)) })
}

/// What is wrong with a value that is not as it should be.
fn says(shape: &Shape, value: &str) -> String {
    let curly = |c: char| is_quote(c) && !matches!(c, '"' | '\'');
    let straight = |c: char| matches!(c, '"' | '\'');
    if value.starts_with(curly) || value.ends_with(curly) {
        return "these quotes are curly, as word processors type them; straight ones are needed".to_owned();
    }
    match shape {
        Shape::Whole(_) => "a whole number is written in digits, without commas or quotes".to_owned(),
        Shape::Range(_) => "a range is two numbers in square brackets, with a comma between them".to_owned(),
        Shape::Numbers(_) | Shape::Words(..) => {
            "a list stands in square brackets, with commas between its items".to_owned()
        }
        Shape::Switch => "true and false stand in small letters, without quotes".to_owned(),
        Shape::Length => "a length stands in quotes, with its unit".to_owned(),
        Shape::Bound(_) => "a request is a count, or a least and a greatest count in curly brackets".to_owned(),
        Shape::Digits(_) | Shape::Bounds(_) => "the places and their counts stand in curly brackets".to_owned(),
        Shape::Lists(_) => "the versions and their lists of numbers stand in curly brackets".to_owned(),
        Shape::Sheets(..) => "the sheets and their counts stand in curly brackets".to_owned(),
        _ if value.contains('\\') => {
            "in double quotes a backslash begins a special character; single quotes leave it as it is".to_owned()
        }
        _ if value.starts_with(straight) && !value[1..].ends_with(straight) => {
            "the text in quotes on this line never ends".to_owned()
        }
        _ if value.ends_with(straight) => {
            "the text on this line ends with a quote and does not begin with one".to_owned()
        }
        _ => format!("{} has no quotes", shortened(value)),
    }
}

/// Whether a text is a value of TOML as it stands.
fn is_value(text: &str) -> bool {
    toml::de::DeTable::parse(&format!("x = {text}")).is_ok()
}

/// Whether two texts are the same value.
fn same(one: &str, other: &str) -> bool {
    let value = |text: &str| format!("x = {text}").parse::<toml::Table>().ok();
    value(one).is_some_and(|one| value(other) == Some(one))
}

/// A quote of any kind.
pub(super) fn is_quote(c: char) -> bool {
    matches!(c, '"' | '\'' | '\u{2018}'..='\u{201f}' | '\u{ab}' | '\u{bb}' | '`')
}

/// Whether a quote closes what another opened.
pub(super) fn closes(open: char, c: char) -> bool {
    match open {
        '"' | '\'' | '`' => c == open,
        _ => is_quote(c) && !matches!(c, '\'' | '`'),
    }
}

/// The text inside quotes, whichever they are, closed or not.
fn bare(text: &str) -> &str {
    text.trim_matches(|c: char| is_quote(c) || c.is_whitespace())
}

/// A text as TOML writes it.
fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}

fn whole(bare: &str, limit: Limit) -> Option<String> {
    count::one(bare).filter(|value| limit.allows(*value)).map(|value| value.to_string())
}

/// A line of text; none where what is given is text already, whatever else is wrong with it.
fn line(value: &str) -> Option<String> {
    let is_text = toml::de::DeTable::parse(&format!("x = {value}"))
        .is_ok_and(|table| table.get_ref().iter().all(|(_, value)| value.get_ref().is_str()));
    let bare = bare(value);
    (!is_text && !bare.is_empty() && !bare.starts_with(['[', '{'])).then(|| quoted(bare))
}

fn word<'w>(bare: &str, words: &[&'w str]) -> Option<(&'w str, bool)> {
    let near = nearest(bare, words.iter().copied());
    if let Some(first) = near.first() {
        return Some((first, near.len() == 1));
    }
    // `a4 paper` or `2`.
    let spelled = bare.parse().ok().and_then(count::word);
    let meant = |part: &str| words.iter().find(|word| word.eq_ignore_ascii_case(part)).copied();
    spelled.into_iter().chain(bare.split_whitespace()).find_map(meant).map(|word| (word, true))
}

/// Words with commas, semicolons, spaces or "and" between them, each once.
fn list(value: &str, words: &[&str]) -> Option<(String, bool)> {
    let inner = value.trim_matches(['[', ']', '(', ')', '{', '}', ' ']);
    let split = |mark: &[char]| -> Vec<String> {
        let parts = inner.split(mark).map(|part| bare(part.trim()).trim_start_matches("and ").to_owned());
        parts.filter(|part| !part.is_empty()).collect()
    };
    let (mut found, mut sure) = (Vec::new(), true);
    let mut parts = split(&[',', ';']);
    if let [one] = parts.as_slice()
        && word(one, words).is_none_or(|(word, _)| !word.eq_ignore_ascii_case(one))
    {
        parts = split(&[' ']);
        parts.retain(|part| part != "and");
    }
    for part in &parts {
        let (word, certain) = word(part, words)?;
        sure &= certain;
        if !found.contains(&word) {
            found.push(word);
        }
    }
    let texts: Vec<String> = found.iter().map(|word| quoted(word)).collect();
    (!texts.is_empty()).then(|| (format!("[{}]", texts.join(", ")), sure))
}

fn switch(bare: &str) -> Option<&'static str> {
    match bare.to_lowercase().as_str() {
        "true" | "yes" | "y" | "on" | "1" => Some("true"),
        "false" | "no" | "n" | "off" | "0" | "none" => Some("false"),
        _ => None,
    }
}

/// A length; one without a unit is taken for millimetres, which is a guess.
fn length(bare: &str) -> Option<(String, bool)> {
    let mut text: String = bare.to_lowercase();
    if let Some((whole, rest)) = text.split_once(',')
        && rest.starts_with(|c: char| c.is_ascii_digit())
    {
        text = format!("{whole}.{rest}");
    }
    let end = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
    let (number, unit) = (text[..end].trim(), text[end..].trim_end_matches('.'));
    let (unit, sure) = match unit {
        "" => ("mm", false),
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => ("mm", true),
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => ("cm", true),
        "in" | "inch" | "inches" => ("in", true),
        "pt" | "point" | "points" => ("pt", true),
        _ => return None,
    };
    let text = format!("{number} {unit}");
    Length::parse(&text).is_ok().then(|| (quoted(&text), sure))
}

/// A bundled font, or a path.
fn font(value: &str, words: &[&str]) -> Option<(String, bool)> {
    let bare = bare(value);
    let is_path = bare.rsplit_once('.').is_some_and(|(_, end)| matches!(end.to_lowercase().as_str(), "ttf" | "otf"));
    if is_path {
        line(value).map(|text| (text, true))
    } else {
        word(bare, words).map(|(word, sure)| (quoted(word), sure))
    }
}

/// Two numbers, the smaller one first, whatever stands around and between them.
fn range(bare: &str, limit: Limit) -> Option<String> {
    if has_minus(bare) {
        return None;
    }
    // 100.0 is 100.
    let bare = format!("{bare} ").replace(".0 ", " ").replace(".0,", ",").replace(".0]", "]");
    [true, false].into_iter().find_map(|grouped| match count::numbers(&bare, grouped).as_slice() {
        [one, other] if limit.allows(*one) && limit.allows(*other) => {
            Some(format!("[{}, {}]", one.min(other), one.max(other)))
        }
        _ => None,
    })
}

/// A number below 0, which no lesson has: not a dash between two numbers.
fn has_minus(text: &str) -> bool {
    let mut before = None;
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        if matches!(c, '-' | '\u{2212}')
            && chars.peek().is_some_and(char::is_ascii_digit)
            && before.is_none_or(|b| b == ',')
        {
            return true;
        }
        if !matches!(c, ' ' | '[' | '(' | '"') {
            before = Some(c);
        }
    }
    false
}

fn numbers(bare: &str, limit: Limit) -> Option<String> {
    if has_minus(bare) || bare.contains(['.', '{']) || bare.chars().any(char::is_alphabetic) {
        return None;
    }
    // A group that begins with a zero is no number of its own.
    let apart = count::numbers(bare, false);
    let split = bare.split(|c: char| !c.is_ascii_digit()).any(|digits| digits.len() == 3 && digits.starts_with('0'));
    let found = if split { count::numbers(bare, true) } else { apart };
    let fits = !found.is_empty() && found.iter().all(|value| limit.allows(*value));
    fits.then(|| format!("[{}]", found.iter().map(u64::to_string).collect::<Vec<_>>().join(", ")))
}

/// `at least 2`, `2 to 3`, `max 2`.
fn bound(bare: &str, limit: Limit) -> Option<String> {
    if has_minus(bare) || bare.contains('.') {
        return None;
    }
    let lower = bare.to_lowercase();
    let most = ["max", "at most", "up to", "<="].iter().any(|word| lower.contains(word));
    let found = count::numbers(bare, true);
    let fits = found.iter().all(|value| limit.allows(*value));
    match found.as_slice() {
        _ if !fits => None,
        [] => count::one(bare).filter(|value| limit.allows(*value)).map(|value| value.to_string()),
        [one] if most => Some(format!("{{ max = {one} }}")),
        [one] => Some(one.to_string()),
        [one, other] => Some(format!("{{ min = {}, max = {} }}", one.min(other), one.max(other))),
        _ => None,
    }
}
