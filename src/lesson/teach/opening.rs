//! The opening: the first number is read together, and the idea of the day is said.

use super::talk::{telling_place, twins, worth_of};
use super::{Scene, Step, act, ask, say};
use crate::lesson::Lesson;
use crate::lesson::say::{capital, list, small, spoken, written};
use crate::number::Number;
use crate::spec::{Joiner, SheetKind};

/// What the class will be able to do.
pub(super) fn aims(lesson: &Lesson) -> Vec<String> {
    let mut aims = vec!["Learners say what each digit of a number is worth.".to_owned()];
    let matched = &lesson.spec.forms.matched.value;
    if lesson.spec.numbers.sort.count.value > 0 {
        let names: Vec<&str> = matched.iter().map(|form| form.plural()).collect();
        aims.push(format!("Learners match {} that show the same number.", list(&names)));
    } else if lesson.spec.numbers.model.count.value > 0 {
        aims.push("Learners build a number and write it in more than one way.".to_owned());
    }
    aims
}

pub(super) fn write(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let style = scene.style();
    let first = scene.model().first().or_else(|| scene.sort().first()).copied();
    let table = vec![if scene.model().is_empty() || !scene.makes(SheetKind::Display) {
        "Nothing yet. You need a board to write on.".to_owned()
    } else {
        "Nothing yet. Have the display pages with you.".to_owned()
    }];
    let Some(number) = first else {
        let steps = vec![
            say("Today we show what each digit in a number is worth."),
            ask("What do we call 0, 1, 2, 3 and so on up to 9?", "Digits. We write every number with them."),
        ];
        return (table, steps);
    };
    let numeral = written(number, style);
    let mut steps = vec![
        act(format!("Write {numeral} where everyone can see it. Wait a moment before you say it.")),
        ask("How do we read this number?", format!("{}.", capital(&spoken(number, style)))),
        act(joiner_note(scene.lesson)),
    ];
    let digits = number.len();
    if digits == 1 {
        steps.push(ask(format!("How many digits does {numeral} have?"), "One. It tells us how many ones there are."));
    } else {
        steps.push(ask(format!("How many digits does {numeral} have?"), format!("{}.", capital(&small(digits)))));
        if let Some(place) = telling_place(number, 0).filter(|_| scene.minutes >= 4) {
            steps.push(worth_of(number, place, style));
        }
    }
    steps.push(say(idea(scene, number)));
    (table, steps)
}

/// The sentence of the day.
fn idea(scene: &Scene<'_>, number: Number) -> &'static str {
    let multi = |n: &Number| n.len() > 1;
    if twins(scene.model()).is_some() || twins(scene.sort()).is_some() {
        "The same digit can be worth different amounts. It depends on its place. That is what we look for today."
    } else if multi(&number) {
        "Where a digit stands tells us what it is worth. That is what we look for today."
    } else {
        "Today we show one number in different ways."
    }
}

/// How words are said in this lesson.
fn joiner_note(lesson: &Lesson) -> String {
    let numbers = lesson.chosen.model.iter().chain(lesson.chosen.sort.iter().flatten()).chain(&lesson.chosen.exit);
    // Words only differ where something under a hundred follows a hundred or a thousand.
    let joined = |n: &&Number| n.value() > 100 && !n.value().is_multiple_of(100);
    let example = numbers.copied().find(|n| joined(&n));
    match (example, lesson.spec.forms.joiner.value) {
        (None, _) => "Let the class read it together, then one learner alone.".to_owned(),
        (Some(n), Joiner::And) => {
            format!("Say \"and\" in this lesson: {} is \"{}\".", written(n, &lesson.style), spoken(n, &lesson.style))
        }
        (Some(n), Joiner::None) => {
            let said = spoken(n, &lesson.style);
            format!("Say it without \"and\" in this lesson: {} is \"{said}\".", written(n, &lesson.style))
        }
    }
}
