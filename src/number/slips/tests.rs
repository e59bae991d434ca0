//! Tests of the slips: the published wrong answers, what no slip may make, and the catalogue's own form.

use super::*;
use crate::wording::English;

const PLAIN: Style = Style { and: false, zero_terms: false, thousands: Some(','), names: &English };
const ZEROS: Style = Style { and: true, zero_terms: true, thousands: None, names: &English };

fn number(value: u32) -> Number {
    Number::new(value).expect("in range")
}

fn text(slip: Slip, value: u32, form: Form) -> Option<String> {
    match slip.wrong(number(value), form, &PLAIN)? {
        Content::Text(text) => Some(text),
        Content::Blocks(counts) => panic!("{counts:?} is no text"),
    }
}

/// One row of the table of wrong answers: `-` where the rule gives nothing, the right answer, or a leading zero.
#[track_caller]
fn row(slip: Slip, wants: [&str; 5]) {
    for (value, want) in [406, 640, 383, 264, 911].into_iter().zip(wants) {
        assert_eq!(text(slip, value, Form::Numeral).as_deref().unwrap_or("-"), want, "{slip:?} of {value}");
    }
}

// Wrong answers of the rules for three digits, as worked out for this project from the research that the catalogue names.
#[test]
fn published_rules() {
    row(Slip::SideBySide, ["4006", "60040", "300803", "200604", "900101"]);
    row(Slip::BigPartThenRest, ["4006", "60040", "30083", "20064", "90011"]);
    row(Slip::HalfOverwritten, ["-", "6040", "3083", "2064", "9011"]);
    row(Slip::PlaceWordWritten, ["41006", "610040", "310083", "210064", "910011"]);
    row(Slip::ZeroDropped, ["46", "64", "-", "-", "-"]);
    row(Slip::ZeroMoved, ["460", "604", "-", "-", "-"]);
    row(Slip::TensOnesSwapped, ["460", "604", "338", "246", "-"]);
    row(Slip::HundredsTensSwapped, ["-", "460", "833", "624", "191"]);
    row(Slip::Reversed, ["604", "-", "-", "462", "119"]);
    row(Slip::FaceValue, ["10", "10", "14", "12", "11"]);
    row(Slip::NotTraded, ["3106", "5140", "2183", "1164", "8111"]);
    row(Slip::ReadInPieces, ["-", "-", "-", "-", "-"]);
    row(Slip::TeenTy, ["-", "614", "-", "-", "-"]);
    row(Slip::TeenReversed, ["-", "-", "-", "-", "-"]);
}

// The researchers' own examples: Power and Dal Martello 1990 and 1997; Byrge, Smith and Mix 2014; NSW numeracy continuum.
#[test]
fn published_examples() {
    let numeral = |slip, value| text(slip, value, Form::Numeral).unwrap_or_default();
    assert_eq!(numeral(Slip::BigPartThenRest, 365), "30065");
    assert_eq!(numeral(Slip::HalfOverwritten, 365), "3065");
    assert_eq!(numeral(Slip::SideBySide, 642), "600402");
    assert_eq!(numeral(Slip::PlaceWordWritten, 642), "610042");
    assert_eq!(text(Slip::ReadInPieces, 834, Form::Words).as_deref(), Some("eighty thirty-four"));
    assert_eq!(numeral(Slip::TeenReversed, 617), "671");
    assert_eq!([13, 31, 14, 41].map(|n| numeral(Slip::TeenReversed, n)), ["31", "13", "41", "14"]);
    assert_eq!([640, 614, 13, 30].map(|n| numeral(Slip::TeenTy, n)), ["614", "640", "30", "13"]);
}

#[test]
fn other_lengths() {
    let numeral = |slip, value| text(slip, value, Form::Numeral).unwrap_or_else(|| "-".to_owned());
    assert_eq!(numeral(Slip::SideBySide, 46), "406");
    assert_eq!(numeral(Slip::SideBySide, 1_206), "10,002,006");
    assert_eq!(numeral(Slip::SideBySide, 12_040), "1,200,040");
    assert_eq!(numeral(Slip::BigPartThenRest, 406_383), "406,000,383");
    assert_eq!(numeral(Slip::HalfOverwritten, 1_206), "10,206");
    assert_eq!(numeral(Slip::PlaceWordWritten, 1_206), "11,000,206");
    assert_eq!(numeral(Slip::PlaceWordWritten, 400), "4100");
    assert_eq!(numeral(Slip::PlaceWordWritten, 46), "-");
    assert_eq!(numeral(Slip::ZeroDropped, 1_005), "15");
    assert_eq!(numeral(Slip::ZeroMoved, 1_200), "1,020");
    assert_eq!(numeral(Slip::ZeroMoved, 400), "-");
    assert_eq!(numeral(Slip::PlaceWordWritten, 1_000), "11,000");
    assert_eq!([400, 40, 4].map(|n| numeral(Slip::BigPartThenRest, n)), ["-", "-", "-"]);
    assert_eq!([46, 10, 4].map(|n| numeral(Slip::FaceValue, n)), ["10", "1", "-"]);
    assert_eq!(numeral(Slip::NotTraded, 46), "316");
    assert_eq!(numeral(Slip::NotTraded, 146), "-");
    assert_eq!(numeral(Slip::NotTraded, 2_006), "11,006");
    assert_eq!(numeral(Slip::TeenTy, 13_205), "30,205");
    assert_eq!(numeral(Slip::Reversed, 406_383), "383,604");
}

