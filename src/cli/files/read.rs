//! Lessons, rosters, layouts and fonts from the disk.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::encoding;
use crate::cli::failure::{Failure, reason};
use crate::diag::{FilePlace, Problem, Source};
use crate::spec::limits::{self, grouped};

/// A path as messages write it: as it was given, with `/` between its parts.
pub fn shown(path: &Path) -> String {
    let text = path.to_string_lossy();
    if cfg!(windows) { text.replace('\\', "/") } else { text.into_owned() }
}

/// The text of a lesson file, or of standard input for `-`.
pub fn lesson(path: &Path) -> Result<Arc<Source>, Failure> {
    if path == Path::new("-") {
        let name = "standard input";
        let bytes = limited(io::stdin().lock(), limits::LESSON_BYTES).map_err(|problem| refused(name, &problem))?;
        return text("-".to_owned(), bytes);
    }
    text(shown(path), bytes(path, limits::LESSON_BYTES)?)
}

/// The text of the roster that a lesson names.
pub fn roster(lesson: &Path, name: &str) -> Result<Arc<Source>, Failure> {
    let path = beside(lesson, name);
    let (name, bytes) = (shown(&path), bytes(&path, limits::ROSTER_BYTES)?);
    let text = encoding::decode(&name, bytes).map_err(|problem| Failure::file(name.clone(), problem))?;
    Ok(Arc::new(Source { name, text }))
}

/// The bytes of the font that a lesson names.
pub fn font(lesson: &Path, name: &str) -> Result<Vec<u8>, Failure> {
    bytes(&beside(lesson, name), limits::FONT_BYTES)
}

/// The texts of all layout files in a folder, in the order of their names.
pub fn layouts(folder: &Path) -> Result<Vec<Arc<Source>>, Failure> {
    let name = shown(folder);
    let refuse = |error: io::Error| refused(&name, &reason(&error));
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder).map_err(refuse)? {
        let path = entry.map_err(refuse)?.path();
        if path.extension().is_some_and(|extension| extension == "toml") {
            paths.push(path);
        }
        if paths.len() > limits::LAYOUTS {
            let problem = Problem::new(format!("there are more than {} layout files in `{name}`", limits::LAYOUTS));
            return Err(Failure::file(name, problem.hint("expected at most one for each sheet, and page.toml")));
        }
    }
    if paths.is_empty() {
        let problem = Problem::new(format!("there is no layout file in `{name}`"));
        return Err(Failure::file(name, problem.hint("expected files such as strips.toml")));
    }
    paths.sort();
    paths.iter().map(|path| text(shown(path), bytes(path, limits::LAYOUT_BYTES)?)).collect()
}

/// A path that a lesson names is looked for beside the lesson.
pub fn beside(lesson: &Path, name: &str) -> PathBuf {
    lesson.parent().map_or_else(|| PathBuf::from(name), |folder| folder.join(name))
}

fn refused(name: &str, why: &str) -> Failure {
    Failure::file(name, Problem::new(format!("cannot read `{name}`: {why}")))
}

fn bytes(path: &Path, most: u64) -> Result<Vec<u8>, Failure> {
    let name = shown(path);
    // Opening a folder works on some systems and only reading it fails; asking first gives the same words everywhere.
    if path.is_dir() {
        return Err(refused(&name, "it is a folder"));
    }
    let file = File::open(path).map_err(|error| refused(&name, &reason(&error)))?;
    limited(file, most).map_err(|why| refused(&name, &why))
}

/// Reads at most so many bytes.
fn limited(from: impl Read, most: u64) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    from.take(most + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() as u64 > most {
        return Err(format!("it is larger than {} bytes", grouped(most)));
    }
    Ok(bytes)
}

/// Bytes as text; the first that is not UTF-8 is pointed at.
fn text(name: String, bytes: Vec<u8>) -> Result<Arc<Source>, Failure> {
    let error = match String::from_utf8(bytes) {
        Ok(text) => return Ok(Arc::new(Source { name, text })),
        Err(error) => error,
    };
    let at = error.utf8_error().valid_up_to();
    let problem = Problem::new(format!("`{name}` is not UTF-8 text: byte {} cannot be read", grouped(at as u64 + 1)))
        .hint("save it as UTF-8 in your editor or spreadsheet");
    let source = Arc::new(Source { name: name.clone(), text: String::from_utf8_lossy(error.as_bytes()).into_owned() });
    // What stands before the first bad byte is the same in both.
    Err(Failure::file(name, problem).named_at(FilePlace { source, span: at..at + '\u{fffd}'.len_utf8() }))
}
