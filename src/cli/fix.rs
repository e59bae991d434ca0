//! `check --fix`: repairs of which there is no doubt, written into the lesson file.
//!
//! A repair takes the place of one line; every other byte of the file stays as it is, the ends of lines too. Much of what
//! is repaired does not parse, so the text is changed, not a document read from it.

use std::path::Path;
use std::sync::Arc;

use serde_json::{Value, json};

use super::failure::{Failure, reason};
use super::files::read::{self, shown};
use super::files::write;
use crate::diag::{Fix, Problem, Source};
use crate::spec;

/// How many times a file is read again after repairs: one can bring another mistake of the same line to light.
const ROUNDS: usize = 20;

/// A line that was repaired.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    line: usize,
    old: String,
    new: String,
}

impl Change {
    /// As people see it: what was taken out and what was put in.
    pub fn draw(&self) -> String {
        format!("  {:>4} - {}\n       + {}\n", self.line, self.old, self.new)
    }

    /// As programs get it.
    pub fn json(&self) -> Value {
        json!({ "line": self.line, "old": self.old, "new": self.new })
    }
}

/// Repairs a lesson file. Nothing is written where nothing is sure.
pub fn mend(path: &Path) -> Result<Vec<Change>, Failure> {
    if path == Path::new("-") {
        let problem = Problem::new("standard input cannot be repaired");
        return Err(Failure::Usage(problem.hint("name the lesson file, or leave out --fix")));
    }
    let source = read::lesson(path)?;
    let (text, changes) = mended(&source);
    if !changes.is_empty() {
        let name = shown(path);
        write::lesson(path, &text, true).map_err(|error| {
            Failure::file(name.clone(), Problem::new(format!("cannot write `{name}`: {}", reason(&error))))
        })?;
    }
    Ok(changes)
}

/// The text with every sure repair, and the lines that differ.
pub(super) fn mended(source: &Arc<Source>) -> (String, Vec<Change>) {
    let mut now = Arc::clone(source);
    for _ in 0..ROUNDS {
        let Err(found) = spec::read(&now) else { break };
        let mut fixes: Vec<Box<Fix>> = found.into_iter().filter_map(|d| d.problem.fix).filter(|fix| fix.sure).collect();
        if fixes.is_empty() {
            break;
        }
        // From the end, so that places further up stay where they are.
        fixes.sort_by_key(|fix| std::cmp::Reverse(fix.span.start));
        let mut text = now.text.clone();
        for fix in fixes {
            text.replace_range(fix.span.clone(), &fix.text);
        }
        now = Arc::new(Source { name: now.name.clone(), text });
    }
    // Repairs keep the number of lines.
    let lines = source.text.lines().zip(now.text.lines());
    let changes = (1..).zip(lines).filter(|(_, (old, new))| old != new);
    let changes = changes.map(|(line, (old, new))| Change { line, old: old.to_owned(), new: new.to_owned() });
    let changes = changes.collect();
    (now.text.clone(), changes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fixed(text: &str) -> (String, Vec<Change>) {
        mended(&Arc::new(Source { name: "x.toml".to_owned(), text: text.to_owned() }))
    }

    #[test]
    fn only_the_lines_of_repairs_change() {
        let (text, changes) = fixed("\u{feff}# Tram\r\nTitle : “Tram”  # ours\r\n\r\n[numbers\r\nrange=100-999\r\n");
        assert_eq!(text, "\u{feff}# Tram\r\ntitle = \"Tram\"  # ours\r\n\r\n[numbers]\r\nrange = [100, 999]\r\n");
        assert_eq!(changes.iter().map(|change| change.line).collect::<Vec<_>>(), [2, 4, 5]);
        assert!(
            changes[2].draw().contains("- range=100-999\n") && changes[2].draw().contains("+ range = [100, 999]\n")
        );
    }

    #[test]
    fn what_is_not_sure_is_left_alone() {
        let text = "title = \"T\"\n[numbers]\nrange = [10, 99]\n[print]\nmargin = 10\n[numbers.sort]\nzeros = 2\n";
        assert_eq!(fixed(text), (text.to_owned(), Vec::new()));
        assert_eq!(fixed("").1, []);
    }
}
