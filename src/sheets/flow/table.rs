//! Tables: rows stay whole, no column is narrower than its widest word, and the headings come again on every page.
//!
//! In: columns and cells. Out: a [`SetTable`], whose lines are broken and measured, ready to be drawn row by row; or pages
//! of it.

use std::borrow::Cow;
use std::ops::Range;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size, Weight};
use crate::sheets::blocks::geometry::Counts;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::flow::pages::Flow;
use crate::sheets::flow::widths::{ColumnWidth, widths};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::{self, Face};
use crate::sheets::page::tongues::within;
use crate::sheets::page::{Item, Node, Scope, Tag};
use crate::spec::Language;

/// A table.
#[derive(Debug, Clone)]
pub struct Table {
    /// The columns, left to right.
    pub columns: Vec<TableColumn>,
    /// The rows; each has a cell a column.
    pub rows: Vec<Vec<TableCell>>,
}

/// A column.
#[derive(Debug, Clone)]
pub struct TableColumn {
    /// Its heading.
    pub heading: String,
    /// How wide it is.
    pub width: ColumnWidth,
}

/// What a cell shows.
#[derive(Debug, Clone)]
pub enum TableCell {
    /// Text, broken into lines where it must.
    Text(String),
    /// The same, in bold.
    Bold(String),
    /// Words, a paragraph for each language, in bold or not; which language is said where it is not the file's.
    Words(Vec<(String, Option<Language>)>, Weight),
    /// A block picture, at the left of its cell, and what it holds beside it, line by line.
    Picture(Counts, Vec<String>),
    /// Nothing, to be filled in.
    Empty,
}

/// The lines of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rules {
    /// A strong line above and below every row, headings on a shade, texts in the middle of their rows.
    Strong,
    /// A fine line below every row, headings on a shade.
    Fine,
    /// None.
    Open,
}

/// How a table is set.
#[derive(Debug, Clone, Copy)]
pub struct TableLook<'p> {
    /// The type of the headings, and the room around each.
    pub head: (Face, Sides<Length>),
    /// The type of the cells, and the room around each.
    pub cell: (Face, Sides<Length>),
    /// The type of what stands beside pictures.
    pub remark: Face,
    /// Its lines.
    pub rules: Rules,
    /// Whether the first cell of a row heads it; in a table of two columns there is too little behind it for a head.
    pub row_heads: bool,
    /// The pictures, where a cell shows one.
    pub pictures: Option<&'p Pictures>,
    /// Whether it goes to a page of its own rather than be parted, where that holds it.
    pub whole: bool,
}

impl TableLook<'_> {
    /// Headings and cells in these faces, with `padding` at their sides and half of it above and below.
    pub fn padded(head: Face, cell: Face, padding: Length, rules: Rules) -> Self {
        let sides = Sides { left: padding, right: padding, top: padding.half(), bottom: padding.half() };
        let (head, remark, cell) = ((head, sides), cell, (cell, sides));
        Self { head, cell, remark, rules, row_heads: true, pictures: None, whole: false }
    }

    /// The same with so many percent of the room above and below headings and cells.
    #[must_use]
    pub fn closer(self, white: i64) -> Self {
        let closer = |(face, sides): (Face, Sides<Length>)| (face, closer(sides, white));
        Self { head: closer(self.head), cell: closer(self.cell), ..self }
    }
}

/// The same room with so many percent of it above and below.
fn closer(sides: Sides<Length>, white: i64) -> Sides<Length> {
    let Sides { top, bottom, .. } = sides;
    Sides { top: top.scaled(white, 100), bottom: bottom.scaled(white, 100), ..sides }
}

/// A table whose lines are broken and whose rows are measured.
#[derive(Debug)]
pub struct SetTable<'t> {
    desk: &'t Desk<'t>,
    look: TableLook<'t>,
    /// The room above and below cells, in percent of the look's: lines stay as they are when it changes.
    white: i64,
    widths: Vec<Length>,
    head: SetRow<'t>,
    rows: Vec<SetRow<'t>>,
}

#[derive(Debug)]
struct SetRow<'t> {
    cells: Vec<SetCell<'t>>,
    /// How high its highest cell stands, without the room around it.
    tall: Length,
    sides: Sides<Length>,
}

