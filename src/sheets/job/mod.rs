//! Everything the copy room prints for a class: one or two files a stock, in the order to print.
//!
//! In: a [`Desk`], the class and the masters of the learner sheets. Out: an [`Order`] of [`Job`]s. A job makes
//! its pages one at a time, so that a class of thousands takes no more memory than a class of one; what copies have in
//! common is drawn once and shared.

pub mod backs;
mod counting;
pub mod cuts;
mod draft;
pub mod facts;
mod file;
mod gang;
pub mod impose;
mod kits;
pub mod names;
mod packets;
mod parting;
mod piles;
mod runs;
mod savings;
mod settled;
mod shared;
mod stamp;
mod strip_faces;
mod strip_sheet;

pub use file::{Job, Part};

use crate::diag::{Diagnostic, Problem};
use crate::lesson::job::SaveBy;
use crate::sheets::job::counting::Counting;
use crate::sheets::job::draft::Draft;
use crate::sheets::job::settled::{SettledFile, SettledOrder};
use crate::sheets::masters::Masters;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::{SheetKind, limits};

/// What the copy room is asked to print for one lesson.
#[derive(Debug, Clone)]
pub struct Order<'a> {
    /// How many of everything there are.
    settled: SettledOrder,
    /// The files, paper first; none is empty.
    pub jobs: Vec<Job<'a>>,
    /// What is copied.
    pub masters: Vec<Page>,
    /// What the copies are counted from.
    counting: Counting<'a>,
}

impl Order<'_> {
    /// How many sheets of paper and card.
    fn sheets(&self) -> usize {
        self.jobs.iter().map(Job::leaves).sum()
    }

    /// How many there would be with a change.
    fn sheets_with(&self, by: SaveBy) -> Result<usize, Problem> {
        self.counting.sheets_with(by, &self.settled, &self.masters)
    }
}

/// Plans the copies of every learner sheet the lesson asks for, or of the sheets in `only` where it names any. The order
/// has no files when there is nothing to copy.
pub fn order<'a>(masters: &Masters<'a>, only: &[SheetKind]) -> Result<Order<'a>, Vec<Diagnostic>> {
    let pages = masters.of(crate::sheets::of_learners(), only)?;
    plan(&masters.desk, pages, only.is_empty()).map_err(|problem| vec![problem.unplaced()])
}

/// The order for masters that were laid out already; each file begins with a proof where it is `proved`.
fn plan<'a>(desk: &Desk<'a>, masters: Vec<Page>, proved: bool) -> Result<Order<'a>, Problem> {
    let suits = draft::suits(desk, &masters)?;
    let sizes = suits.iter().map(|(kind, suits)| Ok((*kind, gang::sizes(desk, suits)?)));
    let sizes = sizes.collect::<Result<Vec<_>, Problem>>()?;
    let counting = Counting::of(desk, &masters, &sizes)?;
    let settled = counting.settle()?;
    // Counted before anything is drawn for it.
    settled.files.iter().try_for_each(printable)?;
    let draft = Draft { desk, counting: &counting, seats: &settled.seats, suits: &suits };
    let mut jobs = settled.files.iter().map(|file| draft.job(file)).collect::<Result<Vec<_>, _>>()?;
    for job in jobs.iter_mut().filter(|_| proved) {
        if desk.lesson.spec.print.slip_sheets.value {
            parting::by_sheets(desk, job)?;
        }
        job.prove()?;
    }
    Ok(Order { settled, jobs, masters, counting })
}

/// Refuses more pages than one file may have.
fn printable(file: &SettledFile) -> Result<(), Problem> {
    let pages = file.leaves() * file.sides.a_sheet();
    if pages <= limits::PAGES {
        return Ok(());
    }
    let grouped = |count: usize| limits::grouped(count as u64);
    let what = format!("the copy room would have to print {} pages on {}", grouped(pages), file.stock.word());
    let hint = format!(
        "expected at most {} in a file; ask for fewer learners, numbers or sheets, or make several lessons",
        grouped(limits::PAGES)
    );
    Err(Problem::new(what).hint(hint))
}
