//! The end of the lesson: sharing, the exit check and clearing away.

use super::sorting::{differ, same_digits};
use super::talk::twins;
use super::{Scene, Step, act, ask, say, watch};
use crate::lesson::Wrong;
use crate::lesson::exit::{Check, Question};
use crate::lesson::say::{
    capital, counted, counted_s, either, empty_places, expanded, form, list, spoken, worth, written,
};
use crate::number::{Content, Form, Number, Style, Task};
use crate::spec::{Cut, SheetKind};

/// Wrong exit choices that the plan explains; the key has them all.
const WRONG_NAMED: usize = 3;

/// Learners compare what they did.
pub(super) fn sharing(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let style = scene.style();
    let rows = scene.sort();
    let on = if scene.lesson.sets.len() > 1 { " of set A" } else { "" };
    let mut steps = vec![act("Stop the work. Everyone looks at you, hands off the strips.")];
    if !scene.makes(SheetKind::Strips) {
        steps = vec![act("Stop the work. Pencils down, and everyone looks at you.")];
    }
    let zeros = |n: &Number| empty_places(*n).len();
    let zero = rows.iter().copied().filter(|n| n.len() > 1 && zeros(n) > 0).min_by_key(zeros);
    if let Some((a, b)) = same_digits(rows) {
        let pair = format!("{} and {}", written(a, style), written(b, style));
        steps.push(ask(format!("Which numbers{on} were easy to mix up?"), format!("{pair}. {}", differ(a, b, style))));
    }
    if let Some(number) = zero {
        let sum = expanded(number, style);
        let numeral = written(number, style);
        steps.push(if style.zero_terms {
            ask(format!("Why is there a 0 in the expanded form of {numeral}?"), keeps(number, &sum))
        } else {
            let places = zero_of(number);
            let expect = format!("A 0 adds nothing. So we write {sum}.");
            ask(format!("Why does the expanded form of {numeral} have no part for {places}?"), expect)
        });
    }
    if steps.len() == 1 {
        if let Some(pair) = twins(rows) {
            steps.push(pair.ask(style));
        } else if let Some(&first) = rows.first() {
            let numeral = written(first, style);
            steps.push(ask(
                format!("How can we check the words for {numeral}?"),
                format!("Say them aloud: {}. Then look at each digit.", spoken(first, style)),
            ));
        }
    }
    steps.extend(a_decoy(scene));
    steps.push(act("Let two or three learners show one row and say why it is right."));
    (vec!["The boards as they are.".to_owned()], steps)
}

/// What the + 0 of an expanded form says, in lessons that write it.
fn keeps(number: Number, sum: &str) -> String {
    let places = empty_places(number);
    let words: Vec<&str> = places.iter().map(|place| place.words()).collect();
    let (place, is) = if places.len() == 1 { ("place", "is") } else { ("places", "are") };
    format!("The {} {place} {is} empty. We write {sum}.", list(&words))
}

fn zero_of(number: Number) -> String {
    let words: Vec<&str> = empty_places(number).iter().map(|place| place.words()).collect();
    format!("the {}", either(&words))
}

/// One decoy, shown to all: thinking about a wrong strip teaches more than seeing right ones.
fn a_decoy(scene: &Scene<'_>) -> Option<Step> {
    if !scene.makes(SheetKind::Strips) {
        return None;
    }
    let set = scene.lesson.sets.first()?;
    set.strips.iter().find_map(|strip| {
        let (of, _) = strip.wrong?;
        let Content::Text(text) = &strip.content else { return None };
        let right = form(strip.form, of, scene.style())?;
        Some(ask(
            format!("Someone made the strip \"{text}\" for {}. What went wrong?", written(of, scene.style())),
            format!("It should be {right}."),
        ))
    })
}

/// The quick check.
pub(super) fn exit(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let checks = &scene.lesson.checks;
    let mut steps = Vec::new();
    if scene.makes(SheetKind::Exit) {
        steps.push(act(if checks.len() > 1 {
            "Give each learner one quick check. Neighbours get different numbers in the corner."
        } else {
            "Give each learner one quick check."
        }));
        steps.push(say("Write your name. Work alone. Mark the answer that you think is right."));
        steps.push(act("Read a question aloud to anyone who asks. Do not help with the answer."));
        steps.extend(wrong_choices(scene, checks));
        let table = vec!["Only a pencil. You hold the quick checks.".to_owned()];
        return (table, steps);
    }
    steps.push(say("Write your name. I ask, and you write the answers alone."));
    for question in aloud(checks, scene.questions) {
        steps.push(ask(spoken_question(question), format!("{}.", shown(&question.answer))));
    }
    (vec!["Paper and a pencil for each learner.".to_owned()], steps)
}

