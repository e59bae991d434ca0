//! Lessons with numbers of the test's own choice, made without a lesson file and without the chooser.

use std::collections::BTreeMap;
use std::sync::Arc;

use placewright::diag::{Diagnostic, Source};
use placewright::lesson::{self, Chosen, Lesson};
use placewright::measure::Length;
use placewright::number::{Form, Number};
use placewright::spec::{
    ClassSpec, Cut, DisplayPages, FontChoice, FormNames, FormsSpec, Given, Ink, Joiner, Language, NumbersSpec, Paper,
    PrintSpec, RoleSpec, SheetKind, SheetsSpec, SidesAsked, Spec, TextSize, Thousands,
};

pub fn number(value: u32) -> Number {
    Number::new(value).expect("a number up to 999,999")
}

/// A lesson file's worth of defaults for these numbers.
pub fn spec(minutes: u32, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Spec {
    let role = |count: usize| RoleSpec {
        count: Given::assumed(u32::try_from(count).expect("few")),
        always: Vec::new(),
        zeros: BTreeMap::new(),
        repeats: None,
        teens: None,
        same_digits: None,
    };
    let all = || model.iter().chain(sort.iter().copied().flatten()).chain(exit).copied();
    let (least, most) = (all().min().unwrap_or(0), all().max().unwrap_or(999));
    let pictures = most <= 9_999;
    let mut matched = vec![Form::Numeral, Form::Words, Form::Expanded];
    matched.push(if pictures { Form::Blocks } else { Form::Units });
    Spec {
        title: Given::assumed("Harbour stalls".to_owned()),
        grade: Some(Given::assumed("2".to_owned())),
        minutes: Given::read(minutes, 0..1),
        paper: Given::assumed(Paper::Letter),
        seed: Given::assumed(1),
        language: Given::assumed(Language::En),
        second_language: None,
        numbers: NumbersSpec {
            range: Given::assumed((number(least), number(most))),
            never: Vec::new(),
            at_most: BTreeMap::new(),
            model: role(model.len()),
            sort: role(sort.first().map_or(0, |rows| rows.len())),
            exit: role(exit.len()),
        },
        forms: FormsSpec {
            matched: Given::assumed(matched),
            joiner: Given::assumed(Joiner::None),
            zero_terms: Given::assumed(false),
            thousands: Given::assumed(Thousands::Comma),
            decoys: Given::assumed(4),
            names: FormNames::default(),
        },
        groups: Vec::new(),
        class: ClassSpec {
            learners: Given::assumed(24),
            spares: Given::assumed(2),
            versions: Given::assumed(u32::try_from(sort.len().max(1)).expect("few")),
            roster: None,
            share: BTreeMap::new(),
        },
        print: PrintSpec {
            cut: Given::assumed(Cut::Scissors),
            sides: Given::assumed(SidesAsked::One),
            ink: Given::assumed(Ink::Grey),
            text: Given::assumed(TextSize::Standard),
            margin: Given::assumed(Length::mm100(635)),
            font: Given::assumed(FontChoice::Andika),
            slip_sheets: Given::assumed(false),
        },
        sheets: SheetsSpec {
            layouts: None,
            display: Given::assumed(DisplayPages::Whole),
            make: Given::assumed(SheetKind::ALL.into_iter().filter(|kind| kind.is_asked_for()).collect()),
        },
    }
}

/// The lesson of a spec with these numbers.
pub fn lesson(spec: Spec, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Result<Lesson, Vec<Diagnostic>> {
    let numbers = |values: &[u32]| values.iter().map(|value| number(*value)).collect();
    let chosen = Chosen {
        model: numbers(model),
        sort: sort.iter().map(|rows| numbers(rows)).collect(),
        exit: numbers(exit),
        why: BTreeMap::new(),
        solutions: BTreeMap::new(),
        notes: Vec::new(),
    };
    let source = Arc::new(Source { name: "test.toml".to_owned(), text: "minutes".to_owned() });
    lesson::with_numbers(&source, spec, chosen, Vec::new())
}

/// The lesson of these numbers with every default.
#[allow(dead_code, reason = "each test takes what it needs")]
pub fn plain(minutes: u32, model: &[u32], sort: &[&[u32]], exit: &[u32]) -> Lesson {
    lesson(spec(minutes, model, sort, exit), model, sort, exit).expect("a lesson")
}

/// The lesson of a lesson file's text.
#[allow(dead_code, reason = "each test takes what it needs")]
#[track_caller]
pub fn planned(text: &str) -> Lesson {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() });
    let spec = placewright::spec::read(&source).unwrap_or_else(|found| panic!("{text}: {found:?}"));
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{text}: {found:?}"))
}
