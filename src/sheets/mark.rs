//! The layer that tells one copy of a page from another.
//!
//! In: a page whose layers leave room with [`Mark`]s. Out: the page with one more layer, small and all its own, over
//! layers that are shared with every other copy.

use std::sync::Arc;

use super::ink;
use super::layout::Layouts;
use super::page::{Layer, Mark, Node, Page, Reader, Says};
use super::text::{self, Across, Align, Down};
use crate::diag::Problem;
use crate::measure::Family;
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
    let code = match (page.version, copy.learner) {
        (Some(version), Some(learner)) => format!("{version} \u{b7} {learner}"),
        (Some(version), None) => version.to_string(),
        (None, Some(learner)) => learner.to_string(),
        (None, None) => String::new(),
    };
    let folio = copy.folio.map(|folio| folio.to_string()).unwrap_or_default();
    let mut nodes = Vec::new();
    for mark in page.layers.iter().flat_map(|layer| &layer.marks) {
        let (text, name, across) = match mark.says {
            Says::Code => (&*code, "code", Across::Right),
            Says::Piece => (&*code, "piece", Across::Right),
            Says::Name => (copy.name, "name", Across::Left),
            Says::Folio => (&*folio, "foot", Across::Right),
        };
        if !text.is_empty() {
            nodes.push(node(text, mark, layouts, family, size, name, across)?);
        }
    }
    if !nodes.is_empty() {
        page.layers.push(Arc::new(Layer { nodes, ..Layer::default() }));
    }
    Ok(page)
}

/// One mark, set.
fn node(
    text: &str,
    mark: &Mark,
    layouts: &Layouts,
    family: &Family,
    size: TextSize,
    name: &str,
    across: Across,
) -> Result<Node, Problem> {
    let mut face = layouts.page().face(name, size)?;
    if matches!(mark.says, Says::Folio | Says::Piece) {
        face = face.painted(ink::QUIET);
    }
    if mark.says == Says::Name {
        // A long name may be set smaller than the page's other text: it is the learner's own.
        face = text::Face { least: face.least.min(ink::SMALLEST), reader: Reader::Staff, ..face };
    }
    let down = if mark.says == Says::Code { Down::Middle } else { Down::Bottom };
    Ok(text::set(family, text, mark.frame, &face, Align { across, down })?.artifact())
}
