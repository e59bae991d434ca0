//! `[print]`: how it is printed and cut.

use super::choices::Paper;
use super::keys::list;
use super::limits;
use super::log::{Log, shortened};
use super::table::Table;
use super::types::{Given, PrintSpec};
use super::value::Value;
use crate::diag::Problem;
use crate::measure::Length;

pub(super) fn read(mut table: Table, paper: Paper, log: &mut Log) -> PrintSpec {
    let print = PrintSpec {
        cut: table.settle(&list::CUT, log),
        sides: table.settle(&list::SIDES, log),
        ink: table.settle(&list::INK, log),
        text: table.settle(&list::TEXT, log),
        margin: table
            .take(&list::MARGIN)
            .and_then(|value| margin(&value, paper, log))
            .unwrap_or(Given::assumed(list::MARGIN.value)),
        font: table.settle(&list::FONT, log),
        slip_sheets: table.settle(&list::SLIP_SHEETS, log),
    };
    table.finish(log);
    print
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
