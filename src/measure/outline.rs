//! Outlines of glyphs as path data (W3C, Scalable Vector Graphics 2, chapter 9), in font units, y up.
//!
//! Coordinates are written from point to point, which is shorter, and counted in whole thousandths of a unit, so that no
//! rounding adds up on the way.

use ttf_parser::{Face, GlyphId, OutlineBuilder};

use super::points::{Milli, number};

/// A glyph's outline; empty for a glyph that draws nothing.
pub fn draw(face: &Face<'_>, glyph: GlyphId) -> Box<str> {
    let mut path = Path::default();
    // No outline: a space, or a glyph that is drawn in some other way, which `checks` has refused already.
    let _ = face.outline_glyph(glyph, &mut path);
    String::from_utf8(path.out).unwrap_or_default().into_boxed_str()
}

/// Path data being written.
#[derive(Default)]
struct Path {
    out: Vec<u8>,
    /// The last command, which is not repeated.
    last: u8,
    at: (Milli, Milli),
    /// Where the current contour began: closing it leads back there.
    start: (Milli, Milli),
}

/// A coordinate of a font in thousandths of its unit.
fn milli(value: f32) -> Milli {
    (f64::from(value) * 1000.0).round() as Milli
}

impl Path {
    fn command(&mut self, letter: u8) {
        if self.last == letter {
            self.separate();
        } else {
            self.out.push(letter);
            self.last = letter;
        }
    }

    /// A number that begins with its sign needs no space before it; a space that turns out needless is taken back.
    fn separate(&mut self) {
        self.out.push(b' ');
    }

    fn value(&mut self, value: Milli) {
        if value < 0 && self.out.last() == Some(&b' ') {
            self.out.pop();
        }
        number(&mut self.out, value);
    }

    fn points<const N: usize>(&mut self, letter: u8, points: [(f32, f32); N]) {
        self.command(letter);
        let from = self.at;
        for (k, (x, y)) in points.into_iter().enumerate() {
            if k > 0 {
                self.separate();
            }
            let (x, y) = (milli(x), milli(y));
            self.value(x - from.0);
            self.separate();
            self.value(y - from.1);
            self.at = (x, y);
        }
    }
}

impl OutlineBuilder for Path {
    fn move_to(&mut self, x: f32, y: f32) {
        self.points(b'm', [(x, y)]);
        // More pairs after a move would be lines.
        self.last = 0;
        self.start = self.at;
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let to = (milli(x), milli(y));
        let (letter, by) = match (to.0 - self.at.0, to.1 - self.at.1) {
            (dx, 0) => (b'h', dx),
            (0, dy) => (b'v', dy),
            _ => return self.points(b'l', [(x, y)]),
        };
        self.command(letter);
        self.value(by);
        self.at = to;
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.points(b'q', [(x1, y1), (x, y)]);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.points(b'c', [(x1, y1), (x2, y2), (x, y)]);
    }

    fn close(&mut self) {
        self.out.push(b'z');
        self.last = 0;
        self.at = self.start;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outline_is_written_from_point_to_point() {
        let mut path = Path::default();
        path.move_to(100.0, -20.0);
        path.line_to(100.0, 40.0);
        path.line_to(50.5, 40.0);
        path.line_to(0.0, 0.0);
        path.line_to(-10.0, 3.0);
        path.quad_to(1.0, 2.0, 3.0, 4.0);
        path.quad_to(5.0, 6.0, 8.0, 9.0);
        path.close();
        path.move_to(101.0, -20.0);
        let data = String::from_utf8(path.out).expect("ASCII");
        assert_eq!(data, "m100-20v60h-49.5l-50.5-40-10 3q11-1 13 1 2 2 5 5zm1 0");
    }
}
