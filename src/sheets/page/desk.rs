//! What every sheet works with: the lesson, its layouts and its type, and what follows from its `[print]` table.
//!
//! A sheet is one file with one function, `lay(&Desk) -> Result<Vec<Page>, Problem>`. It makes masters: one run of pages a version (with `Page::version`
//! set) where the sheet has versions, one run in all where it has none. Copies for learners are masters with another
//! mark layer, so a sheet never draws a learner's mark itself: it leaves room with a [`Mark`](crate::sheets::page::Mark).
//!
//! The usual way: take the layout with [`Desk::layout`], a page size with [`Desk::page`], the heading and foot with
//! [`head::lay`](crate::sheets::page::head::lay) which leaves a body, divide the body with [`grid`](crate::sheets::page::grid) and set text with
//! [`Desk::set`].

use crate::diag::Problem;
use crate::lesson::{Lesson, Version};
use crate::measure::{Family, Length, Point, Rect, Sides, Size};
use crate::sheets::page::headed::Headed;
use crate::sheets::page::layout::{Layout, Layouts, Turn};
use crate::sheets::page::once::Once;
use crate::sheets::page::quotes::{Quotes, Vocabulary};
use crate::sheets::page::text::{self, Align, Face, Setting};
use crate::sheets::page::{Layer, Node, Page, Stock};
use crate::spec::{Ink, SheetKind, TextSize};

/// What every sheet works with.
#[derive(Debug, Clone)]
pub struct Desk<'a> {
    /// The lesson.
    pub lesson: &'a Lesson,
    /// How sheets are arranged.
    pub layouts: &'a Layouts,
    /// The typeface.
    pub family: &'a Family,
    /// What sheets share, by what it is.
    shared: [Once; 3],
}

/// What several sheets need and one of them works out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OnceFor {
    /// How large strips and boxes are: board, strips and piles.
    Strips,
    /// How slips of quick checks are arranged: the checks, and whoever says how many questions they ask.
    Slips,
    /// Which words sentences may quote in the second language: every page.
    Quotes,
}

impl<'a> Desk<'a> {
    /// A desk for a lesson.
    pub fn new(lesson: &'a Lesson, layouts: &'a Layouts, family: &'a Family) -> Self {
        Self { lesson, layouts, family, shared: Default::default() }
    }

    /// What sheets of this desk share, worked out by the first that asks.
    pub fn once<T: Send + Sync + 'static>(
        &self,
        what: OnceFor,
        work: fn(&Self) -> Result<T, Problem>,
    ) -> Result<&T, Problem> {
        self.shared[what as usize].get(|| work(self))
    }

    /// The sheet's layout.
    pub fn layout(&self, kind: SheetKind) -> Result<&'a Layout, Problem> {
        self.layouts.of(kind)
    }

    /// Standard or large text.
    pub fn text(&self) -> TextSize {
        self.lesson.spec.print.text.value
    }

    /// Grey or colour.
    pub fn ink(&self) -> Ink {
        self.lesson.spec.print.ink.value
    }

    /// The lesson's paper, held this way.
    pub fn page(&self, turn: Turn) -> Size {
        let size = self.lesson.spec.paper.value.size();
        match turn {
            Turn::Portrait => size,
            Turn::Landscape => size.turned(),
        }
    }

    /// What the printer can reach on a page of this size.
    pub fn printable(&self, page: Size) -> Rect {
        Rect::new(Point::ORIGIN, page).shrunk(Sides::splat(self.lesson.spec.print.margin.value))
    }

    /// The printable area with the layout's inset taken off.
    pub fn live(&self, page: Size, layout: &Layout) -> Rect {
        self.printable(page).shrunk(Sides::splat(layout.inset))
    }

    /// The face called `name` under `[type]` of a layout, at this lesson's text size.
    pub fn face(&self, layout: &Layout, name: &str) -> Result<Face, Problem> {
        layout.face(name, self.text())
    }

    /// Sets text into a frame (a box with its padding taken off); see [`text::set`].
    pub fn set(&self, text: &str, frame: Rect, face: &Face, align: Align) -> Result<Setting, Problem> {
        text::set(self.family, text, frame, face, align)
    }

    /// How wide a line is at the face's preferred size.
    pub fn width(&self, text: &str, face: &Face) -> Length {
        self.family.font(face.weight).width(text, face.size)
    }

    /// A finished page: heading and foot first, then what the sheet drew.
    pub fn finish(&self, kind: SheetKind, page: Size, stock: Stock, headed: Headed, body: Layer) -> Page {
        let Headed { nodes, foot, marks, .. } = headed;
        let Layer { nodes: body_nodes, pieces, cuts, snips, boxes, marks: body_marks } = body;
        let nodes = self.quoting(nodes.into_iter().chain(body_nodes).chain([foot]).collect());
        let marks = marks.into_iter().chain(body_marks).collect();
        let layer = Layer { nodes, pieces, cuts, snips, boxes, marks };
        Page {
            size: page,
            sheet: kind,
            version: None,
            learner: None,
            stock,
            name: self.lesson.wording().page_name(kind, None),
            layers: vec![layer.into()],
        }
    }

    /// Nodes of a page, with what they quote in the second language marked as that.
    fn quoting(&self, nodes: Vec<Node>) -> Vec<Node> {
        let Some(language) = self.lesson.second() else { return nodes };
        match self.once(OnceFor::Quotes, |desk| Ok(Vocabulary::of(&desk.lesson.style))) {
            Ok(vocabulary) => Quotes { vocabulary, language, family: self.family }.marked(nodes),
            Err(_) => nodes,
        }
    }

    /// The same page as one of a version's.
    pub fn versioned(&self, page: Page, version: Version) -> Page {
        let name = self.lesson.wording().page_name(page.sheet, Some(version));
        Page { version: Some(version), name, ..page }
    }

    /// The pages of each part of the class with the letters of those who get them: a master for each of its versions; of no
    /// version where the class is not parted.
    pub fn lettered<'v>(&self, parts: impl Iterator<Item = (&'v [Version], Vec<Page>)>) -> Vec<Page> {
        let mut all: Vec<Page> = Vec::new();
        for (versions, pages) in parts {
            if versions.is_empty() {
                all.extend(pages);
                continue;
            }
            for version in versions {
                all.extend(pages.iter().map(|page| self.versioned(page.clone(), *version)));
            }
        }
        all.sort_by_key(|page| page.version);
        all
    }
}
