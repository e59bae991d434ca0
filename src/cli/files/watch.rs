//! Waiting for a file to be saved.
//!
//! Sizes and times of change are asked for a few times a second. A lesson names a handful of files, so this costs nothing;
//! it needs no library, and it also works where systems do not report changes: on shares of a school's server, in synced
//! folders, and with editors that replace a file instead of writing into it.

use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, SystemTime};

use super::read;
use crate::cli::args::Input;
use crate::spec::{self, FontChoice};

/// Between two looks.
const PAUSE: Duration = Duration::from_millis(250);

/// What the files were like when they were last looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileState {
    files: Vec<(PathBuf, Option<(u64, SystemTime)>)>,
}

impl FileState {
    /// Looks at every file that a run reads: the lessons, the rosters and fonts they name, and layouts.
    pub fn now(input: &Input) -> Self {
        let mut paths = Vec::new();
        let mut folders: Vec<PathBuf> = input.layouts.iter().cloned().collect();
        for lesson in &input.lessons {
            paths.push(lesson.clone());
            // A lesson with mistakes names nothing yet: it has to be saved again first.
            let Some(spec) = read::lesson(lesson).ok().and_then(|source| spec::read(&source).ok()) else { continue };
            if let Some(roster) = &spec.class.roster {
                paths.push(read::beside(lesson, &roster.value));
            }
            if let FontChoice::File(name) = &spec.print.font.value {
                paths.push(read::beside(lesson, name));
            }
            folders.extend(spec.sheets.layouts.iter().map(|folder| read::beside(lesson, &folder.value)));
        }
        for folder in folders {
            let entries = fs::read_dir(folder).into_iter().flatten().flatten();
            let mut layouts: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
            layouts.sort();
            paths.extend(layouts);
        }
        Self { files: paths.into_iter().map(|path| (look(&path), path)).map(|(seen, path)| (path, seen)).collect() }
    }

    /// Returns once a file has changed, and has then stayed the same for a moment: an editor may take several steps.
    pub fn wait(&self, input: &Input) {
        let mut last = self.clone();
        loop {
            thread::sleep(PAUSE);
            let now = Self::now(input);
            if now == last && now != *self {
                return;
            }
            last = now;
        }
    }
}

/// A file's size and time of change; nothing where it is not.
fn look(path: &Path) -> Option<(u64, SystemTime)> {
    let metadata = fs::metadata(path).ok()?;
    Some((metadata.len(), metadata.modified().ok()?))
}
