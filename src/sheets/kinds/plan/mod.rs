//! The lesson plan: the lesson minute by minute, to be read while teaching.
//!
//! In: the [`Teaching`] of a lesson. Out: one to three pages: times at the left, then a narrow column that says what kind of
//! step it is, then the step. What is said aloud is bold behind a bar, so that it is found at a glance; a question has the
//! answer to expect below it. A phase that goes on over a page is named again there.

mod step;

use crate::diag::Problem;
use crate::lesson::teach::{self, Part, Teaching};
use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::flow::column::Column;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Tag};
use crate::spec::SheetKind;

/// Lays the plan out.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let teaching = teach::plan(desk.lesson, crate::sheets::kinds::exit::questions(desk)?)?;
    let mut sheet = Sheet::new(desk)?;
    sheet.aims(&teaching)?;
    for part in &teaching.phases {
        sheet.part(part)?;
    }
    sheet.pages()
}

/// The faces and lengths of the plan.
struct Look {
    phase: Face,
    time: Face,
    minutes: Face,
    label: Face,
    body: Face,
    speech: Face,
    small: Face,
    times: Length,
    labels: Length,
    widest: Length,
    step: Length,
    between: Length,
}

impl Look {
    fn read(desk: &Desk<'_>, layout: &Layout) -> Result<Self, Problem> {
        let face = |name| desk.face(layout, name);
        let length = |name| layout.length(name);
        Ok(Self {
            phase: face("phase")?,
            time: face("time")?,
            minutes: face("minutes")?.painted(ink::QUIET),
            label: face("label")?.painted(ink::QUIET),
            body: face("body")?,
            speech: face("speech")?,
            small: face("small")?,
            times: length("times")?,
            labels: length("labels")?,
            widest: length("widest")?,
            step: length("step")?,
            between: length("phase")?,
        })
    }
}

/// The pages so far and the one that is being filled.
struct Sheet<'a> {
    desk: &'a Desk<'a>,
    layout: &'a Layout,
    look: Look,
    size: Size,
    done: Vec<(Headed, Layer)>,
    headed: Headed,
    nodes: Vec<Node>,
    column: Column<'a>,
}