#[derive(Debug)]
enum SetCell<'t> {
    Lines(Lines<'t>, Face),
    Paragraphs(Vec<(Lines<'t>, Face, Option<Language>)>),
    Picture(Counts, &'t [String], Face),
    Empty,
}

/// A text of a cell, line by line.
type Lines<'t> = Vec<Cow<'t, str>>;

impl Table {
    /// Breaks its lines for a width. Fails when its longest words are wider together, or the font lacks a character.
    pub fn set<'t>(&'t self, desk: &'t Desk<'t>, look: &TableLook<'t>, width: Length) -> Result<SetTable<'t>, Problem> {
        let (head_face, head_sides) = &look.head;
        let columns: Vec<_> = self.columns.iter().map(|column| column.width).collect();
        let need = |(k, column): (usize, &TableColumn)| {
            let head = text::narrowest(desk.family, &column.heading, head_face) + head_sides.left + head_sides.right;
            let cells = self.rows.iter().filter_map(|row| row.get(k));
            cells.map(|cell| need(desk, look, cell)).fold(head, Length::max)
        };
        let needs: Vec<_> = self.columns.iter().enumerate().map(need).collect();
        let widths = widths(&columns, &needs, width)?;
        let heads = self.columns.iter().zip(&widths).map(|(column, width)| {
            let (lines, tall) = broken(desk, &column.heading, head_face, *width - head_sides.left - head_sides.right)?;
            Ok((SetCell::Lines(lines, *head_face), tall))
        });
        let head = SetRow::of(heads, *head_sides)?;
        let (_, sides) = look.cell;
        let row = |cells: &'t Vec<TableCell>| {
            let room = |width: &Length| *width - sides.left - sides.right;
            SetRow::of(cells.iter().zip(&widths).map(|(cell, width)| set(desk, look, cell, room(width))), sides)
        };
        let rows = self.rows.iter().map(row).collect::<Result<_, _>>()?;
        Ok(SetTable { desk, look: *look, white: 100, widths, head, rows })
    }
}

/// How wide a column must be for this cell: as its widest word, or its picture.
fn need(desk: &Desk<'_>, look: &TableLook<'_>, cell: &TableCell) -> Length {
    let (face, sides) = &look.cell;
    let word = |text: &str, face: &Face| text::narrowest(desk.family, text, face);
    let wide = match cell {
        TableCell::Empty => Length::ZERO,
        TableCell::Picture(counts, told) => {
            look.pictures.map_or(Length::ZERO, |pictures| pictured(desk, pictures, *counts, told, &look.remark))
        }
        TableCell::Text(text) => word(text, face),
        TableCell::Bold(text) => word(text, &face.bold()),
        TableCell::Words(texts, weight) => {
            let face = Face { weight: *weight, ..*face };
            texts.iter().map(|(text, _)| word(text, &face)).max().unwrap_or(Length::ZERO)
        }
    };
    wide + sides.left + sides.right
}

/// A text in lines of a width, and how high it stands. Fails when the font lacks a character.
fn broken<'t>(desk: &Desk<'_>, text: &'t str, face: &Face, width: Length) -> Result<(Lines<'t>, Length), Problem> {
    text::settable(desk.family, text, face)?;
    let lines = text::flow(desk.family, text, width, face);
    let tall = text::height(lines.len(), face);
    Ok((lines, tall))
}

/// A cell with its lines broken for a width, and how high it stands.
fn set<'t>(
    desk: &Desk<'_>,
    look: &TableLook<'_>,
    cell: &'t TableCell,
    width: Length,
) -> Result<(SetCell<'t>, Length), Problem> {
    let (face, _) = look.cell;
    match cell {
        TableCell::Empty => Ok((SetCell::Empty, face.pitch())),
        TableCell::Picture(counts, told) => {
            let pictures = look.pictures.ok_or_else(|| Problem::new("internal: a picture was never measured"))?;
            let tall = pictures.work().size().height.max(text::height(told.len(), &look.remark));
            Ok((SetCell::Picture(*counts, told, look.remark), tall))
        }
        TableCell::Text(text) | TableCell::Bold(text) => {
            let face = if matches!(cell, TableCell::Bold(_)) { face.bold() } else { face };
            let (lines, tall) = broken(desk, text, &face, width)?;
            Ok((SetCell::Lines(lines, face), tall))
        }
        TableCell::Words(texts, weight) => {
            let face = Face { weight: *weight, ..face };
            let mut high = Length::ZERO;
            let mut parts = Vec::new();
            for (text, language) in texts {
                let (lines, tall) = broken(desk, text, &face, width)?;
                parts.push((lines, face, *language));
                high += tall;
            }
            Ok((SetCell::Paragraphs(parts), high))
        }
    }
}

impl<'t> SetRow<'t> {
    /// A row of these cells, each with how high it stands.
    fn of(
        cells: impl Iterator<Item = Result<(SetCell<'t>, Length), Problem>>,
        sides: Sides<Length>,
    ) -> Result<Self, Problem> {
        let (mut row, mut tall) = (Vec::new(), Length::ZERO);
        for cell in cells {
            let (cell, high) = cell?;
            tall = tall.max(high);
            row.push(cell);
        }
        Ok(Self { cells: row, tall, sides })
    }

    /// The room around its cells, with so many percent of it above and below.
    fn around(&self, white: i64) -> Sides<Length> {
        closer(self.sides, white)
    }

    /// How high it is with so many percent of the room above and below its cells.
    fn high(&self, white: i64) -> Length {
        let Sides { top, bottom, .. } = self.around(white);
        self.tall + top + bottom
    }
}

impl SetTable<'_> {
    /// Its rows from now on with so many percent of the room above and below headings and cells.
    pub fn space(&mut self, white: i64) {
        self.white = white;
    }

