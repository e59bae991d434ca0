//! The layer that tells one copy of a page from another.
//!
//! In: a page whose layers leave room with [`Mark`]s. Out: the page with one more layer, small and all its own, over
//! layers that are shared with every other copy.

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::Version;
use crate::measure::{Count as _, Family, Length, Point, Rect, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layouts;
use crate::sheets::page::name;
use crate::sheets::page::text::{self, Across, Align, Down};
use crate::sheets::page::{Item, Layer, Mark, Node, Page, Says, Text};
use crate::spec::{Cut, TextSize};

/// What tells this copy apart.
#[derive(Debug, Clone, Copy, Default)]
pub struct Copy<'a> {
    /// The learner, counted from 1; none on a master.
    pub learner: Option<u32>,
    /// The kit, counted from 1, of a page that is kept for other lessons.
    pub kit: Option<u32>,
    /// The learner's name; empty where the roster has none.
    pub name: &'a str,
    /// The page's number in its packet, where pages are counted.
    pub folio: Option<usize>,
    /// How many pages the packet has, where loose pages must not be lost.
    pub of: Option<usize>,
}

/// How many digits the numbers of sets have where there are so many spare ones: those that fill the last pile up have room
/// too, which are fewer than a set has pieces.
pub fn digits(desk: &Desk<'_>, spares: u32) -> usize {
    let lesson = desk.lesson;
    let longest = lesson.sets.iter().map(|set| set.strips.len()).max().unwrap_or(0);
    let filling = if lesson.spec.print.cut.value == Cut::Stack { longest } else { 0 };
    let more = filling.max(lesson.sets.len()).narrow();
    lesson.spec.class.learners.value.saturating_add(spares).saturating_add(more).to_string().len()
}

/// The room for the mark of any piece of the lesson: a line of it, and the widest of them with so many spare sets.
pub fn piece_size(desk: &Desk<'_>, spares: u32) -> Result<Size, Problem> {
    let face = desk.face(desk.layouts.page(), "piece")?;
    let digits = digits(desk, spares);
    let versions = desk.lesson.sets.iter().map(|set| set.version);
    let marks = versions.flat_map(|version| ('0'..='9').map(move |digit| (version, digit.to_string().repeat(digits))));
    let wide = marks.map(|(version, number)| desk.width(&piece_code(version, &number), &face)).max();
    // The ink of a last letter may reach a little beyond its width.
    Ok(Size::new(wide.unwrap_or(Length::ZERO) + Length::mm100(50), face.pitch()))
}

/// What tells a learner's piece from others.
fn piece_code(version: Version, learner: &str) -> String {
    format!("{version} \u{b7} {learner}")
}

/// Adds the copy's own layer to a master.
pub fn on(desk: &Desk<'_>, page: Page, copy: &Copy<'_>) -> Result<Page, Problem> {
    let mut page = Page { learner: copy.learner, ..page };
    let mut pen = Pen::new(desk, page.version, copy);
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
    pub fn new(desk: &Desk<'a>, version: Option<Version>, copy: &'a Copy<'a>) -> Self {
        let code = match (version, copy.learner) {
            _ if copy.kit.is_some() => copy.kit.map(|kit| desk.lesson.wording().kit_code(kit)).unwrap_or_default(),
            (Some(version), Some(learner)) => piece_code(version, &learner.to_string()),
            (Some(version), None) => version.to_string(),
            (None, Some(learner)) => learner.to_string(),
            (None, None) => String::new(),
        };
        let folio = match (copy.folio, copy.of) {
            (Some(folio), Some(of)) => format!("{folio}/{of}"),
            (Some(folio), None) => folio.to_string(),
            (None, _) => String::new(),
        };
        let (layouts, family, size) = (desk.layouts, desk.family, desk.text());
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
        let (text, kind, across) = match says {
            Says::Code if self.nameless && !self.copy.name.is_empty() => {
                both = format!("{} \u{b7} {}", self.code, self.copy.name);
                (&*both, "code", Across::Right)
            }
            Says::Code => (&*self.code, "code", Across::Right),
            Says::Piece => (&*self.code, "piece", Across::Right),
            Says::Name => (self.copy.name, "name", Across::Left),
            Says::Owner => (self.copy.name, "name", Across::Right),
            Says::Folio => (&*self.folio, "foot", Across::Right),
        };
        if text.is_empty() {
            return Ok(Vec::new());
        }
        let face = self.layouts.page().face(kind, self.size)?;
        let down = if matches!(says, Says::Code | Says::Owner) { Down::Middle } else { Down::Bottom };
        let frame = Rect::new(Point::ORIGIN, room);
        let align = Align { across, down };
        if matches!(says, Says::Name | Says::Owner) || (says == Says::Code && self.nameless) {
            let number = self.copy.learner.filter(|_| says != Says::Code);
            return Ok(name::set(self.family, text, number, frame, &face, align).lines);
        }
        let face = if matches!(says, Says::Folio | Says::Piece) { face.painted(ink::QUIET) } else { face };
        Ok(text::set(self.family, text, frame, &face, align)?.lines)
    }
}
