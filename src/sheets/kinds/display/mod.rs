//! The display: the model numbers, big enough for a wall or a document camera.
//!
//! In: the pages that the lesson counts. Out: landscape pages: the place-value chart, under each digit the blocks that it
//! stands for, below them the expanded form and the words. In steps each page shows a form more than the one before it, and
//! each form stands at one place on all pages, so that turning a page only adds. Sizes are the same on all pages. A number
//! above 9,999 has no blocks, and its chart has all the room.

mod chart;

use crate::diag::Problem;
use crate::lesson::display::{DisplayPage, pages};
use crate::measure::{Length, Point, Rect, Size};
use crate::number::Number;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::tongues::half;
use crate::sheets::page::{Layer, Node, Page, Reader, Tag};
use crate::spec::{DisplayForm, DisplayPages, SheetKind};
use chart::Chart;

/// Lays out the pages of every model number.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let numbers = &desk.lesson.chosen.model;
    if numbers.is_empty() {
        return Ok(Vec::new());
    }
    let wall = Wall::new(desk, numbers)?;
    pages(desk.lesson).iter().map(|page| wall.page(page)).collect()
}

/// What all pages share.
struct Wall<'a> {
    desk: &'a Desk<'a>,
    layout: &'a Layout,
    turn: Turn,
    bands: Bands,
    chart: Chart<'a>,
    /// The numeral by itself and the two forms below the chart, each at one size.
    numeral: Face,
    expanded: Face,
    words: Face,
}

/// How much of a page's height is not the blocks'.
#[derive(Clone, Copy)]
struct Bands {
    /// For the numeral by itself; none where the chart's digits are enough.
    numeral: Option<Length>,
    /// For the chart's digits.
    digits: Length,
    /// The strips below the chart.
    strips: Strips,
}

/// How much room the strips below the chart have, and what is between them.
#[derive(Clone, Copy)]
enum Strips {
    /// As the layout likes it.
    Liked,
    /// As low as they look well.
    Low,
    /// As low as they can be, and as near.
    Lowest,
}

/// Where things go on a page.
struct Areas {
    /// The numeral by itself; none where the chart's digits are enough.
    numeral: Option<Rect>,
    chart: Rect,
    expanded: Rect,
    words: Rect,
}

impl<'a> Wall<'a> {
    /// With bands as high as the layout likes them, or else as low as they can be: many blocks need the room.
    fn new(desk: &'a Desk<'a>, numbers: &[Number]) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Display)?;
        let length = |name| layout.length(name);
        if desk.lesson.spec.sheets.display.value == DisplayPages::Whole {
            let (high, low) = (length("digits")?, length("least_step_digits")?);
            let with = |digits, strips| Self::with(desk, numbers, Bands { numeral: None, digits, strips });
            return with(high, Strips::Liked)
                .or_else(|_| with(low, Strips::Liked))
                .or_else(|_| with(low, Strips::Low))
                .or_else(|_| with(low, Strips::Lowest));
        }
        let (strips, lowest) = (Strips::Liked, Some(length("lowest_numeral")?));
        let high = Bands { numeral: Some(length("numeral")?), digits: length("step_digits")?, strips };
        let low = Bands { numeral: Some(length("least_numeral")?), digits: length("least_step_digits")?, strips };
        let with = |bands| Self::with(desk, numbers, bands);
        with(high)
            .or_else(|_| with(low))
            .or_else(|_| with(Bands { strips: Strips::Low, ..low }))
            .or_else(|_| with(Bands { strips: Strips::Lowest, numeral: lowest, ..low }))
    }

    fn with(desk: &'a Desk<'a>, numbers: &[Number], bands: Bands) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Display)?;
        let face = |name| desk.face(layout, name);
        let turn = layout.turns.first().copied().unwrap_or(Turn::Landscape);
        let title = desk.lesson.wording().model_title(1);
        let areas = areas(desk, layout, blank(desk, layout, turn, &title)?.1.body, bands)?;
        let style = &desk.lesson.style;
        let line = |write: &dyn Fn(Number) -> String, frame: Rect, face: Face| {
            let texts: Vec<String> = numbers.iter().map(|number| write(*number)).collect();
            let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
            text::largest(desk.family, &texts, frame.size(), &face).map(|size| face.at(size))
        };
        let numeral = face("numeral")?;
        let numeral = areas.numeral.map_or(Ok(numeral), |frame| line(&|n| style.numeral(n), frame, numeral))?;
        Ok(Self {
            desk,
            layout,
            turn,
            bands,
            numeral,
            expanded: line(&|n| style.expanded(n), areas.expanded, face("expanded")?)?,
            words: words(desk, areas.words, face("words")?)?,
            chart: Chart::new(desk, layout, areas.chart, bands.digits, numbers)?,
        })
    }

    fn page(&self, page: &DisplayPage) -> Result<Page, Problem> {
        let (wording, style) = (self.desk.lesson.wording(), &self.desk.lesson.style);
        let step = |name: String| page.step.map_or(name.clone(), |(step, steps)| wording.step_of(&name, step, steps));
        let (size, headed) = blank(self.desk, self.layout, self.turn, &step(wording.model_title(page.turn)))?;
        let areas = areas(self.desk, self.layout, headed.body, self.bands)?;
        let number = page.number;
        let mut layer = Layer::default();
        for form in &page.shows {
            let (text, frame, face) = match form {
                DisplayForm::Numeral => match areas.numeral {
                    Some(frame) => (style.numeral(number), frame, &self.numeral),
                    None => continue,
                },
                // Heard after the chart where both are there: drawn with it.
                DisplayForm::Blocks if page.shows.contains(&DisplayForm::Chart) => continue,
                DisplayForm::Blocks => {
                    layer.nodes.extend(self.chart.blocks(number));
                    continue;
                }
                DisplayForm::Chart => {
                    layer.nodes.extend(self.chart.draw(number)?);
                    layer.nodes.extend(self.chart.blocks(number));
                    continue;
                }
                DisplayForm::Expanded => (style.expanded(number), areas.expanded, &self.expanded),
                DisplayForm::Words => match style.in_second() {
                    None => (style.words(number), areas.words, &self.words),
                    Some(second) => {
                        let both = [style.words(number), second.words(number)];
                        let both = self.desk.both(&both, areas.words, &self.words)?;
                        layer.nodes.push(Node::Tagged(Tag::Paragraph, both));
                        continue;
                    }
                },
            };
            layer.nodes.push(self.desk.set(&text, frame, face, Align::CENTRE)?.tagged(Tag::Paragraph));
        }
        let mut laid = self.desk.finish(SheetKind::Display, size, self.layout.stock, headed, layer);
        laid.name =
            step(format!("{} {}: {}", wording.sheet_title(SheetKind::Display), page.turn, style.numeral(number)));
        Ok(laid)
    }
}

