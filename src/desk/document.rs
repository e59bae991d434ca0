//! Changing a value in the text of a lesson file, and nothing else in it.
//!
//! Where the key has a value, the value's bytes are replaced; where it has none, a line is added to its table. A line that
//! suggests the key (one that begins with `#:`) is taken instead, and a value with a comment behind it that is taken away
//! becomes such a line. Whatever is written in another way (tables in braces, dotted keys) is changed by
//! `toml_edit`, which keeps comments and order too. The new text is read again before it is handed out.

use std::ops::Range;

use serde_json::Value;
use toml_edit::{Document, DocumentMut, Item, TableLike};

/// What marks a line that suggests a key.
const SUGGESTS: &str = "#: ";

/// Whether a text can be changed: whether it is TOML at all.
pub fn is_sound(text: &str) -> bool {
    Document::parse(text).is_ok()
}

/// The value at a path, if the text gives one.
pub fn get(text: &str, path: &str) -> Option<Value> {
    let document = Document::parse(text).ok()?;
    json(item(document.as_item(), path)?)
}

/// The path of what stands at a byte: of the value there, or of the key in front of it.
pub fn path_at(text: &str, at: usize) -> Option<String> {
    let document = Document::parse(text).ok()?;
    let mut found = Vec::new();
    spans(document.as_item(), "", &mut found);
    let around = found.into_iter().filter(|(span, _)| span.contains(&at) || span.start == at);
    around.min_by_key(|(span, path)| (span.len(), std::cmp::Reverse(path.len()))).map(|(_, path)| path)
}

/// The bytes of every key and value.
fn spans(item: &Item, path: &str, found: &mut Vec<(Range<usize>, String)>) {
    let join = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
    if !path.is_empty() {
        found.extend(item.span().map(|span| (span, path.to_owned())));
    }
    match item {
        Item::ArrayOfTables(tables) => {
            for (k, table) in tables.iter().enumerate() {
                spans(&Item::Table(table.clone()), &join(&k.to_string()), found);
            }
        }
        item => {
            for (name, inner) in item.as_table_like().into_iter().flat_map(TableLike::iter) {
                let key = item.as_table_like().and_then(|table| table.key(name)).and_then(toml_edit::Key::span);
                found.extend(key.map(|span| (span, join(name))));
                spans(inner, &join(name), found);
            }
        }
    }
}

/// How many tables a list of tables has.
pub fn tables(text: &str, path: &str) -> usize {
    get(text, path).and_then(|list| Some(list.as_array()?.len())).unwrap_or_default()
}

/// The text with one more table at the end of a list of tables.
pub fn add_table(text: &str, path: &str, keys: &[(&str, Value)]) -> String {
    let Ok(document) = Document::parse(text) else { return text.to_owned() };
    let end = ending(text);
    let (before, after) = text.split_at(behind(text, &document, path));
    let lines =
        keys.iter().fold(String::new(), |lines, (key, value)| lines + key + " = " + &toml(value).to_string() + end);
    let before = before.trim_end_matches(['\n', '\r', ' ', '\t']);
    let apart = if after.is_empty() { "" } else { end };
    let new = format!("{before}{end}{end}[[{path}]]{end}{lines}{apart}{after}");
    if is_sound(&new) { new } else { text.to_owned() }
}

/// The text without one table of a list of tables.
pub fn remove_table(text: &str, path: &str, index: usize) -> String {
    let end = ending(text);
    let bare = text.replace("\r\n", "\n");
    let (mark, bare) = bare.split_at(bare.len() - bare.trim_start_matches('\u{feff}').len());
    let Ok(mut document) = bare.parse::<DocumentMut>() else { return text.to_owned() };
    match document.get_mut(path) {
        Some(Item::ArrayOfTables(tables)) if index < tables.len() => {
            tables.remove(index);
        }
        Some(Item::Value(toml_edit::Value::Array(array))) if index < array.len() => {
            array.remove(index);
        }
        _ => return text.to_owned(),
    }
    if tables(&document.to_string(), path) == 0 {
        document.remove(path);
    }
    format!("{mark}{document}").replace('\n', end)
}

