//! What the ticket says of piles: every cut in its order, and what lies where afterwards.

use crate::diag::Problem;
use crate::lesson::job::Fill;
use crate::measure::Length;
use crate::sheets::kinds::ticket::facts::{Cutting, Facts, Pile, count, distance};
use crate::sheets::kinds::ticket::look::TicketPages;
use crate::sheets::kinds::ticket::words::{capital, pages, pieces};
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// So many rows of piles are listed place by place; the bands say the same for all.
const LISTED: usize = 8;

/// Sheets that a small trimmer takes at a time (common practice, no source).
const TRIMMER: usize = 10;

/// Everything that is cut as piles.
pub(super) fn piles(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    for (k, cutting) in facts.cuttings.iter().enumerate() {
        cuts(flow, cutting, k == 0)?;
        places(flow, cutting)?;
        if cutting.kind == SheetKind::Strips {
            least(flow, cutting, facts, desk)?;
        }
    }
    Ok(())
}

/// Every cut in its order.
fn cuts(flow: &mut TicketPages<'_>, cutting: &Cutting, first: bool) -> Result<(), Problem> {
    let total = cutting.cuts.len();
    flow.heading(&format!("Cut the {}: {}", pieces(cutting.kind, cutting.what), count(total, "cut")));
    let held = if cutting.size.width > cutting.size.height { "wide" } else { "upright" };
    let ranges: Vec<String> = cutting.piles.iter().map(|pile| pages(pile.sheets)).collect();
    let most = cutting.piles.iter().map(Pile::len).max().unwrap_or(0);
    let mut text = format!(
        "{}: {}, sheets {}. Keep each pile in print order, front up, first sheet on top, held {held} so that its text reads.",
        cutting.file,
        count(cutting.piles.len(), "pile"),
        ranges.join(" \u{b7} "),
    );
    if most > TRIMMER {
        text = format!(
            "{text} A trimmer that takes {TRIMMER} sheets cuts a pile of {most} in {} parts: put them back in order.",
            most.div_ceil(TRIMMER)
        );
    }
    flow.text(&text)?;
    if first {
        flow.text(
            "Back gauge: first lay the top edge of the front against it, cut across at each setting, largest first. Then lay \
             each row with its left edge against it. The edge that is measured from is there until the last cut.",
        )?;
    }
    flow.gap(Length::mm(1));
    let (level, upright) = cutting.split();
    // Long lists go on beside themselves, so that they can be taken in at a glance; those down follow those across.
    let high = LINES.max(level.len().div_ceil(3)).max(upright.len().div_ceil(2));
    let columns = |cuts: &[Length], from: usize| -> Vec<Vec<[String; 2]>> {
        let cell = |(k, at): (usize, &Length)| {
            let (metric, inches) = distance(*at);
            [(from + k + 1).to_string(), format!("{metric} ({inches})")]
        };
        cuts.iter().enumerate().map(cell).collect::<Vec<_>>().chunks(high).map(<[_]>::to_vec).collect()
    };
    let (across, down) = (columns(&level, 0), columns(&upright, level.len()));
    let mut heads: Vec<(&str, u32)> = Vec::new();
    heads.extend(across.iter().flat_map(|_| [("Cut", 6), ("From the top", 26)]));
    heads.extend(down.iter().flat_map(|_| [("Cut", 6), ("From the left", 26)]));
    let all: Vec<&Vec<[String; 2]>> = across.iter().chain(&down).collect();
    let rows = all.iter().map(|column| column.len()).max().unwrap_or(0);
    let row = |k: usize| all.iter().flat_map(|column| column.get(k).cloned().unwrap_or_default()).collect();
    flow.table(&heads, &(0..rows).map(row).collect::<Vec<Vec<String>>>())?;
    flow.gap(Length::mm(1));
    Ok(())
}

/// Lines of a list of cuts before it goes on beside itself.
const LINES: usize = 7;

