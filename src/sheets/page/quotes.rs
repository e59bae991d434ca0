//! Words of the second language that sentences quote: found on finished pages, and marked for a listener.
//!
//! In: the nodes of a page. Out: the same with every run of the second language's number words in an element that names the
//! language (ISO 32000-1, 14.9.2; WCAG 2.2, 3.1.2). Sentences are in the lesson's language and quote nothing else in the other;
//! without it a listener would hear "cuatrocientos seis" read as English.

use std::collections::HashSet;
use std::ops::Range;

use super::{Item, Node, Tag, Text};
use crate::measure::{Family, Length};
use crate::number::Style;
use crate::spec::Language;
use crate::wording;

/// Every word that numbers of the second language are made of, in small letters; none in a lesson in one language.
pub(super) struct Vocabulary(HashSet<String>);

impl Vocabulary {
    pub(super) fn of(style: &Style) -> Self {
        // Every word up to 999,999 is in a number below a thousand, or in a whole number of thousands.
        let values = (0..1_000).flat_map(|value| [value, value * 1_000]);
        let names =
            style.second.into_iter().flat_map(|names| values.clone().map(|value| names.cardinal(value, style.and)));
        let words = names.flat_map(|name| name.split(' ').map(|word| bare(word).0.to_lowercase()).collect::<Vec<_>>());
        Self(words.collect())
    }

    fn has(&self, word: &str) -> bool {
        self.0.contains(&word.to_lowercase())
    }
}

/// What quotations are found and set with.
#[derive(Clone, Copy)]
pub(super) struct Quotes<'a> {
    pub(super) vocabulary: &'a Vocabulary,
    pub(super) language: Language,
    pub(super) family: &'a Family,
}

impl Quotes<'_> {
    /// Nodes of a page, with quotations marked. What is in an element that names a language already is left alone.
    pub(super) fn marked(self, nodes: Vec<Node>) -> Vec<Node> {
        let mut out = Vec::new();
        // The lines of one text stand one after the other in one element.
        let mut lines: Vec<Text> = Vec::new();
        for node in nodes {
            match node {
                Node::Item(Item::Text(text)) => lines.push(text),
                other => {
                    out.extend(self.parted(std::mem::take(&mut lines)));
                    out.push(match other {
                        Node::Tagged(tag, nodes) if !matches!(tag, Tag::Span(_) | Tag::Passage(_)) => {
                            Node::Tagged(tag, self.marked(nodes))
                        }
                        other => other,
                    });
                }
            }
        }
        out.extend(self.parted(lines));
        out
    }

    /// The lines of one text, each in as many parts as it has languages.
    fn parted(self, lines: Vec<Text>) -> Vec<Node> {
        let quoted = quoted(&lines.iter().map(|line| line.text.as_str()).collect::<Vec<_>>(), self.vocabulary);
        let mut nodes = Vec::new();
        for (line, ranges) in lines.into_iter().zip(quoted) {
            let font = self.family.font(line.weight);
            let mut from = 0;
            let ends = ranges.iter().flat_map(|range| [(range.start, false), (range.end, true)]);
            for (end, foreign) in ends.chain([(line.text.len(), false)]) {
                if end > from {
                    let at = line.at.moved(font.width(&line.text[..from], line.size), Length::ZERO);
                    let part = Item::Text(Text { at, text: line.text[from..end].to_owned(), ..line.clone() });
                    let part = Node::Item(part);
                    nodes.push(if foreign { Node::tagged(Tag::Span(self.language), [part]) } else { part });
                    from = end;
                }
            }
        }
        nodes
    }
}

/// Where lines of one text quote: the bytes in each line. A quotation may go on over a line's end.
fn quoted(lines: &[&str], vocabulary: &Vocabulary) -> Vec<Vec<Range<usize>>> {
    let mut words: Vec<(usize, Range<usize>, &str)> = Vec::new();
    for (k, line) in lines.iter().enumerate() {
        let mut from = 0;
        for part in line.split(' ') {
            let (word, at) = bare(part);
            words.push((k, from + at..from + at + word.len(), word));
            from += part.len() + 1;
        }
    }
    let mut found: Vec<Vec<Range<usize>>> = vec![Vec::new(); lines.len()];
    for run in words.split(|(.., word)| !vocabulary.has(word)) {
        // What only joins words begins and ends no number.
        let joins = |(.., word): &&(usize, Range<usize>, &str)| wording::holds_on(word);
        let (head, tail) = (run.iter().take_while(joins).count(), run.iter().rev().take_while(joins).count());
        let Some(run) = run.get(head..run.len() - tail.min(run.len() - head)) else { continue };
        if matches!(run, [(.., word)] if wording::may_mean_no_number(word)) {
            continue;
        }
        for (k, range, _) in run {
            match found[*k].last_mut() {
                // The words of a quotation on one line are one.
                Some(last) if lines[*k].get(last.end..range.start) == Some(" ") => last.end = range.end,
                _ => found[*k].push(range.clone()),
            }
        }
    }
    found
}

/// A word without the marks around it, and where it begins.
fn bare(part: &str) -> (&str, usize) {
    let mark = |c: char| !c.is_alphanumeric();
    let word = part.trim_start_matches(mark);
    (word.trim_end_matches(mark), part.len() - word.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotations_are_found_over_the_ends_of_lines() {
        let words = ["ciento", "dos", "mil", "once", "treinta", "y"].into_iter().map(str::to_owned);
        let vocabulary = Vocabulary(words.collect());
        let lines = ["102 for \u{ab}Ciento", "dos\u{bb}. Ask once more:", "treinta y dos mil once, hundred"];
        let texts: Vec<Vec<&str>> = quoted(&lines, &vocabulary)
            .iter()
            .zip(lines)
            .map(|(ranges, line)| ranges.iter().map(|range| &line[range.clone()]).collect())
            .collect();
        assert_eq!(texts, [vec!["Ciento"], vec!["dos"], vec!["treinta y dos mil once"]]);
        assert!(quoted(&["y", "", "nothing here"], &vocabulary).iter().all(Vec::is_empty));
    }
}