/// The words' type: one size for all numbers, in both languages where there are two.
fn words(desk: &Desk<'_>, frame: Rect, face: Face) -> Result<Face, Problem> {
    let style = &desk.lesson.style;
    let numbers = desk.lesson.chosen.model.iter();
    let (mut texts, mut room) = (numbers.clone().map(|n| style.words(*n)).collect::<Vec<_>>(), frame.size());
    if let Some(second) = style.in_second() {
        texts.extend(numbers.map(|n| second.words(*n)));
        room = half(room);
    }
    let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
    text::largest(desk.family, &texts, room, &face).map(|size| face.at(size))
}

/// An empty page with its heading.
fn blank(desk: &Desk<'_>, layout: &Layout, turn: Turn, title: &str) -> Result<(Size, head::Headed), Problem> {
    let page = desk.page(turn);
    let head = Head { title, note: None, reader: Reader::Learner, code: false, goal: None };
    Ok((page, head::lay(desk, desk.live(page, layout), &head)?))
}

/// Divides a page's body.
fn areas(desk: &Desk<'_>, layout: &Layout, body: Rect, bands: Bands) -> Result<Areas, Problem> {
    let gap = match bands.strips {
        Strips::Liked | Strips::Low => layout.grid.gutter,
        Strips::Lowest => layout.length("lowest_gap")?,
    };
    let strip = |top: Length, high: Length| Rect::new(Point::new(body.left(), top), Size::new(body.width(), high));
    let up = |bottom: Length, high: Length| strip(bottom - high, high);
    let (words, expanded) = match (desk.lesson.second().is_some(), bands.strips) {
        (true, Strips::Liked) => ("words_both", "expanded"),
        (true, Strips::Low) => ("least_words_both", "least_expanded"),
        (true, Strips::Lowest) => ("lowest_words_both", "lowest_expanded"),
        (false, Strips::Liked) => ("words", "expanded"),
        (false, Strips::Low) => ("least_words", "least_expanded"),
        (false, Strips::Lowest) => ("lowest_words", "lowest_expanded"),
    };
    let words = up(body.bottom(), layout.length(words)?);
    let expanded = up(words.top() - gap.half(), layout.length(expanded)?);
    let numeral = bands.numeral.map(|high| strip(body.top(), high));
    let top = numeral.map_or(body.top(), |numeral| numeral.bottom() + gap.half());
    let chart = Rect::between(Point::new(body.left(), top), Point::new(body.right(), expanded.top() - gap));
    Ok(Areas { numeral, chart, expanded, words })
}
