//! The folder that a desk was started for, and no way out of it.
//!
//! A name from the browser, or from a lesson that came from elsewhere, is a path below the folder with `/` between its
//! parts. Whatever is there already is looked at with all links followed: where it then lies elsewhere, it is refused.

use std::collections::VecDeque;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant, SystemTime};

use crate::cli::failure::reason;
use crate::cli::files::read::shown;
use crate::diag::Problem;

/// How deep files are looked for, how many are listed, and among how many: the folder may be somebody's home.
const DEEP: usize = 2;
const MOST: usize = 300;
const LOOKED_AT: usize = 5_000;
/// How long a listing is good for: the page is drawn again with every key.
const FRESH: Duration = Duration::from_secs(2);
/// What is listed.
const ENDINGS: [&str; 6] = ["toml", "csv", "tsv", "txt", "ttf", "otf"];

/// A folder.
#[derive(Debug)]
pub struct Folder {
    root: PathBuf,
    listed: Mutex<Option<(Instant, Vec<PathBuf>)>>,
}

impl Folder {
    /// The folder at a path, which must be there.
    pub fn at(path: &Path) -> io::Result<Self> {
        let root = fs::canonicalize(path)?;
        if root.is_dir() {
            Ok(Self { root, listed: Mutex::default() })
        } else {
            Err(io::ErrorKind::NotADirectory.into())
        }
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.root
    }

    /// What it is called.
    pub fn name(&self) -> String {
        self.root.file_name().map_or_else(|| shown(&self.root), |name| name.to_string_lossy().into_owned())
    }

    /// Where a name leads that is looked up from `from`, a folder below the root; there need be nothing yet.
    fn lexical(&self, from: &Path, name: &str) -> Option<PathBuf> {
        let mut path = from.to_owned();
        for part in Path::new(name).components() {
            match part {
                Component::Normal(part) => path.push(part),
                Component::CurDir => {}
                Component::ParentDir if path != self.root => drop(path.pop()),
                Component::ParentDir | Component::RootDir | Component::Prefix(_) => return None,
            }
        }
        Some(path)
    }

    /// The path of a name that a lesson gives, looked up from the lesson's folder.
    pub fn beside(&self, lesson: &Path, name: &str) -> Result<PathBuf, Problem> {
        let out = || {
            Problem::new(format!("`{name}` lies outside the folder that the desk was started for"))
                .hint(format!("copy it into `{}` and name it there", self.name()))
        };
        let path = self.lexical(lesson.parent().unwrap_or(&self.root), name).ok_or_else(out)?;
        // The nearest thing that is there decides: what is not there yet is made in it.
        let there = path.ancestors().find(|path| fs::symlink_metadata(path).is_ok()).unwrap_or(&self.root);
        let real = fs::canonicalize(there).map_err(|error| Problem::new(format!("`{name}`: {}", reason(&error))))?;
        if real.starts_with(&self.root) { Ok(path) } else { Err(out()) }
    }

    /// The path of a lesson file by its name in the chooser.
    pub fn lesson(&self, name: &str) -> Result<PathBuf, Problem> {
        let plain = |part: &str| !part.is_empty() && !part.starts_with('.') && !part.contains(['\\', '\0', ':']);
        if !name.split('/').all(plain) || !has_ending(Path::new(name), &["toml"]) {
            return Err(Problem::new(format!("`{}` is not the name of a lesson file", name.escape_default()))
                .hint("expected letters, digits, `-` and `_`, and `.toml` at the end"));
        }
        self.beside(&self.root.join("x"), name)
    }

    /// The files below the folder with one of these endings, the one that was saved last first; links are not followed.
    pub fn files(&self, endings: &[&str]) -> Vec<PathBuf> {
        let mut listed = self.listed.lock().unwrap_or_else(PoisonError::into_inner);
        let known = listed.take().filter(|(at, _)| at.elapsed() < FRESH);
        let (_, files) = listed.insert(known.unwrap_or_else(|| (Instant::now(), self.list())));
        files.iter().filter(|path| has_ending(path, endings)).cloned().collect()
    }

