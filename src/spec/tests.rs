//! Whole lesson files, read.

use std::sync::Arc;

use super::*;
use crate::measure::Length;
use crate::number::{Form, Place};

fn source(text: &str) -> Arc<Source> {
    Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() })
}

#[track_caller]
fn reads(text: &str) -> Spec {
    read(&source(text)).unwrap_or_else(|found| panic!("{found:#?}"))
}

/// Line, column and message of everything wrong with a text.
#[track_caller]
fn wrong(text: &str) -> Vec<(usize, usize, String)> {
    let found = read(&source(text)).expect_err(text);
    found
        .into_iter()
        .map(|d| {
            let (line, column) = d.place.as_ref().expect("a place").line_column();
            (line, column, d.problem.message)
        })
        .collect()
}

#[test]
fn the_smallest_lesson_has_sensible_defaults() {
    let spec = reads("title = \"T\"\n[numbers]\nrange = [100, 999]\n");
    assert_eq!(spec.title.value, "T");
    let counts = [&spec.numbers.model, &spec.numbers.sort, &spec.numbers.exit].map(|r| r.count.value);
    assert_eq!(counts, [3, 8, 4]);
    assert_eq!(spec.forms.matched.value, [Form::Numeral, Form::Words, Form::Expanded, Form::Blocks]);
    assert_eq!((spec.forms.decoys.value, spec.class.learners.value, spec.class.versions.value), (4, 24, 1));
    assert_eq!(spec.print.margin.value, Length::mm100(635));
    assert_eq!(spec.sheets.make.value.len(), 12);
    let requests: Vec<String> = assumed(&spec)
        .into_iter()
        .filter(|(key, _)| key.starts_with("numbers.") && key.rsplit('.').next() != Some("count"))
        .map(|(key, value)| format!("{key} = {value}"))
        .collect();
    let wanted = [
        "numbers.model.zeros.tens = 1",
        "numbers.model.repeats = 1",
        "numbers.model.teens = 1",
        "numbers.sort.zeros.ones = 1",
        "numbers.sort.zeros.tens = 2",
        "numbers.sort.repeats = 1",
        "numbers.sort.teens = 1",
        "numbers.sort.same_digits = 3",
        "numbers.exit.zeros.tens = 1",
        "numbers.exit.teens = 1",
    ];
    assert_eq!(requests, wanted);
    assert_eq!(assumed(&spec).len(), 28 + wanted.len());
    assert_eq!((spec.class.share(SheetKind::Blocks), spec.class.share(SheetKind::Board)), (2, 1));
}

#[test]
fn small_ranges_get_small_sets_and_large_ones_no_pictures() {
    #[track_caller]
    fn case(range: &str, more: &str, want: [u32; 3], decoys: u32) {
        let spec = reads(&format!("title = \"T\"\n[numbers]\nrange = {range}\n{more}"));
        let counts = [&spec.numbers.model, &spec.numbers.sort, &spec.numbers.exit].map(|r| r.count.value);
        assert_eq!((counts, spec.forms.decoys.value), (want, decoys), "{range} {more}");
    }
    case("[7, 7]", "", [1, 1, 1], 0);
    case("[0, 9]", "", [2, 5, 2], 2);
    case("[10, 24]", "", [3, 8, 4], 4);
    case("[0, 9]", "[numbers.sort]\nzeros = { ones = 1 }\nalways = [1, 2, 3, 4, 5, 6]", [2, 6, 2], 3);
    case("[100, 999]", "[numbers.sort]\nsame_digits = 10", [3, 10, 4], 4);
    case("[100, 999]", "[numbers.sort]\ncount = 0\n[class]\nversions = 3", [3, 0, 4], 0);
    let large = reads("title = \"T\"\n[numbers]\nrange = [0, 10_000]\n");
    assert_eq!(large.forms.matched.value, [Form::Numeral, Form::Words, Form::Expanded]);
}

