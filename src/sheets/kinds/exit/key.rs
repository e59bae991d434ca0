//! The key to the quick checks: every right answer, and what each wrong choice reveals.

use crate::diag::Problem;
use crate::lesson::exit::{Check, Question, checks};
use crate::number::Content;
use crate::sheets::blocks::geometry;
use crate::sheets::flow::table::{Table, TableCell, TableColumn};
use crate::sheets::flow::titled::{self, TablePages, TitledTable};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::exit::questions;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// Lays the key's pages out; none where no check is printed. They are pages of the key.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let checks = checks(desk.lesson);
    if checks.is_empty() || !desk.lesson.spec.sheets.make.value.contains(&SheetKind::Exit) {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::Key)?;
    let questions = questions(desk)?;
    let parts: Vec<TitledTable> = checks.iter().map(|check| part(check, questions)).collect();
    let title = desk.lesson.wording().checks_key_title();
    let note = "The number of a check stands in its top right corner.";
    let setup = TablePages { kind: SheetKind::Key, layout, title, note: Some(note), pictures: None };
    let pages = titled::lay(desk, &setup, &parts)?;
    Ok(pages.into_iter().map(|page| Page { name: title.to_owned(), ..page }).collect())
}

/// One check's answers.
fn part(check: &Check, questions: usize) -> TitledTable {
    let columns = [
        ("Question", ColumnWidth::Share(5)),
        ("Right answer", ColumnWidth::Share(4)),
        ("Wrong choices, and the slip behind each", ColumnWidth::Share(8)),
    ];
    let row = |(k, question): (u32, &Question)| {
        let letter = question.letter().map(|letter| format!("{letter}: ")).unwrap_or_default();
        let wrong: Vec<String> = question
            .wrong()
            .map(|(letter, choice, slip)| format!("{letter}: {} ({}).", shown(&choice.content), slip.name()))
            .collect();
        let wrong = if wrong.is_empty() { "The answer is written.".to_owned() } else { wrong.join(" ") };
        vec![
            TableCell::Text(asked(k, question)),
            TableCell::Bold(format!("{letter}{}", shown(&question.answer))),
            TableCell::Text(wrong),
        ]
    };
    TitledTable {
        heading: format!("Check {}", check.mark),
        note: None,
        table: Table {
            columns: columns.into_iter().map(|(h, width)| TableColumn { heading: h.to_owned(), width }).collect(),
            rows: (1..).zip(check.questions.iter().take(questions)).map(row).collect(),
        },
    }
}

/// The question as it stands on the slip, with what it shows.
fn asked(k: u32, question: &Question) -> String {
    match &question.shown {
        Some(content) => format!("{k}. {} {}", question.sentence, shown(content)),
        None => format!("{k}. {}", question.sentence),
    }
}

fn shown(content: &Content) -> String {
    match content {
        Content::Text(text) => text.clone(),
        Content::Blocks(counts) => geometry::words(*counts),
    }
}
