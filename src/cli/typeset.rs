//! `typeset`: the packets of a lesson onto the disk.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use super::Report;
use super::args::Input;
use super::check::{assumed, finding, pages};
use super::failure::Failure;
use super::files::read::shown;
use super::files::write;
use super::gather::Shared;
use crate::diag::{Diagnostic, Problem, Severity};
use crate::manifest;
use crate::pdf;

/// Where the packets of each lesson go. Two lessons that would go into the same folder are wrong usage; folders that
/// differ in case only count as the same, because many disks think so.
pub fn folders(input: &Input, out: &Path) -> Result<Vec<PathBuf>, Failure> {
    let mut taken: BTreeMap<String, &Path> = BTreeMap::new();
    let mut folders = Vec::new();
    for lesson in &input.lessons {
        let folder = write::folder(out, lesson)?;
        let key = folder.to_string_lossy().to_lowercase();
        if let Some(other) = taken.insert(key, lesson) {
            let (first, second, folder) = (shown(other), shown(lesson), shown(&folder));
            let problem = Problem::new(format!("`{first}` and `{second}` would both be written into `{folder}`"));
            return Err(Failure::Usage(problem.hint("rename one, or run twice with another --out")));
        }
        folders.push(folder);
    }
    Ok(folders)
}

/// Makes the packets of a lesson and writes them all, or none.
pub fn run(shared: &Shared, path: &Path, out: &Path, force: bool) -> Result<Report, Failure> {
    let folder = write::folder(out, path)?;
    let planned = shared.plan(path)?;
    let packets = shared.lay(&planned)?;
    let mut files = Vec::new();
    for packet in &packets {
        let bytes = pdf::write(packet, &planned.family, &pdf::Options::default()).map_err(|problem| {
            let problem = Problem { message: format!("{}: {}", packet.file, problem.message), ..problem };
            Failure::Lesson(vec![Diagnostic { severity: Severity::Error, place: None, problem, related: Vec::new() }])
        })?;
        files.push((packet.file, bytes));
    }
    files.push((manifest::FILE, manifest::write(&planned.lesson, &packets).into_bytes()));
    write::packets(&folder, &files, force)?;

    let notes = planned.lesson.chosen.notes.clone();
    let mut human = String::new();
    for packet in &packets {
        let _ = writeln!(human, "{}  {}", shown(&folder.join(packet.file)), pages(packet.pages.len()));
    }
    let _ = writeln!(human, "{}", shown(&folder.join(manifest::FILE)));
    let findings: Vec<Value> = notes.iter().map(|note| finding(&planned, note)).collect();
    let mut json = json!({ "findings": findings, "assumed": assumed(&planned) });
    json["written"] = files.iter().map(|(file, _)| shown(&folder.join(file))).collect();
    Ok(Report { human, notes, json })
}
