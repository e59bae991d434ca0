//! Lessons that say no more than a range: what is assumed always holds, spoils nothing, and is asked about.

use std::collections::BTreeSet;
use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::choose::choose;
use placewright::lesson::{self, Chosen, Lesson};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::{Feature, Number, Place};
use placewright::sheets::packets;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::{self, RoleSpec, Spec};

fn read(range: (u32, u32), more: &str) -> (Arc<Source>, Spec) {
    let text = format!("title = \"Post cards\"\n[numbers]\nrange = [{}, {}]\n{more}", range.0, range.1);
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{range:?} {more}: {found:?}"));
    (source, spec)
}

fn chosen(source: &Arc<Source>, spec: &Spec) -> Chosen {
    choose(spec, source).unwrap_or_else(|found| panic!("{}: {found:?}", source.text))
}

fn plan(range: (u32, u32), more: &str) -> Lesson {
    let (source, spec) = read(range, more);
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{range:?} {more}: {found:?}"))
}

/// The spec without what is assumed of its numbers.
fn unasked(spec: &Spec) -> Spec {
    let mut spec = spec.clone();
    for role in [&mut spec.numbers.model, &mut spec.numbers.sort, &mut spec.numbers.exit] {
        *role = RoleSpec {
            count: role.count,
            always: Vec::new(),
            always_in: Default::default(),
            zeros: Default::default(),
            repeats: None,
            teens: None,
            same_digits: None,
        };
    }
    spec
}

/// Every range up to 22, and ranges about all powers of ten, wide and narrow.
fn ranges() -> Vec<(u32, u32)> {
    let mut ranges: Vec<(u32, u32)> = (0..=22).flat_map(|low| (low..=32).map(move |high| (low, high))).collect();
    for power in [100, 1_000, 10_000, 100_000, 999_999] {
        for below in [0, 1, 7, 20, 90] {
            for wide in [0, 1, 9, 30, 150] {
                let low: u32 = power - below;
                ranges.push((low, (low + wide).min(999_999)));
            }
        }
    }
    ranges.extend([(0, 99), (10, 99), (0, 120), (100, 999), (0, 999), (0, 1_000), (1_000, 9_999), (0, 9_999)]);
    ranges.extend([(110, 119), (111, 199), (500, 999), (10_000, 99_999), (100_000, 999_999), (0, 999_999)]);
    ranges.extend([(999_990, 999_999), (7, 7), (999_999, 999_999)]);
    ranges
}

#[test]
fn what_is_assumed_of_a_range_can_always_be_kept() {
    for range in ranges() {
        let versions = if range.1 - range.0 < 1_000 { 2..4 } else { 3..4 };
        for versions in versions {
            let more = &format!("[class]\nversions = {}", versions % 3 + 1);
            let (source, spec) = read(range, more);
            let (asked, plain) = (chosen(&source, &spec), chosen(&source, &unasked(&spec)));
            // Nor does it make any number come twice.
            assert_eq!(asked.notes.is_empty(), plain.notes.is_empty(), "{range:?} {more}: {:?}", asked.notes);
        }
    }
}

#[test]
fn what_leaves_a_range_few_numbers_is_no_hindrance() {
    for more in ["never = [100, 101, 102, 103]", "at_most = { tens = 1 }", "at_most = { ones = 0, tens = 3 }"] {
        for range in [(95, 130), (100, 999), (1_000, 1_100), (7, 107)] {
            let (source, spec) = read(range, more);
            chosen(&source, &spec);
        }
    }
}

#[test]
fn a_range_alone_gives_what_a_teacher_picks_numbers_for() {
    for (range, zero) in
        [((10, 99), Place::Ones), ((0, 120), Place::Tens), ((100, 999), Place::Tens), ((1_000, 9_999), Place::Hundreds)]
    {
        let (source, spec) = read(range, "");
        let chosen = chosen(&source, &spec);
        for set in chosen.sort.iter().chain([&chosen.model, &chosen.exit]) {
            for feature in [Feature::Zero(zero), Feature::Teen] {
                assert!(set.iter().any(|number| feature.is_in(*number)), "{range:?}: {feature:?} in {set:?}");
            }
        }
        assert!(chosen.sort[0].iter().any(|number| Feature::Repeat.is_in(*number)), "{range:?}");
        let sorted = |number: &Number| {
            let mut digits: Vec<char> = number.to_string().chars().collect();
            digits.sort_unstable();
            digits
        };
        let kinds: BTreeSet<_> = chosen.sort[0].iter().map(sorted).collect();
        assert!(kinds.len() < chosen.sort[0].len(), "{range:?}: {:?}", chosen.sort);
    }
}

