//! The masters of a lesson, each sheet laid out once: packets and copies share them.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::diag::Diagnostic;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::sheets::{Lay, row};
use crate::spec::SheetKind;

/// The masters of a lesson: laid out when they are first asked for.
#[derive(Debug)]
pub struct Masters<'a> {
    /// What they are laid out on.
    pub desk: Desk<'a>,
    laid: RefCell<BTreeMap<SheetKind, Vec<Page>>>,
}

impl<'a> Masters<'a> {
    /// None yet.
    pub fn new(desk: &Desk<'a>) -> Self {
        Self { desk: desk.clone(), laid: RefCell::default() }
    }

    /// The masters of those of `kinds` that the lesson asks for, or that `only` names. Reports every sheet
    /// that does not fit.
    pub fn of(
        &self,
        kinds: impl IntoIterator<Item = SheetKind>,
        only: &[SheetKind],
    ) -> Result<Vec<Page>, Vec<Diagnostic>> {
        let asked = &self.desk.lesson.spec.sheets.make.value;
        let mut pages = Vec::new();
        let mut wrong = Vec::new();
        for kind in kinds {
            let listed = !kind.is_asked_for() || asked.contains(&kind);
            let wanted = if only.is_empty() { listed } else { only.contains(&kind) };
            let Lay::Masters(lay) = row(kind).lay else { continue };
            if !wanted {
                continue;
            }
            let laid = self.laid.borrow().get(&kind).cloned();
            match laid.map_or_else(|| lay(&self.desk), Ok) {
                Ok(made) => {
                    pages.extend(made.iter().cloned());
                    self.laid.borrow_mut().insert(kind, made);
                }
                Err(mut problem) => {
                    problem.message = format!("the sheet `{}` cannot be laid out: {}", kind.word(), problem.message);
                    wrong.push(problem.unplaced());
                }
            }
        }
        if wrong.is_empty() { Ok(pages) } else { Err(wrong) }
    }
}
