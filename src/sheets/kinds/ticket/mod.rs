//! The copy room's job ticket: what to print on which stock, where to cut, what each pile is, what to do with it.
//!
//! In: the [`Facts`] of the copy room's files. Out: one or two pages that can be run without a phone call. The
//! same facts stand in the files' own preferences and in the print command at the end.

pub mod facts;
mod look;

use crate::diag::Problem;
use crate::lesson::job::{Edge, PrintSides};
use crate::measure::Length;
use crate::sheets::job::impose::Fill;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{CutLine, Page, Stock};
use crate::spec::SheetKind;
use facts::{Cutting, Facts, Line, count, distance};
use look::TicketPages;

/// Lays the ticket out.
pub fn lay(desk: &Desk<'_>, facts: &Facts) -> Result<Vec<Page>, Problem> {
    let mut flow = TicketPages::new(desk)?;
    flow.job(&facts.title)?;
    flow.text(&class(facts))?;
    flow.gap(Length::mm(2));
    flow.banner("Print at actual size: scaling none, 100 %. Do not fit to page.")?;
    print(&mut flow, facts)?;
    if let Some(cutting) = &facts.cutting {
        cut(&mut flow, cutting)?;
        piles(&mut flow, cutting, facts)?;
    }
    apart(&mut flow, facts)?;
    scissors(&mut flow, facts, desk)?;
    finishing(&mut flow, facts)?;
    machine(&mut flow, facts, desk)?;
    flow.finish()
}

/// Whom it is for.
fn class(facts: &Facts) -> String {
    let (learners, spares, extra, versions) = facts.class;
    let of = |n: u32, one: &str| count(usize::try_from(n).unwrap_or(usize::MAX), one);
    let mut text = format!("Class sets for {}", of(learners, "learner"));
    if spares > 0 {
        text = format!("{text} and {}", of(spares, "spare set"));
    }
    if extra > 0 {
        text = format!("{text}, with {} more that cost no sheet in the piles", of(extra, "spare set"));
    }
    match versions {
        0 | 1 => format!("{text}."),
        n => format!("{text}, in {n} versions."),
    }
}

/// The files, and how to print each.
fn print(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    flow.heading("What to print");
    let row = |line: &Line| {
        let (stock, sides) = (weight(line.stock), sides(line.sides));
        vec![
            line.file.to_owned(),
            stock.to_owned(),
            line.sheets.to_string(),
            line.impressions.to_string(),
            sides.to_owned(),
            line.holds.join("; "),
        ]
    };
    let columns = [("File", 37), ("Stock", 44), ("Sheets", 14), ("Impressions", 22), ("Sides", 26), ("Holds", 52)];
    flow.table(&columns, &facts.lines.iter().map(row).collect::<Vec<_>>())?;
    flow.gap(Length::mm(2));
    flow.text("Print each file once, all pages, and keep their order: every learner's copies are in it already.")
}

/// The stock in words. Weights are common practice, no source.
fn weight(stock: Stock) -> &'static str {
    match stock {
        Stock::Paper => "paper, 75\u{2013}90 g/m\u{b2} or 20\u{2013}24 lb bond",
        Stock::Card => "card, 160\u{2013}200 g/m\u{b2} or 65 lb cover to 110 lb index",
    }
}

/// The sides in words.
fn sides(sides: PrintSides) -> &'static str {
    match sides {
        PrintSides::One => "one side",
        PrintSides::Two(Edge::Long) => "two sides, turn on the long edge",
        PrintSides::Two(Edge::Short) => "two sides, turn on the short edge",
    }
}

