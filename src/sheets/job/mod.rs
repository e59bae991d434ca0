//! Everything the copy room prints for a class: one job a stock, every learner's pages in the order to print.
//!
//! In: a [`Desk`], the class and the masters of the learner sheets. Out: an [`Order`] of up to two [`Job`]s. A job makes
//! its pages one at a time, so that a class of thousands takes no more memory than a class of one; what copies have in
//! common is drawn once and shared.

pub mod backs;
pub mod deal;
mod division;
mod drawn;
pub mod facts;
mod file;
pub mod impose;
pub mod names;
mod packets;
mod piles;
mod shared;
mod stamp;

pub use file::{Job, Part};
pub use packets::Packets;
pub use piles::Piles;
pub use shared::Shared;

use crate::diag::{Diagnostic, Problem};
use crate::lesson::Version;
use crate::lesson::job::Edge;
use crate::sheets::job::deal::Seat;
use crate::sheets::job::impose::Fill;
use crate::sheets::masters::Masters;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Page, Stock};
use crate::spec::{Cut, SheetKind, Sides, limits};

/// What the copy room is asked to print for one lesson.
#[derive(Debug, Clone)]
pub struct Order<'a> {
    /// The sets, in the order of the roster, spare ones last.
    pub seats: Vec<Seat>,
    /// What becomes of the places of the last pile that no set asked for; even where nothing is stacked.
    pub fill: Fill,
    /// One for each stock that is needed, paper first.
    pub jobs: Vec<Job<'a>>,
    /// What is copied.
    pub masters: Vec<Page>,
}

/// Plans the copies of every learner sheet the lesson asks for, or of the sheets in `only` where it names any. The order has no jobs
/// when there is nothing to copy.
pub fn order<'a>(masters: &Masters<'a>, only: &[SheetKind]) -> Result<Order<'a>, Vec<Diagnostic>> {
    let pages = masters.of(crate::sheets::of_learners(), only)?;
    plan(&masters.desk, pages).map_err(|problem| vec![problem.unplaced()])
}

/// The order for masters that were laid out already.
fn plan<'a>(desk: &Desk<'a>, masters: Vec<Page>) -> Result<Order<'a>, Problem> {
    let all = masters.clone();
    let class = &desk.lesson.spec.class;
    let print = &desk.lesson.spec.print;
    let versions = u32::try_from(desk.lesson.sets.len()).unwrap_or(1).max(1);
    let (learners, mut spares) = (class.learners.value, class.spares.value);
    let stacked = print.cut.value == Cut::Stack;
    let (strips, others): (Vec<Page>, Vec<Page>) =
        masters.into_iter().partition(|page| stacked && page.sheet == SheetKind::Strips);
    let (slips, others): (Vec<Page>, Vec<Page>) = others.into_iter().partition(|page| page.sheet == SheetKind::Exit);
    let sheet = if strips.is_empty() { None } else { Some(division::Sheet::design(desk)?) };
    let stock = strips.first().map(|page| page.stock);
    let edge = |of: Stock| {
        let piled = sheet.as_ref().filter(|_| stock == Some(of)).map(division::Sheet::size);
        let first = Version(0);
        let mut mine = others.iter().filter(|page| page.stock == of && page.version.is_none_or(|v| v == first));
        let size = piled.or_else(|| mine.next().map(|page| page.size));
        size.filter(|_| print.sides.value == Sides::Two).map(Edge::of)
    };
    let shared = |stock| packets::leaves(desk, &others, stock, edge(stock));
    let (paper, card) = (shared(Stock::Paper), shared(Stock::Card));
    let mut fill = Fill::Even;
    if let Some(sheet) = &sheet {
        let sets = usize::try_from(learners.saturating_add(spares)).unwrap_or(usize::MAX);
        let own = paper.most() + card.most();
        fill = impose::fill(sets, sheet.places(), piles::longest(desk.lesson), own);
        if let Fill::Spares(more) = fill {
            spares += u32::try_from(more).unwrap_or(0);
        }
    }
    let seats = deal::deal(learners, spares, versions);
    let mut jobs = Vec::new();
    for (stock_of, leaves) in [(Stock::Paper, paper), (Stock::Card, card)] {
        let mut parts = Vec::new();
        let slips = Shared::plan(slips.iter().filter(|page| page.stock == stock_of).cloned().collect(), seats.len());
        let packets = Packets::plan(leaves, &seats);
        let piled = sheet.as_ref().filter(|_| stock == Some(stock_of));
        // Counted before anything is drawn for it.
        let sheets = piled.map_or(0, |sheet| piles::stacks(desk, sheet, &seats).sheets());
        let sides = if edge(stock_of).is_some() && (piled.is_some() || packets.backed()) { 2 } else { 1 };
        printable((sheets + slips.leaves() + packets.leaves()) * sides, stock_of)?;
        if let Some(sheet) = piled {
            parts.push(Part::Piles(Box::new(Piles::plan(desk, sheet, stock_of, &seats, edge(stock_of))?)));
        }
        if slips.leaves() > 0 {
            parts.push(Part::Shared(slips));
        }
        if packets.leaves() > 0 {
            parts.push(Part::Packets(packets));
        }
        jobs.extend(Job::of(desk.clone(), stock_of, &seats, parts, edge(stock_of)));
    }
    Ok(Order { seats, fill, jobs, masters: all })
}

/// Refuses more pages than one file may have.
fn printable(pages: usize, stock: Stock) -> Result<(), Problem> {
    if pages <= limits::PAGES {
        return Ok(());
    }
    let grouped = |count: usize| limits::grouped(count as u64);
    let what = format!("the copy room would have to print {} pages on {}", grouped(pages), stock.word());
    let hint = format!(
        "expected at most {} in a file; ask for fewer learners, numbers or sheets, or make several lessons",
        grouped(limits::PAGES)
    );
    Err(Problem::new(what).hint(hint))
}
