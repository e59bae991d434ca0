//! The key to the quick checks: every right answer, what each wrong choice reveals, and what the letters of slips mean.

use crate::diag::Problem;
use crate::lesson::exit::{Check, Question};
use crate::measure::Weight;
use crate::sheets::flow::table::{Table, TableCell, TableColumn};
use crate::sheets::flow::titled::TitledTable;
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::described::{cell, pictured as shown};
use crate::sheets::kinds::exit::questions;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// What the key says of the quick checks; nothing where no check is printed.
pub fn parts(desk: &Desk<'_>) -> Result<Vec<TitledTable>, Problem> {
    let questions = questions(desk)?;
    if questions == 0 || !desk.lesson.makes(SheetKind::Exit) {
        return Ok(Vec::new());
    }
    let mut parts = vec![at_a_glance(desk, questions)];
    for k in 0..questions {
        parts.extend(alike(&desk.lesson.checks, k).map(|checks| part(desk, checks, k)));
    }
    Ok(parts)
}

/// Checks in their order, apart where their question `k` is of another kind than that of the check before; without those
/// that do not have it.
fn alike(checks: &[Check], k: usize) -> impl Iterator<Item = &[Check]> {
    let skill = move |check: &Check| check.questions.get(k).map(|question| question.skill);
    let runs = checks.chunk_by(move |one, other| skill(one) == skill(other));
    runs.filter(move |run| run.first().is_some_and(|check| skill(check).is_some()))
}

/// The right answers alone, to mark a pile with.
fn at_a_glance(desk: &Desk<'_>, questions: usize) -> TitledTable {
    let checks = &desk.lesson.checks;
    let shares = desk.lesson.shares();
    let with = shares.iter().filter(|share| !share.checks.is_empty());
    let whose: Vec<String> = with.map(|share| desk.lesson.wording().whose_checks(share)).collect();
    let wording = desk.lesson.wording();
    let [check, ..] = wording.question_heads();
    let mut columns = vec![TableColumn { heading: check.to_owned(), width: ColumnWidth::Share(2) }];
    columns.extend(
        (1..=questions).map(|k| TableColumn { heading: wording.question(k, None), width: ColumnWidth::Share(3) }),
    );
    let row = |check: &Check| {
        let answers = check.questions.iter().take(questions).map(|question| TableCell::Bold(right(desk, question)));
        let blank = std::iter::repeat_n(TableCell::Empty, questions.saturating_sub(check.questions.len()));
        std::iter::once(TableCell::Text(check.mark.to_string())).chain(answers).chain(blank).collect()
    };
    TitledTable {
        heading: wording.right_answers().to_owned(),
        note: (!whose.is_empty()).then(|| whose.join(" ")),
        table: Table { columns, rows: checks.iter().map(row).collect() },
    }
}

/// The letter of the right answer, or the answer that is written.
fn right(desk: &Desk<'_>, question: &Question) -> String {
    question.letter().map_or_else(|| shown(desk, &question.answer), String::from)
}

/// One question of all checks.
fn part(desk: &Desk<'_>, checks: &[Check], k: usize) -> TitledTable {
    let [check, question, answer, wrong] = desk.lesson.wording().question_heads();
    let asked_in = |check: &Check| check.questions.get(k).map(|question| question.wrong().count());
    // Answers that are written have no wrong choices.
    let choices = checks.iter().filter_map(asked_in).max().unwrap_or(0);
    let those = || checks.iter().filter_map(|check| Some((check, check.questions.get(k)?)));
    let shares = Shares::of(desk, those().map(|(_, question)| question));
    let mut columns = vec![
        (check, ColumnWidth::Share(2)),
        (question, ColumnWidth::Share(shares.question)),
        (answer, ColumnWidth::Share(shares.answer)),
    ];
    columns.extend(std::iter::repeat_n((wrong, ColumnWidth::Share(7)), choices));
    let row = |(check, question): (&Check, &Question)| {
        let letter = question.letter().map(|letter| format!("{letter}: ")).unwrap_or_default();
        let wrong = question.wrong().map(|(letter, choice, slip)| {
            let mark = desk.lesson.letter(slip).map(|mark| format!("{mark}, ")).unwrap_or_default();
            TableCell::Text(format!(
                "{letter}: {} ({mark}{})",
                shown(desk, &choice.content),
                desk.lesson.wording().slip_name(slip)
            ))
        });
        let mut cells = vec![
            TableCell::Text(check.mark.to_string()),
            asked(desk, question),
            TableCell::Bold(format!("{letter}{}", shown(desk, &question.answer))),
        ];
        cells.extend(wrong.chain(std::iter::repeat(TableCell::Empty)).take(choices));
        cells
    };
    let skill = checks.iter().find_map(|check| check.questions.get(k)).map(|question| question.skill);
    let skill = skill.map(|skill| desk.lesson.skill_name(skill));
    TitledTable {
        heading: desk.lesson.wording().question(k + 1, skill.as_deref()),
        note: None,
        table: Table {
            columns: columns.into_iter().map(|(h, width)| TableColumn { heading: h.to_owned(), width }).collect(),
            rows: those().map(row).collect(),
        },
    }
}

/// How the room of a table is parted between a question and its answer.
#[derive(Debug, Clone, Copy)]
struct Shares {
    question: u32,
    answer: u32,
}

impl Shares {
    /// As in other tables; a long question takes from answers that are short.
    fn of<'q>(desk: &Desk<'_>, questions: impl Iterator<Item = &'q Question>) -> Self {
        let (mut asks, mut answers) = (0, 0);
        for question in questions {
            let asked = question.shown.as_ref().map_or(question.sentence.clone(), |content| shown(desk, content));
            asks = asks.max(asked.chars().count());
            answers = answers.max(shown(desk, &question.answer).chars().count());
        }
        if asks > LONG && answers <= SHORT { Self { question: 9, answer: 4 } } else { Self { question: 6, answer: 5 } }
    }
}

/// A question of more letters takes three lines or more in its usual column.
const LONG: usize = 44;
/// An answer of so many letters stands on one line in a narrow one.
const SHORT: usize = 9;

/// What the question shows, or its sentence where that holds the number.
fn asked(desk: &Desk<'_>, question: &Question) -> TableCell {
    match &question.shown {
        Some(content) if content.line().is_some() => cell(desk, question.task.shown(), content, Weight::Regular),
        Some(content) => TableCell::Text(shown(desk, content)),
        None => TableCell::Text(question.sentence.clone()),
    }
}
