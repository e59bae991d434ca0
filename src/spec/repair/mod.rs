//! What was probably meant: for a line of a lesson file that cannot be read, the line that can.
//!
//! A line is taken apart ([`line`]), its key and its value are read as people write them ([`value`], [`count`]), and it is
//! put together again. A repair is offered only if the file, read once more with it, has nothing wrong on that line: so
//! what a message proposes always works.

mod count;
mod each;
mod line;
mod value;

use std::ops::Range;
use std::sync::Arc;

use line::Meant;

use super::syntax::UNREADABLE;
use crate::diag::{Diagnostic, Fix, Problem, Source};

/// Files beyond this are not written by hand.
const LONGEST: usize = 1 << 16;
/// How many mistakes of one file get a repair.
const MOST: usize = 40;
/// How many lines before the place of a mistake may be to blame for it: a bracket or quote that is not closed.
const BEFORE: usize = 2;

/// Adds repairs to what is wrong with a text. `again` reads a text once more, and gives the number of its lines that do not
/// parse and all that is wrong; `garbled` are those of the mistakes that come from such lines, whose messages are put in
/// words about the line.
pub(super) fn suggest(
    source: &Arc<Source>,
    mut found: Vec<Diagnostic>,
    garbled: &[Diagnostic],
    again: impl Fn(&Arc<Source>) -> (usize, Vec<Diagnostic>),
) -> Vec<Diagnostic> {
    if source.text.is_empty() || source.text.len() > LONGEST {
        return found;
    }
    let lines = lines(&source.text);
    let mut mended: Vec<usize> = Vec::new();
    for diagnostic in found.iter_mut().take(MOST) {
        let is_garbled = garbled.contains(diagnostic);
        // One line that does not parse can hide others, but a value that does parse may not fall apart.
        let most = if is_garbled { usize::MAX } else { garbled.len() };
        let Some(start) = diagnostic.place.as_ref().filter(|place| place.source == *source).map(|p| p.span.start)
        else {
            continue;
        };
        let at = lines.partition_point(|line| line.start <= start).saturating_sub(1);
        if mended.contains(&at) {
            continue;
        }
        let suspects = (at.saturating_sub(if is_garbled { BEFORE } else { 0 })..=at).rev();
        let repair = suspects.filter(|k| !mended.contains(k)).find_map(|k| {
            let meant = line::meant(&source.text, &lines, k)?;
            works(source, &lines, &[k, at], &meant, |source| Some(again(source)).filter(|(count, _)| *count <= most))
                .then_some((k, meant))
        });
        if let Some((k, meant)) = repair {
            mended.push(k);
            if is_garbled {
                reword(diagnostic, source, &lines[k], &meant);
            }
            let fix = Fix { span: lines[k].clone(), text: meant.text, sure: meant.sure };
            diagnostic.problem.fix = Some(Box::new(fix));
        } else if diagnostic.problem.message.starts_with(UNREADABLE)
            && let Some(row) = line::row(&source.text, &lines, at)
        {
            let problem = Problem::new(format!("the value of `{}` cannot be read", row.name));
            let hint = format!("expected {}, such as {} = {}", row.shape.words(), row.name, row.example);
            diagnostic.problem = problem.hint(hint);
        }
    }
    found
}

/// Says of a line that does not parse what is wrong with it, in words about lessons.
fn reword(diagnostic: &mut Diagnostic, source: &Arc<Source>, line: &Range<usize>, meant: &Meant) {
    if let Some(says) = &meant.says {
        let mut problem = Problem::new(says.clone());
        problem.hint = meant.expected.as_ref().map(|expected| format!("expected {expected}"));
        let span = line.start + meant.at.start..line.start + meant.at.end;
        *diagnostic = problem.at(source, span);
    }
}

/// Whether a text with this line in the place of its own has nothing wrong on the lines `clean`, and can be read as far as
/// it must be.
fn works(
    source: &Arc<Source>,
    lines: &[Range<usize>],
    clean: &[usize],
    meant: &Meant,
    again: impl Fn(&Arc<Source>) -> Option<(usize, Vec<Diagnostic>)>,
) -> bool {
    let mut text = source.text.clone();
    text.replace_range(lines[clean[0]].clone(), &meant.text);
    let source = Arc::new(Source { name: source.name.clone(), text });
    let wrong = |diagnostic: &Diagnostic| {
        let line = diagnostic.place.as_ref().map_or(0, |place| place.line_column().0);
        clean.iter().any(|k| k + 1 == line)
    };
    again(&source).is_some_and(|(_, found)| !found.iter().any(wrong))
}

/// The lines of a text without their ends.
fn lines(text: &str) -> Vec<Range<usize>> {
    let mut start = 0;
    let whole = text.split_inclusive('\n').map(|line| {
        let bare = line.trim_end_matches(['\n', '\r']).len();
        let line = start..start + bare;
        start += text[start..].find('\n').map_or(text.len() - start, |end| end + 1);
        line
    });
    whole.collect()
}
