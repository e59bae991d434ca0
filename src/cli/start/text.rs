//! The text of a first lesson file.

use crate::cli::answers::Answers;
use crate::spec::TextSize;
use crate::spec::keys::{KeyRow, Keyed, Shape, list};

/// Writes the file. `word` is its name as one would type it. Lines that begin with `#: ` are suggestions.
pub fn write(answers: &Answers, word: &str) -> String {
    let Answers { title, language, second_language, range: (least, most), learners, cut, paper, large } = answers;
    let text = if *large { TextSize::Large } else { TextSize::Standard };
    let quoted = |text: &str| toml::Value::from(text).to_string();
    let mut file = format!(
        "# A lesson for Placewright. Change it, save it, and see what will come out:\n\
         #     placewright check {word}\n\
         # Lines that begin with #: are suggestions. Take the #: away to use one. All keys: placewright keys\n\n"
    );
    let mut add = |text: String| file.push_str(&text);
    add(format!("{} = {}\n", list::TITLE.name, quoted(title)));
    add(suggestion(&list::GRADE));
    add(suggestion(&list::MINUTES));
    add(line("", &list::PAPER, &quoted(paper.word())));
    add(line("", &list::LANGUAGE, &quoted(language.word())));
    let another = language.others().next().unwrap_or(*language);
    let mark = if second_language.is_some() { "" } else { "#: " };
    add(line(mark, &list::SECOND_LANGUAGE, &quoted(second_language.unwrap_or(another).word())));
    add(suggestion(&list::SEED));
    add("\n[numbers]\n".to_owned());
    add(line("", &list::RANGE, &format!("[{least}, {most}]")));
    add(heading("numbers.model", "built with the whole class"));
    add(line("#: ", &list::COUNT, "3"));
    add(zeros(*most));
    add(heading("numbers.sort", "matched on the sorting board"));
    add(suggestion(&list::COUNT));
    add(digits(*least, *most));
    add(heading("numbers.exit", "the quick check at the end"));
    add(line("#: ", &list::COUNT, "4"));
    add("\n[class]\n".to_owned());
    add(line("", &list::LEARNERS, &learners.to_string()));
    for row in [list::SPARES.row(), list::VERSIONS.row(), list::ROSTER.row()] {
        add(drawn("#: ", &row, row.example));
    }
    add("\n[print]\n".to_owned());
    add(line("", &list::CUT, &quoted(cut.word())));
    add(line("", &list::TEXT, &quoted(text.word())));
    add(suggestion(&list::INK));
    add(suggestion(&list::SIDES));
    file
}

/// A table's header with what it is for.
fn heading(table: &str, says: &str) -> String {
    let header = format!("[{table}]");
    format!("\n{header:COLUMN$}# {says}\n")
}

/// A key with the example of the reference, as a suggestion.
fn suggestion(key: &impl Keyed) -> String {
    line("#: ", key, key.key().example)
}

/// A key with a value and what the reference says of it.
fn line(mark: &str, key: &impl Keyed, value: &str) -> String {
    drawn(mark, &key.row(), value)
}

/// The column in which comments begin.
const COLUMN: usize = 36;

fn drawn(mark: &str, row: &KeyRow, value: &str) -> String {
    let says = match &row.shape {
        // The words themselves, unless the text tells them apart.
        Shape::Word(words) if !words.iter().any(|word| row.says.contains(&format!("{word}:"))) => words.join(" | "),
        _ => row.says.to_owned(),
    };
    format!("{:COLUMN$}# {says}\n", format!("{mark}{} = {value}", row.name))
}

/// Zeros that hold a place, where the numbers are large enough to show one.
fn zeros(most: u32) -> String {
    match most {
        0..20 => String::new(),
        20..200 => line("#: ", &list::ZEROS, "{ ones = 1 }"),
        _ => line("#: ", &list::ZEROS, "{ tens = 1 }"),
    }
}

/// The same digits in different places, where there are such numbers.
fn digits(least: u32, most: u32) -> String {
    if most < 99 || least > most - most / 2 { String::new() } else { suggestion(&list::SAME_DIGITS) }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::diag::Source;
    use crate::spec::{self, Cut, Language, Paper, Spec, TextSize};

    #[track_caller]
    fn read(text: &str) -> Spec {
        let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.to_owned() });
        spec::read(&source).unwrap_or_else(|found| panic!("{found:#?}\n{text}"))
    }

    #[test]
    fn what_was_answered_is_read_back() {
        let title = "Otis's \"best\" \\ stall".to_owned();
        let (cut, paper) = (Cut::Stack, Paper::A4);
        let (language, second_language) = (Language::Es, Some(Language::En));
        let range = (10, 99);
        let answers = Answers { title, language, second_language, range, learners: 7, cut, paper, large: true };
        let spec = read(&write(&answers, "x.toml"));
        assert_eq!(spec.title.value, answers.title);
        assert_eq!(spec.language.value, Language::Es);
        assert_eq!(spec.second_language.map(|second| second.value), Some(Language::En));
        assert_eq!(spec.class.learners.value, 7);
        assert_eq!((spec.print.cut.value, spec.paper.value), (cut, paper));
        assert_eq!(spec.print.text.value, TextSize::Large);
        assert_eq!(spec.numbers.range.value.1.value(), 99);
    }

    #[test]
    fn every_suggestion_can_be_taken() {
        for range in [(0, 9), (0, 20), (10, 99), (100, 999), (1_000, 9_999), (10_000, 999_999), (500, 510)] {
            let language = if range.0 == 0 { Language::Es } else { Language::En };
            let text = write(&Answers { language, range, ..Answers::default() }, "x.toml");
            assert!(text.matches("#: ").count() > 8, "{text}");
            let spec = read(&text.replace("#: ", ""));
            let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.replace("#: ", "") });
            let chosen = crate::lesson::choose::choose(&spec, &source);
            assert!(chosen.is_ok(), "{range:?}: {chosen:#?}");
        }
    }
}
