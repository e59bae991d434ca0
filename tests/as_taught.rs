//! Checks and plans ask for no more than was taught, and what helps against a slip fits the number, its words and who is there.

use std::collections::BTreeSet;

use placewright::lesson::groups::{self, SlipLesson};
use placewright::lesson::teach::Step;
use placewright::lesson::{Lesson, SortSet};
use placewright::number::{Form, Number, Slip, Style, Task, pieces_traded};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::SheetKind;
use placewright::wording::plan::Asked;
use placewright::wording::{English, Spanish, Tools};

use crate::support::means;
use crate::support::packets::{masters, texts};
use crate::support::setup::{family, number, planned};

/// Lessons on trading, of two to four digits.
fn on_trading() -> Vec<Lesson> {
    let mut all = Vec::new();
    for seed in 1..=8 {
        for range in ["[20, 99]", "[120, 499]", "[1000, 9999]"] {
            all.push(planned(&format!(
                "title = \"Crates\"\nminutes = 60\nseed = {seed}\n[numbers]\nrange = {range}\n[forms]\n\
                 match = [\"numeral\", \"regrouped\", \"untraded\", \"expanded\"]\ndecoys = 6\n[class]\nversions = 2\n\
                 [sheets]\nmake = [\"mat\", \"blocks\", \"record\", \"board\", \"strips\", \"exit\", \"key\"]"
            )));
        }
    }
    all
}

/// How many pieces a task trades away, where it trades.
fn pieces(task: Task, of: Number, style: &Style) -> Option<u32> {
    Some(pieces_traded(of, &task.counted(of, style)?))
}

#[test]
fn a_check_asks_for_a_trade_of_one_piece() {
    let mut met = 0;
    for lesson in on_trading() {
        for question in lesson.checks.iter().flat_map(|check| &check.questions) {
            let Some(pieces) = pieces(question.task, question.of, &lesson.style) else { continue };
            assert_eq!(pieces, 1, "{}: {question:?}", lesson.spec.numbers.range.value.1);
            met += 1;
        }
    }
    assert!(met > 100, "{met}");
}

/// The least pieces that these rows trade in these forms.
fn least(set: &SortSet, rows: &[Number], style: &Style) -> Option<u32> {
    let most = |row: &Number| {
        let traded = set.forms.iter().filter_map(|form| pieces(Task::forms(Form::Numeral, *form), *row, style));
        traded.max()
    };
    rows.iter().filter_map(most).min()
}

#[test]
fn a_plan_asks_about_strips_of_the_fewest_pieces() {
    let (mut asked_of, mut watched) = (0, 0);
    for lesson in on_trading() {
        let plan = means::plan(&lesson);
        let decoys: Vec<u32> = lesson
            .sets
            .iter()
            .flat_map(SortSet::decoys)
            .filter(|wrong| wrong.content.line().is_some())
            .filter_map(|wrong| pieces(wrong.task, wrong.of, &lesson.style))
            .collect();
        for step in plan.phases.iter().flat_map(|part| &part.steps) {
            match step {
                Step::Ask(Asked::Belongs(of, _, letter)) => {
                    let set = lesson.sets.iter().find(|set| letter.is_none_or(|letter| set.version == letter)).unwrap();
                    let own = set
                        .forms
                        .iter()
                        .filter_map(|form| pieces(Task::forms(Form::Numeral, *form), *of, &lesson.style));
                    assert_eq!(own.max(), least(set, &set.rows, &lesson.style), "{of} of {:?}", set.rows);
                    asked_of += 1;
                }
                Step::Watch { wrong, .. } => {
                    let Some(pieces) = pieces(wrong.task, wrong.of, &lesson.style) else { continue };
                    assert!(pieces == 1 || !decoys.contains(&1), "{wrong:?} of {decoys:?}");
                    watched += 1;
                }
                _ => {}
            }
        }
    }
    assert!(asked_of > 20 && watched > 20, "{asked_of}, {watched}");
}

