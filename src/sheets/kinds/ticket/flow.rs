//! Blocks one below the other over as many pages as they need: the ticket's way of filling its pages.

use std::sync::Arc;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use crate::spec::SheetKind;

/// A column of a table: its heading, and its share of the width.
pub type Column<'t> = (&'t str, i64);

/// Pages that are being filled.
pub struct Flow<'d> {
    desk: Desk<'d>,
    layout: &'d Layout,
    size: Size,
    headed: Headed,
    layer: Layer,
    /// How far the page is filled.
    y: Length,
    pages: Vec<Page>,
}

impl<'d> Flow<'d> {
    /// A first, empty page.
    pub fn new(desk: &Desk<'d>) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Ticket)?;
        let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
        let headed = headed(desk, layout, size)?;
        let y = headed.body.top();
        Ok(Self { desk: desk.clone(), layout, size, headed, layer: Layer::default(), y, pages: Vec::new() })
    }

    /// The finished pages.
    pub fn finish(mut self) -> Result<Vec<Page>, Problem> {
        self.turn()?;
        Ok(self.pages)
    }

    /// Ends the page and begins another.
    fn turn(&mut self) -> Result<(), Problem> {
        let next = headed(&self.desk, self.layout, self.size)?;
        let (headed, layer) = (std::mem::replace(&mut self.headed, next), std::mem::take(&mut self.layer));
        self.pages.push(self.desk.finish(SheetKind::Ticket, self.size, self.layout.stock, headed, layer));
        self.y = self.headed.body.top();
        Ok(())
    }

    /// Turns the page unless there is room of this height on it: keeps together what belongs together.
    pub fn keep(&mut self, high: Length) -> Result<(), Problem> {
        let body = self.headed.body;
        if self.y + high > body.bottom() && self.y > body.top() { self.turn() } else { Ok(()) }
    }

    /// Room of this height, on the next page where this one is full.
    pub fn room(&mut self, high: Length) -> Result<Rect, Problem> {
        self.keep(high)?;
        let body = self.headed.body;
        if high > body.height() {
            return Err(Problem::new(format!("a part of the job ticket is {high} high and does not fit on a page"))
                .hint("use larger paper or a smaller margin"));
        }
        let rect = Rect::new(Point::new(body.left(), self.y), Size::new(body.width(), high));
        self.y = rect.bottom();
        Ok(rect)
    }

    /// Leaves room, except at the top of a page.
    pub fn gap(&mut self, high: Length) {
        if self.y > self.headed.body.top() {
            self.y += high;
        }
    }

    /// A face of the ticket's layout.
    pub fn face(&self, name: &str) -> Result<Face, Problem> {
        self.desk.face(self.layout, name)
    }

    /// The width that text has.
    pub fn width(&self) -> Length {
        self.headed.body.width()
    }

    /// How wide a line is in a face.
    pub fn measure(&self, text: &str, face: &Face) -> Length {
        self.desk.width(text, face)
    }

    /// Adds content to the page.
    pub fn push(&mut self, node: Node) {
        self.layer.nodes.push(node);
    }

    /// A heading of the second level, kept with at least `with` of what follows.
    pub fn heading(&mut self, text: &str, with: Length) -> Result<(), Problem> {
        let face = self.face("heading")?;
        let apart = self.layout.length("apart")?;
        self.keep(apart + face.pitch() + with)?;
        self.gap(apart);
        let lines = self.lines(text, &face, Length::ZERO)?;
        self.push(Node::Tagged(Tag::Heading(2), lines));
        self.gap(Length::mm(1));
        Ok(())
    }

    /// A paragraph in a face of the layout.
    pub fn text(&mut self, text: &str, face: &str) -> Result<(), Problem> {
        let face = self.face(face)?;
        let lines = self.lines(text, &face, Length::ZERO)?;
        self.push(Node::Tagged(Tag::Paragraph, lines));
        Ok(())
    }

    /// Lines of running text from `indent` on, kept together.
    fn lines(&mut self, text: &str, face: &Face, indent: Length) -> Result<Vec<Node>, Problem> {
        self.check(text, face)?;
        let lines = text::flow(self.desk.family, text, self.width() - indent, face);
        let rect = self.room(text::height(lines.len(), face))?;
        let frame = rect.shrunk(Sides { left: indent, ..Sides::splat(Length::ZERO) });
        Ok(text::run(self.desk.family, &lines, frame, face).nodes())
    }

    /// Lines that were broken already and stay as they are: a command.
    pub fn verbatim(&mut self, lines: &[String]) -> Result<(), Problem> {
        let face = self.face("command")?;
        for line in lines {
            self.check(line, &face)?;
        }
        let rect = self.room(text::height(lines.len(), &face) + Length::mm(2))?;
        self.push(Node::artifact(Item::Rect { rect, fill: Some(ink::SHADE), stroke: None }));
        let sides = Sides { left: Length::mm(2), top: Length::mm(1), right: Length::ZERO, bottom: Length::mm(1) };
        let set = text::run(self.desk.family, lines, rect.shrunk(sides), &face);
        self.push(set.tagged(Tag::Paragraph));
        self.gap(Length::mm(1));
        Ok(())
    }