/// A wrong choice for each of a few slips.
fn wrong_choices(scene: &Scene<'_>, checks: &[Check]) -> Vec<Step> {
    let mut named = Vec::new();
    let mut steps = Vec::new();
    for check in checks {
        for (k, question) in (1..).zip(check.questions.iter().take(scene.questions)) {
            for (letter, choice, slip) in question.wrong() {
                if steps.len() == WRONG_NAMED || named.contains(&slip) {
                    continue;
                }
                named.push(slip);
                let sees = format!("check {}, question {k}, choice {letter}: {}", check.mark, shown(&choice.content));
                let wrong = Wrong { of: question.of, task: question.task, content: choice.content.clone(), slip };
                steps.push(watch(sees, wrong));
                break;
            }
        }
    }
    steps
}

/// Questions that can be asked without paper: those of the first check that show nothing but a numeral, or words that can be
/// read out.
fn aloud(checks: &[Check], most: usize) -> impl Iterator<Item = &Question> {
    let told = |question: &&Question| !matches!(question.shown, Some(Content::Blocks(_)));
    checks.iter().take(1).flat_map(|check| &check.questions).filter(told).take(most)
}

fn spoken_question(question: &Question) -> String {
    match (&question.shown, question.task) {
        (Some(Content::Text(text)), _) => format!("How do we write {text}?"),
        (_, Task::Forms { asked: Form::Words, .. }) => format!("How do you spell {}?", question.of),
        (_, Task::Forms { asked: Form::Expanded, .. }) => format!("What is {} in expanded form?", question.of),
        (_, Task::Forms { .. } | Task::Worth(_) | Task::Greater(_)) => question.sentence.clone(),
    }
}

fn shown(content: &Content) -> String {
    match content {
        Content::Text(text) => text.clone(),
        Content::Blocks(counts) => {
            let names = [("thousand-block", "thousand-blocks"), ("flat", "flats"), ("rod", "rods"), ("cube", "cubes")];
            let parts: Vec<String> = counts
                .iter()
                .zip(names)
                .filter(|(count, _)| **count > 0)
                .map(|(count, (one, many))| counted(*count, one, many))
                .collect();
            list(&parts)
        }
    }
}

/// Everything goes back.
pub(super) fn clearing(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let spec = &scene.lesson.spec;
    let mut steps = Vec::new();
    if scene.makes(SheetKind::Strips) && spec.numbers.sort.count.value > 0 {
        if spec.print.cut.value == Cut::Scissors {
            let pairs = counted(spec.class.learners.value, "pair", "pairs");
            steps.push(act(format!("Count the scissors back in: {pairs}, closed, handles up.")));
        }
        steps.push(act("Strips go into the envelopes with the learners' names on them."));
    }
    if spec.numbers.model.count.value > 0 && scene.model().iter().all(|n| *n <= Number::MAX_BLOCKS) {
        steps.push(act("Blocks go back in the tub or in their bags. Look under the tables for small pieces."));
    }
    if spec.numbers.exit.count.value > 0 {
        steps.push(act(format!(
            "Collect the quick checks and count them: {}.",
            counted_s(spec.class.learners.value, "paper")
        )));
    }
    if let Some(sentence) = last_word(scene.model(), scene.sort(), scene.style()) {
        steps.push(ask("What do we know about digits now?", sentence));
    }
    (vec!["A bin for scraps, and the envelopes or bags that things came in.".to_owned()], steps)
}

/// What the class takes home, about one of its own numbers.
fn last_word(model: &[Number], sort: &[Number], style: &Style) -> Option<String> {
    let number = model.iter().chain(sort).copied().find(|n| n.len() > 1)?;
    let (place, digit) = number.digits().next()?;
    let whole = worth(number, place, style);
    Some(capital(&format!(
        "the place tells what a digit is worth. In {} the {digit} is worth {whole}.",
        written(number, style)
    )))
}
