//! The lesson file, read and checked: every value with its place in the text.
//!
//! In: the text of a lesson file (and of its roster). Out: a [`Spec`], or every mistake found. A spec says what was asked
//! for; it chooses nothing and knows no sizes of pieces.

mod assumed;
mod checks;
mod choices;
mod class;
mod display;
mod forms;
mod group;
pub mod keys;
mod language;
pub mod limits;
mod log;
mod numbers;
mod pool;
mod print;
mod printed;
mod repair;
mod request;
pub mod roster;
mod seed;
mod sheet_kind;
mod sheets;
mod syntax;
mod table;
#[cfg(test)]
mod tests;
mod types;
mod usual;
mod value;
mod version;

use std::sync::Arc;

use crate::diag::nearest::listed;
use crate::diag::{Diagnostic, Problem, Source};
use keys::kind::Readable;
use keys::list;
use log::Log;
use syntax::Document;
use table::Table;

pub use assumed::assumed;
pub use choices::{Cut, FontChoice, Ink, Joiner, Paper, SidesAsked, TextSize, Thousands};
pub use display::{DisplayForm, DisplayPages};
pub use language::Language;
pub use pool::Pool;
pub use printed::{Edge, Keep, PacketKind, PrintSides, Stock};
pub use sheet_kind::SheetKind;
pub use sheets::usual as usual_sheets;
pub use types::{
    AtMost, Bound, ClassSpec, FormNames, FormsSpec, Given, GroupSpec, NumbersSpec, PrintSpec, RoleSpec, SheetsSpec,
    Spec,
};
pub use version::Version;

/// Reads a lesson file. All mistakes are reported together, in the order of the text.
///
/// Only `title` and `[numbers] range` must be given; [`keys::list`] says what is taken for the rest.
pub fn read(source: &Arc<Source>) -> Result<Spec, Vec<Diagnostic>> {
    let (spec, document, found) = once(source);
    match spec {
        Some(spec) if found.is_empty() => Ok(spec),
        _ if found.is_empty() => Err(vec![Problem::new("this lesson file cannot be read").at(source, 0..0)]),
        _ => {
            let again = |source: &Arc<Source>| {
                let (_, document, found) = once(source);
                (document.garbled().len(), found)
            };
            Err(repair::suggest(source, found, document.garbled(), again))
        }
    }
}

/// Reads a lesson file, without repairs.
fn once(source: &Arc<Source>) -> (Option<Spec>, Document<'_>, Vec<Diagnostic>) {
    let document = syntax::parse(source);
    let mut log = Log::new(source);
    let spec = file(Table::root(document.table.get_ref()), document.is_whole(), &mut log);
    let found = document.merge(log.finish());
    (spec, document, found)
}

/// Reads every table. `whole` is false when a part of the text did not parse: then nothing counts as missing, and what
/// needs several values is not checked.
fn file(mut root: Table, whole: bool, log: &mut Log) -> Option<Spec> {
    let title = root.take(&list::TITLE);
    if title.is_none() && whole {
        let problem = Problem::new("the lesson has no title").hint("expected title = \"...\" at the top of the file");
        log.missing(["", list::TITLE.name], 0..0, problem);
    }
    let title = title.and_then(|value| list::TITLE.kind.read(&value, log));
    let grade = root.read(&list::GRADE, log);
    let minutes = root.settle(&list::MINUTES, log);
    let paper = root.settle(&list::PAPER, log);
    let seed = root.read(&list::SEED, log);
    let language = root.settle(&list::LANGUAGE, log);
    let second_language = second_language(&mut root, &language, log);
    let alone = second_language.is_none().then_some(language.value);

    let asked = numbers::read(root.inner("numbers", log), whole, log);
    let forms = forms::read(root.inner("forms", log), log);
    let class = class::read(root.inner("class", log), log);
    let print = print::read(root.inner("print", log), paper.value, log);
    let sheets = sheets::read(root.inner("sheets", log), log);
    let groups = group::read(&mut root, whole, log);
    root.finish(log);

    let numbers = asked?.settle(class.versions.value);
    let forms = forms.settle(&numbers, language.value, alone, log);
    let sheets = sheets.settle(&numbers, log);
    if log.is_clean() && whole {
        checks::numbers(&numbers, class.versions.value, log);
    }
    let groups = group::settle(groups, &group::Class { numbers: &numbers, forms: &forms, class: &class, alone }, log);
    let title = title?;
    let seed = seed.unwrap_or_else(|| Given::assumed(seed::of(&title.value)));
    Some(Spec {
        title,
        grade,
        minutes,
        paper,
        seed,
        language,
        second_language,
        numbers,
        forms,
        class,
        groups,
        print,
        sheets,
    })
}

/// The second language, which is not the first.
fn second_language(root: &mut Table, first: &Given<Language>, log: &mut Log) -> Option<Given<Language>> {
    let second = root.read(&list::SECOND_LANGUAGE, log)?;
    if second.value != first.value {
        return Some(second);
    }
    let word = first.value.word();
    let message = format!("`second_language` is `{word}`, which is the lesson's first language already");
    let others: Vec<&str> = first.value.others().map(Language::word).collect();
    let hint = format!("expected {}, or leave `second_language` out", listed(&others, "or"));
    log.clash(
        second.span().unwrap_or(0..0),
        Problem::new(message).hint(hint),
        vec![(first.span(), "the first language".to_owned())],
    );
    // Lessons that list `words2` are not told a second time.
    Some(second)
}
