//! Sorting and matching: what the class does with boards and strips, and what to ask while walking round.

use super::talk::twins;
use super::{Scene, Step, act, ask, say, watch};
use crate::lesson::say::{capital, counted_s, expanded, list, spoken, written};
use crate::lesson::{SortSet, Wrong};
use crate::number::{Content, Digits, Form, Number, Style, Task};
use crate::spec::{Cut, SheetKind};

/// Decoys of one set that the plan names; the key has them all.
const DECOYS_NAMED: usize = 2;
/// From this many minutes a number on there is more time than sorting takes (common practice, no source).
const SPARE: u32 = 5;
/// From this many minutes on the class gets a moment to stretch (common practice, no source).
const LONG: u32 = 25;

pub(super) fn write(scene: &Scene<'_>) -> (Vec<String>, Vec<Step>) {
    let lesson = scene.lesson;
    let (board, strips) = (scene.makes(SheetKind::Board), scene.makes(SheetKind::Strips));
    let scissors = strips && lesson.spec.print.cut.value == Cut::Scissors;
    let versions = lesson.sets.len();
    let mut steps = Vec::new();
    if versions > 1 && (board || strips) {
        let letters: Vec<String> = lesson.sets.iter().map(|set| set.version.to_string()).collect();
        steps.push(act(format!("Give each learner one set. Neighbours get different letters: {}.", list(&letters))));
    } else if board || strips {
        steps.push(act("Give each learner one set."));
    }
    if scissors {
        steps.push(say("We sit down to cut. We cut only paper. We pass scissors closed, handles first."));
        steps.push(act("Learners cut along the lines. Keep the pieces of each learner together."));
    }
    steps.extend(task(scene, board, strips));
    if versions == 1 || (!board && !strips) {
        steps.extend(asked(scene, None));
    } else {
        for set in lesson.sets.iter().take(3) {
            steps.extend(asked(scene, Some(set)));
        }
    }
    if strips {
        steps.extend(decoys(scene));
    }
    if scene.minutes >= SPARE * u32::try_from(scene.sort().len().max(4)).unwrap_or(u32::MAX) {
        steps.push(act("There is time to spare. Each learner writes one wrong strip, and a partner finds out why."));
    }
    if scene.minutes >= LONG {
        steps.push(act("Halfway through, stop everyone. Let them stand, stretch and look at another table."));
    }
    steps.push(finished(scene));
    (table(scene, board, strips, scissors), steps)
}

fn table(scene: &Scene<'_>, board: bool, strips: bool, scissors: bool) -> Vec<String> {
    let spec = &scene.lesson.spec;
    let mut table = Vec::new();
    match (board, strips) {
        (true, true) if scissors => table.push("A sorting board and a page of strips for each learner.".to_owned()),
        (true, true) => table.push("A sorting board and a pile of cut strips for each learner.".to_owned()),
        (true, false) => table.push("A sorting board and a pencil for each learner.".to_owned()),
        (false, true) => table.push("The strips for each learner.".to_owned()),
        (false, false) => table.push("Paper and a pencil for each learner.".to_owned()),
    }
    if scissors {
        table.push("Scissors for each learner, and an envelope for the pieces.".to_owned());
    }
    if scene.makes(SheetKind::Tally) {
        let learners = counted_s(spec.class.learners.value, "learner");
        table.push(format!("The tally sheet for you, with room for {learners}."));
    }
    table
}

/// What the learners are told to do.
fn task(scene: &Scene<'_>, board: bool, strips: bool) -> Vec<Step> {
    let matched = &scene.lesson.spec.forms.matched.value;
    let given = matched.first().copied().unwrap_or(Form::Numeral);
    let others: Vec<&str> = matched.iter().skip(1).map(|form| form.plural()).collect();
    let mut steps = Vec::new();
    match (board, strips) {
        (true, true) => {
            let shows = given.one();
            steps
                .push(say(format!("Each row of your board shows {shows}. Find the strips that show the same number.")));
            steps.push(say("Lay each strip in a box of its row. Do not glue it yet."));
            if let Some(first) = others.first().filter(|_| others.len() > 1) {
                steps.push(act(format!("Let them place one kind at a time. Begin with the {first}.")));
            }
        }
        (true, false) => steps.push(say("Look at each row. Write the same number in the other boxes.")),
        (false, true) => steps.push(say("Put all the strips that show the same number in one row.")),
        (false, false) => {
            let numerals: Vec<String> = scene.sort().iter().take(8).map(|n| written(*n, scene.style())).collect();
            steps.push(act(format!("Write these numbers on the board: {}.", list(&numerals))));
            steps.push(say(format!("Write each number again as {}.", list(&written_forms(matched)))));
        }
    }
    let decoys = scene.lesson.sets.first().is_some_and(|set| set.strips.iter().any(|strip| strip.row.is_none()));
    if strips && decoys {
        steps.push(say("Some strips fit no row. Put those aside, and find out what is wrong with them."));
    }
    steps
}

