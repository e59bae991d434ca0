//! How the program behaves among other programs: pipes, shells, line ends, other machines, files saved while it watches.

#![cfg(unix)]

use std::fs;
use std::io::Read;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

const LESSON: &str =
    "title = \"Tram stops\"\n[numbers]\nrange = [100, 999]\n[sheets]\nmake = [\"board\", \"strips\"]\n";

fn program(folder: &Path, args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_placewright"));
    command.args(args).current_dir(folder).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// A folder with the lesson `tram.toml`.
fn folder() -> tempfile::TempDir {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    at
}

fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    let mut files: Vec<_> =
        entries.map(|e| (e.file_name().into_string().unwrap(), fs::read(e.path()).unwrap())).collect();
    files.sort();
    files
}

#[test]
fn nothing_around_the_program_changes_a_byte() {
    let (here, there) = (folder(), folder());
    assert!(program(here.path(), &["typeset", "tram.toml"]).status().unwrap().success());
    let lesson = there.path().join("tram.toml");
    let out = there.path().join("elsewhere");
    let args = ["typeset", lesson.to_str().unwrap(), "--out", out.to_str().unwrap()];
    let around = [("TZ", "Pacific/Auckland"), ("LANG", "de_DE.UTF-8"), ("LC_ALL", "tr_TR.UTF-8"), ("USER", "somebody")];
    let around = around.into_iter().chain([("HOME", "/nowhere"), ("COLUMNS", "40"), ("SOURCE_DATE_EPOCH", "1")]);
    assert!(program(Path::new("/"), &args).env_clear().envs(around).status().unwrap().success());
    let (one, two) = (files(&here.path().join("out/tram")), files(&out.join("tram")));
    assert!(one.len() >= 3);
    for (one, two) in one.iter().zip(&two) {
        assert!(one == two, "{} differs", one.0);
    }
    assert_eq!(one.len(), two.len());
}

#[test]
fn a_lesson_among_others_comes_out_as_alone() {
    let (alone, among) = (folder(), folder());
    // Alone it has all threads and files are made ahead of their turn; among many it has one.
    assert!(program(alone.path(), &["typeset", "tram.toml"]).status().unwrap().success());
    let mut args = vec!["typeset".to_owned(), "tram.toml".to_owned()];
    for k in 0..16 {
        let name = format!("other-{k}.toml");
        fs::write(among.path().join(&name), LESSON.replace("Tram", "Bus")).unwrap();
        args.push(name);
    }
    let args: Vec<&str> = args.iter().map(String::as_str).collect();
    assert!(program(among.path(), &args).status().unwrap().success());
    let (one, two) = (files(&alone.path().join("out/tram")), files(&among.path().join("out/tram")));
    assert!(one.len() >= 3 && one == two);
}

#[test]
fn windows_line_ends_and_a_mark_in_front_change_nothing() {
    let at = folder();
    fs::write(at.path().join("crlf.toml"), format!("\u{feff}{}", LESSON.replace('\n', "\r\n"))).unwrap();
    let said = |name: &str| {
        let ran = program(at.path(), &["numbers", name, "--format", "json"]).output().unwrap();
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
        String::from_utf8(ran.stdout).unwrap().replace(name, "")
    };
    assert_eq!(said("crlf.toml"), said("tram.toml"));
}

#[test]
fn a_reader_that_leaves_early_is_no_error() {
    let at = folder();
    let mut child = program(at.path(), &["manual"]).spawn().unwrap();
    drop(child.stdout.take());
    let mut said = String::new();
    child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
    assert!(child.wait().unwrap().success(), "{said}");
    assert_eq!(said, "");
}

#[test]
fn shells_and_the_manual_know_every_command() {
    let at = folder();
    let shells = ["bash", "elvish", "fish", "zsh", "powershell"].map(|shell| vec!["completions", shell]);
    for args in shells.into_iter().chain([vec!["manual"]]) {
        let ran = program(at.path(), &args).output().unwrap();
        let text = String::from_utf8(ran.stdout).unwrap().to_lowercase();
        for command in ["start", "check", "numbers", "typeset", "preview", "sheets"] {
            assert!(text.contains(command), "{args:?} lacks {command}");
        }
    }
}

/// A child that is stopped when the test ends, however it ends.
struct Stopped(Child);

impl Drop for Stopped {
    fn drop(&mut self) {
        self.0.kill().and_then(|()| self.0.wait()).ok();
    }
}

/// Waits until `done`, for two minutes at most: the machine may be busy, the program is not slow.
#[track_caller]
fn until(what: &str, done: impl Fn() -> bool) {
    let start = Instant::now();
    while !done() {
        assert!(start.elapsed() < Duration::from_mins(2), "never: {what}");
        sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_watched_lesson_is_made_again_and_mistakes_keep_the_last_good_packet() {
    let at = folder();
    let contents = at.path().join("out/tram/contents.json");
    let read = || fs::read_to_string(&contents).unwrap_or_default();
    let mut command = program(at.path(), &["typeset", "tram.toml", "--watch"]);
    let log = fs::File::create(at.path().join("log")).unwrap();
    let _child = Stopped(command.stdout(Stdio::null()).stderr(log).spawn().unwrap());
    let talk = || fs::read_to_string(at.path().join("log")).unwrap_or_default();
    until("the first packet", || read().contains("Tram stops"));
    fs::write(at.path().join("tram.toml"), LESSON.replace("range", "rnage")).unwrap();
    until("the mistake is told", || talk().contains("rnage"));
    assert!(read().contains("Tram stops"));
    fs::write(at.path().join("tram.toml"), LESSON.replace("Tram stops", "Ferry stops")).unwrap();
    until("the packet is made again", || read().contains("Ferry stops"));
}

#[cfg(unix)]
#[test]
fn what_a_save_does_not_change_stays_the_file_it_is() {
    use std::os::unix::fs::MetadataExt;
    let at = folder();
    let mut command = program(at.path(), &["preview", "tram.toml", "--watch"]);
    let log = fs::File::create(at.path().join("log")).unwrap();
    let _child = Stopped(command.stdout(Stdio::null()).stderr(log).spawn().unwrap());
    let made = || fs::read_to_string(at.path().join("log")).unwrap_or_default().matches("Waiting").count();
    let out = at.path().join("out/tram");
    // Every file, by its number on the disk.
    let numbers = || {
        let inner = fs::read_dir(out.join("pictures")).unwrap();
        let all = fs::read_dir(&out).unwrap().chain(inner).map(|entry| entry.unwrap().path());
        let mut all: Vec<_> = all.filter(|path| path.is_file()).collect();
        all.sort();
        all.into_iter().map(|path| (fs::metadata(&path).unwrap().ino(), path)).collect::<Vec<_>>()
    };
    until("the first packet", || made() == 1);
    let first = numbers();
    assert!(first.len() > 5, "{first:?}");
    fs::write(at.path().join("tram.toml"), format!("{LESSON}# A word.\n")).unwrap();
    until("the same again", || made() == 2);
    assert_eq!(numbers(), first);
    // Other numbers: what shows them is new.
    fs::write(at.path().join("tram.toml"), format!("seed = 77\n{LESSON}")).unwrap();
    until("other numbers", || made() == 3);
    let now = numbers();
    let changed = |name: &str| !first.iter().any(|old| old.1.ends_with(name) && now.contains(old));
    assert!(changed("contents.json") && changed("index.html") && changed("teacher.pdf"));
}