    /// How high each row is, from the first to the last.
    fn highs(&self) -> Vec<Length> {
        self.rows.iter().map(|row| row.high(self.white)).collect()
    }

    /// How high the headings are.
    fn head_high(&self) -> Length {
        self.head.high(self.white)
    }

    /// How high it is with all its rows.
    pub fn height(&self) -> Length {
        self.head_high() + self.highs().into_iter().sum()
    }

    /// The whole table, from `at` down; and where it ends.
    pub fn draw_all(&self, at: Point) -> (Vec<Node>, Length) {
        self.draw(0..self.rows.len(), at)
    }

    /// The headings and some of the rows, from `at` down; and where they end.
    fn draw(&self, rows: Range<usize>, at: Point) -> (Vec<Node>, Length) {
        let width = self.widths.iter().copied().sum();
        let rule = |y: Length, stroke| {
            let from = Point::new(at.x, y);
            Item::Line { from, to: from.moved(width, Length::ZERO), stroke }
        };
        let (mut nodes, mut lines, mut drawn) = (Vec::new(), Vec::new(), Vec::new());
        if self.look.rules != Rules::Open {
            let rect = Rect::new(at, Size::new(width, self.head_high()));
            nodes.push(Node::artifact(Item::Rect { rect, fill: Some(ink::SHADE), stroke: None }));
        }
        if self.look.rules == Rules::Strong {
            lines.push(rule(at.y, ink::OUTLINE));
        }
        let mut y = at.y;
        for (k, row) in std::iter::once(&self.head).chain(&self.rows[rows]).enumerate() {
            drawn.push(self.row(row, Point::new(at.x, y), k == 0));
            y += row.high(self.white);
            match self.look.rules {
                Rules::Strong => lines.push(rule(y, ink::OUTLINE)),
                Rules::Fine => lines.push(rule(y, ink::FINE)),
                Rules::Open => {}
            }
        }
        nodes.push(Node::Tagged(Tag::Table, drawn));
        if !lines.is_empty() {
            nodes.push(Node::Artifact(lines));
        }
        (nodes, y)
    }

    /// How much of what is free in a cell stands above its text.
    fn above(&self, spare: Length) -> Length {
        if self.look.rules == Rules::Strong { spare.half() } else { Length::ZERO }
    }

    /// One row, with its top left corner here.
    fn row(&self, row: &SetRow<'_>, at: Point, heads: bool) -> Node {
        let (high, sides) = (row.high(self.white), row.around(self.white));
        let mut x = at.x;
        let mut nodes = Vec::new();
        for (k, (cell, &width)) in row.cells.iter().zip(&self.widths).enumerate() {
            let frame = Rect::new(Point::new(x, at.y), Size::new(width, high)).shrunk(sides);
            let content = match (cell, self.look.pictures) {
                (SetCell::Empty, _) | (SetCell::Picture(..), None) => Vec::new(),
                (SetCell::Picture(counts, told, face), Some(pictures)) => {
                    let room = Size::new(pictures.width(*counts), frame.height());
                    let top = (frame.height() - text::height(told.len(), face)).half();
                    let beside = frame.shrunk(Sides { left: room.width + BESIDE, top, ..Sides::default() });
                    let said = text::run(self.desk.family, told, beside, face).tagged(Tag::Paragraph);
                    let figure = pictures.figure(*counts, Rect::new(frame.origin(), room));
                    if told.is_empty() { vec![figure] } else { vec![figure, said] }
                }
                (SetCell::Lines(lines, face), _) => {
                    let top = self.above(frame.height() - text::height(lines.len(), face));
                    let strip = frame.shrunk(Sides { top, ..Sides::default() });
                    text::run(self.desk.family, lines, strip, face).nodes()
                }
                (SetCell::Paragraphs(parts), _) => {
                    let high = parts.iter().map(|(lines, face, _)| text::height(lines.len(), face)).sum();
                    let mut strip = frame.shrunk(Sides { top: self.above(frame.height() - high), ..Sides::default() });
                    let mut paragraph = |(lines, face, language): &(Lines<'_>, Face, Option<Language>)| {
                        let set = text::run(self.desk.family, lines, strip, face).nodes();
                        let set = Node::Tagged(Tag::Paragraph, within(*language, set));
                        strip = strip.shrunk(Sides { top: text::height(lines.len(), face), ..Sides::default() });
                        set
                    };
                    parts.iter().map(&mut paragraph).collect()
                }
            };
            let tag = match (heads, k) {
                (true, _) => Tag::HeaderCell(Scope::Column),
                (false, 0) if self.look.row_heads && row.cells.len() > 2 => Tag::HeaderCell(Scope::Row),
                _ => Tag::Cell,
            };
            nodes.push(Node::Tagged(tag, content));
            x += width;
        }
        Node::Tagged(Tag::Row, nodes)
    }
}

