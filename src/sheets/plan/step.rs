//! One step of the plan: its label and its lines.

use super::Look;
use crate::diag::Problem;
use crate::lesson::teach::Step;
use crate::measure::{Length, Point};
use crate::sheets::column::Column;
use crate::sheets::ink;
use crate::sheets::page::{Item, Node, Stroke, Tag};
use crate::sheets::text::Face;

/// A step as it is printed: a label and paragraphs.
pub(super) struct Set {
    label: &'static str,
    lines: Vec<(String, Face)>,
    /// Said aloud: behind a bar.
    bar: bool,
}

/// Between the bar and what is said.
const BESIDE_BAR: Length = Length::mm100(250);
/// The bar: heavy enough to be found at arm's length.
const BAR: Stroke = Stroke { width: Length::pt100(225), paint: ink::TEXT, dash: None };

pub(super) fn set(look: &Look, step: &Step) -> Set {
    match step {
        Step::Do(text) => Set { label: "Do", lines: vec![(text.clone(), look.body)], bar: false },
        Step::Say(text) => Set { label: "Say", lines: vec![(text.clone(), look.speech)], bar: true },
        Step::Ask { question, expect } => Set {
            label: "Ask",
            lines: vec![(question.clone(), look.speech), (format!("Expect: {expect}"), look.body)],
            bar: true,
        },
        Step::Watch { sees, wrong, told } => {
            let name = wrong.slip.name();
            let lines = if *told {
                vec![(format!("If you see {sees}: {name}, as explained above."), look.body)]
            } else {
                let why = format!("Thinking: {} Next: {}", wrong.slip.thinking(), wrong.slip.next_step());
                vec![(format!("If you see {sees}: {name}."), look.body), (why, look.small)]
            };
            Set { label: "Watch", lines, bar: false }
        }
    }
}

impl Set {
    fn indent(&self, look: &Look) -> Length {
        look.times + look.labels + if self.bar { BESIDE_BAR } else { Length::ZERO }
    }

    pub(super) fn height(&self, column: &Column<'_>, look: &Look) -> Length {
        let indent = self.indent(look);
        self.lines.iter().map(|(text, face)| column.height(text, face, indent)).sum()
    }

    pub(super) fn draw(&self, column: &mut Column<'_>, look: &Look) -> Result<Node, Problem> {
        let label = column.beside(self.label, &look.label, look.times, look.labels, Tag::Label)?;
        let indent = self.indent(look);
        let mut body = Vec::new();
        for (k, (text, face)) in self.lines.iter().enumerate() {
            let top = column.y;
            body.push(column.text(text, face, indent, Tag::Paragraph)?);
            if self.bar && k == 0 {
                let x = column.frame.left() + look.times + look.labels + BAR.width.half();
                let inset = Length::mm100(60);
                let line =
                    Item::Line { from: Point::new(x, top + inset), to: Point::new(x, column.y - inset), stroke: BAR };
                body.push(Node::artifact(line));
            }
        }
        Ok(Node::tagged(Tag::ListItem, [label, Node::Tagged(Tag::ListBody, body)]))
    }
}
