//! Items to the operators of a page stream, in bytes.
//!
//! In: items with lengths from the top left. Out: a stream in points from the bottom left. The canvas remembers colour,
//! pen, font and text position, and writes only what changes.

use super::symbols::Ids;
use crate::diag::Problem;
use crate::measure::{Length, Point, Rect};
use crate::pdf::failure::internal;
use crate::pdf::fonts::Codes;
use crate::pdf::syntax::{Milli, integer, milli, number};
use crate::sheets::page::{Item, Paint, Stroke, Text};

/// Room for what most pages draw, in bytes: a stream that grows step by step is copied each time.
const PAGE: usize = 4_096;

/// A page stream or a form being written.
pub struct Canvas<'a> {
    /// The operators so far.
    out: Vec<u8>,
    /// How high the page or the form is: where y turns over.
    height: Length,
    codes: &'a Codes<'a>,
    symbols: &'a Ids,
    state: State,
    /// Inside a text object: where its current line starts.
    text: Option<(Milli, Milli)>,
}

/// What the operators so far have set; nothing where it is not known.
#[derive(Default)]
struct State {
    fill: Option<Paint>,
    stroke: Option<Paint>,
    width: Option<Milli>,
    dash: Option<Dash>,
    font: Option<(usize, Milli)>,
}

/// A pen's dash and gap, or none for a solid line.
#[derive(Clone, Copy, PartialEq)]
struct Dash(Option<(Milli, Milli)>);

impl<'a> Canvas<'a> {
    /// An empty page stream. A page starts in black, with a solid pen of one point.
    pub fn page(height: Length, codes: &'a Codes<'a>, symbols: &'a Ids) -> Self {
        let state = State {
            fill: Some(Paint::BLACK),
            stroke: Some(Paint::BLACK),
            width: Some(1000),
            dash: Some(Dash(None)),
            font: None,
        };
        Self { out: Vec::with_capacity(PAGE), height, codes, symbols, state, text: None }
    }

    /// An empty form. It inherits the state of wherever it is shown, so it takes nothing as given.
    pub fn form(height: Length, codes: &'a Codes<'a>, symbols: &'a Ids) -> Self {
        Self { state: State::default(), ..Self::page(height, codes, symbols) }
    }

    /// The finished stream.
    pub fn finish(mut self) -> Vec<u8> {
        self.end_text();
        self.out
    }

    /// Draws items as content `mcid` of the page, marked with a structure type.
    pub fn tagged(&mut self, tag: &[u8], mcid: u32, items: &[&Item]) -> Result<(), Problem> {
        self.enter(items);
        self.out.push(b'/');
        self.out.extend_from_slice(tag);
        self.out.extend_from_slice(b"<</MCID ");
        integer(&mut self.out, u64::from(mcid));
        self.out.extend_from_slice(b">>BDC\n");
        self.marked(items)
    }

    /// Draws items that mean nothing to a listener.
    pub fn artifact(&mut self, items: &[&Item]) -> Result<(), Problem> {
        self.enter(items);
        self.out.extend_from_slice(b"/Artifact BMC\n");
        self.marked(items)
    }

    /// Gets in or out of a text object, so that marked content and text objects nest.
    fn enter(&mut self, items: &[&Item]) {
        if items.iter().all(|item| matches!(item, Item::Text(_))) {
            self.begin_text();
        } else {
            self.end_text();
        }
    }

    fn marked(&mut self, items: &[&Item]) -> Result<(), Problem> {
        let in_text = self.text.is_some();
        for (k, item) in items.iter().enumerate() {
            match (item, items.get(k + 1)) {
                // Lines of one thing said: a space keeps their words apart for a listener.
                (Item::Text(text), Some(Item::Text(_))) => self.line_of_text(text, true)?,
                _ => self.item(item)?,
            }
        }
        if !in_text {
            self.end_text();
        }
        self.out.extend_from_slice(b"EMC\n");
        Ok(())
    }

