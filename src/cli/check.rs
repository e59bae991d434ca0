//! `check`: everything short of writing.

use std::fmt::Write;
use std::path::Path;

use serde_json::{Map, Value, json};

use super::crowded;
use super::failure::Failure;
use super::files::read::shown;
use super::gather::{Planned, Shared};
use super::numbers;
use super::paper;
use super::report::Report;
use super::table::{self, Row};
use super::term::bold;
use crate::diag::report;
use crate::lesson::job::JobFacts;
use crate::sheets::packets::Packet;
use crate::spec;

/// Says what would come out of a lesson, and what was assumed where its file is silent.
pub fn run(shared: &Shared, path: &Path) -> Result<Report, Failure> {
    let planned = shared.plan(path)?;
    let (packets, job) = shared.lay(&planned, shared.only())?;
    let mut notes = planned.lesson.chosen.notes.clone();
    let mut findings = findings(&planned);
    if shared.only().is_empty() {
        let crowded = crowded::told(shared, path, &planned, &packets, &job);
        findings.extend(crowded.iter().map(|note| finding(&planned, note)));
        notes.extend(crowded);
    }
    let mut json = json!({ "findings": findings, "assumed": assumed(&planned) });
    if !job.files.is_empty() {
        json["paper"] = job
            .files
            .iter()
            .map(|file| json!({ "file": file.file, "stock": file.stock.word(), "sheets": file.sheets() }))
            .collect();
    }
    json["packets"] = packets.iter().map(|p| json!({ "file": p.file(), "pages": p.len() })).collect();
    let human = human(shared, path, &planned, &packets, &job);
    drop(packets);
    Ok(Report { human, notes, warnings: planned.warnings, json })
}

/// What the file leaves open, with the values taken.
pub(super) fn assumed(planned: &Planned) -> Map<String, Value> {
    spec::assumed(&planned.lesson.spec).into_iter().collect()
}

/// Warnings and notes as programs get them.
pub(super) fn findings(planned: &Planned) -> Vec<Value> {
    let notes = planned.lesson.chosen.notes.iter().map(|note| finding(planned, note));
    planned.warnings.iter().map(report::json).chain(notes).collect()
}

/// A note as programs get it.
fn finding(planned: &Planned, note: &str) -> Value {
    json!({
        "severity": "note", "file": planned.source.name, "line": null, "column": null, "message": note, "hint": null,
    })
}

fn human(shared: &Shared, path: &Path, planned: &Planned, packets: &[Packet<'_>], job: &JobFacts) -> String {
    let lesson = &planned.lesson;
    let head = |text: &str| bold(text, shared.coloured);
    let mut text = format!("{}: \"{}\" can be made.\n", shown(path), lesson.spec.title.value);
    text.push_str(&numbers::sets(lesson));
    let rows: Vec<Row> = packets.iter().map(|packet| Row::of(packet, packet.file().to_owned())).collect();
    let _ = write!(text, "\n{}", table::draw(&rows, shared.coloured));
    for packet in packets {
        let _ = writeln!(text, "  {}: {}", packet.file(), holds(packet));
    }
    if !job.files.is_empty() && shared.only().is_empty() {
        let _ = write!(text, "\n{}\n{}{}", head("class copies"), paper::copies(job), paper::totals(job));
    }
    let assumed = spec::assumed(&lesson.spec);
    if !assumed.is_empty() {
        let _ = writeln!(text, "\n{}", head("assumed, because the file does not say"));
        for (key, value) in assumed {
            let _ = writeln!(text, "  {key} = {}", spec::keys::as_toml(&value));
        }
    }
    text
}

/// The sheets of a packet in the order they first come, with their numbers of pages.
fn holds(packet: &Packet<'_>) -> String {
    let mut totals: Vec<(&str, usize)> = Vec::new();
    for page in packet.entries() {
        let word = page.sheet.word();
        match totals.iter_mut().find(|(known, _)| *known == word) {
            Some((_, total)) => *total += 1,
            None => totals.push((word, 1)),
        }
    }
    let list = totals.iter().map(|(word, n)| if *n == 1 { (*word).to_owned() } else { format!("{word} x{n}") });
    list.collect::<Vec<_>>().join(", ")
}

/// `1 page`, `12 pages`.
pub(super) fn pages(count: usize) -> String {
    if count == 1 { "1 page".to_owned() } else { format!("{count} pages") }
}
