//! A lesson's packets onto the disk: all of them or none.
//!
//! Everything is written into a folder beside the final one, which then takes its place in one step. What was there before
//! is moved out in the same step and removed; if anything fails on the way, it stays as it was.

use std::fs::{self, File};
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use tempfile::TempDir;

use super::ours::is_ours;
use super::read::shown;
use crate::cli::failure::{Failure, reason};
use crate::diag::{Diagnostic, Problem, Severity};
use crate::{gallery, pdf};

/// Where a lesson's packets go: the folder in `out` that is named like the lesson file, without its ending. It never
/// lies outside `out`.
pub fn folder(out: &Path, lesson: &Path) -> Result<PathBuf, Failure> {
    let stem =
        if lesson == Path::new("-") { Some("lesson") } else { lesson.file_stem().and_then(|stem| stem.to_str()) };
    let plain = |stem: &&str| {
        // A dot at the end: `.` and `..` are folders elsewhere, and Windows drops it.
        let odd = |c: char| c.is_control() || matches!(c, '/' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|');
        !stem.is_empty()
            && !stem.starts_with(SCRATCH)
            && stem.len() <= 200
            && !stem.contains(odd)
            && !stem.ends_with(['.', ' '])
    };
    match stem.filter(plain) {
        Some(stem) => Ok(out.join(stem)),
        None => Err(Failure::Usage(
            Problem::new(format!("the name of `{}` cannot be the name of a folder", shown(lesson)))
                .hint("rename the lesson file: plain letters, digits, `-` and `_`, at most 200 of them"),
        )),
    }
}

/// What the names of our scratch folders begin with.
const SCRATCH: &str = ".placewright-";

/// Puts the files into `folder` as a whole. Whatever Placewright wrote there before is replaced or, when the lesson no
/// longer has it, removed. Anything else there stops the work unless `force` is given; then files of the same names are
/// replaced and the rest stays.
///
/// Files are written as they are made, so that none need be held as a whole. A name may have one folder before it, such as
/// `pictures/teacher-1.png`.
pub fn packets(folder: &Path, files: &[(&str, Content<'_>)], force: bool) -> Result<(), Failure> {
    let name = shown(folder);
    let refuse = |error: io::Error| {
        Failure::file(name.clone(), Problem::new(format!("cannot write `{name}`: {}", reason(&error))))
    };
    let kept = kept(folder, force)?;
    let out = folder.parent().filter(|out| !out.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(out).map_err(|error| {
        let out = shown(out);
        Failure::file(out.clone(), Problem::new(format!("cannot write into `{out}`: {}", create_reason(&error))))
    })?;
    let stage = tempfile::Builder::new().prefix(SCRATCH).tempdir_in(out).map_err(refuse)?;
    for (file, content) in files {
        if let Some((inner, _)) = file.rsplit_once('/') {
            fs::create_dir_all(stage.path().join(inner)).map_err(refuse)?;
        }
        write_whole(&stage.path().join(file), content).map_err(|failure| match failure {
            pdf::Failure::Io(error) => refuse(error),
            pdf::Failure::Problem(problem) => {
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
    swap(stage, folder, &kept, files).map_err(refuse)
}

/// The entries of a folder that Placewright did not write; an error when there are any and nothing forces us.
fn kept(folder: &Path, force: bool) -> Result<Vec<PathBuf>, Failure> {
    let name = shown(folder);
    let refuse = |why: String| Failure::file(name.clone(), Problem::new(format!("cannot write `{name}`: {why}")));
    match fs::symlink_metadata(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(refuse(create_reason(&error))),
        Ok(metadata) if metadata.is_dir() => {}
        Ok(metadata) if metadata.is_symlink() => return Err(refuse("it is a link, not a folder".to_owned())),
        Ok(_) => return Err(refuse("it is a file, not a folder".to_owned())),
    }
    let mut kept = Vec::new();
    others(folder, &mut kept).map_err(|error| refuse(reason(&error)))?;
    kept.sort();
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

/// Adds the entries that Placewright did not write. The folder of pictures is ours as far as the pictures in it are.
fn others(folder: &Path, found: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = entry.path();
        if entry.file_name() == gallery::PICTURES && entry.file_type()?.is_dir() {
            others(&path, found)?;
        } else if !is_ours(&path)? {
            found.push(path);
        }
    }
    Ok(())
}

fn create_reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::AlreadyExists | io::ErrorKind::NotADirectory => "a part of its path is not a folder".to_owned(),
        _ => reason(error),
    }
}

/// What goes into a file: called once, with where to write it.
pub type Content<'c> = Box<dyn Fn(&mut dyn Write) -> Result<(), pdf::Failure> + 'c>;

fn write_whole(path: &Path, content: &Content<'_>) -> Result<(), pdf::Failure> {
    let mut file = BufWriter::with_capacity(1 << 16, File::create_new(path)?);
    content(&mut file)?;
    file.flush()?;
    Ok(file.get_ref().sync_all()?)
}

/// Puts the staged folder in the place of `folder`, with the entries of the old one that are kept.
fn swap(stage: TempDir, folder: &Path, kept: &[PathBuf], files: &[(&str, Content<'_>)]) -> io::Result<()> {
    if fs::symlink_metadata(folder).is_err() {
        fs::rename(stage.path(), folder)?;
        // It has moved: there is nothing to clean up.
        let _ = stage.keep();
        return Ok(());
    }
    // Kept entries move over first; if that or the exchange fails, they move back.
    let mut moved: Vec<(PathBuf, PathBuf)> = Vec::new();
    let result = kept
        .iter()
        .filter_map(|path| Some((path, path.strip_prefix(folder).ok()?)))
        .filter(|(_, name)| !files.iter().any(|(file, _)| *name == Path::new(file)))
        .try_for_each(|(path, name)| {
            let new = stage.path().join(name);
            if let Some(inner) = new.parent() {
                fs::create_dir_all(inner)?;
            }
            fs::rename(path, &new)?;
            moved.push((path.clone(), new));
            Ok(())
        })
        .and_then(|()| exchange(stage.path(), folder));
    if result.is_err() {
        for (old, new) in moved {
            let _ = fs::rename(new, old);
        }
    }
    // The scratch folder now holds what was there before, or what did not get there; dropping it removes that.
    drop(stage);
    result
}

/// Exchanges two folders in one step where the system can, else in two.
fn exchange(new: &Path, old: &Path) -> io::Result<()> {
    #[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
    {
        use rustix::fs::{CWD, RenameFlags, renameat_with};
        if renameat_with(CWD, new, CWD, old, RenameFlags::EXCHANGE).is_ok() {
            return Ok(());
        }
    }
    // Not every file system can do it.
    let aside = new.with_extension("old");
    fs::rename(old, &aside)?;
    if let Err(error) = fs::rename(new, old) {
        let _ = fs::rename(&aside, old);
        return Err(error);
    }
    fs::rename(&aside, new)
}

/// Writes a new lesson file, whole or not at all. A file that is there already is an error of the kind `AlreadyExists`
/// unless it may be replaced.
pub fn lesson(path: &Path, text: &str, replace: bool) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new().prefix(SCRATCH).tempfile_in(folder)?;
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    // A scratch file is for its owner only; a lesson is an ordinary file.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        file.as_file().set_permissions(fs::Permissions::from_mode(0o644))?;
    }
    let written = if replace { file.persist(path) } else { file.persist_noclobber(path) };
    written.map(|_| ()).map_err(|failed| failed.error)
}
