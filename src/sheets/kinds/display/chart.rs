//! The display's place-value chart, and the blocks under its digits.
//!
//! In: the chart's frame and all model numbers. Out: one arrangement for all of them: columns as wide as their blocks and
//! names need, blocks at the largest unit at which all stand under their digits.

use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Sides, Size, Weight};
use crate::number::fewest_blocks;
use crate::number::{Number, Place};
use crate::sheets::blocks::geometry::{BlockKind, Blockwork, Counts};
use crate::sheets::blocks::picture::{Pictures, place as place_of};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::tongues::{parted, within};
use crate::sheets::page::{Item, Node, Paint, Scope, Tag};
use crate::spec::Language;

/// The chart that all pages share.
pub(super) struct Chart<'a> {
    desk: &'a Desk<'a>,
    layout: &'a Layout,
    frame: Rect,
    /// How high the digits stand where blocks are under them.
    digits: Length,
    /// From the greatest place down.
    columns: Vec<ChartColumn>,
    /// The headings and the digits, each at one size.
    heading: Face,
    digit: Face,
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

/// Where things go in a column of the chart.
struct Cells {
    head: Rect,
    digit: Rect,
    blocks: Rect,
}

impl<'a> Chart<'a> {
    pub(super) fn new(
        desk: &'a Desk<'a>,
        layout: &'a Layout,
        frame: Rect,
        digits: Length,
        numbers: &[Number],
    ) -> Result<Self, Problem> {
        let longest = numbers.iter().map(|number| number.len()).max().unwrap_or(1);
        let column = |place: &Place| ChartColumn { place: *place, width: Length::ZERO, pictures: None };
        let columns = Place::ALL[..longest].iter().rev().map(column).collect();
        let (heading, digit) = (desk.face(layout, "heading")?, desk.face(layout, "digit")?);
        let mut chart = Self { desk, layout, frame, digits, columns, heading, digit };
        chart.share(numbers)?;
        let figures: Vec<String> = ('0'..='9').map(String::from).collect();
        let figures: Vec<&str> = figures.iter().map(String::as_str).collect();
        for cells in chart.cells() {
            let room = cells.digit.shrunk(Sides::splat(layout.padding.half()));
            chart.digit = chart.digit.at(text::largest(desk.family, &figures, room.size(), &chart.digit)?);
        }
        // Six columns of large text leave no room for bold.
        let regular = Face { weight: Weight::Regular, ..heading };
        chart.heading = chart.headings(heading).or_else(|_| chart.headings(regular))?;
        Ok(chart)
    }

    /// The largest size at which every heading fits its column.
    fn headings(&self, face: Face) -> Result<Face, Problem> {
        let mut size = face.size;
        for (column, cells) in self.columns.iter().zip(self.cells()) {
            for (name, frame, _) in self.heads(column, cells.head) {
                size = size.min(text::largest(self.desk.family, &[name], frame.size(), &face)?);
            }
        }
        Ok(face.at(size))
    }

