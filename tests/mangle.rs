//! Lesson files and rosters with random damage: whatever the text, no panic, and every message has its place in it.

#![allow(clippy::pedantic, clippy::unwrap_used, reason = "tests and benches fail by unwrapping and read best plain")]

use std::fs;
use std::sync::Arc;

use placewright::diag::report::{Look, draw, json};
use placewright::diag::{Diagnostic, Source};
use placewright::rng::Stream;
use placewright::{lesson, spec};

/// Pieces that sit at the borders of what is allowed.
const PIECES: [&str; 16] = [
    "=",
    "[",
    "]",
    "{",
    "}",
    "\"",
    "\n",
    "\r",
    "\u{feff}",
    "\u{202e}",
    "é",
    "-1",
    "1e400",
    "nan",
    "99999999999999999999",
    "\0",
];

fn samples(folder: &str, ending: &str) -> Vec<Vec<u8>> {
    let mut paths: Vec<_> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|e| e == ending))
        .collect();
    paths.sort();
    paths.iter().map(|path| fs::read(path).expect("a sample")).filter(|bytes| bytes.len() < 3_000).collect()
}

/// Flips, drops, doubles or moves bytes, or puts a piece in.
fn mangle(bytes: &mut Vec<u8>, stream: &mut Stream) {
    for _ in 0..=stream.index(3) {
        let at = stream.index(bytes.len() + 1);
        let end = (at + 1 + stream.index(12)).min(bytes.len());
        match stream.index(5) {
            0 if at < bytes.len() => bytes[at] ^= 1 << stream.index(8),
            1 => drop(bytes.drain(at..end.max(at))),
            2 => {
                let copy = bytes[at..end.max(at)].to_vec();
                bytes.splice(at..at, copy);
            }
            3 => {
                let moved: Vec<u8> = bytes.drain(at..end.max(at)).collect();
                let to = stream.index(bytes.len() + 1);
                bytes.splice(to..to, moved);
            }
            _ => {
                let piece = PIECES[stream.index(PIECES.len())];
                bytes.splice(at..at, piece.bytes());
            }
        }
    }
}

/// Every message can be drawn and lies within its text.
fn sound(found: &[Diagnostic]) {
    assert!(!found.is_empty());
    for diagnostic in found {
        let place = diagnostic.place.as_ref().expect("a place");
        assert!(place.span.start <= place.span.end && place.span.end <= place.source.text.len(), "{diagnostic:?}");
        let drawn = draw(diagnostic, Look::default());
        assert!(drawn.lines().count() >= 3 && drawn.ends_with('\n') && !drawn.contains('\u{1b}'), "{drawn}");
        assert!(json(diagnostic)["line"].is_u64());
    }
}

fn source(bytes: &[u8]) -> Arc<Source> {
    Arc::new(Source { name: "mangled".to_owned(), text: String::from_utf8_lossy(bytes).into_owned() })
}

#[test]
fn damaged_lessons_never_panic() {
    let kinds = [samples("samples", "toml"), samples("tests/messages", "toml")];
    let mut stream = Stream::new(20, "mangle lessons");
    let mut sound_ones = 0;
    for round in 0..2_000 {
        // Good lessons and bad ones by turns.
        let samples = &kinds[round % 2];
        let mut bytes = samples[round / 2 % samples.len()].clone();
        mangle(&mut bytes, &mut stream);
        let source = source(&bytes);
        match spec::read(&source) {
            Err(found) => sound(&found),
            Ok(mut spec) => {
                sound_ones += 1;
                let _ = spec::assumed(&spec);
                // Choosing is slow for the largest lessons and has tests of its own.
                spec.class.versions = spec::Given::assumed(spec.class.versions.value.min(2));
                if sound_ones % 10 == 0 && spec.numbers.range.value.1.value() < 10_000 {
                    let _ = lesson::plan(&source, spec, Vec::new());
                }
            }
        }
    }
    assert!(sound_ones > 150, "only {sound_ones} still parse: the damage is too heavy to test anything");
}

#[test]
fn damaged_rosters_never_panic() {
    let samples = samples("tests/messages", "csv");
    let mut stream = Stream::new(20, "mangle rosters");
    for round in 0..2_000 {
        let mut bytes = samples[round % samples.len()].clone();
        mangle(&mut bytes, &mut stream);
        match spec::roster::read(&source(&bytes)) {
            Ok(names) => assert!(names.iter().all(|name| !name.is_empty() && !name.contains(char::is_control))),
            Err(found) => sound(&found),
        }
    }
}
