//! A warm-up number a day for the week after the lesson, each with what to ask about it.
//!
//! In: the lesson. Out: a [`WarmUp`]. Its numbers are drawn evenly among all sets of numbers that no other sheet of the
//! lesson uses; where the range has too few of those, all of them are there, and the others are drawn evenly among what
//! only follow-up sheets use, and then among what the lesson itself uses. They are asked for what the model numbers are
//! asked for, as far as that can be.

use std::collections::BTreeSet;

use super::choose::{Demand, Solutions, requests, taught};
use super::fresh::met;
use super::groups;
use super::home;
use super::practice;
use super::teach::telling_place;
use super::week::{WarmUp, WarmUpDay};
use super::{Lesson, Role};
use crate::measure::Count;
use crate::number::{Feature, Number, Place, Trading};
use crate::rng::Stream;
use crate::spec::{Bound, Pool, SheetKind};
use crate::wording::plan::Asked;

/// How many days: a week of school.
pub const DAYS: u32 = 5;

/// Plans the warm-up.
pub fn plan(lesson: &Lesson) -> WarmUp {
    let used = used(lesson);
    let (mut numbers, solutions) = draw(lesson, &used);
    taught(&mut numbers, &lesson.style);
    let reused = numbers.iter().copied().filter(|number| used.contains(number)).collect();
    let day = |(turn, number)| WarmUpDay { number, asked: asked(lesson, number, turn) };
    WarmUp { days: (0..).zip(numbers).map(day).collect(), solutions, reused }
}

/// The warm-up, where the lesson makes it.
pub(super) fn asked_for(lesson: &Lesson) -> Option<WarmUp> {
    lesson.makes(SheetKind::WarmUp).then(|| plan(lesson))
}

/// What is to be said of the numbers where the range is too small; nothing where the lesson has no warm-up.
pub(super) fn told(lesson: &Lesson) -> Option<String> {
    let WarmUp { days, reused, .. } = lesson.warm_up.as_ref()?;
    let few = days.len().narrow() < DAYS;
    match (few, reused.len()) {
        (true, _) => Some(format!("the warm-up has only {} days: the range has no more numbers", days.len())),
        (false, 0) => None,
        (false, 1) => Some("1 warm-up number is used on another sheet too: the range allows no fewer".to_owned()),
        (false, many) => {
            Some(format!("{many} warm-up numbers are used on other sheets too: the range allows no fewer"))
        }
    }
}

/// What the follow-up sheets use, besides what learners have met in the lesson.
fn used(lesson: &Lesson) -> BTreeSet<Number> {
    let makes = |kind| lesson.makes(kind);
    let mut used = met(lesson);
    if makes(SheetKind::SmallGroups) {
        for part in lesson.parts() {
            used.extend(groups::lessons(lesson, &part).iter().flat_map(|lesson| &lesson.trials).map(|trial| trial.of));
            used.extend(groups::has_it(lesson, &part));
        }
    }
    if makes(SheetKind::Practice) {
        let parts = lesson.parts();
        let exercises = parts.iter().flat_map(|part| practice::exercises(lesson, part));
        used.extend(exercises.flat_map(|exercise| exercise.numbers()));
    }
    if makes(SheetKind::Family) {
        used.extend(lesson.parts().iter().filter_map(|part| home::home(lesson, part)).flat_map(|home| home.numbers()));
    }
    used
}

/// Draws the numbers, and says how many sets there were to draw from.
fn draw(lesson: &Lesson, used: &BTreeSet<Number>) -> (Vec<Number>, String) {
    let pool = Pool::new(&lesson.spec.numbers);
    // What is left alone: first all that is used, then what the lesson itself uses, then nothing.
    let tiers = [used.clone(), met(lesson), BTreeSet::new()];
    let mut fresh: Vec<Number> = Vec::new();
    for barred in tiers {
        // One more would do without the tier before.
        let here = pool.numbers().filter(|number| !barred.contains(number)).take(DAYS.index());
        let here: Vec<Number> = here.collect();
        let last = barred.is_empty();
        if here.len().narrow() >= DAYS || last {
            let stream = &mut Stream::new(lesson.spec.seed.value, "warm-up");
            let demands = demands(lesson, &barred, &fresh, here.len().narrow());
            let solutions = demands.iter().find_map(|demand| Solutions::of(demand).ok());
            return solutions
                .map_or((here, "1".to_owned()), |solutions| (solutions.draw(stream), solutions.count().to_string()));
        }
        fresh = here;
    }
    (fresh, "1".to_owned())
}

/// What is asked of the numbers, the most first: what cannot be had is left out.
fn demands(lesson: &Lesson, barred: &BTreeSet<Number>, fresh: &[Number], count: u32) -> [Demand; 4] {
    let numbers = &lesson.spec.numbers;
    let role = Role::ALL.into_iter().find(|role| requests(numbers, *role).count.value > 0).unwrap_or(Role::Model);
    let mut bare = Demand { count, ..Demand::new(numbers, role) };
    bare.never.extend(barred);
    bare.always = fresh.iter().copied().collect();
    // The same digits are for a board: day after day they would be the same question.
    bare.same_digits = None;
    let wishes = std::mem::take(&mut bare.features);
    let capped = |(feature, bound): (Feature, Bound)| (feature, Bound { min: bound.min.min(count), ..bound });
    let asking = Demand { features: wishes.into_iter().map(capped).collect(), ..bare.clone() };
    // Numbers that something can be asked about, where there are enough of them.
    let mixed = |demand: &Demand| Demand { mixed: true, ..demand.clone() };
    [mixed(&asking), asking, mixed(&bare), bare]
}

/// What to ask about a day's number.
fn asked(lesson: &Lesson, number: Number, turn: usize) -> Vec<Asked> {
    let mut asked = Vec::new();
    // A zero tells more of places than any digit's worth.
    let zero = Place::ALL.iter().any(|place| Feature::Zero(*place).is_in(number)).then_some(Asked::WhyZero(number));
    asked.extend(zero.or_else(|| telling_place(number, turn).map(|place| Asked::Worth(number, place))));
    asked.extend(step(number, turn).map(|place| Asked::MoreLess(number, place)));
    // Where the class trades, every other day is for that, which takes as long as the two ways of writing.
    let trades = turn % 2 == 1 && lesson.spec.forms.matched.value.iter().any(|form| form.is_traded());
    if let Some(counted) = Trading::ANY.single(number, turn).filter(|_| trades) {
        asked.push(Asked::Regrouped(number, counted));
        return asked;
    }
    asked.push(match number.parts().count() {
        0 | 1 if number.len() == 1 => Asked::Digits(number),
        1 => Asked::OnePart(number),
        _ => Asked::Expanded(number),
    });
    asked.push(Asked::Words(number));
    asked
}

/// Of which place one more and one less are asked for: one in which that changes a second digit, or else each in turn.
fn step(number: Number, turn: usize) -> Option<Place> {
    let both = |place: &Place| {
        number.shows(*place) && number.value() >= place.worth() && Number::new(number.value() + place.worth()).is_some()
    };
    let places: Vec<Place> = Place::ALL.into_iter().filter(both).collect();
    let crosses = |place: &&Place| matches!(number.digit(**place), 0 | 9) && number.len() > place.index() + 1;
    places.iter().find(crosses).or(places.get(turn % places.len().max(1))).copied()
}
