//! The display: one model number a page, big enough for a wall or a document camera.
//!
//! In: the model numbers. Out: one landscape page each: the block picture beside the place-value chart, below them the
//! expanded form and the words. Sizes are the same on all pages. A number above 9,999 has no picture, and its chart takes
//! the whole width.

use super::blockwork::{Blockwork, Counts, LEAST_UNIT, counts};
use super::desk::Desk;
use super::head::{self, Head};
use super::ink;
use super::layout::{Layout, Turn};
use super::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use super::picture::Pictures;
use super::text::{self, Align, Face};
use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size, Weight};
use crate::number::{Number, Place};
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
    places: Vec<Place>,
    pictures: Option<Pictures>,
    /// The chart's headings, digits, and the two forms below, each at one size.
    heading: Face,
    digit: Face,
    expanded: Face,
    words: Face,
}

/// Where things go on a page.
struct Areas {
    picture: Option<Rect>,
    chart: Rect,
    expanded: Rect,
    words: Rect,
}

impl<'a> Wall<'a> {
    fn new(desk: &'a Desk<'a>, numbers: &[Number]) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Display)?;
        let longest = numbers.iter().map(|number| number.len()).max().unwrap_or(1);
        let places = Place::ALL[..longest].iter().rev().copied().collect();
        let face = |name| desk.face(layout, name);
        let mut wall = Self {
            desk,
            layout,
            turn: layout.turns.first().copied().unwrap_or(Turn::Landscape),
            places,
            pictures: None,
            heading: face("heading")?,
            digit: face("digit")?,
            expanded: face("expanded")?,
            words: face("words")?,
        };
        let drawn: Option<Vec<Counts>> = numbers.iter().map(|number| counts(*number)).collect();
        let (_, headed) = wall.blank(1)?;
        let areas = wall.areas(headed.body, drawn.is_some())?;
        if let (Some(drawn), Some(room)) = (&drawn, areas.picture) {
            let room = room.shrunk(Sides::splat(layout.padding)).size();
            let work = Blockwork::fit(drawn, room, LEAST_UNIT, layout.length("unit")?)?;
            wall.pictures = Some(Pictures::new(work, desk.ink()));
        }
        let style = &desk.lesson.style;
        let lines = |texts: Vec<String>, frame: Rect, face: Face| {
            let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
            text::largest(desk.family, &texts, frame.size(), &face).map(|size| face.at(size))
        };
        let every = |write: &dyn Fn(Number) -> String| numbers.iter().map(|number| write(*number)).collect();
        wall.expanded = lines(every(&|n| style.expanded(n)), areas.expanded, wall.expanded)?;
        wall.words = lines(every(&|n| style.words(n)), areas.words, wall.words)?;
        let (head, digit) = wall.cells(areas.chart);
        let names = wall.places.iter().map(|place| place.words().to_owned()).collect();
        wall.heading = lines(names, head, wall.heading)?;
        wall.digit = lines(vec!["8".to_owned()], digit, wall.digit)?;
        Ok(wall)
    }

    /// An empty page with its heading.
    fn blank(&self, k: u32) -> Result<(Size, head::Headed), Problem> {
        let page = self.desk.page(self.turn);
        let title = format!("Model number {k}");
        let head = Head { title: &title, note: None, reader: Reader::Learner, name: false, code: false };
        Ok((page, head::lay(self.desk, self.desk.live(page, self.layout), &head)?))
    }

    /// Divides a page's body.
    fn areas(&self, body: Rect, picture: bool) -> Result<Areas, Problem> {
        let gap = self.layout.grid.gutter;
        let (expanded, words) = (self.layout.length("expanded")?, self.layout.length("words")?);
        let below = Rect::new(Point::new(body.left(), body.bottom() - words), Size::new(body.width(), words));
        let above = Rect::new(Point::new(body.left(), below.top() - gap - expanded), Size::new(body.width(), expanded));
        let top = Rect::between(body.origin(), Point::new(body.right(), above.top() - gap));
        if !picture {
            return Ok(Areas { picture: None, chart: top, expanded: above, words: below });
        }
        // The chart is as wide as its headings need at their least size; the picture gets the rest.
        let least = Face { weight: Weight::Bold, ..self.heading.at(self.heading.least) };
        let widest = self.places.iter().map(|place| self.desk.width(place.words(), &least)).max();
        let column = (widest.unwrap_or(Length::ZERO) + self.layout.padding * 2).max(self.layout.length("column")?);
        let width = column * i64::try_from(self.places.len()).unwrap_or(1);
        let chart = Rect::between(Point::new(top.right() - width, top.top()), Point::new(top.right(), top.bottom()));
        let picture = Rect::between(top.origin(), Point::new(chart.left() - gap, top.bottom()));
        Ok(Areas { picture: Some(picture), chart, expanded: above, words: below })
    }

    /// The frames of a heading and of a digit in a chart.
    fn cells(&self, chart: Rect) -> (Rect, Rect) {
        let column = chart.columns(self.count())[0];
        let head = Rect::new(column.origin(), Size::new(column.width(), self.head_height()));
        let digit =
            Rect::between(Point::new(column.left(), head.bottom()), Point::new(column.right(), column.bottom()));
        let side = Sides { left: self.layout.padding.half(), right: self.layout.padding.half(), ..Sides::default() };
        (head.shrunk(side), digit.shrunk(Sides::splat(self.layout.padding)))
    }

    /// How high the chart's headings are: two lines where a name has two words.
    fn head_height(&self) -> Length {
        let lines = if self.count() > 4 { 2 } else { 1 };
        self.heading.pitch() * lines + self.layout.padding
    }

    fn count(&self) -> u32 {
        u32::try_from(self.places.len()).unwrap_or(1).max(1)
    }

    fn page(&self, k: u32, number: Number) -> Result<Page, Problem> {
        let (size, headed) = self.blank(k)?;
        let areas = self.areas(headed.body, self.pictures.is_some())?;
        let style = &self.desk.lesson.style;
        let mut layer = Layer::default();
        if let (Some(pictures), Some(area), Some(counts)) = (&self.pictures, areas.picture, counts(number)) {
            layer.nodes.push(pictures.figure(counts, area.shrunk(Sides::splat(self.layout.padding))));
        }
        layer.nodes.extend(self.chart(areas.chart, number)?);
        for (text, frame, face) in
            [(style.expanded(number), areas.expanded, &self.expanded), (style.words(number), areas.words, &self.words)]
        {
            layer.nodes.push(self.desk.set(&text, frame, face, Align::CENTRE)?.tagged(Tag::Paragraph));
        }
        let mut page = self.desk.finish(SheetKind::Display, size, self.layout.stock, headed, layer);
        page.name = format!("{} {k}: {}", super::row(SheetKind::Display).title, style.numeral(number));
        Ok(page)
    }

    /// The place-value chart.
    fn chart(&self, chart: Rect, number: Number) -> Result<Vec<Node>, Problem> {
        // The chart is no higher than its digits need, and stands in the middle of its room.
        let high = (self.head_height() + self.digit.size.scaled(14, 10)).min(chart.height());
        let chart = chart.centred(Size::new(chart.width(), high));
        let columns = chart.columns(self.count());
        let head = self.head_height();
        let mut shades = Vec::new();
        let (mut heads, mut digits) = (Vec::new(), Vec::new());
        let narrow = Sides { left: self.layout.padding.half(), right: self.layout.padding.half(), ..Sides::default() };
        for (column, &place) in columns.iter().zip(&self.places) {
            let top = Rect::new(column.origin(), Size::new(column.width(), head));
            let cell =
                Rect::between(Point::new(column.left(), top.bottom()), Point::new(column.right(), column.bottom()));
            let tone = ink::tone(self.desk.ink(), place);
            let fill = if tone.fill == super::page::Paint::WHITE { ink::SHADE } else { tone.fill };
            shades.push(Item::Rect { rect: top, fill: Some(fill), stroke: Some(ink::OUTLINE) });
            shades.push(Item::Rect { rect: cell, fill: None, stroke: Some(ink::OUTLINE) });
            let name = self.desk.set(place.words(), top.shrunk(narrow), &self.heading, Align::CENTRE)?;
            heads.push(name.tagged(Tag::HeaderCell(Scope::Column)));
            let text = if number.shows(place) { number.digit(place).to_string() } else { String::new() };
            let frame = cell.shrunk(Sides::splat(self.layout.padding.half()));
            digits.push(self.desk.set(&text, frame, &self.digit, Align::CENTRE)?.tagged(Tag::Cell));
        }
        shades.push(Item::Rect { rect: chart, fill: None, stroke: Some(ink::HEAVY) });
        let table = Node::tagged(Tag::Table, [Node::Tagged(Tag::Row, heads), Node::Tagged(Tag::Row, digits)]);
        Ok(vec![Node::Artifact(shades), table])
    }
}