#[test]
fn every_way_to_write_a_request() {
    let spec = reads(concat!(
        "title = 'T'\nnumbers.range = [0x64, 9_99]\n[numbers.sort]\ncount = 8\nrepeats = { max = 2 }\n",
        "same_digits = { min = 2, max = 3 }\nzeros.tens = 1\n[numbers.sort.teens]\nmin = 1\n",
    ));
    let sort = &spec.numbers.sort;
    assert_eq!(spec.numbers.range.value.0.value(), 100);
    assert_eq!(sort.repeats.expect("given").value, Bound { min: 0, max: Some(2) });
    assert_eq!(sort.same_digits.expect("given").value, Bound { min: 2, max: Some(3) });
    assert_eq!(sort.zeros[&Place::Tens].value, Bound { min: 1, max: None });
    assert_eq!(sort.teens.expect("given").value, Bound { min: 1, max: None });
}

#[test]
fn all_mistakes_are_found_in_one_run() {
    let found = wrong("titel = \"T\"\nminutes = 4\n[numbers]\nrange = [9, 1]\nnevr = []\n[class]\nlearners = \"24\"\n");
    let places: Vec<_> = found.iter().map(|(line, column, _)| (*line, *column)).collect();
    // The misspelt title stands for the missing one.
    assert_eq!(places, [(1, 1), (2, 11), (4, 9), (5, 1), (7, 12)]);
}

#[test]
fn what_does_not_parse_hides_no_other_line() {
    let found = wrong("title = \"T\nminutes = 4\n[numbers]\nrange = [100, 999]\n");
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(found[0].2, "the text in quotes on this line never ends");
    assert_eq!((found[1].0, found[1].2.as_str()), (2, "`minutes` is 4"));
}

#[test]
fn a_byte_order_mark_and_line_ends_of_windows_do_no_harm() {
    let spec = reads("\u{feff}title = \"T\"\r\n[numbers]\r\nrange = [100, 999]\r\n");
    assert_eq!(spec.title.value, "T");
}

#[test]
fn every_sample_reads() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/samples");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("samples") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|ending| ending == "toml") {
            reads(&std::fs::read_to_string(&path).expect("a sample"));
            seen += 1;
        }
    }
    assert!(seen >= 3, "{seen}");
}

#[test]
fn the_reference_is_what_the_readers_take() {
    let text = "title = 'T'\n[numbers]\nrange = [1, 2]\n";
    let source = source(text);
    let document = syntax::parse(&source);
    let mut log = Log::new(&source);
    file(Table::root(document.table.get_ref()), true, &mut log);
    let mut taken: Vec<String> = Vec::new();
    for (table, keys) in log.tables() {
        let tables = ["numbers", "forms", "class", "print", "sheets", "model", "sort", "exit", "names", "group"];
        // Places are not keys of their own, and of what the file nests only the outermost name is a key.
        if !["zeros", "at_most", "share"].iter().any(|nested| table.ends_with(nested)) {
            taken.extend(keys.iter().filter(|key| !tables.contains(key)).map(|key| format!("{table}.{key}")));
        }
    }
    let rows = list::rows();
    let rows = rows.iter().flat_map(|row| row.tables().into_iter().map(move |table| format!("{table}.{}", row.name)));
    let mut rows: Vec<String> = rows.collect();
    taken.sort();
    rows.sort();
    assert_eq!(rows, taken);
}

#[test]
fn the_largest_sample_has_every_key() {
    let text = include_str!("../../samples/harbour.toml").replace("#: ", "");
    let spec = reads(&text);
    assert!(spec.sheets.layouts.is_some());
    let file: toml::Table = text.parse().expect("TOML");
    for row in list::rows() {
        let given = row.tables().iter().any(|table| {
            // Of a list of tables the first has every key.
            let inner = |value: &'_ toml::Value| match value {
                toml::Value::Array(tables) => tables.first().and_then(toml::Value::as_table).cloned(),
                other => other.as_table().cloned(),
            };
            let mut parts = table.split('.').filter(|part| !part.is_empty());
            let of = parts.try_fold(file.clone(), |at, part| at.get(part).and_then(inner));
            of.is_some_and(|of| of.contains_key(row.name))
        });
        assert!(given, "{row:?}");
    }
}

#[test]
fn the_schema_is_the_one_that_is_checked_in() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/lesson.schema.json");
    let text = keys::schema::text();
    if std::env::var_os("REPLACE").is_some() {
        std::fs::write(path, &text).expect("written");
    }
    assert_eq!(std::fs::read_to_string(path).unwrap_or_default(), text, "REPLACE=1 writes it again");
}
