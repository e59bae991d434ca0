//! A count for each of some words: places with their zeros, sheets with their learners.

use crate::diag::nearest::nearest;
use crate::spec::limits::Limit;

/// Reads words with a count each, in whatever order and with whatever marks, and whether that is sure. A count without a
/// word is guessed to be for `usual`, a word without a count to have 1.
pub(super) fn read(value: &str, words: &[&str], usual: Option<&str>, limit: Limit) -> Option<(String, bool)> {
    let (mut pairs, mut sure): (Vec<(&str, u64)>, bool) = (Vec::new(), true);
    let (mut word, mut number): (Option<&str>, Option<u64>) = (None, None);
    let is_mark = |c: char| !(c.is_alphanumeric() || c == '_' || c == '-');
    for token in value.split(is_mark).filter(|token| !token.is_empty() && !matches!(*token, "and" | "in" | "the")) {
        if token.starts_with(|c: char| c.is_ascii_digit()) {
            number = Some(token.parse().ok().filter(|value| limit.allows(*value))?);
        } else {
            let singular = |text: &str| text.to_lowercase().trim_end_matches('s').to_owned();
            let found = words.iter().copied().find(|word| singular(word) == singular(token));
            sure &= found.is_some();
            word = Some(found.or_else(|| nearest(token, words.iter().copied()).first().copied())?);
        }
        if let (Some(key), Some(count)) = (word, number) {
            pairs.push((key, count));
            (word, number) = (None, None);
        }
    }
    match (word, number) {
        (None, None) => {}
        (Some(key), None) => (sure, pairs) = (false, vec![(key, 1)]),
        (None, Some(count)) if pairs.is_empty() => (sure, pairs) = (false, vec![(usual?, count)]),
        _ => return None,
    }
    let texts: Vec<String> = pairs.iter().map(|(key, count)| format!("{key} = {count}")).collect();
    (!texts.is_empty()).then(|| (format!("{{ {} }}", texts.join(", ")), sure))
}
