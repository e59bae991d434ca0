//! A line taken apart: where its key, its value and its note are, however it is written.

use std::ops::Range;

use super::value;
use crate::diag::nearest::nearest;
use crate::spec::keys::{self, KeyRow, list};
use crate::spec::log::shortened;

/// What a line was probably meant to be.
pub(super) struct Meant {
    /// The whole line, without its end.
    pub(super) text: String,
    /// Whether there is no other way to read it.
    pub(super) sure: bool,
    /// What is wrong with the line.
    pub(super) says: Option<String>,
    /// What is wrong in it, in bytes from its start.
    pub(super) at: Range<usize>,
    /// What its key takes.
    pub(super) expected: Option<String>,
}

/// A line that gives a key a value, with the parts as they are written.
struct Entry<'l> {
    key: &'l str,
    /// Between the key and its value: `=`, or what stands there instead.
    sign: &'l str,
    value: &'l str,
    /// The note at the end with the spaces before it.
    note: &'l str,
}

impl Entry<'_> {
    /// Where the value stands, counted from the end of the line: what is before it may be written in many ways.
    fn value(&self, line: &str) -> Range<usize> {
        let start = line.trim_end().len() - self.note.trim_end().len() - self.value.len();
        start..start + self.value.len()
    }

    /// Where the key stands.
    fn key(&self, indent: usize) -> Range<usize> {
        indent..indent + self.key.len()
    }

    /// Where the sign stands.
    fn sign(&self, line: &str, indent: usize) -> Range<usize> {
        let start = indent + self.key.len();
        let start = start + line[start..].find(self.sign).unwrap_or(0);
        start..start + self.sign.len()
    }
}

/// What a line was probably meant to be, if it is anything else than it is.
pub(super) fn meant(text: &str, lines: &[Range<usize>], k: usize) -> Option<Meant> {
    let line = &text[lines[k].clone()];
    let (indent, rest) = line.split_at(line.len() - line.trim_start_matches([' ', '\t', '\u{feff}', '\u{a0}']).len());
    if let Some(note) = rest.strip_prefix("//").or_else(|| rest.strip_prefix(';')) {
        let says = Some("a note begins with #".to_owned());
        let text = format!("{indent}# {}", note.trim());
        return Some(Meant { text, sure: true, says, at: indent.len()..line.len(), expected: None });
    }
    if let Some((name, sure)) = header(rest) {
        let says = Some("a section begins with its name in square brackets".to_owned());
        let text = format!("{indent}[{name}]{}", note_of(rest));
        return (text != line).then_some(Meant { text, sure, says, at: indent.len()..line.len(), expected: None });
    }
    let table = table(text, lines, k);
    let entry = entry(rest, &table)?;
    let (key, row, known) = key(&table, entry.key)?;
    let read = value::read(&row.shape, entry.value)?;
    let (mut says, mut at) = (read.says, entry.value(line));
    let slashes = entry.note.trim_start().strip_prefix("//");
    if entry.sign != "=" {
        let sign = if entry.sign.is_empty() {
            "an equals sign is missing between the key and its value"
        } else if entry.sign.contains(':') {
            "a colon stands where an equals sign belongs"
        } else {
            "one equals sign belongs between the key and its value"
        };
        says = Some(sign.to_owned());
        at = if entry.sign.is_empty() { entry.key(indent.len()) } else { entry.sign(line, indent.len()) };
    } else if says.is_none() && key != entry.key {
        says = Some(format!("`{}` is not how the key is written", shortened(entry.key)));
        at = entry.key(indent.len());
    } else if says.is_none() && slashes.is_some() {
        says = Some("a note begins with #".to_owned());
        at = at.end..line.len();
    }
    let note = slashes.map_or_else(|| entry.note.to_owned(), |note| format!("   # {}", note.trim()));
    let same = read.text == entry.value && key == entry.key && entry.sign == "=" && slashes.is_none();
    let text = format!("{indent}{key} = {}{note}", read.text);
    let expected = Some(row.shape.words());
    (!same).then_some(Meant { text, sure: read.sure && known, says, at, expected })
}

/// What the key of a line takes, if it is one.
pub(super) fn row(text: &str, lines: &[Range<usize>], k: usize) -> Option<KeyRow> {
    let table = table(text, lines, k);
    let entry = entry(text[lines[k].clone()].trim_start(), &table)?;
    Some(key(&table, entry.key)?.1)
}

/// The name of the table that a line stands in.
fn table(text: &str, lines: &[Range<usize>], k: usize) -> String {
    let headers = lines[..k].iter().rev().filter_map(|line| header(text[line.clone()].trim_start()));
    headers.map(|(name, _)| name).next().unwrap_or_default()
}

