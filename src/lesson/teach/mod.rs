//! The lesson as it is taught: minute by minute, about exactly these numbers.
//!
//! In: a [`Lesson`]. Out: a [`Teaching`]: phases with times, what to have on the table, and steps in the order a person
//! at the front of the room takes them. Sentences are finished English; no lengths, no pages. Every sentence has at most
//! [`LONGEST`] words, so that it can be taken in at a glance while a class is waiting.

mod building;
mod closing;
mod guided;
mod materials;
mod opening;
mod sorting;
mod talk;

use super::timing::{self, Phase};
use super::{Lesson, Wrong};
use crate::diag::Problem;
use crate::number::{Number, Slip, Style};
use crate::spec::SheetKind;

pub use materials::{Material, materials};

/// The most words in a sentence that a substitute reads.
pub const LONGEST: usize = 22;

/// The teaching plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Teaching {
    /// What the class will be able to do, one sentence each.
    pub aims: Vec<String>,
    /// The phases in order; their minutes sum to exactly the lesson's.
    pub phases: Vec<Part>,
}

/// A phase as it is taught.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Which phase.
    pub phase: Phase,
    /// Minutes after the beginning of the lesson.
    pub start: u32,
    /// How many minutes it takes.
    pub minutes: u32,
    /// What lies on the tables now.
    pub table: Vec<String>,
    /// What happens, in order.
    pub steps: Vec<Step>,
}

/// Something that happens in class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// The teacher does this.
    Do(String),
    /// The teacher says this, word for word.
    Say(String),
    /// The teacher asks.
    Ask {
        /// The question, word for word.
        question: String,
        /// The answer to expect, as a child would say it.
        expect: String,
    },
    /// The teacher looks out for a wrong form and knows what it means.
    Watch {
        /// The wrong form with its number, such as `46 for 406`.
        sees: String,
        /// The wrong form itself.
        wrong: Wrong,
        /// The slip's letter in key and tally; none for a slip that is not in play.
        letter: Option<char>,
        /// Whether an earlier step has explained this slip already.
        told: bool,
    },
}

impl Phase {
    /// What the plan calls it.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Opening => "Opening",
            Self::Building => "Building the model numbers",
            Self::Guided => "Practice together",
            Self::Sorting => "Sorting and matching",
            Self::Sharing => "Sharing",
            Self::Exit => "Exit check",
            Self::Clearing => "Clearing away",
        }
    }
}

/// Writes the plan. `questions` is how many questions each exit check has on paper. Fails when the lesson is too short for
/// its numbers, saying what to drop.
pub fn plan(lesson: &Lesson, questions: usize) -> Result<Teaching, Problem> {
    let mut start = 0;
    let mut phases = Vec::new();
    let mut named: Vec<Slip> = Vec::new();
    for (phase, minutes) in timing::share(&lesson.spec)? {
        let scene = Scene { lesson, minutes, questions, named: named.clone() };
        let (table, mut steps) = match phase {
            Phase::Opening => opening::write(&scene),
            Phase::Building => building::write(&scene),
            Phase::Guided => guided::write(&scene),
            Phase::Sorting => sorting::write(&scene),
            Phase::Sharing => closing::sharing(&scene),
            Phase::Exit => closing::exit(&scene),
            Phase::Clearing => closing::clearing(&scene),
        };
        for step in &mut steps {
            if let Step::Watch { wrong, told, letter, .. } = step {
                *letter = lesson.letter(wrong.slip);
                *told = named.contains(&wrong.slip);
                named.push(wrong.slip);
            }
        }
        phases.push(Part { phase, start, minutes, table, steps });
        start += minutes;
    }
    Ok(Teaching { aims: opening::aims(lesson), phases })
}

/// What a phase is written from.
struct Scene<'a> {
    lesson: &'a Lesson,
    minutes: u32,
    questions: usize,
    /// The slips that earlier phases have explained.
    named: Vec<Slip>,
}

impl Scene<'_> {
    fn style(&self) -> &Style {
        &self.lesson.style
    }

    fn makes(&self, sheet: SheetKind) -> bool {
        makes(self.lesson, sheet)
    }

    fn model(&self) -> &[Number] {
        &self.lesson.chosen.model
    }

    /// The numbers of sort set A, in board order.
    fn sort(&self) -> &[Number] {
        self.lesson.sets.first().map_or(&[], |set| &set.rows)
    }
}

/// Whether the lesson has this sheet.
fn makes(lesson: &Lesson, sheet: SheetKind) -> bool {
    lesson.spec.sheets.make.value.contains(&sheet)
}

fn act(text: impl Into<String>) -> Step {
    Step::Do(text.into())
}

fn say(text: impl Into<String>) -> Step {
    Step::Say(text.into())
}

fn watch(sees: impl Into<String>, wrong: Wrong) -> Step {
    Step::Watch { sees: sees.into(), wrong, letter: None, told: false }
}

fn ask(question: impl Into<String>, expect: impl Into<String>) -> Step {
    Step::Ask { question: question.into(), expect: expect.into() }
}
