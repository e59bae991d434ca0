//! Lessons of a few sheets: nothing is said of rows, boards, keys or packets that are not there, and what is printed is used.

use crate::support::answers::figures;
use crate::support::means;
use crate::support::setup::planned;
use placewright::lesson::Lesson;
use placewright::lesson::teach::{Step, Teaching};
use placewright::lesson::timing::{self, Phase};
use placewright::wording::plan::Deed;
use std::collections::BTreeSet;

/// A lesson with only these sheets.
fn of(minutes: u32, more: &str, make: &str) -> Lesson {
    planned(&format!(
        "title = \"Kites\"\nminutes = {minutes}\n{more}\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 20\nversions = 2\n\
         [sheets]\nmake = [{make}]\n"
    ))
}

/// All that a plan has done, said and asked, and what it says of too little time.
fn read(lesson: &Lesson, plan: &Teaching) -> String {
    let steps = plan.phases.iter().flat_map(|part| &part.steps);
    let texts = steps.filter_map(|step| means::told(lesson, step).into_iter().next());
    let shorter = plan.shorter.iter().map(|short| lesson.wording().short(short));
    texts.chain(shorter).collect::<Vec<_>>().join("\n")
}

/// Without a board nothing has rows until strips lie in them.
#[test]
fn no_rows_are_spoken_of_where_there_are_none() {
    for make in ["\"exit\", \"key\", \"tally\"", "\"practice\"", "\"mat\", \"blocks\"", "\"display\", \"exit\""] {
        for minutes in [15, 30, 45, 90] {
            for (more, row) in [("", "row"), ("language = \"es\"", "fila")] {
                let lesson = of(minutes, more, make);
                let text = read(&lesson, &means::plan(&lesson));
                for line in text.lines().filter(|line| !["frame", "marco"].iter().any(|paper| line.contains(paper))) {
                    let found = line.split(|c: char| !c.is_alphabetic()).any(|word| word.starts_with(row));
                    assert!(!found, "{make}, {minutes}: {line}");
                }
            }
        }
    }
}

/// Strips without a board: the numbers that they show stand on the board, each set's under its letter.
#[test]
fn strips_without_a_board_get_their_numbers_written() {
    for minutes in [20, 30, 60] {
        let lesson = of(minutes, "", "\"strips\", \"key\"");
        let text = read(&lesson, &means::plan(&lesson));
        for set in &lesson.sets {
            let line = text.lines().find(|line| line.contains(&format!("for set {}:", set.version)));
            let line = line.unwrap_or_else(|| panic!("nothing of set {}:\n{text}", set.version));
            for number in &set.rows {
                assert!(line.contains(&number.to_string()), "{number}: {line}");
            }
        }
        assert!(!text.contains(" rows"), "{text}");
    }
}

/// What learners write by hand: as many numbers as there is time for, and one more.
#[test]
fn numbers_for_whoever_is_early_are_on_the_board_too() {
    let lesson = of(30, "", "\"display\", \"exit\"");
    let load = timing::load(&lesson.fullest, 30);
    let text = read(&lesson, &means::plan(&lesson));
    let line = text.lines().find(|line| line.starts_with("Write these numbers on the board: ")).expect("numbers");
    let set = lesson.common_set().expect("a set");
    for number in &set.rows[..=load.rows as usize] {
        assert!(line.contains(&number.to_string()), "{number}: {line}");
    }
}

/// Who prints quick checks and nothing to sort wants them done: numbers are left out before questions are.
#[test]
fn a_lesson_of_checks_asks_all_their_questions() {
    let lesson = of(15, "", "\"exit\", \"key\", \"tally\"");
    let all = timing::questions(&lesson.spec);
    assert_eq!(timing::load(&lesson.fullest, 15).questions, all);
    let plan = means::plan(&lesson);
    assert!(!read(&lesson, &plan).contains("only"), "{}", read(&lesson, &plan));
    assert!(plan.phases.iter().any(|part| part.phase == Phase::Exit));
}

/// Less time never means more questions.
#[test]
fn a_late_start_never_asks_more() {
    let mut read = 0;
    let lessons = ["\"exit\"", "\"board\", \"exit\"", "\"board\", \"strips\", \"exit\", \"key\""];
    for make in lessons {
        for minutes in [15, 20, 30, 45, 60] {
            let lesson = of(minutes, "", make);
            let plan = means::plan(&lesson);
            let today = timing::load(&lesson.fullest, minutes).questions;
            for short in &plan.shorter {
                let text = lesson.wording().short(short);
                let all = text.contains("quick check") && !text.contains("of the quick check");
                assert!(!all || today == timing::questions(&lesson.spec), "{make}, {minutes}: {text}");
                read += usize::from(all);
            }
        }
    }
    assert!(read > 15, "{read}");
}