/// Words of one language are put together wrongly: the talk is about these words.
#[test]
fn words_that_name_places_are_quoted_in_the_language_that_has_them() {
    let mut met = BTreeSet::new();
    for (first, second, forms) in [
        ("es", "en", "\"words2\", \"numeral\""),
        ("es", "en", "\"words\", \"numeral\""),
        ("en", "es", "\"words2\", \"numeral\""),
        ("en", "es", "\"words\", \"numeral\""),
    ] {
        for range in ["[100, 999]", "[1000, 9999]"] {
            for seed in 1..=6 {
                let lesson = planned(&format!(
                    "title = \"123\"\nseed = {seed}\nlanguage = \"{first}\"\nsecond_language = \"{second}\"\n[numbers]\n\
                     range = {range}\n[forms]\nmatch = [{forms}]\ndecoys = 6\n[class]\nversions = 2"
                ));
                for own in groups::lessons(&lesson, &lesson.whole()) {
                    let Some(step) = own.step(&lesson.style).filter(|step| step.slip == Slip::PlaceWordWritten) else {
                        continue;
                    };
                    let words = step.task.shown().content(step.of, &lesson.style).unwrap();
                    let words = words.line().unwrap();
                    let talk = lesson.wording().group_question(&step);
                    let answer = lesson.wording().group_answer(&step).to_lowercase();
                    assert!(talk.contains(words), "{talk}: {words}");
                    let named = answer.split('.').next().unwrap().replace(['«', '»', '“', '”'], "");
                    let named: Vec<&str> = named.split(' ').filter(|word| !["and", "y"].contains(word)).collect();
                    assert!(!named.is_empty(), "{answer}");
                    for word in &named {
                        assert!(words.split(' ').any(|other| other == *word), "{answer} of {words}");
                    }
                    for word in ["hundred", "thousand", "mil"] {
                        assert_eq!(words.split(' ').any(|w| w == word), named.contains(&word), "{answer} of {words}");
                    }
                    assert_eq!(
                        named.len() > 1,
                        talk.contains("words name") || talk.contains("palabras nombran"),
                        "{talk}"
                    );
                    met.insert((first, own.trials[0].task));
                }
            }
        }
    }
    assert!(met.len() > 2, "{met:?}");
}

#[test]
fn digits_put_together_wrongly_have_no_marks() {
    let mut met = 0;
    for style in [Style::plain(&English), Style::plain(&Spanish)] {
        for shown in [Form::Words, Form::Expanded, Form::Units, Form::Regrouped] {
            for of in (1_000..10_000).step_by(37).chain((10_000..999_999).step_by(997)).map(number) {
                let task = Task::forms(shown, Form::Numeral);
                for (slip, content) in task.wrong(of, &style) {
                    let together = [
                        Slip::SideBySide,
                        Slip::BigPartThenRest,
                        Slip::HalfOverwritten,
                        Slip::PlaceWordWritten,
                        Slip::CountsSideBySide,
                    ];
                    if together.contains(&slip) {
                        let text = content.line().unwrap();
                        assert!(text.bytes().all(|byte| byte.is_ascii_digit()), "{of}: {text}");
                        met += 1;
                    }
                }
            }
        }
    }
    assert!(met > 1_000, "{met}");
}

#[test]
fn small_groups_of_one_learner_speak_to_one() {
    let lesson = planned(
        "title = \"Crates\"\n[numbers]\nrange = [100, 999]\n[forms]\ndecoys = 8\n[class]\nlearners = 1\nspares = 0\n\
         [sheets]\nmake = [\"board\", \"strips\", \"exit\", \"key\", \"tally\", \"small-groups\"]",
    );
    let (layouts, family) = (Layouts::read(&[]).unwrap(), family());
    let pages = masters(&Desk::new(&lesson, &layouts, &family), SheetKind::SmallGroups).expect("small groups");
    let told = texts(&pages).join(" ");
    for wrong in ["Learners", "to the groups", "a group", "the quick checks"] {
        assert!(!told.contains(wrong), "{wrong}: {told}");
    }
    assert!(told.contains("The learner writes the number"), "{told}");
}

/// What is said of parts and of pieces has the number of those that there are.
#[test]
fn what_helps_agrees_in_number() {
    let all: Vec<(Lesson, Vec<SlipLesson>)> = ["[20, 99]", "[100, 999]", "[1000, 9999]"]
        .into_iter()
        .map(|range| {
            let lesson = planned(&format!(
                "title = \"Crates\"\n[numbers]\nrange = {range}\n[forms]\nmatch = [\"words\", \"numeral\"]\ndecoys = 8"
            ));
            let groups = groups::lessons(&lesson, &lesson.whole());
            (lesson, groups)
        })
        .collect();
    let mut met = BTreeSet::new();
    for (lesson, own) in all.iter().flat_map(|(lesson, all)| all.iter().map(move |own| (lesson, own))) {
        let Some(step) = own.step(&lesson.style) else { continue };
        if !matches!(own.slip, Slip::SideBySide | Slip::BigPartThenRest) {
            continue;
        }
        let parts = step.of.digits().filter(|(_, digit)| *digit > 0).count();
        let told = format!("{} {}", lesson.wording().group_build(&step), lesson.wording().group_answer(&step));
        assert_eq!(told.contains("ach smaller part"), parts > 2, "{told}");
        met.insert(parts);
    }
    assert!(met.len() > 1, "{met:?}");
    // Two flats go for twenty rods as well as one for ten.
    for (slip, tools) in
        Slip::all().flat_map(|slip| [(slip, Tools::ALL), (slip, Tools { blocks: false, ..Tools::ALL })])
    {
        let next = placewright::wording::of(placewright::spec::Language::En).slip_next(slip, tools);
        for wrong in [
            "the piece that is traded",
            "The traded piece",
            "the traded piece",
            "Draw the ten pieces",
            "the ten pieces",
            "the ten of one kind",
        ] {
            assert!(!next.contains(wrong), "{next}");
        }
    }
}
