//! `sheets`: what can be made.

use std::fmt::Write;

use serde_json::{Value, json};

use super::Report;
use super::args::Talk;
use super::failure::Failure;
use crate::sheets::{For, SHEETS};

/// Lists every sheet with what is on it.
#[allow(clippy::unnecessary_wraps, reason = "a command like the others")]
pub fn run(_: &Talk) -> Result<Report, Failure> {
    let width = SHEETS.iter().map(|sheet| sheet.kind.word().len()).max().unwrap_or(0);
    let mut human = String::new();
    for sheet in &SHEETS {
        let later = if sheet.made.is_some() { "" } else { " (not made yet)" };
        let _ = writeln!(human, "{:width$}  {}{later}", sheet.kind.word(), sheet.holds);
    }
    let rows = SHEETS.iter().map(|sheet| {
        let reader = match sheet.reader {
            For::Learner => "learner",
            For::Teacher => "teacher",
            For::CopyRoom => "copy room",
        };
        json!({
            "sheet": sheet.kind.word(), "title": sheet.title, "holds": sheet.holds, "reader": reader,
            "made": sheet.made.is_some(), "listed": sheet.kind.is_asked_for(),
        })
    });
    let rows: Value = rows.collect();
    Ok(Report { human, notes: Vec::new(), warnings: Vec::new(), json: json!({ "sheets": rows }) })
}