impl<'a> Sheet<'a> {
    fn new(desk: &'a Desk<'a>) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Plan)?;
        let turn = layout.turns.first().copied().unwrap_or(crate::sheets::page::layout::Turn::Portrait);
        let size = desk.page(turn);
        let headed = headed(desk, layout, size, true)?;
        let look = Look::read(desk, layout)?;
        let column = Column::new(desk, room(headed.body, &look));
        Ok(Self { desk, layout, look, size, done: Vec::new(), headed, nodes: Vec::new(), column })
    }

    /// Goes on to the next page.
    fn turn(&mut self) -> Result<(), Problem> {
        let next = headed(self.desk, self.layout, self.size, false)?;
        let before = std::mem::replace(&mut self.headed, next);
        let nodes = std::mem::take(&mut self.nodes);
        self.done.push((before, Layer { nodes, ..Layer::default() }));
        self.column = Column::new(self.desk, room(self.headed.body, &self.look));
        Ok(())
    }

    /// What the lesson is for, under the title.
    fn aims(&mut self, teaching: &Teaching) -> Result<(), Problem> {
        for aim in &teaching.aims {
            let node = self.column.text(aim, &self.look.body, Length::ZERO, Tag::Paragraph)?;
            self.nodes.push(node);
        }
        self.column.skip(self.look.between.half());
        Ok(())
    }

    /// One phase: heading, table, steps.
    fn part(&mut self, part: &Part) -> Result<(), Problem> {
        let steps: Vec<step::Set> = part.steps.iter().map(|step| step::set(&self.look, step)).collect();
        let heights: Vec<Length> = steps.iter().map(|set| set.height(&self.column, &self.look)).collect();
        let table = part.table.join(" ");
        let head = self.look.phase.pitch() + self.table_height(&table) + self.look.step * 2;
        // A heading never stands alone: it takes its first two steps along.
        let first = head + heights.iter().take(2).copied().sum::<Length>() + self.look.step;
        if !self.nodes.is_empty() && self.column.left() < first {
            self.turn()?;
        }
        self.heading(part, false)?;
        if !table.is_empty() {
            let (indent, label) = (self.look.times, self.look.label);
            let name = self.column.beside("Table", &label, indent, self.look.labels, Tag::Label)?;
            let text = self.column.text(&table, &self.look.small.painted(ink::QUIET), self.indent(), Tag::ListBody)?;
            self.nodes.push(Node::tagged(Tag::List, [Node::tagged(Tag::ListItem, [name, text])]));
            self.column.skip(self.look.step);
        }
        let mut items = Vec::new();
        for (k, (set, high)) in steps.iter().zip(&heights).enumerate() {
            // The last step never stands alone on a page: it takes the one before it along.
            let last = heights.get(k + 1).filter(|_| k + 2 == heights.len()).map(|last| self.look.step + *last);
            if self.column.left() < *high + last.unwrap_or(Length::ZERO) {
                self.list(&mut items);
                self.turn()?;
                self.heading(part, true)?;
            }
            items.push(set.draw(&mut self.column, &self.look)?);
            self.column.skip(self.look.step);
        }
        self.list(&mut items);
        self.column.skip(self.look.between - self.look.step);
        Ok(())
    }

    fn list(&mut self, items: &mut Vec<Node>) {
        if !items.is_empty() {
            self.nodes.push(Node::Tagged(Tag::List, std::mem::take(items)));
        }
    }

    fn indent(&self) -> Length {
        self.look.times + self.look.labels
    }

    fn table_height(&self, table: &str) -> Length {
        if table.is_empty() { Length::ZERO } else { self.column.height(table, &self.look.small, self.indent()) }
    }

    /// The rule, times and title of a phase.
    fn heading(&mut self, part: &Part, again: bool) -> Result<(), Problem> {
        let (left, right) = (self.column.frame.left(), self.column.frame.right());
        let y = self.column.y;
        let rule = Item::Line { from: Point::new(left, y), to: Point::new(right, y), stroke: ink::OUTLINE };
        self.nodes.push(Node::artifact(rule));
        self.column.skip(Length::mm(1));
        let title = if again { format!("{} (goes on)", part.phase.title()) } else { part.phase.title().to_owned() };
        let times = format!("{}\u{2013}{}", part.start, part.start + part.minutes);
        let minutes = format!("{} minutes", part.minutes);
        let top = self.column.y;
        let rest = right - left - self.look.times;
        let name = self.column.beside(&title, &self.look.phase, self.look.times, rest, Tag::Heading(2))?;
        let clock = self.column.beside(&times, &self.look.time, Length::ZERO, self.look.times, Tag::Paragraph)?;
        self.nodes.extend([name, clock]);
        if !again {
            self.column.y = top + self.look.time.pitch();
            let under =
                self.column.beside(&minutes, &self.look.minutes, Length::ZERO, self.look.times, Tag::Paragraph)?;
            self.nodes.push(under);
        }
        self.column.y = top + self.look.phase.pitch() + self.look.step;
        Ok(())
    }

    fn pages(mut self) -> Result<Vec<Page>, Problem> {
        self.turn()?;
        let Self { desk, layout, size, done, .. } = self;
        let finish = |(headed, layer)| desk.finish(SheetKind::Plan, size, layout.stock, headed, layer);
        Ok(done.into_iter().map(finish).collect())
    }
}

fn headed(desk: &Desk<'_>, layout: &Layout, size: Size, first: bool) -> Result<Headed, Problem> {
    let spec = &desk.lesson.spec;
    let title = if first { spec.title.value.clone() } else { format!("{}: plan", spec.title.value) };
    let note = format!(
        "Lesson plan, {} minutes. Bold lines behind a bar are said aloud. Times are minutes from the start.",
        spec.minutes.value
    );
    let note = first.then_some(&*note);
    let head = Head { title: &title, note, reader: Reader::Staff, name: false, code: false };
    head::lay(desk, desk.live(size, layout), &head)
}

/// The room for text: not wider than is easy to read.
fn room(body: Rect, look: &Look) -> Rect {
    let most = look.times + look.labels + look.widest;
    Rect::new(body.origin(), Size::new(body.width().min(most), body.height()))
}
