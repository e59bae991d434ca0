//! Tables for grown-ups, over as many pages as they need.
//!
//! In: parts, each a heading and a table of text and pictures. Out: pages on which rows stay whole, a heading stays with
//! its first row, and column headings come again on every page.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size, Weight};
use crate::sheets::blocks::geometry::Counts;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use crate::spec::SheetKind;

/// A heading with a table below it.
#[derive(Debug, Clone)]
pub struct Part {
    /// The heading.
    pub heading: String,
    /// A sentence below the heading.
    pub note: Option<String>,
    /// The columns, left to right.
    pub columns: Vec<Column>,
    /// The rows; each has a cell a column, and the first cell heads the row.
    pub rows: Vec<Vec<Cell>>,
}

/// A column.
#[derive(Debug, Clone)]
pub struct Column {
    /// Its heading.
    pub heading: String,
    /// How wide it is.
    pub width: Width,
}

impl Column {
    fn shares(&self) -> u32 {
        if let Width::Share(count) = self.width { count } else { 0 }
    }
}

/// How wide a column is, where that holds its heading, its longest word and its pictures; else it is as wide as those.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Width {
    /// This.
    Fixed(Length),
    /// This many shares of what the fixed columns leave.
    Share(u32),
}

/// What a cell shows.
#[derive(Debug, Clone)]
pub enum Cell {
    /// Text, broken into lines where it must.
    Text(String),
    /// The same, in bold.
    Bold(String),
    /// A block picture, at the left of its cell.
    Picture(Counts),
    /// Nothing, to be filled in.
    Empty,
}

/// Which page the tables go on.
#[derive(Debug, Clone, Copy)]
pub struct Setup<'s> {
    /// The sheet.
    pub kind: SheetKind,
    /// Its layout; it names `text`, `column` and `part` under `[type]`, and `between` under `[length]`.
    pub layout: &'s Layout,
    /// The page's title.
    pub title: &'s str,
    /// A line below it.
    pub note: Option<&'s str>,
    /// The pictures, where a cell shows one.
    pub pictures: Option<&'s Pictures>,
}

/// Lays parts out one after another. Fails when a word is wider than its column, or a row higher than a page.
pub fn lay(desk: &Desk<'_>, setup: &Setup<'_>, parts: &[Part]) -> Result<Vec<Page>, Problem> {
    let mut flow = Flow::new(desk, setup)?;
    for part in parts {
        flow.part(part)?;
    }
    flow.close();
    Ok(flow.pages)
}

/// Pages being filled.
struct Flow<'a> {
    desk: &'a Desk<'a>,
    setup: &'a Setup<'a>,
    text: Face,
    column: Face,
    part: Face,
    between: Length,
    pages: Vec<Page>,
    /// The page being filled.
    size: Size,
    headed: Headed,
    layer: Layer,
    /// Where the next thing goes.
    y: Length,
}

impl<'a> Flow<'a> {
    fn new(desk: &'a Desk<'a>, setup: &'a Setup<'a>) -> Result<Self, Problem> {
        let (size, headed) = blank(desk, setup)?;
        Ok(Self {
            desk,
            setup,
            text: desk.face(setup.layout, "text")?,
            column: desk.face(setup.layout, "column")?,
            part: desk.face(setup.layout, "part")?,
            between: setup.layout.length("between")?,
            pages: Vec::new(),
            size,
            y: headed.body.top(),
            headed,
            layer: Layer::default(),
        })
    }

    /// Ends the page and begins another.
    fn turn(&mut self) -> Result<(), Problem> {
        let (size, headed) = blank(self.desk, self.setup)?;
        self.close();
        self.size = size;
        self.y = headed.body.top();
        self.headed = headed;
        Ok(())
    }

    /// Ends the page.
    fn close(&mut self) {
        let (kind, stock) = (self.setup.kind, self.setup.layout.stock);
        let layer = std::mem::take(&mut self.layer);
        self.pages.push(self.desk.finish(kind, self.size, stock, self.headed.clone(), layer));
    }

