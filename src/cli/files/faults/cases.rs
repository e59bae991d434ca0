//! Faults that the program is told of.

use std::fs;
use std::path::Path;
use std::sync::atomic::Ordering;

use super::scene::{Before, Fault, Faulty, Scene, contents, files, packets};
use crate::cli::failure::Failure;
use crate::cli::files::disk::Real;
use crate::cli::files::place::OutFolder;
use crate::cli::files::write::{Stance, lesson_on, packets_on};
use crate::cli::files::{disk::Disk, tidy};

/// The ways a case begins.
pub const BEGINNINGS: [(Before, bool); 5] =
    [(Before::Nothing, true), (Before::Old, true), (Before::Old, false), (Before::Notes, true), (Before::Notes, false)];

/// Writes the new packet.
pub fn write(scene: &Scene, disk: &dyn Disk) -> Result<(), Failure> {
    let stance = Stance { force: scene.before == Before::Notes, keep: true };
    packets_on(disk, &scene.target(), &contents(&packets().1), stance)
}

/// How many steps and bytes a run takes when nothing goes wrong.
pub fn measure(before: Before, exchanges: bool) -> (u64, u64) {
    let (scene, disk) = (Scene::set(before, exchanges), Faulty::new(Fault::None, exchanges));
    write(&scene, &disk).unwrap();
    assert_eq!(scene.look("no fault"), Some(true));
    scene.no_strays("no fault");
    (disk.steps.load(Ordering::Relaxed), disk.bytes.load(Ordering::Relaxed))
}

/// After a fault: a clean run, or at least the clearing up before one, puts all in order.
#[track_caller]
pub fn next_run(scene: &Scene, case: &str, clear_first: bool) {
    if clear_first {
        tidy(&scene.out());
        assert_eq!(scene.look(case).is_none(), scene.before == Before::Nothing && !scene.target().exists(), "{case}");
        scene.no_strays(case);
    }
    write(scene, &Faulty::new(Fault::None, scene.exchanges)).unwrap_or_else(|failure| panic!("{case}: {failure:?}"));
    assert_eq!(scene.look(case), Some(true), "{case}");
    scene.no_strays(case);
}

#[track_caller]
fn case(before: Before, exchanges: bool, fault: Fault) {
    let case = format!("{before:?}, exchanges {exchanges}, {fault:?}");
    let scene = Scene::set(before, exchanges);
    let result = write(&scene, &Faulty::new(fault, exchanges));
    match (&result, scene.look(&case)) {
        (Ok(()), seen) => assert_eq!(seen, Some(true), "{case}"),
        // The packet is in place, the files of others are not yet.
        (Err(Failure::File { diagnostic, .. }), Some(true)) => {
            assert!(diagnostic.problem.message.contains("is new, but"), "{case}: {diagnostic:?}");
        }
        // Moving back failed as well: only a disk that is gone does that.
        (Err(Failure::File { diagnostic, .. }), None) if before != Before::Nothing => {
            let hint = diagnostic.problem.hint.as_deref().unwrap_or_default();
            assert!(matches!(fault, Fault::From(_)) && !exchanges && hint.contains("brings it back"), "{case}");
        }
        (Err(Failure::File { diagnostic, .. }), _) => {
            let said = &diagnostic.problem.message;
            let causes = ["permission denied", "the disk is read-only", "the disk is full"];
            assert!(causes.iter().any(|cause| said.ends_with(cause)), "{case}: {said}");
            if !matches!(fault, Fault::From(_)) && before == Before::Nothing && scene.all().is_empty() {
                assert!(!scene.out().exists(), "{case}: an empty folder is left");
            }
        }
        (Err(failure), _) => panic!("{case}: {failure:?}"),
    }
    let odd = match fault {
        Fault::Once(at) | Fault::From(at) | Fault::Full(at) | Fault::Stop(at) => at % 2 == 1,
        Fault::None => false,
    };
    next_run(&scene, &case, odd);
}

