//! The copy room's job ticket: what to print on which stock, where to cut, what each pile is, what to do with it.
//!
//! In: the [`Facts`] of the copy room's files. Out: pages that can be run without a phone call. The same facts stand in the
//! files' own preferences and in the print command at the end.

mod cut;
pub mod facts;
mod gauge;
mod look;
mod packets;
pub mod proof;
pub mod slip_sheet;
mod words;

use crate::diag::Problem;
use crate::lesson::job::{Cutter, FileFacts, Keep, PartKind, PrintSides, PrintedSheet, Stock};
use crate::measure::{Count, Length};
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;
use crate::wording::ticket::{Done, FilePart};
use crate::wording::{Spelling, Wording};
use facts::{Emergency, Facts};
use look::TicketPages;
use words::pages;
pub use words::savings;

/// Lays the ticket out.
pub fn lay(desk: &Desk<'_>, facts: &Facts) -> Result<Vec<Page>, Problem> {
    let mut flow = TicketPages::new(desk)?;
    flow.job(&facts.title)?;
    let (wording, job) = (desk.lesson.wording(), &facts.job);
    flow.text(&wording.class_sets(job.learners, job.spares - job.extra, job.extra, facts.versions))?;
    flow.text(wording.requested())?;
    flow.gap(Length::mm(2));
    flow.banner(wording.actual_size())?;
    print(&mut flow, facts, wording)?;
    parts(&mut flow, facts, wording)?;
    cut::piles(&mut flow, facts, wording)?;
    apart(&mut flow, facts, wording)?;
    cutters(&mut flow, facts, wording)?;
    emergency(&mut flow, facts, wording)?;
    save(&mut flow, facts, wording)?;
    finishing(&mut flow, facts, wording)?;
    machine(&mut flow, facts, wording)?;
    flow.finish()
}

