//! The class tally: who can do what, and who shows which slip, to fill in while walking round.
//!
//! In: the roster, or numbered rows, and what this lesson can show: the forms it matches, and the slips behind its decoys
//! and wrong choices, with the letters that key and plan use. Out: one page for up to 36 learners, with an example of each slip below.

mod learners;
mod legend;

use std::collections::BTreeSet;

use crate::diag::Problem;
use crate::lesson::InPlay;
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::number::{Form, Number};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::share;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use crate::spec::SheetKind;
use learners::Learner;
use legend::Legend;

/// Between the last line below the rows and the foot of the page.
const CLEAR_OF_FOOT: Length = Length::mm(4);

/// Lays the tally out.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Tally)?;
    let learners = learners::all(desk);
    // Upright where all columns fit so; the table lies down for a lesson with many, unless that would take a second page.
    let turns = layout.turns.iter().map(|turn| {
        let size = desk.page(*turn);
        let body = headed(desk, layout, size)?.body;
        Ok((size, body, Table::new(desk, layout, body.width())?))
    });
    let all: Vec<(Size, Rect, Table)> = turns.collect::<Result<_, Problem>>()?;
    let (roomy, least, row) = (layout.length("name")?, layout.length("name_least")?, layout.length("row")?);
    let rows = learners.len().wide();
    let best = all.into_iter().min_by_key(|(_, body, table)| {
        let room = body.height() - table.heads - table.legend.height(desk, body.width());
        (table.names < least, row * rows > room, table.names < roomy)
    });
    let Some((size, body, table)) = best else { return Ok(Vec::new()) };
    let legend = table.legend.height(desk, body.width());
    let room = body.height() - table.heads - legend;
    let most = room.holds(layout.length("row")?).narrow().clamp(1, layout.grid.rows.1);
    let count = learners.len().narrow();
    let mut left = learners.as_slice();
    let mut pages = Vec::new();
    for here in share(count, most, 1) {
        let (these, rest) = left.split_at(here.index().min(left.len()));
        left = rest;
        let headed = headed(desk, layout, size)?;
        // What stands below the rows keeps clear of the foot, where there is room for that.
        let row = (room - CLEAR_OF_FOOT).scaled(1, i64::from(here.max(1)));
        let row = row.max(layout.length("row")?).min(layout.length("row_most")?);
        let layer = Layer { nodes: table.draw(desk, headed.body, these, row)?, ..Layer::default() };
        pages.push(desk.finish(SheetKind::Tally, size, layout.stock, headed, layer));
    }
    Ok(pages)
}

fn headed(desk: &Desk<'_>, layout: &Layout, size: Size) -> Result<Headed, Problem> {
    let wording = desk.lesson.wording();
    let mut note = wording.tally_note().to_owned();
    if !desk.lesson.groups.is_empty() {
        note = format!("{note} {}", wording.tally_marks(!desk.lesson.roster.is_empty(), !desk.lesson.sets.is_empty()));
    }
    let title = desk.lesson.wording().sheet_title(SheetKind::Tally);
    let head = Head { title, note: Some(&note), reader: Reader::Staff, code: false, goal: None };
    head::lay(desk, desk.live(size, layout), &head)
}

/// What learners of this lesson can show that they can do: building, the strips' forms, then what only the check asks for.
fn skills(desk: &Desk<'_>) -> Result<Vec<String>, Problem> {
    let lesson = desk.lesson;
    let mut skills = Vec::new();
    if !lesson.chosen.model.is_empty() {
        let built = |number: &Number| lesson.tools(*number).blocks;
        skills.push(lesson.wording().builds(lesson.chosen.model.iter().any(built)).to_owned());
    }
    let mut forms: Vec<Form> = lesson.sets.iter().flat_map(|set| set.forms.iter().copied()).collect();
    let mut met = BTreeSet::new();
    forms.retain(|form| met.insert(*form));
    skills.extend(forms.iter().map(|form| lesson.form_skill(*form)));
    let questions = crate::sheets::kinds::exit::questions(desk)?;
    // All checks of a group ask for the same.
    let firsts: Vec<u32> = match lesson.groups.as_slice() {
        [] => lesson.checks.iter().take(1).map(|check| check.mark).collect(),
        groups => groups.iter().filter_map(|group| group.checks.first().copied()).collect(),
    };
    let checks = lesson.checks.iter().filter(|check| firsts.contains(&check.mark));
    let asked = checks.flat_map(|check| check.questions.iter().take(questions));
    for question in asked {
        // A form that strips show has its column already.
        let known = question.skill.needs().is_some_and(|form| forms.contains(&form));
        let skill = lesson.skill_name(question.skill);
        if !known && !skills.contains(&skill) {
            skills.push(skill);
        }
    }
    Ok(skills)
}