    /// Draws one item.
    pub fn item(&mut self, item: &Item) -> Result<(), Problem> {
        match item {
            Item::Text(text) => return self.line_of_text(text, false),
            Item::Line { from, to, stroke } => {
                self.end_text();
                self.pen(stroke);
                self.point(*from, b"m ");
                self.point(*to, b"l S\n");
            }
            Item::Rect { rect, fill, stroke } => {
                if let Some(operator) = self.inks(fill.as_ref(), stroke.as_ref(), [b"f", b"S", b"B"]) {
                    self.rect(*rect);
                    self.end(operator);
                }
            }
            Item::Polygon { points, fill, stroke } => {
                if let (Some(operator), Some((first, rest))) =
                    (self.inks(fill.as_ref(), stroke.as_ref(), [b"f", b"s", b"b"]), points.split_first())
                {
                    self.point(*first, b"m ");
                    for point in rest {
                        self.point(*point, b"l ");
                    }
                    self.end(operator);
                }
            }
            Item::Circle { centre, radius, fill, stroke } => {
                if let Some(operator) = self.inks(fill.as_ref(), stroke.as_ref(), [b"f", b"s", b"b"]) {
                    self.circle(*centre, *radius);
                    self.end(operator);
                }
            }
            Item::Symbol { symbol, at } => {
                let id = self.symbols.id(symbol).ok_or_else(|| internal("a symbol was not surveyed"))?;
                self.end_text();
                self.out.extend_from_slice(b"q 1 0 0 1 ");
                self.point(at.moved(Length::ZERO, symbol.size.height), b"cm/S");
                integer(&mut self.out, id as u64);
                self.out.extend_from_slice(b" Do Q\n");
            }
        }
        Ok(())
    }

    fn line_of_text(&mut self, text: &Text, spaced: bool) -> Result<(), Problem> {
        self.begin_text();
        self.fill(text.paint);
        let font = (self.codes.slot(text.weight), milli(text.size));
        if self.state.font != Some(font) {
            self.out.extend_from_slice(b"/F");
            integer(&mut self.out, font.0 as u64);
            self.out.push(b' ');
            number(&mut self.out, font.1);
            self.out.extend_from_slice(b" Tf\n");
            self.state.font = Some(font);
        }
        let (x, y) = (milli(text.at.x), self.up(text.at.y));
        let (from_x, from_y) = self.text.unwrap_or_default();
        number(&mut self.out, x - from_x);
        self.out.push(b' ');
        number(&mut self.out, y - from_y);
        self.out.extend_from_slice(b" Td");
        self.text = Some((x, y));
        self.codes.encode(font.0, &text.text, spaced, &mut self.out)?;
        self.out.extend_from_slice(b"Tj\n");
        Ok(())
    }

    fn begin_text(&mut self) {
        if self.text.is_none() {
            self.out.extend_from_slice(b"BT\n");
            self.text = Some((0, 0));
        }
    }

    fn end_text(&mut self) {
        if self.text.take().is_some() {
            self.out.extend_from_slice(b"ET\n");
        }
    }

    /// Sets colours and pen for a closed shape; the operator that paints it, or `None` when nothing is to be painted.
    fn inks(
        &mut self,
        fill: Option<&Paint>,
        stroke: Option<&Stroke>,
        [only_fill, only_stroke, both]: [&'static [u8]; 3],
    ) -> Option<&'static [u8]> {
        let operator = match (fill, stroke) {
            (None, None) => return None,
            (Some(_), None) => only_fill,
            (None, Some(_)) => only_stroke,
            (Some(_), Some(_)) => both,
        };
        self.end_text();
        if let Some(paint) = fill {
            self.fill(*paint);
        }
        if let Some(stroke) = stroke {
            self.pen(stroke);
        }
        Some(operator)
    }

    fn fill(&mut self, paint: Paint) {
        if self.state.fill != Some(paint) {
            colour(&mut self.out, paint, [b"g\n", b"rg\n"]);
            self.state.fill = Some(paint);
        }
    }

