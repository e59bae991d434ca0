//! `check`: everything short of writing.

use std::fmt::Write;
use std::path::Path;

use serde_json::{Map, Value, json};

use super::Report;
use super::failure::Failure;
use super::files::read::shown;
use super::gather::{Planned, Shared};
use crate::diag::report;
use crate::sheets::sheaf::Sheaf;
use crate::spec;

/// Says what would come out of a lesson, and what was assumed where its file is silent.
pub fn run(shared: &Shared, path: &Path) -> Result<Report, Failure> {
    let planned = shared.plan(path)?;
    let packets = shared.lay(&planned)?;
    let notes = planned.lesson.chosen.notes.clone();
    let findings = findings(&planned);
    let mut json = json!({ "findings": findings, "assumed": assumed(&planned) });
    json["packets"] = packets.iter().map(|p| json!({ "file": p.file(), "pages": p.len() })).collect();
    let human = human(path, &planned, &packets);
    drop(packets);
    Ok(Report { human, notes, warnings: planned.warnings, json })
}

/// What the file leaves open, with the values taken.
pub(super) fn assumed(planned: &Planned) -> Map<String, Value> {
    spec::assumed(&planned.lesson.spec).into_iter().map(|(key, value)| (key.to_owned(), value)).collect()
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

fn human(path: &Path, planned: &Planned, packets: &[Sheaf<'_>]) -> String {
    let lesson = &planned.lesson;
    let (spec, chosen) = (&lesson.spec, &lesson.chosen);
    let mut text = String::new();
    let _ = writeln!(text, "{}: \"{}\" can be made.", shown(path), spec.title.value);
    let sort = chosen.sort.first().map_or(0, Vec::len);
    let versions =
        if chosen.sort.len() > 1 { format!(" in each of {} versions", chosen.sort.len()) } else { String::new() };
    let _ = writeln!(
        text,
        "  numbers: {} for the model, {sort} to sort{versions}, {} for the quick check",
        chosen.model.len(),
        chosen.exit.len()
    );
    for packet in packets {
        let mut sheets: Vec<(&str, usize)> = Vec::new();
        for page in packet.entries() {
            match sheets.last_mut().filter(|(word, _)| *word == page.sheet.word()) {
                Some((_, count)) => *count += 1,
                None => sheets.push((page.sheet.word(), 1)),
            }
        }
        // Versions alternate board and strips; add up what is the same sheet.
        let mut totals: Vec<(&str, usize)> = Vec::new();
        for (word, count) in sheets {
            match totals.iter_mut().find(|(known, _)| *known == word) {
                Some((_, total)) => *total += count,
                None => totals.push((word, count)),
            }
        }
        let list: Vec<String> =
            totals.iter().map(|(word, n)| if *n == 1 { (*word).to_owned() } else { format!("{word} x{n}") }).collect();
        let _ = writeln!(text, "  {}: {} ({})", packet.file(), pages(packet.len()), list.join(", "));
    }
    let assumed = spec::assumed(spec);
    if !assumed.is_empty() {
        let _ = writeln!(text, "  assumed, because the file does not say:");
        for (key, value) in assumed {
            let _ = writeln!(text, "    {key} = {}", as_toml(&value));
        }
    }
    text
}

/// A value as a lesson file would give it.
fn as_toml(value: &Value) -> String {
    match value {
        Value::Array(items) => format!("[{}]", items.iter().map(as_toml).collect::<Vec<_>>().join(", ")),
        other => other.to_string(),
    }
}

/// `1 page`, `12 pages`.
pub(super) fn pages(count: usize) -> String {
    if count == 1 { "1 page".to_owned() } else { format!("{count} pages") }
}
