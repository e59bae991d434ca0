//! How much paper the class's copies take, who cuts what, and what would save most.

use std::fmt::Write;

use crate::lesson::job::{Cutter, JobFacts, PrintSides, Stock};
use crate::sheets::kinds::ticket::savings;
use crate::spec::Language;
use crate::wording;

/// Sheets of each stock and in all, and what would save most, in two lines.
pub fn totals(job: &JobFacts) -> String {
    let of = |stock: Stock| (stock, job.stock(stock));
    let stocks: Vec<(Stock, usize)> = [of(Stock::Paper), of(Stock::Card)].into_iter().filter(|(_, n)| *n > 0).collect();
    let total: usize = stocks.iter().map(|(_, sheets)| sheets).sum();
    let parts: Vec<String> = stocks.iter().map(|(stock, sheets)| format!("{sheets} of {}", stock.word())).collect();
    let mut text = format!("class copies: {} ({})\n", count(total, "sheet"), parts.join(", "));
    if let Some(line) = savings(job, wording::of(Language::En)) {
        let _ = writeln!(text, "fewer next time: {}", lower(&line));
    }
    text
}

/// What each file takes, and who cuts what.
pub fn copies(job: &JobFacts) -> String {
    let mut text = String::new();
    for file in &job.files {
        let sides = if file.sides == PrintSides::One { "one side" } else { "both sides" };
        let ink = if file.colour { ", in colour" } else { "" };
        let sheets = count(file.sheets(), "sheet");
        let _ = writeln!(text, "  {}: {sheets} of {}, {sides}{ink}", file.file, file.stock.word());
    }
    for sheet in job.sheets.iter().filter(|sheet| sheet.cutter != Cutter::Nobody) {
        let who = match sheet.cutter {
            Cutter::CopyRoom => "the copy room cuts",
            Cutter::Teacher => "cut before the lesson:",
            Cutter::Later => "nobody has time to cut",
            Cutter::Learner | Cutter::Nobody => "learners cut",
        };
        let (sheets, cuts) = (count(sheet.sheets, "sheet"), count(sheet.cuts, "straight cut"));
        let _ = match sheet.cutter {
            Cutter::Learner => {
                writeln!(text, "  {who} {}: {} with {cuts} each", sheet.kind.word(), count(sheet.pages, "page"))
            }
            _ => writeln!(text, "  {who} {}: {sheets}", sheet.kind.word()),
        };
        if sheet.cube_cuts > 0 {
            let cuts = count(sheet.cube_cuts, "cut");
            let _ =
                writeln!(text, "  cut before the lesson: the rows of cubes: {cuts} in each of {} kits", sheet.copies);
        }
    }
    text
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// "1 sheet", "25 sheets".
fn count(count: usize, one: &str) -> String {
    format!("{count} {one}{}", if count == 1 { "" } else { "s" })
}
