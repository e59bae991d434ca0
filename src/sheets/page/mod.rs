//! Finished pages: every item in its place, nothing left to decide.
//!
//! Sheets make pages; `pdf`, the pictures of `preview` and the tests that measure only read them. Lengths are
//! [`Length`]s, the origin is the top left corner, y grows down.

pub mod checkline;
pub mod desk;
pub mod division;
pub mod entry;
pub mod grid;
pub mod head;
pub mod headed;
pub mod ink;
pub mod layout;
pub mod mark;
pub mod name;
pub mod once;
mod quotes;
pub mod scrap;
pub mod text;
pub mod tongues;

use std::sync::Arc;

use crate::lesson::Version;
pub use crate::lesson::job::Stock;
use crate::measure::{Length, Point, Rect, Size, Weight};
use crate::spec::{Language, SheetKind};

/// One side of a sheet of paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// Its size as it is read (a landscape page is wider than high).
    pub size: Size,
    /// What kind of page it is.
    pub sheet: SheetKind,
    /// The sort set it belongs to.
    pub version: Option<Version>,
    /// The learner it belongs to, counted from 1.
    pub learner: Option<u32>,
    /// What it is printed on.
    pub stock: Stock,
    /// What the bookmark calls it, such as "Sorting board A".
    pub name: String,
    /// What is drawn, bottom to top and in reading order. Layers are shared by the pages that look the same.
    pub layers: Vec<Arc<Layer>>,
}

/// A part of a page that several pages may share.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Layer {
    /// Content in reading order.
    pub nodes: Vec<Node>,
    /// The pieces that are cut out, in reading order.
    pub pieces: Vec<Piece>,
    /// Where to cut: full-width or full-height lines.
    pub cuts: Vec<CutLine>,
    /// Cuts made after those, strip by strip, across a strip that the full cuts have freed.
    pub snips: Vec<Snip>,
    /// Boxes that a piece is laid or written into.
    pub boxes: Vec<Rect>,
    /// Where each copy is told apart: room for the version and learner mark, and for a name. Filled by a layer of the
    /// copy's own (see `sheets::mark`), so that this one can be shared.
    pub marks: Vec<Mark>,
}

/// Room on a page or a piece that differs from copy to copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Mark {
    /// The room, padding taken off already.
    pub frame: Rect,
    /// What goes there.
    pub says: Says,
}

/// What a [`Mark`] is filled with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Says {
    /// The version and the learner, such as `A · 7`; `A` alone on a master. Set small at the right of the frame.
    Code,
    /// The same on a piece: smaller and lighter.
    Piece,
    /// The learner's name, where a roster gives one. Set at the left of the frame, on the writing line at its bottom.
    Name,
    /// The learner's name beside the mark, on pages without a line for it. Set small at the right of the frame.
    Owner,
    /// The page's number in its packet. Set small at the right of the frame; left empty where pages are not counted.
    Folio,
}

/// Something that is cut out.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Piece {
    /// Its edges: the cut lines.
    pub rect: Rect,
    /// What it is, in a few words, such as "strip 7" or "flat".
    pub name: String,
    /// Which strip of its set it is, from 0; none of any other piece.
    pub strip: Option<usize>,
}

impl Piece {
    /// A strip of a set, counted from 0.
    pub fn strip(strip: usize, rect: Rect) -> Self {
        Self { rect, name: format!("strip {}", strip + 1), strip: Some(strip) }
    }

    /// Any other piece.
    pub fn named(name: String, rect: Rect) -> Self {
        Self { rect, name, strip: None }
    }
}

/// A straight cut across the whole page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CutLine {
    /// Left to right at this y.
    Level(Length),
    /// Top to bottom at this x.
    Upright(Length),
}

/// A straight cut across a strip that full cuts have freed: from one edge of the strip to the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Snip {
    /// One end.
    pub from: Point,
    /// The other end, at the same x or the same y.
    pub to: Point,
}

/// Content with its meaning.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Node {
    /// Content with a meaning, made of other content.
    Tagged(Tag, Vec<Node>),
    /// Something drawn that belongs to the tag around it.
    Item(Item),
    /// Things drawn that a listener does not need: lines, cut marks, furniture.
    Artifact(Vec<Item>),
}