#[test]
fn a_step_that_fails_leaves_a_whole_packet() {
    let mut cases = 0;
    for (before, exchanges) in BEGINNINGS {
        for step in 0..measure(before, exchanges).0 {
            case(before, exchanges, Fault::Once(step));
            case(before, exchanges, Fault::From(step));
            cases += 2;
        }
    }
    eprintln!("{cases} failing steps");
    assert!(cases >= 300, "{cases}");
}

#[test]
fn a_disk_that_fills_up_leaves_a_whole_packet() {
    let mut cases = 0;
    let (_, all) = measure(Before::Nothing, true);
    // Around the ends of files, where a file has all its bytes but others do not, and at many places between.
    let mut ends: Vec<u64> = packets().1.values().map(|bytes| bytes.len() as u64).collect();
    (1..ends.len()).for_each(|k| ends[k] += ends[k - 1]);
    assert_eq!(ends.last(), Some(&all));
    let mut full: Vec<u64> = ends.iter().flat_map(|end| [end - 1, *end, end + 1]).chain(0..3).collect();
    full.extend((0..31).map(|k| k * all / 31));
    full.retain(|bytes| *bytes < all);
    for bytes in full {
        case(Before::Old, true, Fault::Full(bytes));
        case(if bytes % 2 == 0 { Before::Nothing } else { Before::Notes }, false, Fault::Full(bytes));
        cases += 2;
    }
    eprintln!("{cases} full disks");
    assert!(cases >= 80, "{cases}");
}

#[test]
fn a_lesson_file_is_whole_or_not_there() {
    let (old, new) = ("title = \"Old\"\n", "title = \"New\"\n");
    let mut cases = 0;
    for (before, replace) in [(None, false), (None, true), (Some(old), false), (Some(old), true)] {
        for fault in (0..12).flat_map(|k| [Fault::Once(k), Fault::From(k), Fault::Full(k)]) {
            let at = tempfile::tempdir().unwrap();
            let path = at.path().join("tram.toml");
            if let Some(text) = before {
                fs::write(&path, text).unwrap();
            }
            let result = lesson_on(&Faulty::new(fault, true), &path, new, replace);
            let there = fs::read_to_string(&path).ok();
            assert!(there.is_none() && before.is_none() || there.as_deref() == before || there.as_deref() == Some(new));
            assert!(result.is_err() || there.as_deref() == Some(new), "{fault:?}");
            assert!(before.is_none() || replace || there.as_deref() == before);
            lesson_on(&Faulty::new(Fault::None, true), &path, new, true).unwrap();
            assert_eq!(files(at.path()).keys().collect::<Vec<_>>(), ["tram.toml"], "{fault:?}");
            cases += 1;
        }
    }
    eprintln!("{cases} lesson files");
}

/// A disk on which nobody waits.
struct Hasty;

impl Disk for Hasty {
    fn wait(&self, turn: u32) -> bool {
        turn < 2
    }
}

#[test]
fn a_second_run_says_that_another_is_at_work() {
    let scene = Scene::set(Before::Old, true);
    let held = OutFolder::of(&scene.target()).hold(&Real, false).unwrap().unwrap();
    let Err(Failure::File { diagnostic, .. }) = write(&scene, &Hasty) else { panic!("written under a lock") };
    assert!(diagnostic.problem.message.contains("another run of Placewright is at work on it"), "{diagnostic:?}");
    assert_eq!(scene.look("locked"), Some(false));
    // Clearing up leaves it alone as well.
    tidy(&scene.out());
    assert!(scene.out().join(".placewright-tram.lock").exists());
    held.release();
    next_run(&scene, "released", false);
}

#[test]
fn runs_at_once_take_turns() {
    let scene = Scene::set(Before::Old, true);
    let (old, new) = packets();
    std::thread::scope(|scope| {
        for files in [old, new, old, new] {
            let target = scene.target();
            scope.spawn(move || {
                for _ in 0..5 {
                    packets_on(&Faulty::new(Fault::None, true), &target, &contents(files), Stance::default()).unwrap();
                    tidy(target.parent().unwrap());
                }
            });
        }
    });
    assert!(scene.look("in turns").is_some());
    scene.no_strays("in turns");
}

