//! The sorting board: one row a number, its given form in the first column, an empty box for each other form.
//!
//! In: the sort sets and the [`Design`] that board and strips share. Out: a master a version, over as many pages as its rows
//! need. Each page is a table: column headings, a row heading a number, and empty cells, which are the boxes.

use crate::diag::Problem;
use crate::lesson::SortSet;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::{Content, Form, Number};
use crate::sheets::kinds::pieces::{self, ColumnHead, Design, PageNumber, name};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Align;
use crate::sheets::page::tongues::within;
use crate::sheets::page::{Item, Layer, Node, Page, Scope, Tag};
use crate::spec::SheetKind;

/// Lays out the masters of all versions.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    if desk.lesson.sets.is_empty() {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::Board)?;
    let designs = pieces::designs(desk)?;
    let mut pages = Vec::new();
    for set in &desk.lesson.sets {
        let design = designs.of(set)?;
        let mut rows = set.rows.as_slice();
        let counts = design.rows_of(set);
        for (k, &count) in (1..).zip(&counts) {
            let (these, rest) = rows.split_at(rows.len().min(count as usize));
            rows = rest;
            let number = PageNumber { k, of: counts.len(), board: false };
            pages.push(desk.versioned(page(desk, layout, design, set, these, number)?, set.version));
            name(desk, pages.last_mut(), k, counts.len());
        }
    }
    Ok(pages)
}

/// One page with some of a set's rows.
fn page(
    desk: &Desk<'_>,
    layout: &Layout,
    design: &Design,
    set: &SortSet,
    rows: &[Number],
    number: PageNumber,
) -> Result<Page, Problem> {
    let (size, headed) = pieces::board_page(desk, design.board, number)?;
    let heads = design.heads;
    let body = headed.body;
    let table = BoardTable::new(body.origin(), heads, design, &set.forms)?;
    let mut layer = Layer::default();
    let shade = |rect| Item::Rect { rect, fill: Some(ink::SHADE), stroke: None };
    let whole = table.whole(rows.len());
    layer.nodes.push(Node::Artifact(vec![
        shade(Rect::new(whole.origin(), Size::new(whole.width(), heads))),
        shade(Rect::new(whole.origin(), Size::new(design.given, whole.height()))),
    ]));
    let mut nodes = vec![headings(desk, layout, &table, set)?];
    for (k, &number) in rows.iter().enumerate() {
        let given = table.given(k);
        let content = pieces::shown(set, number, set.given)?;
        let room = given.shrunk(Sides::splat(layout.padding));
        let heading = match (content, &design.pictures) {
            (Content::Text(text), _) => {
                let lines = desk.set(&text, room, &design.given_face, Align::CENTRE)?;
                within(desk.language(set.given), lines.nodes())
            }
            (Content::Both(texts), _) => desk.both(&texts, room, &design.given_face)?,
            (Content::Blocks(counts), Some(pictures)) => {
                vec![pictures.seen(desk, counts, room, &design.given_face)?]
            }
            (Content::Blocks(_), None) => return Err(Problem::new("internal: a picture was never measured")),
        };
        let mut cells = vec![Node::Tagged(Tag::HeaderCell(Scope::Row), heading)];
        cells.extend(set.forms.iter().map(|_| Node::Tagged(Tag::Cell, Vec::new())));
        layer.boxes.extend(table.cells(k));
        nodes.push(Node::Tagged(Tag::Row, cells));
    }
    layer.nodes.push(Node::Tagged(Tag::Table, nodes));
    layer.nodes.push(Node::Artifact(table.rules(rows.len())));
    Ok(desk.finish(SheetKind::Board, size, layout.stock, headed, layer))
}

/// The row of column headings.
fn headings(desk: &Desk<'_>, layout: &Layout, table: &BoardTable<'_>, set: &SortSet) -> Result<Node, Problem> {
    let face = desk.face(layout, "heading")?;
    let head = |cell: Rect, form: Form| ColumnHead::of(desk, set, form).parts(layout, cell, table.design.head_lines);
    let mut cells = vec![head(table.head(None), set.given)];
    cells.extend(set.forms.iter().enumerate().map(|(k, form)| head(table.head(Some(k)), *form)));
    // One size for all headings, so that they share a base line.
    let mut size = face.size;
    for (text, frame) in cells.iter().flatten() {
        size = size.min(crate::sheets::page::text::largest(desk.family, &[text], frame.size(), &face)?);
    }
    // The lesson's language first.
    let languages = [None, desk.lesson.second()];
    let nodes = cells.into_iter().map(|parts| {
        let mut lines = Vec::new();
        for ((text, frame), language) in parts.into_iter().zip(languages) {
            let face = face.at(size);
            let face = if language.is_some() { face.regular() } else { face };
            lines.extend(within(language, desk.set(text, frame, &face, Align::CENTRE)?.nodes()));
        }
        Ok(Node::Tagged(Tag::HeaderCell(Scope::Column), lines))
    });
    Ok(Node::Tagged(Tag::Row, nodes.collect::<Result<_, Problem>>()?))
}

/// Where the cells of a page are.
struct BoardTable<'d> {
    origin: Point,
    heads: Length,
    design: &'d Design,
    /// The left edge of every column of boxes, and the right edge of the last.
    edges: Vec<Length>,
}

impl<'d> BoardTable<'d> {
    fn new(origin: Point, heads: Length, design: &'d Design, forms: &[Form]) -> Result<Self, Problem> {
        let mut edges = vec![origin.x + design.given];
        let mut x = origin.x + design.given;
        for form in forms {
            x += design.class(*form)?.wide;
            edges.push(x);
        }
        Ok(Self { origin, heads, design, edges })
    }

    fn y(&self, row: usize) -> Length {
        self.origin.y + self.heads + self.design.high * row
    }

    /// The boxes of a row.
    fn cells(&self, row: usize) -> impl Iterator<Item = Rect> + '_ {
        let (top, bottom) = (self.y(row), self.y(row + 1));
        self.edges.windows(2).map(move |edge| Rect::between(Point::new(edge[0], top), Point::new(edge[1], bottom)))
    }

    fn given(&self, row: usize) -> Rect {
        Rect::new(Point::new(self.origin.x, self.y(row)), Size::new(self.design.given, self.design.high))
    }

    /// The heading of a column of boxes, or of the given column.
    fn head(&self, column: Option<usize>) -> Rect {
        let edge = |k: usize| self.edges.get(k).copied().unwrap_or(self.origin.x);
        let (left, right) = column.map_or((self.origin.x, edge(0)), |k| (edge(k), edge(k + 1)));
        Rect::between(Point::new(left, self.origin.y), Point::new(right, self.y(0)))
    }

    fn whole(&self, rows: usize) -> Rect {
        let right = self.edges.last().copied().unwrap_or(self.origin.x);
        Rect::between(self.origin, Point::new(right, self.y(rows)))
    }

    /// The lines between and around the cells.
    fn rules(&self, rows: usize) -> Vec<Item> {
        let whole = self.whole(rows);
        let line = |from: Point, to: Point| Item::Line { from, to, stroke: ink::OUTLINE };
        let level = |y| line(Point::new(whole.left(), y), Point::new(whole.right(), y));
        let upright = |x: Length| line(Point::new(x, whole.top()), Point::new(x, whole.bottom()));
        let mut items: Vec<Item> = (0..rows).map(|row| level(self.y(row))).collect();
        items.extend(self.edges.iter().take(self.edges.len() - 1).map(|x| upright(*x)));
        items.push(Item::Rect { rect: whole, fill: None, stroke: Some(ink::HEAVY) });
        items
    }
}
