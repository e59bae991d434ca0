//! The fields of the form: every key of the lesson file, with what the file gives, what is usual, and what is wrong.
//!
//! Nothing here knows a key by name: labels, help, limits and defaults come from the table of keys, and findings are told
//! at the key in whose bytes they stand. A key that is added there is a field here.

use serde_json::Value;

use super::document;
use super::values::{self, FieldParts};
use crate::diag::{Diagnostic, FilePlace};
use crate::spec::keys::{Default, KeyRow, Shape, list};

/// A table of the lesson file, as a part of the form.
#[derive(Debug)]
pub struct Section {
    /// The path of the table.
    pub path: String,
    /// What it is called.
    pub heading: String,
    /// Its fields, in the order of the table of keys.
    pub fields: Vec<Field>,
}

/// A key, as a field of the form.
#[derive(Debug)]
pub struct Field {
    /// The path of the key.
    pub path: String,
    /// What it is called.
    pub label: String,
    /// What it means.
    pub says: &'static str,
    /// What can be given.
    pub shape: Shape,
    /// What the file gives.
    pub given: FieldParts,
    /// What is taken where the file is silent.
    pub usual: FieldParts,
    /// The same in words.
    pub usual_words: String,
    /// What is wrong with it.
    pub trouble: Vec<Trouble>,
}

/// Something that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// The field it is told at; none where no field is to blame.
    pub at: Option<String>,
    /// The line of the file.
    pub line: Option<usize>,
    /// What is wrong.
    pub message: String,
    /// What would work.
    pub hint: Option<String>,
}

/// What the tables are called; others are called by their names.
const HEADINGS: [(&str, &str); 7] = [
    ("", "The lesson"),
    ("numbers", "Which numbers"),
    ("numbers.model", "Model numbers, built with the class"),
    ("numbers.sort", "Sort numbers, matched on the board"),
    ("numbers.exit", "Exit numbers, for the check at the end"),
    ("forms", "Forms of a number"),
    ("forms.names", "What the class calls the forms"),
];

/// Tables of which a lesson has any number, one after the other.
pub const LISTS: [&str; 1] = ["group"];

/// The list that a table is in or belongs to.
fn list_of(table: &str) -> Option<&'static str> {
    LISTS.into_iter().find(|list| table.split('.').next() == Some(list))
}

/// The lists of which the table of keys has any, each with what a new table of it begins with: what must be given, and
/// counts that nothing stands for.
pub fn lists() -> Vec<(&'static str, Vec<KeyRow>)> {
    let begins = |row: &KeyRow| match row.default {
        Default::Needed => true,
        Default::Nothing => matches!(row.shape, Shape::Whole(_)),
        Default::Value(_) | Default::Worked(_) => false,
    };
    let rows = |list: &str| list::rows().into_iter().filter(|row| row.table == list).collect::<Vec<_>>();
    let known = LISTS.into_iter().map(|list| (list, rows(list))).filter(|(_, rows)| !rows.is_empty());
    known.map(|(list, rows)| (list, rows.into_iter().filter(begins).collect())).collect()
}

/// The text with one more table of a list.
pub fn with_table(text: &str, list: &str) -> Option<String> {
    let (_, rows) = lists().into_iter().find(|(known, _)| *known == list)?;
    let number = document::tables(text, list) + 1;
    let keys: Vec<(&str, Value)> = rows
        .iter()
        .filter_map(|row| match row.shape {
            Shape::Line(_) => Some((row.name, Value::from(format!("{} {number}", label(list))))),
            _ => document::get(&format!("x = {}", row.example), "x").map(|value| (row.name, value)),
        })
        .collect();
    Some(document::add_table(text, list, &keys))
}

/// The tables of a text that a table of keys speaks of.
fn places(table: String, text: &str) -> Vec<String> {
    let Some(list) = list_of(&table) else { return vec![table] };
    let count = document::tables(text, list);
    (0..count).map(|k| table.replacen(list, &format!("{list}.{k}"), 1)).collect()
}

/// The form of a lesson text. `assumed` has what is taken where it is silent.
pub fn sections(text: &str, assumed: &[(String, Value)], trouble: &[Trouble]) -> Vec<Section> {
    let mut sections: Vec<Section> = Vec::new();
    for row in list::rows() {
        for table in row.tables().into_iter().flat_map(|table| places(table, text)) {
            let field = field(&row, &table, text, assumed, trouble);
            match sections.iter_mut().find(|section| section.path == table) {
                Some(section) => section.fields.push(field),
                None => sections.push(Section { heading: heading(&table, text), path: table, fields: vec![field] }),
            }
        }
    }
    // Tables of one group stay together.
    sections.sort_by_key(|section| numbered(&section.path).map_or(0, |(_, k, _)| k + 1));
    sections
}

/// The list, the number and the rest of a path into a list.
pub fn numbered(path: &str) -> Option<(&'static str, usize, &str)> {
    let list = list_of(path)?;
    let rest = path.strip_prefix(list)?.strip_prefix('.')?;
    let (number, rest) = rest.split_once('.').unwrap_or((rest, ""));
    Some((list, number.parse().ok()?, rest))
}

