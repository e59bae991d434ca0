//! The valid words closest to one that is not.

use std::cmp::Reverse;

/// How many words a hint offers at most.
const OFFERED: usize = 3;

/// Up to three of `valid` that `word` was probably meant to be, the likeliest first.
///
/// Near is an edit distance (Damerau and Levenshtein: insert, delete, change or swap two neighbours) of at most a third of
/// the longer word, and at least one; a word that holds the other as a part, three letters or more, is near as well. Case,
/// spaces, `-` and `_` do not count.
pub fn nearest<'w>(word: &str, valid: impl IntoIterator<Item = &'w str>) -> Vec<&'w str> {
    // Distances are quadratic: no valid word is half as long as this.
    if word.chars().count() > 64 {
        return Vec::new();
    }
    let asked = folded(word);
    let mut near: Vec<(usize, Reverse<usize>, usize, &str)> = Vec::new();
    for (order, candidate) in valid.into_iter().enumerate() {
        let offered = folded(candidate);
        let longer = asked.chars().count().max(offered.chars().count());
        let distance = strsim::damerau_levenshtein(&asked, &offered);
        let shares = |whole: &str, part: &str| part.chars().count() >= 3 && whole.contains(part);
        if distance <= (longer / 3).max(1) || shares(&offered, &asked) || shares(&asked, &offered) {
            let prefix = asked.chars().zip(offered.chars()).take_while(|(a, b)| a == b).count();
            near.push((distance, Reverse(prefix), order, candidate));
        }
    }
    near.sort_unstable();
    // The same word in other letters is the one that was meant.
    if near.first().is_some_and(|(distance, ..)| *distance == 0) {
        near.truncate(1);
    }
    near.into_iter().take(OFFERED).map(|(.., candidate)| candidate).collect()
}

/// Lower case without what people leave out or exchange.
fn folded(word: &str) -> String {
    word.chars().filter(|c| !matches!(c, ' ' | '-' | '_')).flat_map(char::to_lowercase).collect()
}

/// `a`, `a or b`, `a, b or c`.
pub fn listed<S: AsRef<str>>(words: &[S], last: &str) -> String {
    let mut text = String::new();
    for (k, word) in words.iter().enumerate() {
        if k > 0 {
            let between = if k + 1 == words.len() { [" ", last, " "] } else { [", ", "", ""] };
            text.extend(between);
        }
        text.push_str(word.as_ref());
    }
    text
}

/// The hint for a word that is not valid: the nearest ones, if any, then what was expected.
pub fn hint<'w>(word: &str, valid: impl IntoIterator<Item = &'w str>, expected: &str) -> String {
    let near: Vec<String> = nearest(word, valid).iter().map(|w| format!("`{w}`")).collect();
    if near.is_empty() { expected.to_owned() } else { format!("did you mean {}? {expected}", listed(&near, "or")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WORDS: [&str; 6] = ["letter", "legal", "tabloid", "a4", "a3", "word-bank"];

    #[track_caller]
    fn case(word: &str, want: &[&str]) {
        assert_eq!(nearest(word, WORDS), want, "{word}");
    }

    #[test]
    fn offers_what_was_probably_meant() {
        case("leter", &["letter"]);
        case("Ltetre", &["letter"]);
        case("US Letter", &["letter"]);
        case("wordbank", &["word-bank"]);
        case("A4", &["a4"]);
        case("a5", &["a4", "a3"]);
        case("zebra", &[]);
        case("", &[]);
        case(&"letter".repeat(1_000), &[]);
    }

    #[test]
    fn lists_read_as_sentences() {
        assert_eq!(listed(&["a"], "or"), "a");
        assert_eq!(listed(&["a", "b", "c"], "and"), "a, b and c");
        assert_eq!(hint("leter", WORDS, "expected a paper"), "did you mean `letter`? expected a paper");
    }
}