    fn pen(&mut self, stroke: &Stroke) {
        if self.state.stroke != Some(stroke.paint) {
            colour(&mut self.out, stroke.paint, [b"G\n", b"RG\n"]);
            self.state.stroke = Some(stroke.paint);
        }
        let width = milli(stroke.width);
        if self.state.width != Some(width) {
            number(&mut self.out, width);
            self.out.extend_from_slice(b" w\n");
            self.state.width = Some(width);
        }
        let dash = Dash(stroke.dash.map(|(dash, gap)| (milli(dash), milli(gap))));
        if self.state.dash != Some(dash) {
            self.out.push(b'[');
            if let Dash(Some((dash, gap))) = dash {
                number(&mut self.out, dash);
                self.out.push(b' ');
                number(&mut self.out, gap);
            }
            self.out.extend_from_slice(b"]0 d\n");
            self.state.dash = Some(dash);
        }
    }

    /// y from the top to thousandths of a point from the bottom.
    fn up(&self, y: Length) -> Milli {
        milli(self.height - y)
    }

    fn point(&mut self, point: Point, operator: &[u8]) {
        let y = self.up(point.y);
        self.pair(milli(point.x), y);
        self.out.extend_from_slice(operator);
    }

    /// Two numbers, each followed by a space.
    fn pair(&mut self, x: Milli, y: Milli) {
        number(&mut self.out, x);
        self.out.push(b' ');
        number(&mut self.out, y);
        self.out.push(b' ');
    }

    fn rect(&mut self, rect: Rect) {
        // Width and height from the rounded edges, so that neighbours meet.
        let (left, bottom) = (milli(rect.left()), self.up(rect.bottom()));
        let (right, top) = (milli(rect.right()), self.up(rect.top()));
        self.pair(left, bottom);
        self.pair(right - left, top - bottom);
        self.out.extend_from_slice(b"re ");
    }

    fn circle(&mut self, centre: Point, radius: Length) {
        let (x, y, r) = (milli(centre.x), self.up(centre.y), milli(radius));
        // The handle that keeps a quarter's cubic within 0.03 % of the arc: 4/3 (sqrt 2 - 1) of the radius.
        let h = (r * 5523 + 5000).div_euclid(10_000);
        self.pair(x + r, y);
        self.out.extend_from_slice(b"m ");
        for [(ax, ay), (bx, by), (cx, cy)] in [
            [(r, h), (h, r), (0, r)],
            [(-h, r), (-r, h), (-r, 0)],
            [(-r, -h), (-h, -r), (0, -r)],
            [(h, -r), (r, -h), (r, 0)],
        ] {
            self.pair(x + ax, y + ay);
            self.pair(x + bx, y + by);
            self.pair(x + cx, y + cy);
            self.out.extend_from_slice(b"c ");
        }
    }

    fn end(&mut self, operator: &[u8]) {
        self.out.extend_from_slice(operator);
        self.out.push(b'\n');
    }
}

/// The finished stream, so that streams after it start from the page's first state: the streams of a page are one after the
/// other, and each takes that state as given.
pub fn guarded(canvas: Canvas<'_>) -> Vec<u8> {
    let mut content = canvas.finish();
    content.splice(0..0, *b"q\n");
    content.extend_from_slice(b"Q\n");
    content
}

/// Writes a colour and its operator: the first for grey, the second for sRGB.
fn colour(out: &mut Vec<u8>, paint: Paint, [grey, rgb]: [&[u8]; 2]) {
    match paint {
        Paint::Grey(value) => {
            channel(out, value);
            out.extend_from_slice(grey);
        }
        Paint::Rgb(red, green, blue) => {
            for value in [red, green, blue] {
                channel(out, value);
            }
            out.extend_from_slice(rgb);
        }
    }
}

/// A channel 0..=255 as 0 to 1 in thousandths, which tell all 256 values apart, and a space.
fn channel(out: &mut Vec<u8>, value: u8) {
    number(out, (i64::from(value) * 1000 + 127) / 255);
    out.push(b' ');
}