/// Every cut in its order.
fn cut(flow: &mut TicketPages<'_>, cutting: &Cutting) -> Result<(), Problem> {
    let total = cutting.cuts.len();
    flow.heading(&format!("Cut the piles: {}", count(total, "cut")));
    let held = if cutting.size.width > cutting.size.height { "wide" } else { "upright" };
    flow.text(&format!(
        "{}: {} of {}. Keep each pile in print order, front up, sheet 1 on top, held {held} so that its text reads. \
             Measure from the top edge and from the left edge of the front.",
        cutting.file,
        count(cutting.piles.len(), "pile"),
        each(cutting),
    ))?;
    flow.gap(Length::mm(1));
    let row = |(k, cut): (usize, &CutLine)| {
        let (edge, at) = match *cut {
            CutLine::Level(y) => ("top", y),
            CutLine::Upright(x) => ("left", x),
        };
        let (metric, inches) = distance(at);
        vec![(k + 1).to_string(), edge.to_owned(), metric, inches]
    };
    let rows: Vec<Vec<String>> = cutting.cuts.iter().enumerate().map(row).collect();
    // Two cuts a line: the list stays short enough to take in at a glance, level cuts left, upright ones right.
    let (level, upright): (Vec<_>, Vec<_>) = rows.into_iter().partition(|row| row[1] == "top");
    let blank = || vec![String::new(); 3];
    let cells =
        |row: Option<&Vec<String>>| row.map_or_else(blank, |row| vec![row[0].clone(), row[2].clone(), row[3].clone()]);
    let lines = (0..level.len().max(upright.len())).map(|k| [cells(level.get(k)), cells(upright.get(k))].concat());
    let columns = [("Cut", 8), ("From the top", 20), ("", 16), ("Cut", 8), ("From the left", 20), ("", 16)];
    flow.table(&columns, &lines.collect::<Vec<_>>())?;
    flow.gap(Length::mm(2));
    flow.text(&format!(
        "First the {} across, then the {} down through every row. The first and the last of each trim the edges.",
        count(level.len(), "cut"),
        count(upright.len(), "cut"),
    ))
}

/// How many sheets the piles have.
fn each(cutting: &Cutting) -> String {
    let (least, most) = (cutting.piles.iter().map(|p| p.sheets).min(), cutting.piles.iter().map(|p| p.sheets).max());
    match (least, most) {
        (Some(least), Some(most)) if least < most => format!("{least} to {most} sheets each"),
        (_, most) => format!("{} each", count(most.unwrap_or(0), "sheet")),
    }
}

/// So many piles are listed place by place; the bands say the same for all.
const LISTED: usize = 6;

/// What lies where after the cuts.
fn piles(flow: &mut TicketPages<'_>, cutting: &Cutting, facts: &Facts) -> Result<(), Problem> {
    flow.heading("What each pile is");
    let (columns, rows) = cutting.grid;
    let places = usize::try_from(columns * rows).unwrap_or(usize::MAX);
    flow.text(
        "After the cuts, the pieces at each place are one learner's whole set in order, band on top: nothing to sort. Put \
         a rubber band or clip round each set.")?;
    flow.gap(Length::mm(1));
    let across: Vec<String> = (1..=columns).map(|c| format!("Column {c}")).collect();
    let mut heads: Vec<(&str, u32)> = vec![("Pile, row", 10)];
    heads.extend(across.iter().map(|name| (name.as_str(), 10)));
    let wide = usize::try_from(columns).unwrap_or(1);
    let mut lines = Vec::new();
    for (k, pile) in cutting.piles.iter().take(LISTED).enumerate() {
        for (r, row) in pile.places.chunks(wide.max(1)).enumerate() {
            let mut line = vec![format!("{}, {}", k + 1, r + 1)];
            line.extend(row.iter().cloned());
            line.resize(wide + 1, "\u{2013}".to_owned());
            lines.push(line);
        }
    }
    flow.table(&heads, &lines)?;
    flow.gap(Length::mm(2));
    if cutting.piles.len() > LISTED {
        let more = cutting.piles.len() - LISTED;
        flow.text(&format!("{} more go on in the same way; their bands say whose they are.", count(more, "pile")))?;
    }
    let sheets: usize = cutting.piles.iter().map(|pile| pile.sheets).sum();
    let sets = facts.class.0 + facts.class.1 + facts.class.2;
    let mut text = format!(
        "{} is the least for this cut: a set has {} with its band, a sheet has {}, and {sets} sets need {}.",
        count(sheets, "sheet"),
        count(cutting.pieces, "piece"),
        count(places, "place"),
        count(cutting.piles.len(), "pile"),
    );
    match cutting.fill {
        Fill::Even => {}
        Fill::Spares(n) => {
            text = format!("{text} The last pile is filled up with {}.", count(n, "spare set"));
        }
        Fill::Blanks(n) => {
            text = format!(
                "{text} {} of the last pile stay blank; that wastes less than more spare sets would.",
                count(n, "place")
            );
        }
    }
    flow.text(&text)
}

/// What is cut apart before it is handed out.
fn apart(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    let Some((sheets, cuts)) = facts.slips else { return Ok(()) };
    flow.heading("Cut the quick checks apart");
    flow.text(&format!(
        "{}, {} on each, all alike: cut them as one pile. Any slip serves any learner.",
        count(sheets, "sheet"),
        count(cuts, "straight cut"),
    ))
}

