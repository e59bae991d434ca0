//! The lesson as it is taught: minute by minute, about exactly these numbers and with exactly these sheets.
//!
//! In: the [`Means`]: a lesson and what is printed of it. Out: a [`Teaching`]: what to do before, phases with
//! times, what lies on the tables, and steps in the order a person at the front of the room takes them. Steps are values,
//! not sentences: the language says each ([`crate::wording::plan`]). Nothing is said of a sheet that is not made, no
//! question is asked twice, no slip explained twice. No lengths, no pages.

mod building;
mod closing;
mod further;
mod guided;
mod means;
mod models;
mod opening;
mod prepare;
mod script;
mod sorting;
mod steps;

use super::timing;
use super::timing::StripUse;
use crate::spec::SheetKind;
use crate::wording::plan::{Aim, Chore, Deed, Laid, Phase, Short, Shortcut};

pub use closing::{bags_strips, handed_in};
pub use means::Means;
pub use models::models;
pub(super) use opening::telling_place;
pub use prepare::{cuts, materials, rows_written};
use script::Script;
pub use steps::{Seen, Step};

/// The most words in a sentence that a substitute reads.
pub const LONGEST: usize = 22;

/// The teaching plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Teaching {
    /// What the class will be able to do.
    pub aims: Vec<Aim>,
    /// What to do before the lesson, each with its minutes.
    pub before: Vec<(Chore, u32)>,
    /// What to do instead where nobody had time.
    pub shortcuts: Vec<Shortcut>,
    /// Whether a single model number is shown.
    pub one_model: bool,
    /// The phases in order; their minutes sum to exactly the lesson's.
    pub phases: Vec<PlanPart>,
    /// What is done when fewer minutes are left, longest first.
    pub shorter: Vec<Short>,
}

impl Teaching {
    /// Whether what is done before takes longer than there usually is, and the plan has a way without some of it.
    pub fn is_hurried(&self) -> bool {
        prepare::is_long(&self.before) && !self.shortcuts.is_empty()
    }

    /// Whether learners need paper that is not printed.
    pub fn uses_paper(&self) -> bool {
        let laid = |part: &PlanPart| part.table.iter().any(|laid| matches!(laid, Laid::Paper | Laid::FoldedPaper));
        self.phases.iter().any(laid)
    }
}

/// A phase as it is taught.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanPart {
    /// Which phase.
    pub phase: Phase,
    /// Minutes after the beginning of the lesson.
    pub start: u32,
    /// How many minutes it takes.
    pub minutes: u32,
    /// What lies on the tables now.
    pub table: Vec<Laid>,
    /// What happens, in order.
    pub steps: Vec<Step>,
}

/// Writes the plan.
pub fn plan(means: &Means<'_>) -> Teaching {
    let lesson = means.lesson;
    let built = models(lesson);
    let mut script = Script::new(means, &built);
    let mut start = 0;
    let mut phases = Vec::new();
    for (phase, minutes) in timing::share(&lesson.fullest) {
        script.begin(minutes);
        let table = match phase {
            Phase::Opening => opening::write(&mut script),
            Phase::Building | Phase::Drawing | Phase::Columns => building::write(&mut script),
            Phase::Guided => guided::write(&mut script),
            Phase::Sorting | Phase::Writing => sorting::write(&mut script),
            Phase::Break => script.only(Deed::TakeBreak),
            Phase::Sharing => closing::sharing(&mut script),
            Phase::Further => further::write(&mut script),
            Phase::Exit | Phase::Aloud => closing::exit(&mut script),
            Phase::Clearing => closing::clearing(&mut script),
            Phase::Spare => script.only(Deed::SpareTime),
        };
        let phase = named(&script, phase);
        let steps = script.steps();
        phases.push(PlanPart { phase, start, minutes, table: packed(table, &steps), steps });
        start += minutes;
    }
    Teaching {
        aims: opening::aims(lesson),
        before: prepare::chores(means),
        shortcuts: prepare::shortcuts(means),
        one_model: built.len() == 1,
        phases,
        shorter: prepare::shorter(means),
    }
}

/// What is on the tables where some of it lies in packets that are given out only now: the packet, in the place of what is in it.
fn packed(table: Vec<Laid>, steps: &[Step]) -> Vec<Laid> {
    let given = |step: &Step| match step {
        Step::Do(Deed::GivePackets { sheets, now, .. }) if sheets.len() > 1 => Some(now.clone()),
        _ => None,
    };
    let inside: Vec<SheetKind> = steps.iter().filter_map(given).flatten().collect();
    if inside.is_empty() {
        return table;
    }
    let outside = table.into_iter().filter_map(|laid| match laid {
        Laid::Sheet { sheet, .. } if inside.contains(&sheet) => None,
        Laid::UncutStrips(_) if inside.contains(&SheetKind::Strips) => Some(Laid::Scissors),
        Laid::WholeStrips(_) if inside.contains(&SheetKind::Strips) => None,
        laid => Some(laid),
    });
    std::iter::once(Laid::Packet).chain(outside).collect()
}

/// What a phase is called where nothing is built, or nothing matched.
fn named(script: &Script<'_>, phase: Phase) -> Phase {
    match phase {
        Phase::Building => prepare::models_phase(script.means, script.model()),
        Phase::Sorting if script.load.strips == StripUse::Written => Phase::Writing,
        Phase::Exit if !script.has(SheetKind::Exit) => Phase::Aloud,
        phase => phase,
    }
}
