//! Words in two languages on one page: where they stand, and how a listener is told which is which.
//!
//! What is in another language than the file is in an element that names it (ISO 32000-1, 14.9.2; WCAG 2.2, 3.1.2).

use std::sync::Arc;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size};
use crate::number::Form;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::{Across, Align, Down, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Tag};
use crate::spec::Language;

/// Between the words of one language and those of the other: room for a line that parts them, since each may take several
/// lines.
const BETWEEN: Length = Length::mm(2);
/// The room of each language: the first above, the second below it, so far apart.
pub fn parted(room: Rect, between: Length) -> [Rect; 2] {
    let size = Size::new(room.width(), (room.height() - between).max(Length::ZERO).half());
    [room.origin(), Point::new(room.left(), room.bottom() - size.height)].map(|origin| Rect::new(origin, size))
}

/// How large the room of each language is on a piece with both.
pub fn half(room: Size) -> Size {
    parted(Rect::new(Point::ORIGIN, room), BETWEEN)[0].size()
}

/// Content in a language: marked where that is not the file's.
pub fn within(language: Option<Language>, nodes: Vec<Node>) -> Vec<Node> {
    match language {
        Some(language) => vec![Node::Tagged(Tag::Span(language), nodes)],
        None => nodes,
    }
}

/// A page that is all in a language other than the file's.
pub fn passage(page: Page, language: Language) -> Page {
    let within = |layer: Arc<Layer>| {
        let layer = Arc::unwrap_or_clone(layer);
        let nodes = vec![Node::Tagged(Tag::Passage(language), layer.nodes)];
        Arc::new(Layer { nodes, ..layer })
    };
    Page { layers: page.layers.into_iter().map(within).collect(), ..page }
}

impl Desk<'_> {
    /// Words in both languages, one below the other, as near to each other as they can be.
    pub fn both(&self, texts: &[String; 2], room: Rect, face: &Face) -> Result<Vec<Node>, Problem> {
        let mut nodes = Vec::new();
        let sides = [(None, Down::Bottom), (self.lesson.second(), Down::Top)];
        for ((text, frame), (language, down)) in texts.iter().zip(parted(room, BETWEEN)).zip(sides) {
            let set = self.set(text, frame, face, Align { across: Across::Centre, down })?;
            nodes.extend(within(language, set.nodes()));
        }
        // From side to side: a short line would be read as that of a fraction.
        let (middle, reach) = (room.centre(), room.width().half());
        let (from, to) = (middle.moved(-reach, Length::ZERO), middle.moved(reach, Length::ZERO));
        nodes.push(Node::artifact(Item::Line { from, to, stroke: ink::FINE }));
        Ok(nodes)
    }

    /// The language of a form's words, where it is not the file's.
    pub fn language(&self, form: Form) -> Option<Language> {
        self.lesson.second().filter(|_| form == Form::SecondWords)
    }

    /// What shows a number in a form, with its language.
    pub fn spoken(&self, form: Form, node: Node) -> Node {
        match (self.language(form), node) {
            (Some(language), Node::Tagged(tag, nodes)) => Node::Tagged(tag, within(Some(language), nodes)),
            (language @ Some(_), node) => Node::tagged(Tag::Section, within(language, vec![node])),
            (None, node) => node,
        }
    }
}
