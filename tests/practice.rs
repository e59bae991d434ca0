//! The practice page and the page for home: every answer worked out again from the figures alone, words that families can
//! read, and one page each.

use std::collections::BTreeSet;

use crate::support::explained::explained;
use crate::support::packets::{masters, texts};
use crate::support::sentences::{sentences, word_count};
use crate::support::setup::planned;
use placewright::lesson::Lesson;
use placewright::lesson::home::home;
use placewright::lesson::practice::{Exercise, PARTS, exercises};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::{Form, Number};
use placewright::sheets::packets;
use placewright::sheets::page::Page;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::SheetKind;

/// Lessons of all sizes of numbers, with these sheets.
fn lessons() -> Vec<Lesson> {
    let mut all = Vec::new();
    for range in [
        "[0, 9]",
        "[7, 7]",
        "[10, 20]",
        "[0, 120]",
        "[10, 99]",
        "[100, 999]",
        "[1000, 9999]",
        "[10000, 99999]",
        "[100000, 999999]",
    ] {
        for (seed, top, tables) in
            [(1, "", ""), (2, "paper = \"a4\"\n", ""), (3, "paper = \"a4\"\n", "[print]\ntext = \"large\"\n")]
        {
            // Quick checks about longer numbers have no room in large text.
            if !tables.is_empty() && range.len() > 10 {
                continue;
            }
            all.push(planned(&format!(
                "title = \"Harbour stalls\"\nseed = {seed}\n{top}[numbers]\nrange = {range}\n{tables}[sheets]\nmake = [\"strips\", \"exit\", \"key\", \"tally\", \"practice\", \"family\"]\n"
            )));
        }
    }
    all
}

fn pages(lesson: &Lesson, kind: SheetKind) -> Vec<Page> {
    let (layouts, family) = (Layouts::read(&[]).expect("layouts"), bundled(Bundled::Andika).expect("a font"));
    masters(&Desk::new(lesson, &layouts, &family), kind).unwrap_or_else(|problem| panic!("{problem:?}"))
}

/// The digits of a number, the greatest place first, from its figures.
fn digits(number: Number) -> Vec<u32> {
    number.to_string().chars().filter_map(|c| c.to_digit(10)).collect()
}

#[test]
fn every_exercise_has_the_answer_that_its_figures_give() {
    let mut kinds = BTreeSet::new();
    for lesson in lessons() {
        for exercise in exercises(&lesson, &lesson.whole()) {
            kinds.insert(format!("{exercise:?}").split(['(', ' ']).next().unwrap_or_default().to_owned());
            match &exercise {
                Exercise::Worth(of, place) => {
                    let figure = digits(*of)[of.to_string().len() - 1 - place.index()];
                    assert!(
                        figure > 0 && digits(*of).iter().filter(|digit| **digit == figure).count() == 1,
                        "{exercise:?}"
                    );
                }
                Exercise::Places(of) => assert!(of.to_string().contains('0'), "{exercise:?}"),
                Exercise::Trade(of) => {
                    let [(top, left), (next, count)] = Exercise::traded(*of).expect("traded");
                    let rest = of.value() % next.worth();
                    // What is left, what was traded and the rest are the number still.
                    assert_eq!(left * top.worth() + count * next.worth() + rest, of.value(), "{exercise:?}");
                    assert!(left > 0 && count >= 10, "{exercise:?}");
                }
                Exercise::Compare(pairs) => assert!(pairs.iter().all(|(one, other)| one != other), "{exercise:?}"),
                Exercise::Order(numbers) => {
                    assert!(!numbers.is_sorted(), "{exercise:?}");
                    assert_eq!(numbers.iter().collect::<BTreeSet<_>>().len(), numbers.len());
                }
                Exercise::Line { from, step, at } => {
                    let mark = (at.value() - from) / step;
                    assert_eq!(from + mark * step, at.value());
                    assert!((1..PARTS).contains(&mark) && mark != PARTS / 2, "{exercise:?}");
                }
                Exercise::Odd { of, shown, odd, made: (task, slip) } => {
                    let forms = [Form::Numeral, Form::Words, Form::Expanded, Form::Units];
                    let right: Vec<_> = forms.iter().filter_map(|form| form.content(*of, &lesson.style)).collect();
                    for (k, content) in shown.iter().enumerate() {
                        assert_eq!(right.contains(content), k != *odd, "{exercise:?}");
                    }
                    assert_eq!(explained(*task, *of, &shown[*odd], &lesson.style), Some(*slip));
                    assert!(lesson.letter(*slip).is_some(), "{exercise:?}");
                }
            }
        }
    }
    assert_eq!(kinds.len(), 7, "{kinds:?}");
}

