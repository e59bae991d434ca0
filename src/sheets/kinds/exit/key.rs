//! The key to the quick checks: every right answer, what each wrong choice reveals, and what the letters of slips mean.

use crate::diag::Problem;
use crate::lesson::exit::{Check, Question};
use crate::measure::Weight;
use crate::sheets::flow::table::{Table, TableCell, TableColumn};
use crate::sheets::flow::titled::TitledTable;
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::exit::questions;
use crate::sheets::kinds::told::{cell, pictured as shown};
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// What the key says of the quick checks; nothing where no check is printed.
pub fn parts(desk: &Desk<'_>) -> Result<Vec<TitledTable>, Problem> {
    let questions = questions(desk)?;
    if questions == 0 || !desk.lesson.spec.sheets.make.value.contains(&SheetKind::Exit) {
        return Ok(Vec::new());
    }
    let mut parts = Vec::new();
    for (note, checks) in by_group(desk) {
        parts.push(TitledTable { note, ..at_a_glance(desk, checks, questions) });
        parts.extend((0..questions).map(|k| part(desk, checks, k)).filter(|part| !part.table.rows.is_empty()));
    }
    Ok(parts)
}

/// The checks of each group with whose they are; all of them, without a word, where there are no groups.
fn by_group<'l>(desk: &Desk<'l>) -> Vec<(Option<String>, &'l [Check])> {
    let checks = desk.lesson.checks.as_slice();
    let shares = desk.lesson.shares();
    if shares.is_empty() {
        return vec![(None, checks)];
    }
    let mut left = checks;
    let mut groups = Vec::new();
    for share in shares.iter().filter(|share| !share.checks.is_empty()) {
        let (own, rest) = left.split_at(share.checks.len().min(left.len()));
        left = rest;
        groups.push((Some(desk.lesson.wording().whose_checks(share)), own));
    }
    groups
}

/// The right answers alone, to mark a pile with.
fn at_a_glance(desk: &Desk<'_>, checks: &[Check], questions: usize) -> TitledTable {
    let wording = desk.lesson.wording();
    let [check, ..] = wording.question_heads();
    let mut columns = vec![TableColumn { heading: check.to_owned(), width: ColumnWidth::Share(2) }];
    columns.extend(
        (1..=questions).map(|k| TableColumn { heading: wording.question(k, None), width: ColumnWidth::Share(3) }),
    );
    let row = |check: &Check| {
        let answers = check.questions.iter().take(questions).map(|question| TableCell::Bold(right(desk, question)));
        std::iter::once(TableCell::Text(check.mark.to_string())).chain(answers).collect()
    };
    TitledTable {
        heading: wording.right_answers().to_owned(),
        note: None,
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
    let columns = [
        (check, ColumnWidth::Share(2)),
        (question, ColumnWidth::Share(6)),
        (answer, ColumnWidth::Share(5)),
        (wrong, ColumnWidth::Share(7)),
        (wrong, ColumnWidth::Share(7)),
    ];
    let row = |(check, question): (&Check, &Question)| {
        let letter = question.letter().map(|letter| format!("{letter}: ")).unwrap_or_default();
        let mut wrong = question.wrong().map(|(letter, choice, slip)| {
            let mark = desk.lesson.letter(slip).map(|mark| format!("{mark}, ")).unwrap_or_default();
            TableCell::Text(format!(
                "{letter}: {} ({mark}{})",
                shown(desk, &choice.content),
                desk.lesson.wording().slip_name(slip)
            ))
        });
        let mut next = || wrong.next().unwrap_or(TableCell::Empty);
        let (first, second) = (next(), next());
        vec![
            TableCell::Text(check.mark.to_string()),
            asked(desk, question),
            TableCell::Bold(format!("{letter}{}", shown(desk, &question.answer))),
            first,
            second,
        ]
    };
    let asked = checks.iter().filter_map(|check| Some((check, check.questions.get(k)?)));
    let skill = checks.iter().find_map(|check| check.questions.get(k)).map(|question| question.skill);
    let skill = skill.map(|skill| desk.lesson.wording().skill(skill));
    TitledTable {
        heading: desk.lesson.wording().question(k + 1, skill),
        note: None,
        table: Table {
            columns: columns.into_iter().map(|(h, width)| TableColumn { heading: h.to_owned(), width }).collect(),
            rows: asked.map(row).collect(),
        },
    }
}

/// What the question shows, or its sentence where that holds the number.
fn asked(desk: &Desk<'_>, question: &Question) -> TableCell {
    match &question.shown {
        Some(content) if content.line().is_some() => cell(desk, question.task.shown(), content, Weight::Regular),
        Some(content) => TableCell::Text(shown(desk, content)),
        None => TableCell::Text(question.sentence.clone()),
    }
}
