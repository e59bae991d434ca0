//! The process is killed at every step: a child runs until it has come there, says so, and gets no chance to clear up.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use super::cases::{BEGINNINGS, measure, next_run};
use super::scene::{Before, Fault, Faulty, Scene, contents, files};
use crate::cli::files::write::{Stance, lesson_on, packets_on};

/// What the child is to do, in its environment: the program itself has no such thing.
const CASE: &str = "PLACEWRIGHT_TEST_CASE";

/// A child that is stopped when the test ends, however it ends.
struct Killed(Child);

impl Drop for Killed {
    fn drop(&mut self) {
        self.0.kill().and_then(|()| self.0.wait()).ok();
    }
}

/// Runs the child until it stops, and kills it there; false if it ended before.
fn killed(case: &str) -> bool {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(["--exact", "cli::files::faults::kill::child", "--nocapture", "--test-threads=1"]).env(CASE, case);
    let child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let mut child = Killed(child);
    let lines = BufReader::new(child.0.stdout.take().unwrap()).lines();
    let stopped = lines.map_while(Result::ok).any(|line| line == "stopped");
    child.0.kill().unwrap();
    stopped || !child.0.wait().unwrap().success()
}

/// What the child does; without a case, nothing.
#[test]
fn child() {
    let Ok(case) = std::env::var(CASE) else { return };
    let words: Vec<&str> = case.split('|').collect();
    let [what, target, step, exchanges, force] = words[..] else { panic!("{case}") };
    let disk = Faulty::new(Fault::Stop(step.parse().unwrap()), exchanges == "true");
    if what == "lesson" {
        lesson_on(&disk, Path::new(target), "title = \"New\"\n", force == "true").unwrap();
    } else {
        let stance = Stance { force: force == "true", keep: true };
        packets_on(&disk, Path::new(target), &contents(&files(Path::new(what))), stance).unwrap();
    }
}

#[test]
fn a_run_that_is_killed_leaves_a_whole_packet() {
    let made = tempfile::tempdir().unwrap();
    super::scene::put(made.path(), &super::scene::packets().1);
    let mut cases = 0;
    for (before, exchanges) in BEGINNINGS {
        for step in 0..measure(before, exchanges).0 {
            let scene = Scene::set(before, exchanges);
            let case = format!("{before:?}, exchanges {exchanges}, killed at {step}");
            let force = before == Before::Notes;
            let (from, to) = (made.path().display(), scene.target());
            assert!(killed(&format!("{from}|{}|{step}|{exchanges}|{force}", to.display())), "{case}: ran to its end");
            let seen = scene.look(&case);
            assert!(seen.is_some() || before == Before::Nothing || !exchanges, "{case}: no packet");
            next_run(&scene, &case, step % 2 == 1);
            cases += 1;
        }
    }
    eprintln!("{cases} kills");
    assert!(cases >= 150, "{cases}");
}

#[test]
fn a_killed_start_leaves_a_whole_lesson_file() {
    for force in [false, true] {
        for step in 0.. {
            let at = tempfile::tempdir().unwrap();
            let path: PathBuf = at.path().join("tram.toml");
            if force {
                std::fs::write(&path, "title = \"Old\"\n").unwrap();
            }
            if !killed(&format!("lesson|{}|{step}|true|{force}", path.display())) {
                assert!(step >= 5, "{step}");
                break;
            }
            let there = std::fs::read_to_string(&path).ok();
            let whole = there.as_deref().is_none_or(|text| ["title = \"Old\"\n", "title = \"New\"\n"].contains(&text));
            assert!(whole && (there.is_some() || !force), "{force} {step}: {there:?}");
            lesson_on(&Faulty::new(Fault::None, true), &path, "title = \"New\"\n", true).unwrap();
            assert_eq!(files(at.path()).keys().collect::<Vec<_>>(), ["tram.toml"], "{step}");
        }
    }
}
