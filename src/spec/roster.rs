//! The class list: a CSV file with a column `name`.
//!
//! In: its text. Out: the names in order. Names go on pages and nowhere else: no message here quotes one.

use std::ops::Range;
use std::sync::Arc;

use super::limits::{self, grouped};
use super::types::GroupSpec;
use crate::diag::nearest::{hint, listed};
use crate::diag::{Diagnostic, Problem, Source, TOLD, first};
use crate::measure::Count;

/// The column that holds the names.
const COLUMN: &str = "name";

/// The column that holds the groups, if the roster has one.
const GROUP: &str = "group";

/// Reads the names in order, spaces trimmed, each with the bytes of its line; rows without any text are skipped. A comma, a semicolon or a tab may stand
/// between the cells (spreadsheets write all three). A cell is only ever text, also when it looks like a formula.
pub fn rows(source: &Arc<Source>) -> Result<Vec<(String, Range<usize>)>, Vec<Diagnostic>> {
    let mark = source.text.len() - source.text.trim_start_matches('\u{feff}').len();
    let text = &source.text[mark..];
    let (delimiter, column) = header(text).map_err(|problem| {
        let end = text.find(['\n', '\r']).unwrap_or(text.len());
        vec![problem.at(source, mark..mark + end)]
    })?;
    let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).flexible(true).from_reader(text.as_bytes());
    let (mut names, mut found) = (Vec::new(), Vec::new());
    for record in reader.records() {
        // Text in memory that is UTF-8 and may be ragged has no way to fail.
        let Ok(record) = record else { continue };
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        let start = record.position().map_or(0, |p| p.byte().index());
        let start = start + text.get(start..).map_or(0, |t| t.len() - t.trim_start_matches(['\r', '\n']).len());
        let end = text.get(start..).and_then(|t| t.find(['\n', '\r'])).map_or(text.len(), |k| start + k);
        let span = mark + start..mark + end;
        match name(record.get(column)) {
            Ok(name) => names.push((name, span)),
            Err(problem) => found.push(problem.at(source, span)),
        }
        if found.len() > TOLD {
            return Err(first(found));
        }
        if names.len() as u64 > limits::LEARNERS.most {
            let most = grouped(limits::LEARNERS.most);
            found.push(Problem::new(format!("the roster has more than {most} names")).at(source, mark..mark));
            break;
        }
    }
    if names.is_empty() && found.is_empty() {
        let problem = Problem::new("the roster has no names").hint("expected a line for each learner under the header");
        found.push(problem.at(source, mark..mark));
    }
    if found.is_empty() { Ok(names) } else { Err(found) }
}

/// What the roster says in its column `group`, a cell for each name, with the bytes of its line; `None` where it has no such
/// column. What is wrong with the roster itself is told by [`rows`].
pub fn groups(source: &Source) -> Option<Vec<(String, Range<usize>)>> {
    let mark = source.text.len() - source.text.trim_start_matches('\u{feff}').len();
    let text = &source.text[mark..];
    let (delimiter, _) = header(text).ok()?;
    let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).flexible(true).from_reader(text.as_bytes());
    let column = reader.headers().ok()?.iter().position(|cell| cell.trim().eq_ignore_ascii_case(GROUP))?;
    let filled = |record: &csv::StringRecord| record.iter().any(|cell| !cell.trim().is_empty());
    let cells = reader.records().filter_map(Result::ok).filter(filled).map(|record| {
        let start = record.position().map_or(0, |p| p.byte().index());
        let start = start + text.get(start..).map_or(0, |t| t.len() - t.trim_start_matches(['\r', '\n']).len());
        let end = text.get(start..).and_then(|t| t.find(['\n', '\r'])).map_or(text.len(), |k| start + k);
        let cell = record.get(column).unwrap_or_default();
        (cell.split_whitespace().collect::<Vec<_>>().join(" "), mark + start..mark + end)
    });
    Some(cells.collect())
}

