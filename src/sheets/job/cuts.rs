//! What the ticket says, with the cuts of every pile.

use crate::lesson::LessonGroup;
use crate::lesson::job::{Cutter, JobFacts};
use crate::measure::Size;
use crate::sheets::job::gang::SizeRun;
use crate::sheets::job::runs::Group;
use crate::sheets::job::{Job, Order, Part};
use crate::sheets::kinds::ticket::facts::{Cutting, Emergency, Facts, Pile, PileOf};
use crate::sheets::page::CutLine;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::entry::Entry;
use crate::sheets::page::grid::Grid;
use crate::spec::SheetKind;
use crate::wording::ticket::PiecesCut;

/// The facts of the ticket.
/// `masters` are the pages of the teacher's packet, in order.
pub fn ticket(desk: &Desk<'_>, order: &Order<'_>, job: &JobFacts, masters: &[Entry]) -> Facts {
    let spec = &desk.lesson.spec;
    let slips = order.masters.iter().find(|page| page.sheet == SheetKind::Exit);
    Facts {
        title: spec.title.value.clone(),
        paper: spec.paper.value,
        versions: desk.lesson.sets.len(),
        job: job.clone(),
        cuttings: order.jobs.iter().flat_map(cuttings).collect(),
        fill: order.settled.fill,
        slip_cuts: slips
            .map_or(Vec::new(), |page| ordered(page.layers.iter().flat_map(|layer| layer.cuts.iter().copied()))),
        emergency: emergency(desk, job, masters),
    }
}

/// Which masters stand in for the copies, and how many copies of each make a set for everyone.
fn emergency(desk: &Desk<'_>, job: &JobFacts, masters: &[Entry]) -> Vec<Emergency> {
    let mut all: Vec<Emergency> = Vec::new();
    // What nobody cuts in this lesson is not missing in it.
    let needed = |kind| job.sheet(kind).is_some_and(|sheet| sheet.cutter != Cutter::Later);
    for (page, entry) in (1..).zip(masters).filter(|(_, entry)| needed(entry.sheet)) {
        match all.last_mut() {
            Some(last) if (last.kind, last.version) == (entry.sheet, entry.version) => last.pages.1 = page,
            _ => {
                let (kind, version) = (entry.sheet, entry.version);
                let checked = version.filter(|_| kind == SheetKind::Exit);
                let marks = checked.and_then(|version| desk.lesson.group_of(version)).and_then(LessonGroup::marks);
                all.push(Emergency { kind, version, marks, pages: (page, page), copies: job.needed(kind, version) });
            }
        }
    }
    all
}

/// The piles of a file, part by part.
fn cuttings(job: &Job<'_>) -> Vec<Cutting> {
    let file = job.kind.about().file;
    let mut all = Vec::new();
    let mut leaf = 0;
    for part in &job.parts {
        let from = leaf;
        leaf += part.leaves();
        match part {
            Part::Piles(piles) => {
                let (division, stacks) = (&piles.sheet().division, piles.stacks());
                let pile = |group: usize| {
                    let seats = stacks.sets_of(group).filter_map(|set| piles.seats().get(set));
                    let sheets = stacks.sheets_of(group);
                    let places = seats.map(|seat| PileOf::Set(seat.number, seat.version)).collect();
                    Pile { sheets: (from + sheets.start + 1, from + sheets.end), places }
                };
                let own = (0..stacks.groups()).map(pile).collect();
                all.push(Cutting {
                    before: piles.before(),
                    ..cutting(file, SheetKind::Strips, PiecesCut::Strips, division.size(), division.grid(), own)
                });
            }
            Part::Gang(gang) => {
                let mut from = from;
                for SizeRun { size, runs, .. } in gang.sizes() {
                    let pile = |group: &Group| {
                        let places = group.sets.clone().flat_map(|set| vec![PileOf::Kit(set + 1); group.run]);
                        let sheets = (from + group.sheets.start + 1, from + group.sheets.end);
                        Pile { sheets, places: places.collect() }
                    };
                    let piles = runs.groups().iter().map(pile).collect();
                    let division = &size.division;
                    all.push(cutting(file, gang.kind, size.what, division.size(), division.grid(), piles));
                    from += runs.sheets();
                }
            }
            Part::Proof(_)
            | Part::SlipSheet(_)
            | Part::Kits(_)
            | Part::Supply(..)
            | Part::Shared(_)
            | Part::Packets(_) => {}
        }
    }
    all
}

fn cutting(file: &'static str, kind: SheetKind, what: PiecesCut, size: Size, grid: &Grid, piles: Vec<Pile>) -> Cutting {
    let cuts = ordered(grid.cuts().into_iter());
    Cutting { file, kind, what, size, cuts, grid: (grid.columns, grid.rows), before: 0, piles }
}

/// Cuts in the order to make them: level ones from the bottom up, then upright ones from the right.
fn ordered(cuts: impl Iterator<Item = CutLine>) -> Vec<CutLine> {
    let (mut level, mut upright): (Vec<CutLine>, Vec<CutLine>) = cuts.partition(|cut| matches!(cut, CutLine::Level(_)));
    // The largest first: the edge that all are measured from is there until the last.
    level.sort_unstable_by(|a, b| b.cmp(a));
    upright.sort_unstable_by(|a, b| b.cmp(a));
    [level, upright].concat()
}
