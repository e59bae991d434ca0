//! Exit checks: every right answer worked out again from the numeral alone, every wrong one wrong for a reason.

use crate::support::explained::explained;
use crate::support::packets;
use crate::support::sentences::{sentences, word_count};
use crate::support::setup;
use std::collections::BTreeSet;

use placewright::lesson::Lesson;
use placewright::lesson::exit::{Check, Question, spread};
use placewright::number::{Content, Form, Number, Skill, Task};
use placewright::sheets::files::PacketKind;
use placewright::spec::{Given, Joiner, SheetKind, TextSize, Thousands};
use setup::{lesson, number, plain, spec};

/// The most words of a sentence on a learner's page.
const LONGEST: usize = 12;

/// A lesson about numbers of a range, with these exit numbers.
fn ranged(range: (u32, u32), exit: &[u32]) -> Lesson {
    let mut spec = spec(50, &[], &[], exit);
    spec.numbers.range = Given::assumed((number(range.0), number(range.1)));
    lesson(spec, &[], &[], exit).expect("a lesson")
}

/// The checks of a lesson whose numbers have as many digits as these.
fn checks(exit: &[u32]) -> Vec<Check> {
    let longest = exit.iter().max().expect("numbers").to_string().len() as u32;
    ranged((if longest == 1 { 0 } else { 10_u32.pow(longest - 1) }, 10_u32.pow(longest) - 1), exit).checks
}

/// The right answer in figures, worked out from the digits as text.
fn right(question: &Question) -> Option<String> {
    let digits = question.of.to_string();
    let from_right = |k: usize| digits.chars().rev().nth(k);
    match question.task {
        Task::Forms { asked: Form::Numeral, .. } | Task::Greater(_) => Some(digits),
        Task::Worth(place) => Some(format!("{}{}", from_right(place.index())?, "0".repeat(place.index()))),
        Task::Forms { asked: Form::Expanded, .. } => {
            let parts = digits.chars().enumerate().filter(|(_, c)| *c != '0');
            let parts = parts.map(|(k, c)| format!("{c}{}", "0".repeat(digits.len() - 1 - k)));
            Some(parts.collect::<Vec<_>>().join("+"))
        }
        Task::Forms { .. } => None,
    }
}

