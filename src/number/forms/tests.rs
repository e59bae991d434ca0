//! Tests of the forms: conventions, marks, worths, and what a listener hears.

use super::*;
use crate::wording::{English, Spanish};

const PLAIN: Style = Style::plain(&English);
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

// Invariants of the expanded form: terms sum to n; as many as non-zero digits; they fall.
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
                assert_eq!(content.worth(form, &English), Some(u64::from(value)), "{content:?}");
            }
        }
    }
}

#[test]
fn a_listener_hears_no_marks() {
    let aloud = |form: Form, value| form.content(number(value), &PLAIN).unwrap().aloud(&English);
    assert_eq!(aloud(Form::Expanded, 1_206), "1000 plus 200 plus 6");
    assert_eq!(aloud(Form::Blocks, 1_021), "1 thousand-block, 2 rods, 1 cube");
    assert_eq!(aloud(Form::Blocks, 0), "no blocks");
    assert_eq!(Content::Text("1,206".to_owned()).text(&English), "1,206");
    let verbose = Style { and: true, ..PLAIN };
    let words = Content::Text(verbose.words(number(100_100)));
    assert_eq!(words.aloud(&English), "one hundred thousand, one hundred");
}

#[test]
fn words_of_forms_are_unique() {
    for (k, form) in Form::ALL.iter().enumerate() {
        assert!(Form::ALL[..k].iter().all(|f| f.word() != form.word()));
    }
}

// A style in the second language says what a lesson in that language says, and knows no other.
#[test]
fn the_second_language_by_itself() {
    let two = Style { second: Some(&Spanish), both: true, and: true, zero_terms: true, ..PLAIN };
    let alone = two.in_second().expect("a second language");
    let spanish = Style { and: true, zero_terms: true, ..Style::plain(&Spanish) };
    for form in Form::ALL {
        assert_eq!(form.content(number(1_406), &alone), form.content(number(1_406), &spanish), "{form:?}");
    }
    let words = Form::Words.content(number(1_406), &two);
    assert_eq!(words, Some(Content::Both([two.words(number(1_406)), alone.words(number(1_406))])));
    assert!(alone.in_second().is_none() && PLAIN.in_second().is_none());
}
