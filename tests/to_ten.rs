//! Lessons of small numbers: nothing is asked, printed or practiced that learners who count to ten or twenty have not met.

use crate::support::class::Shop;
use crate::support::means;
use crate::support::packets::{masters, texts};
use crate::support::setup::planned;
use placewright::lesson::Lesson;
use placewright::lesson::groups;
use placewright::number::{Form, Number, Slip};
use placewright::spec::SheetKind;

fn of(range: (u32, u32), more: &str) -> Lesson {
    planned(&format!("title = \"Nests\"\nminutes = 35\n[numbers]\nrange = [{}, {}]\n{more}\n", range.0, range.1))
}

/// What is done, said and asked.
fn read(lesson: &Lesson) -> String {
    let plan = means::plan(lesson);
    let steps = plan.phases.iter().flat_map(|part| &part.steps);
    let texts = steps.filter_map(|step| means::told(lesson, step).into_iter().next());
    texts.collect::<Vec<_>>().join("\n")
}

fn parts(number: Number) -> usize {
    number.digits().filter(|(_, digit)| *digit > 0).count()
}

/// A digit in expanded form is the digit, a single card covers nothing, and nobody has told of tens.
#[test]
fn who_counts_to_ten_meets_no_tens() {
    for least in [0, 1, 4] {
        let lesson = of((least, 10), "");
        assert!(!lesson.spec.forms.matched.value.contains(&Form::Expanded));
        assert!(!lesson.spec.sheets.make.value.contains(&SheetKind::Layered));
        assert!(!lesson.can().contains("tens"), "{}", lesson.can());
        for question in lesson.checks.iter().flat_map(|check| &check.questions) {
            assert!(!question.sentence.contains("worth"), "{}", question.sentence);
        }
        let text = read(&lesson);
        let ten = lesson.chosen.sort.iter().flatten().any(|number| number.value() == 10);
        assert!(!ten || text.contains("rod is a ten") || text.contains("line for each ten"), "{text}");
    }
}

/// Tomorrow's numbers are no larger than today's where learners have only come so far.
#[test]
fn small_groups_stay_where_learners_are() {
    let (mut seen, mut joined) = (0, 0);
    for (least, most) in [(0, 10), (0, 12), (8, 20), (1, 19), (3, 20), (10, 99)] {
        let lesson = of(
            (least, most),
            "[numbers.sort]\ncount = 4\n[forms]\nmatch = [\"numeral\", \"words\", \"units\", \"blocks\"]",
        );
        for own in groups::lessons(&lesson, &lesson.whole()) {
            for trial in &own.trials {
                assert!(trial.of.value() <= most, "{:?}: {} of {least} to {most}", own.slip, trial.of.value());
                seen += 1;
                if matches!(own.slip, Slip::SideBySide | Slip::BigPartThenRest) {
                    assert!(parts(trial.of) > 1, "{:?}: {} has one part", own.slip, trial.of.value());
                    joined += 1;
                }
            }
        }
    }
    assert!(seen > 40 && joined > 5, "{seen} {joined}");
}

/// Cards that are cut are stacked, whichever model numbers were drawn.
#[test]
fn layered_cards_get_a_step() {
    let lesson = of((8, 20), "[numbers.model]\ncount = 2\nalways = [10, 20]\n[numbers.sort]\ncount = 4\nteens = 3");
    assert!(lesson.spec.sheets.make.value.contains(&SheetKind::Layered));
    assert!(read(&lesson).contains("Lay the cards"), "{}", read(&lesson));
}

/// Nobody looks for letters of slips where there are none.
#[test]
fn no_slips_are_told_of_where_none_can_happen() {
    let lesson = of((0, 10), "[sheets]\nmake = [\"board\", \"exit\", \"key\", \"tally\"]");
    assert!(lesson.slips.is_empty(), "a lesson without slips");
    let text = read(&lesson);
    assert!(text.contains("class tally") && !text.contains("slip"), "{text}");
    let shop = Shop::open();
    for page in masters(&shop.desk(&lesson), SheetKind::Key).expect("pages") {
        let texts = texts([&page]);
        assert!(!texts.is_empty() && texts.iter().all(|text| !text.contains("slip")), "{texts:?}");
    }
}
