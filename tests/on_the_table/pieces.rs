//! Pieces of blocks have names before anybody meets them, on the table or in a picture.

use super::lessons;
use crate::support::{means, samples};
use placewright::lesson::teach::Step;
use placewright::lesson::timing::Phase;
use placewright::number::Content;
use placewright::wording::plan::{Asked, Deed, Said};

/// Pieces have names before anybody is asked which of them show a number, with model numbers and without.
#[test]
fn pieces_are_named_before_anyone_is_asked_for_them() {
    let (mut models, mut none) = (0, 0);
    for (name, lesson) in lessons() {
        let plan = means::plan(lesson);
        let steps: Vec<&Step> = plan.phases.iter().flat_map(|part| &part.steps).collect();
        let asks = |step: &&Step| matches!(step, Step::Ask(Asked::Blocks(_)));
        let names = |step: &&Step| matches!(step, Step::Say(Said::BlocksWorth(_)));
        let Some(asked) = steps.iter().position(asks) else { continue };
        let named = steps.iter().position(names);
        assert!(named.is_some_and(|named| named < asked), "{name}: {named:?}, {asked}");
        *(if lesson.chosen.model.is_empty() { &mut none } else { &mut models }) += 1;
    }
    assert!(models > 5 && none > 5, "{models} {none}");
}

/// Who drew the numbers so far meets pictures of blocks in the quick check: their pieces are named there.
#[test]
fn pieces_in_the_pictures_of_a_check_are_named() {
    let mut read = 0;
    let groups = ("ferry".to_owned(), samples::lesson("ferry"));
    for (name, lesson) in lessons().iter().chain([&groups]) {
        let plan = means::plan(lesson);
        let Some(exit) = plan.phases.iter().find(|part| part.phase == Phase::Exit) else { continue };
        let most = exit.steps.iter().find_map(|step| match step {
            Step::Say(Said::QuestionsToday(most)) => Some(*most as usize),
            _ => None,
        });
        let asked = lesson.checks.iter().flat_map(|check| check.questions.iter().take(most.unwrap_or(usize::MAX)));
        let pictured = asked.filter(|question| matches!(question.shown, Some(Content::Blocks(_))));
        let given =
            exit.steps.iter().any(|step| matches!(step, Step::Do(Deed::GiveChecks { .. } | Deed::GiveGroupChecks(_))));
        let steps = || plan.phases.iter().flat_map(|part| &part.steps);
        // Where blocks were on the table, all of them were named there, also those that only a group has.
        let late = exit.steps.iter().any(|step| matches!(step, Step::Say(Said::BlocksWorth(_))));
        let built = steps().any(|step| matches!(step, Step::Ask(Asked::Blocks(_))));
        assert!(!(late && built), "{name}: blocks are named when the check is handed out");
        for question in pictured.filter(|_| given) {
            for (place, digit) in question.of.digits().filter(|(_, digit)| *digit > 0) {
                let names = |step: &Step| matches!(step, Step::Say(Said::BlocksWorth(told) | Said::PicturesWorth(told)) if told.contains(&place));
                assert!(steps().any(names), "{name}: {digit} {place:?} of {}", question.of);
            }
            read += 1;
        }
    }
    assert!(read > 5, "{read}");
}
