//! The shape of the project: imports point down, every file says what it owns, and the documents name files that exist.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use crate::support::source::{Module, Source, circles};

/// Modules of `src/` from the bottom up; those on one line do not import each other.
const LAYERS: [&[&str]; 10] = [
    &["diag", "rng"],
    &["number", "measure"],
    &["spec"],
    &["wording"],
    &["lesson"],
    &["sheets"],
    &["pdf", "svg", "raster", "manifest"],
    &["figure", "gallery"],
    &["desk"],
    &["cli"],
];

/// Rooms of the stage that lays pages out, from the bottom up.
const SHEETS: [&str; 5] = ["page", "blocks", "flow", "kinds", "job"];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// All files below a folder whose names end in `ending`, with their paths from the project's root.
fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![root().join(folder)];
    while let Some(path) = open.pop() {
        let Ok(entries) = fs::read_dir(&path) else { continue };
        for entry in entries.map(|entry| entry.expect("a folder entry").path()) {
            if entry.is_dir() {
                open.push(entry);
            } else if entry.to_string_lossy().ends_with(ending) {
                found.push(entry.strip_prefix(root()).expect("below the root").to_owned());
            }
        }
    }
    found.sort();
    found
}

fn text(path: &Path) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn layer(module: &str) -> Option<usize> {
    LAYERS.iter().position(|modules| modules.contains(&module))
}

/// The modules of the crate that a source text names after `crate::`, alone or in braces on one line, comments left out.
fn imports(source: &str) -> impl Iterator<Item = &str> {
    let code = source.lines().filter(|line| !line.trim_start().starts_with("//"));
    let named = code.flat_map(|line| line.match_indices("crate::").map(move |(at, found)| &line[at + found.len()..]));
    named.flat_map(|rest| match rest.strip_prefix('{') {
        Some(list) => list[..list.find('}').unwrap_or(list.len())].split(',').map(first_word).collect::<Vec<_>>(),
        None => vec![first_word(rest)],
    })
}

fn first_word(text: &str) -> &str {
    let text = text.trim_start();
    &text[..text.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(text.len())]
}

#[test]
fn imports_point_down() {
    let mut seen = 0;
    for path in files("src", ".rs") {
        let own = path.components().nth(1).expect("a file of src").as_os_str().to_string_lossy().into_owned();
        let own = own.trim_end_matches(".rs");
        if matches!(own, "lib" | "main") {
            continue;
        }
        let mine = layer(own).unwrap_or_else(|| panic!("{} is in no layer: add it to LAYERS", path.display()));
        // Unit tests may speak English, whatever layer they stand in.
        if path.ends_with("tests.rs") {
            continue;
        }
        let whole = text(&path);
        for import in imports(whole.split("\n#[cfg(test)]\nmod tests {").next().unwrap_or_default()) {
            let theirs = layer(import).unwrap_or_else(|| panic!("{}: crate::{import} is in no layer", path.display()));
            assert!(theirs < mine || import == own, "{} imports crate::{import}, which lies above it", path.display());
            seen += 1;
        }
    }
    assert!(seen > 5, "only {seen} imports read: the reader of imports is broken");
}

/// Who names whom among the files of a stage, or of all stages.
fn graph(source: &Source) -> BTreeMap<Module, BTreeSet<Module>> {
    source.modules().map(|module| (module.clone(), source.named(module))).collect()
}

#[test]
fn no_files_lean_on_each_other() {
    let source = Source::read(&root().join("src"));
    let found = circles(&graph(&source));
    let rings: Vec<_> = found.iter().map(|ring| ring.iter().map(|f| f.join("/")).collect::<Vec<_>>()).collect();
    assert!(rings.is_empty(), "files that lean on each other: {rings:#?}");
}

#[test]
fn rooms_of_sheets_point_down() {
    let source = Source::read(&root().join("src"));
    let floor = |module: &Module| match module.as_slice() {
        [stage, room, ..] if stage == "sheets" => SHEETS.iter().position(|name| name == room),
        _ => None,
    };
    let mut seen = 0;
    for (module, named) in graph(&source) {
        for other in &named {
            if let (Some(mine), Some(theirs)) = (floor(&module), floor(other)) {
                assert!(theirs <= mine, "{} names {}, which lies above it", module.join("/"), other.join("/"));
                seen += 1;
            }
        }
    }
    assert!(seen > 100, "only {seen} names read: the reader of source is broken");
}

#[test]
fn a_public_name_is_one_type() {
    let source = Source::read(&root().join("src"));
    let mut homes: BTreeMap<String, Vec<&Path>> = BTreeMap::new();
    for (name, path) in source.public_types() {
        homes.entry(name).or_default().push(path);
    }
    assert!(homes.len() > 150, "only {} types read: the reader of source is broken", homes.len());
    homes.retain(|_, paths| paths.len() > 1);
    assert!(homes.is_empty(), "one name, several types: {homes:#?}");
}

