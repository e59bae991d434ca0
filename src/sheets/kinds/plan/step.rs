//! One step of the plan: its label and its lines.

use crate::diag::Problem;
use crate::lesson::teach::Step;
use crate::measure::{Length, Point};
use crate::sheets::flow::column::Column;
use crate::sheets::kinds::plan::PlanLook;
use crate::sheets::page::ink;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Node, Stroke, Tag};

/// A step as it is printed: a label and paragraphs.
pub(super) struct Set {
    label: &'static str,
    lines: Vec<(String, Face)>,
    /// Said aloud: behind a bar.
    bar: bool,
    /// A short answer to expect, which may stand beside the question.
    answer: Option<(String, Face)>,
}

/// Between the bar and what is said.
const BESIDE_BAR: Length = Length::mm100(250);
/// Where answers beside questions stand, in percent of the text's width.
const ANSWERS: i64 = 56;
/// The bar: heavy enough to be found at arm's length.
const BAR: Stroke = Stroke { width: Length::pt100(225), paint: ink::TEXT, dash: None };

pub(super) fn set(look: &PlanLook, step: &Step) -> Set {
    match step {
        Step::Do(text) => Set { label: "Do", lines: vec![(text.clone(), look.body)], bar: false, answer: None },
        Step::Say(text) => Set { label: "Say", lines: vec![(text.clone(), look.speech)], bar: true, answer: None },
        Step::Ask { question, expect } => Set {
            label: "Ask",
            lines: vec![(question.clone(), look.speech)],
            bar: true,
            answer: Some((format!("Expect: {expect}"), look.body)),
        },
        Step::Watch { sees, wrong, letter, told } => {
            let letter = letter.map(|letter| format!("{letter}, ")).unwrap_or_default();
            let name = format!("{letter}{}", wrong.slip.name());
            let lines = if *told {
                vec![(format!("If you see {sees}: {name}, as explained above."), look.body)]
            } else {
                let why = format!("Thinking: {} Next: {}", wrong.slip.thinking(), wrong.slip.next_step());
                vec![(format!("If you see {sees}: {name}."), look.body), (why, look.small)]
            };
            Set { label: "Watch", lines, bar: false, answer: None }
        }
    }
}

impl Set {
    fn indent(&self, look: &PlanLook) -> Length {
        look.times + look.labels + if self.bar { BESIDE_BAR } else { Length::ZERO }
    }

    /// Where an answer stands that fits beside its question on one line; `None` where it goes below.
    fn beside(&self, column: &Column<'_>, look: &PlanLook) -> Option<Length> {
        let (answer, face) = self.answer.as_ref()?;
        let (question, asked) = self.lines.first()?;
        let indent = self.indent(look);
        let at = indent + (column.frame.width() - indent).scaled(ANSWERS, 100);
        let one = |text: &str, face: &Face, from: Length, to: Length| column.width(text, face) <= to - from;
        let both = one(question, asked, indent, at - Length::mm(4)) && one(answer, face, at, column.frame.width());
        both.then_some(at)
    }

    pub(super) fn height(&self, column: &Column<'_>, look: &PlanLook) -> Length {
        let indent = self.indent(look);
        let below = self.answer.iter().filter(|_| self.beside(column, look).is_none());
        self.lines.iter().chain(below).map(|(text, face)| column.height(text, face, indent)).sum()
    }

    pub(super) fn draw(&self, column: &mut Column<'_>, look: &PlanLook) -> Result<Node, Problem> {
        let label = column.beside(self.label, &look.label, look.times, look.labels, Tag::Label)?;
        let indent = self.indent(look);
        let beside = self.beside(column, look);
        let mut body = Vec::new();
        let top = column.y;
        let mut said = top;
        for (k, (text, face)) in self.lines.iter().enumerate() {
            body.push(column.text(text, face, indent, Tag::Paragraph)?);
            if k == 0 {
                said = column.y;
            }
        }
        match (&self.answer, beside) {
            (Some((answer, face)), Some(at)) => {
                let below = std::mem::replace(&mut column.y, top);
                body.push(column.beside(answer, face, at, column.frame.width() - at, Tag::Paragraph)?);
                column.y = below;
            }
            (Some((answer, face)), None) => body.push(column.text(answer, face, indent, Tag::Paragraph)?),
            (None, _) => {}
        }
        if self.bar {
            let x = column.frame.left() + look.times + look.labels + BAR.width.half();
            let inset = Length::mm100(60);
            let line = Item::Line { from: Point::new(x, top + inset), to: Point::new(x, said - inset), stroke: BAR };
            body.push(Node::artifact(line));
        }
        Ok(Node::tagged(Tag::ListItem, [label, Node::Tagged(Tag::ListBody, body)]))
    }
}