/// Who is in which group, an index into `groups` for each name; empty for a lesson without groups. `lesson` is the text of
/// the lesson file. Fails with every line that names no group of the lesson, with groups that nobody is in, and with groups
/// whose count of learners is another one in the lesson file. No message quotes a cell: it might be a name.
pub fn members(
    roster: &Arc<Source>,
    groups: &[GroupSpec],
    lesson: &Arc<Source>,
) -> Result<Vec<Option<usize>>, Vec<Diagnostic>> {
    let Some(leader) = groups.first() else { return Ok(Vec::new()) };
    let named = |group: &GroupSpec| group.name.span().unwrap_or(0..0);
    let Some(cells) = self::groups(roster) else {
        let problem = Problem::new("the roster has no column `group`, so nobody knows who is in which group");
        let hint = format!("add a column `group` to it, with `{}` beside each of its learners", leader.name.value);
        return Err(vec![problem.hint(hint).at(lesson, named(leader))]);
    };
    let names: Vec<&str> = groups.iter().map(|group| group.name.value.as_str()).collect();
    let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    let expected = format!("expected {}, or nothing for whoever gets the class's numbers", listed(&quoted, "or"));
    let (mut members, mut found) = (Vec::new(), Vec::new());
    for (cell, span) in cells {
        let at = names.iter().position(|name| name.to_lowercase() == cell.to_lowercase());
        if at.is_none() && !cell.is_empty() && found.len() <= TOLD {
            let problem = Problem::new("the group on this line is none of the lesson's");
            found.push(problem.hint(hint(&cell, names.iter().copied(), &expected)).at(roster, span));
        }
        members.push(at);
    }
    let known = found.is_empty();
    for (k, group) in groups.iter().enumerate().filter(|_| known) {
        let has = members.iter().filter(|at| **at == Some(k)).count().narrow();
        let learners = |count: u32| if count == 1 { "1 name".to_owned() } else { format!("{count} names") };
        if has == 0 {
            let problem = Problem::new("nobody on the roster is in it").of_group(&group.name.value);
            let hint = format!("write `{}` in the roster's column `group`, or leave the group out", group.name.value);
            found.push(problem.hint(hint).at(lesson, named(group)));
        } else if let Some(given) = group.learners.filter(|given| given.value != has) {
            let problem =
                Problem::new(format!("it has {} learners, but the roster has {}", given.value, learners(has)));
            let hint = format!("set it to {has}, or leave it out to take the roster's");
            let span = given.span().unwrap_or_else(|| named(group));
            found.push(problem.of_group(&group.name.value).hint(hint).at(lesson, span));
        }
    }
    if found.is_empty() { Ok(members) } else { Err(first(found)) }
}

/// What stands between cells, and which column has the names.
fn header(text: &str) -> Result<(u8, usize), Problem> {
    let mut columns: Vec<String> = Vec::new();
    for delimiter in *b",;\t" {
        let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).from_reader(text.as_bytes());
        let cells: Vec<String> = match reader.headers() {
            Ok(header) => header.iter().map(|cell| cell.trim().to_owned()).collect(),
            Err(_) => continue,
        };
        if let Some(column) = cells.iter().position(|cell| cell.eq_ignore_ascii_case(COLUMN)) {
            return Ok((delimiter, column));
        }
        if cells.len() > columns.len() {
            columns = cells;
        }
    }
    for cell in &mut columns {
        cell.make_ascii_lowercase();
    }
    let problem = Problem::new("the roster has no column `name`");
    if columns.iter().all(String::is_empty) {
        return Err(problem.hint("expected `name` on the first line, then a line for each learner"));
    }
    // What stands there may be a learner's name: it is told by its place.
    let near = crate::diag::nearest::nearest(COLUMN, columns.iter().map(String::as_str));
    let place = near.first().and_then(|near| columns.iter().position(|cell| cell == near));
    Err(problem.hint(match (place, columns.len()) {
        (Some(_), 1) => {
            "does the first line say what is below it? then write `name` there; if it is a name itself, put \
                         a line above it that says `name`"
                .to_owned()
        }
        (Some(place), _) => {
            format!("is column {} the one with the names? then write `name` on its first line", place + 1)
        }
        (None, 1) => "is the first line a name itself? then put a line above it that says `name`".to_owned(),
        (None, _) => "write `name` on the first line, above the names; if the first line is a learner already, put a \
                      line above it"
            .to_owned(),
    }))
}

