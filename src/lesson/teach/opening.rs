//! The opening: the first number is read together, and the idea of the day is said.

use super::script::Script;
use crate::lesson::timing::StripUse;
use crate::lesson::{Lesson, timing};
use crate::number::{Form, Number, Place};
use crate::spec::{SheetKind, Version};
use crate::wording::plan::{Aim, Asked, Deed, Laid, Said, Standard};

/// What the class will be able to do.
pub(super) fn aims(lesson: &Lesson) -> Vec<Aim> {
    let mut aims = vec![lesson.aim()];
    let load = lesson.load();
    if load.rows > 0 && load.strips == StripUse::Written {
        aims.push(Aim::Write);
    } else if load.rows > 0 {
        aims.push(Aim::Match(lesson.matched()));
    } else if lesson.spec.numbers.model.count.value > 0 {
        aims.push(Aim::Build);
    }
    if let Some(second) = lesson.second() {
        let apart = lesson.sets.iter().any(|set| set.forms.contains(&Form::SecondWords));
        aims.push(Aim::TwoLanguages(second, apart));
    }
    aims
}

pub(super) fn write(script: &mut Script<'_>) -> Vec<Laid> {
    let first = script.model().first().or_else(|| script.sort().first()).copied();
    let shows = script.has(SheetKind::Display) && !script.model().is_empty();
    let table = vec![if shows { Laid::Display } else { Laid::Nothing }];
    let Some(number) = first else {
        script.say(Said::DigitsIdea);
        script.ask(Asked::TenDigits);
        return table;
    };
    script.first_on_board(number);
    script.ask(Asked::Read(number));
    script.act(joined(number));
    if script.minutes > 1 {
        script.ask(Asked::Digits(number));
        if number.shows(Place::TenThousands) {
            script.ask(Asked::Thousands(number));
        } else if let Some(place) = telling_place(number, 0) {
            script.ask(Asked::Worth(number, place));
        }
    }
    script.say(idea(script, number));
    table
}

/// The sentence of the day.
fn idea(script: &Script<'_>, number: Number) -> Said {
    if timing::skill(&script.lesson.spec) == Standard::Periods && number.shows(Place::TenThousands) {
        Said::PeriodIdea
    } else if script.lesson.teaches_trading() {
        Said::TradeIdea { hundreds: number.shows(Place::Hundreds) }
    } else if twins(script.model(), None).is_some() || twins(script.sort(), None).is_some() {
        Said::SameDigitIdea
    } else if number.len() > 1 {
        Said::PlaceIdea
    } else {
        Said::WaysIdea
    }
}

/// How the number on the board is said: words only differ where something under a hundred follows a hundred or a thousand.
fn joined(number: Number) -> Deed {
    let joins = number.value() > 100 && !number.value().is_multiple_of(100);
    if joins { Deed::SayJoined(number) } else { Deed::ReadTogether }
}

/// A place whose digit is not 0, the greatest such place first; turned by `turn`, so that one number after another is
/// asked about different places. Nothing for a single digit.
pub(in crate::lesson) fn telling_place(number: Number, turn: usize) -> Option<Place> {
    if number.len() < 2 {
        return None;
    }
    let places: Vec<Place> = number.parts().map(|(place, _)| place).collect();
    places.get(turn % places.len().max(1)).copied()
}

/// A digit that stands in two numbers in different places: the first such pair; each number has the digit only once.
/// `of` is the letter of the set that has the numbers, where others have other numbers.
pub(super) fn twins(numbers: &[Number], of: Option<Version>) -> Option<Asked> {
    let single = |number: Number, digit: u8| {
        let mut places = number.digits().filter(|(_, d)| *d == digit).map(|(place, _)| place);
        let (place, None) = (places.next()?, places.next()) else { return None };
        Some(place)
    };
    numbers.iter().enumerate().find_map(|(k, &a)| {
        numbers[k + 1..].iter().find_map(|&b| {
            a.parts().find_map(|(_, digit)| {
                let (first, second) = (single(a, digit)?, single(b, digit)?);
                (first != second).then_some(Asked::Twins(digit, (a, first), (b, second), of))
            })
        })
    })
}