/// The columns and their headings.
struct Table {
    skills: Vec<String>,
    slips: Vec<InPlay>,
    heading: Face,
    letter: Face,
    group: Face,
    name: Face,
    legend: Legend,
    padding: Length,
    /// The width of the name column, of each skill's column and of a slip's.
    names: Length,
    ticks: Vec<Length>,
    slip: Length,
    /// How high the two rows of headings are together.
    heads: Length,
}

impl Table {
    fn new(desk: &Desk<'_>, layout: &Layout, width: Length) -> Result<Self, Problem> {
        let heading = desk.face(layout, "heading")?;
        let (skills, slips) = (skills(desk)?, desk.lesson.slips.clone());
        let padding = layout.padding;
        let word = |text: &str| text.split(' ').map(|word| desk.width(word, &heading)).max().unwrap_or(Length::ZERO);
        // Each skill is as wide as its widest word: the words below each other head the column.
        let least = layout.length("tick")?;
        let tick = |skill: &String| (word(skill) + padding * 2 + Length::mm100(20)).max(least);
        let mut ticks: Vec<Length> = skills.iter().map(tick).collect();
        let slip = layout.length("slip")?;
        // What names and slips do not need gives headings fewer lines.
        let spare = width - layout.length("name_most")? - ticks.iter().copied().sum() - slip * slips.len().wide();
        let more = spare.scaled(1, ticks.len().max(1).wide()).min(layout.length("tick_more")?);
        for tick in &mut ticks {
            *tick += more.max(Length::ZERO);
        }
        let ticked: Length = ticks.iter().copied().sum();
        // Every slip in play has its column: where there are many, columns are as narrow as a letter and a tick need.
        let rest = width - layout.length("name")? - ticked;
        let slip = rest.scaled(1, slips.len().max(1).wide()).min(slip).max(layout.length("slip_least")?);
        // What is left over goes to the names.
        let names = width - ticked - slip * slips.len().wide();
        let (group, letter) = (desk.face(layout, "group")?, desk.face(layout, "letter")?);
        let lines =
            |(text, tick): (&String, &Length)| text::wrap(desk.family, text, *tick - padding * 2, &heading).len();
        let most = skills.iter().zip(&ticks).map(lines).max().unwrap_or(1);
        let heads = group.pitch() + text::height(most, &heading).max(letter.pitch()) + padding * 2;
        let name = desk.face(layout, "name")?;
        let legend = Legend::new(desk, &slips, desk.face(layout, "note")?);
        Ok(Self { skills, slips, heading, letter, group, name, legend, padding, names, ticks, slip, heads })
    }

    /// How many columns follow the names.
    fn columns(&self) -> i64 {
        (self.skills.len() + self.slips.len()).wide()
    }

    /// The left edge of a column, from the right end of the names.
    fn x(&self, column: i64) -> Length {
        let skills = self.skills.len().wide();
        let ticked = self.ticks.iter().take(column.index()).copied().sum::<Length>();
        ticked + self.slip * (column - skills).max(0)
    }

