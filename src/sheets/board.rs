//! The sorting board: one row a number, its given form in the first column, an empty box for each other form.
//!
//! In: the sort sets and the [`Design`] that board and strips share. Out: a master a version, over as many pages as its rows
//! need. Each page is a table: column headings, a row heading a number, and empty cells, which are the boxes.

use super::desk::Desk;
use super::ink;
use super::layout::Layout;
use super::page::{Item, Layer, Node, Page, Scope, Tag};
use super::pieces::{self, Design};
use super::text::Align;
use crate::diag::Problem;
use crate::lesson::SortSet;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::{Content, Number};
use crate::spec::SheetKind;

/// Lays out the masters of all versions.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    if desk.lesson.sets.is_empty() {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::Board)?;
    let design = pieces::design(desk)?;
    let mut pages = Vec::new();
    for set in &desk.lesson.sets {
        let mut rows = set.rows.as_slice();
        for &count in &design.rows {
            let (these, rest) = rows.split_at(rows.len().min(usize::try_from(count).unwrap_or(usize::MAX)));
            rows = rest;
            if !these.is_empty() {
                pages.push(page(desk, layout, &design, set, these)?.of(set.version));
            }
        }
    }
    Ok(pages)
}

/// One page with some of a set's rows.
fn page(desk: &Desk<'_>, layout: &Layout, design: &Design, set: &SortSet, rows: &[Number]) -> Result<Page, Problem> {
    let (size, headed) = pieces::board_page(desk, design.board)?;
    let heads = pieces::headings(desk, layout)?;
    let body = headed.body;
    let table = Table { left: body.left(), top: body.top(), heads, design };
    let mut layer = Layer::default();
    let shade = |rect| Item::Rect { rect, fill: Some(ink::SHADE), stroke: None };
    let whole = table.whole(set.forms.len(), rows.len());
    layer.nodes.push(Node::Artifact(vec![
        shade(Rect::new(whole.origin(), Size::new(whole.width(), heads))),
        shade(Rect::new(whole.origin(), Size::new(design.given, whole.height()))),
    ]));
    let mut nodes = vec![headings(desk, layout, &table, set)?];
    for (k, &number) in (0..).zip(rows) {
        let given = table.given(k);
        let content = pieces::shown(desk, number, pieces::given(desk))?;
        let room = given.shrunk(Sides::splat(layout.padding));
        let heading = match (content, &design.pictures) {
            (Content::Text(text), _) => desk.set(&text, room, &design.given_face, Align::CENTRE)?.nodes(),
            (Content::Blocks(counts), Some(pictures)) => vec![pictures.figure(counts, room)],
            (Content::Blocks(_), None) => return Err(Problem::new("internal: a picture was never measured")),
        };
        let mut cells = vec![Node::Tagged(Tag::HeaderCell(Scope::Row), heading)];
        cells.extend(set.forms.iter().map(|_| Node::Tagged(Tag::Cell, Vec::new())));
        layer.boxes.extend((0..).zip(&set.forms).map(|(column, _)| table.cell(k, column)));
        nodes.push(Node::Tagged(Tag::Row, cells));
    }
    layer.nodes.push(Node::Tagged(Tag::Table, nodes));
    layer.nodes.push(Node::Artifact(table.rules(set.forms.len(), rows.len())));
    Ok(desk.finish(SheetKind::Board, size, layout.stock, headed, layer))
}

/// The row of column headings.
fn headings(desk: &Desk<'_>, layout: &Layout, table: &Table<'_>, set: &SortSet) -> Result<Node, Problem> {
    let face = desk.face(layout, "heading")?;
    let inner = |cell: Rect| cell.shrunk(Sides { left: layout.padding, right: layout.padding, ..Sides::default() });
    let mut cells = vec![(inner(table.head(None)), pieces::given(desk).heading())];
    cells.extend((0..).zip(&set.forms).map(|(column, form)| (inner(table.head(Some(column))), form.heading())));
    // One size for all headings, so that they share a base line.
    let mut size = face.size;
    for (frame, text) in &cells {
        size = size.min(super::text::largest(desk.family, &[text], frame.size(), &face)?);
    }
    let nodes = cells.into_iter().map(|(frame, text)| {
        Ok(desk.set(text, frame, &face.at(size), Align::CENTRE)?.tagged(Tag::HeaderCell(Scope::Column)))
    });
    Ok(Node::Tagged(Tag::Row, nodes.collect::<Result<_, Problem>>()?))
}

/// Where the cells of a page are.
struct Table<'d> {
    left: Length,
    top: Length,
    heads: Length,
    design: &'d Design,
}

impl Table<'_> {
    fn x(&self, column: i64) -> Length {
        self.left + self.design.given + self.design.cell.width * column
    }

    fn y(&self, row: i64) -> Length {
        self.top + self.heads + self.design.cell.height * row
    }

    fn cell(&self, row: i64, column: i64) -> Rect {
        Rect::new(Point::new(self.x(column), self.y(row)), self.design.cell)
    }

    fn given(&self, row: i64) -> Rect {
        Rect::new(Point::new(self.left, self.y(row)), Size::new(self.design.given, self.design.cell.height))
    }

    /// The heading of a column, or of the given column.
    fn head(&self, column: Option<i64>) -> Rect {
        let (left, width) = match column {
            Some(column) => (self.x(column), self.design.cell.width),
            None => (self.left, self.design.given),
        };
        Rect::new(Point::new(left, self.top), Size::new(width, self.heads))
    }

    fn whole(&self, columns: usize, rows: usize) -> Rect {
        let corner = Point::new(self.x(count(columns)), self.y(count(rows)));
        Rect::between(Point::new(self.left, self.top), corner)
    }

    /// The lines between and around the cells.
    fn rules(&self, columns: usize, rows: usize) -> Vec<Item> {
        let whole = self.whole(columns, rows);
        let level = |y| Item::Line {
            from: Point::new(whole.left(), y),
            to: Point::new(whole.right(), y),
            stroke: ink::OUTLINE,
        };
        let upright = |x| Item::Line {
            from: Point::new(x, whole.top()),
            to: Point::new(x, whole.bottom()),
            stroke: ink::OUTLINE,
        };
        let mut items: Vec<Item> = (0..count(rows)).map(|row| level(self.y(row))).collect();
        items.extend((0..count(columns)).map(|column| upright(self.x(column))));
        items.push(Item::Rect { rect: whole, fill: None, stroke: Some(ink::HEAVY) });
        items
    }
}

fn count(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(0)
}
