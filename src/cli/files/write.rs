//! A lesson's packets onto the disk: all of them or none.
//!
//! Everything is written into a folder beside the final one, which then takes its place in one step. What was there before
//! is moved out in the same step and removed; if anything fails on the way, it stays as it was. A run that is stopped at
//! any moment leaves the old packet or the new one; what else it leaves, the next run clears up.

use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use super::disk::{Disk, Real};
use super::ours::is_ours;
use super::place::{OutFolder, is_folder, is_there};
use super::read::shown;
use super::recover::{give_back, is_made, make_folders, others, recover, remove, tidy};
use super::sink::Sink;
use crate::cli::failure::{Failure, reason};
use crate::diag::{Diagnostic, Problem, Severity};
use crate::{gallery, pdf};

/// What goes into a file: called once, with where to write it.
pub type FileContent<'c> = Box<dyn Fn(&mut dyn Write) -> Result<(), pdf::WriteFailure> + 'c>;

/// How files that are there already are dealt with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stance {
    /// Whether files that Placewright did not write may be replaced.
    pub force: bool,
    /// Whether files whose bytes would be the same stay what they are, with their times: programs that show or copy what
    /// has changed then see just that.
    pub keep: bool,
}

/// Puts the files into `folder` as a whole. Whatever Placewright wrote there before is replaced or, when the lesson no
/// longer has it, removed. Anything else there stops the work unless the stance is to force; then files of the same names are
/// replaced and the rest stays.
///
/// Files are written as they are made, so that none need be held as a whole. A name may have one folder before it, such as
/// `pictures/teacher-1.png`. Two runs never write into the same folder at once: the second waits a little, then fails.
pub fn packets(folder: &Path, files: &[(&str, FileContent<'_>)], stance: Stance) -> Result<(), Failure> {
    packets_on(&Real, folder, files, stance)
}

/// [`packets`] on a disk that may be a test's.
pub(super) fn packets_on(
    disk: &dyn Disk,
    folder: &Path,
    files: &[(&str, FileContent<'_>)],
    stance: Stance,
) -> Result<(), Failure> {
    let place = OutFolder::of(folder);
    check(folder)?;
    let out = shown(&place.out);
    let refuse = |error: io::Error| refused(&out, &format!("cannot write into `{out}`: {}", create_reason(&error)));
    let made = make_folders(disk, &place.out).map_err(refuse)?;
    let result = locked(disk, &place, files, stance);
    if result.is_err() {
        for folder in made.iter().rev() {
            // Not if another run is using it by now.
            let _ = disk.remove_folder(folder);
        }
    }
    result
}

/// Whether packets can be in the place of `folder` at all.
fn check(folder: &Path) -> Result<(), Failure> {
    let name = shown(folder);
    let refuse = |why: &str| Err(refused(&name, &format!("cannot write `{name}`: {why}")));
    match fs::symlink_metadata(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => refuse(&create_reason(&error)),
        Ok(metadata) if metadata.is_symlink() => refuse("it is a link, not a folder"),
        Ok(metadata) if !metadata.is_dir() => refuse("it is a file, not a folder"),
        // Its old files could not be removed. Windows marks folders so that merely look different.
        Ok(metadata) if cfg!(unix) && metadata.permissions().readonly() => refuse("the folder is read-only"),
        Ok(_) => Ok(()),
    }
}

/// Takes the lock, works, and lets go of it.
fn locked(
    disk: &dyn Disk,
    place: &OutFolder,
    files: &[(&str, FileContent<'_>)],
    stance: Stance,
) -> Result<(), Failure> {
    let name = shown(&place.target);
    let refuse = |error: io::Error| refused(&name, &format!("cannot write `{name}`: {}", reason(&error)));
    let Some(held) = place.hold(disk, true).map_err(|error| in_the_way(place, &error))? else {
        let problem = Problem::new(format!("cannot write `{name}`: another run of Placewright is at work on it"));
        return Err(Failure::file(name, problem.hint("wait until it is done, or choose another --out")));
    };
    let work = || {
        recover(disk, place).map_err(|error| in_the_way(place, &error))?;
        let kept = kept(&place.target, stance.force)?;
        let earlier = stance.keep.then_some(place.target.as_path());
        let staged = stage(disk, &place.fresh(), earlier, files);
        let swapped = staged.and_then(|()| swap(disk, place).map_err(|error| open_elsewhere(refuse(error))));
        if let Err(failure) = swapped {
            let _ = remove(disk, &place.fresh(), &is_made);
            let _ = remove(disk, &place.swap(), &is_ours);
            return Err(stranded(place, failure));
        }
        clear(disk, place, &kept, files)
    };
    let result = work();
    held.release();
    result
}

/// The entries of a folder that Placewright did not write; an error when there are any and nothing forces us.
fn kept(folder: &Path, force: bool) -> Result<Vec<PathBuf>, Failure> {
    let name = shown(folder);
    check(folder)?;
    let mut kept = Vec::new();
    if is_there(folder) {
        let refuse = |error: io::Error| refused(&name, &format!("cannot write `{name}`: {}", reason(&error)));
        others(folder, &mut kept).map_err(refuse)?;
    }
    match kept.first() {
        Some(first) if !force => {
            let first = shown(first);
            let problem = Problem::new(format!("`{first}` was not written by Placewright"))
                .hint(format!("move it out of `{name}`, choose another --out, or use --force"));
            Err(Failure::file(first, problem))
        }
        _ => Ok(kept),
    }
}

/// Writes all files into a new folder; those that an earlier folder has already, with the same bytes, are taken from there.
fn stage(
    disk: &dyn Disk,
    stage: &Path,
    earlier: Option<&Path>,
    files: &[(&str, FileContent<'_>)],
) -> Result<(), Failure> {
    let out = stage.parent().unwrap_or(stage);
    let refuse = |error: io::Error| {
        let name = shown(out);
        refused(&name, &format!("cannot write into `{name}`: {}", reason(&error)))
    };
    disk.create_folder(stage).map_err(refuse)?;
    for (file, content) in files {
        if let Some((inner, _)) = file.rsplit_once('/') {
            make_folders(disk, &stage.join(inner)).map_err(refuse)?;
        }
        // Pictures can be made again: waiting for a hundred of them would be most of a run.
        let lasting = !file.starts_with(gallery::PICTURES);
        let was = earlier.map(|earlier| earlier.join(file));
        write_whole(disk, &stage.join(file), was, lasting, content).map_err(|failure| match failure {
            pdf::WriteFailure::Io(error) => refuse(error),
            pdf::WriteFailure::Problem(problem) => {
                let problem = Problem { message: format!("{file}: {}", problem.message), ..problem };
                Failure::Lesson(vec![Diagnostic {
                    severity: Severity::Error,
                    place: None,
                    problem,
                    related: Vec::new(),
                }])
            }
        })?;
    }
    Ok(())
}

/// Writes a file; one with the same bytes at another path becomes this one as well, where the disk can do that. With
/// `lasting`, returns once it would survive a power cut.
fn write_whole(
    disk: &dyn Disk,
    path: &Path,
    earlier: Option<PathBuf>,
    lasting: bool,
    content: &FileContent<'_>,
) -> Result<(), pdf::WriteFailure> {
    let mut file = BufWriter::with_capacity(1 << 16, Sink::new(disk, path, earlier)?);
    content(&mut file)?;
    file.flush()?;
    Ok(file.into_inner().map_err(io::IntoInnerError::into_error)?.finish(lasting)?)
}

/// Puts the new folder in the place of the target. Afterwards what was there before, if anything was, is beside it; after
/// an error it is where it was.
fn swap(disk: &dyn Disk, place: &OutFolder) -> io::Result<()> {
    let (swap, target) = (place.swap(), &place.target);
    // Names that do not survive a power cut would lose a packet, but not every disk can promise more than it does.
    let _ = disk.sync_folder(&place.fresh());
    // From here on what lies beside is whole, and later it may hold files of others: the name says so to the next run.
    disk.rename(&place.fresh(), &swap)?;
    if !is_there(target) {
        disk.rename(&swap, target)?;
    } else if disk.exchange(&swap, target).is_err() {
        // Not every disk can do it: in two steps, between which a stopped run leaves both beside.
        let old = place.old();
        disk.rename(target, &old)?;
        if let Err(error) = disk.rename(&swap, target) {
            let _ = disk.rename(&old, target);
            return Err(error);
        }
    }
    let _ = disk.sync_folder(&place.out);
    Ok(())
}

/// Clears up after a swap: what is not ours moves over, what is ours is removed. What cannot be removed stays for the next
/// run; the packet is in place.
fn clear(
    disk: &dyn Disk,
    place: &OutFolder,
    kept: &[PathBuf],
    files: &[(&str, FileContent<'_>)],
) -> Result<(), Failure> {
    for old in [place.swap(), place.old()].into_iter().filter(|old| is_folder(old)) {
        // Files that were named when the work was forced are replaced. What has turned up since nobody has agreed to.
        let replaced = |path: &Path| {
            let name = path.strip_prefix(&old).unwrap_or(path);
            kept.contains(&place.target.join(name))
                && files.iter().any(|(file, _)| name == Path::new(file))
                && !is_folder(path)
        };
        let ours = |path: &Path| Ok(replaced(path) || is_ours(path)?);
        give_back(disk, &old, &place.target, &ours).map_err(|error| {
            let (name, old) = (shown(&place.target), shown(&old));
            let problem = Problem::new(format!(
                "`{name}` is new, but what Placewright did not write is still in `{old}`: {}",
                reason(&error)
            ));
            Failure::file(name, problem.hint("the next run brings it back"))
        })?;
        let _ = remove(disk, &old, &ours);
    }
    Ok(())
}

/// Writes a new lesson file, whole or not at all. A file that is there already is an error of the kind `AlreadyExists`
/// unless it may be replaced.
pub fn lesson(path: &Path, text: &str, replace: bool) -> io::Result<()> {
    lesson_on(&Real, path, text, replace)
}

/// Writes a picture, whole or not at all, into a folder that is made if it is not there. A picture of ours that is there
/// already is replaced; anything else is an error of the kind `AlreadyExists` unless it may be replaced.
pub fn picture(path: &Path, text: &str, replace: bool) -> io::Result<()> {
    make_folders(&Real, &OutFolder::of(path).out)?;
    let replace = replace || is_there(path) && is_ours(path)?;
    lesson_on(&Real, path, text, replace)
}

/// [`lesson`] on a disk that may be a test's.
pub(super) fn lesson_on(disk: &dyn Disk, path: &Path, text: &str, replace: bool) -> io::Result<()> {
    let place = OutFolder::of(path);
    tidy(&place.out);
    let held = place.hold(disk, true)?.ok_or(io::ErrorKind::ResourceBusy)?;
    let new = place.fresh();
    let work = || {
        recover(disk, &place)?;
        let content: FileContent<'_> = Box::new(|out: &mut dyn Write| Ok(out.write_all(text.as_bytes())?));
        let written = write_whole(disk, &new, None, true, &content).map_err(|failure| match failure {
            pdf::WriteFailure::Io(error) => error,
            pdf::WriteFailure::Problem(problem) => io::Error::other(problem.message),
        });
        let placed = written.and_then(|()| {
            if replace {
                return disk.rename(&new, path);
            }
            match disk.link(&new, path) {
                Err(error) if error.kind() != io::ErrorKind::AlreadyExists && !is_there(path) => {
                    disk.rename(&new, path)
                }
                linked => linked,
            }
        });
        if is_there(&new) {
            let _ = disk.remove_file(&new);
        }
        placed
    };
    let result = work();
    held.release();
    result
}

/// Windows does not move folders while a file in them is open.
fn open_elsewhere(failure: Failure) -> Failure {
    match failure {
        Failure::File { file, mut diagnostic } if cfg!(windows) => {
            diagnostic.problem.hint = Some("close programs that show its files, and try again".to_owned());
            Failure::File { file, diagnostic }
        }
        other => other,
    }
}

fn refused(name: &str, message: &str) -> Failure {
    Failure::file(name, Problem::new(message))
}

/// Something lies where the lock or what is being written goes.
fn in_the_way(place: &OutFolder, error: &io::Error) -> Failure {
    let name = shown(&place.target);
    if error.kind() != io::ErrorKind::AlreadyExists {
        let out = shown(&place.out);
        return refused(&name, &format!("cannot write into `{out}`: {}", reason(error)));
    }
    let scratch = shown(&place.fresh());
    let scratch = scratch.trim_end_matches("new");
    let problem = Problem::new(format!("cannot write `{name}`: files named `{scratch}…` are in the way"));
    Failure::file(name, problem.hint("Placewright did not write them: move or rename them"))
}

/// A failure that could not even be undone says where the old packet is.
fn stranded(place: &OutFolder, failure: Failure) -> Failure {
    let old = place.old();
    if is_there(&place.target) || !is_folder(&old) {
        return failure;
    }
    match failure {
        Failure::File { file, mut diagnostic } => {
            diagnostic.problem.hint =
                Some(format!("the old packet is in `{}`; the next run brings it back", shown(&old)));
            Failure::File { file, diagnostic }
        }
        other => other,
    }
}

fn create_reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::AlreadyExists | io::ErrorKind::NotADirectory => "a part of its path is not a folder".to_owned(),
        _ => reason(error),
    }
}