/// The text with another value at a path, or with none; the same text where it cannot be changed.
pub fn set(text: &str, path: &str, value: Option<&Value>) -> String {
    let Ok(document) = Document::parse(text) else { return text.to_owned() };
    let now = item(document.as_item(), path).and_then(json);
    if now.as_ref() == value {
        return text.to_owned();
    }
    let plain = match value {
        Some(value) => placed(text, &document, path, value),
        None => suggested(text, &document, path),
    };
    let holds = |text: &String| Document::parse(text.as_str()).is_ok_and(|_| get(text, path).as_ref() == value);
    plain.filter(holds).unwrap_or_else(|| rebuilt(text, path, value))
}

/// The item at a path; a part that is a number counts the tables of a list from 0.
fn item<'d>(root: &'d Item, path: &str) -> Option<&'d Item> {
    path.split('.').try_fold(root, |item, part| match (item, part.parse::<usize>()) {
        (Item::ArrayOfTables(_) | Item::Value(toml_edit::Value::Array(_)), Ok(index)) => item.get(index),
        _ => item.get(part),
    })
}

/// A value as JSON; none for times, which no key takes.
fn json(item: &Item) -> Option<Value> {
    match item {
        Item::Value(toml_edit::Value::Array(array)) => {
            array.iter().map(|value| json(&Item::Value(value.clone()))).collect::<Option<Vec<_>>>().map(Value::Array)
        }
        Item::Value(toml_edit::Value::String(text)) => Some(Value::from(text.value().as_str())),
        Item::Value(toml_edit::Value::Integer(number)) => Some(Value::from(*number.value())),
        Item::Value(toml_edit::Value::Float(number)) => Some(Value::from(*number.value())),
        Item::Value(toml_edit::Value::Boolean(switch)) => Some(Value::from(*switch.value())),
        Item::ArrayOfTables(tables) => {
            let each = tables.iter().map(|table| json(&Item::Table(table.clone())));
            each.collect::<Option<Vec<_>>>().map(Value::Array)
        }
        item => {
            let table = item.as_table_like()?;
            table
                .iter()
                .map(|(key, item)| Some((key.to_owned(), json(item)?)))
                .collect::<Option<_>>()
                .map(Value::Object)
        }
    }
}

/// A value as TOML writes it.
fn toml(value: &Value) -> toml_edit::Value {
    match value {
        Value::Bool(switch) => (*switch).into(),
        Value::Number(number) => number.as_i64().map_or_else(|| number.to_string().into(), Into::into),
        Value::String(text) => text.as_str().into(),
        Value::Array(items) => items.iter().map(toml).collect::<toml_edit::Array>().into(),
        Value::Object(items) => {
            items.iter().map(|(key, value)| (key.as_str(), toml(value))).collect::<toml_edit::InlineTable>().into()
        }
        Value::Null => "".into(),
    }
}

/// The bytes of a value that is written after its key; none for tables that are written line by line.
fn span(item: &Item) -> Option<Range<usize>> {
    if item.is_value() && !item.as_inline_table().is_some_and(toml_edit::InlineTable::is_dotted) {
        item.span()
    } else {
        None
    }
}

/// The line of a byte, without its end.
fn line(text: &str, at: usize) -> Range<usize> {
    let start = text[..at].rfind('\n').map_or(0, |k| k + 1);
    let end = text[at..].find('\n').map_or(text.len(), |k| at + k);
    start..end - usize::from(text[start..end].ends_with('\r'))
}