    fn part(&mut self, part: &Part) -> Result<(), Problem> {
        let body = self.headed.body;
        let widths = widths(&part.columns, &self.needs(part), body.width());
        let heads: Vec<Cell> = part.columns.iter().map(|column| Cell::Bold(column.heading.clone())).collect();
        let head_high = self.high(&heads, &widths, &self.column)?;
        let highs = part.rows.iter().map(|row| self.high(row, &widths, &self.text)).collect::<Result<Vec<_>, _>>()?;
        if self.y > body.top() {
            self.y += self.between;
        }
        let note = part.note.as_ref().map(|note| text::flow(self.desk.family, note, body.width(), &self.text));
        let note_high = note.as_ref().map_or(Length::ZERO, |note| text::height(note.len(), &self.text));
        let table = self.y + self.part.pitch() + note_high + GAP + head_high;
        if self.y > body.top() && !breaks_well(body.bottom() - table, body.height() - (table - self.y), &highs) {
            self.turn()?;
        }
        let strip = Rect::new(Point::new(body.left(), self.y), Size::new(body.width(), self.part.pitch()));
        let heading = self.desk.set(&part.heading, strip, &self.part, Align::TOP)?;
        self.layer.nodes.push(heading.tagged(Tag::Heading(2)));
        self.y += self.part.pitch();
        if let Some(lines) = note {
            let strip = Rect::new(Point::new(body.left(), self.y), Size::new(body.width(), note_high));
            self.layer.nodes.push(text::run(self.desk.family, &lines, strip, &self.text).tagged(Tag::Paragraph));
            self.y += note_high;
        }
        self.y += GAP;
        let mut rows = part.rows.iter().zip(highs).peekable();
        while rows.peek().is_some() {
            let top = self.y;
            let mut nodes = vec![self.row(&heads, &widths, head_high, true)?];
            let mut edges = vec![top, self.y];
            while let Some((row, high)) = rows.next_if(|(_, high)| self.y + *high <= self.headed.body.bottom()) {
                nodes.push(self.row(row, &widths, high, false)?);
                edges.push(self.y);
            }
            if edges.len() == 2 {
                return Err(Problem::new(format!("a row of \"{}\" is higher than a page", part.heading))
                    .hint("use larger paper or smaller text"));
            }
            self.layer.nodes.push(Node::Tagged(Tag::Table, nodes));
            let rules = edges.into_iter().map(|y| Item::Line {
                from: Point::new(body.left(), y),
                to: Point::new(body.right(), y),
                stroke: ink::OUTLINE,
            });
            self.layer.nodes.push(Node::Artifact(rules.collect()));
            if rows.peek().is_some() {
                self.turn()?;
            }
        }
        Ok(())
    }

    /// One row, from `y` down.
    fn row(&mut self, cells: &[Cell], widths: &[Length], high: Length, heads: bool) -> Result<Node, Problem> {
        let body = self.headed.body;
        if heads {
            let rect = Rect::new(Point::new(body.left(), self.y), Size::new(body.width(), high));
            self.layer.nodes.push(Node::artifact(Item::Rect { rect, fill: Some(ink::SHADE), stroke: None }));
        }
        let mut x = body.left();
        let mut nodes = Vec::new();
        for (k, (cell, &width)) in cells.iter().zip(widths).enumerate() {
            let rect = Rect::new(Point::new(x, self.y), Size::new(width, high));
            let frame = rect.shrunk(self.inner());
            let base = if heads { self.column } else { self.text };
            let content = match cell {
                Cell::Empty => Vec::new(),
                Cell::Picture(counts) => match self.setup.pictures {
                    Some(pictures) => vec![pictures.figure(*counts, at_left(pictures, *counts, frame))],
                    None => return Err(Problem::new("internal: a picture was never measured")),
                },
                Cell::Text(text) => self.lines(text, frame, &base),
                Cell::Bold(text) => self.lines(text, frame, &base.bold()),
            };
            let tag = match (heads, k) {
                (true, _) => Tag::HeaderCell(Scope::Column),
                (false, 0) => Tag::HeaderCell(Scope::Row),
                _ => Tag::Cell,
            };
            nodes.push(Node::Tagged(tag, content));
            x += width;
        }
        self.y += high;
        Ok(Node::Tagged(Tag::Row, nodes))
    }

    /// Lines of a cell, in its middle from top to bottom.
    fn lines(&self, text: &str, frame: Rect, face: &Face) -> Vec<Node> {
        let lines = text::flow(self.desk.family, text, frame.width(), face);
        let spare = (frame.height() - text::height(lines.len(), face)).half();
        let strip = frame.shrunk(Sides { top: spare, ..Sides::default() });
        text::run(self.desk.family, &lines, strip, face).nodes()
    }

    fn inner(&self) -> Sides<Length> {
        let padding = self.setup.layout.padding;
        Sides { left: padding, right: padding, top: padding.half(), bottom: padding.half() }
    }

    /// How high a row is.
    fn high(&self, cells: &[Cell], widths: &[Length], face: &Face) -> Result<Length, Problem> {
        let inner = self.inner();
        let mut high = Length::ZERO;
        for (cell, &width) in cells.iter().zip(widths) {
            let width = width - inner.left - inner.right;
            high = high.max(match cell {
                Cell::Empty => face.pitch(),
                Cell::Picture(_) => self.setup.pictures.map_or(Length::ZERO, |p| p.work().size().height),
                Cell::Text(text) => self.tall(text, width, face)?,
                Cell::Bold(text) => self.tall(text, width, &face.bold())?,
            });
        }
        Ok(high + inner.top + inner.bottom)
    }

