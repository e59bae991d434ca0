//! The answers to the practice page, for the key: each with the wrong answers that slips of the lesson give.

use crate::lesson::practice::{Exercise, WrongAnswer, exercises};
use crate::number::{Content, Form, Number, Style, Task};
use crate::sheets::flow::table::{Table, TableCell, TableColumn};
use crate::sheets::flow::titled::TitledTable;
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// A table of answers for each page there is; none where the page is not made.
pub fn key(desk: &Desk<'_>) -> Vec<TitledTable> {
    if !desk.lesson.makes(SheetKind::Practice) {
        return Vec::new();
    }
    let wording = desk.lesson.wording();
    let mut parts = Vec::new();
    for part in desk.lesson.parts() {
        let rows: Vec<Vec<TableCell>> =
            (1..).zip(exercises(desk.lesson, &part)).map(|(k, exercise)| row(desk, part.style, k, &exercise)).collect();
        if rows.is_empty() {
            continue;
        }
        let columns = wording.practice_heads().into_iter().zip([1, 4, 6]);
        let columns = columns
            .map(|(heading, parts)| TableColumn { heading: heading.to_owned(), width: ColumnWidth::Share(parts) });
        let shares = desk.lesson.shares();
        let share = shares.iter().find(|share| !part.versions.is_empty() && share.versions == part.versions);
        parts.push(TitledTable {
            heading: wording.practice_answers(part.versions),
            note: share.map(|share| wording.whose_practice(share)),
            table: Table { columns: columns.collect(), rows },
        });
    }
    parts
}

fn row(desk: &Desk<'_>, style: &Style, k: usize, exercise: &Exercise) -> Vec<TableCell> {
    let wording = desk.lesson.wording();
    let wrong = exercise.wrong(desk.lesson, style).into_iter().map(|(answer, slip)| {
        let letter = desk.lesson.letter(slip).map(|letter| format!("{letter}, ")).unwrap_or_default();
        let answer = match answer {
            WrongAnswer::Written(content) => said(&content),
            WrongAnswer::TakenForGreater(greater, lesser) => {
                wording.taken_for_greater(&style.numeral(lesser), &style.numeral(greater))
            }
            WrongAnswer::Overlooked => wording.overlooked().to_owned(),
        };
        format!("{answer} ({letter}{})", wording.slip_name(slip))
    });
    let wrong = wrong.collect::<Vec<_>>().join("; ");
    vec![TableCell::Text(k.to_string()), TableCell::Bold(right(style, exercise)), TableCell::Text(wrong)]
}

/// The right answer.
fn right(style: &Style, exercise: &Exercise) -> String {
    let numeral = |number: &Number| style.numeral(*number);
    let text = |content: Option<Content>| content.map(|content| said(&content)).unwrap_or_default();
    match exercise {
        Exercise::Worth(of, place) => text(Task::Worth(*place).right(*of, style)),
        Exercise::Places(of) => text(Form::Numeral.content(*of, style)),
        Exercise::Trade(of) => Exercise::traded(*of).map(|[_, (_, count)]| count.to_string()).unwrap_or_default(),
        Exercise::Compare(pairs) => {
            let sign = |(one, other): &(Number, Number)| {
                let sign = match one.cmp(other) {
                    std::cmp::Ordering::Less => '<',
                    std::cmp::Ordering::Equal => '=',
                    std::cmp::Ordering::Greater => '>',
                };
                format!("{} {sign} {}", numeral(one), numeral(other))
            };
            pairs.iter().map(sign).collect::<Vec<_>>().join("; ")
        }
        Exercise::Order(numbers) => {
            let mut sorted = numbers.clone();
            sorted.sort_unstable();
            sorted.iter().map(numeral).collect::<Vec<_>>().join("; ")
        }
        Exercise::Line { at, .. } => numeral(at),
        Exercise::Odd { shown, odd, .. } => shown.get(*odd).map(said).unwrap_or_default(),
    }
}

/// Practice shows no pictures.
fn said(content: &Content) -> String {
    content.line().map(str::to_owned).unwrap_or_default()
}