#[test]
fn what_only_looks_like_ours_is_left_alone() {
    let scene = Scene::set(Before::Old, true);
    let theirs = [".placewright-tram.old/x.pdf", ".placewright-ferry.new/x.pdf", ".placewright-ferry.old/a", "x.lock"];
    let put = |name: &str| {
        let path = scene.out().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, "mine").unwrap();
    };
    theirs.into_iter().for_each(put);
    put(".placewright-bell.lock");
    put(".placewright-bell.old/contents.json");
    let before = scene.all();
    tidy(&scene.out());
    let Err(Failure::File { diagnostic, .. }) = write(&scene, &Real) else { panic!("their files were in the way") };
    assert!(
        diagnostic.problem.message.ends_with("files named `out/.placewright-tram.…` are in the way") || {
            diagnostic.problem.message.contains(".placewright-tram.…` are in the way")
        }
    );
    assert!(scene.all() == before);
}

#[test]
fn files_that_turn_up_during_the_work_are_kept() {
    let scene = Scene::set(Before::Old, true);
    let late = scene.target().join("late.txt");
    let (_, new) = packets();
    let mut files = contents(new);
    files[0].1 = Box::new(|out| {
        fs::write(&late, "mine")?;
        Ok(out.write_all(&new[contents(new)[0].0])?)
    });
    packets_on(&Real, &scene.target(), &files, Stance::default()).unwrap();
    assert_eq!(fs::read(&late).unwrap(), b"mine");
    scene.no_strays("late");
    assert!(is_refused(&scene), "the next run asks about it");
}

fn is_refused(scene: &Scene) -> bool {
    matches!(write(scene, &Real), Err(Failure::File { diagnostic, .. }) if diagnostic.problem.message.contains("late.txt"))
}

#[test]
fn folders_of_others_are_never_removed_by_force() {
    let scene = Scene::set(Before::Old, true);
    fs::remove_file(scene.target().join("teacher.pdf")).unwrap();
    super::scene::put(&scene.target().join("teacher.pdf"), &super::scene::notes());
    packets_on(&Real, &scene.target(), &contents(&packets().1), Stance { force: true, keep: false }).unwrap();
    assert_eq!(files(&scene.target().join("teacher.pdf.kept")), super::scene::notes());
    assert!(Path::new(&scene.target().join("teacher.pdf")).is_file());
}

/// Whoever has opened a folder reads one lesson from it, or files that are gone; by their paths, files are whole, and the
/// same before and after as long as `contents.json` is.
#[cfg(target_os = "linux")]
#[test]
fn a_reader_never_sees_two_lessons_mixed() {
    use rustix::fs::{Mode, OFlags, open, openat};
    use std::io::Read;
    use std::sync::atomic::AtomicBool;
    let (old, new) = packets();
    let scene = Scene::set(Before::Old, true);
    let (target, done) = (scene.target(), AtomicBool::new(false));
    let mut whole = 0;
    std::thread::scope(|scope| {
        scope.spawn(|| {
            for files in [new, old].into_iter().cycle().take(60) {
                packets_on(&Faulty::new(Fault::None, true), &target, &contents(files), Stance::default()).unwrap();
            }
            done.store(true, Ordering::Relaxed);
        });
        while !done.load(Ordering::Relaxed) {
            // There is a folder at any moment.
            let folder = open(&target, OFlags::RDONLY | OFlags::DIRECTORY, Mode::empty()).unwrap();
            let read = |name: &str| {
                let mut bytes = Vec::new();
                let file = openat(&folder, name, OFlags::RDONLY, Mode::empty()).ok()?;
                fs::File::from(file).read_to_end(&mut bytes).unwrap();
                Some(bytes)
            };
            let seen: Vec<_> = new.keys().map(|name| (name, read(name))).collect();
            let of = |files: &super::scene::Files| {
                seen.iter().all(|(name, bytes)| bytes.as_ref().is_none_or(|bytes| *bytes == files[*name]))
            };
            assert!(of(old) || of(new));
            whole += usize::from(seen.iter().all(|(_, bytes)| bytes.is_some()));
        }
    });
    assert!(whole > 10, "{whole}");
}
