//! Drawing diagnostics: for people, on one line, and for programs.
//!
//! In: a [`Diagnostic`]. Out: text or JSON. Whether to colour is an argument; nothing here asks a terminal.

use std::fmt::Write;
use std::sync::Arc;

use serde_json::{Value, json};

use super::{Diagnostic, FilePlace, Severity};

/// How a diagnostic is drawn for people.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Look {
    /// Colour the severity, the carets and the line numbers with ANSI escapes.
    pub colour: bool,
    /// One line only.
    pub short: bool,
}

/// How many columns of a long line are shown.
const COLUMNS: usize = 100;
/// How many characters of a long line are looked at on either side of a place; some take no column, or two.
const REACH: usize = 4 * COLUMNS;

/// Draws a diagnostic with a line end after each line:
///
/// ```text
/// lesson.toml:4:9: error: `leter` is not a word for `paper`
///   4 | paper = "leter"
///     |         ^^^^^^^
///   did you mean `letter`? expected letter, legal, tabloid, a4 or a3
/// ```
pub fn draw(diagnostic: &Diagnostic, look: Look) -> String {
    draw_about(None, diagnostic, look)
}

/// [`draw`], with the name of the file that a diagnostic without a place is about.
pub fn draw_about(file: Option<&str>, diagnostic: &Diagnostic, look: Look) -> String {
    let pen = Pen { colour: look.colour };
    let mut text = String::new();
    if let Some(place) = &diagnostic.place {
        let (line, column) = place.line_column();
        let _ = write!(text, "{}:{line}:{column}: ", visible(&place.source.name));
    } else if let Some(file) = file {
        let _ = write!(text, "{}: ", visible(file));
    }
    let severity = pen.severity(diagnostic.severity);
    let _ = write!(text, "{severity}: {}", visible(&diagnostic.problem.message));
    let write = diagnostic.problem.fix.as_ref().map(|fix| {
        let word = if fix.sure { "write" } else { "perhaps" };
        format!("{word}: {}", visible(fix.text.trim()))
    });
    if look.short {
        let hint = diagnostic.problem.hint.as_deref().map(visible);
        if let Some(advice) = write.or(hint) {
            let _ = write!(text, " ({advice})");
        }
        text.push('\n');
        return text;
    }
    text.push('\n');
    // One gutter for all lines shown.
    let places = diagnostic.place.iter().chain(diagnostic.related.iter().map(|(place, _)| place));
    let gutter = places.map(|place| place.line_column().0.to_string().len()).max().unwrap_or(1);
    if let Some(place) = &diagnostic.place {
        excerpt(&mut text, place, gutter, '^', "", pen);
    }
    let own = diagnostic.place.as_ref().map(|place| &place.source);
    for (place, words) in &diagnostic.related {
        // A line of another file is only told apart by its name.
        if own.is_some_and(|source| *source != place.source) {
            let _ = writeln!(text, "  in {}:", visible(&place.source.name));
        }
        excerpt(&mut text, place, gutter, '-', words, pen);
    }
    if let Some(hint) = &diagnostic.problem.hint {
        let _ = writeln!(text, "  {}", visible(hint));
    }
    if let Some(write) = write {
        let _ = writeln!(text, "  {write}");
    }
    text
}

/// Draws a diagnostic as `check --format json` lists it. Without a place, `file`, `line` and `column` are null; the places
/// that take part are under `related`, each with `file`, `line`, `column` and `message`; what to write instead is under
/// `fix`, as the number of a `line`, its new `text`, and whether that is `sure`.
pub fn json(diagnostic: &Diagnostic) -> Value {
    let (file, line, column) = located(diagnostic.place.as_ref());
    let related = diagnostic.related.iter().map(|(place, words)| {
        let (file, line, column) = located(Some(place));
        json!({ "file": file, "line": line, "column": column, "message": words })
    });
    let mut finding = json!({
        "severity": diagnostic.severity.word(), "file": file, "line": line, "column": column,
        "message": diagnostic.problem.message, "hint": diagnostic.problem.hint,
    });
    if !diagnostic.related.is_empty() {
        finding["related"] = related.collect();
    }
    if let (Some(fix), Some(place)) = (&diagnostic.problem.fix, &diagnostic.place) {
        let line = FilePlace { source: Arc::clone(&place.source), span: fix.span.clone() }.line_column().0;
        finding["fix"] = json!({ "line": line, "text": fix.text, "sure": fix.sure });
    }
    finding
}

