//! Where something is written: its name, the names of what lies beside it for a while, and the lock on it.
//!
//! A folder `out/tram` is made as `out/.placewright-tram.new`, called `….swap` once it is whole, and then exchanged with the
//! one that is there; where disks cannot exchange, the old one is called `….old` on the way. Meanwhile the empty file
//! `….lock` is there and locked. It is made first and removed last, so that it tells folders that a stopped run left
//! behind from folders of others that happen to have such a name.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use super::disk::Disk;
use super::read::shown;
use crate::cli::failure::Failure;
use crate::diag::Problem;

/// What the names of everything that is there for a while begin with.
const SCRATCH: &str = ".placewright-";

/// The most bytes in the name of a folder: disks take 255, and scratch names are longer.
const LONGEST: usize = 200;

/// Where a lesson's packets go: the folder in `out` that is named like the lesson file, without its ending. It never
/// lies outside `out`, and it can be copied to any kind of disk.
pub fn folder(out: &Path, lesson: &Path) -> Result<PathBuf, Failure> {
    let stem =
        if lesson == Path::new("-") { Some("lesson") } else { lesson.file_stem().and_then(|stem| stem.to_str()) };
    let refuse = |hint: String| {
        let problem = Problem::new(format!("the name of `{}` cannot be the name of a folder", shown(lesson)));
        Err(Failure::Usage(problem.hint(hint)))
    };
    match stem {
        Some(stem) if is_device(stem) => refuse(format!("rename the lesson file: Windows keeps `{stem}` for a device")),
        Some(stem) if is_plain(stem) => Ok(out.join(stem)),
        _ => refuse(format!("rename the lesson file: plain letters, digits, `-` and `_`, at most {LONGEST} of them")),
    }
}

/// Whether a name is one on every kind of disk.
fn is_plain(stem: &str) -> bool {
    let odd = |c: char| c.is_control() || matches!(c, '/' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|');
    // A dot at the end: `.` and `..` are folders elsewhere, and Windows drops it.
    !(stem.is_empty()
        || stem.len() > LONGEST
        || stem.contains(odd)
        || stem.ends_with(['.', ' '])
        || stem.to_lowercase().starts_with(SCRATCH))
}

/// Names that Windows keeps for devices, whatever ending follows (Microsoft, "Naming Files, Paths, and Namespaces"). Folders
/// get copied to such machines.
pub fn is_device(name: &str) -> bool {
    let base = name.split('.').next().unwrap_or_default().trim_end_matches(' ').to_uppercase();
    let numbered = |kind: &str| {
        let mut rest = base.strip_prefix(kind).unwrap_or_default().chars();
        matches!((rest.next(), rest.next()), (Some('0'..='9' | '\u{b9}' | '\u{b2}' | '\u{b3}'), None))
    };
    matches!(base.as_str(), "CON" | "PRN" | "AUX" | "NUL" | "CONIN$" | "CONOUT$") || numbered("COM") || numbered("LPT")
}

/// A file or folder that is to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutFolder {
    /// Itself.
    pub target: PathBuf,
    /// The folder it lies in.
    pub out: PathBuf,
    name: OsString,
}

