//! Small groups: every slip gets three fresh numbers that show it, and words that fit them.

use std::collections::BTreeSet;

use placewright::lesson::Lesson;
use placewright::lesson::groups::{SlipLesson, Trial, has_it, lessons};
use placewright::number::{Form, Slip, Task};
use placewright::spec::{Given, SheetKind, Spec};

use crate::support::explained::explained;
use crate::support::in_play;
use crate::support::sentences::{sentences, word_count};
use crate::support::setup::{lesson, number, spec};

/// The most words in a sentence that a teacher reads at a glance.
const LONGEST: usize = 24;

/// A lesson of a range with every slip of the catalogue in play.
fn all_slips(range: (u32, u32), model: &[u32]) -> Lesson {
    let mut spec: Spec = spec(50, model, &[], &[]);
    spec.numbers.range = Given::assumed((number(range.0), number(range.1)));
    let mut lesson = lesson(spec, model, &[], &[]).expect("a lesson");
    lesson.slips = in_play::all();
    lesson
}

#[track_caller]
fn shows(lesson: &Lesson, slip: Slip, trial: &Trial) {
    let Trial { of, task, right, wrong } = trial;
    assert_eq!(task.right(*of, &lesson.style).as_ref(), Some(right));
    match (task, wrong) {
        (Task::Greater(other), _) => {
            assert!(slip.judges(*of, *other).is_some(), "{slip:?}: {trial:?}");
            assert_eq!(right.worth(Form::Numeral, lesson.style.names), Some(u64::from((*of).max(*other).value())));
        }
        (_, Some(wrong)) => assert_eq!(explained(*task, *of, wrong, &lesson.style), Some(slip), "{trial:?}"),
        (_, None) => panic!("{slip:?}: {trial:?}"),
    }
}

/// The lessons of a class without groups.
fn whole(lesson: &Lesson) -> Vec<SlipLesson> {
    lessons(lesson, &lesson.whole())
}

/// Everything a group is told, apart from the numbers of its table.
fn told(lesson: &Lesson, group: &SlipLesson) -> Vec<String> {
    let (words, step) = (lesson.wording(), group.step(&lesson.style).expect("numbers"));
    vec![
        words.group_build(&step),
        words.group_question(&step),
        words.group_answer(&step),
        words.group_try(step.task, group.tools_of_each, false),
        words.group_gone(group.slip, group.tools),
    ]
}

#[test]
fn groups_work_with_what_the_lesson_has() {
    let pieces = ["mat", "mats", "rod", "rods", "cube", "cubes", "flat", "flats", "card", "cards", "blocks"];
    for range in [(10, 99), (100, 999), (10_000, 99_999)] {
        let mut lesson = all_slips(range, &[406]);
        lesson.spec.sheets.make.value = vec![SheetKind::Board, SheetKind::Strips, SheetKind::Exit, SheetKind::Key];
        for group in whole(&lesson) {
            let told = told(&lesson, &group).join(" ");
            let words: BTreeSet<&str> = told.split(|c: char| !c.is_alphabetic()).collect();
            assert!(pieces.iter().all(|piece| !words.contains(piece)), "{:?}: {told}", group.slip);
        }
    }
    let lesson = all_slips((10, 99), &[13]);
    // Some slips need three digits to show.
    for group in whole(&lesson).iter().filter(|group| group.trials[0].of < number(100)) {
        let told = told(&lesson, group).join(" ");
        assert!(!told.contains("flat") && !told.contains("hundred"), "{:?}: {told}", group.slip);
    }
}

#[test]
fn riddles_have_two_answers() {
    for range in [(10, 99), (0, 120), (10, 20), (100, 320), (100, 999)] {
        for seed in 1..=20 {
            let mut lesson = all_slips(range, &[13]);
            lesson.spec.seed = Given::assumed(seed);
            let numbers = has_it(&lesson, &lesson.whole());
            assert!(!numbers.is_empty());
            for (task, answer) in lesson.wording().has_it_tasks(&numbers, &lesson.style) {
                let (greatest, least) = answer.split_once(" and ").expect("two numbers");
                assert_ne!(greatest, least, "{task}");
            }
        }
    }
}

