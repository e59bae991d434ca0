//! The lesson file, read and checked: every value with its place in the text.
//!
//! In: the text of a lesson file (and of its roster). Out: a [`Spec`], or every mistake found. A spec says what was asked
//! for; it chooses nothing and knows no sizes of pieces.

mod assumed;
mod checks;
mod class;
mod forms;
mod language;
pub mod limits;
mod log;
mod numbers;
mod pool;
mod print;
pub mod roster;
mod sheets;
mod syntax;
mod table;
#[cfg(test)]
mod tests;
mod types;
mod value;
mod version;

use std::sync::Arc;

use crate::diag::{Diagnostic, Problem, Source};
use log::Log;
use table::Table;

pub use assumed::assumed;
pub use language::Language;
pub use types::{
    AtMost, Bound, ClassSpec, Cut, FontChoice, FormsSpec, Given, Ink, Joiner, NumbersSpec, Paper, PrintSpec, RoleSpec,
    SheetKind, SheetsSpec, Sides, Spec, TextSize, Thousands,
};
pub use version::Version;

/// Minutes in a lesson whose file does not say.
const MINUTES: u32 = 45;
/// The seed of a lesson whose file does not say.
const SEED: u64 = 1;

/// Reads a lesson file. All mistakes are reported together, in the order of the text.
///
/// Only `title` and `[numbers] range` must be given. Where the file is silent: 45 minutes, letter paper, seed 1, English; 3 model, 8
/// sort and 4 exit numbers, fewer when the range holds few and more when a role's requests need more; all forms but the
/// units, without the block pictures when the range goes above 9,999; half as many decoys as sort numbers, at most 4; 24
/// learners, 2 spare sets, 1 version; scissors, one side, grey, standard text, 6.35 mm margin, Andika; every sheet that
/// has numbers to show.
pub fn read(source: &Arc<Source>) -> Result<Spec, Vec<Diagnostic>> {
    let document = syntax::parse(source);
    let mut log = Log::new(source);
    let spec = file(Table::root(document.table.get_ref()), document.is_whole(), &mut log);
    let found = document.merge(log.finish());
    match spec {
        Some(spec) if found.is_empty() => Ok(spec),
        _ if found.is_empty() => Err(vec![Problem::new("this lesson file cannot be read").at(source, 0..0)]),
        _ => Err(found),
    }
}

/// Reads every table. `whole` is false when a part of the text did not parse: then nothing counts as missing, and what
/// needs several values is not checked.
fn file(mut root: Table, whole: bool, log: &mut Log) -> Option<Spec> {
    let title = root.take("title");
    if title.is_none() && whole {
        let problem = Problem::new("the lesson has no title").hint("expected title = \"...\" at the top of the file");
        log.missing("title", 0..0, problem);
    }
    let title = title.and_then(|v| v.line(log, limits::TITLE));
    let grade = root.take("grade").and_then(|v| v.line(log, limits::GRADE));
    let minutes = root.take("minutes").and_then(|v| v.count(log, limits::MINUTES));
    let paper = root.take("paper").and_then(|v| v.one_of(log, &Paper::ALL, Paper::word));
    let paper = paper.unwrap_or(Given::assumed(Paper::Letter));
    let seed = root.take("seed").and_then(|v| v.whole(log, limits::SEED));
    let language = root.take("language").and_then(|v| v.one_of(log, &Language::ALL, Language::word));

    let asked = numbers::read(root.table("numbers", log), whole, log);
    let forms = forms::read(root.table("forms", log), log);
    let class = class::read(root.table("class", log), log);
    let print = print::read(root.table("print", log), paper.value, log);
    let sheets = sheets::read(root.table("sheets", log), log);
    root.finish(log);

    let numbers = asked?.settle(class.versions.value);
    let forms = forms.settle(&numbers, log);
    let sheets = sheets.settle(&numbers, log);
    if log.is_clean() && whole {
        checks::numbers(&numbers, log);
    }
    Some(Spec {
        title: title?,
        grade,
        minutes: minutes.unwrap_or(Given::assumed(MINUTES)),
        paper,
        seed: seed.unwrap_or(Given::assumed(SEED)),
        language: language.unwrap_or(Given::assumed(Language::En)),
        numbers,
        forms,
        class,
        print,
        sheets,
    })
}
