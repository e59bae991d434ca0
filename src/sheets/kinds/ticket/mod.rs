//! The copy room's job ticket: what to print on which stock, where to cut, what each pile is, what to do with it.
//!
//! In: the [`Facts`] of the copy room's files. Out: pages that can be run without a phone call. The same facts stand in the
//! files' own preferences and in the print command at the end.

mod cut;
pub mod facts;
mod look;
pub mod proof;
mod words;

use crate::diag::Problem;
use crate::lesson::job::{Cutter, FileFacts, Keep, PartFacts, PartKind, PrintSides, PrintedSheet, Stock};
use crate::measure::Length;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;
use facts::{Facts, count};
use look::TicketPages;
pub use words::savings;
use words::{capital, ink, kept, list, pages, paper, sheets, sides, stock};

/// Lays the ticket out.
pub fn lay(desk: &Desk<'_>, facts: &Facts) -> Result<Vec<Page>, Problem> {
    let mut flow = TicketPages::new(desk)?;
    flow.job(&facts.title)?;
    flow.text(&class(facts))?;
    flow.text("Requested by __________________ Deliver to __________________ Needed by ________________")?;
    flow.gap(Length::mm(2));
    flow.banner("Print at actual size: scaling none, 100 %. Do not fit to page.")?;
    print(&mut flow, facts)?;
    parts(&mut flow, facts, desk)?;
    cut::piles(&mut flow, facts, desk)?;
    apart(&mut flow, facts)?;
    cutters(&mut flow, facts, desk)?;
    emergency(&mut flow, facts, desk)?;
    save(&mut flow, facts, desk)?;
    finishing(&mut flow, facts)?;
    machine(&mut flow, facts)?;
    flow.finish()
}

/// Whom it is for.
fn class(facts: &Facts) -> String {
    let job = &facts.job;
    let of = |n: u32, one: &str| count(usize::try_from(n).unwrap_or(usize::MAX), one);
    let mut text = format!("Class sets for {}", of(job.learners, "learner"));
    let asked = job.spares - job.extra;
    if asked > 0 {
        text = format!("{text} and {}", of(asked, "spare set"));
    }
    if job.extra > 0 {
        text = format!("{text}, with {} more that cost no sheet in the piles", of(job.extra, "spare set"));
    }
    match facts.versions {
        0 | 1 => format!("{text}."),
        n => format!("{text}, in {n} versions."),
    }
}

/// The files, and how to print each.
fn print(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    flow.heading("What to print");
    let files = &facts.job.files;
    let total: usize = files.iter().map(FileFacts::sheets).sum();
    let of = |stock: Stock| {
        Some(format!("{} of {}", facts.job.stock(stock), stock.word())).filter(|_| facts.job.stock(stock) > 0)
    };
    let loads: Vec<String> = [Stock::Paper, Stock::Card].into_iter().filter_map(of).collect();
    flow.text(&format!(
        "Load {} in all: {}. Paper size: {}.",
        count(total, "sheet"),
        list(&loads),
        paper(facts.paper)
    ))?;
    flow.gap(Length::mm(1));
    let row = |file: &FileFacts| {
        vec![
            file.file.to_owned(),
            stock(file.stock).to_owned(),
            file.sheets().to_string(),
            file.pages.to_string(),
            sides(file.sides).to_owned(),
            ink(file.colour).to_owned(),
        ]
    };
    let columns = [("File", 50), ("Stock", 52), ("Sheets", 14), ("Impressions", 24), ("Sides", 30), ("Ink", 20)];
    flow.table(&columns, &files.iter().map(row).collect::<Vec<_>>())?;
    flow.gap(Length::mm(2));
    let proof = "Sheet 1 of each file is a proof: print it alone and look at it. Then print the rest of the file once, and keep \
                 its order: every copy is in it already.";
    flow.text(proof)
}

