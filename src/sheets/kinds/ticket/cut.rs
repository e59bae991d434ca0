//! What the ticket says of piles: every cut in its order, and what lies where afterwards.

use crate::diag::Problem;
use crate::lesson::job::{Fill, PartKind, Stock};
use crate::measure::{Count, Length};
use crate::sheets::kinds::ticket::facts::{Cutting, Facts, Pile, PileOf, distance, split};
use crate::sheets::kinds::ticket::gauge::{Setting, settings};
use crate::sheets::kinds::ticket::headed;
use crate::sheets::kinds::ticket::look::TicketPages;
use crate::sheets::kinds::ticket::words::pages;
use crate::sheets::page::CutLine;
use crate::spec::SheetKind;
use crate::wording::Wording;
use crate::wording::ticket::{LastPile, Least, PileRun};

/// So many rows of piles are listed place by place; further piles are told in runs.
const LISTED: usize = 32;

/// Sheets that a small trimmer takes at a time (common practice, no source): of card, which weighs two and a half times as much as
/// office paper, so many fewer.
const fn trimmer(stock: Stock) -> usize {
    match stock {
        Stock::Paper => 10,
        Stock::Card => 4,
    }
}

/// Everything that is cut as piles.
pub(super) fn piles(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    for (k, cutting) in facts.cuttings.iter().enumerate() {
        cuts(flow, cutting, facts, k == 0, wording)?;
        places(flow, cutting, wording)?;
        if cutting.kind == SheetKind::Strips {
            least(flow, cutting, facts, wording)?;
        }
    }
    Ok(())
}

/// Every cut in its order.
fn cuts(
    flow: &mut TicketPages<'_>,
    cutting: &Cutting,
    facts: &Facts,
    first: bool,
    wording: &dyn Wording,
) -> Result<(), Problem> {
    flow.heading(&wording.cut_title(cutting.what, facts.parted(cutting).as_deref(), cutting.cuts.len()));
    let ranges: Vec<String> = cutting.piles.iter().map(|pile| pages(pile.sheets)).collect();
    let wide = cutting.size.width > cutting.size.height;
    let stock = facts.job.files.iter().find(|file| file.file == cutting.file).map_or(Stock::Paper, |file| file.stock);
    let most = trimmer(stock);
    let mut trimmed: Vec<usize> = cutting.piles.iter().map(Pile::len).filter(|sheets| *sheets > most).collect();
    trimmed.sort_unstable_by(|one, other| other.cmp(one));
    trimmed.dedup();
    let trimmed: Vec<(usize, usize)> = trimmed.into_iter().map(|sheets| (sheets, sheets.div_ceil(most))).collect();
    let single = cutting.piles.iter().map(Pile::len).sum::<usize>() == 1;
    let taken = [trimmer(Stock::Paper), most];
    flow.lead(&wording.cut_piles(cutting.file, cutting.piles.len(), (&ranges, single), wide, (taken, &trimmed)));
    if first {
        flow.lead(wording.guillotine_in_short());
        gauge(flow, facts.cuttings.iter().map(|cutting| cutting.cuts.as_slice()), wording);
    }
    cut_table(flow, &cutting.cuts, wording)
}

/// How to set the back gauge for these lists of cuts.
pub(super) fn gauge<'c>(
    flow: &mut TicketPages<'_>,
    all: impl Iterator<Item = &'c [CutLine]> + Clone,
    wording: &dyn Wording,
) {
    let (across, down): (Vec<_>, Vec<_>) = all.map(split).unzip();
    let any = |cuts: &[Vec<Length>]| cuts.iter().any(|cuts| !cuts.is_empty());
    let set: Vec<Setting> = across.iter().chain(&down).flat_map(|cuts| settings(cuts)).collect();
    let mut text = wording.back_gauge(any(&across), any(&down)).to_owned();
    for (said, more) in [
        (set.iter().any(|setting| setting.turned), wording.gauge_turned()),
        (set.iter().any(|setting| setting.is_near()), wording.gauge_near()),
    ] {
        if said {
            text = format!("{text} {more}");
        }
    }
    flow.lead(&text);
}

