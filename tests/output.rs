//! Writing under real faults: the program itself is killed, runs out of disk, or meets folders and names that do not do.
//! What each single step does when it fails is in the table of faults in `src/cli/files/faults`.

#![cfg(unix)]

use crate::support::run;
use std::collections::BTreeMap;
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use run::process;
use tempfile::TempDir;

const LESSON: &str = "title = \"Tram stops\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 2\nspares = 0\n\
                      [sheets]\nmake = [\"board\"]\n";
const NEW: [&str; 4] = ["typeset", "tram.toml", "--seed", "7"];

type Files = BTreeMap<String, Vec<u8>>;

/// Every file below a folder, by its path from there.
fn files(folder: &Path) -> Files {
    let mut all = Files::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().into_string().unwrap();
        if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
            all.extend(files(&entry.path()).into_iter().map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else {
            // It may be gone by now, while another program works.
            all.extend(fs::read(entry.path()).ok().map(|bytes| (name, bytes)));
        }
    }
    all
}

/// A folder with a lesson and its old packet, and that packet and the new one.
fn folder() -> (TempDir, Files, Files) {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    process(at.path(), &[&NEW[..], &["--out", "new"]].concat()).with(0);
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    let (old, new) = (files(&at.path().join("out/tram")), files(&at.path().join("new/tram")));
    fs::remove_dir_all(at.path().join("new")).unwrap();
    assert!(old.len() > 3 && old.keys().eq(new.keys()) && old != new);
    (at, old, new)
}

/// A child that is stopped when the test ends, however it ends.
struct Stopped(Child);

impl Drop for Stopped {
    fn drop(&mut self) {
        self.0.kill().and_then(|()| self.0.wait()).ok();
    }
}

/// Starts the program, and kills it when what is in `out` has changed so many times; false if it had ended by then.
fn killed(at: &Path, args: &[&str], changes: usize) -> bool {
    let mut command = Command::new(env!("CARGO_BIN_EXE_placewright"));
    command.args(args).current_dir(at).stdout(Stdio::null()).stderr(Stdio::null());
    let mut child = Stopped(command.spawn().unwrap());
    let sizes = || files(&at.join("out")).into_iter().map(|(name, bytes)| (name, bytes.len())).collect::<Vec<_>>();
    let (mut last, mut seen, start) = (sizes(), 0, Instant::now());
    while seen < changes {
        assert!(start.elapsed() < Duration::from_mins(2), "the program hangs");
        if child.0.try_wait().unwrap().is_some() {
            return false;
        }
        let now = sizes();
        seen += usize::from(now != last);
        last = now;
    }
    child.0.kill().unwrap();
    child.0.wait().unwrap();
    true
}

#[test]
fn a_killed_program_leaves_a_whole_packet() {
    let (at, old, new) = folder();
    let mut kills = 0;
    for changes in 1..=8 {
        let stopped = killed(at.path(), &NEW, changes);
        let seen = files(&at.path().join("out/tram"));
        assert!(seen == old || seen == new, "torn after {changes} changes: {:?}", seen.keys());
        kills += usize::from(stopped);
        // The next run is another lesson's half of the time: it clears up as well.
        if changes % 2 == 0 {
            fs::copy(at.path().join("tram.toml"), at.path().join("ferry.toml")).unwrap();
            process(at.path(), &["typeset", "ferry.toml"]).with(0);
            assert_eq!(files(&at.path().join("out/ferry")), old);
            fs::remove_dir_all(at.path().join("out/ferry")).unwrap();
            assert!(files(&at.path().join("out")).keys().all(|name| name.starts_with("tram/")));
        }
        process(at.path(), &["typeset", "tram.toml"]).with(0);
        let all = files(&at.path().join("out"));
        assert!(all.keys().all(|name| name.starts_with("tram/")), "strays: {:?}", all.keys());
        assert_eq!(files(&at.path().join("out/tram")), old);
    }
    eprintln!("{kills} of 8 killed before the end");
    assert!(kills >= 4, "{kills}");
}

/// Runs a line of shell in a folder, with the program as `$0`.
fn shell(at: &Path, line: &str) -> (Option<i32>, String) {
    let ran = Command::new("sh")
        .args(["-c", line, env!("CARGO_BIN_EXE_placewright")])
        .current_dir(at)
        .stdin(Stdio::null())
        .output()
        .unwrap();
    (ran.status.code(), String::from_utf8_lossy(&ran.stderr).into_owned())
}

/// `ulimit -f` limits the size of a file: writing past it fails, or kills the program where the signal is not ignored.
#[test]
fn files_that_may_not_grow_leave_the_old_packet() {
    let (at, old, new) = folder();
    for blocks in [0, 1, 8, 32] {
        for (trap, status) in [("trap '' XFSZ;", Some(3)), ("ulimit -c 0;", None)] {
            let line = format!("{trap} ulimit -f {blocks}; exec \"$0\" typeset tram.toml --seed 7");
            let (got, said) = shell(at.path(), &line);
            assert_eq!(got, status, "{line}: {said}");
            assert!(status.is_none() || said.starts_with("error: cannot write into `out`: the file would"), "{said}");
            assert_eq!(files(&at.path().join("out/tram")), old);
        }
    }
    process(at.path(), &NEW).with(0);
    let all = files(&at.path().join("out"));
    assert!(all.len() == new.len() && all.keys().all(|name| name.starts_with("tram/")), "{:?}", all.keys());
    assert_eq!(files(&at.path().join("out/tram")), new);
}

