//! One trial for each kind of bytes that comes from outside: lesson, layout, roster, font, and a whole run.
//!
//! In: any bytes. Out: nothing, or a panic that names the promise that was broken. `cargo test` runs them on damaged
//! samples (`tests/mangle.rs`), `fuzz/` on whatever a fuzzer comes up with: the same trials, so that a finding of one is
//! a test of the other. Each bounds its own work, so that a run is quick.

use std::fmt::Write as _;
use std::sync::{Arc, OnceLock};

use placewright::diag::report::{Look, draw, json};
use placewright::diag::{Diagnostic, Problem, Source};
use placewright::lesson::{self, Lesson};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled, single};
use placewright::sheets::job::names;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::{SHEETS, packets};
use placewright::spec::{self, Given, Spec};
use placewright::{manifest, pdf};

/// Bytes as a text, as the program takes them once it knows that they are UTF-8.
pub fn source(name: &str, bytes: &[u8]) -> Arc<Source> {
    Arc::new(Source { name: name.to_owned(), text: String::from_utf8_lossy(bytes).into_owned() })
}

/// Every message can be drawn, for people and for programs, and lies within its text.
pub fn sound(found: &[Diagnostic]) {
    assert!(!found.is_empty(), "an error without a message");
    for diagnostic in found {
        let Some(place) = &diagnostic.place else {
            said(&diagnostic.problem);
            continue;
        };
        assert!(place.span.start <= place.span.end && place.span.end <= place.source.text.len(), "{diagnostic:?}");
        let drawn = draw(diagnostic, Look::default());
        assert!(drawn.lines().nth(1).is_some_and(|line| line.len() < 1_000), "{drawn}");
        assert!(drawn.lines().count() >= 3 && drawn.ends_with('\n') && !drawn.contains('\u{1b}'), "{drawn}");
        assert!(json(diagnostic)["line"].is_u64());
        said(&diagnostic.problem);
    }
}

/// A message says something, and is no report of a mistake of the program's own.
fn said(problem: &Problem) {
    assert!(!problem.message.is_empty());
    assert!(!problem.message.contains("internal"), "{problem:?}");
}

/// Whether a lesson is small enough to be planned in a moment.
fn quick(spec: &Spec) -> bool {
    let numbers = &spec.numbers;
    let roles = [&numbers.model, &numbers.sort, &numbers.exit];
    numbers.range.value.1.value() < 10_000 && roles.iter().all(|role| role.count.value <= 16)
}

/// A lesson file: read, with what was assumed, and if asked for planned. Gives whether it could be read.
pub fn lesson(bytes: &[u8], planned: bool) -> bool {
    let source = source("lesson.toml", bytes);
    match spec::read(&source) {
        Err(found) => {
            sound(&found);
            found.iter().for_each(|diagnostic| assert!(diagnostic.place.is_some(), "{diagnostic:?}"));
            false
        }
        Ok(mut spec) => {
            let _ = spec::assumed(&spec);
            spec.class.versions = Given::assumed(spec.class.versions.value.min(2));
            if planned && quick(&spec) {
                match lesson::plan(&source, spec, Vec::new()) {
                    Ok(lesson) => assert_eq!(lesson.chosen.sort.len(), lesson.spec.class.versions.value as usize),
                    Err(found) => sound(&found),
                }
            }
            true
        }
    }
}

/// A roster: read, and its names made printable. Gives whether it could be read.
pub fn roster(bytes: &[u8]) -> bool {
    let source = source("roster.csv", bytes);
    match spec::roster::rows(&source) {
        Err(found) => {
            sound(&found);
            false
        }
        Ok(rows) => {
            let family = bundled(Bundled::Lato).expect("a font");
            assert!(rows.iter().all(|(name, _)| !name.is_empty() && !name.contains(char::is_control)));
            let count = rows.len();
            let (names, warnings) = names::settle(&source, rows, &family);
            assert_eq!(names.len(), count);
            if !warnings.is_empty() {
                sound(&warnings);
            }
            true
        }
    }
}

/// A small lesson with every sheet, for trials of other things.
fn small() -> &'static Lesson {
    static LESSON: OnceLock<Lesson> = OnceLock::new();
    LESSON.get_or_init(|| {
        let text = "title = \"Harbour stalls\"\n[numbers]\nrange = [100, 999]\nmodel.count = 2\nsort.count = 4\n\
                    exit.count = 2\n[class]\nlearners = 2\nspares = 0\n";
        let source = source("small.toml", text.as_bytes());
        lesson::plan(&source, spec::read(&source).expect("a lesson"), Vec::new()).expect("a lesson")
    })
}