/// Cuts in their order, with the settings of a back gauge.
pub(super) fn cut_table(flow: &mut TicketPages<'_>, cuts: &[CutLine], wording: &dyn Wording) -> Result<(), Problem> {
    let (level, upright) = split(cuts);
    // Long lists go on beside themselves, so that they can be taken in at a glance; those down follow those across.
    let beside = |high: &usize| level.len().div_ceil(*high) + upright.len().div_ceil(*high) <= BESIDE;
    let high = (LINES..=level.len().max(upright.len())).find(beside).unwrap_or(LINES);
    let columns = |cuts: &[Length], from: usize| -> Vec<Vec<[String; 2]>> {
        let cell = |(k, setting): (usize, Setting)| {
            let (metric, inches) = distance(setting.at);
            let set = format!("{metric} ({inches})");
            [(from + k + 1).to_string(), if setting.turned { wording.turned(&set) } else { set }]
        };
        settings(cuts).into_iter().enumerate().map(cell).collect::<Vec<_>>().chunks(high).map(<[_]>::to_vec).collect()
    };
    let (across, down) = (columns(&level, 0), columns(&upright, level.len()));
    let [cut, top, left] = wording.cuts_heads();
    let mut heads: Vec<(&str, u32)> = Vec::new();
    heads.extend(across.iter().flat_map(|_| [(cut, 5), (top, 28)]));
    heads.extend(down.iter().flat_map(|_| [(cut, 5), (left, 28)]));
    let all: Vec<&Vec<[String; 2]>> = across.iter().chain(&down).collect();
    let rows = all.iter().map(|column| column.len()).max().unwrap_or(0);
    let row = |k: usize| all.iter().flat_map(|column| column.get(k).cloned().unwrap_or_default()).collect();
    flow.whole_table(&heads, &(0..rows).map(row).collect::<Vec<Vec<String>>>())?;
    flow.gap(Length::mm(1));
    Ok(())
}

/// Lines of a list of cuts before it goes on beside itself.
const LINES: usize = 7;
/// So many lists stand beside each other: more would break a distance over two lines.
const BESIDE: usize = 3;

/// What lies where after the cuts.
fn places(flow: &mut TicketPages<'_>, cutting: &Cutting, wording: &dyn Wording) -> Result<(), Problem> {
    let (columns, _) = cutting.grid;
    let wide = columns.index().max(1);
    if cutting.kind != SheetKind::Strips {
        flow.lead(&wording.kits_lie(cutting.what));
        return kits(flow, cutting, wording);
    }
    flow.lead(wording.strips_lie());
    let across: Vec<String> = (1..=columns).map(|c| wording.column(c)).collect();
    let mut heads: Vec<(&str, u32)> = vec![(wording.pile_row(), 10)];
    heads.extend(across.iter().map(|name| (name.as_str(), 10)));
    let rows = |pile: &Pile| pile.places.len().div_ceil(wide);
    let mut left = LISTED;
    let listed = cutting.piles.iter().take_while(|pile| {
        let fits = left >= rows(pile) || left == LISTED;
        left = left.saturating_sub(rows(pile));
        fits
    });
    let (listed, more) = cutting.piles.split_at(listed.count());
    let mut lines = Vec::new();
    for (k, pile) in listed.iter().enumerate() {
        for (r, row) in pile.places.chunks(wide).enumerate() {
            let mut line = vec![format!("{}, {}", cutting.before + k + 1, r + 1)];
            line.extend(row.iter().map(whose));
            line.resize(wide + 1, "\u{2013}".to_owned());
            lines.push(line);
        }
    }
    flow.table(&heads, &lines)?;
    flow.gap(Length::mm(1));
    if more.is_empty() {
        return Ok(());
    }
    let told = wording.more_piles(&runs(cutting.before + listed.len(), more));
    told.iter().try_for_each(|paragraph| flow.text(paragraph))
}

