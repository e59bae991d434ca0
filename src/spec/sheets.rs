//! `[sheets]`: which sheets to make.

use super::display::DisplayPages;
use super::keys::kind::Readable;
use super::keys::list;
use super::log::Log;
use super::sheet_kind::SheetKind;
use super::table::Table;
use super::types::{Given, NumbersSpec, SheetsSpec};
use crate::diag::Problem;

/// What the file says of sheets.
pub(super) struct Asked {
    make: Option<Given<Vec<SheetKind>>>,
    display: Given<DisplayPages>,
    layouts: Option<Given<String>>,
}

pub(super) fn read(mut table: Table, log: &mut Log) -> Asked {
    let make = table.take(&list::MAKE).and_then(|value| {
        let make = list::MAKE.kind.read(&value, log)?;
        for kind in make.value.iter().filter(|kind| !kind.is_asked_for()) {
            let problem = Problem::new(format!("`sheets.make` lists `{}`, which comes by itself", kind.word()))
                .hint("leave it out: the packets that need it have it");
            let span = log.word(kind.word(), &value.span());
            log.error(span, problem);
        }
        if make.value.is_empty() && log.is_clean() {
            let problem = Problem::new("`sheets.make` lists no sheet");
            log.error(value.span(), problem.hint("list at least one, or leave `make` out to get all of them"));
            return None;
        }
        Some(make)
    });
    let display = table.settle(&list::DISPLAY, log);
    let layouts = table.read(&list::LAYOUTS, log);
    table.finish(log);
    Asked { make, display, layouts }
}

impl Asked {
    /// All sheets that have numbers to show, where the file does not say.
    pub(super) fn settle(self, numbers: &NumbersSpec, log: &mut Log) -> SheetsSpec {
        let Self { make, display, layouts } = self;
        if let Some(make) = make {
            for kind in &make.value {
                let Some((role, count)) = needs(*kind, numbers) else { continue };
                let Some(span) = make.span().filter(|_| count.value == 0) else { continue };
                let problem = Problem::new(format!("`{}` needs {role} numbers, and the lesson has none", kind.word()))
                    .hint(format!("give numbers.{role}.count at least 1, or leave `{}` out", kind.word()));
                let span = log.word(kind.word(), &span);
                log.clash(span, problem, vec![(count.span(), "leaves them out".to_owned())]);
            }
            return SheetsSpec { make, display, layouts };
        }
        SheetsSpec { make: Given::assumed(usual(numbers)), display, layouts }
    }
}

/// The sheets that are made where a file does not say, as far as numbers go: there may be no time for some of them.
pub fn usual(numbers: &NumbersSpec) -> Vec<SheetKind> {
    let has_numbers = |kind: &SheetKind| needs(*kind, numbers).is_none_or(|(_, count)| count.value > 0);
    // What numbers are built and written with is of no use to a lesson that only checks.
    let only_checks = numbers.model.count.value + numbers.sort.count.value == 0;
    let is_used = |kind: &SheetKind| !(only_checks && kind.is_for_work());
    let usual = SheetKind::ALL.into_iter().filter(|kind| kind.is_usual());
    // A single card covers nothing.
    let is_shown = |kind: &SheetKind| !(*kind == SheetKind::Layered && numbers.counts_to_ten());
    usual.filter(has_numbers).filter(is_used).filter(is_shown).collect()
}

/// The role whose numbers a sheet shows, and how many there are; none for sheets that show all roles or no numbers.
fn needs(kind: SheetKind, numbers: &NumbersSpec) -> Option<(&'static str, Given<u32>)> {
    match kind {
        SheetKind::Display => Some(("model", numbers.model.count)),
        SheetKind::Board | SheetKind::Strips => Some(("sort", numbers.sort.count)),
        SheetKind::Exit => Some(("exit", numbers.exit.count)),
        _ => None,
    }
}
