//! Numbers of a range that learners have not met in this lesson: for practice, small groups and the week after.

use std::collections::BTreeSet;

use super::{Lesson, LessonPart};
use crate::measure::Count;
use crate::number::Number;
use crate::rng::Stream;
use crate::spec::Pool;

/// Numbers of a range, shuffled for a purpose; those that learners have met in this lesson come last.
pub(super) fn fresh(lesson: &Lesson, part: &LessonPart<'_>, purpose: &str) -> Vec<Number> {
    let numbers = candidates(part, &mut Stream::new(lesson.spec.seed.value, &part.purpose(purpose)));
    let met = met(lesson);
    let (known, mut numbers): (Vec<_>, Vec<_>) = numbers.into_iter().partition(|number| met.contains(number));
    numbers.extend(known);
    numbers
}

/// Every number that learners have met in this lesson.
pub(super) fn met(lesson: &Lesson) -> BTreeSet<Number> {
    let chosen = &lesson.chosen;
    chosen.built().chain(chosen.exit.iter().copied()).chain(lesson.checked()).collect()
}

/// How many numbers are looked at where the range has more.
const SAMPLE: u32 = 1_500;

/// Numbers of a range, shuffled.
pub(super) fn candidates(part: &LessonPart<'_>, stream: &mut Stream) -> Vec<Number> {
    let pool = Pool::new(part.numbers);
    let (least, most) = part.numbers.range.value;
    let mut numbers = drawn(least.value(), most.value(), stream);
    numbers.retain(|number| pool.holds(*number));
    numbers
}

/// Numbers from `least` to `most`, shuffled: all, or an even draw.
pub(super) fn drawn(least: u32, most: u32, stream: &mut Stream) -> Vec<Number> {
    let wide = most - least + 1;
    let mut numbers: Vec<Number> = if wide <= SAMPLE {
        (least..=most).filter_map(Number::new).collect()
    } else {
        let draw = (0..SAMPLE).filter_map(|_| Number::new(least + stream.below(wide.into()).narrow()));
        draw.collect::<BTreeSet<_>>().into_iter().collect()
    };
    stream.shuffle(&mut numbers);
    numbers
}
