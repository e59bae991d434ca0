//! What the end of a file has to know of its pages: the nodes of the trees, the bookmarks, the page labels.

use std::borrow::Borrow;

use super::plan::Run;
use crate::pdf::file::{DOCUMENT, Pack, STRUCTURE};
use crate::pdf::syntax::{integer, reference, references, text};
use crate::sheets::page::Page;
use crate::spec::{SheetKind, Version};
use crate::wording;

/// Collected page by page; a few bytes for a page, more for a bookmark.
#[derive(Default)]
pub struct Index {
    pages: u32,
    /// The nodes of the page tree.
    nodes: Vec<u32>,
    /// The leaves of the parent tree.
    leaves: Vec<u32>,
    /// The sections of the pages.
    sections: Vec<u32>,
    /// What the last page was, to see where something new starts.
    last: Option<(SheetKind, String, Option<u32>)>,
    bookmarks: Vec<Bookmark>,
    labels: Vec<Label>,
}

/// A line of the outline.
struct Bookmark {
    of: Marked,
    page: u32,
}

/// What a bookmark leads to.
enum Marked {
    /// The pages of a name.
    Named(String),
    /// A learner's pages, and their version. Learners go by number: names stay on the page.
    Copy(u32, Option<Version>),
}

/// Where page labels start anew.
struct Label {
    index: u32,
    learner: Option<u32>,
}

impl Index {
    /// Notes the pages of a run.
    pub fn note<P: Borrow<Page>>(&mut self, run: &Run<'_, P>) {
        self.nodes.push(run.node);
        self.leaves.push(run.leaf);
        for planned in &run.pages {
            let page = planned.page.borrow();
            self.sections.push(planned.section);
            self.pages = planned.index + 1;
            let (sheet, name, learner) = match &self.last {
                Some((sheet, name, learner)) => (Some(*sheet), name.as_str(), *learner),
                None => (None, "", None),
            };
            if sheet.is_none() || learner != page.learner {
                self.labels.push(Label { index: planned.index, learner: page.learner });
            }
            let same = sheet.is_some()
                && learner == page.learner
                && (learner.is_some() || (sheet == Some(page.sheet) && name == page.name));
            if !same {
                self.bookmarks.push(Bookmark { of: marked(page), page: planned.object });
                self.last = Some((page.sheet, page.name.clone(), page.learner));
            }
        }
    }

    /// The root of the page tree.
    pub fn pages(&self) -> Vec<u8> {
        let mut out = b"<</Type/Pages/Count ".to_vec();
        integer(&mut out, u64::from(self.pages));
        out.extend_from_slice(b"/Kids");
        references(&mut out, self.nodes.iter().copied());
        out.extend_from_slice(b">>");
        out
    }

    /// The root of the structure.
    pub fn structure(&self) -> Vec<u8> {
        let mut out = b"<</Type/StructTreeRoot/K ".to_vec();
        reference(&mut out, DOCUMENT);
        out.extend_from_slice(b"/ParentTreeNextKey ");
        integer(&mut out, u64::from(self.pages));
        out.extend_from_slice(b"/ParentTree<<");
        if self.leaves.is_empty() {
            out.extend_from_slice(b"/Nums[]");
        } else {
            out.extend_from_slice(b"/Kids");
            references(&mut out, self.leaves.iter().copied());
        }
        out.extend_from_slice(b">>>>");
        out
    }

    /// The element that holds the pages' sections.
    pub fn document(&self) -> Vec<u8> {
        let mut out = b"<</S/Document/P ".to_vec();
        reference(&mut out, STRUCTURE);
        out.extend_from_slice(b"/K");
        references(&mut out, self.sections.iter().copied());
        out.extend_from_slice(b">>");
        out
    }

    /// Adds the outline to a pack, in the language of the file; its root. None for a file with a single bookmark or none.
    pub fn outline(&self, pack: &mut Pack, language: &str) -> Option<u32> {
        if self.bookmarks.len() < 2 {
            return None;
        }
        let (root, wording) = (pack.next(), wording::tagged(language));
        let count = u32::try_from(self.bookmarks.len()).ok()?;
        let mut out = b"<</Type/Outlines/First ".to_vec();
        reference(&mut out, root + 1);
        out.extend_from_slice(b"/Last ");
        reference(&mut out, root + count);
        out.extend_from_slice(b"/Count ");
        integer(&mut out, u64::from(count));
        out.extend_from_slice(b">>");
        pack.push_bytes(&out);
        for (object, bookmark) in (root + 1..).zip(&self.bookmarks) {
            out.clear();
            out.extend_from_slice(b"<</Title");
            match &bookmark.of {
                Marked::Named(name) => text(&mut out, name),
                Marked::Copy(learner, version) => text(&mut out, &wording.copy_of(*learner, *version)),
            }
            out.extend_from_slice(b"/Parent ");
            reference(&mut out, root);
            if object > root + 1 {
                out.extend_from_slice(b"/Prev ");
                reference(&mut out, object - 1);
            }
            if object < root + count {
                out.extend_from_slice(b"/Next ");
                reference(&mut out, object + 1);
            }
            out.extend_from_slice(b"/Dest[");
            reference(&mut out, bookmark.page);
            out.extend_from_slice(b"/Fit]>>");
            pack.push_bytes(&out);
        }
        Some(root)
    }

    /// The page labels: a learner's pages count from 1 behind the learner's number (7-1, 7-2), others by their place in
    /// the file. None for a file in which every page is called by its place.
    pub fn labels(&self) -> Option<Vec<u8>> {
        if self.labels.iter().all(|label| label.learner.is_none()) {
            return None;
        }
        let mut out = b"<</Nums[".to_vec();
        for label in &self.labels {
            integer(&mut out, u64::from(label.index));
            out.extend_from_slice(b"<</S/D");
            if let Some(learner) = label.learner {
                text_prefix(&mut out, learner);
            } else if label.index > 0 {
                out.extend_from_slice(b"/St ");
                integer(&mut out, u64::from(label.index) + 1);
            }
            out.extend_from_slice(b">>");
        }
        out.extend_from_slice(b"]>>");
        Some(out)
    }
}

fn text_prefix(out: &mut Vec<u8>, learner: u32) {
    out.extend_from_slice(b"/P(");
    integer(out, u64::from(learner));
    out.extend_from_slice(b"-)");
}

/// What the bookmark of a page leads to.
fn marked(page: &Page) -> Marked {
    page.learner.map_or_else(|| Marked::Named(page.name.clone()), |learner| Marked::Copy(learner, page.version))
}