/// A name as it is printed: one line, single spaces.
fn name(cell: Option<&str>) -> Result<String, Problem> {
    let Some(cell) = cell else {
        return Err(Problem::new("this line ends before its name").hint("expected as many cells as the first line has"));
    };
    let name = cell.split_whitespace().collect::<Vec<_>>().join(" ");
    let characters = name.chars().count() as u64;
    if name.is_empty() {
        Err(Problem::new("this line has no name").hint("fill in the name or remove the line"))
    } else if name.chars().any(char::is_control) {
        Err(Problem::new("the name on this line holds a control character").hint("expected plain text"))
    } else if !limits::NAME.allows(characters) {
        let hint = format!("expected at most {}", grouped(limits::NAME.most));
        Err(Problem::new(format!("the name on this line has {} characters", grouped(characters))).hint(hint))
    } else {
        Ok(name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_text(text: &str) -> Result<Vec<String>, Vec<Diagnostic>> {
        let source = Arc::new(Source { name: "roster.csv".to_owned(), text: text.to_owned() });
        Ok(rows(&source)?.into_iter().map(|(name, _)| name).collect())
    }

    #[track_caller]
    fn reads(text: &str, want: &[&str]) {
        assert_eq!(read_text(text).expect(text), want, "{text:?}");
    }

    #[track_caller]
    fn refuses(text: &str, line: usize, want: &str) {
        let found = read_text(text).expect_err(text);
        let place = found[0].place.as_ref().expect("a place");
        assert_eq!((found[0].problem.message.as_str(), place.line_column().0), (want, line), "{text:?}");
    }

    #[test]
    fn reads_what_spreadsheets_write() {
        reads("name\nWren\nOtis\n", &["Wren", "Otis"]);
        reads("\u{feff}name,group\r\n Wren ,a\r\n\"Otis \"\"Ox\"\" B., jr\",b\r\n", &["Wren", "Otis \"Ox\" B., jr"]);
        reads("group;Name\na;Wren\n;\n\nb;Otis", &["Wren", "Otis"]);
        reads("group\tNAME\na\tWren\n", &["Wren"]);
        reads("name\n=1+1\n@x\n\"two\nlines\"\n", &["=1+1", "@x", "two lines"]);
    }

    #[test]
    fn says_what_is_wrong_and_where() {
        refuses("", 1, "the roster has no column `name`");
        refuses("nam\nWren\n", 1, "the roster has no column `name`");
        refuses("name\n\n", 1, "the roster has no names");
        refuses("group,name\na,Wren\nb\n", 3, "this line ends before its name");
        refuses("group,name\r\na,Wren\r\n\r\nb, \r\n", 4, "this line has no name");
        refuses("name\nW\u{7}ren\n", 2, "the name on this line holds a control character");
        refuses(&format!("name\n{}\n", "x".repeat(501)), 2, "the name on this line has 501 characters");
    }

    #[test]
    fn a_first_line_that_is_a_learner_is_not_quoted() {
        for text in ["Wrenna\nOtis\n", "Nama\nOtis\n", "Wrenna,a\nOtis,b\n", "group;Nam\na;Otis\n"] {
            let found = read_text(text).expect_err(text);
            let hint = found[0].problem.hint.as_ref().expect("a hint").to_lowercase();
            assert!(!hint.contains("wren") && !hint.contains("nama") && !hint.contains("`nam`"), "{hint}");
            assert!(hint.contains("line"), "{hint}");
        }
    }

    #[test]
    fn no_message_quotes_a_name() {
        let found = read_text(&format!("group,name\nWrenna,\nOtis\nx,{}\n", "Zed".repeat(200))).expect_err("bad");
        let words = found.iter().map(|d| format!("{:?}", d.problem)).collect::<Vec<_>>().join("\n");
        assert_eq!(found.len(), 3);
        assert!(!words.contains("Wren") && !words.contains("Otis") && !words.contains("Zed"), "{words}");
    }
}