#[test]
fn practice_numbers_are_fresh_where_there_are_enough() {
    let lesson = planned(
        "title = \"Harbour stalls\"\n[numbers]\nrange = [100, 999]\n[sheets]\nmake = [\"board\", \"practice\"]\n",
    );
    let met: BTreeSet<Number> = lesson.chosen.sort.iter().flatten().chain(&lesson.chosen.model).copied().collect();
    for exercise in exercises(&lesson, &lesson.whole()) {
        let own = match exercise {
            Exercise::Worth(of, _) | Exercise::Places(of) | Exercise::Trade(of) | Exercise::Odd { of, .. } => vec![of],
            Exercise::Order(numbers) => numbers,
            Exercise::Compare(_) | Exercise::Line { .. } => Vec::new(),
        };
        assert!(own.iter().all(|number| !met.contains(number)), "{own:?}");
    }
}

#[test]
fn practice_is_a_page_and_its_key_answers_all_of_it() {
    for lesson in lessons() {
        let pages = pages(&lesson, SheetKind::Practice);
        let large = lesson.spec.print.text.value == placewright::spec::TextSize::Large;
        assert!(pages.len() <= if large { 2 } else { 1 }, "{:?}: {} pages", lesson.spec.numbers.range, pages.len());
        let all = texts(&pages);
        for text in &all {
            assert!(sentences(text).all(|sentence| word_count(sentence) <= 14), "{text}");
        }
        let key = texts(&self::pages(&lesson, SheetKind::Key)).join(" ");
        for exercise in exercises(&lesson, &lesson.whole()) {
            let answer = match exercise {
                Exercise::Places(of) | Exercise::Line { at: of, .. } => lesson.style.numeral(of),
                Exercise::Trade(of) => Exercise::traded(of).expect("traded")[1].1.to_string(),
                Exercise::Order(mut numbers) => {
                    numbers.sort_unstable();
                    lesson.style.numeral(numbers[0])
                }
                _ => continue,
            };
            assert!(key.contains(&answer), "{answer}: {key}");
        }
    }
}

/// The syllables of a word: groups of vowels, without a silent e at the end.
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase();
    let is_vowel = |c: char| "aeiouy".contains(c);
    let mut count = 0;
    let mut before = false;
    for c in word.chars() {
        count += usize::from(is_vowel(c) && !before);
        before = is_vowel(c);
    }
    let silent = word.ends_with('e') && !word.ends_with("le") && count > 1;
    (count - usize::from(silent)).max(1)
}

/// The grade that a text needs by the formula of Flesch and Kincaid (Kincaid, Fishburne, Rogers and Chissom 1975, "Derivation of new readability
/// formulas"; the coefficients are from memory): 0.39 words a sentence + 11.8 syllables a word - 15.59. A numeral is one word, as many
/// syllables as its name has.
fn grade(lesson: &Lesson, sentences: &[String]) -> f64 {
    let (mut words, mut sounds) = (0, 0);
    for sentence in sentences {
        for word in sentence.split_whitespace() {
            let figures: String = word.chars().filter(char::is_ascii_digit).collect();
            let letters: String = word.chars().filter(|c| c.is_alphabetic()).collect();
            if let Some(number) = figures.parse().ok().and_then(Number::new) {
                words += 1;
                sounds += lesson.style.words(number).split([' ', '-']).map(syllables).sum::<usize>();
            } else if !letters.is_empty() {
                words += 1;
                sounds += syllables(&letters);
            }
        }
    }
    let (words, sounds, count) = (words as f64, sounds as f64, sentences.len() as f64);
    0.39 * words / count + 11.8 * sounds / words - 15.59
}

#[test]
fn syllables_are_counted_as_they_are_said() {
    for (word, count) in
        [("place", 1), ("digit", 2), ("family", 3), ("little", 2), ("seven", 2), ("beans", 1), ("the", 1)]
    {
        assert_eq!(syllables(word), count, "{word}");
    }
}