/// What learners cut themselves.
fn scissors(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    if facts.scissors.is_empty() {
        return Ok(());
    }
    flow.heading("Do not cut these: learners do");
    let row = |s: &facts::Scissors| {
        let title = desk.lesson.wording().sheet_title(s.sheet).to_owned();
        vec![title, count(s.most.0, "page"), count(s.most.1, "straight cut")]
    };
    let columns = [("Sheet", 30), ("Each learner gets", 30), ("Cuts on them", 30)];
    flow.table(&columns, &facts.scissors.iter().map(row).collect::<Vec<_>>())
}

/// What is done by hand, the checks, and the cautions.
fn finishing(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    flow.heading("Tick off");
    let ruled = facts.scissors.iter().any(|s| s.sheet == SheetKind::Blocks);
    let measured = if ruled {
        "Scaling is off: the 10 cm line on a sheet of blocks measures 10 cm."
    } else {
        "Scaling is off: the first sheet is not smaller than in the file."
    };
    let mut todo = vec![measured.to_owned()];
    for line in &facts.lines {
        let two = if line.sides == PrintSides::One { "" } else { ", two-sided" };
        todo.push(format!("{} printed: {} of {}{two}.", line.file, count(line.sheets, "sheet"), line.stock.word()));
    }
    if facts.lines.iter().any(|line| line.sides != PrintSides::One) {
        todo.push("One sheet held to the light: each mark on the back lies inside its piece.".to_owned());
    }
    if let Some(cutting) = &facts.cutting {
        todo.push(format!("{} made on each pile.", count(cutting.cuts.len(), "cut")));
        let sets = facts.class.0 + facts.class.1 + facts.class.2;
        todo.push(format!("{sets} sets banded, each with its band on top, in the order of the learners' numbers."));
    }
    todo.push(
        "Packets kept in print order, one learner after the other; no stapling, so that pages can be laid out."
            .to_owned(),
    );
    flow.ticks(&todo)?;
    if facts.cutting.is_some() {
        flow.heading("Care at the guillotine");
        flow.text(
            "Trained adults only, and the rules of this workplace come first. Guard in place, never removed. Flat, stable \
             table. Fingers behind the rail; loose clothing and hair away. No more sheets at a time than the machine is made \
             for: split a pile if need be and put the parts back in order. Latch the blade down after use.")?;
    }
    Ok(())
}

/// What print software is told.
fn machine(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    flow.heading("For the print software");
    let paper = desk.lesson.spec.paper.value;
    let all: Vec<_> = facts.lines.iter().map(|line| facts::attributes(line.stock, line.sides, paper)).collect();
    let mut columns = vec![("IPP attribute", 40)];
    columns.extend(facts.lines.iter().map(|line| (line.file, 55)));
    let names = all.first().map(|list| list.iter().map(|(name, _)| *name).collect::<Vec<_>>()).unwrap_or_default();
    let row = |(k, name): (usize, &&str)| {
        let mut row = vec![(*name).to_owned()];
        row.extend(all.iter().filter_map(|list| list.get(k)).map(|(_, value)| (*value).to_owned()));
        row
    };
    let mut rows: Vec<Vec<String>> = names.iter().enumerate().map(row).collect();
    let mut copies = vec!["copies".to_owned()];
    copies.extend(all.iter().map(|_| "1".to_owned()));
    rows.push(copies);
    flow.table(&columns, &rows)?;
    flow.gap(Length::mm(2));
    flow.text("Ready to run where these files are (add -d and a printer's name if it is not the usual one):")?;
    flow.gap(Length::mm(1));
    for line in &facts.lines {
        let lines = broken(flow, &line.command);
        flow.command(&lines)?;
    }
    Ok(())
}

/// A command over as many lines as it needs, each but the last ending in a backslash, so that it runs as printed.
fn broken(flow: &TicketPages<'_>, parts: &[String]) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        match lines.last_mut() {
            Some(line) if flow.holds(&format!("{line} {part} \\")) => {
                line.push(' ');
                line.push_str(part);
            }
            _ => lines.push(part.clone()),
        }
    }
    let last = lines.len().saturating_sub(1);
    for line in &mut lines[..last] {
        line.push_str(" \\");
    }
    lines
}
