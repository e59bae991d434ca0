//! Everything the copy room prints for a class: one or two files a stock, in the order to print.
//!
//! In: a [`Desk`], the class and the masters of the learner sheets. Out: an [`Order`] of [`Job`]s. A job makes
//! its pages one at a time, so that a class of thousands takes no more memory than a class of one; what copies have in
//! common is drawn once and shared.

pub mod backs;
pub mod cuts;
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
mod shared;
mod stamp;
mod strip_faces;
mod strip_sheet;

pub use file::{Job, Part};

use crate::diag::{Diagnostic, Problem};
use crate::lesson::deal::Seat;
use crate::lesson::job::{Edge, Fill, For, Keep, PrintSides, Stock};
use crate::measure::{Count, Size};
use crate::sheets::job::gang::Gang;
use crate::sheets::job::impose::Stacks;
use crate::sheets::job::kits::Kits;
use crate::sheets::job::packets::{Leaf, Leaves, Packets};
use crate::sheets::job::piles::Piles;
use crate::sheets::job::strip_sheet::StripSheet;
use crate::sheets::kinds::{blocks, layered};
use crate::sheets::masters::Masters;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::{Cut, SheetKind, SidesAsked, limits};

/// What the copy room is asked to print for one lesson.
#[derive(Debug, Clone)]
pub struct Order<'a> {
    /// The sets of what is used up, in the order of the roster, spare ones last.
    pub seats: Vec<Seat>,
    /// What becomes of the places of the last pile that no set asked for; even where nothing is stacked.
    pub fill: Fill,
    /// The files, paper first; none is empty.
    pub jobs: Vec<Job<'a>>,
    /// What is copied.
    pub masters: Vec<Page>,
}

/// Plans the copies of every learner sheet the lesson asks for, or of the sheets in `only` where it names any. The order
/// has no files when there is nothing to copy.
pub fn order<'a>(masters: &Masters<'a>, only: &[SheetKind]) -> Result<Order<'a>, Vec<Diagnostic>> {
    let pages = masters.of(crate::sheets::of_learners(), only)?;
    plan(&masters.desk, pages, only.is_empty()).map_err(|problem| vec![problem.unplaced()])
}

/// How many kits there are of a sheet: one for so many learners as share it. Spare sets are of what is used up.
pub fn kits(desk: &Desk<'_>, kind: SheetKind) -> u32 {
    let class = &desk.lesson.spec.class;
    class.learners.value.div_ceil(class.share(kind))
}

/// The order for masters that were laid out already; each file begins with a proof where it is `proved`.
fn plan<'a>(desk: &Desk<'a>, masters: Vec<Page>, proved: bool) -> Result<Order<'a>, Problem> {
    let spec = &desk.lesson.spec;
    let stacked = spec.print.cut.value == Cut::Stack;
    let of = |wanted: &dyn Fn(&Page) -> bool| masters.iter().filter(|page| wanted(page)).cloned().collect::<Vec<_>>();
    let piled = |page: &Page| stacked && page.sheet == SheetKind::Strips;
    let slips = of(&|page| page.sheet == SheetKind::Exit);
    let packed = of(&|page| !piled(page) && page.sheet != SheetKind::Exit && keep(page.sheet) == Keep::UsedUp);
    let strips = masters.iter().find(|page| piled(page)).map(|page| page.stock);
    let sheets = if strips.is_some() { StripSheet::designs(desk)? } else { Vec::new() };
    let edge = |stock| edge(desk, &masters, stock, sheets.first().filter(|_| strips == Some(stock)));
    let leaves = |stock| packets::leaves(desk, &packed, stock, edge(stock));

    let mut spares = spec.class.spares.value;
    let mut fill = Fill::Even;
    if let [sheet] = sheets.as_slice() {
        let sets = spec.class.learners.value.saturating_add(spares).index();
        let own = leaves(Stock::Paper).most() + leaves(Stock::Card).most();
        fill = impose::fill(sets, sheet.division.places(), piles::longest(desk.lesson), own);
        if let Fill::Spares(more) = fill {
            spares += more.narrow();
        }
    } else if !sheets.is_empty() {
        // Each size of strips has a last pile of its own, and a spare set may be of any: nobody is given more than was asked for.
        let seats = desk.lesson.seats(spares);
        let free = |sheet: &StripSheet| {
            let sets = sheet.seats(&seats).len();
            sets.next_multiple_of(sheet.division.places()) - sets
        };
        let blanks = sheets.iter().map(free).sum();
        fill = if blanks == 0 { Fill::Even } else { Fill::Blanks(blanks) };
    }
    let seats = desk.lesson.seats(spares);
    let mut jobs = Vec::new();
    for stock in [Stock::Paper, Stock::Card] {
        let edge = edge(stock);
        let mut parts = kit_parts(desk, &masters, stock)?;
        if strips == Some(stock) {
            let stacks: Vec<Stacks> = sheets.iter().map(|sheet| piles::stacks(desk, sheet, &seats)).collect();
            // Counted before anything is drawn for it.
            let leaves: usize = stacks.iter().map(Stacks::sheets).sum();
            printable(leaves * if edge.is_some() { 2 } else { 1 }, stock)?;
            let (mut before, all) = (0, stacks.iter().map(Stacks::groups).sum());
            for (sheet, stacks) in sheets.iter().zip(&stacks) {
                let numbers = (before, all);
                parts.push(Part::Piles(Box::new(Piles::plan(desk, sheet, stock, &seats, edge, numbers)?)));
                before += stacks.groups();
            }
        }
        let here: Vec<Page> = slips.iter().filter(|page| page.stock == stock).cloned().collect();
        parts.extend(shared::by_group(desk.lesson, &here, &seats).into_iter().map(Part::Shared));
        jobs.extend(files(desk, stock, &seats, parts, &leaves(stock), edge)?);
    }
    for job in jobs.iter_mut().filter(|_| proved) {
        if spec.print.slip_sheets.value {
            parting::by_sheets(desk, job)?;
        }
        job.prove()?;
    }
    Ok(Order { seats, fill, jobs, masters })
}