/// Piles in runs that go on evenly: as many sets each, numbered on from one pile to the next; so many piles come before.
fn runs(before: usize, piles: &[Pile]) -> Vec<PileRun> {
    let mut runs: Vec<PileRun> = Vec::new();
    for (number, pile) in (before + 1..).zip(piles) {
        let mut sets: Vec<(u32, u32)> = Vec::new();
        for place in &pile.places {
            let PileOf::Set(learner, _) = place else { continue };
            match sets.last_mut().filter(|(_, last)| last + 1 == *learner) {
                Some((_, last)) => *last = *learner,
                None => sets.push((*learner, *learner)),
            }
        }
        let each = pile.places.len();
        let on = |run: &PileRun| matches!((run.sets.as_slice(), sets.as_slice()), ([(_, last)], [(next, _)]) if last + 1 == *next);
        match (runs.last_mut().filter(|run| run.each == each && on(run)), sets.last()) {
            (Some(run), Some((_, last))) => (run.piles.1, run.sets[0].1) = (number, *last),
            _ => runs.push(PileRun { piles: (number, number), each, sets }),
        }
    }
    runs
}

/// "7 B": whose strips are at a place.
fn whose(of: &PileOf) -> String {
    match of {
        PileOf::Set(number, version) => format!("{number} {version}"),
        PileOf::Kit(kit) => kit.to_string(),
    }
}

/// Kits in runs of places.
fn kits(flow: &mut TicketPages<'_>, cutting: &Cutting, wording: &dyn Wording) -> Result<(), Problem> {
    let row = |(k, pile): (usize, &Pile)| {
        let run = pile.places.iter().take_while(|name| Some(*name) == pile.places.first()).count();
        let kit = |of: Option<&PileOf>| match of {
            Some(PileOf::Kit(kit)) => *kit,
            Some(PileOf::Set(..)) | None => 0,
        };
        let kits = wording.run_of(kit(pile.places.first()), kit(pile.places.last()));
        vec![(k + 1).to_string(), pages(pile.sheets), kits, wording.places(run)]
    };
    let rows: Vec<Vec<String>> = cutting.piles.iter().enumerate().map(row).collect();
    let heads = headed(wording.kits_heads(), [12, 20, 40, 30]);
    flow.table(&heads, &rows)
}

/// Why there are so many sheets.
fn least(flow: &mut TicketPages<'_>, cutting: &Cutting, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    let (columns, rows) = cutting.grid;
    let mut sheets: Vec<(usize, usize)> = Vec::new();
    for pile in &cutting.piles {
        match sheets.last_mut().filter(|(_, sheets)| *sheets == pile.len()) {
            Some((piles, _)) => *piles += 1,
            None => sheets.push((1, pile.len())),
        }
    }
    let sets = cutting.sets();
    let places = (columns * rows).index();
    let free = sets.next_multiple_of(places) - sets;
    let cut_apart = facts.cuttings.iter().filter(|other| other.kind == cutting.kind).count() > 1;
    let mut parts = facts.job.files.iter().flat_map(|file| &file.parts);
    let weighed = !cut_apart && parts.any(|part| matches!(part.kind, PartKind::Packets { .. }));
    flow.text(&wording.least_sheets(&Least {
        sheets,
        places,
        sets,
        piles: cutting.piles.len(),
        number: cutting.before + cutting.piles.len(),
        last: match facts.fill {
            Fill::Even => LastPile::Full,
            Fill::Spares(count) => LastPile::Spares(count),
            Fill::Blanks(_) if free == 0 => LastPile::Full,
            // A spare set that may be of any size does not fill this pile; one of strips alone would need no sheet.
            Fill::Blanks(_) if weighed => LastPile::Blanks(free),
            Fill::Blanks(_) => LastPile::Left(free),
        },
    }))
}