/// A layout file: its first line is the sheet's word, the rest its text. It is read over the bundled one, and the sheets
/// that it arranges are laid out. Gives whether it could be read.
pub fn layout(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let (word, text) = text.split_once('\n').unwrap_or((&text, ""));
    let source = source(&format!("{word}.toml"), text.as_bytes());
    match Layouts::read(&[source]) {
        Err(found) => {
            sound(&found);
            false
        }
        Ok(layouts) => {
            let family = bundled(Bundled::Lato).expect("a font");
            let desk = Desk::new(small(), &layouts, &family);
            let only: Vec<_> = SHEETS.iter().map(|sheet| sheet.kind).filter(|kind| kind.word() == word).collect();
            match packets::make(&desk, &only) {
                Ok(packets) => {
                    for page in packets.iter().flat_map(|packet| (0..packet.len()).map(|k| packet.page(k))) {
                        if let Err(problem) = page {
                            said(&problem);
                        }
                    }
                }
                Err(found) => sound(&found),
            }
            true
        }
    }
}

/// A font file: read, and if it may be used, a board and its strips set in it. Gives whether it was used.
pub fn font(bytes: &[u8]) -> bool {
    static LAYOUTS: OnceLock<Layouts> = OnceLock::new();
    let family = match single(bytes.to_vec()) {
        Ok(family) => family,
        Err(problem) => {
            said(&problem);
            return false;
        }
    };
    let layouts = LAYOUTS.get_or_init(|| Layouts::read(&[]).expect("bundled layouts"));
    let desk = Desk::new(small(), layouts, &family);
    match packets::make(&desk, &[spec::SheetKind::Strips]) {
        Err(found) => {
            sound(&found);
            false
        }
        Ok(packets) => match pdf::bytes(&packets[0], &pdf::Common::new(&family), 1) {
            Ok(bytes) => {
                whole_file(&bytes);
                true
            }
            Err(problem) => {
                said(&problem);
                false
            }
        },
    }
}

/// From the text of a lesson file to the bytes of every file, in memory. Gives whether there are any.
pub fn run(bytes: &[u8]) -> bool {
    static LAYOUTS: OnceLock<Layouts> = OnceLock::new();
    let source = source("lesson.toml", bytes);
    let Ok(mut spec) = spec::read(&source) else { return false };
    if !quick(&spec) {
        return false;
    }
    let class = &mut spec.class;
    class.learners = Given::assumed(class.learners.value.min(3));
    class.spares = Given::assumed(class.spares.value.min(2));
    class.versions = Given::assumed(class.versions.value.min(2));
    let lesson = match lesson::plan(&source, spec, Vec::new()) {
        Ok(lesson) => lesson,
        Err(found) => {
            sound(&found);
            return false;
        }
    };
    let family: Family = bundled(Bundled::Lato).expect("a font");
    let layouts = LAYOUTS.get_or_init(|| Layouts::read(&[]).expect("bundled layouts"));
    let desk = Desk::new(&lesson, layouts, &family);
    let packets = match packets::make(&desk, &[]) {
        Ok(packets) => packets,
        Err(found) => {
            sound(&found);
            return false;
        }
    };
    let common = match pdf::Common::of(&family, &packets, 1) {
        Ok(common) => common,
        Err(problem) => {
            said(&problem);
            return false;
        }
    };
    for packet in &packets {
        match pdf::write(Vec::new(), packet, &common, 1) {
            Ok(bytes) => whole_file(&bytes),
            Err(pdf::WriteFailure::Problem(problem)) => said(&problem),
            Err(pdf::WriteFailure::Io(error)) => panic!("{error}"),
        }
    }
    let mut contents = Vec::new();
    manifest::write(&mut contents, &lesson, &packets).expect("a vector takes whatever is written");
    let contents: serde_json::Value = serde_json::from_slice(&contents).expect("JSON");
    let pages: usize = packets.iter().map(packets::Packet::len).sum();
    assert_eq!(contents["pages"].as_array().expect("pages").len(), pages);
    !packets.is_empty()
}

/// A file with its head and its foot.
fn whole_file(bytes: &[u8]) {
    let mut ends = String::new();
    let _ = write!(ends, "{:?} {:?}", bytes.get(..8), bytes.get(bytes.len().saturating_sub(7)..));
    assert!(bytes.starts_with(b"%PDF-1.") && bytes.trim_ascii_end().ends_with(b"%%EOF"), "{ends}");
}
