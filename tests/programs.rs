//! What programs read is what `docs/programs.md` says: every field that a command prints is in its table, of the kind
//! that stands there, and every field of the tables is printed by some run.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::support::run::process;

const TABLES: &str = include_str!("../docs/programs.md");

/// The fields of a section with their kinds.
fn table(section: &str) -> BTreeMap<String, String> {
    let head = format!("\n## {section}\n");
    let rest = &TABLES[TABLES.find(&head).expect(section) + head.len()..];
    let text = &rest[..rest.find("\n## ").unwrap_or(rest.len())];
    let row = |line: &str| {
        let mut cells = line.split('|').map(str::trim).skip(1);
        let name = cells.next()?.strip_prefix('`')?.strip_suffix('`')?.to_owned();
        Some((name, cells.next()?.to_owned()))
    };
    text.lines().filter_map(row).collect()
}

/// Every leaf of a value with its path and kind.
fn leaves(value: &Value, path: &str, found: &mut Vec<(String, &'static str)>) {
    match value {
        Value::Object(fields) => {
            for (key, inner) in fields {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                leaves(inner, &path, found);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| leaves(item, &format!("{path}[]"), found)),
        Value::Null => found.push((path.to_owned(), "null")),
        Value::Bool(_) => found.push((path.to_owned(), "switch")),
        Value::Number(_) => found.push((path.to_owned(), "number")),
        Value::String(_) => found.push((path.to_owned(), "text")),
    }
}

/// Whether a path is what a table's name means: a star stands for one key, and at the end for whatever lies below it.
fn meant(name: &str, kind: &str, path: &str) -> bool {
    match name.split_once('*') {
        None if kind == "any" => path.starts_with(name),
        None => name == path,
        Some((before, after)) => path.strip_prefix(before).is_some_and(|rest| match after {
            "" => true,
            _ => rest.strip_suffix(after).is_some_and(|key| !key.is_empty() && !key.contains('.')),
        }),
    }
}

/// Compares values with a section; returns which of its fields were seen.
#[track_caller]
fn compared(section: &str, values: &[Value]) -> BTreeSet<String> {
    let table = table(section);
    let mut seen = BTreeSet::new();
    for value in values {
        let mut found = Vec::new();
        leaves(value, "", &mut found);
        for (path, is) in found {
            let Some((name, kind)) = table.iter().find(|(name, kind)| meant(name, kind, &path)) else {
                panic!("`{path}` is not in the table of {section}");
            };
            assert!(
                kind == "any" || kind.split(" or ").any(|one| one == is),
                "{section}: `{path}` is {is}, not {kind}"
            );
            seen.insert(name.clone());
        }
    }
    seen
}

/// What runs of a command print, one value a line.
fn printed(folder: &Path, runs: &[(&[&str], u8)]) -> Vec<Value> {
    let mut values = Vec::new();
    for (words, status) in runs {
        let ran = process(folder, &[words, &["--format", "json"][..]].concat()).with(*status);
        values.extend(ran.out.lines().map(|line| serde_json::from_str::<Value>(line).expect("JSON")));
    }
    values
}

#[test]
fn every_field_is_as_documented() {
    let at = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| fs::write(at.path().join(name), text).expect("written");
    write(
        "good.toml",
        "title = \"Tea stall\"\nminutes = 20\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 3\nversions = 2\n[print]\ncut = \"stack\"\n[[group]]\nname = \"Terns\"\nlearners = 1\nrange = [10, 99]\n[sheets]\nmake = [\"blocks\", \"board\", \"strips\", \"exit\", \"key\", \"warm-up\"]\n",
    );
    write("sure.toml", "title = \"Tea stall\"\n[numbers]\nrange = 100-999\n");
    write(
        "clash.toml",
        "title = \"T\"\n[numbers]\nrange = [10, 19]\n[numbers.sort]\ncount = 4\nzeros = { ones = 3 }\n",
    );
    write("bad.toml", "title = \"T\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 24\nlearnerz = 2\n");

    let all = |section: &str, values: &[Value], never: &[&str]| {
        let seen = compared(section, values);
        let missing: Vec<_> = table(section).into_keys().filter(|name| !seen.contains(name)).collect();
        assert_eq!(missing, never, "{section}: fields of the table that no run prints");
    };
    let checks = [
        (&["check", "good.toml", "bad.toml", "clash.toml", "sure.toml", "none.toml"][..], 3),
        (&["check", "--fix", "sure.toml"], 0),
    ];
    all("check", &printed(at.path(), &checks), &[]);
    all("numbers", &printed(at.path(), &[(&["numbers", "good.toml"], 0)]), &[]);
    all("typeset", &printed(at.path(), &[(&["typeset", "good.toml"], 0)]), &[]);
    compared("typeset", &printed(at.path(), &[(&["preview", "good.toml", "--only", "board"], 0)]));
    let pictures = [(&["picture", "406"][..], 0), (&["picture", "406", "--out", "406.svg"], 0)];
    let values = printed(at.path(), &pictures);
    all("picture", &values, &["findings[]"]);
    all("sheets", &printed(at.path(), &[(&["sheets"], 0)]), &[]);
    all("keys", &printed(at.path(), &[(&["keys"], 0)]), &[]);
    all("start", &printed(at.path(), &[(&["start", "new.toml", "--title", "T"], 0)]), &[]);
    let contents = fs::read(at.path().join("out/good/contents.json")).expect("written");
    let mut values = vec![serde_json::from_slice(&contents).expect("JSON")];
    // Decoys in two languages.
    write(
        "two.toml",
        "title = \"T\"\nsecond_language = \"es\"\n[numbers]\nrange = [100, 999]\n[forms]\nmatch = [\"numeral\", \"words\"]\n",
    );
    process(at.path(), &["typeset", "two.toml", "--only", "board"]).with(0);
    let contents = fs::read(at.path().join("out/two/contents.json")).expect("written");
    values.push(serde_json::from_slice(&contents).expect("JSON"));
    all("contents.json", &values, &[]);
}

#[test]
fn the_gravest_status_counts() {
    let at = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| fs::write(at.path().join(name), text).expect("written");
    write("good.toml", "title = \"T\"\n[numbers]\nrange = [100, 999]\n");
    write("bad.toml", "title = 3\n");
    process(at.path(), &["numbers", "good.toml"]).with(0);
    process(at.path(), &["numbers", "good.toml", "bad.toml"]).with(1);
    process(at.path(), &["numbers", "bad.toml", "none.toml", "good.toml"]).with(3);
    process(at.path(), &["numbers", "--nothing"]).with(2);
}
