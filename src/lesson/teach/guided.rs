//! Practice together: one number is written in every way with the class, the others alone.

use super::talk::{look_for, parts, twins};
use super::{Scene, Step, act, ask, say};
use crate::lesson::say::{capital, list, spoken, written};
use crate::number::{Form, Number, Task};
use crate::spec::SheetKind;

pub(super) fn write(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let style = scene.style();
    let numbers = if scene.model().is_empty() { scene.sort() } else { scene.model() };
    // A number of several parts shows the most; the first of them is worked together.
    let several = |n: &&Number| n.digits().filter(|(_, digit)| *digit > 0).count() > 1;
    let Some(&number) = numbers.iter().find(several).or(numbers.first()) else { return (Vec::new(), Vec::new()) };
    let others: Vec<Number> = numbers.iter().copied().filter(|n| *n != number).collect();
    let numeral = written(number, style);
    // Without model numbers each version records its own sort numbers, so no row is on every learner's sheet.
    let shared = !scene.model().is_empty() || scene.lesson.sets.len() < 2;
    let record = scene.makes(SheetKind::Record) && shared;
    let table = vec![if record {
        "A record sheet and a pencil for each learner.".to_owned()
    } else {
        "Paper and a pencil for each learner.".to_owned()
    }];
    let mut steps = vec![if record {
        act(format!("Find the row for {numeral} on the record sheet. Fill it in together."))
    } else {
        act(format!("Everyone writes {numeral} at the top of the page. Work on it together."))
    }];
    if number <= Number::MAX_BLOCKS {
        steps.push(say(draw(number)));
    }
    steps.push(parts(number, style).unwrap_or_else(|| {
        ask(format!("How many parts does {numeral} have in expanded form?"), format!("Only one: {numeral}."))
    }));
    let words = spoken(number, style);
    steps.push(ask(format!("How do we write {numeral} in words?"), format!("{}.", capital(&words))));
    if let Some((tens, ones)) = words.split_whitespace().find_map(|word| word.trim_end_matches(',').split_once('-')) {
        steps.push(ask("Where does the hyphen go?", format!("Between {tens} and {ones}: {tens}-{ones}.")));
    }
    if scene.makes(SheetKind::WordBank) {
        steps.push(act("Point to the word bank. Learners copy hard words from it."));
    }
    steps.push(alone(scene, &others));
    let mut named = scene.named.clone();
    steps.extend(look_for(scene.lesson, number, Task::forms(Form::Numeral, Form::Expanded), &mut named));
    if scene.minutes >= 5 {
        let last = others.last().copied().unwrap_or(number);
        steps.extend(look_for(scene.lesson, last, Task::forms(Form::Numeral, Form::Words), &mut named));
    }
    if scene.model().is_empty() {
        steps.extend(twins(numbers).map(|pair| pair.ask(style)));
    }
    (table, steps)
}

/// How to draw a number by hand: only the marks that it needs.
fn draw(number: Number) -> String {
    let marks =
        ["a dot for each one", "a line for each ten", "a square for each hundred", "a big box for each thousand"];
    let needed: Vec<&str> = number
        .digits()
        .filter(|(_, digit)| *digit > 0)
        .filter_map(|(place, _)| marks.get(place.index()).copied())
        .collect();
    if needed.is_empty() {
        return "We draw nothing at all, because 0 means none.".to_owned();
    }
    format!("We draw {}.", list(&needed))
}

fn alone(scene: &Scene<'_>, others: &[Number]) -> Step {
    // A record sheet has a row for each model number; more than three would not be done in the time there is.
    let numerals: Vec<String> = others.iter().take(3).map(|n| written(*n, scene.style())).collect();
    match numerals.as_slice() {
        [] => act(format!(
            "Each learner picks one more number and does the same. Walk round {} and listen.",
            if scene.lesson.spec.class.learners.value == 1 { "the table" } else { "the room" }
        )),
        _ => act(format!("Learners do {} alone or in pairs. Walk round and look at what they write.", list(&numerals))),
    }
}