    /// What a column is called, in the lesson's language and in its second one.
    fn names(&self, column: &ChartColumn) -> Vec<&'static str> {
        let lesson = self.desk.lesson;
        let second = lesson.style.second.map(|second| second.place(column.place));
        std::iter::once(lesson.wording().place(column.place)).chain(second).collect()
    }

    /// Each of these names with its room in a head and its language, where that is not the file's.
    fn heads(&self, column: &ChartColumn, head: Rect) -> Vec<(&'static str, Rect, Option<Language>)> {
        let frame = head.shrunk(HEAD_SIDES);
        let languages = [None, self.desk.lesson.second()];
        match self.names(column).as_slice() {
            [one] => vec![(*one, frame, None)],
            names => {
                let parts = names.iter().zip(parted(frame, Length::ZERO)).zip(languages);
                parts.map(|((name, frame), language)| (*name, frame, language)).collect()
            }
        }
    }

    /// Gives columns their widths and their blocks, at the largest unit at which all blocks stand under their digits.
    fn share(&mut self, numbers: &[Number]) -> Result<(), Problem> {
        let least = self.least_width()?;
        let drawn: Option<Vec<Counts>> = numbers.iter().map(|number| fewest_blocks(*number)).collect();
        let works = match &drawn {
            Some(drawn) => Some(self.works(least, drawn)?),
            None => None,
        };
        let wide = |k: usize| match works.as_ref().and_then(|works| works[k].as_ref()) {
            Some(work) => (work.size().width + self.layout.padding * 2).max(least),
            // Without blocks columns are equal, and names may take two lines.
            None if drawn.is_none() => Length::ZERO,
            None => least,
        };
        let needs: Vec<Length> = (0..self.columns.len()).map(wide).collect();
        let rest = (self.frame.width() - needs.iter().copied().sum()).max(Length::ZERO);
        let (ink, wording) = (self.desk.ink(), self.desk.lesson.wording());
        let mut works = works.unwrap_or_default().into_iter();
        let shares = rest.split(self.columns.len().narrow().max(1));
        for ((column, need), more) in self.columns.iter_mut().zip(needs).zip(shares) {
            column.width = need + more;
            column.pictures = works.next().flatten().map(|work| Pictures::new(work, ink, wording));
        }
        Ok(())
    }

    /// The arrangement of each column's blocks; none where a column never has any.
    fn works(&self, least: Length, drawn: &[Counts]) -> Result<Vec<Option<Blockwork>>, Problem> {
        let most = self.layout.length("unit")?;
        let high = self.frame.height() - self.head_height() - self.digits - self.layout.padding;
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
            (wide <= self.frame.width()).then_some(works)
        };
        let units = std::iter::successors(Some(most), |unit| Blockwork::smaller(*unit));
        units.into_iter().find_map(at).ok_or_else(|| {
            let wide = self.frame.width();
            Problem::new(format!("the blocks of the model numbers do not fit a chart {wide} wide"))
                .hint("larger paper, or smaller digits (`at_most`) would fit")
        })
    }

    /// The least width of a column: as its heading needs at its least size.
    fn least_width(&self) -> Result<Length, Problem> {
        let least = self.heading.at(self.heading.least);
        let names = self.columns.iter().flat_map(|column| self.names(column));
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
    fn cells(&self) -> Vec<Cells> {
        let drawn = self.columns.iter().any(|column| column.pictures.is_some());
        let head = self.head_height();
        let digit = if drawn { self.digits } else { self.frame.height() - head };
        let mut x = self.frame.left();
        let cells = self.columns.iter().map(|column| {
            let left = x;
            x += column.width;
            let cell = |top: Length, high: Length| Rect::new(Point::new(left, top), Size::new(column.width, high));
            let (top, below) = (self.frame.top() + head, self.frame.top() + head + digit);
            Cells {
                head: cell(self.frame.top(), head),
                digit: cell(top, digit),
                blocks: cell(below, self.frame.bottom() - below),
            }
        });
        cells.collect()
    }

    /// How high the chart's headings are: for each language two lines where a name has two words.
    fn head_height(&self) -> Length {
        let mut names = self.columns.iter().flat_map(|column| self.names(column));
        let lines = if names.any(|name| name.contains(' ')) { 2 } else { 1 };
        let languages = if self.desk.lesson.second().is_some() { 2 } else { 1 };
        self.heading.pitch() * lines * languages + self.layout.padding
    }

    /// The chart with a number's digits.
    pub(super) fn draw(&self, number: Number) -> Result<[Node; 2], Problem> {
        let mut shades = Vec::new();
        let (mut heads, mut digits) = (Vec::new(), Vec::new());
        for (column, Cells { head, digit, blocks: room }) in self.columns.iter().zip(self.cells()) {
            let place = column.place;
            let tone = ink::tone(self.desk.ink(), place);
            let fill = if tone.fill == Paint::WHITE { ink::SHADE } else { tone.fill };
            shades.push(Item::Rect { rect: head, fill: Some(fill), stroke: Some(ink::OUTLINE) });
            shades.push(Item::Rect { rect: digit, fill: None, stroke: Some(ink::OUTLINE) });
            if room.height() > Length::ZERO {
                shades.push(Item::Rect { rect: room, fill: None, stroke: Some(ink::OUTLINE) });
            }
            let mut lines = Vec::new();
            for (name, frame, language) in self.heads(column, head) {
                let face = if language.is_some() { self.heading.regular() } else { self.heading };
                lines.extend(within(language, self.desk.set(name, frame, &face, Align::CENTRE)?.nodes()));
            }
            heads.push(Node::Tagged(Tag::HeaderCell(Scope::Column), lines));
            let text = if number.shows(place) { number.digit(place).to_string() } else { String::new() };
            let frame = digit.shrunk(Sides::splat(self.layout.padding.half()));
            digits.push(self.desk.set(&text, frame, &self.digit, Align::CENTRE)?.tagged(Tag::Cell));
        }
        shades.push(Item::Rect { rect: self.frame, fill: None, stroke: Some(ink::HEAVY) });
        let table = Node::tagged(Tag::Table, [Node::Tagged(Tag::Row, heads), Node::Tagged(Tag::Row, digits)]);
        Ok([Node::Artifact(shades), table])
    }

    /// A number's blocks, each kind in its column; none where numbers have no blocks, or for 0.
    pub(super) fn blocks(&self, number: Number) -> Option<Node> {
        let counts = fewest_blocks(number)?;
        let mut blocks = Vec::new();
        for (column, Cells { blocks: room, .. }) in self.columns.iter().zip(self.cells()) {
            let pictures = column.pictures.as_ref();
            let items = pictures.map(|pictures| pictures.items(only(counts, column.place), room));
            blocks.extend(items.into_iter().flatten().map(Node::Item));
        }
        let told = self.desk.lesson.wording().blocks_told(counts);
        (!blocks.is_empty()).then_some(Node::Tagged(Tag::Figure(told), blocks))
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
