//! Finished pages and pictures as SVG (W3C, Scalable Vector Graphics 2).
//!
//! In: a [`Page`], or a [`Drawing`], and the fonts it was set in. Out: one `svg` element that stands by itself: letters are
//! outlines, so no font is needed and none is put in another's place, and what comes again is drawn once and used. It can
//! be a file of its own or a part of an HTML page; a number in its ids tells several on one page apart. Lengths are points
//! with the same digits as in the PDF of the page.
//!
//! For a listener the whole is one picture, named by its title and described by everything that the page says in reading
//! order, with the alternative texts of its figures.

mod aloud;
mod draw;

use std::sync::Arc;

use crate::measure::points::{milli, number};
use crate::measure::{Family, Size};
use crate::sheets::page::{Layer, Page, Paint};
use draw::Elements;

/// What stands in every picture; it tells pictures of this program from others.
pub const MARK: &str = "data-made-by=\"Placewright ";

/// Something that can be drawn by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawing {
    /// Its size.
    pub size: Size,
    /// What it is called.
    pub title: String,
    /// What is under it: the paper's white, or nothing.
    pub ground: Option<Paint>,
    /// What is drawn, bottom to top and in reading order.
    pub layers: Vec<Arc<Layer>>,
}

/// A page as an `svg` element. Every id in it begins with `p`, the number `id` and a hyphen: elements that stand on one HTML
/// page need different numbers.
pub fn page(page: &Page, family: &Family, id: u32) -> String {
    element(page.size, &page.name, Some(Paint::WHITE), &page.layers, family, id)
}

/// A drawing as an `svg` element, likewise.
pub fn drawing(drawing: &Drawing, family: &Family, id: u32) -> String {
    let Drawing { size, title, ground, layers } = drawing;
    element(*size, title, *ground, layers, family, id)
}

/// Room for what most pages come to, in bytes.
const PAGE: usize = 1 << 15;

fn element(size: Size, title: &str, ground: Option<Paint>, layers: &[Arc<Layer>], family: &Family, id: u32) -> String {
    let prefix = format!("p{id}-");
    let mut elements = Elements::new(family, &prefix);
    for node in layers.iter().flat_map(|layer| &layer.nodes) {
        node.each(&mut |item| elements.item(item));
    }
    let drawn = elements.finish();
    let said = aloud::read(layers.iter().flat_map(|layer| &layer.nodes));

    let mut out = Vec::with_capacity(PAGE.max(drawn.body.len() + drawn.shared.len()) + PAGE / 8);
    let mut text = |part: &str| out.extend_from_slice(part.as_bytes());
    text("<svg xmlns=\"http://www.w3.org/2000/svg\" ");
    text(MARK);
    text(env!("CARGO_PKG_VERSION"));
    text("\"");
    let (width, height) = (points(size.width), points(size.height));
    text(&format!(" width=\"{width}pt\" height=\"{height}pt\" viewBox=\"0 0 {width} {height}\" role=\"img\""));
    text(&format!(" aria-labelledby=\"{prefix}t\""));
    if !said.is_empty() {
        text(&format!(" aria-describedby=\"{prefix}d\""));
    }
    // Pointed corners as in PDF, where they may be longer than SVG allows by itself.
    text(&format!(" stroke-miterlimit=\"10\">\n<title id=\"{prefix}t\">{}</title>\n", escaped(title)));
    if !said.is_empty() {
        text(&format!("<desc id=\"{prefix}d\">{}</desc>\n", escaped(&said)));
    }
    if !drawn.shared.is_empty() {
        text("<defs>\n");
        out.extend_from_slice(&drawn.shared);
        out.extend_from_slice(b"</defs>\n");
    }
    if let Some(paint) = ground {
        let area = format!("<path fill=\"{}\" d=\"M0 0H{width}V{height}H0z\"/>\n", draw::colour(paint));
        out.extend_from_slice(area.as_bytes());
    }
    out.extend_from_slice(&drawn.body);
    out.extend_from_slice(b"</svg>\n");
    // Nothing but whole texts was put together.
    String::from_utf8(out).unwrap_or_else(|error| String::from_utf8_lossy(error.as_bytes()).into_owned())
}

/// A length in points.
fn points(length: crate::measure::Length) -> String {
    let mut out = Vec::new();
    number(&mut out, milli(length));
    String::from_utf8(out).unwrap_or_default()
}

/// A text with what XML and HTML reserve written as references, for content and for quoted attributes. What no XML document
/// may hold (W3C, Extensible Markup Language 1.0, 2.2) gives way to the character that stands for such.
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => safe.push('\u{fffd}'),
            c => safe.push(c),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_gets_out_of_its_place() {
        assert_eq!(escaped("a < b & \"c\" > d\u{1}\n"), "a &lt; b &amp; &quot;c&quot; &gt; d\u{fffd}\n");
    }
}
