//! `sheets`: what can be made.

use std::fmt::Write;

use serde_json::{Value, json};

use super::args::Talk;
use super::failure::Failure;
use super::report::Report;
use crate::sheets::SHEETS;
use crate::spec::Language;
use crate::wording;

/// Lists every sheet with what is on it.
#[allow(clippy::unnecessary_wraps, reason = "a command like the others")]
pub fn run(_: &Talk) -> Result<Report, Failure> {
    let width = SHEETS.iter().map(|sheet| sheet.kind.word().len()).max().unwrap_or(0);
    let mut human = String::new();
    for sheet in &SHEETS {
        let _ = writeln!(human, "{:width$}  {}", sheet.kind.word(), sheet.holds);
    }
    let words = wording::of(Language::En);
    let rows = SHEETS.iter().map(|sheet| {
        json!({
            "sheet": sheet.kind.word(), "title": words.sheet_title(sheet.kind), "holds": sheet.holds,
            "reader": sheet.reader.word(), "listed": sheet.kind.is_asked_for(),
        })
    });
    let rows: Value = rows.collect();
    Ok(Report { human, notes: Vec::new(), warnings: Vec::new(), json: json!({ "sheets": rows }) })
}
