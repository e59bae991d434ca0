//! The masters of a lesson, each sheet laid out once: packets and copies share them.

use std::sync::OnceLock;
use std::thread;

use crate::diag::{Diagnostic, Problem};
use crate::lesson::job::JobFacts;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::sheets::{Lay, row};
use crate::spec::SheetKind;

/// The masters of a lesson: laid out when they are first asked for, by whichever thread asks.
#[derive(Debug)]
pub struct Masters<'a> {
    /// What they are laid out on.
    pub desk: Desk<'a>,
    /// By their place in [`SheetKind::ALL`].
    laid: [OnceLock<Result<Vec<Page>, Problem>>; SheetKind::ALL.len()],
    facts: OnceLock<JobFacts>,
}

impl<'a> Masters<'a> {
    /// None yet.
    pub fn new(desk: &Desk<'a>) -> Self {
        Self { desk: desk.clone(), laid: Default::default(), facts: OnceLock::new() }
    }

    /// Hands over what sheets for grown-ups say of the copies: before it is known none of them can be laid out.
    pub fn know(&self, facts: JobFacts) {
        // Whoever made the first order knows them.
        let _ = self.facts.set(facts);
    }

    /// Does some work while another thread lays out what it will ask for, from the other end, so that the two meet only once.
    pub fn ahead<T>(&self, only: &[SheetKind], work: impl FnOnce() -> T) -> T {
        thread::scope(|scope| {
            scope.spawn(|| {
                let alone = |kind: &SheetKind| matches!(row(*kind).lay, Lay::Masters(_)) && self.is_wanted(*kind, only);
                for kind in SheetKind::ALL.into_iter().rev().filter(alone) {
                    // What does not fit is told when it is asked for.
                    let _ = self.lay(kind);
                }
            });
            work()
        })
    }

    /// The masters of those of `kinds` that the lesson asks for, or that `only` names. Reports every sheet
    /// that does not fit.
    pub fn of(
        &self,
        kinds: impl IntoIterator<Item = SheetKind>,
        only: &[SheetKind],
    ) -> Result<Vec<Page>, Vec<Diagnostic>> {
        let mut pages = Vec::new();
        let mut wrong = Vec::new();
        for kind in kinds.into_iter().filter(|kind| self.is_wanted(*kind, only)) {
            match self.lay(kind) {
                Ok(made) => pages.extend(made.iter().cloned()),
                Err(mut problem) => {
                    problem.message = format!("the sheet `{}` cannot be laid out: {}", kind.word(), problem.message);
                    wrong.push(problem.unplaced());
                }
            }
        }
        if wrong.is_empty() { Ok(pages) } else { Err(wrong) }
    }

    fn is_wanted(&self, kind: SheetKind, only: &[SheetKind]) -> bool {
        if only.is_empty() { !kind.is_asked_for() || self.desk.lesson.makes(kind) } else { only.contains(&kind) }
    }

    fn lay(&self, kind: SheetKind) -> Result<&[Page], Problem> {
        let work = || match (row(kind).lay, self.facts.get()) {
            (Lay::Masters(lay), _) => lay(&self.desk),
            (Lay::Plan(lay), Some(facts)) => lay(&self.desk, facts),
            (Lay::Plan(_) | Lay::Cover(_) | Lay::Ticket(_), _) => Ok(Vec::new()),
        };
        let laid = self.laid[kind as usize].get_or_init(work);
        laid.as_deref().map_err(Clone::clone)
    }
}