#[test]
fn every_slip_has_three_fresh_numbers_that_show_it() {
    for range in [(100, 999), (0, 120), (10, 99), (1_000, 9_999), (2_000, 2_600)] {
        let lesson = all_slips(range, &[406, 13]);
        let groups = whole(&lesson);
        assert_eq!(groups.len(), Slip::all().filter(|slip| slip.only() != Some("es")).count());
        for group in &groups {
            let numbers: BTreeSet<_> = group.trials.iter().map(|trial| trial.of).collect();
            // Two of the range are better than a third outside.
            let inside = group.trials.iter().all(|trial| (range.0..=range.1).contains(&trial.of.value()));
            assert!(numbers.len() == 3 || numbers.len() == 2 && inside, "{range:?}: {group:?}");
            assert!(!numbers.contains(&number(406)) && !numbers.contains(&number(13)), "{range:?}: {group:?}");
            group.trials.iter().for_each(|trial| shows(&lesson, group.slip, trial));
        }
    }
}

#[test]
fn numbers_stay_in_the_range_where_it_has_them() {
    for range in [(100, 999), (1_000, 9_999)] {
        for group in whole(&all_slips(range, &[406])) {
            let inside = |trial: &Trial| (range.0..=range.1).contains(&trial.of.value());
            assert!(group.trials.iter().all(inside), "{range:?}: {group:?}");
        }
    }
}

#[test]
fn what_is_asked_fits_the_number() {
    let mut said = 0;
    for range in [(100, 999), (10, 99), (0, 120), (1_000, 9_999), (10_000, 99_999)] {
        let lesson = all_slips(range, &[406]);
        for group in whole(&lesson).iter().filter(|group| !group.trials.is_empty()) {
            for text in told(&lesson, group) {
                assert!(sentences(&text).all(|sentence| word_count(sentence) <= LONGEST), "{:?}: {text}", group.slip);
                assert!(text.ends_with(['.', '?']) && !text.contains("  ") && !text.contains(".."), "{text}");
                for wrong in ["1 rods", "1 flats", "1 cubes", "1 tens", "0 rods", " and and"] {
                    assert!(!format!(" {text}").contains(&format!(" {wrong}")), "{:?}: {text}", group.slip);
                }
                said += 1;
            }
            // The number that is right stands in the answer, or the words or the worth that the question is about.
            let first = &group.trials[0];
            let answer = &told(&lesson, group)[2];
            let numeral = lesson.style.numeral(first.of);
            let digits = first.of.digits().map(|(_, digit)| digit.to_string()).collect::<Vec<_>>();
            let names = answer.contains(&numeral) || digits.iter().any(|digit| answer.contains(digit.as_str()));
            assert!(names || group.slip == Slip::FromTheOnes, "{:?} of {numeral}: {answer}", group.slip);
        }
    }
    assert!(said > 350, "{said}");
}

#[test]
fn those_who_have_it_get_riddles_with_right_answers() {
    let lesson = all_slips((100, 999), &[406]);
    let numbers = has_it(&lesson, &lesson.whole());
    assert_eq!(numbers.len(), 3);
    for ((_, answer), of) in lesson.wording().has_it_tasks(&numbers, &lesson.style).iter().zip(numbers) {
        let figures: Vec<u32> = answer.split(" and ").map(|text| text.parse().expect("a numeral")).collect();
        let mut all: Vec<char> = of.to_string().chars().collect();
        all.sort_unstable();
        // All orders of three digits, worked out by hand; none that begins with 0 is a number of three digits.
        let mut orders = Vec::new();
        for (a, b, c) in [(0, 1, 2), (0, 2, 1), (1, 0, 2), (1, 2, 0), (2, 0, 1), (2, 1, 0)] {
            let text: String = [all[a], all[b], all[c]].iter().collect();
            orders.extend(text.parse::<u32>().ok().filter(|_| !text.starts_with('0')));
        }
        assert_eq!(figures, [*orders.iter().max().unwrap(), *orders.iter().min().unwrap()], "{of}");
    }
}

#[test]
fn letters_are_the_keys_letters() {
    let lesson =
        lesson(spec(50, &[406], &[&[640, 460, 383, 911]], &[505, 264]), &[406], &[&[640, 460, 383, 911]], &[505, 264]);
    let lesson = lesson.expect("a lesson");
    let groups = whole(&lesson);
    assert_eq!(groups.len(), lesson.slips.len());
    for group in groups {
        assert_eq!(lesson.letter(group.slip), Some(group.letter));
    }
    // Every decoy and every wrong choice has a slip of the list.
    let decoys = lesson.sets.iter().flat_map(|set| set.decoys()).map(|decoy| decoy.slip);
    let choices = lesson.checks.iter().flat_map(|check| &check.questions);
    let choices = choices.flat_map(|question| question.wrong().map(|(_, _, slip)| slip).collect::<Vec<_>>());
    assert!(decoys.chain(choices).all(|slip| lesson.letter(slip).is_some()));
}
