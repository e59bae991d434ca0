//! Which pages each reader gets, and in which order.
//!
//! In: the masters that the sheets lay out. Out: packets with marks, names and page numbers in place.

use super::desk::Desk;
use super::mark::{self, Copy};
use super::page::{Packet, Page};
use super::row;
use crate::diag::{Diagnostic, Severity};
use crate::lesson::Version;
use crate::spec::{SheetKind, Sides};

/// The teacher's packet: plan, display, one master of every learner sheet for each version, key, tally. With `only`, the
/// pages of that sheet alone.
pub fn teacher(desk: &Desk<'_>, only: Option<SheetKind>) -> Result<Packet, Vec<Diagnostic>> {
    const FIRST: [SheetKind; 2] = [SheetKind::Plan, SheetKind::Display];
    const LAST: [SheetKind; 2] = [SheetKind::Key, SheetKind::Tally];
    let mut pages = masters(desk, &FIRST, only)?;
    let mut learner = masters(desk, &LEARNER, only)?;
    // A stable sort keeps the order of the sheets within what all versions share and within each version.
    learner.sort_by_key(|page| page.version.map_or(0, |Version(version)| u32::from(version) + 1));
    pages.extend(learner);
    pages.extend(masters(desk, &LAST, only)?);
    let title = format!("{}: teacher", desk.lesson.spec.title.value);
    let pages = (1..).zip(pages).map(|(folio, page)| {
        let copy = Copy { folio: Some(folio), ..Copy::default() };
        mark::on(page, &copy, desk.layouts, desk.family, desk.text()).map_err(|problem| vec![unplaced(problem)])
    });
    Ok(Packet { file: "teacher.pdf", title, sides: Sides::One, copies: 1, pages: pages.collect::<Result<_, _>>()? })
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

/// The masters of those of `kinds` that the lesson asks for and that can be made.
pub fn masters(desk: &Desk<'_>, kinds: &[SheetKind], only: Option<SheetKind>) -> Result<Vec<Page>, Vec<Diagnostic>> {
    let asked = &desk.lesson.spec.sheets.make.value;
    let mut pages = Vec::new();
    let mut wrong = Vec::new();
    for &kind in kinds {
        let wanted = only.map_or(!kind.is_asked_for() || asked.contains(&kind), |only| only == kind);
        let Some(made) = row(kind).made.filter(|_| wanted) else { continue };
        match (made.lay)(desk) {
            Ok(made) => pages.extend(made),
            Err(mut problem) => {
                problem.message = format!("the sheet `{}` cannot be laid out: {}", kind.word(), problem.message);
                wrong.push(unplaced(problem));
            }
        }
    }
    if wrong.is_empty() { Ok(pages) } else { Err(wrong) }
}

/// A problem that no place in a file is to blame for.
fn unplaced(problem: crate::diag::Problem) -> Diagnostic {
    Diagnostic { severity: Severity::Error, place: None, problem, related: Vec::new() }
}
