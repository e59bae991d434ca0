//! Which model numbers are built where there is no time for all.

use std::cmp::Reverse;

use crate::lesson::{Lesson, Reason};
use crate::number::Number;

/// The model numbers that there is time for, in teaching order: those that show most of what the lesson asks for (a zero, a
/// teen, a digit that repeats), and of those alike in that the ones of more parts.
pub fn models(lesson: &Lesson) -> Vec<Number> {
    let model = &lesson.chosen.model;
    let count = lesson.load().models as usize;
    let telling = |number: &Number| {
        let why = lesson.chosen.why.get(number).map_or(&[][..], Vec::as_slice);
        let asked = why.iter().filter(|reason| matches!(reason, Reason::Feature(_) | Reason::Always)).count();
        (asked, number.parts().count().min(2))
    };
    let mut ranked: Vec<usize> = (0..model.len()).collect();
    ranked.sort_by_key(|k| Reverse(telling(&model[*k])));
    ranked.truncate(count);
    ranked.sort_unstable();
    ranked.into_iter().map(|k| model[k]).collect()
}