#[test]
fn the_page_for_home_reads_like_grade_six_or_lower() {
    for lesson in lessons() {
        let (wording, usage) = (lesson.wording(), lesson.usage());
        let home = home(&lesson, &lesson.whole()).expect("numbers");
        let mut said = vec![wording.home_note(&lesson.can()), wording.home_caution().to_owned()];
        said.extend(wording.home_learned(home.number, home.place, home.zero, &usage));
        said.extend(wording.home_tries(
            home.number,
            lesson.spec.numbers.range.value.1,
            lesson.teaches_trading(),
            &usage,
        ));
        let sentences: Vec<String> = said.iter().flat_map(|text| sentences(text).map(str::to_owned)).collect();
        let grade = grade(&lesson, &sentences);
        assert!(grade <= 6.0, "{:?}: grade {grade:.1}: {sentences:?}", lesson.spec.numbers.range.value);
    }
}

#[test]
fn the_page_for_home_is_one_page_with_questions_that_have_answers() {
    for lesson in lessons() {
        let pages = pages(&lesson, SheetKind::Family);
        assert_eq!(pages.len(), 1, "{:?}", lesson.spec.numbers.range);
        let said = texts(&pages).join(" ");
        let home = home(&lesson, &lesson.whole()).expect("numbers");
        if let Some((number, place)) = home.worth {
            let figure = digits(number)[number.to_string().len() - 1 - place.index()];
            let worth = Number::new(figure * 10_u32.pow(place.index() as u32)).expect("a worth");
            assert!(said.contains(&format!("Answers: {}", lesson.style.numeral(worth))), "{said}");
        }
        if let Some((one, other)) = home.greater {
            assert!(said.contains(&lesson.style.numeral(one.max(other))), "{said}");
        }
        assert!(lesson.spec.numbers.range.value.1.value() < 10 || home.worth.is_some());
    }
}

/// Of groups with smaller and larger numbers each family is told of the blocks that its own child has.
#[test]
fn the_page_for_home_names_the_blocks_of_its_own_group() {
    let lesson = planned(
        "title = \"Harbour stalls\"\nseed = 4\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 12\n\
         [[group]]\nname = \"Gulls\"\nlearners = 4\nrange = [1000, 4999]\n\
         [[group]]\nname = \"Terns\"\nlearners = 4\nrange = [20, 99]\n[sheets]\nmake = [\"board\", \"family\"]\n",
    );
    let mut read = BTreeSet::new();
    for page in pages(&lesson, SheetKind::Family) {
        let said = texts([&page]).join(" ");
        let part = lesson.parts().into_iter().find(|part| part.versions.iter().any(|own| page.version == Some(*own)));
        let greatest = part.expect("a part").numbers.range.value.1;
        for (piece, worth) in [("a thousand-block is", 1_000), ("a flat is", 100), ("a rod is", 10)] {
            assert_eq!(said.contains(piece), greatest.value() >= worth, "{greatest}: {said}");
        }
        read.insert(greatest);
    }
    assert_eq!(read.len(), 3, "{read:?}");
}

#[test]
fn the_plan_sends_home_what_there_is_to_take_home() {
    let made = |sheets: &str| {
        planned(&format!(
            "title = \"Harbour stalls\"\n[numbers]\nrange = [100, 999]\n[sheets]\nmake = [\"board\", {sheets}]\n"
        ))
    };
    let plan = |lesson: &Lesson| {
        let (layouts, family) = (Layouts::read(&[]).expect("layouts"), bundled(Bundled::Andika).expect("a font"));
        let desk = Desk::new(lesson, &layouts, &family);
        let packets = packets::make(&desk, &[]).expect("packets");
        let packet = packets.iter().find(|packet| packet.file() == "substitute.pdf").expect("a packet");
        let pages = (0..packet.len()).map(|k| packet.page(k).expect("a page").into_owned());
        let pages: Vec<Page> = pages.filter(|page| page.sheet == SheetKind::Plan).collect();
        texts(&pages).join(" ")
    };
    let text = plan(&made("\"practice\", \"family\""));
    assert!(text.contains("Each learner takes home the practice page and the page for the family."), "{text}");
    assert!(!plan(&made("\"exit\"")).contains("takes home"));
}
