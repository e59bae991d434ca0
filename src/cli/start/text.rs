//! The text of a first lesson file.

use std::fmt::Write;

use crate::cli::answers::Answers;
use crate::spec::{Cut, Paper};

/// Writes the file. `word` is its name as one would type it. Lines that begin with `#: ` are suggestions.
pub fn write(answers: &Answers, word: &str) -> String {
    let Answers { title, range: (least, most), learners, cut, paper, large } = answers;
    let papers = Paper::ALL.map(Paper::word).join(" | ");
    let mut text = String::new();
    let _ = write!(
        text,
        "# A lesson for Placewright. Change it, save it, and see what will come out:\n\
         #     placewright check {word}\n\
         # Lines that begin with #: are suggestions. Take the #: away to use one.\n\n\
         title = {}\n\
         #: grade = \"2\"                     # printed on the plan\n\
         #: minutes = 45                    # the plan's times add up to this\n\
         paper = \"{}\"                  # {papers}\n\
         #: seed = 2                        # another seed, other numbers\n\n\
         [numbers]\n\
         range = [{least}, {most}]              # the smallest and the largest number\n\n\
         [numbers.model]                     # built with the whole class\n\
         #: count = 3\n\
         {}\n\
         [numbers.sort]                      # matched on the sorting board\n\
         #: count = 6\n\
         {}\n\
         [numbers.exit]                      # the quick check at the end\n\
         #: count = 4\n\n",
        quoted(title),
        paper.word(),
        zeros(*most, 1),
        digits(*least, *most),
    );
    let _ = write!(
        text,
        "[class]\n\
         learners = {learners}\n\
         #: spares = 2                      # extra sets, for pieces that get lost\n\
         #: versions = 2                    # different but equally hard sets for neighbours\n\
         #: roster = \"names.csv\"            # a table saved as CSV, with a column called name\n\n\
         [print]\n\
         cut = \"{}\"                    # {}\n\
         text = \"{}\"                   # standard | large\n\
         #: ink = \"colour\"                 # grey | colour\n\
         #: sides = \"two\"                  # one | two: backs carry a self-check mark\n",
        cut.word(),
        match cut {
            Cut::Scissors => "learners cut their own page; stack: the copy room cuts piles",
            Cut::Stack => "the copy room cuts piles; scissors: learners cut their own page",
        },
        if *large { "large" } else { "standard" },
    );
    text
}

/// Zeros that hold a place, where the numbers are large enough to show one.
fn zeros(most: u32, count: u32) -> String {
    match most {
        0..20 => String::new(),
        20..200 => format!("#: zeros = {{ ones = {count} }}             # at least one that ends in 0\n"),
        _ => format!("#: zeros = {{ tens = {count} }}             # at least one with a 0 that holds the tens place\n"),
    }
}

/// The same digits in different places, where there are such numbers.
fn digits(least: u32, most: u32) -> String {
    if most < 99 || least > most - most / 2 {
        return String::new();
    }
    "#: same_digits = 2                 # at least two made of the same digits, such as 27 and 72\n".to_owned()
}

/// A text as a TOML string.
fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::diag::Source;
    use crate::spec::{self, Spec, TextSize};

    #[track_caller]
    fn read(text: &str) -> Spec {
        let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.to_owned() });
        spec::read(&source).unwrap_or_else(|found| panic!("{found:#?}\n{text}"))
    }

    #[test]
    fn what_was_answered_is_read_back() {
        let title = "Otis's \"best\" \\ stall".to_owned();
        let (cut, paper) = (Cut::Stack, Paper::A4);
        let answers = Answers { title, range: (10, 99), learners: 7, cut, paper, large: true };
        let spec = read(&write(&answers, "x.toml"));
        assert_eq!(spec.title.value, answers.title);
        assert_eq!(spec.class.learners.value, 7);
        assert_eq!((spec.print.cut.value, spec.paper.value), (cut, paper));
        assert_eq!(spec.print.text.value, TextSize::Large);
        assert_eq!(spec.numbers.range.value.1.value(), 99);
    }

    #[test]
    fn every_suggestion_can_be_taken() {
        for range in [(0, 9), (0, 20), (10, 99), (100, 999), (1_000, 9_999), (10_000, 999_999), (500, 510)] {
            let text = write(&Answers { range, ..Answers::default() }, "x.toml");
            assert!(text.matches("#: ").count() > 8, "{text}");
            let spec = read(&text.replace("#: ", ""));
            let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.replace("#: ", "") });
            let chosen = crate::lesson::choose::choose(&spec, &source);
            assert!(chosen.is_ok(), "{range:?}: {chosen:#?}");
        }
    }
}