    fn list(&self) -> Vec<PathBuf> {
        let mut found: Vec<(SystemTime, PathBuf)> = Vec::new();
        let (mut open, mut seen) = (VecDeque::from([(self.root.clone(), 0)]), 0);
        while let Some((folder, depth)) = open.pop_front() {
            for entry in fs::read_dir(&folder).into_iter().flatten().flatten() {
                seen += 1;
                if found.len() >= MOST || seen > LOOKED_AT {
                    break;
                }
                let (path, name) = (entry.path(), entry.file_name());
                let Ok(metadata) = entry.metadata() else { continue };
                if name.to_string_lossy().starts_with('.') {
                    continue;
                }
                if metadata.is_dir() && depth < DEEP {
                    open.push_back((path, depth + 1));
                } else if metadata.is_file() && has_ending(&path, &ENDINGS) {
                    found.push((metadata.modified().unwrap_or(SystemTime::UNIX_EPOCH), path));
                }
            }
        }
        found.sort_by(|one, other| other.0.cmp(&one.0).then_with(|| one.1.cmp(&other.1)));
        found.into_iter().map(|(_, path)| path).collect()
    }

    /// A path below the folder as the chooser shows it; none for names that are no text.
    pub fn short(&self, path: &Path) -> Option<String> {
        let parts = path.strip_prefix(&self.root).ok()?.components().map(|part| part.as_os_str().to_str());
        parts.collect::<Option<Vec<_>>>().map(|parts| parts.join("/"))
    }
}

fn has_ending(path: &Path, endings: &[&str]) -> bool {
    let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    endings.iter().any(|wanted| wanted.eq_ignore_ascii_case(ending))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_name_leads_out() {
        let at = tempfile::tempdir().expect("a folder");
        let root = at.path().join("ours");
        fs::create_dir_all(root.join("sub")).expect("made");
        fs::write(at.path().join("secret.toml"), "").expect("written");
        fs::write(root.join("a.toml"), "").expect("written");
        let folder = Folder::at(&root).expect("a folder");
        let opens = |name: &str| folder.lesson(name).is_ok();
        assert!(opens("a.toml") && opens("new.toml") && opens("sub/b.toml") && opens("A.TOML"));
        for bad in [
            "../secret.toml",
            "sub/../../secret.toml",
            "/etc/passwd",
            "/etc/x.toml",
            "..",
            "",
            ".toml",
            ".hidden.toml",
            "sub//b.toml",
            "./a.toml",
            "a.txt",
            "a.toml\0.txt",
            "a.toml\0",
            "..\\secret.toml",
            "C:\\x.toml",
            "C:x.toml",
            "%2e%2e/secret.toml",
        ] {
            assert!(!opens(bad) || bad.starts_with('%'), "{bad}");
        }
        let lesson = folder.lesson("sub/b.toml").expect("inside");
        assert!(folder.beside(&lesson, "../a.toml").is_ok() && folder.beside(&lesson, "roster.csv").is_ok());
        for bad in ["../../secret.toml", "/etc/passwd", "../../ours/a.toml", "../../../x"] {
            assert!(folder.beside(&lesson, bad).is_err(), "{bad}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn no_link_leads_out() {
        use std::os::unix::fs::symlink;
        let at = tempfile::tempdir().expect("a folder");
        let root = at.path().join("ours");
        fs::create_dir(&root).expect("made");
        fs::write(at.path().join("secret.toml"), "").expect("written");
        symlink(at.path().join("secret.toml"), root.join("link.toml")).expect("linked");
        symlink(at.path(), root.join("up")).expect("linked");
        symlink("nowhere.toml", root.join("broken.toml")).expect("linked");
        symlink(at.path().join("not-there.toml"), root.join("later.toml")).expect("linked");
        let folder = Folder::at(&root).expect("a folder");
        for bad in ["link.toml", "up/secret.toml", "up/new.toml", "broken.toml", "later.toml"] {
            assert!(folder.lesson(bad).is_err(), "{bad}");
        }
        assert!(folder.files(&["toml"]).is_empty());
    }
}