    /// A framed line that cannot be missed.
    pub fn banner(&mut self, text: &str) -> Result<(), Problem> {
        let face = self.face("banner")?;
        let rect = self.room(face.pitch() + Length::mm(6))?;
        let edge = rect.shrunk(Sides::splat(ink::HEAVY.width.half()));
        self.push(Node::artifact(Item::Rect { rect: edge, fill: None, stroke: Some(ink::HEAVY) }));
        let set = self.desk.set(text, rect.shrunk(Sides::splat(Length::mm(2))), &face, Align::CENTRE)?;
        self.push(set.tagged(Tag::Paragraph));
        Ok(())
    }

    /// A list of things to do, each with a box to tick.
    pub fn ticks(&mut self, items: &[String]) -> Result<(), Problem> {
        let (face, side) = (self.face("text")?, self.layout.length("tick")?);
        for item in items {
            self.gap(Length::mm100(80));
            let lines = self.lines(item, &face, side + Length::mm(3))?;
            let high = face.pitch() * i64::try_from(lines.len()).unwrap_or(1);
            let at = Point::new(self.headed.body.left(), self.y - high + (face.pitch() - side).half());
            let rect = Rect::new(at, Size::new(side, side)).shrunk(Sides::splat(ink::OUTLINE.width.half()));
            self.push(Node::artifact(Item::Rect { rect, fill: None, stroke: Some(ink::OUTLINE) }));
            let body = Node::Tagged(Tag::ListBody, lines);
            self.push(Node::tagged(Tag::List, [Node::tagged(Tag::ListItem, [body])]));
        }
        Ok(())
    }

    /// A table with a row of headings; rows are kept whole, and the headings come again on a new page.
    pub fn table(&mut self, columns: &[Column<'_>], rows: &[Vec<String>]) -> Result<(), Problem> {
        let (head, cell) = (self.face("column")?, self.face("cell")?);
        let total: i64 = columns.iter().map(|(_, share)| share).sum();
        let widths: Vec<Length> = columns.iter().map(|(_, share)| self.width().scaled(*share, total)).collect();
        let heads: Vec<String> = columns.iter().map(|(name, _)| (*name).to_owned()).collect();
        let top = self.row_height(&heads, &widths, &head)?;
        let mut nodes: Vec<Node> = Vec::new();
        let mut page = None;
        for row in rows {
            let high = self.row_height(row, &widths, &cell)?;
            self.keep(if page.is_none() { top + high } else { high })?;
            if page != Some(self.pages.len()) {
                if let Some(page) = page {
                    self.onto(page, Node::Tagged(Tag::Table, std::mem::take(&mut nodes)));
                }
                page = Some(self.pages.len());
                let rect = self.room(top)?;
                nodes.push(self.row(&heads, rect, &widths, &head, true));
            }
            let rect = self.room(high)?;
            nodes.push(self.row(row, rect, &widths, &cell, false));
        }
        if !nodes.is_empty() {
            self.push(Node::Tagged(Tag::Table, nodes));
        }
        Ok(())
    }

    /// Adds content to a page that is finished already.
    fn onto(&mut self, page: usize, node: Node) {
        if let Some(layer) = self.pages.get_mut(page).and_then(|page| page.layers.first_mut()) {
            Arc::make_mut(layer).nodes.push(node);
        }
    }

    fn row_height(&self, row: &[String], widths: &[Length], face: &Face) -> Result<Length, Problem> {
        let padding = self.layout.padding;
        let mut most = 1;
        for (text, width) in row.iter().zip(widths) {
            self.check(text, face)?;
            most = most.max(text::flow(self.desk.family, text, *width - padding * 2, face).len());
        }
        Ok(text::height(most, face) + padding)
    }

    fn row(&mut self, row: &[String], rect: Rect, widths: &[Length], face: &Face, head: bool) -> Node {
        let padding = self.layout.padding;
        let mut x = rect.left();
        let mut cells = Vec::new();
        if head {
            self.push(Node::artifact(Item::Rect { rect, fill: Some(ink::SHADE), stroke: None }));
        }
        for (text, width) in row.iter().zip(widths) {
            let whole = Rect::new(Point::new(x, rect.top()), Size::new(*width, rect.height()));
            let half = padding.half();
            let frame = whole.shrunk(Sides { left: padding, top: half, right: padding, bottom: half });
            let lines = text::flow(self.desk.family, text, frame.width(), face);
            let tag = if head { Tag::HeaderCell(Scope::Column) } else { Tag::Cell };
            cells.push(text::run(self.desk.family, &lines, frame, face).tagged(tag));
            x += *width;
        }
        let (from, to) = (Point::new(rect.left(), rect.bottom()), Point::new(rect.right(), rect.bottom()));
        self.push(Node::artifact(Item::Line { from, to, stroke: ink::FINE }));
        Node::Tagged(Tag::Row, cells)
    }

    /// Fails on a character that the font lacks.
    fn check(&self, text: &str, face: &Face) -> Result<(), Problem> {
        match self.desk.family.font(face.weight).lacks(text) {
            None => Ok(()),
            Some(missing) => Err(Problem::new(format!("the font has no `{missing}`, needed for `{text}`"))
                .hint("choose another font: `andika` and `atkinson` come with Placewright")),
        }
    }
}

/// The heading of every page of the ticket.
fn headed(desk: &Desk<'_>, layout: &Layout, size: Size) -> Result<Headed, Problem> {
    let title = crate::sheets::row(SheetKind::Ticket).title;
    let head = Head { title, note: None, reader: Reader::Staff, name: false, code: false };
    head::lay(desk, desk.live(size, layout), &head)
}