/// How the lines of a text end.
fn ending(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

fn replaced(text: &str, span: Range<usize>, by: &str) -> String {
    let mut text = text.to_owned();
    text.replace_range(span, by);
    text
}

/// The text with the value in the place of another, of a suggestion, or on a line of its own.
fn placed(text: &str, document: &Document<&str>, path: &str, value: &Value) -> Option<String> {
    let written = toml(value).to_string();
    let written = written.trim();
    if let Some(item) = item(document.as_item(), path) {
        return Some(replaced(text, span(item)?, written));
    }
    let (table, name) = path.rsplit_once('.').unwrap_or(("", path));
    let end = ending(text);
    let Some(body) = body(text, document, table) else {
        // A table of a list has its number in its path, and no header can.
        let listed = table.split('.').any(|part| part.parse::<usize>().is_ok());
        if table.is_empty() || listed || item(document.as_item(), table).is_some() {
            return None;
        }
        // A table that is not there yet goes behind its nearest relations.
        let at = behind(text, document, table);
        let (before, after) = text.split_at(at);
        let before = before.trim_end_matches(['\n', '\r', ' ', '\t']);
        let apart = if after.is_empty() { "" } else { end };
        return Some(format!("{before}{end}{end}[{table}]{end}{name} = {written}{end}{apart}{after}"));
    };
    let suggestion = |line: &str| {
        let rest = line.strip_prefix(SUGGESTS)?.strip_prefix(name)?.trim_start();
        rest.starts_with('=').then_some(())
    };
    let mut at = body.start;
    for line in text[body.clone()].split_inclusive('\n') {
        if suggestion(line).is_some() {
            let whole = line.trim_end_matches(['\n', '\r']);
            let comment = comment(&whole[SUGGESTS.len()..], name).unwrap_or_default();
            let taken = format!("{name} = {written}");
            // Comments of one table begin in one column.
            let column = whole.len() - comment.len();
            let taken = match comment {
                "" => taken,
                _ if taken.len() < column => format!("{taken:column$}{comment}"),
                _ => format!("{taken} {comment}"),
            };
            return Some(replaced(text, at..at + whole.len(), &taken));
        }
        at += line.len();
    }
    // Behind the last line of the table that gives something, or right behind its header.
    let last = text[body.clone()].split_inclusive('\n').scan(body.start, |at, line| {
        *at += line.len();
        Some((*at, line))
    });
    let given = last.filter(|(_, line)| !line.trim().is_empty() && !line.trim_start().starts_with('#'));
    let at = given.map(|(at, _)| at).last().unwrap_or(body.start);
    let (before, after) = text.split_at(at);
    let apart = if before.is_empty() || before.ends_with('\n') { "" } else { end };
    Some(format!("{before}{apart}{name} = {written}{end}{after}"))
}

/// The comment behind the value of a suggestion.
fn comment<'l>(suggestion: &'l str, name: &str) -> Option<&'l str> {
    let document = Document::parse(suggestion).ok()?;
    let end = span(document.get(name)?)?.end;
    Some(suggestion[end..].trim()).filter(|comment| comment.starts_with('#'))
}

/// Where the lines of a table stand: behind its header, up to the next one. None for tables without a header.
fn body(text: &str, document: &Document<&str>, table: &str) -> Option<Range<usize>> {
    let headers = headers(document.as_item(), "");
    let next = |from: usize| headers.iter().map(|(at, _)| *at).filter(|at| *at >= from).min().unwrap_or(text.len());
    if table.is_empty() {
        let mark = text.len() - text.trim_start_matches('\u{feff}').len();
        return Some(mark..next(mark));
    }
    let (at, _) = headers.iter().find(|(_, path)| path == table)?;
    let header = line(text, *at);
    let start = text[header.end..].find('\n').map_or(text.len(), |k| header.end + k + 1);
    Some(start..next(start))
}

/// The tables with a header of their own: where it stands, and the path.
fn headers(item: &Item, path: &str) -> Vec<(usize, String)> {
    let join = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
    let mut found = Vec::new();
    match item {
        Item::Table(table) => {
            if !path.is_empty() && !table.is_implicit() && !table.is_dotted() {
                found.extend(table.span().map(|span| (span.start, path.to_owned())));
            }
            for (name, inner) in table {
                found.extend(headers(inner, &join(name)));
            }
        }
        Item::ArrayOfTables(tables) => {
            for (k, table) in tables.iter().enumerate() {
                found.extend(headers(&Item::Table(table.clone()), &join(&k.to_string())));
            }
        }
        Item::None | Item::Value(_) => {}
    }
    found
}

