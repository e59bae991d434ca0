//! The facts of the job, worked out once from the order that makes the files.

use std::collections::BTreeMap;

use crate::diag::Problem;
use crate::lesson::Version;
use crate::lesson::job::{Cutter, FileFacts, For, JobFacts, Keep, PartFacts, PartKind, PrintedSheet};
use crate::measure::Count;
use crate::sheets::job::counting::kits;
use crate::sheets::job::{Job, Order, Part, savings};
use crate::sheets::kinds::{blocks, exit};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Item, Layer, Node, Page, Paint};
use crate::sheets::row;
use crate::spec::{Ink, SheetKind};

/// What is said of an order, everywhere.
pub fn of(desk: &Desk<'_>, order: &Order<'_>) -> Result<JobFacts, Problem> {
    let class = &desk.lesson.spec.class;
    let spares = order.settled.seats.iter().filter(|seat| seat.spare).count();
    let spares = spares.narrow();
    let mut versions: BTreeMap<Version, u32> = BTreeMap::new();
    for seat in order.settled.seats.iter().filter(|seat| !seat.spare && !desk.lesson.sets.is_empty()) {
        *versions.entry(seat.version).or_default() += 1;
    }
    let sheets = sheets(desk, order)?;
    Ok(JobFacts {
        learners: class.learners.value,
        spares,
        extra: spares.saturating_sub(class.spares.value),
        versions: versions.into_iter().collect(),
        groups: desk.lesson.groups.iter().map(|group| group.versions.clone()).collect(),
        savings: savings::of(&desk.lesson.spec.class, order, &sheets)?,
        sheets,
        files: order.jobs.iter().map(|job| file(desk, order, job)).collect(),
    })
}

/// Every learner's sheet that is printed.
fn sheets(desk: &Desk<'_>, order: &Order<'_>) -> Result<Vec<PrintedSheet>, Problem> {
    let mut all = Vec::new();
    let mut masters = order.masters.clone();
    exit::enough(&mut masters);
    for kind in crate::sheets::of_learners() {
        let pages: Vec<&Page> = masters.iter().filter(|page| page.sheet == kind).collect();
        let (Some(first), For::Learner(handling)) = (pages.first(), row(kind).reader) else { continue };
        // A version each.
        let sums = |count: &dyn Fn(&Page) -> usize| {
            let mut sums: BTreeMap<Option<Version>, usize> = BTreeMap::new();
            for page in &pages {
                *sums.entry(page.version).or_default() += count(page);
            }
            sums.into_values()
        };
        let most = |count: &dyn Fn(&Page) -> usize| sums(count).max().unwrap_or(0);
        // A slip is a part of a page.
        let slips = kind == SheetKind::Exit;
        let (pages_each, fewest) = if slips { (1, 1) } else { (most(&|_| 1), sums(&|_| 1).min().unwrap_or(0)) };
        let cuts = most(&|page| cuts_on(page));
        let cutter = match cuts {
            0 => Cutter::Nobody,
            _ if kind == SheetKind::Strips && desk.lesson.keeps_strips_whole() => Cutter::Later,
            _ => handling.cutter(desk.lesson.spec.print.cut.value),
        };
        let sets = order.settled.seats.len().narrow();
        let copies = if handling.keep == Keep::Kit { kits(desk, kind) } else { sets };
        let holds = if kind == SheetKind::Blocks { blocks::kit(desk)? } else { None };
        let by_guillotine = cutter == Cutter::CopyRoom;
        all.push(PrintedSheet {
            kind,
            stock: first.stock,
            keep: handling.keep,
            share: desk.lesson.spec.class.share(kind),
            copies,
            pages: pages_each,
            fewest,
            cutter,
            cuts,
            fewest_cuts: sums(&|page| cuts_on(page)).min().unwrap_or(0),
            pieces: most(&|page| layers(page, |layer| layer.pieces.len())),
            sheets: order.jobs.iter().map(|job| leaves_of(job, kind)).sum(),
            all_cuts: supplied_cuts(order, kind).unwrap_or(cuts * copies.index()),
            cube_cuts: holds.filter(|_| by_guillotine).map_or(0, |[.., cubes]| cube_cuts(cubes.index())),
            holds,
        });
    }
    Ok(all)
}

/// Straight cuts on all sheets of a kind whose pieces of several kits share sheets.
fn supplied_cuts(order: &Order<'_>, kind: SheetKind) -> Option<usize> {
    let parts = order.jobs.iter().flat_map(|job| &job.parts);
    let mut supplies = parts.filter_map(|part| if let Part::Supply(supply, _) = part { Some(supply) } else { None });
    let supply = supplies.find(|supply| supply.pages.iter().any(|(page, _)| page.sheet == kind))?;
    Some(supply.pages.iter().map(|(page, times)| cuts_on(page) * times).sum())
}

/// Cuts that part so many cubes, which come in rows of ten with blank paper at the end of the last.
const fn cube_cuts(cubes: usize) -> usize {
    cubes / 10 * 9 + cubes % 10
}

fn layers(page: &Page, count: impl Fn(&Layer) -> usize) -> usize {
    page.layers.iter().map(|layer| count(layer)).sum()
}

