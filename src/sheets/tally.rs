//! The class tally: who can do what, and who shows which slip, to fill in while walking round.
//!
//! In: the roster, or numbered rows, and what this lesson can show: the forms it matches, and the slips behind its decoys
//! and wrong choices, the commonest first. Out: one page for up to 36 learners, with an example of each slip below.

use std::collections::BTreeMap;

use super::desk::Desk;
use super::grid::share;
use super::head::{self, Head, Headed};
use super::ink;
use super::layout::{Layout, Turn};
use super::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use super::text::{self, Across, Align, Down, Face};
use crate::diag::Problem;
use crate::lesson::Wrong;
use crate::lesson::exit::{self, Ask};
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::{Content, Form, Slip};
use crate::spec::SheetKind;

/// Lays the tally out.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Tally)?;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let names = names(desk);
    let body = headed(desk, layout, size)?.body;
    let table = Table::new(desk, layout, body.width())?;
    let legend = table.legend_height(desk, body.width());
    let room = body.height() - table.heads - legend;
    let most = u32::try_from(room.holds(layout.length("row")?)).unwrap_or(1).clamp(1, layout.grid.rows.1);
    let count = u32::try_from(names.len()).unwrap_or(u32::MAX);
    let mut left = names.as_slice();
    let mut pages = Vec::new();
    for here in share(count, most, 1) {
        let (these, rest) = left.split_at(usize::try_from(here).unwrap_or(0).min(left.len()));
        left = rest;
        let headed = headed(desk, layout, size)?;
        let row = room.scaled(1, i64::from(here.max(1))).min(layout.length("row_most")?);
        let layer = Layer { nodes: table.draw(desk, headed.body, these, row)?, ..Layer::default() };
        pages.push(desk.finish(SheetKind::Tally, size, layout.stock, headed, layer));
    }
    Ok(pages)
}

fn headed(desk: &Desk<'_>, layout: &Layout, size: Size) -> Result<Headed, Problem> {
    let note = "A tick means yes. Leave a box empty when you have not seen it.";
    let head = Head { title: "Class tally", note: Some(note), reader: Reader::Staff, name: false, code: false };
    head::lay(desk, desk.live(size, layout), &head)
}

/// The roster, or numbers to write names beside.
fn names(desk: &Desk<'_>) -> Vec<String> {
    let roster = &desk.lesson.roster;
    let learners = usize::try_from(desk.lesson.spec.class.learners.value).unwrap_or(0).max(roster.len());
    (0..learners).map(|k| roster.get(k).cloned().unwrap_or_else(|| (k + 1).to_string())).collect()
}

