//! `keys`: what a lesson file can say.

use std::fmt::Write;

use serde_json::{Value, json};

use super::failure::Failure;
use super::report::Report;
use super::term::bold;
use crate::diag::Problem;
use crate::diag::nearest::hint;
use crate::spec::keys::{Default, KeyRow, list};

/// Explains every key, or those that have `word` for their name or their table.
pub fn run(word: Option<&str>, coloured: bool) -> Result<Report, Failure> {
    let all = list::rows();
    let rows: Vec<&KeyRow> = all.iter().filter(|row| word.is_none_or(|word| is_meant(row, word))).collect();
    if rows.is_empty() {
        let word = word.unwrap_or_default();
        let problem = Problem::new(format!("`{word}` is no key of a lesson file"));
        let expected = "`placewright keys` lists them all";
        return Err(Failure::Usage(problem.hint(hint(word, all.iter().map(|row| row.name), expected))));
    }
    let mut human = String::new();
    let mut table = None;
    for row in &rows {
        if table.replace(row.table) != Some(row.table) {
            let _ = writeln!(human, "{}{}", if human.is_empty() { "" } else { "\n" }, bold(&heading(row), coloured));
        }
        let _ = writeln!(human, "\n  {} = {}", row.name, row.example);
        let _ = writeln!(human, "      {}", row.says);
        let _ = writeln!(human, "      {}", row.shape.words());
        if row.default != Default::Nothing {
            let without = if row.default == Default::Needed { String::new() } else { "if left out: ".to_owned() };
            let _ = writeln!(human, "      {without}{}", row.default.words());
        }
    }
    let json: Value = rows.iter().map(|row| as_json(row)).collect();
    Ok(Report { human, notes: Vec::new(), warnings: Vec::new(), json: json!({ "keys": json }) })
}

/// `margin`, `print`, `print.margin`, `numbers.sort.count`.
fn is_meant(row: &KeyRow, word: &str) -> bool {
    let word = word.trim_matches(['[', ']']);
    let in_table = |table: &String| table == word || *word == format!("{table}.{}", row.name);
    row.name == word || row.tables().iter().any(in_table)
}

fn heading(row: &KeyRow) -> String {
    if row.table.is_empty() {
        return "at the top of the file".to_owned();
    }
    row.tables().iter().map(|table| format!("[{table}]")).collect::<Vec<_>>().join(", ")
}

fn as_json(row: &KeyRow) -> Value {
    let (default, left_out) = match &row.default {
        Default::Value(value) => (value.clone(), None),
        Default::Worked(how) => (Value::Null, Some(*how)),
        Default::Needed | Default::Nothing => (Value::Null, None),
    };
    json!({
        "tables": row.tables(), "key": row.name, "needed": row.default == Default::Needed, "takes": row.shape.words(),
        "default": default, "left_out": left_out, "example": row.example, "text": row.says,
    })
}
