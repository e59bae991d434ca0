//! The page for home: which numbers it speaks of, and three questions with fresh ones. Learners of a group take a page home on
//! the numbers that they have met.

use super::fresh::fresh;
use super::{Lesson, LessonPart};
use crate::number::{Feature, Number, Place, Skill, Task};

/// What the page for home speaks of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Home {
    /// A number of the lesson that shows what was learned: with different digits, where there is one.
    pub number: Number,
    /// The place of one of its digits, the greatest that is not the ones'.
    pub place: Place,
    /// A number of the lesson with a zero that holds a place.
    pub zero: Option<Number>,
    /// What the digit in a place is worth.
    pub worth: Option<(Number, Place)>,
    /// Which of two is greater.
    pub greater: Option<(Number, Number)>,
    /// Which number an expanded form is.
    pub joined: Option<Number>,
}

impl Home {
    /// The numbers of its questions.
    pub fn numbers(&self) -> Vec<Number> {
        let worth = self.worth.map(|(number, _)| number);
        let greater = self.greater.into_iter().flat_map(|(one, other)| [one, other]);
        worth.into_iter().chain(greater).chain(self.joined).collect()
    }
}

/// Chooses them for a part of the class; `None` for a lesson without numbers.
pub fn home(lesson: &Lesson, part: &LessonPart<'_>) -> Option<Home> {
    let chosen = &lesson.chosen;
    let own: Vec<Number> = if part.versions.is_empty() {
        chosen.built().chain(chosen.exit.iter().copied()).collect()
    } else {
        let sets = lesson.sets.iter().filter(|set| part.versions.contains(&set.version));
        sets.flat_map(|set| &set.rows).chain(&chosen.model).copied().collect()
    };
    let telling = |n: &&Number| !Skill::Worth.tasks(**n).is_empty();
    // 20 has one part: its words and its sum show nothing.
    let parted = |n: &&Number| telling(n) && n.parts().count() > 1;
    let number = *own.iter().find(parted).or(own.iter().find(telling)).or(own.first())?;
    let inner = |n: &&Number| n.len() > 1 && Place::ALL.iter().any(|place| Feature::Zero(*place).is_in(**n));
    let mut zeros = own.iter().copied().filter(|n| inner(&n));
    let numbers = fresh(lesson, part, "home");
    let mut used = vec![number];
    let mut take = |suits: &dyn Fn(Number) -> bool| {
        let found = numbers.iter().copied().find(|n| !used.contains(n) && suits(*n))?;
        used.push(found);
        Some(found)
    };
    let worth = take(&|n| !Skill::Worth.tasks(n).is_empty()).and_then(|n| match Skill::Worth.tasks(n).first()? {
        Task::Worth(place) => Some((n, *place)),
        Task::Forms { .. } | Task::Greater(_) => None,
    });
    let close = |n: Number| match Skill::Compare.tasks(n).first() {
        Some(Task::Greater(other)) => Some(*other),
        _ => None,
    };
    let greater = take(&|n| close(n).is_some()).and_then(|n| Some((n, close(n)?)));
    let joined = take(&|n| !Skill::Expanded.tasks(n).is_empty());
    let place = number.greatest_place();
    let greater = greater.or_else(|| {
        let mut numbers = numbers.iter().copied().filter(|n| *n != number && worth.is_none_or(|(of, _)| of != *n));
        Some((numbers.next()?, numbers.next()?))
    });
    Some(Home {
        number,
        place,
        zero: zeros.find(|n| *n != number).or(own.iter().find(inner).copied()),
        worth,
        greater,
        joined,
    })
}
