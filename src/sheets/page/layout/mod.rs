//! How a sheet is arranged: its layout file, read and checked.
//!
//! In: the layouts compiled in from `layouts/`, and texts that override them. Out: [`Layouts`]. The bundled layout of a
//! sheet says which names it has under `[type]`, `[length]` and `[count]`; an override gives any of them another value and
//! keeps the rest. `layouts/README.md` describes the format.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use crate::diag::{Diagnostic, Problem, Source};
use crate::measure::{Length, Weight};
use crate::sheets::page::grid::Limits;
use crate::sheets::page::ink;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Reader, Stock, Stroke};
use crate::spec::{SheetKind, TextSize};

/// The least type size, whatever a layout says: 14 pt for learners, 24 pt in large text, 9 pt for everyone else.
pub const fn least(reader: Reader, text: TextSize) -> Length {
    match (reader, text) {
        (Reader::Learner, TextSize::Standard) => Length::pt(14),
        (Reader::Learner, TextSize::Large) => Length::pt(24),
        (Reader::Staff, _) => Length::pt(9),
    }
}

/// Which way a page is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Turn {
    /// Shorter side across.
    Portrait,
    /// Longer side across.
    Landscape,
}

/// One sheet's layout.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// What the sheet is printed on.
    pub stock: Stock,
    /// Which ways it may be held, the preferred one first.
    pub turns: Vec<Turn>,
    /// Between the edge of the printable area and what is drawn.
    pub inset: Length,
    /// Between the edge of a box or piece and its content.
    pub padding: Length,
    /// Which grids are allowed, and what is between the cells.
    pub grid: Limits,
    /// The pen for cuts.
    pub cut: Stroke,
    faces: BTreeMap<String, Sizes>,
    lengths: BTreeMap<String, Length>,
    counts: BTreeMap<String, u32>,
}

/// A kind of text on a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Sizes {
    reader: Reader,
    weight: Weight,
    leading: i64,
    /// Preferred and least size, standard and large text.
    standard: (Length, Length),
    large: (Length, Length),
}

impl Layout {
    /// The face called `name` under `[type]`, at the sizes for this text size. Fails when the bundled layout lacks it.
    pub fn face(&self, name: &str, text: TextSize) -> Result<Face, Problem> {
        let sizes = self.faces.get(name).ok_or_else(|| missing("type", name))?;
        let (size, least) = match text {
            TextSize::Standard => sizes.standard,
            TextSize::Large => sizes.large,
        };
        let (weight, reader, leading) = (sizes.weight, sizes.reader, sizes.leading);
        Ok(Face { weight, paint: ink::TEXT, reader, size, least, leading })
    }

    /// The length called `name` under `[length]`. Fails when the bundled layout lacks it.
    pub fn length(&self, name: &str) -> Result<Length, Problem> {
        self.lengths.get(name).copied().ok_or_else(|| missing("length", name))
    }

    /// The whole number called `name` under `[count]`. Fails when the bundled layout lacks it.
    pub fn count(&self, name: &str) -> Result<u32, Problem> {
        self.counts.get(name).copied().ok_or_else(|| missing("count", name))
    }
}

/// A name that the program asks for and the bundled layout lacks: a fault of ours, found by the test of every sheet.
fn missing(table: &str, name: &str) -> Problem {
    Problem::new(format!("internal: the bundled layout has no `{name}` under [{table}]")).hint("please report this")
}

/// The layout of every sheet.
#[derive(Debug, Clone)]
pub struct Layouts {
    page: Layout,
    /// By their place in [`SheetKind::ALL`], each read when it is first asked for, by whichever thread lays the sheet out.
    sheets: [OnceLock<Result<Layout, Problem>>; SheetKind::ALL.len()],
}

impl Layouts {
    /// The layouts compiled in, with `overrides` in place of what they give. An override is named like its sheet, such as
    /// `strips.toml`, or `page.toml` for the heading and foot of every page. Reports every mistake of every override.
    pub fn read(overrides: &[Arc<Source>]) -> Result<Self, Vec<Diagnostic>> {
        let mut layouts = Self { page: bundled("page", bundled::PAGE)?, sheets: Default::default() };
        let mut wrong = Vec::new();
        for source in overrides {
            match layouts.slot(source).and_then(|slot| Ok((file::read(source, Some(&*slot))?, slot))) {
                Ok((layout, slot)) => *slot = layout,
                Err(found) => wrong.extend(found),
            }
        }
        if wrong.is_empty() { Ok(layouts) } else { Err(wrong) }
    }

    /// The layout that a file overrides, by its name.
    fn slot(&mut self, source: &Arc<Source>) -> Result<&mut Layout, Vec<Diagnostic>> {
        let file = source.name.rsplit(['/', '\\']).next().unwrap_or("");
        let stem = file.strip_suffix(".toml").unwrap_or(file);
        if stem == "page" {
            return Ok(&mut self.page);
        }
        let Some(kind) = SheetKind::ALL.into_iter().find(|kind| kind.word() == stem) else {
            let expected = format!("expected page.toml, or one of {} with .toml", words(SheetKind::ALL.iter()));
            let problem = Problem::new(format!("`{file}` is not named after a sheet")).hint(expected);
            return Err(vec![problem.at(source, 0..0)]);
        };
        self.of(kind).map_err(|problem| vec![problem.unplaced()])?;
        match self.sheets[kind as usize].get_mut() {
            Some(Ok(layout)) => Ok(layout),
            Some(Err(_)) | None => Err(vec![missing("sheets", stem).unplaced()]),
        }
    }

    /// The layout of a sheet; fails only by a fault of ours, as every sheet has one.
    pub fn of(&self, kind: SheetKind) -> Result<&Layout, Problem> {
        let read = || {
            let wrong = |found: Vec<Diagnostic>| found.into_iter().next().map(|first| first.problem);
            bundled(kind.word(), bundled::of(kind))
                .map_err(|found| wrong(found).unwrap_or_else(|| missing("sheets", kind.word())))
        };
        self.sheets[kind as usize].get_or_init(read).as_ref().map_err(Clone::clone)
    }

    /// What all pages share: heading and foot.
    pub fn page(&self) -> &Layout {
        &self.page
    }
}

/// A layout that is compiled in.
fn bundled(word: &str, text: &str) -> Result<Layout, Vec<Diagnostic>> {
    let name = format!("layouts/{word}.toml");
    file::read(&Arc::new(Source { name, text: text.to_owned() }), None)
}

/// Sheets in words.
fn words<'a>(kinds: impl Iterator<Item = &'a SheetKind>) -> String {
    kinds.map(|kind| kind.word()).collect::<Vec<_>>().join(", ")
}

mod bundled;
mod file;
