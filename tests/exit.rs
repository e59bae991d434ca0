//! Exit checks: every right answer worked out again from the numeral alone, every wrong one wrong for a reason.

use crate::support::setup;
use std::collections::BTreeSet;

use placewright::lesson::exit::{Ask, Question, checks};
use placewright::lesson::say::{sentences, word_count};
use placewright::number::{Content, Form};
use placewright::spec::{Joiner, Thousands};
use setup::{lesson, plain, spec};

/// The most words of a sentence on a learner's page.
const LONGEST: usize = 12;

/// The right answer in figures, worked out from the digits as text.
fn right(question: &Question) -> Option<String> {
    let digits = question.of.to_string();
    let from_right = |k: usize| digits.chars().rev().nth(k);
    match question.ask {
        Ask::Match { wanted: Form::Numeral, .. } | Ask::Greater => Some(digits),
        Ask::Worth(place) => Some(format!("{}{}", from_right(place.index())?, "0".repeat(place.index()))),
        Ask::Digit(place) => from_right(place.index()).map(String::from),
        Ask::Match { wanted: Form::Expanded, .. } => {
            let parts = digits.chars().enumerate().filter(|(_, c)| *c != '0');
            let parts = parts.map(|(k, c)| format!("{c}{}", "0".repeat(digits.len() - 1 - k)));
            Some(parts.collect::<Vec<_>>().join("+"))
        }
        Ask::Match { .. } => None,
    }
}

/// A content's figures and pluses: marks and spaces left out.
fn bare(content: &Content) -> String {
    match content {
        Content::Text(text) => text.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect(),
        Content::Blocks(counts) => counts
            .iter()
            .rev()
            .enumerate()
            .map(|(k, n)| n * 10_u32.pow(u32::try_from(k).expect("few")))
            .sum::<u32>()
            .to_string(),
    }
}

#[track_caller]
fn holds(question: &Question) {
    let of = question.of;
    for sentence in sentences(&question.sentence) {
        assert!(word_count(sentence) <= LONGEST, "{sentence}");
    }
    if let Some(right) = right(question) {
        assert_eq!(bare(&question.answer), right, "{of}: {}", question.sentence);
    }
    if let (Some(shown), Ask::Match { given: Form::Blocks, .. }) = (&question.shown, question.ask) {
        assert_eq!(bare(shown), of.to_string());
    }
    let Some(letter) = question.letter() else {
        assert!(question.choices.is_empty());
        return;
    };
    let chosen = &question.choices[(letter as u8 - b'A') as usize];
    assert_eq!(chosen.content, question.answer);
    assert_eq!(question.choices.iter().filter(|choice| choice.slip.is_none()).count(), 1);
    let contents: BTreeSet<String> = question.choices.iter().map(|choice| format!("{:?}", choice.content)).collect();
    assert_eq!(contents.len(), question.choices.len(), "{of}: two choices alike: {:?}", question.choices);
    let least = if question.ask == Ask::Greater { 2 } else { 3 };
    assert!((least..=4).contains(&question.choices.len()), "{of}: {:?}", question.choices);
    for (_, choice, slip) in question.wrong() {
        assert!(!slip.name().is_empty());
        if question.ask == Ask::Greater {
            let other: u32 = bare(&choice.content).parse().expect("a numeral");
            assert!(other < of.value() && bare(&choice.content).len() == of.to_string().len(), "{other} and {of}");
        }
    }
}

#[test]
fn every_question_about_every_number_is_sound() {
    let mut asked = BTreeSet::new();
    let numbers: Vec<u32> = (0..=1_050).chain((1_051..=999_999).step_by(1_709)).collect();
    for three in numbers.chunks(3) {
        for check in checks(&plain(50, &[], &[], three)) {
            assert!((1..=3).contains(&check.questions.len()));
            for question in &check.questions {
                holds(question);
                asked.insert(format!("{:?}", question.ask));
            }
        }
    }
    assert!(asked.len() > 12, "{asked:?}");
}

#[test]
fn the_longest_words_stay_short_sentences() {
    for joiner in [Joiner::None, Joiner::And] {
        let numbers = [878_878, 777_777, 373_373, 111_111];
        let mut spec = spec(50, &[], &[], &numbers);
        spec.forms.joiner.value = joiner;
        spec.forms.thousands.value = Thousands::Space;
        for check in checks(&lesson(spec, &[], &[], &numbers).expect("a lesson")) {
            check.questions.iter().for_each(holds);
        }
    }
}

#[test]
fn a_check_answers_none_of_its_own_questions() {
    for numbers in [&[406][..], &[406, 640], &[406, 640, 911], &[383, 264, 617, 700, 905]] {
        for check in checks(&plain(50, &[], &[], numbers)) {
            for question in &check.questions {
                let asks_numeral = matches!(question.ask, Ask::Match { wanted: Form::Numeral, .. });
                let elsewhere = check.questions.iter().filter(|other| other.of == question.of).count() > 1;
                assert!(!(asks_numeral && elsewhere), "{numbers:?}: {check:?}");
            }
        }
    }
}

#[test]
fn checks_are_built_alike_and_go_both_ways() {
    let all = checks(&plain(50, &[], &[], &[406, 640, 911, 383]));
    assert_eq!(all.len(), 4);
    for check in &all {
        let count = |kind: fn(Ask) -> bool| check.questions.iter().filter(|q| kind(q.ask)).count();
        assert_eq!(count(|ask| matches!(ask, Ask::Match { given: Form::Numeral, .. })), 1, "{check:?}");
        assert_eq!(count(|ask| matches!(ask, Ask::Match { wanted: Form::Numeral, .. })), 1, "{check:?}");
        assert_eq!(count(|ask| matches!(ask, Ask::Worth(_) | Ask::Digit(_) | Ask::Greater)), 1, "{check:?}");
    }
    assert!(all.iter().any(|check| check.questions.iter().any(|q| matches!(q.shown, Some(Content::Blocks(_))))));
}

#[test]
fn the_zero_of_406_is_seen_through_the_slips() {
    // Research on numbers with zeros (references.md, section 4): the zero is dropped, and the 4 then stands for 40.
    let one = checks(&plain(50, &[], &[], &[406]));
    let worth = one[0].questions.iter().find(|q| matches!(q.ask, Ask::Worth(_))).expect("a digit's worth");
    let wrong: Vec<_> = worth.wrong().map(|(_, choice, slip)| (bare(&choice.content), slip.name())).collect();
    assert!(wrong.contains(&("40".to_owned(), "zero dropped")), "{wrong:?}");
    assert!(wrong.contains(&("4".to_owned(), "digits at face value")), "{wrong:?}");
}

#[test]
fn the_right_answer_stands_under_every_letter() {
    // Chi-square with 3 degrees of freedom, 0.001 level: 16.266 (NIST/SEMATECH table; value from memory).
    let numbers: Vec<u32> = (101..=500).collect();
    let mut counts = [0.0_f64; 4];
    for check in checks(&plain(50, &[], &[], &numbers)) {
        for question in check.questions.iter().filter(|q| q.choices.len() == 4) {
            counts[(question.letter().expect("choices") as u8 - b'A') as usize] += 1.0;
        }
    }
    let expected = counts.iter().sum::<f64>() / 4.0;
    let chi: f64 = counts.iter().map(|count| (count - expected).powi(2) / expected).sum();
    assert!(expected > 50.0 && chi < 16.266, "{counts:?}");
}

#[test]
fn without_exit_numbers_there_are_no_checks() {
    assert!(checks(&plain(50, &[406], &[], &[])).is_empty());
}