/// Printed checks without a key: whoever marks them finds the answers in the plan.
#[test]
fn checks_without_a_key_are_answered_in_the_plan() {
    let lesson = of(20, "", "\"display\", \"exit\"");
    let text = read(&lesson, &means::plan(&lesson));
    for check in &lesson.checks {
        let answers: Vec<String> = (1..)
            .zip(&check.questions)
            .map(|(k, question)| format!("{k} {}", question.letter().expect("a choice")))
            .collect();
        let line = format!("Right answers of check {}: {}.", check.mark, answers.join(", "));
        assert!(text.contains(&line), "{line}\n{text}");
    }
    let keyed = of(20, "", "\"display\", \"exit\", \"key\"");
    assert!(!read(&keyed, &means::plan(&keyed)).contains("Right answers"));
}

/// Where all there is to do is done, nobody looks for what was not; where something is left, it is named.
#[test]
fn what_was_left_undone_is_noted_where_something_can_be() {
    let cases =
        [(15, "\"exit\", \"key\", \"tally\""), (20, "\"board\", \"exit\", \"key\""), (10, "\"board\", \"exit\"")];
    let mut met = [0; 3];
    for (minutes, make) in cases {
        for (more, start) in [("", "Note for the teacher which "), ("language = \"es\"", "Anote qué ")] {
            let lesson = of(minutes, more, make);
            let load = timing::load(&lesson.fullest, minutes);
            let text = read(&lesson, &means::plan(&lesson));
            let (rows, questions) = (load.rows > 0, load.questions < timing::questions(&lesson.spec));
            let line = text.lines().find(|line| line.starts_with(start));
            let named = |words: [&str; 2]| line.is_some_and(|line| words.iter().any(|word| line.contains(word)));
            assert_eq!(named(["rows", "filas"]) || named(["numbers", "números"]), rows, "{make}: {line:?}");
            assert_eq!(named(["questions", "preguntas"]), questions, "{make}: {line:?}");
            met[usize::from(rows) + usize::from(questions)] += 1;
        }
    }
    assert!(met.iter().all(|met| *met > 0), "{met:?}");
}

/// Questions that are asked aloud are no quick check on paper: neither the plan's heading nor what a late start does says so.
#[test]
fn questions_that_are_asked_aloud_are_not_called_a_check() {
    for (more, check) in [("", "quick check"), ("language = \"es\"", "control rápido")] {
        for minutes in [20, 40] {
            for (make, printed) in [("\"board\", \"strips\"", false), ("\"board\", \"exit\"", true)] {
                let lesson = of(minutes, more, make);
                let plan = means::plan(&lesson);
                let heads = plan.phases.iter().map(|part| lesson.wording().phase(part.phase, false).to_owned());
                let text = heads.chain([read(&lesson, &plan)]).collect::<Vec<_>>().join("\n").to_lowercase();
                assert_eq!(text.contains(check), printed, "{make}, {minutes}: {text}");
            }
        }
    }
}

/// Learners with different sets see on the classroom's board what is asked of everyone, and nothing stands there for no reason.
#[test]
fn numbers_that_are_compared_at_the_end_stand_on_the_board() {
    let mut all = 0;
    for make in ["\"board\", \"strips\", \"key\"", "\"board\", \"exit\""] {
        for (minutes, seed) in [(20, 1), (45, 2), (45, 3), (60, 4), (60, 5), (60, 6)] {
            let lesson = of(minutes, &format!("seed = {seed}"), make);
            let plan = means::plan(&lesson);
            let Some(part) = plan.phases.iter().find(|part| part.phase == Phase::Sharing) else { continue };
            let (mut written, mut asked) = (Vec::new(), BTreeSet::new());
            let sorted: BTreeSet<u32> = lesson.chosen.sort.iter().flatten().map(|n| n.value()).collect();
            for step in &part.steps {
                match step {
                    Step::Do(Deed::WriteAll(numbers)) => written.extend(numbers.iter().map(|n| n.value())),
                    Step::Ask(_) => {
                        asked
                            .extend(figures(&means::told(&lesson, step)[0]).into_iter().filter(|n| sorted.contains(n)));
                    }
                    _ => {}
                }
            }
            let before =
                plan.phases.iter().take_while(|part| part.phase != Phase::Sharing).flat_map(|part| &part.steps);
            let stood: BTreeSet<u32> = before
                .filter_map(|step| if let Step::Do(Deed::WriteAll(numbers)) = step { Some(numbers) } else { None })
                .flatten()
                .map(|n| n.value())
                .collect();
            assert!(
                written.iter().all(|n| asked.contains(n)),
                "{written:?} are written, {asked:?} asked: {make} {seed}"
            );
            let unseen: Vec<&u32> = asked.iter().filter(|n| !written.contains(n) && !stood.contains(n)).collect();
            assert!(unseen.is_empty(), "{unseen:?} are not on the board: {make} {seed}");
            all += written.len();
        }
    }
    assert!(all > 10, "{all}");
}
