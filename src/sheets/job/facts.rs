//! The facts of the job, worked out once from the order that makes the files.

use std::collections::BTreeMap;

use crate::lesson::Version;
use crate::lesson::job::{Cutter, FileFacts, For, JobFacts, PartFacts, PartKind, PrintSides, PrintedSheet, Stock};
use crate::sheets::files::PacketKind;
use crate::sheets::job::{Job, Order, Part};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Item, Node, Page, Paint};
use crate::sheets::row;
use crate::spec::{Ink, SheetKind};

/// What is said of an order, everywhere.
pub fn of(desk: &Desk<'_>, order: &Order<'_>) -> JobFacts {
    let class = &desk.lesson.spec.class;
    let spares = order.seats.iter().filter(|seat| seat.spare).count();
    let spares = u32::try_from(spares).unwrap_or(u32::MAX);
    let mut versions: BTreeMap<Version, u32> = BTreeMap::new();
    for seat in order.seats.iter().filter(|seat| !seat.spare && !desk.lesson.sets.is_empty()) {
        *versions.entry(seat.version).or_default() += 1;
    }
    JobFacts {
        learners: class.learners.value,
        spares,
        extra: spares.saturating_sub(class.spares.value),
        versions: versions.into_iter().collect(),
        sheets: sheets(desk, order),
        files: order.jobs.iter().map(|job| file(desk, order, job)).collect(),
        savings: Vec::new(),
    }
}

/// Every learner's sheet that is printed.
fn sheets(desk: &Desk<'_>, order: &Order<'_>) -> Vec<PrintedSheet> {
    let mut all = Vec::new();
    for kind in crate::sheets::of_learners() {
        let pages: Vec<&Page> = order.masters.iter().filter(|page| page.sheet == kind).collect();
        let (Some(first), For::Learner(handling)) = (pages.first(), row(kind).reader) else { continue };
        let copies = u32::try_from(order.seats.len()).unwrap_or(u32::MAX);
        let most = |count: &dyn Fn(&Page) -> usize| {
            let mut sums: BTreeMap<Option<Version>, usize> = BTreeMap::new();
            for page in &pages {
                *sums.entry(page.version).or_default() += count(page);
            }
            sums.into_values().max().unwrap_or(0)
        };
        let layers = |page: &Page, count: &dyn Fn(&crate::sheets::page::Layer) -> usize| -> usize {
            page.layers.iter().map(|layer| count(layer)).sum()
        };
        let cuts = most(&|page| layers(page, &|layer| layer.cuts.len() + layer.snips.len()));
        let cutter = if cuts == 0 { Cutter::Nobody } else { handling.cutter(desk.lesson.spec.print.cut.value) };
        let pages = most(&|_| 1);
        all.push(PrintedSheet {
            kind,
            stock: first.stock,
            keep: handling.keep,
            share: 1,
            copies,
            pages,
            cutter,
            cuts,
            pieces: most(&|page| layers(page, &|layer| layer.pieces.len())),
            sheets: order.jobs.iter().map(|job| job.leaves_of(kind)).sum(),
        });
    }
    all
}

/// A file of the order.
fn file(desk: &Desk<'_>, order: &Order<'_>, job: &Job<'_>) -> FileFacts {
    let file = match job.stock {
        Stock::Paper => PacketKind::Paper,
        Stock::Card => PacketKind::Card,
    };
    let sides = if job.sides == PrintSides::One { 1 } else { 2 };
    let mut leaf = 0;
    let mut parts = Vec::new();
    for part in &job.parts {
        let (from, to) = (leaf, leaf + part.leaves());
        leaf = to;
        let kind = match part {
            Part::Piles(piles) => PartKind::Piles { piles: piles.stacks().groups() },
            Part::Shared(_) => PartKind::Checks { slips: u32::try_from(order.seats.len()).unwrap_or(u32::MAX) },
            Part::Packets(packets) => {
                let mut kinds: Vec<SheetKind> =
                    packets.versions().iter().flatten().map(|leaf| leaf.front.sheet).collect();
                kinds.sort_unstable();
                kinds.dedup();
                let page = |leaf: usize| (from + leaf) * sides;
                let learners = packets.starts().windows(2).map(|pair| (page(pair[0]) + 1, page(pair[1]))).collect();
                PartKind::Packets { kinds, learners }
            }
        };
        parts.push(PartFacts { kind, pages: (from * sides + 1, to * sides), sheets: (from + 1, to) });
    }
    FileFacts {
        file: file.about().file,
        stock: job.stock,
        sides: job.sides,
        colour: desk.ink() == Ink::Colour && order.masters.iter().any(|page| page.stock == job.stock && coloured(page)),
        pages: job.pages(),
        parts,
    }
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