/// What lies where after the cuts.
fn places(flow: &mut TicketPages<'_>, cutting: &Cutting) -> Result<(), Problem> {
    let (columns, _) = cutting.grid;
    let wide = usize::try_from(columns).unwrap_or(1).max(1);
    if cutting.kind == SheetKind::Strips {
        flow.text(
            "After the cuts, the pieces at each place are one learner's whole set in order, band on top: nothing to sort. Put \
             a rubber band or clip round each set.",
        )?;
    } else {
        flow.text(&format!(
            "After the cuts, the piles at so many places beside each other are one kit's {}: put them on each other from left \
             to right. All kits are alike.",
            cutting.what
        ))?;
    }
    if cutting.kind != SheetKind::Strips {
        return kits(flow, cutting);
    }
    flow.gap(Length::mm(1));
    let across: Vec<String> = (1..=columns).map(|c| format!("Column {c}")).collect();
    let mut heads: Vec<(&str, u32)> = vec![("Pile, row", 10)];
    heads.extend(across.iter().map(|name| (name.as_str(), 10)));
    let mut lines = Vec::new();
    for (k, pile) in cutting.piles.iter().enumerate() {
        for (r, row) in pile.places.chunks(wide).enumerate() {
            let mut line = vec![format!("{}, {}", k + 1, r + 1)];
            line.extend(row.iter().cloned());
            line.resize(wide + 1, "\u{2013}".to_owned());
            lines.push(line);
        }
    }
    let more = lines.len().saturating_sub(LISTED * 4);
    lines.truncate(LISTED * 4);
    flow.table(&heads, &lines)?;
    flow.gap(Length::mm(1));
    if more > 0 {
        flow.text(&format!("{} more go on in the same way.", count(more, "row")))?;
    }
    Ok(())
}

/// Kits in runs of places.
fn kits(flow: &mut TicketPages<'_>, cutting: &Cutting) -> Result<(), Problem> {
    flow.gap(Length::mm(1));
    let row = |(k, pile): (usize, &Pile)| {
        let of = |name: Option<&String>| name.map_or_else(String::new, |name| name.replace("kit ", ""));
        let (first, last) = (of(pile.places.first()), of(pile.places.last()));
        let run = pile.places.iter().take_while(|name| Some(*name) == pile.places.first()).count();
        let kits = if first == last { first } else { format!("{first} to {last}") };
        vec![(k + 1).to_string(), pages(pile.sheets), kits, count(run, "place")]
    };
    let rows: Vec<Vec<String>> = cutting.piles.iter().enumerate().map(row).collect();
    let heads = [("Pile", 12), ("Sheets", 20), ("Kits, row by row from the left", 40), ("Each kit takes", 30)];
    flow.table(&heads, &rows)
}

/// Why there are no fewer sheets.
fn least(flow: &mut TicketPages<'_>, cutting: &Cutting, facts: &Facts, _: &Desk<'_>) -> Result<(), Problem> {
    let (columns, rows) = cutting.grid;
    let sheets: usize = cutting.piles.iter().map(Pile::len).sum();
    let pieces = cutting.piles.iter().map(Pile::len).max().unwrap_or(0);
    let sets = usize::try_from(facts.job.learners + facts.job.spares).unwrap_or(usize::MAX);
    let need = if sets == 1 { "needs" } else { "need" };
    let mut text = format!(
        "{} is the least for this cut: a set has {} with its band, a sheet has {}, and {} {need} {}.",
        capital(&count(sheets, "sheet")),
        count(pieces, "piece"),
        count(usize::try_from(columns * rows).unwrap_or(usize::MAX), "place"),
        count(sets, "set"),
        count(cutting.piles.len(), "pile"),
    );
    match facts.fill {
        Fill::Even => {}
        Fill::Spares(n) => text = format!("{text} The last pile is filled up with {}.", count(n, "spare set")),
        Fill::Blanks(n) => {
            text = format!(
                "{text} {} of the last pile {} blank; that wastes less than more spare sets would.",
                count(n, "place"),
                if n == 1 { "stays" } else { "stay" },
            );
        }
    }
    flow.text(&text)
}
