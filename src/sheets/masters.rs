//! The masters of a lesson, each sheet laid out once: packets and copies share them.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::diag::Diagnostic;
use crate::lesson::job::JobFacts;
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
    facts: RefCell<Option<JobFacts>>,
}

impl<'a> Masters<'a> {
    /// None yet.
    pub fn new(desk: &Desk<'a>) -> Self {
        Self { desk: desk.clone(), laid: RefCell::default(), facts: RefCell::default() }
    }

    /// Hands over what sheets for grown-ups say of the copies: before it is known none of them can be laid out.
    pub fn know(&self, facts: JobFacts) {
        *self.facts.borrow_mut() = Some(facts);
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
            if !wanted {
                continue;
            }
            let laid = self.laid.borrow().get(&kind).cloned();
            let lay = || match (row(kind).lay, self.facts.borrow().as_ref()) {
                (Lay::Masters(lay), _) => lay(&self.desk),
                (Lay::Plan(lay), Some(facts)) => lay(&self.desk, facts),
                (Lay::Plan(_) | Lay::Cover(_) | Lay::Ticket(_), _) => Ok(Vec::new()),
            };
            match laid.map_or_else(lay, Ok) {
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