impl OutFolder {
    /// The place of a path that ends in a name.
    pub fn of(target: &Path) -> Self {
        let out = target.parent().filter(|out| !out.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let name = target.file_name().unwrap_or_default().to_owned();
        Self { target: target.to_owned(), out: out.to_owned(), name }
    }

    fn beside(&self, ending: &str) -> PathBuf {
        let mut name = OsString::from(SCRATCH);
        name.push(&self.name);
        name.push(ending);
        self.out.join(name)
    }

    /// What is being written.
    pub fn fresh(&self) -> PathBuf {
        self.beside(".new")
    }

    /// What is whole and about to be exchanged; then what was there before.
    pub fn swap(&self) -> PathBuf {
        self.beside(".swap")
    }

    /// What was there before, on disks that cannot exchange.
    pub fn old(&self) -> PathBuf {
        self.beside(".old")
    }

    fn lock(&self) -> PathBuf {
        self.beside(".lock")
    }

    /// The places in a folder at which a run was stopped, or is at work.
    pub fn locked(out: &Path) -> io::Result<Vec<Self>> {
        let mut places = Vec::new();
        for entry in fs::read_dir(out)? {
            let name = entry?.file_name();
            let named = name.to_str().and_then(|name| name.strip_prefix(SCRATCH)?.strip_suffix(".lock"));
            let place = named.filter(|name| !name.is_empty()).map(|name| Self::of(&out.join(name)));
            places.extend(place.filter(|place| is_lock(&place.lock())));
        }
        places.sort_by(|one, other| one.target.cmp(&other.target));
        Ok(places)
    }

    /// Whether anything lies beside.
    pub fn has_scratch(&self) -> bool {
        [self.fresh(), self.swap(), self.old()].iter().any(|path| is_there(path))
    }

    /// Takes the lock; an error of the kind `AlreadyExists` where files of others are in the way; `None` while another run
    /// has it, after waiting a little if `patient`.
    pub fn hold<'d>(&self, disk: &'d dyn Disk, patient: bool) -> io::Result<Option<Held<'d>>> {
        let path = self.lock();
        for turn in 0.. {
            let stale = is_lock(&path);
            if !stale && (is_there(&path) || self.has_scratch()) && !is_lock(&path) {
                // No run was stopped here and none has begun: these are files of others, or links that lead elsewhere.
                return Err(io::ErrorKind::AlreadyExists.into());
            }
            if let Some(file) = disk.lock(&path)? {
                return Ok(Some(Held { disk, place: self.clone(), file }));
            }
            if !patient || !disk.wait(turn) {
                break;
            }
        }
        Ok(None)
    }
}

/// An empty file and nothing else.
fn is_lock(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|metadata| metadata.is_file() && metadata.len() == 0)
}

/// A place that is ours alone until [`Held::release`], or until the process ends.
pub struct Held<'d> {
    disk: &'d dyn Disk,
    place: OutFolder,
    file: File,
}

impl Held<'_> {
    /// Lets others work here. The lock stays as a sign if anything could not be cleared up.
    pub fn release(self) {
        let path = self.place.lock();
        let done = !self.place.has_scratch();
        let Self { disk, file, .. } = self;
        if cfg!(windows) {
            // Nobody can remove it while it is open, and whoever takes it in between keeps it.
            drop(file);
            let _ = done.then(|| disk.remove_file(&path));
        } else {
            let _ = done.then(|| disk.remove_file(&path));
            // Closing it would not do if the process were just starting another one, which has it too for a moment.
            let _ = file.unlock();
        }
    }
}

/// Whether there is anything at a path, be it a link that leads nowhere.
pub fn is_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// Whether there is a folder at a path, not a link to one.
pub fn is_folder(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|metadata| metadata.is_dir())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(lesson: &str, want: Option<&str>) {
        let got = folder(Path::new("out"), Path::new(lesson)).ok();
        assert_eq!(got.as_deref(), want.map(|name| Path::new("out").join(name)).as_deref(), "{lesson}");
    }

    #[test]
    fn folders_lie_in_out() {
        case("tram.toml", Some("tram"));
        case("/a/b/tram.stops.toml", Some("tram.stops"));
        case("-", Some("lesson"));
        case(&format!("{}.toml", "x".repeat(200)), Some(&"x".repeat(200)));
        for bad in ["..", ".", "/", "", "..toml", "...toml", "a/..", "a:b.toml", "a\\b.toml", "a\nb.toml", "a .toml"] {
            case(bad, None);
        }
        case(&format!("{}.toml", "x".repeat(201)), None);
        case(".placewright-x.toml", None);
        case(".Placewright-x.toml", None);
    }

    #[test]
    fn devices_of_windows_are_no_folders() {
        for bad in ["con", "NUL", "Aux.b", "prn", "com1", "LPT9", "com\u{b2}", "conin$", "nul .x", "LPT0"] {
            case(&format!("{bad}.toml"), None);
        }
        for good in ["cons", "com", "com10", "comx", "null", "my con", "lpt\u{2074}", "a.con"] {
            case(&format!("{good}.toml"), Some(good));
        }
    }

    #[test]
    fn scratch_names_fit_a_disk() {
        let place = OutFolder::of(Path::new(&"x".repeat(LONGEST)));
        for path in [place.fresh(), place.swap(), place.old(), place.lock()] {
            assert!(path.file_name().is_some_and(|name| name.len() <= 255) && path.starts_with("."));
        }
    }
}
