//! The packet that is there already: whose it is, and what would be lost with it.

use std::collections::BTreeSet;
use std::fs::File;
use std::io::{BufRead, BufReader};
use std::path::Path;

use serde_json::Value;

use super::ours::is_ours;
use super::read::shown;
use crate::cli::failure::Failure;
use crate::diag::Problem;
use crate::diag::nearest::listed;
use crate::manifest;
use crate::spec::SheetKind;

/// What an earlier run wrote into a folder.
struct Earlier {
    title: String,
    /// The words of all sheets that have a page.
    sheets: BTreeSet<String>,
}

/// Refuses to replace a packet by some of its sheets.
pub fn guard(folder: &Path, only: &[SheetKind]) -> Result<(), Failure> {
    let Some(earlier) = earlier(folder).filter(|_| !only.is_empty()) else { return Ok(()) };
    let asked: Vec<&str> = only.iter().map(|kind| kind.word()).collect();
    if earlier.sheets.iter().all(|sheet| asked.contains(&sheet.as_str())) {
        return Ok(());
    }
    let (name, asked) = (shown(folder), listed(&asked, "and"));
    let problem = Problem::new(format!("`{name}` holds a packet with more sheets than {asked}"));
    let hint =
        "nothing was replaced: choose another --out, such as --out again, or use --force to keep only what you name";
    Err(Failure::file(name, problem.hint(hint)))
}

/// A word on the packet that a lesson of this title replaces, if that was another lesson's.
pub fn replaced(folder: &Path, title: &str) -> Option<String> {
    let earlier = earlier(folder).filter(|earlier| earlier.title != title)?;
    Some(format!("`{}` held the packet of \"{}\", which was replaced", shown(folder), earlier.title))
}

/// Reads `contents.json` line by line: a class of thousands has a million pages. Anything odd about it counts as no packet;
/// files of others are guarded where packets are put in place.
fn earlier(folder: &Path) -> Option<Earlier> {
    let path = folder.join(manifest::FILE);
    if !is_ours(&path).unwrap_or(false) {
        return None;
    }
    let mut found = Earlier { title: String::new(), sheets: BTreeSet::new() };
    for line in BufReader::new(File::open(path).ok()?).lines() {
        let line = line.ok()?;
        let line = line.trim().trim_end_matches(',');
        if let Some(title) = line.strip_prefix("\"title\": ").filter(|_| found.title.is_empty()) {
            found.title = serde_json::from_str(title).ok()?;
        } else if line.starts_with("{\"file\":") {
            let page: Value = serde_json::from_str(line).ok()?;
            let sheet = page["sheet"].as_str().unwrap_or_default();
            if !found.sheets.contains(sheet) {
                found.sheets.insert(sheet.to_owned());
            }
        }
    }
    Some(found)
}
