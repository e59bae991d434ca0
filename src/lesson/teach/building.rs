//! Building the model numbers: each is shown, built on the mat and talked about.

use super::talk::{build, find_digit, how_many, look_for, parts, repeats, teen, telling_place, twins, worth_of, zeros};
use super::{Scene, Step, act, say};
use crate::lesson::say::{empty_places, expanded, written};
use crate::number::{Form, Number, Task};
use crate::spec::SheetKind;

/// Learners write the numeral of a number that is said.
const HEARD: Task = Task::forms(Form::Words, Form::Numeral);
/// Numbers that are talked about at length; the others are built the same way and checked.
const AT_LENGTH: usize = 3;

pub(super) fn write(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let style = scene.style();
    let numbers = scene.model();
    let drawn = numbers.iter().all(|n| *n <= Number::MAX_BLOCKS);
    let mut steps = Vec::new();
    let mut named = scene.named.clone();
    // Two minutes a number carry two questions, and each further minute one more.
    let questions = scene.minutes as usize / numbers.len().max(1);
    for (k, &number) in numbers.iter().enumerate() {
        if k < AT_LENGTH {
            steps.extend(at_length(scene, k, number, questions.clamp(2, 5)));
            steps.extend(look_for(scene.lesson, number, HEARD, &mut named));
        } else {
            steps.push(in_short(scene, number, k == AT_LENGTH));
        }
    }
    if let Some(pair) = twins(numbers) {
        steps.push(pair.ask(style));
        if drawn {
            steps.push(say("So a digit tells how many, and its place tells how many of what."));
        }
    }
    (table(scene, drawn), steps)
}

fn table(scene: &Scene<'_>, drawn: bool) -> Vec<String> {
    if !drawn {
        return vec!["Paper and a pencil for each learner. Numbers this large are written, not built.".to_owned()];
    }
    let mat = if scene.makes(SheetKind::Mat) {
        "A place-value mat for each learner."
    } else {
        "Paper folded into columns, one for each place, for each learner."
    };
    let blocks = if scene.makes(SheetKind::Blocks) {
        "A set of cut-out blocks for each learner."
    } else {
        "Base-ten blocks from the class tub."
    };
    vec![mat.to_owned(), blocks.to_owned()]
}

/// One number, shown, built and asked about.
fn at_length(scene: &Scene<'_>, turn: usize, number: Number, questions: usize) -> Vec<Step> {
    let style = scene.style();
    let numeral = written(number, style);
    let mut steps = Vec::new();
    steps.push(act(format!("Write {numeral} on the board.")));
    if number <= Number::MAX_BLOCKS {
        steps.push(how_many(number, style));
        steps.push(act(format!("Have the class build it: {}", build(number))));
    } else {
        steps.push(act("Draw a column for each place. Learners do the same and write one digit in each."));
    }
    if scene.makes(SheetKind::Display) {
        steps.push(act(format!("Show the display page for {numeral}. Learners compare it with their own work.")));
    }
    let ends_so = teen(number, style);
    // Of 11 at the end both remarks would say the same.
    let eleven = number.value() % 100 == 11 && number.digits().filter(|(_, digit)| *digit == 1).count() == 2;
    steps.extend(repeats(number, style).filter(|_| ends_so.is_none() || !eleven));
    steps.extend(ends_so);
    let has_zero = |n: &Number| !empty_places(*n).is_empty();
    let first = scene.model().iter().find(|n| has_zero(n)) == Some(&number);
    let mut asked = zeros(number, first, style);
    if turn % 2 == 1 {
        asked.extend(find_digit(number, turn, style));
    }
    asked.extend(telling_place(number, turn + 1).map(|place| worth_of(number, place, style)));
    asked.extend(parts(number, style));
    asked.truncate(questions);
    steps.extend(asked);
    steps
}

/// One number in a single step.
fn in_short(scene: &Scene<'_>, number: Number, first: bool) -> Step {
    let style = scene.style();
    let numeral = written(number, style);
    let sum = expanded(number, style);
    let parts = if sum.contains('+') { format!(" Expect {sum} in expanded form.") } else { String::new() };
    if number <= Number::MAX_BLOCKS {
        let lead = if first { "Build the next numbers the same way. " } else { "" };
        act(format!("{lead}{numeral}: {}{parts}", build(number)))
    } else {
        act(format!("{numeral}: one digit in each column.{parts}"))
    }
}
