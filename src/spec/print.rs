//! `[print]`: how it is printed and cut.

use super::limits;
use super::log::{Log, shortened};
use super::table::Table;
use super::types::{Cut, FontChoice, Given, Ink, Paper, PrintSpec, Sides, TextSize};
use super::value::Value;
use crate::diag::Problem;
use crate::diag::nearest::hint;
use crate::measure::Length;

/// A quarter of an inch: what office printers leave blank (common practice, no source).
const MARGIN: Length = Length::mm100(635);

pub(super) fn read(mut table: Table, paper: Paper, log: &mut Log) -> PrintSpec {
    let cut = table.take("cut").and_then(|v| v.one_of(log, &Cut::ALL, Cut::word));
    let sides = table.take("sides").and_then(|v| v.one_of(log, &Sides::ALL, Sides::word));
    let ink = table.take("ink").and_then(|v| v.one_of(log, &Ink::ALL, Ink::word));
    let text = table.take("text").and_then(|v| v.one_of(log, &TextSize::ALL, TextSize::word));
    let margin = table.take("margin").and_then(|v| margin(&v, paper, log));
    let font = table.take("font").and_then(|v| font(&v, log));
    table.finish(log);
    PrintSpec {
        cut: cut.unwrap_or(Given::assumed(Cut::Scissors)),
        sides: sides.unwrap_or(Given::assumed(Sides::One)),
        ink: ink.unwrap_or(Given::assumed(Ink::Grey)),
        text: text.unwrap_or(Given::assumed(TextSize::Standard)),
        margin: margin.unwrap_or(Given::assumed(MARGIN)),
        font: font.unwrap_or(Given::assumed(FontChoice::Andika)),
    }
}

/// A margin that leaves at least half of the paper's shorter side.
fn margin(value: &Value, paper: Paper, log: &mut Log) -> Option<Given<Length>> {
    let given = value.length(log)?;
    let widest = limits::widest_margin(paper.size().width);
    if given.value <= widest {
        return Some(given);
    }
    let text = shortened(log.text(&value.span()));
    let problem = Problem::new(format!("a margin of {text} is too wide for {} paper", paper.word()));
    log.error(value.span(), problem.hint(format!("expected at most {widest}, a quarter of the paper's width")));
    None
}

/// A bundled family by its word, or a path to a font file.
fn font(value: &Value, log: &mut Log) -> Option<Given<FontChoice>> {
    let given = value.line(log, limits::PATH)?;
    let text = given.value;
    let choice = match text.as_str() {
        "andika" => FontChoice::Andika,
        "atkinson" => FontChoice::Atkinson,
        _ => {
            let extension = text.rsplit_once('.').map(|(_, end)| end.to_ascii_lowercase());
            if let Some("ttf" | "otf") = extension.as_deref() {
                FontChoice::File(text)
            } else {
                let expected = "expected andika, atkinson, or a path to a .ttf or .otf file";
                let problem = Problem::new(format!("`{}` is neither a bundled font nor a font file", shortened(&text)));
                log.error(value.span(), problem.hint(hint(&text, FontChoice::BUNDLED, expected)));
                return None;
            }
        }
    };
    Some(Given::read(choice, value.span()))
}
