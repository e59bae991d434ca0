//! The key to the quick checks: every right answer, and what each wrong choice reveals.

use super::design;
use crate::diag::Problem;
use crate::lesson::exit::{Check, Question, checks};
use crate::measure::Length;
use crate::number::Content;
use crate::sheets::blockwork;
use crate::sheets::column::Column;
use crate::sheets::desk::Desk;
use crate::sheets::head::{self, Head, Headed};
use crate::sheets::ink;
use crate::sheets::layout::Turn;
use crate::sheets::page::{Layer, Node, Page, Reader, Tag};
use crate::sheets::text::Face;
use crate::spec::SheetKind;

/// Lays the key's pages out; none without exit numbers. They are pages of the key.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let checks = checks(desk.lesson);
    if checks.is_empty() {
        return Ok(Vec::new());
    }
    let questions = design(desk, &checks)?.questions;
    let layout = desk.layout(SheetKind::Plan)?;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let headed = || -> Result<Headed, Problem> {
        let note = "A right answer is bold. Each wrong choice names the slip that makes it.";
        let title = "Key: quick checks";
        let head = Head { title, note: Some(note), reader: Reader::Staff, name: false, code: false };
        head::lay(desk, desk.live(size, layout), &head)
    };
    let faces = Faces {
        check: desk.face(layout, "phase")?,
        body: desk.face(layout, "body")?,
        right: desk.face(layout, "speech")?,
        wrong: desk.face(layout, "small")?,
    };
    let mut pages = Vec::new();
    let mut head = headed()?;
    let mut column = Column::new(desk, head.body);
    let mut nodes = Vec::new();
    for check in &checks {
        let needed = faces.height(&column, check, questions);
        if column.left() < needed && !nodes.is_empty() {
            let layer = Layer { nodes: std::mem::take(&mut nodes), ..Layer::default() };
            let full = std::mem::replace(&mut head, headed()?);
            pages.push(desk.finish(SheetKind::Key, size, layout.stock, full, layer));
            column = Column::new(desk, head.body);
        }
        faces.draw(&mut column, check, questions, &mut nodes)?;
    }
    let layer = Layer { nodes, ..Layer::default() };
    pages.push(desk.finish(SheetKind::Key, size, layout.stock, head, layer));
    Ok(pages)
}

struct Faces {
    check: Face,
    body: Face,
    right: Face,
    wrong: Face,
}

/// Answers stand in from the questions.
const INDENT: Length = Length::mm(8);

impl Faces {
    /// What a check's key says: a text, its face and how far in it stands.
    fn lines(&self, check: &Check, questions: usize) -> Vec<(String, Face, Length)> {
        let mut lines = Vec::new();
        for (k, question) in (1..).zip(check.questions.iter().take(questions)) {
            lines.push((asked(k, question), self.body, Length::ZERO));
            let answer = match question.letter() {
                Some(letter) => format!("{letter}  {}", shown(&question.answer)),
                None => shown(&question.answer),
            };
            lines.push((answer, self.right, INDENT));
            for (letter, choice, slip) in question.wrong() {
                let text = format!("{letter}  {}: {}", shown(&choice.content), slip.name());
                lines.push((text, self.wrong.painted(ink::TEXT), INDENT));
            }
        }
        lines
    }

    fn height(&self, column: &Column<'_>, check: &Check, questions: usize) -> Length {
        let lines = self.lines(check, questions);
        let text = lines.iter().map(|(text, face, indent)| column.height(text, face, *indent)).sum::<Length>();
        self.check.pitch() + text + Length::mm(3)
    }

    fn draw(
        &self,
        column: &mut Column<'_>,
        check: &Check,
        questions: usize,
        nodes: &mut Vec<Node>,
    ) -> Result<(), Problem> {
        nodes.push(column.text(&format!("Check {}", check.mark), &self.check, Length::ZERO, Tag::Heading(2))?);
        for (text, face, indent) in self.lines(check, questions) {
            nodes.push(column.text(&text, &face, indent, Tag::Paragraph)?);
        }
        column.skip(Length::mm(3));
        Ok(())
    }
}

/// The question as it stands on the slip, with what it shows.
fn asked(k: u32, question: &Question) -> String {
    match &question.shown {
        Some(content) => format!("{k}. {} ({})", question.sentence, shown(content)),
        None => format!("{k}. {}", question.sentence),
    }
}

fn shown(content: &Content) -> String {
    match content {
        Content::Text(text) => text.clone(),
        Content::Blocks(counts) => blockwork::words(*counts),
    }
}