/// What is where in each file, and what to print again if something goes wrong.
fn parts(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    flow.heading("What is where");
    let titles = |kinds: &[SheetKind]| {
        let titles: Vec<String> =
            kinds.iter().map(|kind| desk.lesson.wording().sheet_title(*kind).to_lowercase()).collect();
        list(&titles)
    };
    let mut rows = Vec::new();
    for file in &facts.job.files {
        for part in &file.parts {
            let what = match &part.kind {
                PartKind::Proof => "proof: print it first".to_owned(),
                PartKind::Kit { kinds, kits, .. } => format!("{} for {}", titles(kinds), count(*kits, "kit")),
                PartKind::Piles { piles } => format!("strips in {}", count(*piles, "pile")),
                PartKind::Checks { .. } => "quick checks, a slip for each learner".to_owned(),
                PartKind::Packets { kinds, learners } => {
                    format!("{} of {}", count(learners.len(), "packet"), titles(kinds))
                }
            };
            let keep = if part.kind == PartKind::Proof { "" } else { kept(part.kind.keep()) }.to_owned();
            rows.push(vec![file.file.to_owned(), sheets(part.sheets), pages(part.pages), what, keep]);
        }
    }
    let columns = [("File", 44), ("Sheets", 18), ("Pages", 18), ("What", 66), ("Afterwards", 24)];
    flow.table(&columns, &rows)?;
    flow.gap(Length::mm(2));
    for line in again(facts) {
        flow.text(&line)?;
    }
    Ok(())
}

/// So many learners' pages are listed one by one; the others follow from them.
const LISTED: usize = 60;

/// What to print again.
fn again(facts: &Facts) -> Vec<String> {
    let mut lines = Vec::new();
    for file in &facts.job.files {
        let kept = file.parts.iter().any(|part| part.kind.keep() == Keep::Kit);
        let used = |part: &&PartFacts| part.kind.keep() == Keep::UsedUp && part.kind != PartKind::Proof;
        let used: Vec<_> = file.parts.iter().filter(used).map(|part| part.pages).collect();
        match (kept, used.first(), used.last()) {
            (true, Some(first), Some(last)) => lines.push(format!(
                "{}: where the class still has its kits, print pages 1 and {} only.",
                file.file,
                pages((first.0, last.1))
            )),
            (true, ..) => {
                lines.push(format!("{}: where the class still has its kits, leave this file out.", file.file));
            }
            _ => {}
        }
        for part in &file.parts {
            let PartKind::Packets { learners, .. } = &part.kind else { continue };
            let of = |(number, pages): (usize, &(usize, usize))| format!("{number}: {}", self::pages(*pages));
            let listed: Vec<String> = (1..).zip(learners).take(LISTED).map(of).collect();
            let more = if learners.len() > LISTED { ", and so on" } else { "" };
            lines.push(format!(
                "{}: to print one learner's packet again, take these pages. Learner {}{more}.",
                file.file,
                listed.join(" \u{b7} ")
            ));
        }
    }
    lines
}

/// What is cut apart before it is handed out.
fn apart(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    let Some(checks) = facts.job.sheet(SheetKind::Exit) else { return Ok(()) };
    flow.heading("Cut the quick checks apart");
    flow.text(&format!(
        "{}, {} on each, all alike: cut them as one pile. Any slip serves any learner.",
        count(checks.sheets, "sheet"),
        count(facts.slip_cuts, "straight cut"),
    ))
}

/// What is cut by whom else.
fn cutters(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    let title = |sheet: &PrintedSheet| desk.lesson.wording().sheet_title(sheet.kind).to_owned();
    let teacher: Vec<&PrintedSheet> = facts.job.cut_by(Cutter::Teacher).collect();
    if !teacher.is_empty() {
        flow.heading("Not for the copy room: cut by the teacher or a helper before the lesson");
        let row = |sheet: &&PrintedSheet| {
            let kits = count(usize::try_from(sheet.copies).unwrap_or(usize::MAX), "kit");
            vec![
                title(sheet),
                count(sheet.sheets, "sheet"),
                format!("{kits}, {}", count(sheet.pieces, "piece") + " each"),
            ]
        };
        let columns = [("Sheet", 30), ("To cut", 20), ("Makes", 40)];
        flow.table(&columns, &teacher.iter().map(row).collect::<Vec<_>>())?;
    }
    let learners: Vec<&PrintedSheet> = facts.job.cut_by(Cutter::Learner).collect();
    if !learners.is_empty() {
        flow.heading("Do not cut these: learners do");
        let row =
            |sheet: &&PrintedSheet| vec![title(sheet), count(sheet.pages, "page"), count(sheet.cuts, "straight cut")];
        let columns = [("Sheet", 30), ("Each learner gets", 30), ("Cuts on them", 30)];
        flow.table(&columns, &learners.iter().map(row).collect::<Vec<_>>())?;
    }
    Ok(())
}

