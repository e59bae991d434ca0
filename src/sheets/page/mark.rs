//! The layer that tells one copy of a page from another.
//!
//! In: a page whose layers leave room with [`Mark`]s. Out: the page with one more layer, small and all its own, over
//! layers that are shared with every other copy. A name that is too long is set smaller, then cut short with an ellipsis.

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::Version;
use crate::measure::{Family, Length, Point, Rect, Size};
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layouts;
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Layer, Mark, Node, Page, Reader, Says, Text};
use crate::spec::TextSize;

/// What tells this copy apart.
#[derive(Debug, Clone, Copy, Default)]
pub struct Copy<'a> {
    /// The learner, counted from 1; none on a master.
    pub learner: Option<u32>,
    /// The learner's name; empty where the roster has none.
    pub name: &'a str,
    /// The page's number in its packet, where pages are counted.
    pub folio: Option<usize>,
}

/// Adds the copy's own layer to a master.
pub fn on(page: Page, copy: &Copy<'_>, layouts: &Layouts, family: &Family, size: TextSize) -> Result<Page, Problem> {
    let mut page = Page { learner: copy.learner, ..page };
    let mut pen = Pen::new(page.version, copy, layouts, family, size);
    let mut marks = page.layers.iter().flat_map(|layer| &layer.marks);
    pen.nameless = !marks.any(|mark| matches!(mark.says, Says::Name | Says::Owner));
    let mut nodes = Vec::new();
    for mark in page.layers.iter().flat_map(|layer| &layer.marks) {
        nodes.extend(pen.fill(mark)?);
    }
    if !nodes.is_empty() {
        page.layers.push(Arc::new(Layer { nodes, ..Layer::default() }));
    }
    Ok(page)
}

/// Fills marks of one copy. Marks of one kind and size look the same: they are measured once.
#[derive(Debug)]
pub struct Pen<'a> {
    copy: &'a Copy<'a>,
    code: String,
    folio: String,
    layouts: &'a Layouts,
    family: &'a Family,
    size: TextSize,
    /// Whether the page has no room of its own for a name, so that it goes with the code.
    nameless: bool,
    /// What was set already, in a frame whose top left corner is the origin.
    done: Vec<(Says, Size, Vec<Text>)>,
}

impl<'a> Pen<'a> {
    /// A pen for a copy of a version's page.
    pub fn new(
        version: Option<Version>,
        copy: &'a Copy<'a>,
        layouts: &'a Layouts,
        family: &'a Family,
        size: TextSize,
    ) -> Self {
        let code = match (version, copy.learner) {
            (Some(version), Some(learner)) => format!("{version} \u{b7} {learner}"),
            (Some(version), None) => version.to_string(),
            (None, Some(learner)) => learner.to_string(),
            (None, None) => String::new(),
        };
        let folio = copy.folio.map(|folio| folio.to_string()).unwrap_or_default();
        Self { copy, code, folio, layouts, family, size, nameless: false, done: Vec::new() }
    }

    /// What a mark says on this copy, in its place; nothing where there is nothing to say.
    pub fn fill(&mut self, mark: &Mark) -> Result<Option<Node>, Problem> {
        let size = mark.frame.size();
        let known = self.done.iter().position(|(says, room, _)| (*says, *room) == (mark.says, size));
        let at = if let Some(at) = known {
            at
        } else {
            let lines = self.set(mark.says, size)?;
            self.done.push((mark.says, size, lines));
            self.done.len() - 1
        };
        let origin = mark.frame.origin();
        let moved =
            |text: &Text| Item::Text(Text { at: text.at.moved(origin.x, origin.y), frame: mark.frame, ..text.clone() });
        let items: Vec<Item> = self.done[at].2.iter().map(moved).collect();
        Ok((!items.is_empty()).then_some(Node::Artifact(items)))
    }