#[test]
fn circles_and_passed_on_names_would_be_seen() {
    let text = |path: &str, text: &str| (PathBuf::from(path), text.to_owned());
    let source = Source::of([
        text("a/mod.rs", "//! A.\nmod b;\nmod c;\npub use b::{B, Other};\n"),
        text("a/b.rs", "use super::c::C;\npub struct B;\npub enum Other {}\n"),
        text("a/c.rs", "// use crate::d;\nuse crate::a::B;\nuse std::fmt;\npub struct C;\n"),
        text("d.rs", "use crate::a::{self, c::{C, D}};\nfn f() { crate::a::b::f(); }\n#[cfg(test)]\nmod tests {}"),
    ]);
    let module = |path: &str| path.split('/').map(str::to_owned).collect::<Module>();
    assert_eq!(circles(&graph(&source)), [[module("a/b"), module("a/c")]]);
    assert_eq!(source.named(&module("d")), [module("a"), module("a/b"), module("a/c")].into());
    assert_eq!(source.public_types().count(), 3);
}

#[test]
fn an_upward_import_would_be_seen() {
    let source =
        "use crate::pdf::write;\n// use crate::cli;\nlet x = crate::number::Form::Words;\nuse crate::{spec, diag};";
    assert_eq!(imports(source).collect::<Vec<_>>(), ["pdf", "number", "spec", "diag"]);
    assert!(layer("pdf") > layer("sheets"));
}

#[test]
fn every_file_opens_with_what_it_owns() {
    for path in files("src", ".rs") {
        assert!(text(&path).starts_with("//! "), "{} has no header", path.display());
    }
}

#[test]
fn documents_name_files_that_exist() {
    let mut named = 0;
    for document in ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "fonts/README.md", "layouts/README.md"] {
        let Ok(words) = fs::read_to_string(root().join(document)) else { continue };
        for word in words.split('`').skip(1).step_by(2).flat_map(str::split_whitespace) {
            let word = word.trim_end_matches(['/', ',', '.']);
            let folder = word.split('/').next().unwrap_or_default();
            let ours = ["src", "tests", "samples", "layouts", "fonts", "benches", "fuzz", ".ci"].contains(&folder);
            if ours && word.contains('/') && !word.contains(['<', '*', '{']) {
                assert!(root().join(word).exists(), "{document} names `{word}`, which is not there");
                named += 1;
            }
        }
    }
    assert!(named > 5, "only {named} paths read: the reader of documents is broken");
}

/// The names in backquotes in the table of dependencies, and those that `Cargo.toml` asks for.
#[test]
fn every_dependency_is_there_for_a_reason() {
    let document = text(Path::new("DEVELOPERS.md"));
    let table = document.split("## What each dependency is for").nth(1).expect("the part on dependencies");
    let rows = table.split("\n## ").next().unwrap_or_default().lines().filter(|line| line.starts_with("| `"));
    let first_cells = rows.filter_map(|row| row.split('|').nth(1));
    let told: BTreeSet<String> =
        first_cells.flat_map(|cell| cell.split('`').skip(1).step_by(2)).map(str::to_owned).collect();
    fn asked(table: &toml::Table, found: &mut BTreeSet<String>) {
        for (key, value) in table.iter().filter_map(|(key, value)| Some((key, value.as_table()?))) {
            match key.as_str() {
                "dependencies" | "dev-dependencies" | "build-dependencies" => found.extend(value.keys().cloned()),
                // Tables by kind of machine.
                _ if !matches!(key.as_str(), "package" | "lints" | "profile") => asked(value, found),
                _ => {}
            }
        }
    }
    let mut wanted = BTreeSet::new();
    asked(&text(Path::new("Cargo.toml")).parse().expect("TOML"), &mut wanted);
    assert!(wanted.len() > 15 && wanted.contains("tempfile") && wanted.contains("rustix"));
    assert_eq!(told, wanted, "DEVELOPERS.md says what each dependency is for");
}

/// The recipes of DEVELOPERS.md, each with something that was added that way.
const RECIPES: [(&str, &str); 4] = [
    ("How to add a sheet", "SheetKind::SmallGroups"),
    ("How to add a form", "Form::Units"),
    ("How to add a slip", "Slip::PlaceOff"),
    ("How to add a paper size", "Paper::Tabloid"),
];

#[test]
fn recipes_name_every_file_that_has_to_know() {
    let document = text(Path::new("DEVELOPERS.md"));
    for (recipe, thing) in RECIPES {
        let section = document.split(&format!("## {recipe}\n")).nth(1).unwrap_or_else(|| panic!("no part {recipe}"));
        let section = section.split("\n## ").next().unwrap_or_default();
        let named: Vec<PathBuf> =
            section.split('`').skip(1).step_by(2).filter(|word| word.starts_with("src/")).map(PathBuf::from).collect();
        let mut knowing = 0;
        for path in files("src", ".rs") {
            if path.ends_with("tests.rs") {
                continue;
            }
            let whole = text(&path);
            let code = whole.split("\n#[cfg(test)]\nmod tests {").next().unwrap_or_default();
            let known = code
                .match_indices(thing)
                .any(|(at, _)| !code[at + thing.len()..].starts_with(|c: char| c.is_alphanumeric() || c == '_'));
            if known {
                knowing += 1;
                assert!(named.iter().any(|name| path.starts_with(name)), "{recipe}: {} is not named", path.display());
            }
        }
        assert!(knowing > 0, "{thing} is known to {knowing} files: the reader of source is broken");
    }
}
