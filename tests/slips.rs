//! The table of slips in `docs/slips.md` is what the program does: written from it, and compared.

use std::fmt::Write as _;
use std::path::Path;

use placewright::number::{Form, Names, Number, Slip, Task};
use placewright::wording::{English, ReadIn, Slips, Tools};

/// Where the table stands.
fn file() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/slips.md")
}

/// The document, from the program's own tables.
fn document() -> String {
    let mut text = String::from(
        "# Slips\n\nWhat a wrong answer can mean. A slip turns what is shown into a wrong answer to what is asked; it stands in a column\n\
         below only where what it needs is shown. The figures are the order of explanation: where two slips give the same answer, the\n\
         lower figure explains it. The grounds for the order stand in `src/number/slips/pairs.rs`. This file is written by a test\n\
         (`REPLACE=1 cargo test --test all slips`) and compared on every run.\n\n## Which slips a pair of forms provokes\n\n",
    );
    let mut pairs: Vec<(String, Task)> = Vec::new();
    for shown in Form::ALL {
        for asked in Form::ALL.into_iter().filter(|asked| *asked != shown) {
            pairs.push((format!("{} to {}", shown.word(), asked.word()), Task::forms(shown, asked)));
        }
    }
    let ones = Number::new(10).expect("a number");
    pairs.push(("worth of a digit".to_owned(), Task::Worth(placewright::number::Place::Tens)));
    pairs.push(("which is greater".to_owned(), Task::Greater(ones)));
    let names: Vec<&str> = Slip::all().map(Slip::word).collect();
    let _ = writeln!(text, "| shown to asked | {} |", names.join(" | "));
    let _ = writeln!(text, "|---|{}", "---|".repeat(names.len()));
    for (name, task) in pairs {
        let place = |slip: Slip| task.provokes().iter().position(|other| *other == slip);
        let cells: Vec<String> =
            Slip::all().map(|slip| place(slip).map(|at| (at + 1).to_string()).unwrap_or_default()).collect();
        let _ = writeln!(text, "| {name} | {} |", cells.join(" | "));
    }
    text.push_str(
        "\n## The slips\n\n| slip | example | the learner thinks | what helps | source |\n|---|---|---|---|---|\n",
    );
    for slip in Slip::all() {
        let example = slip.example();
        let (of, answer) = (example.of, example.answer);
        let how = match example.task {
            Task::Forms { shown, asked } => format!("{of}, {} to {}: {answer}", shown.word(), asked.word()),
            Task::Worth(place) => format!("{of}, worth of the {}: {answer}", English.place(place)),
            Task::Greater(other) => format!("{of} and {other}, the greater: {answer}"),
        };
        let only = slip.only().map(|tag| format!(" ({tag})")).unwrap_or_default();
        let _ = writeln!(
            text,
            "| {}{only} | {how} | {} | {} | {} |",
            slip.word(),
            English.slip_thinking(slip, ReadIn::Hundreds),
            English.slip_next(slip, Tools::ALL),
            slip.source()
        );
    }
    text
}

#[test]
fn the_table_is_what_the_program_does() {
    let written = document();
    if std::env::var_os("REPLACE").is_some() {
        std::fs::create_dir_all(file().parent().expect("a folder")).expect("a folder");
        std::fs::write(file(), &written).expect("the table is written");
    }
    let stored = std::fs::read_to_string(file()).expect("docs/slips.md: run with REPLACE=1 to write it");
    assert!(stored == written, "docs/slips.md is not what the program does: run with REPLACE=1 and read what changed");
}