/// All names of tables that have keys, and `numbers`, inside which others stand.
fn tables() -> Vec<String> {
    let mut tables: Vec<String> =
        list::rows().iter().flat_map(KeyRow::tables).filter(|table| !table.is_empty()).collect();
    tables.dedup();
    tables
}

/// The table that a line begins, and whether it is sure which one.
fn header(line: &str) -> Option<(String, bool)> {
    let bare = line.split('#').next().unwrap_or_default().trim();
    let name = bare.trim_matches(['[', ']', '(', ')', ':', ' ', '"']);
    let bracketed = bare.starts_with(['[', '(']) || bare.ends_with([']', ')']);
    if bare.contains('=') || name.is_empty() || !(bracketed || bare.ends_with(':') || bare == name) {
        return None;
    }
    let tables = tables();
    let folded = |text: &str| text.to_lowercase().replace([' ', '-', '_'], "");
    let last = |table: &str| table.rsplit('.').next().unwrap_or_default().to_owned();
    let exact = tables.iter().find(|table| folded(table) == folded(name) || folded(&last(table)) == folded(name));
    if let Some(table) = exact {
        return Some((table.clone(), true));
    }
    if !bracketed {
        return None;
    }
    let near = nearest(name, tables.iter().map(String::as_str));
    near.first().map(|table| ((*table).to_owned(), near.len() == 1))
}

/// A note after a header.
fn note_of(line: &str) -> &str {
    line.find('#').map_or("", |at| &line[line[..at].trim_end().len()..])
}

/// The key that was meant in a table, its row, and whether it is sure.
fn key(table: &str, written: &str) -> Option<(String, KeyRow, bool)> {
    let bare = written.trim_matches(['"', '\'']);
    let (inner, name) = bare.rsplit_once('.').map_or(("", bare), |(inner, name)| (inner, name));
    let table = match (table.is_empty(), inner.is_empty()) {
        (true, _) => inner.to_owned(),
        (false, true) => table.to_owned(),
        (false, false) => format!("{table}.{inner}"),
    };
    let whole = |name: &str| if inner.is_empty() { name.to_owned() } else { format!("{inner}.{name}") };
    if let Some(row) = keys::find(&table, name) {
        return Some((if bare == whole(name) { written.to_owned() } else { whole(name) }, row, true));
    }
    let rows: Vec<KeyRow> = list::rows().into_iter().filter(|row| row.tables().contains(&table)).collect();
    let near = nearest(name, rows.iter().map(|row| row.name));
    let first = *near.first()?;
    let row = rows.into_iter().find(|row| row.name == first)?;
    Some((whole(first), row, near.len() == 1))
}

/// Takes a line apart that gives a key a value. Without any sign, its first word must be a key of the table.
fn entry<'l>(line: &'l str, table: &str) -> Option<Entry<'l>> {
    let line = line.trim_end();
    if line.starts_with(['#', '[', '(']) || line.is_empty() {
        return None;
    }
    let is_sign = |c: char| matches!(c, '=' | ':' | '\u{ff1a}' | '\u{ff1d}');
    let (key, sign, rest) = if let Some(at) = line.find(is_sign) {
        let rest = &line[at..];
        let end = rest.find(|c| !is_sign(c) && c != '>').unwrap_or(rest.len());
        (line[..at].trim_end(), &rest[..end], &rest[end..])
    } else {
        let at = line.find(char::is_whitespace)?;
        keys::find(table, &line[..at])?;
        (&line[..at], &line[at..at], &line[at..])
    };
    let rest = rest.trim_start();
    let end = value_end(rest);
    let value = rest[..end].trim_end();
    let is_key = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | '.' | '"' | '\'');
    (!value.is_empty() && !key.is_empty() && key.chars().all(is_key)).then_some(Entry {
        key,
        sign,
        value,
        note: &rest[value.len()..],
    })
}

/// Where the note after a value begins: at a `#`, or at ` //`, outside quotes.
fn value_end(rest: &str) -> usize {
    let mut open: Option<char> = None;
    let mut before = ' ';
    for (at, c) in rest.char_indices() {
        if let Some(quote) = open {
            open = (!value::closes(quote, c)).then_some(quote);
        } else if c == '#' || c == '/' && rest[at..].starts_with("//") && before.is_whitespace() {
            return at;
        } else if value::is_quote(c) && !before.is_alphanumeric() {
            // An apostrophe inside a word opens nothing, and neither does a quote that nothing closes.
            open = rest[at + c.len_utf8()..].contains(|other| value::closes(c, other)).then_some(c);
        }
        before = c;
    }
    rest.len()
}