fn field(row: &KeyRow, table: &str, text: &str, assumed: &[(String, Value)], trouble: &[Trouble]) -> Field {
    let path = joined(table, row.name);
    let given = document::get(text, &path).map(|value| values::parts(&row.shape, &value)).unwrap_or_default();
    let settled = assumed.iter().find(|(key, _)| *key == path).map(|(_, value)| value);
    let usual = match (&row.default, settled) {
        (_, Some(value)) | (Default::Value(value), None) => values::parts(&row.shape, value),
        // A value for each of several is told key by key.
        _ => parts_of(&path, assumed),
    };
    let usual_words = match &row.default {
        Default::Value(Value::String(text)) => text.clone(),
        Default::Nothing | Default::Needed => String::new(),
        // What was worked out is shown itself.
        Default::Worked(_) if !given.is_empty() || !usual.is_empty() => String::new(),
        default => default.words(),
    };
    let trouble = trouble.iter().filter(|trouble| trouble.at.as_ref() == Some(&path)).cloned().collect();
    Field { label: label(row.name), says: row.says, shape: row.shape.clone(), given, usual, usual_words, trouble, path }
}

fn parts_of(path: &str, assumed: &[(String, Value)]) -> FieldParts {
    let below = assumed.iter().filter_map(|(key, value)| {
        let name = key.strip_prefix(path)?.strip_prefix('.')?;
        Some((name.to_owned(), value.as_str().map_or_else(|| value.to_string(), str::to_owned)))
    });
    below.collect()
}

/// The field that a path of the file belongs to, and its shape.
pub fn find(path: &str) -> Option<(String, Shape)> {
    if let Some((list, number, rest)) = numbered(path) {
        let (field, shape) = find_in_table(&joined(list, rest))?;
        return Some((field.replacen(list, &format!("{list}.{number}"), 1), shape));
    }
    find_in_table(path).filter(|(field, _)| list_of(field).is_none())
}

fn find_in_table(path: &str) -> Option<(String, Shape)> {
    let all = list::rows().into_iter().flat_map(|row| {
        let paths: Vec<String> = row.tables().iter().map(|table| joined(table, row.name)).collect();
        paths.into_iter().map(move |path| (path, row.shape.clone()))
    });
    let holds = |field: &String| path == field || path.strip_prefix(field).is_some_and(|rest| rest.starts_with('.'));
    all.filter(|(field, _)| holds(field)).max_by_key(|(field, _)| field.len())
}

/// What was found, each at its field; what takes part in it is told at its own.
pub fn trouble(text: &str, found: &[Diagnostic]) -> Vec<Trouble> {
    let mut all = Vec::new();
    for diagnostic in found {
        // Places in rosters and layouts are no places of the form.
        let own = |place: &&FilePlace| place.source.text == text;
        let path = |place: &FilePlace| document::path_at(text, place.span.start).and_then(|path| Some(find(&path)?.0));
        let place = diagnostic.place.as_ref();
        let file = place.filter(|place| !own(place)).map(|place| {
            let (line, _) = place.line_column();
            format!("{}, line {line}: ", place.source.name)
        });
        let place = place.filter(own);
        all.push(Trouble {
            at: place.and_then(path),
            line: place.map(|place| place.line_column().0),
            message: file.unwrap_or_default() + &diagnostic.problem.message,
            hint: diagnostic.problem.hint.clone(),
        });
        for (place, words) in diagnostic.related.iter().filter(|(place, _)| own(&place)) {
            let message = format!("{words} takes part in this");
            all.extend(path(place).map(|at| Trouble { at: Some(at), line: None, message, hint: None }));
        }
    }
    all
}

fn joined(table: &str, name: &str) -> String {
    if table.is_empty() { name.to_owned() } else { format!("{table}.{name}") }
}

/// A key's name as a label.
pub fn label(name: &str) -> String {
    let name = name.replace(['_', '-'], " ");
    let mut letters = name.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn heading(table: &str, text: &str) -> String {
    if let Some((list, number, rest)) = numbered(table) {
        let name = document::get(text, &format!("{list}.{number}.name"));
        let name = name.as_ref().and_then(Value::as_str).map_or_else(|| (number + 1).to_string(), str::to_owned);
        let of = rest
            .split('.')
            .next_back()
            .filter(|rest| !rest.is_empty())
            .map(|rest| format!(": {}", label(rest).to_lowercase()));
        let kind = label(list);
        let name = if name.starts_with(&kind) { name } else { format!("{kind} {name}") };
        return name + &of.unwrap_or_default();
    }
    let known = HEADINGS.iter().find(|(path, _)| *path == table).map(|(_, heading)| (*heading).to_owned());
    known.unwrap_or_else(|| label(table.rsplit('.').next().unwrap_or(table)))
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::diag::Source;

    #[test]
    fn every_key_is_a_field_once() {
        let all = sections("", &[], &[]);
        let listed = |row: &&KeyRow| list_of(row.table).is_none();
        let keys: usize = list::rows().iter().filter(listed).map(|row| row.tables().len()).sum();
        let mut paths: Vec<&str> = all.iter().flat_map(|section| &section.fields).map(|f| f.path.as_str()).collect();
        assert_eq!(paths.len(), keys);
        paths.sort_unstable();
        paths.dedup();
        assert_eq!(paths.len(), keys);
        assert!(all.iter().all(|section| !section.heading.is_empty()));
    }

    #[test]
    fn what_clashes_is_told_at_every_request_that_clashes() {
        let text = include_str!("../../samples/cannot-be-made/clash.toml");
        let source = Arc::new(Source { name: "clash.toml".to_owned(), text: text.to_owned() });
        let found = match crate::spec::read(&source) {
            Ok(spec) => crate::lesson::choose::choose(&spec, &source).expect_err("a clash"),
            Err(found) => found,
        };
        let told = trouble(text, &found);
        assert!(told.iter().filter(|trouble| trouble.at.is_some()).count() >= 2, "{told:#?}");
        assert!(told.iter().any(|trouble| trouble.hint.is_some()));
    }
}
