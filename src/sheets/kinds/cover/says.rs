//! What the cover says.

use crate::diag::Problem;
use crate::lesson::Lesson;
use crate::lesson::job::For;
use crate::sheets::kinds::cover::PageRun;
use crate::sheets::kinds::record;
use crate::sheets::page::desk::Desk;
use crate::spec::{Cut, SheetKind};

/// Under the title.
pub(super) fn opening(lesson: &Lesson) -> String {
    let spec = &lesson.spec;
    let learners = lesson.wording().learners(spec.class.learners.value);
    let grade = spec.grade.as_ref().map(|grade| format!(", grade {}", grade.value)).unwrap_or_default();
    format!(
        "For whoever teaches this lesson today: {} minutes, {learners}{grade}. You need nothing that is not listed here.",
        spec.minutes.value
    )
}

/// The pages of the first run of a kind: "page 3", "pages 3–5"; `None` without one.
fn pages(runs: &[PageRun], wanted: impl Fn(&PageRun) -> bool) -> Option<String> {
    let found: Vec<&PageRun> = runs.iter().filter(|run| wanted(run)).collect();
    let (first, last) = (found.first()?.first, found.last()?.last);
    Some(if first == last { format!("page {first}") } else { format!("pages {first}\u{2013}{last}") })
}

pub(super) fn first(desk: &Desk<'_>, runs: &[PageRun]) -> Vec<String> {
    let lesson = desk.lesson;
    let mut items = Vec::new();
    if let Some(plan) = pages(runs, |run| run.sheet == SheetKind::Plan) {
        items.push(format!(
            "Read the plan on {plan}. Bold lines are said aloud; each question has its answer below or beside it."
        ));
    }
    items.push(
        "Put the things listed under \u{201c}To lay out\u{201d} on a side table. Hand out nothing yet.".to_owned(),
    );
    let first = lesson.chosen.model.first().or_else(|| lesson.chosen.sort.first().and_then(|rows| rows.first()));
    if let Some(number) = first {
        items.push(format!("Write {} on the board: the lesson begins with it.", lesson.style.numeral(*number)));
    }
    items.push("Check who is here, and fill in the lines for the school with someone who knows it.".to_owned());
    items
}

pub(super) fn answers(runs: &[PageRun]) -> Vec<String> {
    let mut items = vec!["In the plan: the answer to expect stands with each question.".to_owned()];
    // The answers to boards are a version's; those to quick checks are everyone's.
    let exit = |run: &PageRun| run.sheet == SheetKind::Key && run.version.is_none();
    if let Some(key) = pages(runs, |run| run.sheet == SheetKind::Key && !exit(run)) {
        items.push(format!("Boards and strips: the key on {key}. It also says what each wrong strip shows."));
    }
    if let Some(key) = pages(runs, exit) {
        items.push(format!("Quick checks: the key on {key}."));
    }
    items
}

pub(super) fn finishers(desk: &Desk<'_>) -> Result<Vec<String>, Problem> {
    let lesson = desk.lesson;
    let mut items = Vec::new();
    if lesson.sets.len() > 1 {
        items.push("Check a partner's board, then do a set with another letter.".to_owned());
    } else if !lesson.sets.is_empty() {
        items.push("Check a partner's board, then put all its numbers in order from least to greatest.".to_owned());
    }
    if makes(desk, SheetKind::Record) && record::empty_rows(desk)? > 0 {
        items.push("Fill an empty row of the recording sheet with a number of their own.".to_owned());
    }
    items.push("Think of a wrong way to write a number. A partner finds out what is wrong with it.".to_owned());
    Ok(items)
}

pub(super) fn missing(desk: &Desk<'_>, runs: &[PageRun]) -> Vec<String> {
    let lesson = desk.lesson;
    let mut items = Vec::new();
    if let Some(found) = pages(runs, |run| matches!(run.reader, For::Learner(_))) {
        items.push(format!("Copy {found} of this packet at actual size, once for each learner."));
    }
    let rows = lesson.chosen.sort.first().map_or(&[][..], |rows| rows);
    let numerals: Vec<String> = rows.iter().take(6).map(|n| lesson.style.numeral(*n)).collect();
    let numerals: Vec<&str> = numerals.iter().map(String::as_str).collect();
    if numerals.is_empty() {
        items.push("Without a copier: ask the questions of the plan aloud. Learners answer on paper.".to_owned());
    } else {
        items.push(format!("Without a copier: write {} on the board.", lesson.wording().list(&numerals)));
        items.push(
            "Learners write each number on paper in words and in expanded form, and draw it if they can.".to_owned(),
        );
    }
    items
}

pub(super) fn cautions(desk: &Desk<'_>) -> Vec<String> {
    let spec = &desk.lesson.spec;
    let mut items = vec!["The school's own rules come before anything printed here.".to_owned()];
    let strips = makes(desk, SheetKind::Strips) && !desk.lesson.sets.is_empty();
    if strips && spec.print.cut.value == Cut::Scissors {
        items.push(
            "Scissors: blunt tips. Learners sit to cut, cut only paper, and never walk with open blades.".to_owned(),
        );
        items.push("Pass scissors closed, handles first. Stay with the class, and count them back in.".to_owned());
    } else if strips || makes(desk, SheetKind::Blocks) || makes(desk, SheetKind::Layered) {
        items.push(
            "Cutting was done before the lesson. A paper guillotine is for adults only, with its guard on.".to_owned(),
        );
    }
    if makes(desk, SheetKind::Blocks) || strips {
        items.push(
            "Small pieces stay on the tables. Keep cubes, counters and scraps from children under three.".to_owned(),
        );
    }
    items
}

fn makes(desk: &Desk<'_>, sheet: SheetKind) -> bool {
    desk.lesson.spec.sheets.make.value.contains(&sheet)
}

pub(super) const SCHOOL_NOTE: &str =
    "In an emergency follow the school's own procedures. Find out where they are kept before the class comes in.";

/// Labels and how many lines each gets.
pub(super) const SCHOOL: [(&str, u32); 5] = [
    ("Room and bell times", 1),
    ("Routines: hands up, toilet, tidying", 1),
    ("Who helps, and how to reach the office", 1),
    ("Emergency procedures are kept", 1),
    ("Learners with a plan of their own: ask the office", 1),
];

pub(super) const BACK_NOTE: &str = "Please leave this page with the tally and the quick checks.";

/// Labels and how many lines each gets.
pub(super) const BACK: [(&str, u32); 5] = [
    ("Taught by, and when", 1),
    ("Who finished", 2),
    ("Who needs help, and with what", 2),
    ("What was left undone", 1),
    ("What surprised you", 1),
];