fn located(place: Option<&FilePlace>) -> (Value, Value, Value) {
    let Some(place) = place else { return (Value::Null, Value::Null, Value::Null) };
    let (line, column) = place.line_column();
    (json!(place.source.name), json!(line), json!(column))
}

/// The line of a place, and under it a mark below each of its characters.
fn excerpt(text: &mut String, place: &FilePlace, gutter: usize, mark: char, words: &str, pen: Pen) {
    let (number, column) = place.line_column();
    let whole = place.source.text.lines().nth(number - 1).unwrap_or("");
    let skipped = whole.chars().take_while(|c| *c == '\u{feff}').count();
    let whole = whole.trim_start_matches('\u{feff}');
    let at = (column - 1).saturating_sub(skipped);
    // Lines can be as long as files: what lies further off than this is not even looked at.
    let cropped = at.saturating_sub(REACH);
    let cells: Vec<(String, usize)> = whole.chars().skip(cropped).take(2 * REACH).map(cell).collect();
    let more = whole.chars().nth(cropped + 2 * REACH).is_some();
    let start = (at - cropped).min(cells.len());
    let covered = place.source.text.get(place.span.clone()).and_then(|t| t.lines().next()).unwrap_or("");
    let end = (start + covered.chars().take(2 * REACH).count().max(1)).min(cells.len().max(start + 1));

    // A window on a long line that shows the start of the place.
    let width = |cells: &[(String, usize)]| cells.iter().map(|(_, width)| width).sum::<usize>();
    let mut from = 0;
    while width(cells.get(from..start).unwrap_or(&[])) > COLUMNS / 2 && width(&cells[from..]) > COLUMNS {
        from += 1;
    }
    let mut to = cells.len();
    while to > start + 1 && width(&cells[from..to]) > COLUMNS {
        to -= 1;
    }
    let (before, after) = (from > 0 || cropped > 0, more || to < cells.len());
    let [before, after] = [before, after].map(|cut| if cut { "…" } else { "" });
    let line: String = cells[from..to].iter().map(|(shown, _)| shown.as_str()).collect();
    let indent = width(&cells[from..start]) + before.chars().count();
    let marks = width(cells.get(start..end.min(to)).unwrap_or(&[])).max(1);

    let bar = pen.dim("|");
    let _ = writeln!(text, "  {} {bar} {before}{line}{after}", pen.dim(&format!("{number:>gutter$}")));
    let marks = pen.mark(&mark.to_string().repeat(marks), mark == '^');
    let words = if words.is_empty() { String::new() } else { format!(" {}", visible(words)) };
    let _ = writeln!(text, "  {:gutter$} {bar} {:indent$}{marks}{words}", "", "");
}

/// What a terminal shows for a character, and in how many columns.
fn cell(character: char) -> (String, usize) {
    match character {
        '\t' => ("    ".to_owned(), 4),
        c if is_hidden(c) => ("\u{fffd}".to_owned(), 1),
        c => (c.to_string(), columns(c)),
    }
}

/// Text without what could move the cursor or turn the line.
fn visible(text: &str) -> String {
    text.chars().map(|c| if is_hidden(c) { '\u{fffd}' } else { c }).collect()
}

/// Control characters, and marks that turn the direction of text.
fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}' | '\u{200e}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}')
}

/// Columns of a character in a terminal: 2 for the wide scripts and pictures, 0 for marks that combine with the character
/// before. The wide blocks of Unicode Standard Annex #11, coarsely and from memory; it only moves carets.
fn columns(c: char) -> usize {
    match u32::from(c) {
        0x0300..=0x036f | 0x200c..=0x200d | 0x20d0..=0x20ff | 0xfe00..=0xfe0f | 0xfe20..=0xfe2f => 0,
        0x1100..=0x115f
        | 0x2e80..=0x303e
        | 0x3041..=0xa4cf
        | 0xa960..=0xa97c
        | 0xac00..=0xd7a3
        | 0xf900..=0xfaff
        | 0xfe30..=0xfe6f
        | 0xff01..=0xff60
        | 0xffe0..=0xffe6
        | 0x1f300..=0x1f64f
        | 0x1f680..=0x1f6ff
        | 0x1f900..=0x1faff
        | 0x20000..=0x3fffd => 2,
        _ => 1,
    }
}

/// Puts colour on words, or not.
#[derive(Clone, Copy)]
struct Pen {
    colour: bool,
}

impl Pen {
    fn with(self, code: &str, text: &str) -> String {
        if self.colour { format!("\x1b[{code}m{text}\x1b[0m") } else { text.to_owned() }
    }

