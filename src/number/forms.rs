//! The five forms of a number, as they are written on a page.
//!
//! In: a [`Number`] and the lesson's [`Style`]. Out: a [`Content`]: a line of text, or how many blocks of each kind.
//! Conventions: a place that holds 0 gives no term in expanded form unless the style asks for it (common practice, no
//! source); unit form always says every place that the numeral shows, as the example of CCSSM 2.NBT.A.1 does
//! (7 hundreds, 0 tens, 6 ones).

use std::fmt;

use super::{Names, Number, Place};

/// One way to show a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Form {
    /// 406
    Numeral,
    /// four hundred six
    Words,
    /// 400 + 6
    Expanded,
    /// 4 hundreds 0 tens 6 ones
    Units,
    /// the picture of flats, rods and cubes
    Blocks,
}

impl Form {
    /// All forms.
    pub const ALL: [Self; 5] = [Self::Numeral, Self::Words, Self::Expanded, Self::Units, Self::Blocks];

    /// The word in lesson files and in `contents.json`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Numeral => "numeral",
            Self::Words => "words",
            Self::Expanded => "expanded",
            Self::Units => "units",
            Self::Blocks => "blocks",
        }
    }

    /// The heading of its column on a learner's page.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Numeral => "Numeral",
            Self::Words => "Words",
            Self::Expanded => "Expanded form",
            Self::Units => "Unit form",
            Self::Blocks => "Blocks",
        }
    }

    /// The number in this form. Returns `None` only for blocks above 9,999.
    pub fn content(self, number: Number, style: &Style) -> Option<Content> {
        Some(match self {
            Self::Numeral => Content::Text(style.numeral(number)),
            Self::Words => Content::Text(style.words(number)),
            Self::Expanded => Content::Text(style.expanded(number)),
            Self::Units => Content::Text(style.units(number)),
            Self::Blocks => Content::Blocks(blocks(number)?),
        })
    }
}

/// How forms are written, for the whole lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Style {
    /// `true`: four hundred **and** six.
    pub and: bool,
    /// `true`: 400 **+ 0** + 6, in expanded form. Unit form says its zeros always.
    pub zero_terms: bool,
    /// What stands between thousands and hundreds: `Some(',')`, `Some('\u{202f}')` or `None`.
    pub thousands: Option<char>,
    /// What numbers, places and blocks are called.
    pub names: &'static dyn Names,
}

impl Style {
    /// 406; from 1,000 up with the thousands mark.
    pub fn numeral(&self, number: Number) -> String {
        self.grouped(&number.to_string())
    }

    /// Four hundred six, in small letters: as the language spells it.
    pub fn words(&self, number: Number) -> String {
        self.names.cardinal(number.value(), self.and)
    }

    /// 400 + 6; a single digit, 0 among them, is its own expanded form.
    pub fn expanded(&self, number: Number) -> String {
        let terms = number.digits().filter(|&(_, digit)| digit != 0 || self.zero_terms);
        let terms: Vec<String> =
            terms.map(|(place, digit)| self.grouped(&(u32::from(digit) * place.worth()).to_string())).collect();
        if terms.is_empty() { "0".to_owned() } else { terms.join(" + ") }
    }

    /// 4 hundreds 0 tens 6 ones: every place that the numeral shows.
    pub fn units(&self, number: Number) -> String {
        let units: Vec<String> = number.digits().map(|(place, digit)| counted(u32::from(digit), place)).collect();
        units.join(" ")
    }

    /// Bare digits with the thousands mark between each three, counted from the right.
    pub(super) fn grouped(&self, digits: &str) -> String {
        let Some(mark) = self.thousands else { return digits.to_owned() };
        let mut text = String::new();
        for (at, digit) in digits.chars().enumerate() {
            if at > 0 && (digits.len() - at).is_multiple_of(3) {
                text.push(mark);
            }
            text.push(digit);
        }
        text
    }
}

/// "1 ten", "4 hundreds", "0 ones": so many of a place.
pub fn counted(count: u32, place: Place) -> String {
    format!("{count} {}", if count == 1 { place.singular() } else { place.words() })
}

/// How many thousands, flats, rods and cubes show the number with the fewest pieces. Returns `None` above 9,999.
fn blocks(number: Number) -> Option<[u32; 4]> {
    let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
    (number <= Number::MAX_BLOCKS).then(|| places.map(|place| u32::from(number.digit(place))))
}

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
        match (self, form) {
            (Self::Text(text), Form::Numeral) => read_numeral(text),
            (Self::Text(text), Form::Expanded) => text.split(" + ").map(read_numeral).sum(),
            (Self::Text(text), Form::Units) => read_units(text),
            (Self::Blocks(counts), Form::Blocks) => {
                Some(counts.iter().zip([1_000, 100, 10, 1]).map(|(&count, worth)| u64::from(count) * worth).sum())
            }
            _ => None,
        }
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

/// The worth of digits with or without thousands marks.
fn read_numeral(text: &str) -> Option<u64> {
    let digits: String = text.chars().filter(|c| !matches!(c, ',' | '\u{202f}')).collect();
    digits.parse().ok()
}