/// What learners of this lesson can show that they can do.
fn skills(desk: &Desk<'_>) -> Vec<&'static str> {
    let lesson = desk.lesson;
    let mut skills = Vec::new();
    if !lesson.chosen.model.is_empty() {
        skills.push("builds the number");
    }
    for form in lesson.sets.first().map_or(&[][..], |set| &set.forms) {
        skills.push(match form {
            Form::Numeral => "finds the numeral",
            Form::Words => "finds the words",
            Form::Expanded => "finds the expanded form",
            Form::Units => "finds the unit form",
            Form::Blocks => "finds the picture",
        });
    }
    let checks = exit::checks(lesson);
    if checks.iter().flat_map(|check| &check.questions).any(|q| matches!(q.ask, Ask::Worth(_) | Ask::Digit(_))) {
        skills.push("tells what digits are worth");
    }
    skills
}

/// The slips that this lesson can show, the commonest first, each with one of its wrong forms.
fn slips(desk: &Desk<'_>) -> Result<Vec<(Slip, Wrong)>, Problem> {
    let lesson = desk.lesson;
    let mut found: BTreeMap<Slip, (usize, Wrong)> = BTreeMap::new();
    let mut see = |wrong: Wrong| found.entry(wrong.slip).or_insert((0, wrong)).0 += 1;
    for strip in lesson.sets.iter().flat_map(|set| &set.strips) {
        if let Some((of, slip)) = strip.wrong {
            see(Wrong { of, form: strip.form, content: strip.content.clone(), slip });
        }
    }
    let questions = super::exit::questions(desk)?;
    for question in exit::checks(lesson).iter().flat_map(|check| check.questions.iter().take(questions)) {
        let Ask::Match { wanted, .. } = question.ask else { continue };
        for (_, choice, slip) in question.wrong() {
            see(Wrong { of: question.of, form: wanted, content: choice.content.clone(), slip });
        }
    }
    let mut slips: Vec<(Slip, (usize, Wrong))> = found.into_iter().collect();
    slips.sort_by_key(|(slip, (count, _))| (std::cmp::Reverse(*count), *slip));
    Ok(slips.into_iter().map(|(slip, (_, wrong))| (slip, wrong)).collect())
}

/// The columns and their headings.
struct Table {
    skills: Vec<&'static str>,
    slips: Vec<(Slip, Wrong)>,
    heading: Face,
    group: Face,
    name: Face,
    note: Face,
    padding: Length,
    /// The width of the name column, and of each other one.
    names: Length,
    tick: Length,
    /// How high the two rows of headings are together.
    heads: Length,
}

impl Table {
    fn new(desk: &Desk<'_>, layout: &Layout, width: Length) -> Result<Self, Problem> {
        let heading = desk.face(layout, "heading")?;
        let (skills, mut slips) = (skills(desk), slips(desk)?);
        let padding = layout.padding;
        let word = |text: &str| text.split(' ').map(|word| desk.width(word, &heading)).max().unwrap_or(Length::ZERO);
        let widest =
            skills.iter().map(|skill| word(skill)).chain(slips.iter().map(|(slip, _)| word(slip.name()))).max();
        let least = (widest.unwrap_or(Length::ZERO) + padding * 2 + Length::mm100(20)).max(layout.length("tick")?);
        let names = layout.length("name")?;
        let columns = usize::try_from((width - names).holds(least)).unwrap_or(0);
        slips.truncate(columns.saturating_sub(skills.len()));
        let count = i64::try_from(skills.len() + slips.len()).unwrap_or(1).max(1);
        // Ticks get what the names leave, so that the table fills the page; names get what is left of very few columns.
        let tick = (width - names).scaled(1, count).min(least.scaled(15, 10));
        let names = width - tick * count;
        let group = desk.face(layout, "group")?;
        let lines = |text: &str| text::wrap(desk.family, text, tick - padding * 2, &heading).len();
        let most = skills.iter().map(|s| lines(s)).chain(slips.iter().map(|(slip, _)| lines(slip.name()))).max();
        let heads = group.pitch() + text::height(most.unwrap_or(1), &heading) + padding * 2;
        let (name, note) = (desk.face(layout, "name")?, desk.face(layout, "note")?);
        Ok(Self { skills, slips, heading, group, name, note, padding, names, tick, heads })
    }

    /// One line a slip: what it looks like in this lesson.
    fn legend(&self, desk: &Desk<'_>) -> Vec<String> {
        let style = &desk.lesson.style;
        let example = |(slip, wrong): &(Slip, Wrong)| match &wrong.content {
            Content::Text(text) => {
                format!("{}: {text} for {}. {}", slip.name(), style.numeral(wrong.of), slip.thinking())
            }
            Content::Blocks(_) => format!("{}: a wrong picture of {}.", slip.name(), style.numeral(wrong.of)),
        };
        self.slips.iter().map(example).collect()
    }

    fn legend_height(&self, desk: &Desk<'_>, width: Length) -> Length {
        let lines: usize =
            self.legend(desk).iter().map(|line| text::flow(desk.family, line, width, &self.note).len()).sum();
        if lines == 0 { Length::ZERO } else { text::height(lines, &self.note) + Length::mm(3) }
    }

    fn draw(&self, desk: &Desk<'_>, body: Rect, names: &[String], row: Length) -> Result<Vec<Node>, Problem> {
        let first = body.left() + self.names;
        let columns = i64::try_from(self.skills.len() + self.slips.len()).unwrap_or(0);
        let right = first + self.tick * columns;
        let rows = i64::try_from(names.len()).unwrap_or(0);
        let top = body.top() + self.heads;
        let whole = Rect::between(body.origin(), Point::new(right, top + row * rows));
        let mut rules: Vec<Item> = Vec::new();
        // Every fifth line is darker: the eye keeps its row across the page.
        for k in 0..=rows {
            let stroke = if k % 5 == 0 || k == rows { ink::OUTLINE } else { ink::FINE };
            let y = top + row * k;
            rules.push(Item::Line { from: Point::new(whole.left(), y), to: Point::new(whole.right(), y), stroke });
        }
        let split = i64::try_from(self.skills.len()).unwrap_or(0);
        for k in 0..=columns {
            let x = first + self.tick * k;
            let stroke = if k == 0 || k == columns || k == split { ink::OUTLINE } else { ink::FINE };
            rules.push(Item::Line { from: Point::new(x, whole.top()), to: Point::new(x, whole.bottom()), stroke });
        }
        rules.push(Item::Rect { rect: whole, fill: None, stroke: Some(ink::OUTLINE) });
        let shade = Rect::new(whole.origin(), Size::new(whole.width(), self.heads));
        let mut nodes = vec![Node::artifact(Item::Rect { rect: shade, fill: Some(ink::SHADE), stroke: None })];
        let mut table = vec![self.headings(desk, body, first)?];
        for (k, name) in (0..).zip(names) {
            let frame = Rect::new(Point::new(body.left(), top + row * k), Size::new(self.names, row));
            let frame = frame.shrunk(Sides { left: self.padding * 2, right: self.padding, ..Sides::default() });
            let name = desk.set(name, frame, &self.name, Align::LEFT)?.tagged(Tag::HeaderCell(Scope::Row));
            let cells = (0..columns).map(|_| Node::Tagged(Tag::Cell, Vec::new()));
            table.push(Node::tagged(Tag::Row, [name].into_iter().chain(cells)));
        }
        nodes.extend(self.groups(desk, body, first)?);
        nodes.push(Node::Tagged(Tag::Table, table));
        nodes.push(Node::Artifact(rules));
        let mut y = whole.bottom() + Length::mm(3);
        for line in self.legend(desk) {
            let lines = text::flow(desk.family, &line, body.width(), &self.note);
            let size = Size::new(body.width(), text::height(lines.len(), &self.note));
            let frame = Rect::new(Point::new(body.left(), y), size);
            nodes.push(text::run(desk.family, &lines, frame, &self.note).tagged(Tag::Paragraph));
            y = frame.bottom();
        }
        Ok(nodes)
    }

    /// What the two groups of columns mean; a listener hears it in the columns' own headings.
    fn groups(&self, desk: &Desk<'_>, body: Rect, first: Length) -> Result<Vec<Node>, Problem> {
        let mut nodes = Vec::new();
        let counts = [(self.skills.len(), "Skills"), (self.slips.len(), "Slips")];
        let mut x = first;
        for (count, title) in counts {
            let width = self.tick * i64::try_from(count).unwrap_or(0);
            if count > 0 {
                let frame = Rect::new(Point::new(x, body.top()), Size::new(width, self.group.pitch()));
                let frame = frame.shrunk(Sides { left: self.padding, right: self.padding, ..Sides::default() });
                nodes.push(desk.set(title, frame, &self.group, Align::LEFT)?.artifact());
            }
            x += width;
        }
        Ok(nodes)
    }

    fn headings(&self, desk: &Desk<'_>, body: Rect, first: Length) -> Result<Node, Problem> {
        let top = body.top() + self.group.pitch();
        let high = self.heads - self.group.pitch();
        let cell = |x: Length, width: Length| {
            Rect::new(Point::new(x, top), Size::new(width, high)).shrunk(Sides::splat(self.padding))
        };
        let align = Align { across: Across::Left, down: Down::Bottom };
        let face = self.heading;
        let mut cells = Vec::new();
        let learner = desk.set("Learner", cell(body.left() + self.padding, self.names), &face, align)?;
        cells.push(learner.tagged(Tag::HeaderCell(Scope::Column)));
        let names = self.skills.iter().copied().chain(self.slips.iter().map(|(slip, _)| slip.name()));
        for (k, name) in (0..).zip(names) {
            let set = desk.set(name, cell(first + self.tick * k, self.tick), &face, align)?;
            cells.push(set.tagged(Tag::HeaderCell(Scope::Column)));
        }
        Ok(Node::Tagged(Tag::Row, cells))
    }
}
