//! Which names of a roster can be printed.
//!
//! In: the names as read, with their places, and the typeface. Out: the names to print, and a warning for each that cannot
//! be: its learner is shown by number alone, so that nothing is lost without a word.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

use unicode_normalization::UnicodeNormalization;

use crate::diag::{Diagnostic, Problem, Severity, Source, TOLD};
use crate::measure::Family;

/// Settles every name: letters with marks are put together (Unicode normalization form C), what has no shape of its own
/// (joiners, direction marks) is left out, and a name that cannot be set becomes empty.
///
/// A name cannot be set when either weight of the typeface lacks one of its characters, or when its script is written from
/// right to left or joins its letters: text is set letter by letter, from left to right.
pub fn settle(
    source: &Arc<Source>,
    rows: Vec<(String, Range<usize>)>,
    family: &Family,
) -> (Vec<String>, Vec<Diagnostic>) {
    let mut found = Vec::new();
    let mut names = Vec::new();
    for (name, span) in rows {
        let whole: String = name.nfc().filter(|c| !shapeless(*c)).collect();
        let lacking = family.regular.lacks(&whole).or_else(|| family.bold.lacks(&whole));
        let problem = if whole.chars().any(leftward) {
            Some(Problem::new(format!("the name `{name}` is written from right to left, which cannot be set")))
        } else if whole.chars().any(joining) {
            Some(Problem::new(format!("the name `{name}` joins its letters, which cannot be set")))
        } else {
            lacking.map(|c| Problem::new(format!("the font has no `{c}`, so the name `{name}` cannot be printed")))
        };
        let Some(problem) = problem else {
            names.push(whole);
            continue;
        };
        let hint = match lacking {
            Some(_) => {
                "the learner's number stands in its place; a font that has the letter can be named under [print] font"
            }
            None => "the learner's number stands in its place; the name can be written in by hand",
        };
        names.push(String::new());
        if found.len() > TOLD {
            continue;
        }
        if found.len() == TOLD {
            let more = Problem::new(format!("there are more names like this than the {TOLD} shown"));
            found.push(Diagnostic { severity: Severity::Warning, ..more.hint(hint).at(source, span) });
            continue;
        }
        found.push(Diagnostic { severity: Severity::Warning, ..problem.hint(hint).at(source, span) });
    }
    tell_apart(&mut names);
    (names, found)
}

/// Learners of one name get their numbers behind it.
fn tell_apart(names: &mut [String]) {
    let mut times: BTreeMap<String, usize> = BTreeMap::new();
    for name in names.iter().filter(|name| !name.is_empty()) {
        *times.entry(name.clone()).or_default() += 1;
    }
    for (number, name) in (1..).zip(names) {
        if times.get(name).is_some_and(|times| *times > 1) {
            *name = format!("{name} ({number})");
        }
    }
}

/// Format characters that have no shape: zero-width spaces and joiners, direction marks, the byte-order mark.
fn shapeless(c: char) -> bool {
    matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}' | '\u{ad}')
}

/// Blocks of scripts written from right to left: those whose unassigned characters default to R or AL in Unicode's
/// `DerivedBidiClass.txt` (ranges from memory).
fn leftward(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefe}'
        | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
}

/// Blocks of scripts whose letters change shape or place beside one another: those of South and Southeast Asia, and
/// Mongolian (block ranges of the Unicode standard, from memory).
fn joining(c: char) -> bool {
    matches!(c, '\u{900}'..='\u{dff}' | '\u{e00}'..='\u{fff}' | '\u{1000}'..='\u{109f}' | '\u{1780}'..='\u{18af}'
        | '\u{1a20}'..='\u{1aaf}' | '\u{a8e0}'..='\u{a8ff}' | '\u{aa60}'..='\u{aa7f}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::fonts::{Bundled, bundled};
    use crate::spec::roster;

    fn settled(text: &str) -> (Vec<String>, Vec<(usize, String)>) {
        let source = Arc::new(Source { name: "roster.csv".to_owned(), text: text.to_owned() });
        let family = bundled(Bundled::Andika).expect("a font");
        let (names, found) = settle(&source, roster::rows(&source).expect("names"), &family);
        let line = |d: &Diagnostic| d.place.as_ref().expect("a place").line_column().0;
        assert!(found.iter().all(|d| d.severity == Severity::Warning && d.problem.hint.is_some()));
        (names, found.iter().map(|d| (line(d), d.problem.message.clone())).collect())
    }

    #[test]
    fn names_that_can_be_set_stay() {
        let (names, found) = settled("name\nWren\nÅsa Øst\nZoë\n=SUM(A1)\nNguyễn Thị\n");
        assert_eq!(names, ["Wren", "Åsa Øst", "Zoë", "=SUM(A1)", "Nguyễn Thị"]);
        assert_eq!(found, []);
    }

    #[test]
    fn two_of_one_name_are_told_apart() {
        let (names, found) = settled("name\nWren\nQuill\nWren\n");
        assert_eq!((names, found), (["Wren (1)", "Quill", "Wren (3)"].map(str::to_owned).to_vec(), vec![]));
    }

    #[test]
    fn letters_and_marks_are_put_together() {
        assert_eq!(settled("name\nZoe\u{308}\u{200d}\n"), (vec!["Zo\u{eb}".to_owned()], vec![]));
    }

    #[test]
    fn names_that_cannot_be_set_are_told_by_name_and_line() {
        let (names, found) = settled("name\nWren\n\u{5d3}\u{5d5}\u{5d3}\nQuill\n\u{904}\u{915}\nKai \u{5b50}\n");
        assert_eq!(names, ["Wren", "", "Quill", "", ""]);
        assert_eq!(found.iter().map(|(line, _)| *line).collect::<Vec<_>>(), [3, 5, 6]);
        assert!(found[0].1.contains("\u{5d3}\u{5d5}\u{5d3}") && found[0].1.contains("right to left"));
        assert!(found[1].1.contains("joins its letters"));
        assert_eq!(found[2].1, "the font has no `\u{5b50}`, so the name `Kai \u{5b50}` cannot be printed");
    }
}
