//! What every view draws with: shapes, words in frames, and the drawing that they make.

use std::sync::Arc;

use super::Finish;
use crate::diag::Problem;
use crate::measure::{Length, Rect, Size, Weight};
use crate::number::{Number, Place, Style};
use crate::sheets::page::ink::{self, OUTLINE};
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Layer, Node, Paint, Reader, Stroke, Tag};
use crate::spec::Ink;
use crate::svg::Drawing;
use crate::wording::{Language, Wording};

/// Around a picture: half the widest pen.
pub const EDGE: Length = ink::HEAVY.width;

/// The language of pictures.
pub fn wording() -> &'static dyn Wording {
    crate::wording::of(Language::En)
}

/// A number as it is written in a picture.
pub fn numeral(number: Number) -> String {
    Style::plain(wording().names()).numeral(number)
}

/// What a place is called: "tens".
pub fn name(place: Place) -> &'static str {
    wording().place(place)
}

/// So many of a place: "1 ten", "4 hundreds".
pub fn counted(count: u32, place: Place) -> String {
    wording().units(count, place)
}

/// A drawing that is one picture to a listener: what it is called, and what is heard instead.
pub fn drawing(size: Size, title: String, instead: String, items: Vec<Item>) -> Drawing {
    let figure = Node::Tagged(Tag::Figure(instead), items.into_iter().map(Node::Item).collect());
    let layer = Layer { nodes: vec![figure], ..Layer::default() };
    Drawing { size, title, ground: Some(Paint::WHITE), layers: vec![Arc::new(layer)] }
}

/// A rectangle with an edge.
pub fn boxed(rect: Rect, fill: Paint, stroke: Stroke) -> Item {
    Item::Rect { rect, fill: Some(fill), stroke: Some(stroke) }
}

/// A cell: white, with an outline.
pub fn cell(rect: Rect) -> Item {
    boxed(rect, Paint::WHITE, OUTLINE)
}

/// The ground of a place's heading: its colour, or a light grey.
pub fn shade(ink: Ink, place: Place) -> Paint {
    match ink::tone(ink, place).fill {
        Paint::WHITE => ink::SHADE,
        fill => fill,
    }
}

/// Type up to a size; what all of some texts can be set at in a room. Fails where even 6 pt is too large.
pub fn face(finish: &Finish<'_>, texts: &[&str], room: Size, most: Length, weight: Weight) -> Result<Face, Problem> {
    let face = Face { weight, paint: ink::TEXT, reader: Reader::Staff, size: most, least: Length::pt(6), leading: 120 };
    match text::fitting(finish.family, texts, room, &Face { size: most.max(face.least), ..face }) {
        Ok(size) => Ok(face.at(size)),
        Err(text) => Err(Problem::new(format!("`{text}` does not fit a picture {} wide", finish.width))
            .hint("expected a larger --size")),
    }
}

/// A text in the middle of a frame, at the size of its face.
pub fn centred(finish: &Finish<'_>, words: &str, frame: Rect, face: &Face) -> Result<Vec<Item>, Problem> {
    let set = text::set(finish.family, words, frame, face, Align::CENTRE)?;
    Ok(set.lines.into_iter().map(Item::Text).collect())
}
