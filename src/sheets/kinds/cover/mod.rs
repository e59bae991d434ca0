//! The substitute's first page: what is in the packet, what to do first, what to leave behind.
//!
//! In: the names of the packet's other pages in order, which the packet knows when they are laid out. Out: one or two
//! pages. Page numbers are those printed on the pages themselves. What only the school can know is left as lines to fill
//! in, and the school's own rules always come first.

mod says;

use crate::diag::Problem;
use crate::lesson::teach::materials;
use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::flow::column::Column;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Tag};
use crate::spec::SheetKind;

/// A page of the packet: its kind and its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What kind of page it is.
    pub sheet: SheetKind,
    /// What its bookmark calls it.
    pub name: String,
}

/// Pages of one name that follow each other.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Run {
    sheet: SheetKind,
    name: String,
    first: usize,
    last: usize,
}

/// Lays the cover out for a packet whose other pages, in order, are these.
pub fn lay(desk: &Desk<'_>, entries: &[Entry]) -> Result<Vec<Page>, Problem> {
    // The cover's own length moves all numbers: two tries settle it, as numbers take no more lines when they grow by one.
    let mut own = 1;
    for _ in 0..3 {
        let pages = pages(desk, &runs(entries, own))?;
        if pages.len() == own {
            return Ok(pages);
        }
        own = pages.len();
    }
    Err(Problem::new("internal: the cover's length does not settle").hint("please report this"))
}

/// The packet's pages as they are listed; the cover itself takes the first `own`.
fn runs(entries: &[Entry], own: usize) -> Vec<Run> {
    let title = crate::sheets::row(SheetKind::Cover).title.to_owned();
    let mut runs = vec![Run { sheet: SheetKind::Cover, name: title, first: 1, last: own }];
    for (page, entry) in (own + 1..).zip(entries) {
        // "Blocks, sheet 1 of 3": the range of pages says as much.
        let name = entry.name.split(", sheet ").next().unwrap_or(&entry.name);
        match runs.last_mut() {
            Some(run) if run.sheet == entry.sheet && run.name == name => run.last = page,
            _ => runs.push(Run { sheet: entry.sheet, name: name.to_owned(), first: page, last: page }),
        }
    }
    runs
}

impl Run {
    /// "3" or "3–4".
    fn pages(&self) -> String {
        if self.first == self.last { self.first.to_string() } else { format!("{}\u{2013}{}", self.first, self.last) }
    }
}

/// The faces and lengths of the cover.
struct Look {
    section: Face,
    body: Face,
    figure: Face,
    small: Face,
    figures: Length,
    line: Length,
    between: Length,
    gutter: Length,
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

fn pages(desk: &Desk<'_>, runs: &[Run]) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Cover)?;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let face = |name| desk.face(layout, name);
    let look = Look {
        section: face("section")?,
        body: face("body")?,
        figure: face("figure")?,
        small: face("small")?.painted(ink::QUIET),
        figures: layout.length("figures")?,
        line: layout.length("line")?,
        between: layout.length("section")?,
        gutter: layout.grid.gutter,
    };
    let headed = headed(desk, layout, size, true)?;
    let column = Column::new(desk, headed.body);
    let mut sheet = Sheet { desk, layout, look, size, done: Vec::new(), headed, nodes: Vec::new(), column };
    sheet.list("The first five minutes", &says::first(desk, runs))?;
    sheet.contents_and_materials(runs)?;
    sheet.list("Where the answers are", &says::answers(runs))?;
    sheet.list("Early finishers", &says::finishers(desk))?;
    sheet.list("If the copies are missing", &says::missing(desk, runs))?;
    sheet.list("Cautions", &says::cautions(desk))?;
    sheet.lines("Only the school can fill this in", says::SCHOOL_NOTE, &says::SCHOOL)?;
    sheet.lines("Note back to the teacher", says::BACK_NOTE, &says::BACK)?;
    sheet.pages()
}

fn headed(desk: &Desk<'_>, layout: &Layout, size: Size, first: bool) -> Result<Headed, Problem> {
    let spec = &desk.lesson.spec;
    let title = if first { format!("Start here: {}", spec.title.value) } else { "Start here, continued".to_owned() };
    let note = says::opening(desk.lesson);
    let note = first.then_some(&*note);
    let head = Head { title: &title, note, reader: Reader::Staff, name: false, code: false };
    head::lay(desk, desk.live(size, layout), &head)
}

impl Sheet<'_> {
    fn turn(&mut self) -> Result<(), Problem> {
        let next = headed(self.desk, self.layout, self.size, false)?;
        let before = std::mem::replace(&mut self.headed, next);
        let nodes = std::mem::take(&mut self.nodes);
        self.done.push((before, Layer { nodes, ..Layer::default() }));
        self.column = Column::new(self.desk, self.headed.body);
        Ok(())
    }

    /// Starts a section that needs so much room in all.
    fn section(&mut self, title: &str, high: Length) -> Result<(), Problem> {
        let high = high + self.look.section.pitch() + Length::mm(1);
        if self.column.left() < high && !self.nodes.is_empty() {
            self.turn()?;
        }
        let node = self.column.text(title, &self.look.section, Length::ZERO, Tag::Heading(2))?;
        self.nodes.push(node);
        self.column.skip(Length::mm(1));
        Ok(())
    }