    fn draw(&self, desk: &Desk<'_>, body: Rect, learners: &[Learner], row: Length) -> Result<Vec<Node>, Problem> {
        let first = body.left() + self.names;
        let columns = self.columns();
        let right = first + self.x(columns);
        let rows = learners.len().wide();
        let top = body.top() + self.heads;
        let whole = Rect::between(body.origin(), Point::new(right, top + row * rows));
        let mut rules: Vec<Item> = Vec::new();
        // Every fifth line is darker: the eye keeps its row across the page.
        for k in 0..=rows {
            let stroke = if k % 5 == 0 || k == rows { ink::OUTLINE } else { ink::FINE };
            let y = top + row * k;
            rules.push(Item::Line { from: Point::new(whole.left(), y), to: Point::new(whole.right(), y), stroke });
        }
        let split = self.skills.len().wide();
        for k in 0..=columns {
            let x = first + self.x(k);
            let stroke = if k == 0 || k == columns || k == split { ink::OUTLINE } else { ink::FINE };
            // Inside a group of columns lines begin below the group's title, and below what reaches under its line.
            let below = whole.top() + self.group.pitch() + Length::mm100(70);
            let from = if k == 0 || k == split { whole.top() } else { below };
            rules.push(Item::Line { from: Point::new(x, from), to: Point::new(x, whole.bottom()), stroke });
        }
        rules.push(Item::Rect { rect: whole, fill: None, stroke: Some(ink::OUTLINE) });
        let shade = Rect::new(whole.origin(), Size::new(whole.width(), self.heads));
        let mut nodes = vec![Node::artifact(Item::Rect { rect: shade, fill: Some(ink::SHADE), stroke: None })];
        let mut table = vec![self.headings(desk, body, first)?];
        for (k, learner) in (0..).zip(learners) {
            let frame = Rect::new(Point::new(body.left(), top + row * k), Size::new(self.names, row));
            let frame = frame.shrunk(Sides { left: self.padding * 2, right: self.padding, ..Sides::default() });
            let name = learners::cell(desk, learner, frame, &self.name);
            let cells = (0..columns).map(|_| Node::Tagged(Tag::Cell, Vec::new()));
            table.push(Node::tagged(Tag::Row, [name].into_iter().chain(cells)));
        }
        nodes.extend(self.groups(desk, body, first)?);
        nodes.push(Node::Tagged(Tag::Table, table));
        nodes.push(Node::Artifact(rules));
        nodes.extend(self.legend.draw(desk, Point::new(body.left(), whole.bottom()), body.width()));
        Ok(nodes)
    }

    /// What the two groups of columns mean; a listener hears it in the columns' own headings.
    fn groups(&self, desk: &Desk<'_>, body: Rect, first: Length) -> Result<Vec<Node>, Problem> {
        let mut nodes = Vec::new();
        let split = self.skills.len().wide();
        let [can_do, seen, _] = desk.lesson.wording().tally_heads();
        for (from, to, title) in [(0, split, can_do), (split, self.columns(), seen)] {
            let frame = Rect::between(
                Point::new(first + self.x(from), body.top()),
                Point::new(first + self.x(to), body.top() + self.group.pitch()),
            );
            let frame = frame.shrunk(Sides { left: self.padding, right: self.padding, ..Sides::default() });
            if desk.width(title, &self.group) <= frame.width() {
                nodes.push(desk.set(title, frame, &self.group, Align::LEFT)?.artifact());
            }
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
        let [.., learner] = desk.lesson.wording().tally_heads();
        let learner = desk.set(learner, cell(body.left() + self.padding, self.names), &face, align)?;
        cells.push(learner.tagged(Tag::HeaderCell(Scope::Column)));
        for (k, skill) in (0..).zip(&self.skills) {
            let set = desk.set(skill, cell(first + self.x(k), self.x(k + 1) - self.x(k)), &face, align)?;
            cells.push(set.tagged(Tag::HeaderCell(Scope::Column)));
        }
        let centre = Align { across: Across::Centre, down: Down::Bottom };
        for (k, InPlay { letter, .. }) in (self.skills.len().wide()..).zip(&self.slips) {
            let set = desk.set(&letter.to_string(), cell(first + self.x(k), self.slip), &self.letter, centre)?;
            cells.push(set.tagged(Tag::HeaderCell(Scope::Column)));
        }
        Ok(Node::Tagged(Tag::Row, cells))
    }
}