/// Headings with their shares of the width.
fn headed<const N: usize>(heads: [&'static str; N], parts: [u32; N]) -> Vec<(&'static str, u32)> {
    heads.into_iter().zip(parts).collect()
}

/// The files, and how to print each.
fn print(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    flow.heading(wording.print_title());
    let files = &facts.job.files;
    let total: usize = files.iter().map(FileFacts::sheets).sum();
    let stocks = [Stock::Paper, Stock::Card].map(|stock| (stock, facts.job.stock(stock)));
    let stocks: Vec<(Stock, usize)> = stocks.into_iter().filter(|(_, count)| *count > 0).collect();
    flow.text(&wording.load(total, &stocks, facts.paper))?;
    flow.gap(Length::mm(1));
    let row = |file: &FileFacts| {
        vec![
            file.file.to_owned(),
            wording.stock_weights(file.stock).to_owned(),
            file.sheets().to_string(),
            file.pages.to_string(),
            wording.sides_printed(file.sides).to_owned(),
            wording.ink_name(file.colour, Spelling::from(facts.paper)).to_owned(),
        ]
    };
    let columns = headed(wording.files_heads(), [54, 48, 14, 24, 30, 20]);
    flow.table(&columns, &files.iter().map(row).collect::<Vec<_>>())?;
    flow.gap(Length::mm(2));
    flow.text(wording.proof_first())
}

/// What is where in each file, and what to print again if something goes wrong.
fn parts(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    flow.heading(wording.where_title());
    let mut rows = Vec::new();
    for file in &facts.job.files {
        for part in file.parts.iter().filter(|part| part.kind != PartKind::SlipSheet) {
            let what = told(&part.kind, wording);
            let kept = wording.kept(part.kind.keep() == Keep::Kit);
            let keep = if part.kind == PartKind::Proof { "" } else { kept }.to_owned();
            rows.push(vec![file.file.to_owned(), pages(part.sheets), pages(part.pages), what, keep]);
        }
    }
    let columns = headed(wording.where_heads(), [50, 17, 17, 62, 24]);
    flow.table(&columns, &rows)?;
    flow.gap(Length::mm(2));
    if facts.job.files.iter().flat_map(|file| &file.parts).any(|part| part.kind == PartKind::SlipSheet) {
        flow.text(wording.slip_sheets_told())?;
    }
    for line in again(facts, wording) {
        flow.text(&line)?;
    }
    Ok(())
}

/// What a part of a file is, in words.
pub fn told(part: &PartKind, wording: &dyn Wording) -> String {
    wording.file_part(match part {
        PartKind::Checks { slips, to_page, marks: Some((first, last)) } => {
            return wording.checks_printed(*first, *last, *slips, *to_page);
        }
        PartKind::Proof => FilePart::Proof,
        PartKind::SlipSheet => FilePart::SlipSheet,
        PartKind::Kit { kinds, kits, .. } => FilePart::Kits(kinds, *kits),
        PartKind::Piles { piles } => FilePart::Piles(*piles),
        PartKind::Checks { slips, to_page, marks: None } => FilePart::Checks(*slips, *to_page),
        PartKind::Packets { kinds, learners } => FilePart::Packets(kinds, learners.len()),
    })
}

/// What to print again.
fn again(facts: &Facts, wording: &dyn Wording) -> Vec<String> {
    let (mut lines, mut first) = (Vec::new(), true);
    for file in &facts.job.files {
        if file.parts.iter().any(|part| part.kind.keep() == Keep::Kit) {
            let used: Vec<String> = packets::without_kits(file).into_iter().map(pages).collect();
            lines.push(wording.kits_at_hand(file.file, &used));
        }
        for part in &file.parts {
            let PartKind::Packets { kinds, learners } = &part.kind else { continue };
            lines.extend(wording.print_again(file.file, &packets::found(learners), only(kinds), first));
            first = false;
        }
    }
    lines
}

/// The sheet of packets that have one alone.
fn only(kinds: &[SheetKind]) -> Option<SheetKind> {
    if let [kind] = kinds { Some(*kind) } else { None }
}

/// Whether sheets of quick checks are cut apart.
fn cuts_checks(facts: &Facts) -> bool {
    facts.job.has(SheetKind::Exit) && !facts.slip_cuts.is_empty()
}

/// What is cut apart before it is handed out.
fn apart(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    let Some(checks) = facts.job.sheet(SheetKind::Exit).filter(|_| cuts_checks(facts)) else { return Ok(()) };
    flow.heading(wording.checks_title());
    flow.lead(&wording.checks_cut(checks.sheets, facts.slip_cuts.len(), facts.job.groups.len() > 1));
    if facts.cuttings.is_empty() {
        cut::gauge(flow, std::iter::once(facts.slip_cuts.as_slice()), wording);
    }
    cut::cut_table(flow, &facts.slip_cuts, wording)?;
    // Where piles are cut, the cautions stand in full.
    if facts.cuttings.is_empty() { flow.text(wording.guillotine_in_short()) } else { Ok(()) }
}

/// What is cut by whom else.
fn cutters(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    let titled = |sheet: &PrintedSheet| wording.sheet_title(sheet.kind).to_owned();
    let makes = |sheet: &PrintedSheet| wording.kits_of(sheet.copies, sheet.pieces, sheet.holds);
    let whole = |sheet: &PrintedSheet| vec![titled(sheet), wording.sheets(sheet.sheets), makes(sheet)];
    let cubes = |sheet: &PrintedSheet| {
        vec![wording.cube_rows().to_owned(), wording.straight_cuts(sheet.cube_cuts), makes(sheet)]
    };
    let mut teacher: Vec<Vec<String>> = facts.job.cut_by(Cutter::Teacher).map(whole).collect();
    teacher.extend(facts.job.sheets.iter().filter(|sheet| sheet.cube_cuts > 0).map(cubes));
    teacher.extend(facts.job.sheet(SheetKind::Mat).filter(|mat| mat.pages > 1).map(|mat| {
        let pages = mat.pages.narrow();
        vec![titled(mat), wording.sheets(mat.sheets), wording.joined(mat.kind, mat.copies, pages)]
    }));
    if !teacher.is_empty() {
        let (title, heads) = wording.teacher_cuts();
        flow.heading(title);
        flow.table(&headed(heads, [34, 20, 46]), &teacher)?;
    }
    let learners: Vec<&PrintedSheet> = facts.job.cut_by(Cutter::Learner).collect();
    if !learners.is_empty() {
        let (title, heads) = wording.learners_cut(facts.job.learners == 1);
        flow.heading(title);
        let row = |sheet: &&PrintedSheet| {
            let up_to = |uneven: bool, most: String| if uneven { wording.up_to(&most) } else { most };
            let told = |most: String| up_to(sheet.fewest < sheet.pages, most);
            let cuts = |most: String| up_to(sheet.fewest_cuts < sheet.cuts, most);
            vec![titled(sheet), told(wording.pages(sheet.pages)), cuts(wording.straight_cuts(sheet.cuts))]
        };
        let columns = headed(heads, [30, 30, 30]);
        flow.table(&columns, &learners.iter().map(row).collect::<Vec<_>>())?;
    }
    Ok(())
}

/// What to copy where a file is missing: one set for everyone, version by version.
fn emergency(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    if facts.emergency.is_empty() {
        return Ok(());
    }
    flow.heading(wording.file_missing_title());
    let set = |set: &Emergency| {
        let of = set.marks.map(|marks| wording.runs(&[marks])).or(set.version.map(|version| version.to_string()));
        (set.kind, of, pages(set.pages), set.pages.0 == set.pages.1, set.copies)
    };
    flow.text(&wording.copy_masters(&facts.emergency.iter().map(set).collect::<Vec<_>>()))?;
    let marked = facts.job.has(SheetKind::Strips) && facts.job.files.iter().any(|file| file.sides != PrintSides::One);
    if marked { flow.text(wording.masters_bare()) } else { Ok(()) }
}

/// What would save paper.
fn save(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    let Some(line) = savings(&facts.job, wording) else { return Ok(()) };
    flow.heading(wording.save_title());
    flow.text(&line)
}

/// What is done by hand, the checks, and the cautions.
fn finishing(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    flow.heading(wording.done_title());
    let files = &facts.job.files;
    let both = files.iter().any(|file| file.sides != PrintSides::One);
    let sets = facts.job.learners + facts.job.spares;
    let mut todo = vec![Done::Proof];
    todo.extend(both.then_some(Done::ProofBack));
    for file in files {
        todo.push(Done::Printed(file.file, file.sheets(), file.stock, file.sides != PrintSides::One));
    }
    let parted: Vec<Option<String>> = facts.cuttings.iter().map(|cutting| facts.parted(cutting)).collect();
    for (cutting, of) in facts.cuttings.iter().zip(&parted) {
        todo.push(Done::Cut(cutting.what, of.as_deref(), cutting.cuts.len(), cutting.piles.len()));
    }
    if cuts_checks(facts) {
        todo.push(Done::ChecksCut(facts.slip_cuts.len()));
    }
    if facts.cuttings.iter().any(|cutting| cutting.kind == SheetKind::Strips) {
        todo.push(Done::Banded(sets));
    }
    let packets: Vec<&[SheetKind]> =
        files.iter().flat_map(|file| &file.parts).filter_map(|part| part.kind.packet()).collect();
    if let [first, other @ ..] = packets.as_slice() {
        todo.push(Done::Packets(sets, only(first).filter(|_| other.is_empty())));
    }
    flow.ticks(&todo.into_iter().map(|done| wording.done(done)).collect::<Vec<_>>())?;
    if both {
        flow.gap(Length::mm(1));
        flow.text(wording.shapes_on_backs())?;
    }
    if !facts.cuttings.is_empty() {
        let (title, care) = wording.guillotine();
        flow.heading(title);
        flow.text(care)?;
    }
    Ok(())
}

/// What print software is told.
fn machine(flow: &mut TicketPages<'_>, facts: &Facts, wording: &dyn Wording) -> Result<(), Problem> {
    flow.heading(wording.software_title());
    let files = &facts.job.files;
    let all: Vec<_> = files.iter().map(|file| facts::attributes(file, facts.paper)).collect();
    let first = all.first().map_or(&[][..], Vec::as_slice);
    let (same, other): (Vec<_>, Vec<_>) = (0..first.len()).partition(|k| all.iter().all(|list| list[*k] == first[*k]));
    let same: Vec<String> = same.iter().map(|k| format!("{}: {}", first[*k].0, first[*k].1)).collect();
    flow.lead(&wording.attributes(&same.join(" \u{b7} ")));
    if !other.is_empty() {
        flow.gap(Length::mm(1));
        let mut columns = vec![(wording.file_head(), 50)];
        columns.extend(other.iter().map(|k| (first[*k].0, 40)));
        let row = |(file, list): (&FileFacts, &Vec<(&str, &str)>)| {
            let mut row = vec![file.file.to_owned()];
            row.extend(other.iter().map(|k| list[*k].1.to_owned()));
            row
        };
        flow.table(&columns, &files.iter().zip(&all).map(row).collect::<Vec<_>>())?;
    }
    flow.gap(Length::mm(2));
    flow.lead(wording.commands());
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
