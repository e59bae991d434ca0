//! Lessons made by hand for the tests of sheets: the numbers are given, everything else is a default that a test changes.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use placewright::lesson::{Chosen, Lesson};
use placewright::measure::{Family, Font, Length};
use placewright::number::{Form, Number, Style};
use placewright::spec::{
    ClassSpec, Cut, DisplayPages, FontChoice, FormNames, FormsSpec, Given, Ink, Joiner, Language, NumbersSpec, Paper,
    PrintSpec, RoleSpec, SheetKind, SheetsSpec, SidesAsked, Spec, TextSize, Thousands,
};
use placewright::wording::English;

/// The number `value`.
pub fn number(value: u32) -> Number {
    Number::new(value).unwrap()
}

/// A lesson on `paper` with these model numbers and sort sets, in which only `sheet` is asked for.
pub fn lesson(sheet: SheetKind, paper: Paper, model: &[u32], sort: &[&[u32]]) -> Lesson {
    let numbers = |values: &[u32]| values.iter().copied().map(number).collect::<Vec<_>>();
    let all = || sort.iter().flat_map(|set| set.iter()).chain(model).copied();
    let range = (number(all().min().unwrap_or(0)), number(all().max().unwrap_or(999)));
    let role = |count: usize| RoleSpec {
        count: Given::assumed(u32::try_from(count).unwrap()),
        always: Vec::new(),
        zeros: BTreeMap::new(),
        repeats: None,
        teens: None,
        same_digits: None,
    };
    let spec = Spec {
        title: Given::assumed("Crates on the quay".to_owned()),
        grade: None,
        minutes: Given::assumed(45),
        paper: Given::assumed(paper),
        seed: Given::assumed(1),
        language: Given::assumed(Language::En),
        second_language: None,
        numbers: NumbersSpec {
            range: Given::assumed(range),
            never: Vec::new(),
            at_most: BTreeMap::new(),
            model: role(model.len()),
            sort: role(sort.first().map_or(0, |set| set.len())),
            exit: role(0),
        },
        forms: FormsSpec {
            matched: Given::assumed(vec![Form::Numeral, Form::Expanded]),
            joiner: Given::assumed(Joiner::None),
            zero_terms: Given::assumed(false),
            thousands: Given::assumed(Thousands::Comma),
            decoys: Given::assumed(0),
            names: FormNames::default(),
        },
        groups: Vec::new(),
        class: ClassSpec {
            learners: Given::assumed(24),
            spares: Given::assumed(2),
            versions: Given::assumed(u32::try_from(sort.len()).unwrap()),
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
            make: Given::read(vec![sheet], 0..1),
            display: Given::assumed(DisplayPages::Whole),
            layouts: None,
        },
    };
    Lesson {
        fullest: spec.clone(),
        spec,
        groups: Vec::new(),
        style: Style::plain(&English),
        chosen: Chosen {
            model: numbers(model),
            sort: sort.iter().map(|set| numbers(set)).collect(),
            exit: Vec::new(),
            why: BTreeMap::new(),
            solutions: BTreeMap::new(),
            notes: Vec::new(),
        },
        sets: Vec::new(),
        checks: Vec::new(),
        slips: Vec::new(),
        roster: Vec::new(),
    }
}

/// Andika, read from `fonts/` once.
pub fn family() -> Family {
    static FAMILY: LazyLock<Family> = LazyLock::new(|| {
        let font = |weight: &str| {
            let file = format!("{}/fonts/andika/Andika-{weight}.ttf", env!("CARGO_MANIFEST_DIR"));
            Font::read(std::fs::read(file).unwrap()).unwrap()
        };
        Family { regular: font("Regular"), bold: font("Bold") }
    });
    FAMILY.clone()
}