/// Whether a sheet is kept for other lessons.
fn keep(kind: SheetKind) -> Keep {
    match crate::sheets::row(kind).reader {
        For::Learner(handling) => handling.keep,
        For::Teacher | For::Substitute | For::CopyRoom => Keep::UsedUp,
    }
}

/// The edge over which sheets of a stock are turned, where any have backs: the one over which a book of those fronts
/// turns. What is printed behind each piece follows from it, whatever way its page is held.
fn edge(desk: &Desk<'_>, masters: &[Page], stock: Stock, piles: Option<&StripSheet>) -> Option<Edge> {
    if desk.lesson.spec.print.sides.value == SidesAsked::One {
        return None;
    }
    let front = |kind| masters.iter().find(|page| page.stock == stock && page.sheet == kind).map(|page| page.size);
    let piled: Option<Size> = piles.map(|sheet| sheet.division.size());
    let home = || front(SheetKind::Family).filter(|_| desk.lesson.second().is_some());
    piled.or_else(|| front(SheetKind::Strips)).or_else(|| front(SheetKind::Mat)).or_else(home).map(Edge::of)
}

/// The parts of a stock that are kept for other lessons.
fn kit_parts(desk: &Desk<'_>, masters: &[Page], stock: Stock) -> Result<Vec<Part>, Problem> {
    let stacked = desk.lesson.spec.print.cut.value == Cut::Stack;
    let of = |kind| masters.iter().filter(move |page| page.stock == stock && page.sheet == kind);
    let count = |kind| kits(desk, kind).index();
    let mut parts = Vec::new();
    // Never front and back of one sheet: the mat is full of blocks when a learner looks for a word.
    for kind in [SheetKind::Mat, SheetKind::WordBank] {
        let leaves = of(kind).map(|page| Leaf { front: page.clone(), back: None }).collect();
        parts.push(Part::Kits(Kits { leaves, copies: count(kind) }));
    }
    for kind in [SheetKind::Blocks, SheetKind::Layered] {
        if of(kind).next().is_none() {
            continue;
        }
        let kits = kits(desk, kind);
        if stacked {
            let (suits, holds) = match kind {
                SheetKind::Blocks => (blocks::suits(desk)?, blocks::contents(desk)?),
                _ => (layered::suits(desk)?, desk.lesson.wording().sheet_title(kind).to_lowercase()),
            };
            parts.extend(Gang::plan(desk, &suits, &holds, count(kind))?.map(|gang| Part::Gang(Box::new(gang))));
        } else {
            let supply = match kind {
                SheetKind::Blocks => blocks::supply(desk, kits)?,
                _ => layered::supply(desk, kits)?,
            };
            parts.push(Part::Supply(supply, count(kind)));
        }
    }
    Ok(parts)
}

/// The files of a stock: one, or where most of its sheets are printed on one side, two.
fn files<'a>(
    desk: &Desk<'a>,
    stock: Stock,
    seats: &[Seat],
    parts: Vec<Part>,
    leaves: &Leaves,
    edge: Option<Edge>,
) -> Result<Vec<Job<'a>>, Problem> {
    let packets = |leaves: Leaves| Part::Packets(Packets::plan(leaves, seats));
    let (both, one): (Vec<Part>, Vec<Part>) = parts.into_iter().partition(Part::backed);
    let (packed_both, packed_one) = (packets(leaves.only(true)), packets(leaves.only(false)));
    let sum = |parts: &[Part], more: &Part| parts.iter().map(Part::leaves).sum::<usize>() + more.leaves();
    let (sheets_both, sheets_one) = (sum(&both, &packed_both), sum(&one, &packed_one));
    let two = edge.map_or(PrintSides::One, PrintSides::Two);
    let drafts = if sheets_both == 0 {
        vec![(PrintSides::One, [one, vec![packed_one]].concat())]
    } else if sheets_one > sheets_both {
        vec![(PrintSides::One, [one, vec![packed_one]].concat()), (two, [both, vec![packed_both]].concat())]
    } else {
        vec![(two, [both, one, vec![packets(leaves.clone())]].concat())]
    };
    let mut jobs = Vec::new();
    for (sides, mut parts) in drafts {
        parts.retain(|part| part.leaves() > 0);
        if parts.is_empty() {
            continue;
        }
        let job = Job::of(desk, stock, sides, seats, parts);
        printable(job.pages(), stock)?;
        jobs.push(job);
    }
    Ok(jobs)
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