/// Where a new table goes: behind the last one of the same family, or at the end.
fn behind(text: &str, document: &Document<&str>, table: &str) -> usize {
    let family = table.split('.').next().unwrap_or(table);
    let mut all = headers(document.as_item(), "");
    all.sort();
    let of_family = |path: &String| path.split('.').next() == Some(family);
    let last = all.iter().rposition(|(_, path)| of_family(path));
    match last.and_then(|last| all.get(last + 1)) {
        // Comments right above the next header belong to it.
        Some((at, _)) => {
            let mut start = line(text, *at).start;
            while start > 0 {
                let before = line(text, start - 1);
                if !text[before.clone()].trim_start().starts_with('#') {
                    break;
                }
                start = before.start;
            }
            start
        }
        None => text.len(),
    }
}

/// The text with a value turned into a suggestion, so that the comment behind it stays. A line without one goes.
fn suggested(text: &str, document: &Document<&str>, path: &str) -> Option<String> {
    let span = span(item(document.as_item(), path)?)?;
    let (table, name) = path.rsplit_once('.').unwrap_or(("", path));
    let body = body(text, document, table)?;
    let (first, last) = (line(text, span.start), line(text, span.end));
    let starts = text[first.start..span.start].trim_start().strip_prefix(name)?;
    if !starts.trim_start().starts_with('=') || !body.contains(&span.start) {
        return None;
    }
    if text[span.end..last.end].trim().is_empty() {
        let end = text[last.end..].find('\n').map_or(text.len(), |k| last.end + k + 1);
        return Some(replaced(text, first.start..end, ""));
    }
    let lines = text[first.start..span.end].split_inclusive('\n').map(|line| format!("{SUGGESTS}{line}"));
    // The comment behind it stays in its column.
    let behind = &text[span.end..last.end];
    let room = " ".repeat(SUGGESTS.len());
    let moved = behind.strip_prefix(room.as_str()).filter(|rest| rest.starts_with(' '));
    Some(replaced(text, first.start..last.end, &(lines.collect::<String>() + moved.unwrap_or(behind))))
}

/// The text as `toml_edit` writes it after the change.
fn rebuilt(text: &str, path: &str, value: Option<&Value>) -> String {
    let end = ending(text);
    let bare = text.replace("\r\n", "\n");
    let (mark, bare) = bare.split_at(bare.len() - bare.trim_start_matches('\u{feff}').len());
    let Ok(mut document) = bare.parse::<DocumentMut>() else { return text.to_owned() };
    let (table, name) = path.rsplit_once('.').unwrap_or(("", path));
    let parts = table.split('.').filter(|part| !part.is_empty());
    let root: &mut Item = document.as_item_mut();
    let found = parts.into_iter().try_fold(root, |item, part| match part.parse::<usize>() {
        Ok(index) if item.is_array_of_tables() || item.is_array() => item.get_mut(index),
        _ => {
            let inline = item.is_inline_table();
            let table = item.as_table_like_mut()?;
            if !table.contains_key(part) {
                let fresh = if inline { Item::Value(toml_edit::InlineTable::new().into()) } else { toml_edit::table() };
                table.insert(part, fresh);
            }
            table.get_mut(part)
        }
    });
    if let Some(table) = found.and_then(Item::as_table_like_mut) {
        change(table, name, value);
    }
    format!("{mark}{document}").replace('\n', end)
}

fn change(table: &mut dyn TableLike, name: &str, value: Option<&Value>) {
    let Some(value) = value else {
        table.remove(name);
        return;
    };
    let mut new = toml(value);
    if let Some(old) = table.get(name).and_then(Item::as_value) {
        *new.decor_mut() = old.decor().clone();
    }
    table.insert(name, Item::Value(new));
}

#[cfg(test)]
mod tests;