    /// What a kind of mark says, in a frame of this size.
    fn set(&self, says: Says, room: Size) -> Result<Vec<Text>, Problem> {
        let both;
        let (text, name, across) = match says {
            Says::Code if self.nameless && !self.copy.name.is_empty() => {
                both = format!("{} \u{b7} {}", self.code, self.copy.name);
                (&*both, "code", Across::Right)
            }
            Says::Code => (&*self.code, "code", Across::Right),
            Says::Piece => (&*self.code, "piece", Across::Right),
            Says::Name => (self.copy.name, "name", Across::Left),
            Says::Owner => (self.copy.name, "foot", Across::Right),
            Says::Folio => (&*self.folio, "foot", Across::Right),
        };
        if text.is_empty() {
            return Ok(Vec::new());
        }
        let face = self.layouts.page().face(name, self.size)?;
        let down = if matches!(says, Says::Code | Says::Owner) { Down::Middle } else { Down::Bottom };
        let frame = Rect::new(Point::ORIGIN, room);
        let align = Align { across, down };
        if matches!(says, Says::Name | Says::Owner) || (says == Says::Code && self.nameless) {
            // A name is the learner's own: it may be smaller than the page's other text.
            let face = Face { reader: Reader::Staff, ..face };
            let (text, size) = fitted(self.family, text, room, &face)?;
            return Ok(text::set(self.family, &text, frame, &face.at(size), align)?.lines);
        }
        let face = if matches!(says, Says::Folio | Says::Piece) { face.painted(ink::QUIET) } else { face };
        Ok(text::set(self.family, text, frame, &face, align)?.lines)
    }
}

/// One line of text as it goes into `room`: at the largest size from the face's preferred one down to the least for grown-ups
/// at which it fits, and otherwise cut short at that least size. Fails when not even one letter fits.
pub fn fitted(family: &Family, text: &str, room: Size, face: &Face) -> Result<(String, Length), Problem> {
    let font = family.font(face.weight);
    let high = |size: Length| font.cap_height(size) + font.below(size);
    let mut size = face.size;
    while size > ink::SMALLEST && (font.width(text, size) > room.width || high(size) > room.height) {
        size = (size - Length::pt100(50)).max(ink::SMALLEST);
    }
    let cut = shortened(family, text, room.width, &face.at(size));
    if cut.is_empty() && !text.is_empty() {
        return Err(Problem::new(format!("a name does not fit into {}", room.width))
            .hint("leave more room for names in the layout of pages"));
    }
    Ok((cut, size))
}

/// One line of text no wider than `width` at the face's preferred size: whole, or its beginning with an ellipsis. Empty when
/// not even one letter fits.
pub fn shortened(family: &Family, text: &str, width: Length, face: &Face) -> String {
    let font = family.font(face.weight);
    if font.width(text, face.size) <= width {
        return text.to_owned();
    }
    let dots = if font.glyph('\u{2026}').is_some() { "\u{2026}" } else { "..." };
    let mut kept = String::new();
    for letter in text.chars() {
        kept.push(letter);
        if font.width(&kept, face.size) + font.width(dots, face.size) > width {
            kept.pop();
            break;
        }
    }
    let kept = kept.trim_end();
    if kept.is_empty() { String::new() } else { format!("{kept}{dots}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Weight;
    use crate::measure::fonts::{Bundled, bundled};
    use crate::sheets::page::Paint;

    fn face() -> Face {
        let (size, least) = (Length::pt(14), Length::pt(14));
        Face { weight: Weight::Regular, paint: Paint::BLACK, reader: Reader::Learner, size, least, leading: 120 }
    }

    #[test]
    fn a_long_name_is_set_smaller_then_cut_short() {
        let family = bundled(Bundled::Andika).unwrap();
        let room = Size::new(Length::mm(40), Length::mm(8));
        let fit = |name: &str| fitted(&family, name, room, &face()).unwrap();
        assert_eq!(fit("Marrow"), ("Marrow".to_owned(), Length::pt(14)));
        let (name, size) = fit("Bartholomew Quillfeather");
        assert!(
            name == "Bartholomew Quillfeather" && size < Length::pt(14) && size >= Length::pt(9),
            "{name} {size:?}"
        );
        let (name, size) = fit(&"Quillfeather ".repeat(25));
        assert!(name.starts_with("Quillfeather") && name.ends_with('\u{2026}') && size == Length::pt(9), "{name}");
        assert!(family.regular.width(&name, size) <= room.width);
        assert!(fitted(&family, "Wren", Size::new(Length::mm(1), Length::mm(8)), &face()).is_err());
    }
}
