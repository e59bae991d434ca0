//! Lessons with numbers of the test's own choice: a lesson file's text, without the chooser.

use std::collections::BTreeMap;
use std::sync::Arc;

use placewright::diag::{Diagnostic, Source};
use placewright::lesson::{self, Chosen, Lesson};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::Number;
use placewright::spec::{self, Paper, SheetKind, Spec};

pub fn number(value: u32) -> Number {
    Number::new(value).expect("a number up to 999,999")
}

/// A lesson file with every default but for these numbers.
pub fn spec(minutes: u32, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Spec {
    let most = model.iter().chain(sort.iter().copied().flatten()).chain(exit).max().copied().unwrap_or(999);
    let last = if most <= 9_999 { "blocks" } else { "units" };
    let top = format!("grade = \"2\"\nminutes = {minutes}");
    let rest = format!("match = [\"numeral\", \"words\", \"expanded\", \"{last}\"]");
    read(&text("Harbour stalls", &top, model, sort, exit, &rest))
}

/// A lesson on `paper` with these model numbers and sort sets, in which only `sheet` is asked for.
pub fn only(sheet: SheetKind, paper: Paper, model: &[u32], sort: &[&[u32]]) -> Lesson {
    let top = format!("paper = \"{}\"", paper.word());
    let rest = format!("match = [\"numeral\", \"expanded\"]\ndecoys = 0\n[sheets]\nmake = [\"{}\"]", sheet.word());
    lesson(read(&text("Crates on the quay", &top, model, sort, &[], &rest)), model, sort, &[]).expect("a lesson")
}

/// The text of a lesson file for these numbers; `rest` begins inside `[forms]`.
fn text(title: &str, top: &str, model: &[u32], sort: &[&[u32]], exit: &[u32], rest: &str) -> String {
    let all = || model.iter().chain(sort.iter().copied().flatten()).chain(exit).copied();
    let (least, most) = (all().min().unwrap_or(0), all().max().unwrap_or(999));
    let role = |name: &str, count: usize| format!("[numbers.{name}]\ncount = {count}\n");
    let roles = [("model", model.len()), ("sort", sort.first().map_or(0, |rows| rows.len())), ("exit", exit.len())];
    let roles: String = roles.iter().map(|(name, count)| role(name, *count)).collect();
    let versions = sort.len().max(1);
    format!(
        "title = \"{title}\"\nseed = 1\n{top}\n[numbers]\nrange = [{least}, {most}]\n{roles}[class]\nversions = {versions}\n\
         [forms]\n{rest}\n"
    )
}

#[track_caller]
fn read(text: &str) -> Spec {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() });
    spec::read(&source).unwrap_or_else(|found| panic!("{text}: {found:?}"))
}

/// The lesson of a spec with these numbers.
pub fn lesson(spec: Spec, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Result<Lesson, Vec<Diagnostic>> {
    let numbers = |values: &[u32]| values.iter().map(|value| number(*value)).collect();
    let chosen = Chosen {
        model: numbers(model),
        sort: sort.iter().map(|rows| numbers(rows)).collect(),
        exit: numbers(exit),
        why: BTreeMap::new(),
        solutions: BTreeMap::new(),
        notes: Vec::new(),
    };
    let source = Arc::new(Source { name: "test.toml".to_owned(), text: "minutes".to_owned() });
    lesson::with_numbers(&source, spec, chosen, Vec::new())
}

/// The lesson of these numbers with every default.
pub fn plain(minutes: u32, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Lesson {
    lesson(spec(minutes, model, sort, exit), model, sort, exit).expect("a lesson")
}

/// The lesson of a lesson file's text with these numbers in the place of what it asks for.
#[track_caller]
pub fn with(text: &str, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Lesson {
    lesson(read(text), model, sort, exit).unwrap_or_else(|found| panic!("{text}: {found:?}"))
}

/// The lesson of a lesson file's text.
#[track_caller]
pub fn planned(text: &str) -> Lesson {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() });
    lesson::plan(&source, read(text), Vec::new()).unwrap_or_else(|found| panic!("{text}: {found:?}"))
}

/// The usual typeface.
pub fn family() -> Family {
    bundled(Bundled::Andika).expect("a font")
}