fn written_forms(matched: &[Form]) -> Vec<&'static str> {
    matched.iter().filter(|form| **form != Form::Numeral).map(|form| form.written()).collect()
}

/// Questions for a set, on the pair of its rows that is most easily mixed up.
fn asked(scene: &Scene<'_>, set: Option<&SortSet>) -> Vec<Step> {
    let style = scene.style();
    let rows = set.map_or_else(|| scene.sort(), |set| &set.rows);
    // "How" at the start of a question, "Set A: how" after a set's letter.
    let lead = |word: &str| set.map_or_else(|| capital(word), |set| format!("Set {}: {word}", set.version));
    if let Some((a, b)) = same_digits(rows) {
        let (x, y) = (written(a, style), written(b, style));
        return vec![ask(format!("{} do you tell {x} from {y}?", lead("how")), differ(a, b, style))];
    }
    if let Some(pair) = twins(rows) {
        let Step::Ask { question, expect } = pair.ask(style) else { return Vec::new() };
        let question = question.strip_prefix("Is").unwrap_or(&question);
        return vec![ask(format!("{}{question}", lead("is")), expect)];
    }
    let Some(&first) = rows.first() else { return Vec::new() };
    let (sum, words) = (expanded(first, style), spoken(first, style));
    let expect = if sum.contains('+') { format!("It is {sum}. We say {words}.") } else { format!("We say {words}.") };
    vec![ask(format!("{} do you know what belongs to {}?", lead("how"), written(first, style)), expect)]
}

/// The first two rows made of the same digits in different places.
pub(super) fn same_digits(rows: &[Number]) -> Option<(Number, Number)> {
    let same = |a: Number, b: Number| a != b && Digits::of(a) == Digits::of(b);
    rows.iter().enumerate().find_map(|(k, &a)| rows[k + 1..].iter().copied().find(|&b| same(a, b)).map(|b| (a, b)))
}

/// In which digit two numbers differ first, seen from the left.
pub(super) fn differ(a: Number, b: Number, style: &Style) -> String {
    let place = a.digits().zip(b.digits()).find(|((_, x), (_, y))| x != y).map(|((place, _), _)| place);
    let Some(place) = place else { return String::new() };
    format!(
        "Look at the {} place. {} has {} there, and {} has {}.",
        place.words(),
        written(a, style),
        a.digit(place),
        written(b, style),
        b.digit(place)
    )
}

/// Decoys to look out for, from different sets where there are any.
fn decoys(scene: &Scene<'_>) -> Vec<Step> {
    let style = scene.style();
    let mut named = Vec::new();
    let mut steps = Vec::new();
    for set in &scene.lesson.sets {
        for strip in &set.strips {
            let (Some((of, slip)), Content::Text(text)) = (strip.wrong, &strip.content) else { continue };
            if steps.len() == DECOYS_NAMED || named.contains(&slip) {
                continue;
            }
            named.push(slip);
            let sees = format!("set {}: {text} in the row of {}", set.version, written(of, style));
            let wrong = Wrong { of, task: Task::forms(set.given, strip.form), content: strip.content.clone(), slip };
            steps.push(watch(sees, wrong));
        }
    }
    steps
}

/// For those who are done early.
fn finished(scene: &Scene<'_>) -> Step {
    let mut text = "Whoever is done early checks with a partner".to_owned();
    if scene.lesson.sets.len() > 1 {
        text += ", then swaps seats and checks a board with another letter.";
    } else {
        text += ", then puts all the numbers in order from least to greatest.";
    }
    act(text)
}
