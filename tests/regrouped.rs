//! Traded forms: over hundreds of lessons each strip has one home, told by its value as this test reads it.

use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::{self, Lesson};
use placewright::number::{Content, Form};
use placewright::rng::Stream;
use placewright::spec;

/// What a strip is worth, read by itself: counts with the names of their places, sums, numerals, blocks. `None` for words.
fn value(form: Form, content: &Content) -> Option<u64> {
    let text = match content {
        Content::Blocks([thousands, flats, rods, cubes]) => {
            return Some(u64::from(thousands * 1_000 + flats * 100 + rods * 10 + cubes));
        }
        Content::Text(text) => text.replace(',', ""),
        Content::Both(_) => return None,
    };
    match form {
        Form::Words | Form::SecondWords | Form::Blocks | Form::Untraded => None,
        Form::Numeral => text.parse().ok(),
        Form::Expanded => text.split(" + ").map(|term| term.parse::<u64>().ok()).sum(),
        Form::Units | Form::Regrouped => {
            let words: Vec<&str> = text.split(' ').collect();
            let pairs = words.chunks(2).map(|pair| {
                let worth = match pair[1].trim_end_matches('s') {
                    "one" => 1,
                    "ten" => 10,
                    "hundred" => 100,
                    "thousand" => 1_000,
                    other => panic!("{other} in {text}"),
                };
                Some(pair[0].parse::<u64>().ok()? * worth)
            });
            pairs.sum()
        }
    }
}

/// A lesson file at random in which some form is traded.
fn file(stream: &mut Stream) -> String {
    let (least, most) = [(10, 99), (100, 999), (10, 999), (1_000, 9_999), (100, 300)][stream.index(5)];
    let mut forms = vec!["numeral", "words", "expanded", "units", "regrouped", "blocks", "untraded"];
    stream.shuffle(&mut forms);
    forms.truncate(2 + stream.index(4));
    if !forms.contains(&"regrouped") && !forms.contains(&"untraded") {
        forms[0] = ["regrouped", "untraded"][stream.index(2)];
    }
    let (seed, count, versions) = (stream.below(1 << 40), 3 + stream.index(6), 1 + stream.index(2));
    format!(
        "title = \"Orchard\"\nseed = {seed}\n[numbers]\nrange = [{least}, {most}]\nmodel = {{ count = 1 }}\n\
         sort = {{ count = {count} }}\nexit = {{ count = 2 }}\n[forms]\nmatch = {forms:?}\n[class]\nversions = {versions}"
    )
}

fn planned(text: String) -> Lesson {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{}: {found:?}", source.text));
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{}: {found:?}", source.text))
}

#[test]
fn each_strip_has_one_home_by_its_value_in_200_lessons() {
    let mut stream = Stream::new(21, "traded lessons");
    let (mut traded, mut decoys) = (0, 0);
    for _ in 0..200 {
        let text = file(&mut stream);
        let lesson = planned(text.clone());
        for set in &lesson.sets {
            let mut homes = Vec::new();
            for strip in &set.strips {
                let worth = value(strip.form, &strip.content);
                let rows = (0..set.rows.len()).filter(|&row| match worth {
                    Some(worth) => worth == u64::from(set.rows[row].value()),
                    None => strip.content == Content::Text(lesson.style.words(set.rows[row])),
                });
                let rows: Vec<usize> = rows.collect();
                assert_eq!(rows, Vec::from_iter(strip.row), "{text}\n{strip:?}");
                homes.extend(strip.row.map(|row| (row, strip.form)));
                traded += usize::from(strip.form.is_traded());
                decoys += usize::from(strip.row.is_none() && strip.form.is_traded());
            }
            homes.sort_unstable();
            homes.dedup();
            assert_eq!(homes.len(), set.rows.len() * set.forms.len(), "{text}");
        }
    }
    assert!(traded > 1_200 && decoys > 120, "{traded} traded strips, {decoys} decoys among them");
}

#[test]
fn checks_ask_which_is_the_same_and_one_choice_is() {
    let text = "title = \"Orchard\"\n[numbers]\nrange = [100, 499]\nexit = { count = 6 }\n\
                [forms]\nmatch = [\"numeral\", \"regrouped\", \"untraded\"]";
    let lesson = planned(text.to_owned());
    let mut asked = 0;
    for question in lesson.checks.iter().flat_map(|check| &check.questions) {
        let numeral = question.of.to_string();
        if question.sentence == format!("Which is the same as {numeral}?") {
            let worth = |content| value(Form::Regrouped, content);
            let right: Vec<_> = question.choices.iter().filter(|c| worth(&c.content) == numeral.parse().ok()).collect();
            assert!(matches!(right.as_slice(), [only] if only.slip.is_none()), "{question:?}");
            asked += 1;
        }
    }
    assert_eq!(asked, lesson.checks.len(), "one on each check");
}
