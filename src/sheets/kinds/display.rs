//! The display: one model number a page, big enough for a wall or a document camera.
//!
//! In: the model numbers. Out: one landscape page each: the block picture beside the place-value chart, below them the
//! expanded form and the words. Sizes are the same on all pages. A number above 9,999 has no picture, and its chart takes
//! the whole width.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size, Weight};
use crate::number::{Number, Place};
use crate::sheets::blocks::geometry::{Blockwork, Counts, LEAST_UNIT, counts};
use crate::sheets::blocks::picture::Pictures;
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
    places: Vec<Place>,
    stand: Stand,
    pictures: Option<Pictures>,
    /// The chart's headings, digits, and the two forms below, each at one size.
    heading: Face,
    digit: Face,
    expanded: Face,
    words: Face,
}

/// Where the pictures stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stand {
    /// Nowhere: the chart has all the room.
    Alone,
    /// To the left of the chart.
    Beside,
    /// Over the chart.
    Above,
}

/// Left and right of a heading in its cell.
const HEAD_SIDE: Length = Length::mm(1);
const HEAD_SIDES: Sides<Length> = Sides { left: HEAD_SIDE, right: HEAD_SIDE, top: Length::ZERO, bottom: Length::ZERO };

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
            stand: Stand::Alone,
            pictures: None,
            heading: face("heading")?,
            digit: face("digit")?,
            expanded: face("expanded")?,
            words: face("words")?,
        };
        let drawn: Option<Vec<Counts>> = numbers.iter().map(|number| counts(*number)).collect();
        let (_, headed) = wall.blank(1)?;
        if let Some(drawn) = &drawn {
            wall.draw(headed.body, drawn)?;
        }
        let areas = wall.areas(headed.body)?;
        let style = &desk.lesson.style;
        let lines = |texts: Vec<String>, frame: Rect, face: Face| {
            let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
            text::largest(desk.family, &texts, frame.size(), &face).map(|size| face.at(size))
        };
        let every = |write: &dyn Fn(Number) -> String| numbers.iter().map(|number| write(*number)).collect();
        wall.expanded = lines(every(&|n| style.expanded(n)), areas.expanded, wall.expanded)?;
        wall.words = lines(every(&|n| style.words(n)), areas.words, wall.words)?;
        let (head, digit) = wall.cells(areas.chart);
        let names: Vec<String> = wall.places.iter().map(|place| place.words().to_owned()).collect();
        // Six columns of large text leave no room for bold.
        let regular = Face { weight: Weight::Regular, ..wall.heading };
        wall.heading = lines(names.clone(), head, wall.heading).or_else(|_| lines(names, head, regular))?;
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

    /// Decides where the pictures stand: beside the chart, unless above it they can be clearly larger.
    fn draw(&mut self, body: Rect, drawn: &[Counts]) -> Result<(), Problem> {
        let most = self.layout.length("unit")?;
        let mut fit = |stand: Stand| -> Result<Blockwork, Problem> {
            self.stand = stand;
            let areas = self.areas(body)?;
            let room = areas.picture.unwrap_or_default().shrunk(Sides::splat(self.layout.padding.half())).size();
            Blockwork::fit(drawn, room, LEAST_UNIT, most)
        };
        let (above, beside) = (fit(Stand::Above), fit(Stand::Beside));
        let work = match (beside, above) {
            (Ok(beside), Ok(above)) if above.unit() > beside.unit().scaled(5, 4) => {
                self.stand = Stand::Above;
                above
            }
            (Ok(beside), _) => beside,
            (Err(_), Ok(above)) => {
                self.stand = Stand::Above;
                above
            }
            (Err(problem), Err(_)) => return Err(problem),
        };
        self.pictures = Some(Pictures::new(work, self.desk.ink()));
        Ok(())
    }

    /// Divides a page's body.
    fn areas(&self, body: Rect) -> Result<Areas, Problem> {
        let gap = self.layout.grid.gutter;
        let strip = |bottom: Length, high: Length| {
            Rect::new(Point::new(body.left(), bottom - high), Size::new(body.width(), high))
        };
        let words = strip(body.bottom(), self.layout.length("words")?);
        let expanded = strip(words.top() - gap.half(), self.layout.length("expanded")?);
        let top = Rect::between(body.origin(), Point::new(body.right(), expanded.top() - gap));
        let (picture, chart) = match self.stand {
            Stand::Alone => (None, top),
            Stand::Above => {
                let chart = strip(top.bottom(), self.head_height() + self.layout.length("digits")?);
                let chart = chart.centred(Size::new(self.least_width()?.min(chart.width()), chart.height()));
                (Some(Rect::between(top.origin(), Point::new(top.right(), chart.top() - gap))), chart)
            }
            Stand::Beside => {
                let left = top.right() - self.least_width()?;
                let chart = Rect::between(Point::new(left, top.top()), Point::new(top.right(), top.bottom()));
                (Some(Rect::between(top.origin(), Point::new(left - gap, top.bottom()))), chart)
            }
        };
        Ok(Areas { picture, chart, expanded, words })
    }

    /// The chart is as wide as its headings need at their least size.
    fn least_width(&self) -> Result<Length, Problem> {
        let least = self.heading.at(self.heading.least);
        let widest = self.places.iter().map(|place| self.desk.width(place.words(), &least)).max();
        let column = widest.unwrap_or(Length::ZERO) + HEAD_SIDE * 2 + Length::mm(1);
        Ok(column.max(self.layout.length("column")?) * i64::from(self.count()))
    }

    /// The frames of a heading and of a digit in a chart.
    fn cells(&self, chart: Rect) -> (Rect, Rect) {
        let column = chart.columns(self.count())[0];
        let head = Rect::new(column.origin(), Size::new(column.width(), self.head_height()));
        let digit =
            Rect::between(Point::new(column.left(), head.bottom()), Point::new(column.right(), column.bottom()));
        (head.shrunk(HEAD_SIDES), digit.shrunk(Sides::splat(self.layout.padding.half())))
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
        let areas = self.areas(headed.body)?;
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
        page.name =
            format!("{} {k}: {}", self.desk.lesson.wording().sheet_title(SheetKind::Display), style.numeral(number));
        Ok(page)
    }

    /// The place-value chart.
    fn chart(&self, chart: Rect, number: Number) -> Result<Vec<Node>, Problem> {
        // The chart is no higher than its digits need, and stands in the middle of its room.
        let high = (self.head_height() + self.digit.size.scaled(13, 10)).min(chart.height());
        let chart = chart.centred(Size::new(chart.width(), high));
        let columns = chart.columns(self.count());
        let head = self.head_height();
        let mut shades = Vec::new();
        let (mut heads, mut digits) = (Vec::new(), Vec::new());
        for (column, &place) in columns.iter().zip(&self.places) {
            let top = Rect::new(column.origin(), Size::new(column.width(), head));
            let cell =
                Rect::between(Point::new(column.left(), top.bottom()), Point::new(column.right(), column.bottom()));
            let tone = ink::tone(self.desk.ink(), place);
            let fill = if tone.fill == crate::sheets::page::Paint::WHITE { ink::SHADE } else { tone.fill };
            shades.push(Item::Rect { rect: top, fill: Some(fill), stroke: Some(ink::OUTLINE) });
            shades.push(Item::Rect { rect: cell, fill: None, stroke: Some(ink::OUTLINE) });
            let name = self.desk.set(place.words(), top.shrunk(HEAD_SIDES), &self.heading, Align::CENTRE)?;
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
