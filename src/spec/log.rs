//! What is wrong with a text, gathered while it is read.

use std::ops::Range;
use std::sync::Arc;

use crate::diag::nearest::{hint, listed, nearest};
use crate::diag::{Diagnostic, FilePlace, Problem, Source, TOLD};

/// Every mistake found so far, and the keys that no one asked for.
pub(super) struct Log {
    source: Arc<Source>,
    found: Vec<Diagnostic>,
    /// Keys left in a table after all that parse were taken out.
    left: Vec<Left>,
    /// Keys that must be given and are not.
    missing: Vec<([&'static str; 2], Range<usize>, Problem)>,
    /// The keys that parse, by table: the list that unknown keys are compared with.
    known: Vec<(String, Vec<&'static str>)>,
    /// The group whose requests are looked at, if they are a group's.
    group: Option<String>,
}

struct Left {
    table: String,
    key: String,
    span: Range<usize>,
}

impl Log {
    pub(super) fn new(source: &Arc<Source>) -> Self {
        Self {
            source: Arc::clone(source),
            found: Vec::new(),
            left: Vec::new(),
            missing: Vec::new(),
            known: Vec::new(),
            group: None,
        }
    }

    /// The text between two bytes.
    pub(super) fn text(&self, span: &Range<usize>) -> &str {
        self.source.text.get(span.clone()).unwrap_or("")
    }

    /// Where a quoted word stands within a stretch.
    pub(super) fn word(&self, word: &str, span: &Range<usize>) -> Range<usize> {
        self.source.word(word, span)
    }

    pub(super) fn error(&mut self, span: Range<usize>, problem: Problem) {
        self.clash(span, problem, Vec::new());
    }

    /// From here on problems are those of a group, and say so; `None` ends that.
    pub(super) fn within(&mut self, group: Option<&str>) {
        self.group = group.map(str::to_owned);
    }

    /// An error that other places of the file take part in.
    pub(super) fn clash(&mut self, span: Range<usize>, problem: Problem, related: Vec<(Option<Range<usize>>, String)>) {
        let problem = match &self.group {
            Some(group) => problem.of_group(group),
            None => problem,
        };
        let mut diagnostic = problem.at(&self.source, span);
        for (span, words) in related {
            if let Some(span) = span {
                diagnostic.related.push((FilePlace { source: Arc::clone(&self.source), span }, words));
            }
        }
        self.found.push(diagnostic);
    }

    pub(super) fn known(&mut self, table: &str, keys: Vec<&'static str>) {
        self.known.push((table.to_owned(), keys));
    }

    pub(super) fn left(&mut self, table: &str, key: &str, span: Range<usize>) {
        self.left.push(Left { table: table.to_owned(), key: key.to_owned(), span });
    }

    /// Reports a key that must be given, unless one that was left over seems to be meant for it, or for the table of this
    /// name around it.
    pub(super) fn missing(&mut self, key: [&'static str; 2], span: Range<usize>, problem: Problem) {
        self.missing.push((key, span, problem));
    }

    /// The keys that were taken, by table.
    #[cfg(test)]
    pub(super) fn tables(&self) -> &[(String, Vec<&'static str>)] {
        &self.known
    }

    /// Whether something was found already, so that checks which need a sound lesson are skipped.
    pub(super) fn is_clean(&self) -> bool {
        self.found.is_empty() && self.left.is_empty() && self.missing.is_empty()
    }

    /// All mistakes in the order of the text.
    pub(super) fn finish(mut self) -> Vec<Diagnostic> {
        for ([table, key], span, problem) in std::mem::take(&mut self.missing) {
            let meant = |left: &Left, key| left.key == key || !nearest(&left.key, [key]).is_empty();
            let of_table = |left: &Left| left.table.is_empty() && !table.is_empty() && meant(left, table);
            if !self.left.iter().any(|left| meant(left, key) || of_table(left)) {
                self.error(span, problem);
            }
        }
        let mut left = std::mem::take(&mut self.left);
        left.sort_by_key(|left| left.span.start);
        left.truncate(TOLD + 1);
        for left in left {
            let problem = self.unknown(&left);
            self.error(left.span, problem);
        }
        self.found.sort_by_key(|d| d.place.as_ref().map_or((0, 0), |p| (p.span.start, p.span.end)));
        self.found
    }

    /// What to say about a key that nothing took.
    fn unknown(&self, left: &Left) -> Problem {
        let here: &[&str] = self.known.iter().find(|(table, _)| *table == left.table).map_or(&[], |(_, keys)| keys);
        let whose = if left.table.is_empty() { "a lesson file".to_owned() } else { format!("[{}]", left.table) };
        let problem = Problem::new(format!("`{}` is not a key of {whose}", shortened(&left.key)));
        let homes: Vec<String> = self
            .known
            .iter()
            .filter(|(table, keys)| *table != left.table && keys.contains(&left.key.as_str()))
            .map(|(table, _)| if table.is_empty() { "the top of the file".to_owned() } else { format!("[{table}]") })
            .collect();
        let expected = format!("expected {}", listed(here, "or"));
        // A key that stands in the wrong table is likelier than a misspelt one.
        if homes.is_empty() || homes.len() > 3 || !nearest(&left.key, here.iter().copied()).is_empty() {
            problem.hint(hint(&left.key, here.iter().copied(), &expected))
        } else {
            problem.hint(format!("it belongs in {}; here {expected}", listed(&homes, "or")))
        }
    }
}

/// The text as a message quotes it: one line, at most 40 characters.
pub(super) fn shortened(text: &str) -> String {
    const MOST: usize = 40;
    let mut short: String = text.chars().take(MOST).flat_map(quoted).collect();
    if text.chars().nth(MOST).is_some() {
        short.push('…');
    }
    short
}

/// Control characters, and those that turn or hide text, as escapes.
fn quoted(character: char) -> impl Iterator<Item = char> {
    let hidden = character.is_control()
        || matches!(character, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}');
    let escape = hidden.then(|| character.escape_default());
    let plain = (!hidden).then_some(character);
    escape.into_iter().flatten().chain(plain)
}