/// A disk of its own that is too small, and one that is read-only, where the system lets us have one.
#[test]
fn a_full_disk_leaves_the_old_packet() {
    let (at, old, new) = folder();
    let kib = |files: &Files| files.values().map(|bytes| bytes.len().div_ceil(4096) * 4 + 4).sum::<usize>();
    let (first, both) = (kib(&old), kib(&old) + kib(&new));
    let mut full = 0;
    for size in [first + 8, first + 16, first + (both - first) / 3, first + (both - first) * 2 / 3, both + 64] {
        let line = format!(
            "unshare -rm sh -c 'mkdir -p disk && mount -t tmpfs -o size={size}k none disk && cp -r out/tram disk/ && touch ok \
             && {{ \"$0\" typeset tram.toml --seed 7 --out disk; echo $? >status; cp -r disk after; \
             mount -o remount,ro disk; \"$0\" typeset tram.toml --out disk; echo $? >ro; }} 2>said' \"$0\""
        );
        shell(at.path(), &line);
        if !at.path().join("ok").exists() {
            eprintln!("skipped: no disk of its own is permitted");
            return;
        }
        let read = |name: &str| fs::read_to_string(at.path().join(name)).unwrap();
        let (status, said) = (read("status").trim().to_owned(), read("said"));
        let after = files(&at.path().join("after"));
        assert!(after.keys().all(|name| name.starts_with("tram/")), "{size}: {:?}", after.keys());
        let seen = files(&at.path().join("after/tram"));
        match status.as_str() {
            "0" => assert_eq!(seen, new, "{size}"),
            "3" => assert_eq!(seen, old, "{size}"),
            other => panic!("{size}: {other}: {said}"),
        }
        assert_eq!(status == "3", said.contains("error: cannot write into `disk`: the disk is full"), "{size}: {said}");
        assert!(read("ro").trim() == "3" && said.contains("cannot write into `disk`: the disk is read-only"), "{said}");
        full += usize::from(status == "3");
        fs::remove_dir_all(at.path().join("after")).unwrap();
    }
    eprintln!("{full} of 5 disks were full");
    assert!((3..5).contains(&full), "{full}");
}

#[test]
fn folders_that_cannot_be_written_are_named() {
    let (at, old, _) = folder();
    let target = at.path().join("out/tram");
    fs::set_permissions(&target, fs::Permissions::from_mode(0o555)).unwrap();
    let ran = process(at.path(), &NEW).with(3);
    assert_eq!(ran.err, "error: cannot write `out/tram`: the folder is read-only\n");
    fs::set_permissions(&target, fs::Permissions::from_mode(0o755)).unwrap();
    assert_eq!(files(&at.path().join("out")), old.into_iter().map(|(k, v)| (format!("tram/{k}"), v)).collect());
    // A file where the lock goes, a folder where the work goes, a link that leads nowhere where the packets go.
    for (name, put) in [(".placewright-tram.lock", "mine"), (".placewright-tram.new/x.pdf", "mine")] {
        let path = at.path().join("out").join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, put).unwrap();
        let ran = process(at.path(), &NEW).with(3);
        assert!(ran.err.contains("files named `out/.placewright-tram.…` are in the way"), "{}", ran.err);
        assert_eq!(fs::read_to_string(&path).unwrap(), put);
        fs::remove_file(path).unwrap();
    }
    fs::remove_dir(at.path().join("out/.placewright-tram.new")).unwrap();
    std::os::unix::fs::symlink("nowhere", at.path().join("gone")).unwrap();
    let ran = process(at.path(), &["typeset", "tram.toml", "--out", "gone"]).with(3);
    assert_eq!(ran.err, "error: cannot write into `gone`: a part of its path is not a folder\n");
    assert!(!at.path().join("nowhere").exists());
}

#[test]
fn names_that_do_not_travel_are_refused() {
    let at = tempfile::tempdir().unwrap();
    #[track_caller]
    fn case(at: &TempDir, lessons: &[&str], says: &str) {
        for lesson in lessons {
            let path = at.path().join(lesson);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, LESSON).unwrap();
        }
        let ran = process(at.path(), &[&["typeset"], lessons].concat()).with(2);
        assert!(ran.err.contains(says) && !at.path().join("out").exists(), "{lessons:?}: {}", ran.err);
    }
    case(&at, &["nul.toml"], "Windows keeps `nul` for a device");
    case(&at, &["Com1.b.toml"], "Windows keeps `Com1.b` for a device");
    case(&at, &[&format!("{}.toml", "x".repeat(220))], "at most 200");
    case(&at, &["a?.toml"], "cannot be the name of a folder");
    // The same name with an accent of its own, and with a combining one: one folder on some disks.
    case(&at, &["a/caf\u{e9}.toml", "b/cafe\u{301}.toml"], "would both be written into");
    case(&at, &["a/tram.toml", "b/tram.toml"], "would both be written into");
    let ran = process(at.path(), &["start", "aux.toml"]).with(2);
    assert!(
        ran.err.contains("Windows keeps `aux` for a device") && !at.path().join("aux.toml").exists(),
        "{}",
        ran.err
    );
    let long = "y".repeat(300);
    let ran = process(at.path(), &["typeset", "a/tram.toml", "--out", &long]).with(3);
    assert!(ran.err.ends_with("its name is too long or not allowed here\n"), "{}", ran.err);
}

#[test]
fn looking_writes_nothing() {
    let (at, _, _) = folder();
    let before = files(at.path());
    fs::write(at.path().join("out/.placewright-tram.lock"), "").unwrap();
    for args in [["check", "tram.toml"], ["numbers", "tram.toml"], ["sheets", "-q"]] {
        process(at.path(), &args).with(0);
    }
    assert!(at.path().join("out/.placewright-tram.lock").exists(), "clearing up is for commands that write");
    fs::remove_file(at.path().join("out/.placewright-tram.lock")).unwrap();
    assert_eq!(files(at.path()), before);
}
