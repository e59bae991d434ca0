//! The display: one model number a page, big enough for a wall or a document camera.
//!
//! In: the model numbers. Out: one landscape page each: the place-value chart, under each digit the blocks that it stands
//! for, below them the expanded form and the words. Sizes are the same on all pages. A number above 9,999 has no blocks, and
//! its chart has all the room.

use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Sides, Size, Weight};
use crate::number::{Number, Place};
use crate::sheets::blocks::geometry::{BlockKind, Blockwork, Counts, counts};
use crate::sheets::blocks::picture::{Pictures, place as place_of};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use crate::spec::SheetKind;

/// Lays out one page a model number.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let numbers = &desk.lesson.chosen.model;
    if numbers.is_empty() {
        return Ok(Vec::new());
    }
    let wall = Wall::new(desk, numbers)?;
    (1..).zip(numbers).map(|(k, &number)| wall.page(k, number)).collect()
}

/// What all pages share.
struct Wall<'a> {
    desk: &'a Desk<'a>,
    layout: &'a Layout,
    turn: Turn,
    /// The chart's columns, from the greatest place down.
    columns: Vec<ChartColumn>,
    /// The chart's headings, digits, and the two forms below, each at one size.
    heading: Face,
    digit: Face,
    expanded: Face,
    words: Face,
}

/// A column of the chart.
struct ChartColumn {
    place: Place,
    width: Length,
    /// What stands under its digits; none in lessons with numbers that have no blocks.
    pictures: Option<Pictures>,
}

/// Left and right of a heading in its cell.
const HEAD_SIDE: Length = Length::mm(1);
const HEAD_SIDES: Sides<Length> = Sides { left: HEAD_SIDE, right: HEAD_SIDE, top: Length::ZERO, bottom: Length::ZERO };

/// Where things go on a page.
struct Areas {
    chart: Rect,
    expanded: Rect,
    words: Rect,
}

/// Where things go in a column of the chart.
struct Cells {
    head: Rect,
    digit: Rect,
    blocks: Rect,
}

