//! Items as SVG elements, in bytes.
//!
//! Neighbours with one pen are one path: a flat's eighteen lines are one element. Pictures and letters that come again are
//! defined once. Every shape is drawn in the same direction as in the PDF, so that dashes begin at the same corner.

use std::fmt::Write;
use std::sync::Arc;

use crate::measure::points::{Milli, integer, milli, number};
use crate::measure::{Family, Font, Length, Point, Rect, Weight};
use crate::sheets::page::{Item, Paint, Stroke, Symbol, Text};

/// Elements being written.
pub struct Elements<'a> {
    family: &'a Family,
    /// What all ids begin with.
    prefix: &'a str,
    out: Vec<u8>,
    open: Open,
    /// Definitions of letters and pictures so far.
    shared: Vec<u8>,
    /// Which characters of the two fonts are defined.
    letters: [Vec<bool>; 2],
    symbols: Vec<Arc<Symbol>>,
}

/// What was drawn.
pub struct Parts {
    /// Letters and pictures that the body uses.
    pub shared: Vec<u8>,
    /// The elements in the order in which they are painted.
    pub body: Vec<u8>,
}

/// How a shape is painted.
#[derive(Clone, Copy, PartialEq)]
struct Inks {
    fill: Option<Paint>,
    stroke: Option<Stroke>,
}

/// The path that is being written.
#[derive(Clone, Copy, PartialEq)]
enum Open {
    /// There is none.
    No,
    /// No other shape may join it.
    Alone,
    /// Shapes with the same inks join it.
    For(Inks),
}

impl<'a> Elements<'a> {
    /// None yet.
    pub fn new(family: &'a Family, prefix: &'a str) -> Self {
        let letters = [&family.regular, &family.bold].map(|font| vec![false; font.characters()]);
        Self { family, prefix, out: Vec::new(), open: Open::No, shared: Vec::new(), letters, symbols: Vec::new() }
    }

    /// What was drawn.
    pub fn finish(mut self) -> Parts {
        self.end();
        Parts { shared: self.shared, body: self.out }
    }

    /// Draws one item.
    pub fn item(&mut self, item: &Item) {
        match item {
            Item::Text(text) => self.text(text),
            Item::Line { from, to, stroke } => {
                self.begin(Inks { fill: None, stroke: Some(*stroke) }, true);
                self.line(*from, *to);
            }
            Item::Rect { rect, fill, stroke } => self.shape(*fill, *stroke, true, |elements| elements.rect(*rect)),
            Item::Polygon { points, fill, stroke } => {
                // Two that lie over each other and turn in opposite ways would make a hole as one path.
                self.shape(*fill, *stroke, fill.is_none(), |elements| elements.polygon(points));
            }
            Item::Circle { centre, radius, fill, stroke } => {
                self.shape(*fill, *stroke, true, |elements| elements.circle(*centre, *radius));
            }
            Item::Symbol { symbol, at } => self.symbol(symbol, *at),
        }
    }

    /// Draws a closed shape; nothing where it has no ink.
    fn shape(&mut self, fill: Option<Paint>, stroke: Option<Stroke>, joins: bool, draw: impl FnOnce(&mut Self)) {
        if fill.is_some() || stroke.is_some() {
            // A fill covers the edges of shapes before it, so only shapes with one ink can be one path.
            self.begin(Inks { fill, stroke }, joins && (fill.is_none() || stroke.is_none()));
            draw(self);
        }
    }

    /// Goes on with the path that is open, if its inks are these, or begins one.
    fn begin(&mut self, inks: Inks, joins: bool) {
        let open = if joins { Open::For(inks) } else { Open::Alone };
        if joins && self.open == open {
            return;
        }
        self.end();
        self.push("<path");
        match inks.fill {
            None => self.push(" fill=\"none\""),
            Some(paint) => self.fill(paint),
        }
        if let Some(stroke) = inks.stroke {
            self.push(" stroke=\"");
            self.push(&colour(stroke.paint));
            self.push("\"");
            if milli(stroke.width) != 1000 {
                self.push(" stroke-width=\"");
                number(&mut self.out, milli(stroke.width));
                self.push("\"");
            }
            if let Some((dash, gap)) = stroke.dash {
                self.push(" stroke-dasharray=\"");
                self.pair(milli(dash), milli(gap));
                self.push("\"");
            }
        }
        self.push(" d=\"");
        self.open = open;
    }

    /// Ends the path that is open, if any.
    fn end(&mut self) {
        if std::mem::replace(&mut self.open, Open::No) != Open::No {
            self.push("\"/>\n");
        }
    }

    fn line(&mut self, from: Point, to: Point) {
        self.go(b'M', milli(from.x), milli(from.y));
        if from.y == to.y {
            self.one(b'H', milli(to.x));
        } else if from.x == to.x {
            self.one(b'V', milli(to.y));
        } else {
            self.go(b'L', milli(to.x), milli(to.y));
        }
    }

    fn rect(&mut self, rect: Rect) {
        self.go(b'M', milli(rect.left()), milli(rect.bottom()));
        self.one(b'H', milli(rect.right()));
        self.one(b'V', milli(rect.top()));
        self.one(b'H', milli(rect.left()));
        self.push("z");
    }

    fn polygon(&mut self, points: &[Point]) {
        for (k, point) in points.iter().enumerate() {
            self.go(if k == 0 { b'M' } else { b'L' }, milli(point.x), milli(point.y));
        }
        self.push("z");
    }