#[test]
fn other_forms() {
    assert_eq!(text(Slip::ZeroDropped, 640, Form::Words).as_deref(), Some("sixty-four"));
    assert_eq!(text(Slip::ZeroDropped, 406, Form::Units).as_deref(), Some("4 tens 6 ones"));
    assert_eq!(text(Slip::SideBySide, 406, Form::Expanded), None);
    assert_eq!(text(Slip::FaceValue, 406, Form::Words).as_deref(), Some("four zero six"));
    assert_eq!(text(Slip::FaceValue, 406, Form::Expanded).as_deref(), Some("4 + 6"));
    assert_eq!(text(Slip::FaceValue, 416, Form::Units).as_deref(), Some("4 ones 1 one 6 ones"));
    let blocks = |slip: Slip, value| slip.wrong(number(value), Form::Blocks, &PLAIN);
    assert_eq!(blocks(Slip::FaceValue, 989), Some(Content::Blocks([0, 0, 0, 26])));
    assert_eq!(blocks(Slip::ZeroMoved, 406), Some(Content::Blocks([0, 4, 6, 0])));
    assert_eq!(blocks(Slip::TensOnesSwapped, 12_345), None);
}

// Digits that change places are rare where number words run from left to right (Steiner et al. 2021).
#[test]
fn inversions_are_rare() {
    let rare: Vec<&str> = Slip::all().filter(|slip| slip.is_rare()).map(Slip::name).collect();
    assert_eq!(rare, ["tens and ones swapped", "hundreds and tens swapped", "digits reversed"]);
}

#[test]
fn never_right_and_never_a_leading_zero() {
    for value in (0..=1_100).chain((1_101..=9_999).step_by(7)).chain((10_000..=999_999).step_by(4_973)) {
        let number = number(value);
        for (slip, form) in Slip::all().flat_map(|slip| Form::ALL.map(|form| (slip, form))) {
            for style in [PLAIN, ZEROS] {
                let Some(wrong) = slip.wrong(number, form, &style) else { continue };
                assert_ne!(Some(&wrong), form.content(number, &style).as_ref(), "{slip:?} of {value}");
                assert_ne!(wrong.worth(form), Some(u64::from(value)), "{slip:?} of {value}");
                if let (Content::Text(text), Form::Numeral) = (&wrong, form) {
                    assert!(!text.starts_with('0') && text.len() <= 15, "{slip:?} of {value}: {text}");
                }
            }
        }
    }
}

#[test]
fn every_slip_makes_something() {
    for slip in Slip::all() {
        let fires = |value| Form::ALL.iter().any(|&form| slip.wrong(number(value), form, &PLAIN).is_some());
        assert!((100..=999).any(fires), "{slip:?} makes nothing of three digits");
        assert!((10_000..=20_000).any(fires) || slip == Slip::ReadInPieces, "{slip:?} makes nothing of five digits");
    }
}

#[test]
fn the_catalogue_is_complete() {
    for (at, slip) in Slip::all().enumerate() {
        assert_eq!(slip as usize, at, "{slip:?} is out of order");
        assert!(Slip::all().take(at).all(|other| other.name() != slip.name() && other.thinking() != slip.thinking()));
        assert!(slip.name().split(' ').count() <= 4, "{}", slip.name());
        assert_eq!(slip.name(), slip.name().to_lowercase());
        for sentence in [slip.thinking(), slip.next_step()] {
            let is_sentence = sentence.starts_with(char::is_uppercase) && sentence.ends_with('.');
            assert!(is_sentence && sentence.matches('.').count() == 1, "{sentence}");
            assert!(sentence.split(' ').count() <= 22, "{sentence}");
        }
        assert!(!slip.source().is_empty());
    }
}
