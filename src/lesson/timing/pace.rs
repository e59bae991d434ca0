//! How fast a class works: what a model of it takes for each thing that is done, by grade. Every figure is common practice, no
//! source.

use crate::measure::Count;
use crate::number::Number;
use crate::spec::{SheetKind, Spec};
use crate::wording::plan::Standard;

/// How fast a class of some age works: in ten minutes each learner cuts out so many pieces along straight lines, finds
/// the strips for so many boxes, writes in so many boxes. Common practice, no source.
pub(super) struct Pace {
    pub(super) cuts: u32,
    pub(super) matches: u32,
    pub(super) writes: u32,
    /// Questions of a quick check.
    pub(super) answers: u32,
}

/// The grade that the lesson says, or that its range belongs to: 1 to 4, where 4 stands for all above.
pub fn grade(spec: &Spec) -> u32 {
    let said = spec.grade.as_ref().and_then(|grade| grade.value.chars().find_map(|c| c.to_digit(10)));
    said.unwrap_or(match skill(spec) {
        Standard::Counting | Standard::TensAndOnes => 1,
        Standard::Hundreds => 2,
        Standard::Thousands => 3,
        Standard::Periods => 4,
    })
    .clamp(1, 4)
}

/// The skill of a published standard that the lesson's range belongs to.
pub fn skill(spec: &Spec) -> Standard {
    skill_to(spec.numbers.range.value.1)
}

/// The skill that a range up to this number belongs to.
pub fn skill_to(greatest: Number) -> Standard {
    match greatest.value() {
        // The last number of CCSSM grade 1 and of grade 2.
        // Kindergarten's numbers that have no tens to speak of.
        0..=10 => Standard::Counting,
        11..=120 => Standard::TensAndOnes,
        121..=1_000 => Standard::Hundreds,
        1_001..=9_999 => Standard::Thousands,
        _ => Standard::Periods,
    }
}

pub(super) fn pace(spec: &Spec) -> Pace {
    match grade(spec) {
        1 => Pace { cuts: 25, matches: 15, writes: 10, answers: 10 },
        2 => Pace { cuts: 35, matches: 20, writes: 15, answers: 14 },
        3 => Pace { cuts: 45, matches: 25, writes: 20, answers: 16 },
        _ => Pace { cuts: 55, matches: 30, writes: 25, answers: 18 },
    }
}

/// Minutes that a learner needs for a row of the recording sheet: a drawing, a sum and words.
pub fn row_minutes(spec: &Spec) -> u32 {
    minutes_for(3, pace(spec).writes)
}

/// Minutes to give out one kind of thing, or the packets (common practice, no source).
pub(super) const GIVEN_OUT: u32 = 1;
/// Minutes to talk with a class about a row that is worked together, besides what a learner needs to write it (common practice, no
/// source).
const TALK: u32 = 2;

/// Minutes to give out the packets and work one row together.
pub fn together_minutes(spec: &Spec) -> u32 {
    let talk = if spec.class.learners.value > 1 { TALK } else { TALK / 2 };
    GIVEN_OUT + talk + row_minutes(spec)
}

/// Questions that a class shares in so many minutes: one a minute, and a minute in which learners show what they did (common
/// practice, no source).
pub fn shared_questions(minutes: u32) -> u32 {
    minutes.saturating_sub(1).max(1)
}

/// Minutes to give out what numbers are built with: a minute a kind in grade 1, later a minute for two kinds (common practice,
/// no source).
pub(super) fn handing(spec: &Spec) -> u32 {
    let kinds = [SheetKind::Mat, SheetKind::Blocks, SheetKind::Layered];
    let made = kinds.into_iter().filter(|kind| spec.sheets.make.value.contains(kind)).count().narrow();
    match (spec.class.learners.value, grade(spec)) {
        (1, _) => 0,
        (_, 1) => made * GIVEN_OUT,
        _ => made.div_ceil(2) * GIVEN_OUT,
    }
}

/// Whether numbers are built with blocks, not drawn or written.
pub(super) fn builds(spec: &Spec) -> bool {
    let makes = |kind| spec.sheets.make.value.contains(&kind);
    makes(SheetKind::Blocks) || makes(SheetKind::Mat) && !spec.numbers.at_most.is_empty()
}

/// Minutes to build so many numbers with blocks and talk about them, counted in halves for each (common practice, no source).
pub(super) fn building(spec: &Spec, models: u32) -> u32 {
    let halves = match grade(spec) {
        1 => 6,
        2 => 5,
        _ => 4,
    };
    (models * halves).div_ceil(2)
}

/// Whole minutes for so many things at so many in ten minutes.
pub(super) fn minutes_for(count: u32, in_ten: u32) -> u32 {
    (count * 10).div_ceil(in_ten)
}
