//! Running text down a page: paragraphs one below the other, each as high as its lines.
//!
//! In: texts and a strip of the page to fill from the top. Out: tagged nodes and how far down they reach. A column does not
//! break pages: it says how high a text is, and the sheet decides.

use std::borrow::Cow;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::text::{self, Face, Setting};
use crate::sheets::page::{Node, Tag};

/// A strip of the page that is filled from the top.
#[derive(Debug, Clone, Copy)]
pub struct Column<'a> {
    desk: &'a Desk<'a>,
    /// The room, padding taken off.
    pub frame: Rect,
    /// The top of what comes next.
    pub y: Length,
}

impl<'a> Column<'a> {
    /// A column that is still empty.
    pub fn new(desk: &'a Desk<'a>, frame: Rect) -> Self {
        Self { desk, frame, y: frame.top() }
    }

    /// How much room is left below.
    pub fn left(&self) -> Length {
        self.frame.bottom() - self.y
    }

    /// Leaves a gap.
    pub fn skip(&mut self, gap: Length) {
        self.y += gap;
    }

    /// How wide a text is on one line.
    pub fn width(&self, text: &str, face: &Face) -> Length {
        self.desk.width(text, face)
    }

    /// The lines of a text with `indent` taken off at the left: for who asks how high they stand before they are set. Fails
    /// when the font lacks a character.
    pub fn broken<'t>(&self, text: &'t str, face: &Face, indent: Length) -> Result<Vec<Cow<'t, str>>, Problem> {
        text::settable(self.desk.family, text, face)?;
        Ok(text::flow(self.desk.family, text, self.frame.width() - indent, face))
    }

    /// Sets the lines of a paragraph and moves below it.
    pub fn lines(&mut self, lines: &[Cow<'_, str>], face: &Face, indent: Length, tag: Tag) -> Node {
        let set = self.set(lines, face, indent, self.frame.width() - indent);
        self.y += text::height(lines.len(), face);
        set.tagged(tag)
    }

    /// How high a text would stand with `indent` taken off at the left.
    pub fn height(&self, text: &str, face: &Face, indent: Length) -> Length {
        text::height(text::flow(self.desk.family, text, self.frame.width() - indent, face).len(), face)
    }

    /// Sets a paragraph and moves below it. Fails when the font lacks a character.
    pub fn text(&mut self, text: &str, face: &Face, indent: Length, tag: Tag) -> Result<Node, Problem> {
        let lines = self.broken(text, face, indent)?;
        Ok(self.lines(&lines, face, indent, tag))
    }

    /// Sets a text of at most `width` from `indent` on without moving: for what stands side by side.
    pub fn beside(&self, text: &str, face: &Face, indent: Length, width: Length, tag: Tag) -> Result<Node, Problem> {
        text::settable(self.desk.family, text, face)?;
        Ok(self.set(&text::flow(self.desk.family, text, width, face), face, indent, width).tagged(tag))
    }

    /// Lines in their place.
    fn set(&self, lines: &[Cow<'_, str>], face: &Face, indent: Length, width: Length) -> Setting {
        let size = Size::new(width, text::height(lines.len(), face));
        let frame = Rect::new(Point::new(self.frame.left() + indent, self.y), size);
        text::run(self.desk.family, lines, frame, face)
    }
}