impl Flow<'_> {
    /// A table over as many pages as it needs. Fails when a row is higher than a page, or its words are wider.
    pub fn table(&mut self, table: &Table, look: &TableLook<'_>) -> Result<(), Problem> {
        self.set_table(&table.set(self.desk(), look, self.frame().width())?)
    }

    /// The same with its lines broken already, for the width of these pages.
    pub fn set_table(&mut self, set: &SetTable<'_>) -> Result<(), Problem> {
        let (highs, head) = (set.highs(), set.head_high());
        let (here, own, all) = (self.left() - head, self.whole() - head, highs.iter().copied().sum::<Length>());
        let parted = set.look.whole && all > here && all <= own;
        if !self.at_top() && (parted || !breaks_well(here, own, &highs)) {
            self.turn_on()?;
        }
        let mut from = 0;
        while from < highs.len() {
            if from > 0 {
                self.turn_within()?;
            }
            self.begin(head + highs[from])?;
            let room = self.left() - head;
            let fits = taken(room, &highs[from..]);
            if self.draws() {
                let at = Point::new(self.frame().left(), self.column().y);
                let (nodes, y) = set.draw(from..from + fits, at);
                self.extend(nodes);
                self.column().y = y;
            } else {
                self.column().skip(head + highs[from..from + fits].iter().copied().sum());
            }
            from += fits;
        }
        Ok(())
    }
}

/// How many of the first rows go into a room: as many as it holds, but not all but one, which would stand alone, where three
/// or more can be parted better.
fn taken(mut room: Length, highs: &[Length]) -> usize {
    let fits = |high: &&Length| {
        room -= **high;
        room >= Length::ZERO
    };
    let fit = highs.iter().take_while(fits).count();
    if fit > 2 && highs.len() - fit == 1 { fit - 1 } else { fit }
}

/// Whether a table may begin with `here` left for its rows. It may where it fits. Where it goes on over the page, no row
/// stands alone on either side, nor do two begin a longer table; but for that alone no table is broken that a page of its own,
/// with `whole` for its rows, would hold.
fn breaks_well(here: Length, whole: Length, highs: &[Length]) -> bool {
    let (fit, rows) = (taken(here, highs), highs.len());
    let lone = fit == 1 || fit == 2 && rows > 4 || rows - fit == 1;
    fit == rows || fit > 0 && !(lone && highs.iter().copied().sum::<Length>() <= whole)
}

/// How wide a picture is with what it holds beside it.
pub fn pictured(desk: &Desk<'_>, pictures: &Pictures, counts: Counts, told: &[String], face: &Face) -> Length {
    let told = told.iter().map(|line| desk.width(line, face) + BESIDE).max().unwrap_or(Length::ZERO);
    pictures.width(counts) + told
}

/// Between a picture and what it holds.
const BESIDE: Length = Length::mm(2);

/// The width of a column that holds these texts on one line each.
pub fn natural<'t>(desk: &Desk<'_>, texts: impl Iterator<Item = &'t str>, face: &Face, padding: Length) -> Length {
    let bold = Face { weight: Weight::Bold, ..*face };
    texts.map(|text| desk.width(text, &bold)).max().unwrap_or(Length::ZERO) + padding * 2 + Length::mm(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_row_is_left_alone_where_another_can_keep_it_company() {
        let highs = [Length::mm(10); 9];
        let room = |rows: i64| Length::mm(10) * rows;
        // All but one would fit: two go over the page, and the table need not begin on a page of its own.
        assert_eq!((taken(room(8), &highs), breaks_well(room(8), room(20), &highs)), (7, true));
        assert_eq!((taken(room(9), &highs), taken(room(7), &highs), taken(room(1), &highs)), (9, 7, 1));
        // Of three rows one would be alone on either side.
        assert_eq!((taken(room(2), &highs[..3]), breaks_well(room(2), room(20), &highs[..3])), (2, false));
        // Nor do two of nine begin.
        assert!(!breaks_well(room(2), room(20), &highs) && breaks_well(room(2), room(20), &highs[..4]));
        assert!(!breaks_well(room(1), room(20), &highs) && breaks_well(room(3), room(2), &highs));
    }
}
