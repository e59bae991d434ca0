//! The warm-up for the week after: numbers that no other sheet uses, drawn evenly, with answers worked out again.

use std::collections::{BTreeMap, BTreeSet};

use crate::support::answers::check;
use crate::support::packets::masters;
use crate::support::setup::planned;
use placewright::lesson::home::home;
use placewright::lesson::practice::{Exercise, exercises};
use placewright::lesson::warm_up::{DAYS, plan};
use placewright::lesson::{Lesson, groups};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::Number;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::SheetKind;

const SHEETS: &str = "[sheets]\nmake = [\"display\", \"board\", \"strips\", \"exit\", \"key\", \"small-groups\", \"warm-up\", \"practice\", \"family\"]\n";

fn lesson(seed: u32, range: &str, tables: &str) -> Lesson {
    planned(&format!("title = \"T\"\nseed = {seed}\n[numbers]\nrange = {range}\n{tables}{SHEETS}"))
}

/// Every number that another sheet of the lesson shows: all follow-up sheets are made, or none.
fn elsewhere(lesson: &Lesson) -> BTreeSet<Number> {
    let chosen = &lesson.chosen;
    let mut all: BTreeSet<Number> =
        chosen.model.iter().chain(chosen.sort.iter().flatten()).chain(&chosen.exit).copied().collect();
    all.extend(lesson.checks.iter().flat_map(|check| check.questions.iter().map(|question| question.of)));
    if lesson.spec.sheets.make.value.contains(&SheetKind::Practice) {
        for part in lesson.parts() {
            all.extend(groups::lessons(lesson, &part).iter().flat_map(|lesson| &lesson.trials).map(|trial| trial.of));
            all.extend(groups::has_it(lesson, &part));
        }
        let exercises = lesson.parts().into_iter().flat_map(|part| exercises(lesson, &part)).collect::<Vec<_>>();
        all.extend(exercises.iter().flat_map(Exercise::numbers));
        all.extend(lesson.parts().iter().filter_map(|part| home(lesson, part)).flat_map(|home| home.numbers()));
    }
    all
}

fn numbers(lesson: &Lesson) -> Vec<Number> {
    plan(lesson).days.iter().map(|day| day.number).collect()
}

#[test]
fn its_numbers_are_used_nowhere_else() {
    for (range, tables) in [
        ("[100, 999]", "model = { count = 3, zeros = { tens = 1 }, teens = 1 }\n[class]\nversions = 3\n"),
        ("[10, 99]", ""),
        ("[1000, 9999]", "never = [5000]\nat_most = { thousands = 6 }\n[class]\nversions = 2\n"),
        ("[10000, 60000]", ""),
        ("[100, 999]", "[[group]]\nname = \"Gulls\"\nlearners = 6\nrange = [100, 300]\n"),
    ] {
        for seed in 1..3 {
            let lesson = lesson(seed, range, tables);
            let week = plan(&lesson);
            let (numbers, others) = (numbers(&lesson), elsewhere(&lesson));
            assert_eq!(numbers.iter().collect::<BTreeSet<_>>().len(), DAYS as usize, "{range}");
            assert!(numbers.iter().all(|number| !others.contains(number)), "{range}: {numbers:?}");
            assert!(week.reused.is_empty() && !lesson.chosen.notes.iter().any(|note| note.contains("warm-up")));
            let pool = placewright::spec::Pool::new(&lesson.spec.numbers);
            assert!(numbers.iter().all(|number| pool.holds(*number)), "{range}: {numbers:?}");
            if tables.contains("zeros") {
                let tens = |number: &&Number| number.to_string().as_bytes()[1] == b'0';
                let teen = |number: &&Number| (11..20).contains(&(number.value() % 100));
                assert!(numbers.iter().any(|n| tens(&n)) && numbers.iter().any(|n| teen(&n)), "{numbers:?}");
            }
        }
    }
}

#[test]
fn every_answer_is_what_the_numeral_gives() {
    let mut asked = 0;
    for (range, tables) in [
        ("[0, 9]", ""),
        ("[10, 20]", ""),
        ("[100, 999]", ""),
        ("[1000, 9999]", ""),
        ("[100000, 999999]", ""),
        ("[120, 499]", "[forms]\nmatch = [\"numeral\", \"regrouped\", \"words\"]\n"),
    ] {
        for seed in 1..3 {
            let lesson = lesson(seed, range, tables);
            for day in plan(&lesson).days {
                assert!(day.asked.len() >= 2, "{day:?}");
                for question in &day.asked {
                    let reply = lesson.wording().ask(question, &lesson.usage());
                    if reply.question.contains("trade") {
                        let said = reply.expect.split('.').next().unwrap();
                        let worth = |place: &str| match place.trim_end_matches('s') {
                            "one" => 1,
                            "ten" => 10,
                            _ => 100,
                        };
                        let words: Vec<&str> = said.split_whitespace().collect();
                        let sum = words.chunks(2).map(|pair| pair[0].parse::<u32>().unwrap() * worth(pair[1]));
                        assert_eq!(sum.sum::<u32>(), day.number.value(), "{reply:?}");
                    } else {
                        check(&reply.question, &reply.expect, day.number.value(), false);
                    }
                    asked += 1;
                }
            }
        }
    }
    assert!(asked > 150, "{asked}");
}