/// What to copy where a file is missing: one set for everyone, version by version.
fn emergency(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    if facts.emergency.is_empty() {
        return Ok(());
    }
    flow.heading("If a file is missing");
    let said = facts.emergency.iter().map(|set| {
        let name = desk.lesson.wording().page_name(set.kind, set.version).to_lowercase();
        let of = if set.pages.0 == set.pages.1 { "page" } else { "pages" };
        let version = set.version.map(|version| format!(" {version}")).unwrap_or_default();
        let name = name.strip_suffix(&version.to_lowercase()).unwrap_or(&name);
        format!("{name}{version}: {of} {} \u{d7} {}", pages(set.pages), set.copies)
    });
    let said: Vec<String> = said.collect();
    flow.text(&format!("Copy from teacher.pdf at actual size, so many of each. {}.", capital(&said.join(" \u{b7} "))))
}

/// What would save paper.
fn save(flow: &mut TicketPages<'_>, facts: &Facts, desk: &Desk<'_>) -> Result<(), Problem> {
    let Some(line) = savings(&facts.job, desk.lesson.wording()) else { return Ok(()) };
    flow.heading("Fewer sheets next time");
    flow.text(&line)
}

/// What is done by hand, the checks, and the cautions.
fn finishing(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    flow.heading("Tick off");
    let files = &facts.job.files;
    let mut todo = vec!["Proof of each file: both lines measure what they say, and the frame is whole.".to_owned()];
    if files.iter().any(|file| file.sides != PrintSides::One) {
        todo.push("Proof held to the light: the ring on the back lies round the cross on the front.".to_owned());
    }
    for file in files {
        let two = if file.sides == PrintSides::One { "" } else { ", two-sided" };
        let (sheets, stock) = (count(file.sheets(), "sheet"), file.stock.word());
        todo.push(format!("{} printed: {sheets} of {stock}{two}.", file.file));
    }
    for cutting in &facts.cuttings {
        todo.push(format!(
            "{}: {} made on each of {}.",
            capital(&words::pieces(cutting.kind, cutting.what)),
            count(cutting.cuts.len(), "cut"),
            count(cutting.piles.len(), "pile")
        ));
    }
    if facts.cuttings.iter().any(|cutting| cutting.kind == SheetKind::Strips) {
        let sets = facts.job.learners + facts.job.spares;
        todo.push(format!(
            "{sets} sets of strips banded, each with its band on top, in the order of the learners' numbers."
        ));
    }
    todo.push(
        "Packets kept in print order, one learner after the other; no stapling, so that pages can be laid out."
            .to_owned(),
    );
    flow.ticks(&todo)?;
    if files.iter().any(|file| file.sides != PrintSides::One) {
        flow.gap(Length::mm(1));
        flow.text(
            "The shapes on the backs of strips are for learners to check themselves: all strips of one row carry one shape. \
             They are no printing fault.",
        )?;
    }
    if !facts.cuttings.is_empty() {
        flow.heading("Care at the guillotine");
        flow.text(
            "Trained adults only, and the rules of this workplace come first. Guard in place, never removed. Flat, stable \
             table. Fingers behind the rail; loose clothing and hair away. No more sheets at a time than the machine is made \
             for: split a pile if need be and put the parts back in order. Latch the blade down after use.",
        )?;
    }
    Ok(())
}

/// What print software is told.
fn machine(flow: &mut TicketPages<'_>, facts: &Facts) -> Result<(), Problem> {
    flow.heading("For the print software");
    let files = &facts.job.files;
    let all: Vec<_> = files.iter().map(|file| facts::attributes(file, facts.paper)).collect();
    let first = all.first().map_or(&[][..], Vec::as_slice);
    let (same, other): (Vec<_>, Vec<_>) = (0..first.len()).partition(|k| all.iter().all(|list| list[*k] == first[*k]));
    let same: Vec<String> = same.iter().map(|k| format!("{}: {}", first[*k].0, first[*k].1)).collect();
    flow.text(&format!("IPP attributes of every file: copies: 1 \u{b7} {}.", same.join(" \u{b7} ")))?;
    if !other.is_empty() {
        flow.gap(Length::mm(1));
        let mut columns = vec![("File", 50)];
        columns.extend(other.iter().map(|k| (first[*k].0, 40)));
        let row = |(file, list): (&FileFacts, &Vec<(&str, &str)>)| {
            let mut row = vec![file.file.to_owned()];
            row.extend(other.iter().map(|k| list[*k].1.to_owned()));
            row
        };
        flow.table(&columns, &files.iter().zip(&all).map(row).collect::<Vec<_>>())?;
    }
    flow.gap(Length::mm(2));
    flow.text("Ready to run where these files are (add -d and a printer's name if it is not the usual one):")?;
    flow.gap(Length::mm(1));
    for file in files {
        let lines = broken(flow, &facts::command(file, facts.paper, &facts.title));
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
