//! `start`: a first lesson file.
//!
//! At a terminal a few questions are asked, each with an answer on Enter; with any answer given as a flag, or without a
//! terminal, none is. What comes out is a short file with comments, which is read back before it is written.

mod ask;
pub(super) mod text;

pub use ask::Asker;

use std::fmt::Write;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde_json::json;

use super::answers::Answers;
use super::args::Start;
use super::failure::{Failure, reason};
use super::files;
use super::files::read::shown;
use super::files::write;
use super::report::Report;
use crate::diag::{Problem, Source};
use crate::spec;

/// Writes a lesson file and says what to type next.
pub fn run(given: &Start, asker: Option<Asker>) -> Result<Report, Failure> {
    let mut answers = Answers::default();
    let mut replace = given.force;
    // Before the questions: nobody answers them twice.
    if let Some(file) = &given.file {
        placed(file)?;
    }
    let path;
    if let Some(asker) = asker.filter(|_| !given.answers_anything()) {
        let file = |title: &str| given.file.clone().unwrap_or_else(|| named_after(title));
        let Some((found, at, over)) = ask::all(asker, &answers, file, replace).map_err(|error| stopped(&error))? else {
            let human = "Nothing was written.\n".to_owned();
            return Ok(report(human, None));
        };
        (answers, path, replace) = (found, at, replace || over);
    } else {
        given.fill(&mut answers);
        path = given.file.clone().unwrap_or_else(|| named_after(&answers.title));
    }
    let name = shown(&path);
    let text = text::write(&answers, &word(&name));
    let source = Arc::new(Source { name: name.clone(), text });
    spec::read(&source).map_err(Failure::Lesson)?;
    write::lesson(&path, &source.text, replace).map_err(|error| refused(&name, &error))?;
    Ok(report(next(&name), Some(&name)))
}

/// Whether a lesson file can be at a path. A lesson whose packets could not be written later is no help.
pub(super) fn placed(path: &Path) -> Result<(), Failure> {
    files::folder(Path::new("."), path)?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if folder.is_dir() {
        return Ok(());
    }
    let problem = Problem::new(format!("cannot write `{}`: there is no folder `{}`", shown(path), shown(folder)));
    Err(Failure::file(shown(path), problem.hint("make the folder first, or name a file in another one")))
}

fn report(human: String, written: Option<&str>) -> Report {
    Report { human, notes: Vec::new(), warnings: Vec::new(), json: json!({ "written": written }) }
}

/// What to type next.
fn next(name: &str) -> String {
    let word = word(name);
    let mut human = format!("Wrote {name}: a short file to read and change in any text editor.\n\nNext, type\n");
    for (command, does) in [
        ("check", "to see what will come out"),
        ("typeset", "to make the files to print"),
        ("preview", "to make them with pictures to look at first"),
    ] {
        let line = format!("  placewright {command} {word}");
        let _ = writeln!(human, "{line:40}  {does}");
    }
    human
}

/// A path as one word of a shell.
fn word(name: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '.' | '-' | '_' | '/');
    if name.chars().all(plain) { name.to_owned() } else { format!("\"{name}\"") }
}

/// A file name from a title: its letters and digits, small, joined by `-`.
pub(super) fn named_after(title: &str) -> PathBuf {
    let mut stem = String::new();
    for c in title.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            stem.push(c);
        } else if !stem.is_empty() && !stem.ends_with('-') {
            stem.push('-');
        }
        if stem.len() >= 40 {
            break;
        }
    }
    let stem = match stem.trim_end_matches('-') {
        "" => "lesson".to_owned(),
        // A folder of this name could not be copied to every disk.
        device if files::is_device(device) => format!("lesson-{device}"),
        stem => stem.to_owned(),
    };
    Path::new(&stem).with_extension("toml")
}

fn refused(name: &str, error: &io::Error) -> Failure {
    if error.kind() == io::ErrorKind::AlreadyExists {
        let problem = Problem::new(format!("`{name}` is there already"));
        return Failure::file(name, problem.hint("choose another name, or use --force to replace it"));
    }
    Failure::file(name, Problem::new(format!("cannot write `{name}`: {}", reason(error))))
}

fn stopped(error: &dialoguer::Error) -> Failure {
    let dialoguer::Error::IO(cause) = error;
    if cause.kind() == io::ErrorKind::Interrupted {
        return Failure::Stopped;
    }
    let problem = Problem::new(format!("the questions were broken off ({error}); nothing was written"));
    Failure::file("-", problem.hint("answer with flags instead; `placewright start --help` lists them"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_named_after_titles() {
        #[track_caller]
        fn case(title: &str, want: &str) {
            assert_eq!(named_after(title), Path::new(want));
        }
        case("Harbour stalls: hundreds, tens", "harbour-stalls-hundreds-tens.toml");
        case("../../etc/passwd", "etc-passwd.toml");
        case("?!", "lesson.toml");
        case("Con", "lesson-con.toml");
        case("Číslo 1", "číslo-1.toml");
        case(&"a b".repeat(60), "a-ba-ba-ba-ba-ba-ba-ba-ba-ba-ba-ba-ba-ba.toml");
    }

    #[test]
    fn names_with_spaces_are_quoted() {
        assert_eq!(word("my class.toml"), "\"my class.toml\"");
        assert_eq!(word("a/b-1.toml"), "a/b-1.toml");
    }
}