    /// Two halves, since an arc cannot end where it begins.
    fn circle(&mut self, centre: Point, radius: Length) {
        let (x, y, r) = (milli(centre.x), milli(centre.y), milli(radius));
        self.go(b'M', x + r, y);
        for across in [-2 * r, 2 * r] {
            self.go(b'a', r, r);
            self.push(" 0 1 0 ");
            self.pair(across, 0);
        }
        self.push("z");
    }

    /// A line of text: its letters are used at their places in font units, and all of it is brought to size at once.
    fn text(&mut self, text: &Text) {
        self.end();
        let font = self.family.font(text.weight);
        self.push("<g");
        if text.paint != Paint::BLACK {
            self.fill(text.paint);
        }
        self.push(" transform=\"matrix(");
        let scale = Scale::new(text.size, font);
        let _ = write!(Text8(&mut self.out), "{scale} 0 0-{scale} ");
        self.pair(milli(text.at.x), milli(text.at.y));
        self.push(")\">");
        let mut pen = 0;
        for index in text.text.chars().filter_map(|character| font.index(character)) {
            if !font.outline(index).is_empty() {
                self.letter(font, text.weight, index, pen);
            }
            pen += font.listed(index).map_or(0, |(_, glyph)| glyph.advance);
        }
        self.push("</g>\n");
    }

    fn letter(&mut self, font: &Font, weight: Weight, index: usize, pen: i64) {
        let name = match weight {
            Weight::Regular => 'r',
            Weight::Bold => 'b',
        };
        if let Some(known @ false) = self.letters[weight as usize].get_mut(index) {
            *known = true;
            let _ = write!(Text8(&mut self.shared), "<path id=\"{}{name}{index}\" d=\"", self.prefix);
            self.shared.extend_from_slice(font.outline(index).as_bytes());
            self.shared.extend_from_slice(b"\"/>\n");
        }
        self.push("<use href=\"#");
        self.push(self.prefix);
        self.out.push(name as u8);
        integer(&mut self.out, index as u64);
        if pen != 0 {
            self.push("\" x=\"");
            number(&mut self.out, pen * 1000);
        }
        self.push("\"/>");
    }

    fn symbol(&mut self, symbol: &Arc<Symbol>, at: Point) {
        self.end();
        let known = self.symbols.iter().position(|other| Arc::ptr_eq(other, symbol) || other == symbol);
        let id = known.unwrap_or_else(|| self.define(symbol));
        let (x, y) = (milli(at.x), milli(at.y));
        self.push("<use href=\"#");
        self.push(self.prefix);
        self.push("s");
        integer(&mut self.out, id as u64);
        for (name, value) in [("\" x=\"", x), ("\" y=\"", y)] {
            if value != 0 {
                self.push(name);
                number(&mut self.out, value);
            }
        }
        self.push("\"/>\n");
    }

    /// Defines a symbol and those inside it.
    fn define(&mut self, symbol: &Arc<Symbol>) -> usize {
        let outside = std::mem::take(&mut self.out);
        for item in &symbol.items {
            self.item(item);
        }
        self.end();
        let inside = std::mem::replace(&mut self.out, outside);
        let id = self.symbols.len();
        self.symbols.push(Arc::clone(symbol));
        let _ = writeln!(Text8(&mut self.shared), "<g id=\"{}s{id}\">", self.prefix);
        self.shared.extend_from_slice(&inside);
        self.shared.extend_from_slice(b"</g>\n");
        id
    }

    fn fill(&mut self, paint: Paint) {
        self.push(" fill=\"");
        self.push(&colour(paint));
        self.push("\"");
    }

    fn push(&mut self, text: &str) {
        self.out.extend_from_slice(text.as_bytes());
    }

    /// A command of a path and a point.
    fn go(&mut self, command: u8, x: Milli, y: Milli) {
        self.out.push(command);
        self.pair(x, y);
    }

    /// A command of a path and one coordinate.
    fn one(&mut self, command: u8, value: Milli) {
        self.out.push(command);
        number(&mut self.out, value);
    }

    fn pair(&mut self, x: Milli, y: Milli) {
        number(&mut self.out, x);
        self.out.push(b' ');
        number(&mut self.out, y);
    }
}

/// A colour as SVG writes it, in its shortest form.
pub fn colour(paint: Paint) -> String {
    let channels = match paint {
        Paint::Grey(value) => [value; 3],
        Paint::Rgb(red, green, blue) => [red, green, blue],
    };
    if channels.iter().all(|channel| channel / 16 == channel % 16) {
        channels.iter().fold("#".to_owned(), |text, channel| format!("{text}{:x}", channel % 16))
    } else {
        let [red, green, blue] = channels;
        format!("#{red:02x}{green:02x}{blue:02x}")
    }
}

/// What a font's units are multiplied by: ten decimals, so that the end of a line is right to a thousandth of a point.
struct Scale(i64);

impl Scale {
    const ONE: i64 = 10_000_000_000;

    fn new(size: Length, font: &Font) -> Self {
        let point = Length::pt(1).to_raw() * font.per_em();
        // Type is far smaller than the 2 m that would not fit.
        Self((i128::from(size.to_raw()) * i128::from(Self::ONE) / i128::from(point.max(1))) as i64)
    }
}

impl std::fmt::Display for Scale {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let text = format!("{}.{:010}", self.0 / Self::ONE, self.0 % Self::ONE);
        f.write_str(text.trim_end_matches('0').trim_end_matches('.').trim_start_matches('0'))
    }
}

/// Bytes that texts are written into.
struct Text8<'o>(&'o mut Vec<u8>);

impl Write for Text8<'_> {
    fn write_str(&mut self, text: &str) -> std::fmt::Result {
        self.0.extend_from_slice(text.as_bytes());
        Ok(())
    }
}
