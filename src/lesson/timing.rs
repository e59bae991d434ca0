//! How a lesson's minutes are shared among its phases.
//!
//! In: a [`Spec`]. Out: the phases this lesson has, each with whole minutes that sum to exactly `minutes`, none under
//! three; or, when the numbers need more time than there is, what to drop.

use crate::diag::Problem;
use crate::spec::{Cut, Given, Spec, limits};

/// A part of the lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// Everybody arrives at the idea of the day.
    Opening,
    /// The model numbers are built with the class.
    Building,
    /// One example is worked together, step by step.
    Guided,
    /// Each learner cuts, sorts and matches.
    Sorting,
    /// Learners compare what they did and why.
    Sharing,
    /// The quick check.
    Exit,
    /// Everything goes back where it belongs.
    Clearing,
}

/// What a phase needs and how it shares the minutes that are left over.
struct Need {
    phase: Phase,
    /// The fewest minutes that do the work; at least [`LEAST`].
    least: u32,
    /// How much of the spare time it takes, against the others.
    weight: u32,
    /// More minutes than this bring nothing.
    most: u32,
}

/// No phase is shorter than this many minutes.
pub const LEAST: u32 = 3;

/// Minutes to build one model number and talk about it (common practice, no source).
const A_MODEL: u32 = 2;
/// Minutes to match all the strips of one row of the board (common practice, no source).
const A_ROW: u32 = 1;
/// Minutes to cut out a page of strips along straight lines (common practice, no source).
const CUTTING: u32 = 3;

/// How many numbers each role has; what the minutes depend on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Counts {
    model: u32,
    sort: u32,
    exit: u32,
    scissors: bool,
}

impl Counts {
    fn of(spec: &Spec) -> Self {
        Self {
            model: spec.numbers.model.count.value,
            sort: spec.numbers.sort.count.value,
            exit: spec.numbers.exit.count.value,
            scissors: spec.print.cut.value == Cut::Scissors,
        }
    }

    /// The phases that these numbers make, in teaching order.
    fn needs(self) -> Vec<Need> {
        let need = |phase, least: u32, weight, most| Need { phase, least: least.max(LEAST), weight, most };
        let mut needs = vec![need(Phase::Opening, LEAST, 1, 8)];
        if self.model > 0 {
            needs.push(need(Phase::Building, A_MODEL * self.model, 3, 5 * self.model + 5));
        }
        if self.model + self.sort > 0 {
            needs.push(need(Phase::Guided, LEAST, 2, 15));
        }
        if self.sort > 0 {
            let cutting = if self.scissors { CUTTING } else { 0 };
            needs.push(need(Phase::Sorting, A_ROW * self.sort + cutting, 5, u32::MAX));
            needs.push(need(Phase::Sharing, LEAST, 2, 15));
        }
        if self.exit > 0 {
            needs.push(need(Phase::Exit, LEAST, 2, 12));
        }
        needs.push(need(Phase::Clearing, LEAST, 1, 5));
        needs
    }

    fn least(self) -> u32 {
        self.needs().iter().map(|need| need.least).sum()
    }

    /// The smaller lesson that fits and costs the class least: fewer numbers rather than a role left out, sort numbers
    /// (never under four) rather than model numbers, and the exit check rather than building or sorting.
    fn cut_to(self, minutes: u32) -> Option<Self> {
        let sorts = (self.sort.min(4)..=self.sort).chain([0]);
        let smaller = sorts.flat_map(|sort| {
            (0..=self.model).flat_map(move |model| [self.exit, 0].map(|exit| Self { model, sort, exit, ..self }))
        });
        let lost = |role: u32, left: u32, whole: u32, each: u32| {
            if role > 0 && left == 0 { whole } else { (role - left) * each }
        };
        smaller.filter(|s| s.model + s.sort > 0 && s.least() <= minutes).min_by_key(|s| {
            // Beyond any sum of single numbers: a role is given up last. How the three compare is common practice.
            lost(self.sort, s.sort, 30_000, 1)
                + lost(self.model, s.model, 30_000, 3)
                + lost(self.exit, s.exit, 10_000, 0)
        })
    }
}

/// The fewest minutes that this lesson's numbers need.
pub fn least(spec: &Spec) -> u32 {
    Counts::of(spec).least()
}

/// The phases in teaching order with their minutes, which sum to exactly the lesson's; a problem that says what to drop
/// when there are too few.
pub fn share(spec: &Spec) -> Result<Vec<(Phase, u32)>, Problem> {
    let (counts, minutes) = (Counts::of(spec), spec.minutes.value);
    let needs = counts.needs();
    let least = counts.least();
    if least > minutes {
        return Err(too_short(counts, minutes, least));
    }
    let mut shares: Vec<u32> = needs.iter().map(|need| need.least).collect();
    // One minute at a time to the phase that is furthest behind its weight: no phase jumps, and the sum is exact.
    for _ in least..minutes {
        let behind = |k: &usize| {
            let extra = u64::from(shares[*k] - needs[*k].least);
            // Cross-multiplied by a common multiple of the weights 1, 2, 3 and 5, so that no fraction is rounded.
            (extra * 30 + 15) / u64::from(needs[*k].weight)
        };
        let open = (0..needs.len()).filter(|&k| shares[k] < needs[k].most).min_by_key(behind);
        // With every phase full (a long lesson of few numbers) the longest work takes the rest.
        let Some(next) = open.or_else(|| (0..needs.len()).max_by_key(|&k| needs[k].weight)) else { break };
        shares[next] += 1;
    }
    Ok(needs.iter().map(|need| need.phase).zip(shares).collect())
}

/// Sees that the lesson is long enough for its numbers. Where the file is silent about its minutes they grow to the next
/// five; where it is not, a problem says what to drop.
pub fn settle(spec: &mut Spec) -> Result<(), Problem> {
    let least = least(spec);
    if spec.minutes.is_assumed() && spec.minutes.value < least {
        spec.minutes = Given::assumed(least.next_multiple_of(5));
    }
    share(spec).map(|_| ())
}

fn too_short(counts: Counts, minutes: u32, least: u32) -> Problem {
    let problem =
        Problem::new(format!("`minutes = {minutes}` is too short for this lesson's numbers, which need {least}"));
    // No lesson is so long that any numbers fit.
    let longer = limits::MINUTES.allows(u64::from(least)).then(|| format!("set `minutes = {least}`"));
    let Some(smaller) = counts.cut_to(minutes) else {
        return problem.hint(longer.unwrap_or_else(|| "take fewer numbers".to_owned()));
    };
    let mut drops = Vec::new();
    let mut say = |role: &str, from: u32, to: u32| {
        if to == 0 && from > 0 {
            drops.push(format!("leave out the {role} numbers (`{role}` with `count = 0`)"));
        } else if to < from {
            drops.push(format!("take {to} {role} number{} instead of {from}", if to == 1 { "" } else { "s" }));
        }
    };
    say("sort", counts.sort, smaller.sort);
    say("model", counts.model, smaller.model);
    say("exit", counts.exit, smaller.exit);
    let fewer = drops.join(" and ");
    problem.hint(longer.map_or(fewer.clone(), |longer| format!("{fewer}; or {longer}")))
}