impl<'a> Wall<'a> {
    fn new(desk: &'a Desk<'a>, numbers: &[Number]) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Display)?;
        let longest = numbers.iter().map(|number| number.len()).max().unwrap_or(1);
        let face = |name| desk.face(layout, name);
        let column = |place: &Place| ChartColumn { place: *place, width: Length::ZERO, pictures: None };
        let mut wall = Self {
            desk,
            layout,
            turn: layout.turns.first().copied().unwrap_or(Turn::Landscape),
            columns: Place::ALL[..longest].iter().rev().map(column).collect(),
            heading: face("heading")?,
            digit: face("digit")?,
            expanded: face("expanded")?,
            words: face("words")?,
        };
        let areas = wall.areas(wall.blank(1)?.1.body)?;
        wall.share(areas.chart, numbers)?;
        let style = &desk.lesson.style;
        let lines = |texts: Vec<String>, frame: Rect, face: Face| {
            let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
            text::largest(desk.family, &texts, frame.size(), &face).map(|size| face.at(size))
        };
        let every = |write: &dyn Fn(Number) -> String| numbers.iter().map(|number| write(*number)).collect();
        wall.expanded = lines(every(&|n| style.expanded(n)), areas.expanded, wall.expanded)?;
        wall.words = lines(every(&|n| style.words(n)), areas.words, wall.words)?;
        let regular = Face { weight: Weight::Regular, ..wall.heading };
        for cells in wall.cells(areas.chart)? {
            let room = cells.digit.shrunk(Sides::splat(layout.padding.half()));
            wall.digit = lines(('0'..='9').map(String::from).collect(), room, wall.digit)?;
        }
        // Six columns of large text leave no room for bold.
        wall.heading = wall.headings(areas.chart, wall.heading).or_else(|_| wall.headings(areas.chart, regular))?;
        Ok(wall)
    }

    /// The largest size at which every heading fits its column.
    fn headings(&self, chart: Rect, face: Face) -> Result<Face, Problem> {
        let heads = self.columns.iter().zip(self.cells(chart)?);
        let largest = |(column, cells): (&ChartColumn, Cells)| {
            let room = cells.head.shrunk(HEAD_SIDES).size();
            text::largest(self.desk.family, &[self.desk.lesson.wording().place(column.place)], room, &face)
        };
        let sizes = heads.into_iter().map(largest).collect::<Result<Vec<_>, _>>()?;
        Ok(face.at(sizes.into_iter().min().unwrap_or(face.size)))
    }

    /// An empty page with its heading.
    fn blank(&self, k: u32) -> Result<(Size, head::Headed), Problem> {
        let page = self.desk.page(self.turn);
        let title = self.desk.lesson.wording().model_title(k);
        let head = Head { title: &title, note: None, reader: Reader::Learner, name: false, code: false };
        Ok((page, head::lay(self.desk, self.desk.live(page, self.layout), &head)?))
    }

    /// Gives columns their widths and their blocks, at the largest unit at which all blocks stand under their digits.
    fn share(&mut self, chart: Rect, numbers: &[Number]) -> Result<(), Problem> {
        let least = self.least_width()?;
        let drawn: Option<Vec<Counts>> = numbers.iter().map(|number| counts(*number)).collect();
        let works = match &drawn {
            Some(drawn) => Some(self.works(chart, least, drawn)?),
            None => None,
        };
        let wide = |k: usize| match works.as_ref().and_then(|works| works[k].as_ref()) {
            Some(work) => (work.size().width + self.layout.padding * 2).max(least),
            // Without blocks columns are equal, and names may take two lines.
            None if drawn.is_none() => Length::ZERO,
            None => least,
        };
        let needs: Vec<Length> = (0..self.columns.len()).map(wide).collect();
        let rest = (chart.width() - needs.iter().copied().sum()).max(Length::ZERO);
        let (ink, wording) = (self.desk.ink(), self.desk.lesson.wording());
        let mut works = works.unwrap_or_default().into_iter();
        let shares = rest.split(self.count());
        for ((column, need), more) in self.columns.iter_mut().zip(needs).zip(shares) {
            column.width = need + more;
            column.pictures = works.next().flatten().map(|work| Pictures::new(work, ink, wording));
        }
        Ok(())
    }

    /// The arrangement of each column's blocks; none where a column never has any.
    fn works(&self, chart: Rect, least: Length, drawn: &[Counts]) -> Result<Vec<Option<Blockwork>>, Problem> {
        let most = self.layout.length("unit")?;
        let high = chart.height() - self.head_height() - self.layout.length("digits")? - self.layout.padding;
        let at = |unit: Length| {
            let mut wide = Length::ZERO;
            let mut works = Vec::new();
            for column in &self.columns {
                let counts: Vec<Counts> = drawn.iter().map(|counts| only(*counts, column.place)).collect();
                if counts.iter().all(|counts| *counts == [0; 4]) {
                    wide += least;
                    works.push(None);
                    continue;
                }
                let work = Blockwork::narrowest(unit, &counts, high)?;
                wide += (work.size().width + self.layout.padding * 2).max(least);
                works.push(Some(work));
            }
            (wide <= chart.width()).then_some(works)
        };
        let units = std::iter::successors(Some(most), |unit| Blockwork::smaller(*unit));
        units.into_iter().find_map(at).ok_or_else(|| {
            Problem::new(format!("the blocks of the model numbers do not fit a chart {} wide", chart.width()))
                .hint("larger paper, or smaller digits (`at_most`) would fit")
        })
    }

    /// Divides a page's body.
    fn areas(&self, body: Rect) -> Result<Areas, Problem> {
        let gap = self.layout.grid.gutter;
        let strip = |bottom: Length, high: Length| {
            Rect::new(Point::new(body.left(), bottom - high), Size::new(body.width(), high))
        };
        let words = strip(body.bottom(), self.layout.length("words")?);
        let expanded = strip(words.top() - gap.half(), self.layout.length("expanded")?);
        let chart = Rect::between(body.origin(), Point::new(body.right(), expanded.top() - gap));
        Ok(Areas { chart, expanded, words })
    }

    /// The least width of a column: as its heading needs at its least size.
    fn least_width(&self) -> Result<Length, Problem> {
        let least = self.heading.at(self.heading.least);
        let names = self.columns.iter().map(|column| self.desk.lesson.wording().place(column.place));
        let widest = names.map(|name| self.in_two_lines(name, &least)).max();
        let column = widest.unwrap_or(Length::ZERO) + HEAD_SIDE * 2 + Length::mm(1);
        Ok(column.max(self.layout.length("column")?))
    }

    /// How wide a name is on at most two lines, broken where both are as short as can be.
    fn in_two_lines(&self, name: &str, face: &Face) -> Length {
        let breaks = name
            .match_indices(' ')
            .map(|(at, _)| self.desk.width(&name[..at], face).max(self.desk.width(&name[at + 1..], face)));
        breaks.min().unwrap_or_else(|| self.desk.width(name, face))
    }

    /// The cells of every column.
    fn cells(&self, chart: Rect) -> Result<Vec<Cells>, Problem> {
        let drawn = self.columns.iter().any(|column| column.pictures.is_some());
        let head = self.head_height();
        let digit = if drawn { self.layout.length("digits")? } else { chart.height() - head };
        let mut x = chart.left();
        let cells = self.columns.iter().map(|column| {
            let left = x;
            x += column.width;
            let cell = |top: Length, high: Length| Rect::new(Point::new(left, top), Size::new(column.width, high));
            let (top, below) = (chart.top() + head, chart.top() + head + digit);
            Cells {
                head: cell(chart.top(), head),
                digit: cell(top, digit),
                blocks: cell(below, chart.bottom() - below),
            }
        });
        Ok(cells.collect())
    }

    /// How high the chart's headings are: two lines where a name has two words.
    fn head_height(&self) -> Length {
        let name = |column: &ChartColumn| self.desk.lesson.wording().place(column.place);
        let lines = if self.columns.iter().any(|column| name(column).contains(' ')) { 2 } else { 1 };
        self.heading.pitch() * lines + self.layout.padding
    }

    fn count(&self) -> u32 {
        self.columns.len().narrow().max(1)
    }

    fn page(&self, k: u32, number: Number) -> Result<Page, Problem> {
        let (size, headed) = self.blank(k)?;
        let areas = self.areas(headed.body)?;
        let style = &self.desk.lesson.style;
        let mut layer = Layer { nodes: self.chart(areas.chart, number)?, ..Layer::default() };
        for (text, frame, face) in
            [(style.expanded(number), areas.expanded, &self.expanded), (style.words(number), areas.words, &self.words)]
        {
            layer.nodes.push(self.desk.set(&text, frame, face, Align::CENTRE)?.tagged(Tag::Paragraph));
        }
        let mut page = self.desk.finish(SheetKind::Display, size, self.layout.stock, headed, layer);
        page.name =
            format!("{} {k}: {}", self.desk.lesson.wording().sheet_title(SheetKind::Display), style.numeral(number));
        Ok(page)
    }

    /// The place-value chart, and the blocks under its digits.
    fn chart(&self, chart: Rect, number: Number) -> Result<Vec<Node>, Problem> {
        let mut shades = Vec::new();
        let (mut heads, mut digits, mut blocks) = (Vec::new(), Vec::new(), Vec::new());
        let counts = counts(number);
        for (column, Cells { head, digit, blocks: room }) in self.columns.iter().zip(self.cells(chart)?) {
            let place = column.place;
            let tone = ink::tone(self.desk.ink(), place);
            let fill = if tone.fill == crate::sheets::page::Paint::WHITE { ink::SHADE } else { tone.fill };
            shades.push(Item::Rect { rect: head, fill: Some(fill), stroke: Some(ink::OUTLINE) });
            shades.push(Item::Rect { rect: digit, fill: None, stroke: Some(ink::OUTLINE) });
            if room.height() > Length::ZERO {
                shades.push(Item::Rect { rect: room, fill: None, stroke: Some(ink::OUTLINE) });
            }
            let name = self.desk.set(
                self.desk.lesson.wording().place(place),
                head.shrunk(HEAD_SIDES),
                &self.heading,
                Align::CENTRE,
            )?;
            heads.push(name.tagged(Tag::HeaderCell(Scope::Column)));
            let text = if number.shows(place) { number.digit(place).to_string() } else { String::new() };
            let frame = digit.shrunk(Sides::splat(self.layout.padding.half()));
            digits.push(self.desk.set(&text, frame, &self.digit, Align::CENTRE)?.tagged(Tag::Cell));
            if let (Some(pictures), Some(counts)) = (&column.pictures, counts) {
                blocks.extend(pictures.items(only(counts, place), room).into_iter().map(Node::Item));
            }
        }
        shades.push(Item::Rect { rect: chart, fill: None, stroke: Some(ink::HEAVY) });
        let table = Node::tagged(Tag::Table, [Node::Tagged(Tag::Row, heads), Node::Tagged(Tag::Row, digits)]);
        let figure = counts
            .filter(|_| !blocks.is_empty())
            .map(|counts| Node::Tagged(Tag::Figure(self.desk.lesson.wording().blocks_told(counts)), blocks));
        Ok([Node::Artifact(shades), table].into_iter().chain(figure).collect())
    }
}

/// The blocks of one place alone.
fn only(counts: Counts, place: Place) -> Counts {
    let mut left = [0; 4];
    for (k, kind) in BlockKind::ALL.into_iter().enumerate().filter(|(_, kind)| place_of(*kind) == place) {
        left[k] = counts[kind as usize];
    }
    left
}
