//! One step of the plan: its label and its lines.

use std::borrow::Cow;

use crate::diag::Problem;
use crate::lesson::Lesson;
use crate::lesson::teach::{Seen, Step};
use crate::measure::{Length, Point};
use crate::sheets::flow::column::Column;
use crate::sheets::kinds::plan::PlanLook;
use crate::sheets::page::ink;
use crate::sheets::page::text::{self, Face};
use crate::sheets::page::{Item, Node, Stroke, Tag};
use crate::wording::plan::Reply;

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

pub(super) fn set(look: &PlanLook, step: &Step, lesson: &Lesson) -> Set {
    let (wording, usage) = (lesson.wording(), &lesson.usage());
    let one = |label, text: String, face, bar| Set { label, lines: vec![(text, face)], bar, answer: None };
    match step {
        Step::Do(deed) => one(wording.label_do(), wording.deed(deed, usage), look.body, false),
        Step::Say(said) => one(wording.label_say(), wording.say(said, usage), look.speech, true),
        Step::Ask(asked) => {
            let Reply { question, expect } = wording.ask(asked, usage);
            let answer = Some((wording.expect(&expect), look.body));
            Set { answer, ..one(wording.label_ask(), question, look.speech, true) }
        }
        Step::Watch { seen, wrong, tools, letter, told } => {
            let shown = wording.content(&wrong.content);
            let slip = wording.slip_named(wrong.slip, *letter);
            let what = match *seen {
                Seen::Work => wording.if_you_see(&shown, wrong.of, &slip, usage),
                Seen::Strip(set) => wording.if_you_see_strip(&shown, wrong.of, &slip, set, usage),
                Seen::Choice { check, question, letter } => {
                    wording.if_you_see_choice(check, question, letter, &shown, &slip)
                }
            };
            let why = if *told { None } else { Some((wording.thinking_and_next(wrong.slip, *tools), look.small)) };
            let what = if *told { format!("{what} {}", wording.as_above()) } else { what };
            let lines = [(what, look.body)].into_iter().chain(why).collect();
            Set { label: wording.label_watch(), lines, bar: false, answer: None }
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

    /// Its lines broken for a column. Fails when the font lacks a character.
    pub(super) fn broken<'s>(&'s self, column: &Column<'_>, look: &PlanLook) -> Result<Broken<'s>, Problem> {
        let indent = self.indent(look);
        let beside = self.beside(column, look);
        let below = self.answer.iter().filter(|_| beside.is_none());
        let broken = |(text, face): &'s (String, Face)| Ok((column.broken(text, face, indent)?, *face));
        let lines = self.lines.iter().chain(below).map(broken).collect::<Result<_, Problem>>()?;
        Ok(Broken { set: self, lines, beside })
    }
}

/// A step with its lines broken.
pub(super) struct Broken<'s> {
    set: &'s Set,
    /// Paragraph by paragraph, an answer below the question among them.
    lines: Vec<(Vec<Cow<'s, str>>, Face)>,
    /// Where its answer stands beside the question.
    beside: Option<Length>,
}

impl Broken<'_> {
    pub(super) fn height(&self) -> Length {
        self.lines.iter().map(|(lines, face)| text::height(lines.len(), face)).sum()
    }

    pub(super) fn draw(&self, column: &mut Column<'_>, look: &PlanLook) -> Result<Node, Problem> {
        let set = self.set;
        let label = column.beside(set.label, &look.label, look.times, look.labels, Tag::Label)?;
        let indent = set.indent(look);
        let mut body = Vec::new();
        let top = column.y;
        let mut said = top;
        for (k, (lines, face)) in self.lines.iter().enumerate() {
            body.push(column.lines(lines, face, indent, Tag::Paragraph));
            if k == 0 {
                said = column.y;
            }
        }
        if let (Some((answer, face)), Some(at)) = (&set.answer, self.beside) {
            let below = std::mem::replace(&mut column.y, top);
            body.push(column.beside(answer, face, at, column.frame.width() - at, Tag::Paragraph)?);
            column.y = below;
        }
        if set.bar {
            let x = column.frame.left() + look.times + look.labels + BAR.width.half();
            let inset = Length::mm100(60);
            let line = Item::Line { from: Point::new(x, top + inset), to: Point::new(x, said - inset), stroke: BAR };
            body.push(Node::artifact(line));
        }
        Ok(Node::tagged(Tag::ListItem, [label, Node::Tagged(Tag::ListBody, body)]))
    }
}