#[test]
fn a_request_of_ones_own_stands_alone() {
    let (_, spec) = read((100, 999), "sort.teens = 2");
    assert!(spec.numbers.model.features().next().is_none() && spec.numbers.exit.features().next().is_none());
    assert_eq!(spec.numbers.sort.features().count(), 1);
    assert!(spec.numbers.sort.same_digits.is_none());
}

#[test]
fn lessons_of_different_titles_differ() {
    let titled = |title: &str| {
        let text = format!("title = \"{title}\"\n[numbers]\nrange = [100, 999]\n");
        let source = Arc::new(Source { name: "lesson.toml".to_owned(), text });
        let spec = spec::read(&source).expect("a lesson");
        (spec.seed.value, chosen(&source, &spec).sort)
    };
    let (first, numbers) = titled("Post cards");
    assert_eq!(titled("Post cards"), (first, numbers.clone()));
    let (second, others) = titled("Post codes");
    assert!(first != second && numbers != others);
}

#[test]
fn a_range_alone_is_laid_out_whatever_its_numbers() {
    let (layouts, family) = (Layouts::read(&[]).expect("layouts"), bundled(Bundled::Andika).expect("a font"));
    for range in [(0, 9), (7, 7), (10, 99), (0, 120), (100, 999), (1_000, 9_999), (9_000, 9_999), (100_000, 999_999)] {
        for seed in 1..=4 {
            let text = format!("title = \"Post\"\nseed = {seed}\n[numbers]\nrange = [{}, {}]\n", range.0, range.1);
            let source = Arc::new(Source { name: "lesson.toml".to_owned(), text });
            let spec = spec::read(&source).expect("a lesson");
            let lesson = lesson::plan(&source, spec, Vec::new()).expect("a plan");
            let desk = Desk::new(&lesson, &layouts, &family);
            if let Err(wrong) = packets::make(&desk, &[]) {
                panic!("{range:?} {seed}: {wrong:?}");
            }
        }
    }
}

#[test]
fn each_exit_number_is_asked_on_its_check() {
    let lessons = [
        ((0, 20), "[numbers.exit]\ncount = 3\n"),
        ((0, 20), "[numbers.exit]\ncount = 9\n[forms]\nmatch = [\"numeral\", \"blocks\", \"words\"]"),
        ((0, 9), ""),
        ((7, 7), ""),
        ((10, 19), ""),
        ((0, 120), ""),
        ((10, 99), ""),
        ((100, 999), ""),
        ((100, 999), "[print]\ntext = \"large\""),
        ((100, 999), "[forms]\nmatch = [\"numeral\", \"expanded\"]"),
        ((1_000, 9_999), ""),
        ((0, 999_999), ""),
    ];
    for (range, more) in lessons {
        for seed in 1..=6 {
            let text =
                format!("title = \"Post cards\"\nseed = {seed}\n[numbers]\nrange = [{}, {}]\n{more}", range.0, range.1);
            let source = Arc::new(Source { name: "lesson.toml".to_owned(), text });
            let spec = spec::read(&source).unwrap_or_else(|found| panic!("{range:?} {more}: {found:?}"));
            let lesson = lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{range:?}: {found:?}"));
            for (at, number) in lesson.chosen.exit.iter().enumerate() {
                assert!(
                    lesson.checks[at].numbers().contains(number),
                    "{range:?} {more} {seed}: {number} in {:?}",
                    lesson.checks[at]
                );
            }
        }
    }
}

#[test]
fn a_range_with_too_little_to_ask_about_says_so() {
    let lesson = plan((0, 20), "[numbers.exit]\nalways = [7]\n");
    let notes = &lesson.chosen.notes;
    assert!(notes.iter().any(|note| note.contains("quick check") && note.contains('7')), "{notes:?}");
}