    /// How wide each column must be at the least: as wide as its widest word, heading included, and as its pictures.
    fn needs(&self, part: &Part) -> Vec<Length> {
        let inner = self.inner();
        let word = |text: &str, face: &Face| {
            let words = text::flow(self.desk.family, text, Length::ZERO, face);
            words.iter().map(|word| self.desk.width(word, face)).max().unwrap_or(Length::ZERO)
        };
        let of = |(k, column): (usize, &Column)| {
            let cells = part.rows.iter().filter_map(|row| row.get(k)).map(|cell| match cell {
                Cell::Empty => Length::ZERO,
                Cell::Picture(counts) => self.setup.pictures.map_or(Length::ZERO, |p| picture_width(p, *counts)),
                Cell::Text(text) => word(text, &self.text),
                Cell::Bold(text) => word(text, &self.text.bold()),
            });
            let heading = word(&column.heading, &self.column.bold());
            cells.fold(heading, Length::max) + inner.left + inner.right
        };
        part.columns.iter().enumerate().map(of).collect()
    }

    fn tall(&self, text: &str, width: Length, face: &Face) -> Result<Length, Problem> {
        let lines = text::flow(self.desk.family, text, width, face);
        match lines.iter().find(|line| self.desk.width(line, face) > width) {
            Some(word) => Err(Problem::new(format!("`{word}` is wider than its column of {width}"))
                .hint("use larger paper or smaller text in this sheet's layout")),
            None => Ok(text::height(lines.len(), face)),
        }
    }
}

/// Whether a table may begin with `here` left for its rows. It may where it fits. Where it goes on over the page, no row
/// stands alone on either side; but for that alone no table is broken that a page of its own, with `whole` for its rows,
/// would hold.
fn breaks_well(here: Length, whole: Length, highs: &[Length]) -> bool {
    let mut left = here;
    let fit = highs.iter().take_while(|high| {
        left -= **high;
        left >= Length::ZERO
    });
    let (fit, rows) = (fit.count(), highs.len());
    let lone = fit == 1 || rows - fit == 1;
    fit == rows || fit > 0 && !(lone && highs.iter().copied().sum::<Length>() <= whole)
}

/// Between a part's heading and its table.
const GAP: Length = Length::mm(1);

/// A page with its heading, before anything is on it.
fn blank(desk: &Desk<'_>, setup: &Setup<'_>) -> Result<(Size, Headed), Problem> {
    let size = desk.page(setup.layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let head = Head { title: setup.title, note: setup.note, reader: Reader::Staff, name: false, code: false };
    Ok((size, head::lay(desk, desk.live(size, setup.layout), &head)?))
}

/// The left part of a cell that a picture fills.
fn at_left(pictures: &Pictures, counts: Counts, frame: Rect) -> Rect {
    Rect::new(frame.origin(), Size::new(picture_width(pictures, counts), frame.height()))
}

/// How wide a picture is, pen included.
pub fn picture_width(pictures: &Pictures, counts: Counts) -> Length {
    let blocks = pictures.work().place(counts, Rect::default());
    let whole = blocks.into_iter().map(|block| block.rect).reduce(Rect::union);
    whole.map_or(Length::ZERO, Rect::width) + ink::OUTLINE.width
}

/// The width of every column, none under what it needs; together exactly `whole` where the needs leave room for that.
fn widths(columns: &[Column], needs: &[Length], whole: Length) -> Vec<Length> {
    let mut pinned: Vec<Option<Length>> = columns
        .iter()
        .zip(needs)
        .map(|(column, need)| if let Width::Fixed(width) = column.width { Some(width.max(*need)) } else { None })
        .collect();
    // A share too narrow for its column is given what it needs, which leaves less for the others: until none is.
    loop {
        let rest = (whole - pinned.iter().flatten().copied().sum()).max(Length::ZERO);
        let open = |k: usize| pinned[k].is_none();
        let shares: u32 = (0..columns.len()).filter(|k| open(*k)).map(|k| columns[k].shares()).sum();
        let parts: Vec<Length> = rest.split(shares.max(1)).collect();
        let mut parts = parts.into_iter();
        let shared: Vec<Option<Length>> = (0..columns.len())
            .map(|k| open(k).then(|| parts.by_ref().take(columns[k].shares() as usize).sum()))
            .collect();
        match (0..columns.len()).find(|k| shared[*k].is_some_and(|width| width < needs[*k])) {
            Some(narrow) => pinned[narrow] = Some(needs[narrow]),
            None => return (0..columns.len()).filter_map(|k| pinned[k].or(shared[k])).collect(),
        }
    }
}

/// How wide a column must be for these texts on one line each.
pub fn natural<'t>(desk: &Desk<'_>, texts: impl Iterator<Item = &'t str>, face: &Face, padding: Length) -> Length {
    let bold = Face { weight: Weight::Bold, ..*face };
    texts.map(|text| desk.width(text, &bold)).max().unwrap_or(Length::ZERO) + padding * 2 + Length::mm(1)
}
