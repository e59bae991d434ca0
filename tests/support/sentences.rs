//! How long the sentences of a page are.

/// The sentences of a text, without their last marks.
pub fn sentences(text: &str) -> impl Iterator<Item = &str> {
    text.split_inclusive(['.', '?', '!'])
        .scan(0, |start, part| {
            let from = *start;
            *start += part.len();
            Some((from, *start))
        })
        .map(|(from, to)| text[from..to].trim())
        .filter(|sentence| !sentence.is_empty())
}

/// How many words a sentence has; signs such as + do not count.
pub fn word_count(sentence: &str) -> usize {
    sentence.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).count()
}

#[test]
fn sentences_are_told_apart() {
    let parts: Vec<_> = sentences("Read 1,010. Why? Because 400 + 6 is 406.").collect();
    assert_eq!(parts, ["Read 1,010.", "Why?", "Because 400 + 6 is 406."]);
    assert_eq!(word_count("Because 400 + 6 is 406."), 5);
}