    fn severity(self, severity: Severity) -> String {
        let code = match severity {
            Severity::Error => "1;31",
            Severity::Warning => "1;33",
            Severity::Note => "1;36",
        };
        self.with(code, severity.word())
    }

    fn dim(self, text: &str) -> String {
        self.with("2", text)
    }

    fn mark(self, text: &str, own: bool) -> String {
        self.with(if own { "1;31" } else { "1;36" }, text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::{Problem, Source};

    /// Draws an error at the first `<` ... `>` of a text.
    fn drawn(marked: &str, look: Look) -> String {
        let (start, end) = (marked.find('<').expect("a start"), marked.find('>').expect("an end") - 1);
        let text = marked.replacen('<', "", 1).replacen('>', "", 1);
        let source = Arc::new(Source { name: "a.toml".to_owned(), text });
        draw(&Problem::new("bad").hint("try this").at(&source, start..end), look)
    }

    #[track_caller]
    fn case(marked: &str, want: &str) {
        assert_eq!(drawn(marked, Look::default()), want, "{marked:?}");
    }

    #[test]
    fn carets_stand_under_what_is_wrong() {
        case("x = 1\ny = <22>\n", "a.toml:2:5: error: bad\n  2 | y = 22\n    |     ^^\n  try this\n");
        case("<>", "a.toml:1:1: error: bad\n  1 | \n    | ^\n  try this\n");
        case("x = <[1,\n2]>\n", "a.toml:1:5: error: bad\n  1 | x = [1,\n    |     ^^^\n  try this\n");
        case("\tx = <1>\r\n", "a.toml:1:6: error: bad\n  1 |     x = 1\n    |         ^\n  try this\n");
        case("x = \"<>", "a.toml:1:6: error: bad\n  1 | x = \"\n    |      ^\n  try this\n");
        case("\u{feff}<x> = 1\n", "a.toml:1:2: error: bad\n  1 | x = 1\n    | ^\n  try this\n");
    }

    #[test]
    fn wide_and_hidden_characters_keep_the_carets_in_place() {
        case(
            "x = \"数字\" # <ab>",
            "a.toml:1:12: error: bad\n  1 | x = \"数字\" # ab\n    |              ^^\n  try this\n",
        );
        case("\x1b[2J\u{202e}<x>", "a.toml:1:6: error: bad\n  1 | \u{fffd}[2J\u{fffd}x\n    |      ^\n  try this\n");
        case("e\u{301}<x>", "a.toml:1:3: error: bad\n  1 | e\u{301}x\n    |  ^\n  try this\n");
    }

    #[test]
    fn long_lines_are_shown_in_part() {
        let text = drawn(&format!("{}<b>{}", "a".repeat(300), "c".repeat(300)), Look::default());
        assert!(text.lines().all(|line| line.chars().count() < 120), "{text}");
        let rows: Vec<&str> = text.lines().collect();
        let column = rows[2].chars().position(|c| c == '^').expect("a caret");
        assert_eq!(rows[1].chars().nth(column), Some('b'));
    }

    #[test]
    fn short_is_one_line_and_colour_is_asked_for() {
        let short = drawn("x = <1>", Look { short: true, colour: false });
        assert_eq!(short, "a.toml:1:5: error: bad (try this)\n");
        let colour = drawn("x = <1>", Look { short: false, colour: true });
        assert!(colour.contains("\x1b[1;31merror\x1b[0m") && colour.contains("\x1b[1;31m^\x1b[0m"));
        assert!(!drawn("x = <1>", Look::default()).contains('\x1b'));
    }

    #[test]
    fn related_places_are_drawn_with_their_words() {
        let source = Arc::new(Source { name: "a.toml".to_owned(), text: "range = 1\ncount = 2\n".to_owned() });
        let mut diagnostic = Problem::new("bad").at(&source, 18..19);
        diagnostic.related.push((FilePlace { source: Arc::clone(&source), span: 8..9 }, "the range".to_owned()));
        let want = concat!(
            "a.toml:2:9: error: bad\n  2 | count = 2\n    |         ^\n",
            "  1 | range = 1\n    |         - the range\n",
        );
        assert_eq!(draw(&diagnostic, Look::default()), want);
        let value = json(&diagnostic);
        assert_eq!((&value["line"], &value["column"], &value["hint"]), (&json!(2), &json!(9), &Value::Null));
        assert_eq!(value["related"][0]["message"], "the range");
    }
}