impl Node {
    /// `nodes` with a meaning.
    pub fn tagged(tag: Tag, nodes: impl IntoIterator<Item = Self>) -> Self {
        Self::Tagged(tag, nodes.into_iter().collect())
    }

    /// One thing drawn that a listener does not need.
    pub fn artifact(item: Item) -> Self {
        Self::Artifact(vec![item])
    }

    /// Calls `see` with every item of this node, in reading order.
    pub fn each(&self, see: &mut impl FnMut(&Item)) {
        match self {
            Self::Tagged(_, nodes) => nodes.iter().for_each(|node| node.each(see)),
            Self::Item(item) => see(item),
            Self::Artifact(items) => items.iter().for_each(see),
        }
    }
}

/// What content means; each is a standard structure type of ISO 32000-1, 14.8.4.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Tag {
    /// A heading of level 1..=6.
    Heading(u8),
    /// A paragraph.
    Paragraph,
    /// A table of rows.
    Table,
    /// A row of cells.
    Row,
    /// A header cell, for its row or its column.
    HeaderCell(Scope),
    /// A cell. It may be empty: a box to fill.
    Cell,
    /// A list of items.
    List,
    /// An item of a list; its label, if any, is a [`Tag::Label`] inside.
    ListItem,
    /// The number or mark before a list item.
    Label,
    /// What a list item says.
    ListBody,
    /// A picture, with what a listener hears instead. Never gives an answer away on a learner's page.
    Figure(String),
    /// A part of the page that belongs together: a strip, a slip, a step.
    Section,
    /// Words in another language than the file's.
    Span(Language),
    /// A whole page, or a part of one, in another language than the file's.
    Passage(Language),
}

/// What a header cell heads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Scope {
    /// Its row.
    Row,
    /// Its column.
    Column,
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Item {
    /// One line of text.
    Text(Text),
    /// A straight line.
    Line {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// Its pen.
        stroke: Stroke,
    },
    /// A rectangle. Its stroke lies half inside and half outside the edge.
    Rect {
        /// The edge.
        rect: Rect,
        /// The inside, if filled.
        fill: Option<Paint>,
        /// The pen for the edge, if drawn.
        stroke: Option<Stroke>,
    },
    /// A closed polygon of straight sides.
    Polygon {
        /// The corners in order.
        points: Vec<Point>,
        /// The inside, if filled.
        fill: Option<Paint>,
        /// The pen for the edge, if drawn.
        stroke: Option<Stroke>,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius.
        radius: Length,
        /// The inside, if filled.
        fill: Option<Paint>,
        /// The pen for the edge, if drawn.
        stroke: Option<Stroke>,
    },
    /// A picture drawn once and shown in many places.
    Symbol {
        /// The picture, drawn from its own top left corner.
        symbol: Arc<Symbol>,
        /// Where its top left corner goes.
        at: Point,
    },
}

/// A picture that is drawn once in a file and shown many times: a flat, a rod, a frame.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Symbol {
    /// Its room; strokes may stand out by half their width.
    pub size: Size,
    /// What is drawn, from the picture's own top left corner.
    pub items: Vec<Item>,
}

/// One line of text.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Text {
    /// The left end of the base line.
    pub at: Point,
    /// The em: the type size.
    pub size: Length,
    /// Regular or bold.
    pub weight: Weight,
    /// The text; no line breaks.
    pub text: String,
    /// Its colour.
    pub paint: Paint,
    /// Who reads it: rules the least size.
    pub reader: Reader,
    /// The box it was set into, padding taken off already: its ink must lie inside.
    pub frame: Rect,
}

/// Who reads a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reader {
    /// A learner: at least 14 pt, or 24 pt in large text.
    Learner,
    /// Grown-ups and marks: at least 9 pt.
    Staff,
}

/// A pen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Stroke {
    /// How wide; at least 0.5 pt, outlines and cut lines 0.75 pt.
    pub width: Length,
    /// Its colour.
    pub paint: Paint,
    /// Solid, or the lengths of dash and gap.
    pub dash: Option<(Length, Length)>,
}

/// A colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Paint {
    /// A grey from 0 (black) to 255 (white).
    Grey(u8),
    /// Red, green and blue, sRGB.
    Rgb(u8, u8, u8),
}

impl Paint {
    /// Black.
    pub const BLACK: Self = Self::Grey(0);
    /// White.
    pub const WHITE: Self = Self::Grey(255);
}