    /// A section of short numbered or marked sentences.
    fn list(&mut self, title: &str, items: &[String]) -> Result<(), Problem> {
        let indent = Length::mm(5);
        let high = items.iter().map(|item| self.column.height(item, &self.look.body, indent)).sum();
        self.section(title, high)?;
        let mut nodes = Vec::new();
        for item in items {
            // A mark that every font has and that a copy of a copy keeps.
            let dot =
                Point::new(self.column.frame.left() + Length::mm(2), self.column.y + self.look.body.pitch().half());
            let mark = Item::Circle { centre: dot, radius: Length::mm100(70), fill: Some(ink::TEXT), stroke: None };
            let text = self.column.text(item, &self.look.body, indent, Tag::ListBody)?;
            nodes.push(Node::tagged(Tag::ListItem, [Node::artifact(mark), text]));
        }
        self.nodes.push(Node::Tagged(Tag::List, nodes));
        self.column.skip(self.look.between);
        Ok(())
    }

    /// What is in the packet beside what to lay out.
    fn contents_and_materials(&mut self, runs: &[Run]) -> Result<(), Problem> {
        let pages: Vec<[String; 3]> = runs.iter().map(|run| [run.pages(), run.name.clone(), String::new()]).collect();
        let things: Vec<[String; 3]> =
            materials(self.desk.lesson).into_iter().map(|m| [m.count.to_string(), m.what, m.note]).collect();
        let frame = self.column.frame;
        let half = (frame.width() - self.look.gutter).half();
        let left = Rect::new(frame.origin(), Size::new(half, frame.height()));
        let right = left.moved(half + self.look.gutter, Length::ZERO);
        let head = self.look.section.pitch() + Length::mm(1);
        let high = |rows: &[[String; 3]]| self.table_height(left, rows);
        if self.column.left() < high(&pages).max(high(&things)) + head && !self.nodes.is_empty() {
            self.turn()?;
        }
        let top = self.column.y;
        let one = self.table(left, top, "Page", "In this packet", &pages)?;
        let two = self.table(right, top, "Count", "To lay out", &things)?;
        self.column.y = one.max(two) + self.look.between;
        Ok(())
    }

    fn table_height(&self, area: Rect, rows: &[[String; 3]]) -> Length {
        let column = Column::new(self.desk, area);
        let row = |[_, what, note]: &[String; 3]| {
            let note =
                if note.is_empty() { Length::ZERO } else { column.height(note, &self.look.small, self.look.figures) };
            column.height(what, &self.look.body, self.look.figures) + note + Length::mm100(40)
        };
        rows.iter().map(row).sum()
    }

    /// A table of a figure and what it counts; returns where it ends.
    fn table(
        &mut self,
        area: Rect,
        top: Length,
        figure: &str,
        title: &str,
        rows: &[[String; 3]],
    ) -> Result<Length, Problem> {
        use crate::sheets::page::Scope::{Column as OfColumn, Row as OfRow};
        let look = &self.look;
        let mut column = Column::new(self.desk, area);
        column.y = top;
        self.nodes.push(column.text(title, &look.section, Length::ZERO, Tag::Heading(2))?);
        column.skip(Length::mm(1));
        let mut nodes = Vec::new();
        let width = area.width() - look.figures;
        // The column headings are for a listener's table and for the eye alike.
        let head = [
            column.beside(figure, &look.small, Length::ZERO, look.figures, Tag::HeaderCell(OfColumn))?,
            column.beside("What", &look.small, look.figures, width, Tag::HeaderCell(OfColumn))?,
        ];
        column.skip(look.small.pitch());
        nodes.push(Node::tagged(Tag::Row, head));
        for [count, what, note] in rows {
            let figure = column.beside(count, &look.figure, Length::ZERO, look.figures, Tag::HeaderCell(OfRow))?;
            let mut cell = vec![column.text(what, &look.body, look.figures, Tag::Paragraph)?];
            if !note.is_empty() {
                cell.push(column.text(note, &look.small, look.figures, Tag::Paragraph)?);
            }
            column.skip(Length::mm100(40));
            nodes.push(Node::tagged(Tag::Row, [figure, Node::Tagged(Tag::Cell, cell)]));
        }
        self.nodes.push(Node::Tagged(Tag::Table, nodes));
        Ok(column.y)
    }

    /// A section of labelled lines to write on.
    fn lines(&mut self, title: &str, note: &str, labels: &[(&str, u32)]) -> Result<(), Problem> {
        let count: u32 = labels.iter().map(|(_, lines)| lines).sum();
        let high = self.look.line * i64::from(count) + self.column.height(note, &self.look.body, Length::ZERO);
        self.section(title, high)?;
        let said = self.column.text(note, &self.look.body, Length::ZERO, Tag::Paragraph)?;
        self.nodes.push(said);
        let (left, right) = (self.column.frame.left(), self.column.frame.right());
        for (label, lines) in labels {
            for k in 0..*lines {
                let base = self.column.y + self.look.line - Length::mm(1);
                let mut from = left;
                if k == 0 {
                    self.column.y = base - self.look.body.pitch() + Length::mm(1);
                    let wide = self.desk.width(label, &self.look.body) + Length::mm(1);
                    let named = self.column.beside(label, &self.look.body, Length::ZERO, wide, Tag::Paragraph)?;
                    self.nodes.push(named);
                    from = left + wide + Length::mm(2);
                }
                let rule = Item::Line { from: Point::new(from, base), to: Point::new(right, base), stroke: ink::FINE };
                self.nodes.push(Node::artifact(rule));
                self.column.y = base + Length::mm(1);
            }
        }
        self.column.skip(self.look.between);
        Ok(())
    }

    fn pages(mut self) -> Result<Vec<Page>, Problem> {
        self.turn()?;
        let Self { desk, layout, size, done, .. } = self;
        let finish = |(headed, layer)| desk.finish(SheetKind::Cover, size, layout.stock, headed, layer);
        Ok(done.into_iter().map(finish).collect())
    }
}