/// All sets of so many numbers that the rest of the lesson leaves: the program's count, and no set more often than others.
#[test]
fn all_sets_are_equally_likely() {
    let counted = |lesson: &Lesson| plan(lesson).solutions.parse::<u64>().unwrap();
    let one = "model = { count = 2, always = [11, 13] }\nsort = { count = 2, always = [21, 12] }\nexit = { count = 0 }\n[forms]\ndecoys = 0\nmatch = [\"numeral\", \"words\"]\n[sheets]\nmake = [\"board\", \"warm-up\"]\n";
    let of = |seed: u32| planned(&format!("title = \"T\"\nseed = {seed}\n[numbers]\nrange = [11, 22]\n{one}"));
    let mut met: BTreeMap<Vec<Number>, u32> = BTreeMap::new();
    let mut left = BTreeSet::new();
    for seed in 0..600 {
        let lesson = of(seed);
        let others = elsewhere(&lesson);
        let pool = (11..=22).filter_map(Number::new).filter(|number| !others.contains(number));
        let pool: BTreeSet<Number> = pool.collect();
        let mixed = pool.iter().filter(|number| number.value() % 11 != 0).count() as u64;
        // C(mixed, 5): numbers of one digit alone are left to the last.
        let sets = (0..5).fold(1, |sets, k| sets * (mixed - k) / (k + 1));
        assert_eq!(counted(&lesson), sets, "{pool:?}");
        left = pool;
        let mut set = numbers(&lesson);
        set.sort_unstable();
        *met.entry(set).or_default() += 1;
    }
    // 12 numbers without 11, 12, 13, 21 and, for its equal digits, 22: seven, so 21 sets; 600 draws, 28.6 each with a
    // standard deviation of 5.2: within four and a half of them.
    assert_eq!(left.len(), 8);
    assert_eq!(met.len(), 21);
    assert!(met.values().all(|count| (5..=52).contains(count)), "{met:?}");
}

#[test]
fn a_small_range_is_used_up_first_and_that_is_told() {
    let mut told = 0;
    for (range, tables) in
        [("[10, 32]", "sort = { count = 6 }\n"), ("[1, 12]", "sort = { count = 4 }\n"), ("[7, 9]", "")]
    {
        for seed in 1..4 {
            let lesson = lesson(seed, range, tables);
            let week = plan(&lesson);
            let others = elsewhere(&lesson);
            let pool: Vec<Number> = placewright::spec::Pool::new(&lesson.spec.numbers).numbers().collect();
            assert_eq!(week.days.len(), pool.len().min(DAYS as usize), "{range}");
            let fresh: Vec<&Number> = pool.iter().filter(|number| !others.contains(number)).collect();
            let numbers = numbers(&lesson);
            let used = numbers.iter().filter(|number| others.contains(number)).count();
            assert_eq!(used, week.reused.len());
            // None is used again while another is not used at all.
            assert!(used == numbers.len() - fresh.len().min(numbers.len()), "{range}: {numbers:?} {fresh:?}");
            let note = lesson.chosen.notes.iter().any(|note| note.contains("warm-up"));
            assert_eq!(note, used > 0, "{:?}", lesson.chosen.notes);
            told += u32::from(note);
        }
    }
    assert!(told > 0);
}

#[test]
fn a_week_of_numbers_to_9999_is_a_page() {
    let (layouts, family) = (Layouts::read(&[]).expect("layouts"), bundled(Bundled::Andika).expect("a font"));
    for (range, tables) in [
        ("[0, 20]", ""),
        ("[100, 999]", ""),
        ("[100, 999]", "[print]\ntext = \"large\"\n"),
        ("[1000, 9999]", "[forms]\nmatch = [\"numeral\", \"regrouped\", \"words\"]\n"),
    ] {
        for paper in ["letter", "a4"] {
            for language in ["en", "es"] {
                let lesson = planned(&format!(
                    "title = \"T\"\npaper = \"{paper}\"\nlanguage = \"{language}\"\n[numbers]\nrange = {range}\nsort = {{ count = 3 }}\nexit = {{ count = 2 }}\n{tables}[sheets]\nmake = [\"board\", \"warm-up\"]\n"
                ));
                let pages = masters(&Desk::new(&lesson, &layouts, &family), SheetKind::WarmUp).expect("a page");
                assert_eq!(pages.len(), 1, "{range} {paper} {language}");
            }
        }
    }
}
