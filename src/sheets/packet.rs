//! Which pages each reader gets, and in which order.
//!
//! In: the masters that the sheets lay out. Out: packets with marks, names and page numbers in place.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::diag::{Diagnostic, Problem, Severity};
use crate::lesson::Version;
use crate::sheets::kinds::cover;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::mark::{self, Copy};
use crate::sheets::page::{Packet, Page};
use crate::sheets::row;
use crate::spec::{SheetKind, Sides};

/// The teacher's packet: plan, display, one master of every learner sheet for each version, key, tally. With `only`, the
/// pages of those sheets alone.
pub fn teacher(shelf: &Shelf<'_>, only: &[SheetKind]) -> Result<Packet, Vec<Diagnostic>> {
    let desk = &shelf.desk;
    const FIRST: [SheetKind; 2] = [SheetKind::Plan, SheetKind::Display];
    const LAST: [SheetKind; 2] = [SheetKind::Key, SheetKind::Tally];
    let mut pages = shelf.masters(&FIRST, only)?;
    let mut learner = shelf.masters(&LEARNER, only)?;
    // A stable sort keeps the order of the sheets within what all versions share and within each version.
    learner.sort_by_key(|page| page.version.map_or(0, |Version(version)| u32::from(version) + 1));
    pages.extend(learner);
    pages.extend(shelf.masters(&LAST, only)?);
    let title = format!("{}: teacher", desk.lesson.spec.title.value);
    let pages = (1..).zip(pages).map(|(folio, page)| {
        let copy = Copy { folio: Some(folio), ..Copy::default() };
        mark::on(page, &copy, desk.layouts, desk.family, desk.text()).map_err(|problem| vec![unplaced(problem)])
    });
    Ok(Packet { file: "teacher.pdf", title, sides: Sides::One, copies: 1, pages: pages.collect::<Result<_, _>>()? })
}

/// The substitute's packet: cover, plan, display, one of each learner sheet, keys, tally. Versioned sheets are there once,
/// as version A; the key has every version.
pub fn substitute(shelf: &Shelf<'_>) -> Result<Packet, Vec<Diagnostic>> {
    let desk = &shelf.desk;
    let others = covered(shelf)?;
    let mut pages = cover_of(desk, &others).map_err(|problem| vec![unplaced(problem)])?;
    pages.extend(others);
    let title = format!("{}: substitute", desk.lesson.spec.title.value);
    let pages = (1..).zip(pages).map(|(folio, page)| {
        let copy = Copy { folio: Some(folio), ..Copy::default() };
        mark::on(page, &copy, desk.layouts, desk.family, desk.text()).map_err(|problem| vec![unplaced(problem)])
    });
    Ok(Packet { file: "substitute.pdf", title, sides: Sides::One, copies: 1, pages: pages.collect::<Result<_, _>>()? })
}

/// The cover by itself, with the page numbers of the packet that it leads.
pub fn cover_only(shelf: &Shelf<'_>) -> Result<Packet, Vec<Diagnostic>> {
    let mut packet = substitute(shelf)?;
    packet.pages.retain(|page| page.sheet == SheetKind::Cover);
    Ok(packet)
}

/// The pages that follow the substitute's cover.
fn covered(shelf: &Shelf<'_>) -> Result<Vec<Page>, Vec<Diagnostic>> {
    let mut pages = shelf.masters(&[SheetKind::Plan, SheetKind::Display], &[])?;
    let learner = shelf.masters(&LEARNER, &[])?;
    pages.extend(learner.into_iter().filter(|page| page.version.is_none_or(|version| version == Version(0))));
    pages.extend(shelf.masters(&[SheetKind::Key, SheetKind::Tally], &[])?);
    Ok(pages)
}

fn cover_of(desk: &Desk<'_>, others: &[Page]) -> Result<Vec<Page>, Problem> {
    let entries: Vec<cover::Entry> =
        others.iter().map(|page| cover::Entry { sheet: page.sheet, name: page.name.clone() }).collect();
    cover::lay(desk, &entries)
}

/// The cover by itself, for the packet that it would lead.
pub fn cover(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let first = |wrong: Vec<Diagnostic>| {
        wrong.into_iter().next().map_or_else(|| Problem::new("the packet cannot be laid out"), |first| first.problem)
    };
    cover_of(desk, &covered(&Shelf::new(desk)).map_err(first)?)
}

/// Learner sheets in the order of the lesson.
pub const LEARNER: [SheetKind; 8] = [
    SheetKind::Mat,
    SheetKind::Blocks,
    SheetKind::Layered,
    SheetKind::Record,
    SheetKind::WordBank,
    SheetKind::Board,
    SheetKind::Strips,
    SheetKind::Exit,
];

/// The masters of a lesson: packets share them, and each sheet is laid out once.
#[derive(Debug)]
pub struct Shelf<'a> {
    /// What they are laid out on.
    pub desk: Desk<'a>,
    laid: RefCell<BTreeMap<SheetKind, Vec<Page>>>,
}

impl<'a> Shelf<'a> {
    /// An empty shelf: sheets are laid out when they are first asked for.
    pub fn new(desk: &Desk<'a>) -> Self {
        Self { desk: desk.clone(), laid: RefCell::default() }
    }

    /// The masters of those of `kinds` that the lesson asks for, or `only` names, and that can be made.
    pub fn masters(&self, kinds: &[SheetKind], only: &[SheetKind]) -> Result<Vec<Page>, Vec<Diagnostic>> {
        let asked = &self.desk.lesson.spec.sheets.make.value;
        let mut pages = Vec::new();
        let mut wrong = Vec::new();
        for &kind in kinds {
            let listed = !kind.is_asked_for() || asked.contains(&kind);
            let wanted = if only.is_empty() { listed } else { only.contains(&kind) };
            let Some(made) = row(kind).made.filter(|_| wanted) else { continue };
            let laid = self.laid.borrow().get(&kind).cloned();
            match laid.map_or_else(|| (made.lay)(&self.desk), Ok) {
                Ok(made) => {
                    pages.extend(made.iter().cloned());
                    self.laid.borrow_mut().insert(kind, made);
                }
                Err(mut problem) => {
                    problem.message = format!("the sheet `{}` cannot be laid out: {}", kind.word(), problem.message);
                    wrong.push(unplaced(problem));
                }
            }
        }
        if wrong.is_empty() { Ok(pages) } else { Err(wrong) }
    }
}

/// A problem that no place in a file is to blame for.
fn unplaced(problem: Problem) -> Diagnostic {
    Diagnostic { severity: Severity::Error, place: None, problem, related: Vec::new() }
}