/// A content's figures and pluses: marks and spaces left out.
fn bare(content: &Content) -> String {
    match content {
        Content::Text(text) | Content::Both([text, _]) => {
            text.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect()
        }
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
    if let (Some(shown), Task::Forms { shown: Form::Blocks, .. }) = (&question.shown, question.task) {
        assert_eq!(bare(shown), of.to_string());
        assert_ne!(of, number(0), "a picture of nothing");
    }
    let Some(letter) = question.letter() else {
        assert!(question.choices.is_empty());
        return;
    };
    let chosen = &question.choices[(letter as u8 - b'A') as usize];
    assert_eq!(chosen.content, question.answer);
    assert_eq!(question.choices.iter().filter(|choice| choice.slip.is_none()).count(), 1);
    let contents: BTreeSet<String> = question.choices.iter().map(|choice| format!("{:?}", choice.content)).collect();
    assert_eq!(contents.len(), 3, "{of}: {:?}", question.choices);
    for (_, choice, slip) in question.wrong() {
        if let Task::Greater(other) = question.task {
            assert!(other < of && other.len() == of.len(), "{other} and {of}");
            assert!(slip.judges(of, other).is_some(), "{slip:?} of {of} and {other}");
        } else {
            assert_eq!(explained(question.task, of, &choice.content, &style()), Some(slip), "{of}: {choice:?}");
        }
    }
}

fn style() -> placewright::number::Style {
    placewright::lesson::style(&spec(50, &[], &[], &[1]))
}

#[test]
fn every_question_about_every_number_is_sound() {
    let mut asked = BTreeSet::new();
    let numbers: Vec<u32> = (0..=1_050).step_by(3).chain((1_051..=999_999).step_by(9_709)).collect();
    for three in numbers.chunks(3) {
        for check in checks(three) {
            assert!((1..=6).contains(&check.questions.len()));
            for question in &check.questions {
                holds(question);
                asked.insert(format!("{:?}", question.skill));
            }
        }
    }
    assert!(asked.len() >= 6, "{asked:?}");
}

#[test]
fn the_longest_words_stay_short_sentences() {
    for joiner in [Joiner::None, Joiner::And] {
        let numbers = [878_878, 777_777, 373_373, 111_111];
        let mut spec = spec(50, &[], &[], &numbers);
        spec.forms.joiner.value = joiner;
        spec.forms.thousands.value = Thousands::Space;
        for check in lesson(spec, &[], &[], &numbers).expect("a lesson").checks {
            for question in &check.questions {
                sentences(&question.sentence)
                    .for_each(|sentence| assert!(word_count(sentence) <= LONGEST, "{sentence}"));
            }
        }
    }
}

/// All numbers that stand on a question.
fn told(question: &Question) -> Vec<Number> {
    match question.task {
        Task::Greater(other) => vec![question.of, other],
        Task::Forms { .. } | Task::Worth(_) => vec![question.of],
    }
}

#[test]
fn a_check_answers_none_of_its_own_questions() {
    for numbers in [&[406][..], &[406, 640], &[406, 640, 911], &[383, 264, 617, 700, 905], &[14, 40]] {
        for check in checks(numbers) {
            for (k, question) in check.questions.iter().enumerate() {
                let others = check.questions.iter().enumerate().filter(|(other, _)| *other != k);
                for (_, other) in others {
                    let shared = told(other).iter().any(|number| told(question).contains(number));
                    assert!(!shared, "{numbers:?}: {question:?} and {other:?}");
                }
            }
        }
    }
}

#[test]
fn each_exit_number_is_asked_about_on_its_own_check() {
    let numbers = [406, 640, 911, 383];
    for (check, number) in checks(&numbers).iter().zip(numbers) {
        let asked = check.questions.iter().any(|question| question.of.value() == number);
        assert!(asked, "{number} is not on check {}: {check:?}", check.mark);
    }
}

#[test]
fn checks_are_equally_hard() {
    let lesson = ranged((100, 999), &[406, 640, 911, 383]);
    let (least, most) = spread(&lesson.checks, &lesson.style).expect("checks");
    // Blocks to build and letters to read, of about 80 and 130 in all.
    assert!(most.blocks - least.blocks <= 12 && most.letters - least.letters <= 20, "{least:?} to {most:?}");
}

#[test]
fn large_text_asks_less_and_the_lesson_decides_about_what() {
    let mut large = spec(50, &[], &[], &[406, 640]);
    large.numbers.range = Given::assumed((number(100), number(999)));
    large.print.text = Given::assumed(TextSize::Large);
    let lesson = lesson(large, &[], &[], &[406, 640]).expect("a lesson");
    assert!(lesson.checks.iter().all(|check| check.questions.len() == 4));

    // Teens: the words are teens, and no question needs a zero or a comparison that the range does not hold.
    let teens = ranged((11, 19), &[14, 17, 12, 19]);
    for question in teens.checks.iter().flat_map(|check| &check.questions) {
        assert!((11..=19).contains(&question.of.value()) && question.skill != Skill::Zero, "{question:?}");
    }
    // Only to 120: no number beyond it, right or shown.
    let low = ranged((0, 120), &[42, 38, 43]);
    for question in low.checks.iter().flat_map(|check| &check.questions) {
        assert!(told(question).iter().all(|number| number.value() <= 120), "{question:?}");
    }
}

#[test]
fn single_digits_are_written() {
    let lesson = ranged((0, 9), &[0, 7, 4]);
    for check in &lesson.checks {
        assert_eq!(check.questions.len(), 2, "{check:?}");
        assert!(check.questions.iter().all(|question| question.choices.is_empty()));
        check.questions.iter().for_each(holds);
    }
}

#[test]
fn the_right_answer_stands_under_every_letter() {
    for check in checks(&[406, 640, 911, 383, 505, 264]) {
        let letters: Vec<char> = check.questions.iter().filter_map(Question::letter).collect();
        for letter in ['A', 'B', 'C'] {
            assert_eq!(letters.iter().filter(|other| **other == letter).count(), letters.len() / 3, "{letters:?}");
        }
    }
    let all = checks(&[406, 640, 911]);
    for k in 0..all[0].questions.len() {
        let letters: BTreeSet<_> = all.iter().map(|check| check.questions[k].letter()).collect();
        assert_eq!(letters.len(), 3, "neighbours have their right answers under one letter");
    }
}

#[test]
fn without_exit_numbers_there_are_no_checks() {
    assert!(plain(50, &[406], &[], &[]).checks.is_empty());
}

/// All wrong choices of a lesson's checks: the question, what is chosen and the slip's name.
fn wrong_choices(numbers: &[u32]) -> Vec<(Question, Content, &'static str)> {
    let questions = checks(numbers).into_iter().flat_map(|check| check.questions);
    questions
        .flat_map(|q| {
            let wrong: Vec<_> = q.wrong().map(|(_, choice, slip)| (choice.content.clone(), slip.word())).collect();
            wrong.into_iter().map(move |(content, name)| (q.clone(), content, name))
        })
        .collect()
}

#[test]
fn a_digit_alone_is_face_value() {
    // 5 for the 5 in 2,351 and 1 for the 1 in 16 were once explained as a teen heard backwards.
    for numbers in [&[274, 532, 911, 406][..], &[2_351, 1_582, 4_076, 9_305], &[16, 47, 82, 35]] {
        for (question, content, name) in wrong_choices(numbers) {
            if let Task::Worth(place) = question.task
                && bare(&content) == question.of.digit(place).to_string()
            {
                assert_eq!(name, "digits at face value", "{}", question.sentence);
            }
        }
    }
}

#[test]
fn a_digit_is_never_worth_more_than_its_number_allows() {
    // "What is the 2 in 274 worth?" offered 2,000 and 200,000, and never 20.
    for (question, content, name) in wrong_choices(&[274, 532, 911, 406]) {
        if matches!(question.task, Task::Worth(_)) {
            assert!(
                bare(&content).parse::<u32>().expect("a numeral") < 1_000,
                "{name}: {content:?} in {}",
                question.of
            );
        }
    }
}

#[test]
fn a_picture_provokes_no_slip_of_words() {
    // 110033 stood beside 1 flat, 3 rods and 3 cubes.
    let heard = [
        "places not traded",
        "place word written out",
        "teen and ty confused",
        "teen reversed",
        "parts side by side",
        "big part, then rest",
        "half overwritten",
    ];
    for numbers in [&[133, 614, 406, 274][..], &[16, 47, 82, 35]] {
        for (question, content, name) in wrong_choices(numbers) {
            if matches!(question.shown, Some(Content::Blocks(_))) {
                assert!(!heard.contains(&name), "{name}: {content:?} for a picture of {}", question.of);
            }
        }
    }
}

#[test]
fn numbers_to_compare_share_their_digits() {
    // 13 stood against 76, and 201 against 210 was explained as a zero moved.
    let sorted = |text: &str| {
        let mut digits: Vec<char> = text.chars().collect();
        digits.sort_unstable();
        digits
    };
    for numbers in [&[67, 49, 82, 35][..], &[210, 467, 383, 911]] {
        let mut compared = 0;
        for (question, content, name) in wrong_choices(numbers) {
            if question.sentence.contains("greater") && content != question.answer && !bare(&content).is_empty() {
                compared += 1;
                assert_ne!(name, "zero moved");
                assert_eq!(sorted(&bare(&content)), sorted(&bare(&question.answer)), "{}", question.sentence);
            }
        }
        assert!(compared >= 4, "each check compares two numbers: {compared}");
    }
}

#[test]
fn every_learner_meets_the_same_skills_in_the_same_order() {
    let kinds = |numbers: &[u32]| {
        let kind = |q: &Question| (q.skill, q.choices.len());
        checks(numbers).iter().map(|check| check.questions.iter().map(kind).collect::<Vec<_>>()).collect::<Vec<_>>()
    };
    for numbers in [&[406, 640, 911, 383][..], &[14, 17, 12, 19], &[67, 76, 40, 55]] {
        let all = kinds(numbers);
        assert!(all.iter().all(|one| *one == all[0]), "{numbers:?}: {all:?}");
        assert!((4..=6).contains(&all[0].len()), "{numbers:?}: {all:?}");
        assert!(all[0].iter().all(|(_, choices)| *choices == 3), "{numbers:?}: {all:?}");
    }
}

#[test]
fn a_check_of_one_number_has_all_skills() {
    let one = checks(&[406]);
    assert!(one[0].questions.len() >= 4, "{one:?}");
}

/// "Quick check 12" is a long heading for a slip of large print: the date has a line of its own then.
#[test]
fn every_slip_has_a_line_for_the_date() {
    let family = setup::family();
    for (language, date) in [("en", "Date"), ("es", "Fecha")] {
        for paper in ["legal", "a4"] {
            let lesson = setup::planned(&format!(
                "title = \"Beans\"\nminutes = 40\nlanguage = \"{language}\"\npaper = \"{paper}\"\nseed = 3\n[numbers]\nrange = [10, 99]\nexit.count = 12\n\
                 [print]\ntext = \"large\"\n[sheets]\nmake = [\"exit\"]\n"
            ));
            let packet = packets::one(&lesson, &family, PacketKind::Teacher);
            let checks = || packet.pages.iter().filter(|page| page.sheet == SheetKind::Exit);
            let slips: usize = checks().flat_map(|page| &page.layers).map(|layer| layer.pieces.len()).sum();
            let dates = packets::texts(checks()).iter().filter(|text| *text == date).count();
            assert_eq!(dates, slips, "{language} {paper}");
        }
    }
}
