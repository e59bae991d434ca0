//! What stands apart from running text: a banner that cannot be missed, and lines to copy letter by letter.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::flow::pages::Flow;
use crate::sheets::page::ink;
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Node, Tag};

impl Flow<'_> {
    /// Room across the page, kept whole.
    fn block(&mut self, high: Length) -> Result<Rect, Problem> {
        self.begin(high)?;
        let (frame, y) = (self.frame(), self.column().y);
        self.column().skip(high);
        Ok(Rect::new(Point::new(frame.left(), y), Size::new(frame.width(), high)))
    }

    /// A framed line.
    pub fn banner(&mut self, text: &str, face: &Face) -> Result<(), Problem> {
        let rect = self.block(face.pitch() + Length::mm(6))?;
        let edge = rect.shrunk(Sides::splat(ink::HEAVY.width.half()));
        self.push(Node::artifact(Item::Rect { rect: edge, fill: None, stroke: Some(ink::HEAVY) }));
        let set = self.desk().set(text, rect.shrunk(Sides::splat(Length::mm(2))), face, Align::CENTRE)?;
        self.push(set.tagged(Tag::Paragraph));
        Ok(())
    }

    /// Lines that were broken already and stay as they are, on a ground of their own: a command.
    pub fn verbatim(&mut self, lines: &[String], face: &Face) -> Result<(), Problem> {
        let family = self.desk().family;
        for line in lines {
            text::settable(family, line, face)?;
        }
        let rect = self.block(text::height(lines.len(), face) + VERBATIM.top + VERBATIM.bottom)?;
        self.push(Node::artifact(Item::Rect { rect, fill: Some(ink::SHADE), stroke: None }));
        self.push(text::run(family, lines, rect.shrunk(VERBATIM), face).tagged(Tag::Paragraph));
        Ok(())
    }

    /// How wide a verbatim line may be.
    pub fn verbatim_width(&self) -> Length {
        self.frame().width() - Length::mm(4)
    }
}

/// Around verbatim lines.
const VERBATIM: Sides<Length> =
    Sides { left: Length::mm(2), top: Length::mm(1), right: Length::ZERO, bottom: Length::mm(1) };
