//! From a change at the desk to the first picture of a page that shows it: what a teacher waits for.
//!
//! The program runs as it does for a teacher, and the time includes both requests, the numbers, every page and the drawing of one. No
//! time is spent in the browser here. The first changes warm up and are not counted.

#![allow(missing_docs, clippy::pedantic, clippy::unwrap_used, reason = "a benchmark")]

#[path = "../tests/support/desk.rs"]
#[allow(dead_code, reason = "tests use the rest")]
mod desk;

use std::path::Path;
use std::time::{Duration, Instant};

use serde_json::json;

use desk::{Desk, Page};

/// How many changes are timed.
const CHANGES: usize = 200;
const WARM: usize = 10;

fn main() {
    for lesson in ["harbour", "star-atlas"] {
        let at = tempfile::tempdir().unwrap();
        for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples")).unwrap() {
            let entry = entry.unwrap();
            if entry.path().is_file() {
                std::fs::copy(entry.path(), at.path().join(entry.file_name())).unwrap();
            }
        }
        let desk = Desk::open(at.path(), &[&format!("{lesson}.toml")]);
        let page = desk.enter();
        page.view();
        for (what, change) in changes() {
            let times: Vec<Duration> = (0..WARM + CHANGES).map(|k| timed(&page, &*change, k)).skip(WARM).collect();
            tell(lesson, what, times);
        }
    }
}

/// What is changed: a word on every page, and what the numbers are chosen by.
fn changes() -> [(&'static str, Box<dyn Fn(&Page<'_>, usize)>); 2] {
    [
        ("title", Box::new(|page, k| drop(page.fill("title", json!({ "": format!("Stalls {k}") }))))),
        ("seed", Box::new(|page, k| drop(page.fill("seed", json!({ "": (k + 1_000).to_string() }))))),
    ]
}

fn timed(page: &Page<'_>, change: &dyn Fn(&Page<'_>, usize), k: usize) -> Duration {
    let start = Instant::now();
    change(page, k);
    let view = page.view();
    let pages = view["pages"].as_str().unwrap();
    let picture = pages.split("src=\"").nth(1).unwrap().split('"').next().unwrap();
    let answer = page.get(picture);
    let time = start.elapsed();
    assert!(answer.status == 200 && answer.body.starts_with(b"<svg "), "{}", answer.text());
    time
}

fn tell(lesson: &str, what: &str, mut times: Vec<Duration>) {
    times.sort();
    let at = |percent: usize| times[(times.len() * percent / 100).min(times.len() - 1)].as_secs_f64() * 1_000.0;
    println!("{lesson}, {what} changed: median {:.1} ms, 95th percentile {:.1} ms, of {}", at(50), at(95), times.len());
}
