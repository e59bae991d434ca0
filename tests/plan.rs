//! The teaching plan: times that add up, answers worked out again from the numeral alone, sentences that read well.

use crate::support::setup;
use std::collections::BTreeSet;

use placewright::lesson::Lesson;
use placewright::lesson::say::{sentences, word_count};
use placewright::lesson::teach::{self, LONGEST, Step, Teaching, materials};
use placewright::lesson::timing::{self, LEAST, Phase};
use placewright::number::Slip;
use placewright::spec::{Cut, Joiner, SheetKind};
use setup::{lesson, plain, spec};

/// Lessons of every kind: minutes, model, sort sets, exit.
type Setup = (u32, &'static [u32], &'static [&'static [u32]], &'static [u32]);
const LESSONS: [Setup; 16] = [
    (50, &[406, 383, 617], &[&[640, 604, 460, 222], &[383, 338, 833, 500]], &[911, 264, 170, 305]),
    (45, &[40, 18, 88], &[&[14, 41, 70, 11, 80]], &[13, 30]),
    (45, &[100, 400, 900], &[&[200, 300, 600, 800]], &[700]),
    (30, &[400, 406], &[&[640, 604, 460, 406]], &[911]),
    (90, &[406, 383, 617], &[&[640, 604, 460, 222, 111, 208, 280, 802]], &[911, 264, 170, 305]),
    (240, &[811], &[&[118, 181]], &[888]),
    (50, &[1_010, 8_888, 2_011], &[&[1_101, 1_011, 1_110, 9_999], &[4_050, 5_040, 4_500, 1_000]], &[3_008, 3_080]),
    (50, &[24_507, 811_011], &[&[100_000, 120_350, 102_350, 18_018]], &[999_999, 500_500]),
    (50, &[7, 8, 0], &[&[1, 2, 3, 4, 5]], &[6, 9]),
    (20, &[0], &[], &[]),
    (20, &[], &[&[640, 604, 460]], &[]),
    (15, &[], &[], &[911, 264]),
    (50, &[406, 383, 617, 911, 222, 500], &[&[640, 604]], &[]),
    (9, &[], &[], &[8]),
    (50, &[878_878], &[&[777_777, 373_373]], &[111_111]),
    (50, &[11, 12], &[&[13, 14, 15, 16]], &[17, 18]),
];

fn lessons() -> Vec<Lesson> {
    let mut all = Vec::new();
    for (minutes, model, sort, exit) in LESSONS {
        all.push(plain(minutes, model, sort, exit));
        let mut other = spec(minutes, model, sort, exit);
        other.forms.joiner.value = Joiner::And;
        other.print.cut.value = Cut::Stack;
        other.class.learners.value = 1;
        other.class.spares.value = 1;
        other.sheets.make.value = vec![SheetKind::Board];
        all.push(lesson(other, model, sort, exit).expect("a lesson"));
        let mut bare = spec(minutes, model, sort, exit);
        bare.sheets.make.value = vec![SheetKind::Strips, SheetKind::Exit, SheetKind::Record];
        bare.forms.zero_terms.value = true;
        all.push(lesson(bare, model, sort, exit).expect("a lesson"));
    }
    all
}

/// Every text of a plan that a grown-up reads.
fn texts(plan: &Teaching) -> Vec<String> {
    let mut texts = plan.aims.clone();
    for part in &plan.phases {
        texts.extend(part.table.iter().cloned());
        for step in &part.steps {
            match step {
                Step::Do(text) | Step::Say(text) => texts.push(text.clone()),
                Step::Ask { question, expect } => texts.extend([question.clone(), expect.clone()]),
                Step::Watch { sees, .. } => texts.push(sees.clone()),
            }
        }
    }
    texts
}

#[test]
fn minutes_add_up_and_no_phase_is_short() {
    for (_, model, sort, exit) in LESSONS {
        let least = timing::least(&spec(240, model, sort, exit));
        for minutes in least..=240 {
            let shares = timing::share(&spec(minutes, model, sort, exit)).expect("long enough");
            assert_eq!(shares.iter().map(|(_, share)| share).sum::<u32>(), minutes);
            assert!(shares.iter().all(|(_, share)| *share >= LEAST), "{shares:?}");
            let phases: Vec<Phase> = shares.iter().map(|(phase, _)| *phase).collect();
            assert_eq!(phases.contains(&Phase::Building), !model.is_empty());
            assert_eq!(phases.contains(&Phase::Sorting), !sort.is_empty());
            assert_eq!(phases.contains(&Phase::Sharing), !sort.is_empty());
            assert_eq!(phases.contains(&Phase::Exit), !exit.is_empty());
        }
        assert!(timing::share(&spec(least - 1, model, sort, exit)).is_err());
    }
}

#[test]
fn a_minute_more_takes_no_minute_away() {
    let (_, model, sort, exit) = LESSONS[0];
    for minutes in timing::least(&spec(0, model, sort, exit))..240 {
        let shares = |minutes| timing::share(&spec(minutes, model, sort, exit)).expect("long enough");
        let grew = shares(minutes).iter().zip(shares(minutes + 1)).all(|((_, a), (_, b))| *a <= b);
        assert!(grew, "{minutes}: {:?} {:?}", shares(minutes), shares(minutes + 1));
    }
}

/// How many of a role's numbers a hint keeps.
fn kept(hint: &str, role: &str, numbers: &'static [u32]) -> &'static [u32] {
    if hint.contains(&format!("leave out the {role} numbers")) {
        return &[];
    }
    let taken = hint.split("take ").skip(1).find(|part| part.contains(&format!(" {role} number")));
    let count = taken.and_then(|part| part.split(' ').next()?.parse().ok()).unwrap_or(numbers.len());
    &numbers[..count]
}

#[test]
fn a_short_lesson_says_what_to_drop_and_that_helps() {
    let (_, model, sort, exit) = LESSONS[0];
    let least = timing::least(&spec(0, model, sort, exit));
    for minutes in 15..least {
        let wrong = lesson(spec(minutes, model, sort, exit), model, sort, exit).expect_err("too short");
        let problem = &wrong[0].problem;
        assert!(problem.message.contains(&format!("`minutes = {minutes}` is too short")), "{problem:?}");
        assert_eq!(wrong[0].place.as_ref().map(|place| place.span.clone()), Some(0..1));
        let hint = problem.hint.as_deref().expect("a hint");
        let rows = kept(hint, "sort", sort[0]);
        let sets: &[&[u32]] = if rows.is_empty() { &[] } else { &[rows] };
        let smaller = spec(minutes, kept(hint, "model", model), sets, kept(hint, "exit", exit));
        assert!(timing::share(&smaller).is_ok(), "{minutes}: {hint}");
        assert!(hint.ends_with(&format!("or set `minutes = {least}`")), "{hint}");
    }
}

#[test]
fn sentences_are_short_and_agree() {
    let an = ["8", "11", "18"];
    for lesson in lessons() {
        let plan = teach::plan(&lesson, 3).expect("a plan");
        for text in texts(&plan).iter().chain(materials(&lesson).iter().flat_map(|m| [&m.what, &m.note])) {
            for sentence in sentences(text) {
                assert!(word_count(sentence) <= LONGEST, "{} words: {sentence}", word_count(sentence));
            }
            assert!(!text.contains("  ") && text.trim() == text, "spaces: {text:?}");
            let words: Vec<&str> = text.split(' ').collect();
            for pair in words.windows(2) {
                let number = pair[1].trim_matches(|c: char| !c.is_ascii_digit());
                let whole = number.len() == pair[1].trim_end_matches(['.', ',', '?', ':']).len() && !number.is_empty();
                if whole && pair[0] == "a" {
                    assert!(!number.starts_with('8') && !an.contains(&number), "a {number}: {text}");
                }
                if whole && pair[0] == "an" {
                    assert!(number.starts_with('8') || number.starts_with("11") || number.starts_with("18"), "{text}");
                }
                let noun = pair[1].trim_end_matches(['.', ',', '?', ':']);
                let plural = ["flats", "rods", "cubes", "learners", "pairs", "thousand-blocks", "spares"];
                assert!(!(pair[0] == "1" && plural.contains(&noun)), "1 with a plural: {text}");
                assert!(pair[0] != "0" || !plural.contains(&noun), "none is not built: {text}");
                let singular = ["flat", "rod", "cube", "learner", "pair"];
                let count: Option<u32> = pair[0].parse().ok();
                assert!(count.is_none_or(|n| n == 1) || !singular.contains(&noun), "plural missing: {text}");
            }
        }
    }
}

#[test]
fn slips_speak_in_short_sentences() {
    for slip in Slip::all() {
        for text in [slip.thinking(), slip.next_step()] {
            assert!(sentences(text).all(|sentence| word_count(sentence) <= LONGEST), "{text}");
        }
    }
}

/// 1, 10, 100 ...
fn ten_to(zeros: usize) -> u32 {
    10_u32.pow(u32::try_from(zeros).expect("few"))
}

/// The whole numbers in a text, with their marks left out.
fn figures(text: &str) -> Vec<u32> {
    let joined = text.replace(',', "");
    joined
        .split(|c: char| !c.is_ascii_digit())
        .filter(|part| !part.is_empty())
        .filter_map(|part| part.parse().ok())
        .collect()
}

/// What the digit `digit` of `numeral`, where it stands only once, is worth.
fn worth(numeral: u32, digit: u32) -> u32 {
    let text = numeral.to_string();
    let at = text.find(&digit.to_string()).expect("the digit is there");
    assert_eq!(text.matches(&digit.to_string()).count(), 1, "{digit} in {numeral}");
    digit * 10_u32.pow(u32::try_from(text.len() - 1 - at).expect("short"))
}

/// Works the answer out again from the numerals of the question; `None` where the question asks for words.
fn answer(question: &str) -> Option<Vec<u32>> {
    let numbers = figures(question);
    let parts = |n: u32| -> Vec<u32> {
        let text = n.to_string();
        let worths = text.bytes().enumerate().map(|(k, b)| u32::from(b - b'0') * ten_to(text.len() - 1 - k));
        let kept: Vec<u32> = worths.filter(|part| *part > 0).collect();
        if kept.is_empty() { vec![0] } else { kept }
    };
    let counts =
        |n: u32| -> Vec<u32> { n.to_string().bytes().map(|b| u32::from(b - b'0')).filter(|d| *d > 0).collect() };
    let has = |words: &str| question.contains(words);
    if has("worth the same in") {
        let [digit, a, b] = numbers[..] else { panic!("{question}") };
        assert_ne!(worth(a, digit), worth(b, digit), "{question}");
        return Some(vec![a, worth(a, digit), b, worth(b, digit)]);
    }
    match numbers[..] {
        [digit, n] if has("What is the") => Some(vec![worth(n, digit)]),
        [n] if has("in expanded form?") && has("How do we write") => Some(parts(n)),
        [n] if has("Which blocks show") => Some(counts(n)),
        _ => None,
    }
}

#[test]
fn every_answer_is_right() {
    let mut checked = 0;
    for (minutes, model, sort, exit) in LESSONS {
        let lesson = plain(minutes, model, sort, exit);
        for step in teach::plan(&lesson, 3).expect("a plan").phases.into_iter().flat_map(|part| part.steps) {
            let Step::Ask { question, expect } = step else { continue };
            if let Some(answer) = answer(&question) {
                assert_eq!(figures(&expect), answer, "{question} {expect}");
                checked += 1;
            }
            if let Some((_, numeral)) =
                question.split_once(" does ").filter(|_| question.starts_with("How many digits"))
            {
                let digits = figures(numeral)[0].to_string().len();
                let words = ["", "One", "Two", "Three", "Four", "Five", "Six"];
                assert!(expect.starts_with(words[digits]), "{question} {expect}");
                checked += 1;
            }
            if question.starts_with("Why do we write") && !expect.contains("none") {
                assert!(!figures(&expect)[0].to_string().contains('0'), "{expect}");
                checked += 1;
            }
        }
    }
    assert!(checked > 60, "{checked}");
}

#[test]
fn the_plan_speaks_of_the_lessons_own_numbers() {
    for (minutes, model, sort, exit) in LESSONS {
        let lesson = plain(minutes, model, sort, exit);
        let own: BTreeSet<u32> = model.iter().chain(sort.iter().copied().flatten()).chain(exit).copied().collect();
        // Parts of the lesson's numbers, and those numbers without their zeros.
        let mut known = own.clone();
        for n in &own {
            let text = n.to_string();
            known.extend((0..text.len()).map(|k| u32::from(text.as_bytes()[k] - b'0') * ten_to(text.len() - 1 - k)));
            known.extend(text.replace('0', "").parse::<u32>());
        }
        for part in teach::plan(&lesson, 3).expect("a plan").phases {
            for step in part.steps {
                let (Step::Say(text) | Step::Ask { question: text, .. }) = &step else { continue };
                if text.starts_with("Someone made the strip") {
                    continue;
                }
                // Counts and digits are small; anything with two digits or more is a number of the lesson.
                for number in figures(text).into_iter().filter(|n| *n > 9) {
                    assert!(known.contains(&number), "{number} is not in the lesson: {text}");
                }
            }
        }
    }
}

#[test]
fn a_zero_is_built_by_an_empty_column() {
    let plan = teach::plan(&plain(50, &[406], &[], &[]), 3).expect("a plan");
    let all = texts(&plan).join("\n");
    assert!(
        all.contains(
            "build it: 4 flats in the hundreds column and 6 cubes in the ones column. Leave the tens column empty."
        ),
        "{all}"
    );
    assert!(all.contains("Without it we would read 46."), "{all}");
}

#[test]
fn numbers_above_the_blocks_are_not_built() {
    for (minutes, model, sort, exit) in LESSONS.iter().filter(|(_, model, ..)| model.iter().any(|n| *n > 9_999)) {
        let all = texts(&teach::plan(&plain(*minutes, model, sort, exit), 3).expect("a plan")).join("\n");
        for word in ["flat", "rod", "cube", "mat", "tub"] {
            assert!(
                !all.split(|c: char| !c.is_alphabetic()).any(|w| w == word || w == format!("{word}s")),
                "{word}: {all}"
            );
        }
    }
}

#[test]
fn the_same_digit_is_compared_where_the_numbers_allow_it() {
    let all = |model: &[u32]| texts(&teach::plan(&plain(50, model, &[], &[]), 3).expect("a plan")).join("\n");
    assert!(all(&[406, 640]).contains("Is the 4 worth the same in 406 and in 640?"));
    assert!(all(&[383]).contains("383 has two 3s. From left to right they are worth 300 and 3."));
    assert!(!all(&[123, 456]).contains("worth the same"));
}