/// The worth of "4 hundreds 0 tens 6 ones".
fn read_units(text: &str) -> Option<u64> {
    let mut sum = 0;
    let mut rest = text;
    while !rest.is_empty() {
        let (count, after) = rest.split_once(' ')?;
        let count: u64 = count.parse().ok()?;
        let end = after.find(|c: char| c.is_ascii_digit()).unwrap_or(after.len());
        let name = after[..end].trim_end();
        let place =
            Place::ALL.into_iter().find(|place| name == if count == 1 { place.singular() } else { place.words() })?;
        sum += count * u64::from(place.worth());
        rest = &after[end..];
    }
    Some(sum)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::English;

    const PLAIN: Style = Style { and: false, zero_terms: false, thousands: Some(','), names: &English };
    const ZEROS: Style = Style { zero_terms: true, ..PLAIN };

    fn number(value: u32) -> Number {
        Number::new(value).expect("in range")
    }

    #[track_caller]
    fn case(value: u32, numeral: &str, expanded: &str, with_zeros: &str, units: &str) {
        let number = number(value);
        assert_eq!(PLAIN.numeral(number), numeral);
        assert_eq!(PLAIN.expanded(number), expanded);
        assert_eq!(ZEROS.expanded(number), with_zeros);
        assert_eq!(PLAIN.units(number), units);
        assert_eq!(ZEROS.units(number), units);
    }

    // Zero said in unit form: CCSSM 2.NBT.A.1; zero left out of expanded form, singular "1 ten": common practice, no source.
    #[test]
    fn conventions() {
        case(0, "0", "0", "0", "0 ones");
        case(7, "7", "7", "7", "7 ones");
        case(10, "10", "10", "10 + 0", "1 ten 0 ones");
        case(406, "406", "400 + 6", "400 + 0 + 6", "4 hundreds 0 tens 6 ones");
        case(640, "640", "600 + 40", "600 + 40 + 0", "6 hundreds 4 tens 0 ones");
        case(911, "911", "900 + 10 + 1", "900 + 10 + 1", "9 hundreds 1 ten 1 one");
        case(1_000, "1,000", "1,000", "1,000 + 0 + 0 + 0", "1 thousand 0 hundreds 0 tens 0 ones");
        case(
            406_383,
            "406,383",
            "400,000 + 6,000 + 300 + 80 + 3",
            "400,000 + 0 + 6,000 + 300 + 80 + 3",
            "4 hundred thousands 0 ten thousands 6 thousands 3 hundreds 8 tens 3 ones",
        );
    }

    #[test]
    fn thousands_marks() {
        let with = |thousands| Style { thousands, ..PLAIN };
        assert_eq!(with(Some('\u{202f}')).numeral(number(1_010)), "1\u{202f}010");
        assert_eq!(with(Some('\u{202f}')).expanded(number(123_456)).split(" + ").next(), Some("100\u{202f}000"));
        assert_eq!(with(None).numeral(number(406_383)), "406383");
        assert_eq!(with(None).expanded(number(2_040)), "2000 + 40");
    }

    // Invariants of the expanded form: references for issue 2, "terms sum to n; as many as non-zero digits; they fall".
    #[test]
    fn expanded_terms_sum_to_the_number() {
        for value in (0..=9_999).chain((10_000..=999_999).step_by(991)) {
            let text = PLAIN.expanded(number(value)).replace(',', "");
            let terms: Vec<u32> = text.split(" + ").map(|term| term.parse().unwrap()).collect();
            assert_eq!(terms.iter().sum::<u32>(), value);
            let digits = value.to_string();
            assert_eq!(terms.len(), digits.chars().filter(|c| *c != '0').count().max(1), "{value}");
            assert!(terms.is_sorted_by(|a, b| a > b), "{value}");
            assert!(terms.iter().all(|t| t.to_string()[1..].chars().all(|c| c == '0')), "{value}");
            assert_eq!(ZEROS.expanded(number(value)).split(" + ").count(), digits.len());
        }
    }

    #[test]
    fn every_form_is_worth_its_number() {
        for value in (0..=9_999).chain((10_000..=999_999).step_by(991)) {
            for form in [Form::Numeral, Form::Expanded, Form::Units, Form::Blocks] {
                let content = form.content(number(value), &ZEROS);
                assert_eq!(content.is_none(), form == Form::Blocks && value > 9_999);
                if let Some(content) = content {
                    assert_eq!(content.worth(form), Some(u64::from(value)), "{content:?}");
                }
            }
        }
    }

    #[test]
    fn a_listener_hears_no_marks() {
        let aloud = |form: Form, value| form.content(number(value), &PLAIN).unwrap().aloud();
        assert_eq!(aloud(Form::Expanded, 1_206), "1000 plus 200 plus 6");
        assert_eq!(aloud(Form::Blocks, 1_021), "1 thousand block, 2 rods, 1 cube");
        assert_eq!(aloud(Form::Blocks, 0), "no blocks");
        assert_eq!(Content::Text("1,206".to_owned()).to_string(), "1,206");
        let verbose = Style { and: true, ..PLAIN };
        let words = Content::Text(verbose.words(number(100_100)));
        assert_eq!(words.aloud(), "one hundred thousand, one hundred");
    }

    #[test]
    fn words_of_forms_are_unique() {
        for (k, form) in Form::ALL.iter().enumerate() {
            assert!(Form::ALL[..k].iter().all(|f| f.word() != form.word() && f.heading() != form.heading()));
        }
    }
}