/// How many straight cuts a page has.
pub(super) fn cuts_on(page: &Page) -> usize {
    layers(page, |layer| layer.cuts.len() + layer.snips.len())
}

/// How many sheets of paper a kind of page takes in a file; what is printed on the back of another takes none.
fn leaves_of(job: &Job<'_>, kind: SheetKind) -> usize {
    let of = |part: &Part| match part {
        Part::Kits(kits) => kits.pages.iter().filter(|page| page.sheet == kind).count() * kits.copies,
        Part::Supply(supply, _) => {
            supply.pages.iter().filter(|(page, _)| page.sheet == kind).map(|(_, times)| times).sum()
        }
        Part::Gang(gang) if gang.kind == kind => gang.leaves(),
        Part::Piles(piles) if kind == SheetKind::Strips => piles.leaves(),
        Part::Shared(shared) if kind == SheetKind::Exit => shared.leaves(),
        Part::Proof(_) | Part::SlipSheet(_) | Part::Gang(_) | Part::Piles(_) | Part::Shared(_) => 0,
        Part::Packets(packets) => {
            (0..packets.leaves()).filter_map(|k| packets.leaf(k)).filter(|(_, leaf)| leaf.front.sheet == kind).count()
        }
    };
    job.parts.iter().map(of).sum()
}

/// A file of the order.
fn file(desk: &Desk<'_>, order: &Order<'_>, job: &Job<'_>) -> FileFacts {
    let sides = job.sides.a_sheet();
    let mut leaf = 0;
    let mut parts = Vec::new();
    for part in &job.parts {
        let (from, to) = (leaf, leaf + part.leaves());
        leaf = to;
        let kind = kind_of(part, from, sides);
        parts.push(PartFacts { kind, pages: (from * sides + 1, to * sides), sheets: (from + 1, to) });
    }
    let mine = |page: &&Page| page.stock == job.stock;
    FileFacts {
        file: job.kind.about().file,
        stock: job.stock,
        sides: job.sides,
        colour: desk.ink() == Ink::Colour && order.masters.iter().filter(mine).any(coloured),
        pages: job.pages(),
        parts,
    }
}

/// What a part is, for everyone who speaks of it; `from` is how many sheets of the file come before it.
pub(super) fn kind_of(part: &Part, from: usize, sides: usize) -> PartKind {
    match part {
        Part::Proof(_) => PartKind::Proof,
        Part::SlipSheet(_) => PartKind::SlipSheet,
        Part::Kits(kits) => PartKind::Kit { kinds: kinds(kits.pages.iter()), kits: kits.copies, piles: false },
        Part::Supply(supply, kits) => {
            PartKind::Kit { kinds: kinds(supply.pages.iter().map(|(page, _)| page)), kits: *kits, piles: false }
        }
        Part::Gang(gang) => PartKind::Kit { kinds: vec![gang.kind], kits: gang.kits, piles: true },
        Part::Piles(piles) => PartKind::Piles { piles: piles.stacks().groups() },
        Part::Shared(shared) => PartKind::Checks {
            slips: shared.sets().narrow(),
            to_page: shared.to_page().narrow(),
            marks: shared.marks(),
        },
        Part::Packets(packets) => {
            let page = |leaf: usize| (from + leaf) * sides;
            let learners = packets.starts().windows(2).map(|pair| (page(pair[0]) + 1, page(pair[1]))).collect();
            let fronts = packets.versions().iter().flatten().map(|leaf| &leaf.front);
            PartKind::Packets { kinds: kinds(fronts), learners }
        }
    }
}

/// The kinds of some pages, in the order of the lesson.
fn kinds<'p>(pages: impl Iterator<Item = &'p Page>) -> Vec<SheetKind> {
    let mut kinds: Vec<SheetKind> = pages.map(|page| page.sheet).collect();
    kinds.sort_unstable();
    kinds.dedup();
    kinds
}

/// Whether anything on a page is in colour.
fn coloured(page: &Page) -> bool {
    let mut found = false;
    let mut look = |item: &Item| found |= colour(item);
    page.layers.iter().flat_map(|layer| &layer.nodes).for_each(|node: &Node| node.each(&mut look));
    found
}

/// Whether something drawn is in colour.
fn colour(item: &Item) -> bool {
    let paint = |paint: &Paint| matches!(paint, Paint::Rgb(..));
    match item {
        Item::Text(text) => paint(&text.paint),
        Item::Line { stroke, .. } => paint(&stroke.paint),
        Item::Rect { fill, stroke, .. } | Item::Polygon { fill, stroke, .. } | Item::Circle { fill, stroke, .. } => {
            fill.as_ref().is_some_and(paint) || stroke.as_ref().is_some_and(|stroke| paint(&stroke.paint))
        }
        Item::Symbol { symbol, .. } => symbol.items.iter().any(colour),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Length, Point};

    #[test]
    fn a_grey_page_is_not_in_colour() {
        let dot =
            |paint| Item::Circle { centre: Point::ORIGIN, radius: Length::mm(1), fill: Some(paint), stroke: None };
        assert!(!colour(&dot(Paint::Grey(7))) && colour(&dot(Paint::Rgb(1, 2, 3))));
    }
}
