//! How much of a lesson is done in class, and how its minutes are shared among its phases.
//!
//! In: a [`Spec`]. Out: a [`Load`], which is what there is time for, and phases with whole minutes that sum to exactly
//! `minutes`. What takes how long is a small model of a class at work; every figure of it is common practice, no source.
//! What does not fit is cut down by one rule: fewer rows first (never under three), then fewer model numbers, then no
//! example worked together, then strips that stay whole, then no sharing, one question of the quick check, and at last
//! fewer rows again. A lesson that prints quick checks and nothing to sort is there for the checks: all numbers that would only
//! be written by hand are left out before a question is. [`told`] says so.

mod late;
mod pace;

use super::exit;
use super::job::{self, Cutter};
use crate::measure::Count;
use crate::number::Skill;
use crate::spec::{Given, SheetKind, Spec, limits, usual_sheets};

pub use crate::wording::plan::{Phase, Standard};
pub use late::late;
use pace::{GIVEN_OUT, building, builds, handing, minutes_for, pace};
pub use pace::{grade, row_minutes, shared_questions, skill, skill_to, together_minutes};

/// What the strips are for in this lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StripUse {
    /// Learners cut them, then match.
    Cut,
    /// They are cut already.
    Ready,
    /// There are none, or no time to cut: learners write in the boxes of the board, or on paper.
    Written,
    /// There is no board and no time to cut: learners mark strips that stay whole.
    Whole,
}

/// What there is time for.
#[allow(clippy::struct_excessive_bools, reason = "parts of a lesson are done or not, each by itself")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Load {
    /// Whether the class is told what the lesson is about.
    pub opening: bool,
    /// Model numbers that are built.
    pub models: u32,
    /// Rows of the board that are done.
    pub rows: u32,
    /// What happens with the strips.
    pub strips: StripUse,
    /// Whether one example is worked together.
    pub together: bool,
    /// Whether learners compare what they did.
    pub sharing: bool,
    /// Questions of the quick check.
    pub questions: u32,
    /// Whether nothing takes longer than it must.
    brisk: bool,
}

/// The fewest rows that are worth sorting; a set that has fewer is done whole.
const ROWS: u32 = 3;

/// Questions on a quick check, as far as the lesson's forms go; paper may have room for fewer.
pub fn questions(spec: &Spec) -> u32 {
    if spec.numbers.exit.count.value == 0 {
        return 0;
    }
    if spec.numbers.counts_to_ten() {
        return exit::written_skills(spec).len().narrow();
    }
    let asked = |skill: &&Skill| {
        !skill.stands_in() && skill.needs().is_none_or(|form| spec.forms.matched.value.contains(&form))
    };
    Skill::BY_NEED.iter().filter(asked).count().narrow()
}

/// What a phase needs and how it shares the minutes that are left over.
struct Need {
    phase: Phase,
    /// The fewest minutes that do the work.
    least: u32,
    /// How much of the spare time it takes, against the others.
    weight: u32,
    /// More minutes than this bring nothing.
    most: u32,
}

impl Load {
    /// All that the lesson asks for.
    fn full(spec: &Spec) -> Self {
        let makes = |kind| spec.sheets.make.value.contains(&kind);
        let (models, rows) = (spec.numbers.model.count.value, spec.numbers.sort.count.value);
        Self {
            opening: true,
            models,
            rows,
            strips: match (makes(SheetKind::Strips), job::STRIPS.cutter(spec.print.cut.value)) {
                (false, _) => StripUse::Written,
                (true, Cutter::Learner) => StripUse::Cut,
                (true, Cutter::Nobody | Cutter::Later | Cutter::Teacher | Cutter::CopyRoom) => StripUse::Ready,
            },
            together: models + rows > 0,
            sharing: rows > 0,
            questions: questions(spec),
            brisk: false,
        }
    }

    /// This load and ever smaller ones, by the rule at the head of this file.
    fn and_smaller(self, spec: &Spec) -> Vec<Self> {
        let board = spec.sheets.make.value.contains(&SheetKind::Board);
        let for_checks = for_checks(spec);
        let mut all = vec![self];
        let mut now = self;
        let mut down = |change: &mut dyn FnMut(&mut Self)| {
            change(&mut now);
            all.push(now);
        };
        for rows in (ROWS.min(self.rows)..self.rows).rev() {
            down(&mut |load| load.rows = rows);
        }
        for models in (1..self.models).rev() {
            down(&mut |load| load.models = models);
        }
        // Without model numbers the example is all that is built.
        down(&mut |load| load.together = load.together && load.models == 0);
        if self.strips == StripUse::Cut {
            down(&mut |load| load.strips = if board { StripUse::Written } else { StripUse::Whole });
        }
        down(&mut |load| load.sharing = false);
        if for_checks {
            for rows in (0..ROWS.min(self.rows)).rev() {
                down(&mut |load| {
                    load.rows = rows;
                    // With neither, nothing is left to work on together.
                    load.together &= rows > 0 || load.models > 0;
                });
            }
            down(&mut |load| load.brisk = true);
        }
        down(&mut |load| load.questions = load.questions.min(1));
        down(&mut |load| load.brisk = true);
        for rows in (1..if for_checks { 1 } else { ROWS.min(self.rows) }).rev() {
            down(&mut |load| load.rows = rows);
        }
        all
    }

    /// The phases that this load makes, in teaching order.
    fn needs(self, spec: &Spec) -> Vec<Need> {
        let need = |phase, least: u32, weight, most: u32| Need { phase, least, weight, most: most.max(least) };
        let brisk = |usual: u32, short: u32| if self.brisk { short } else { usual };
        // One of each phase that a load can have: it is asked for thousands of times.
        let mut needs = Vec::with_capacity(7);
        if self.opening {
            needs.push(need(Phase::Opening, brisk(3, 1), 1, 5));
        }
        let kits = brisk(handing(spec), 0);
        let row = GIVEN_OUT + row_minutes(spec);
        if self.models > 0 {
            let makes = |kind| spec.sheets.make.value.contains(&kind);
            let cards = u32::from(makes(SheetKind::Layered) && !self.brisk);
            // With no time to work one together, the first number's row is filled in here.
            let row = if !self.together && !self.brisk && makes(SheetKind::Record) { row } else { 0 };
            let shown = 2 * self.models;
            let shown = if builds(spec) { brisk(building(spec, self.models), shown) } else { shown };
            let least = shown + kits + cards + row;
            needs.push(need(Phase::Building, least, 3, least + 2 * self.models + 4));
        }
        if self.together {
            // Without model numbers what there is to build with is given out here.
            let first = if self.models == 0 { kits + u32::from(kits > 0) } else { 0 };
            let least = together_minutes(spec) + first;
            // Each number that is left for learners to write alone takes its time, as far as there is some.
            needs.push(need(Phase::Guided, brisk(least, 2), 4, least + 3 * row_minutes(spec)));
        }
        if self.rows > 0 {
            let work = self.sorting(spec);
            // A brisk lesson has no time to settle down; with a single row it stops when its time is over, wherever it is.
            let least = match (self.brisk, self.rows) {
                (true, 1) => work.min(4),
                (true, _) => work,
                (false, _) => work + 1,
            };
            needs.push(need(Phase::Sorting, least, 5, work + work / 2 + 4));
        }
        if self.sharing {
            needs.push(need(Phase::Sharing, 3, 2, 8));
        }
        if self.questions > 0 {
            let work = minutes_for(self.questions, pace(spec).answers);
            needs.push(need(Phase::Exit, work + 1, 2, 2 * work + 2));
        }
        let clearing = brisk(self.clearing(spec), 1);
        needs.push(need(Phase::Clearing, clearing, 1, clearing + 2));
        needs
    }

    /// Minutes to cut, match or write.
    fn sorting(self, spec: &Spec) -> u32 {
        let pace = pace(spec);
        let forms = spec.forms.matched.value.len().saturating_sub(1).narrow();
        let pieces = spec.numbers.sort.count.value * forms + spec.forms.decoys.value;
        let boxes = self.rows * forms;
        match self.strips {
            StripUse::Cut => minutes_for(pieces, pace.cuts) + minutes_for(boxes, pace.matches),
            StripUse::Ready | StripUse::Whole => minutes_for(boxes, pace.matches),
            StripUse::Written => minutes_for(boxes, pace.writes),
        }
    }

    /// Minutes to collect papers, bag strips and put away what was built with: two, one and one (common practice, no source).
    fn clearing(self, spec: &Spec) -> u32 {
        let kits =
            job::KITS.iter().any(|kind| spec.sheets.make.value.contains(kind)) && (self.models > 0 || self.together);
        // A learner alone has little to put away.
        if spec.class.learners.value > 1 { 2 + u32::from(self.bags_strips()) + u32::from(kits) } else { 2 }
    }

    /// Whether strips lie on the tables in pieces, and go into envelopes at the end.
    pub(super) fn bags_strips(self) -> bool {
        self.rows > 0 && matches!(self.strips, StripUse::Cut | StripUse::Ready)
    }

    /// Whether things to build with, or strips in pieces, lie on the tables.
    fn takes_out(self) -> bool {
        self.bags_strips() || self.models > 0 || self.together
    }

    /// The minutes that a phase of it needs, without the row that is filled in where there is no example.
    fn work(self, spec: &Spec, phase: Phase) -> u32 {
        let together = Self { together: self.together || phase == Phase::Building, ..self };
        together.needs(spec).iter().filter(|need| need.phase == phase).map(|need| need.least).sum()
    }

    /// The same with rows, model numbers and questions added one by one, as far as `longer` has them and all of it fits; never more
    /// of any than `longer` has.
    fn grown(mut self, longer: Self, fits: impl Fn(&Self) -> bool) -> Self {
        self.rows = self.rows.min(longer.rows);
        self.models = self.models.min(longer.models);
        self.questions = self.questions.min(longer.questions);
        let mut grow = |change: fn(&mut Self), may: fn(&Self, &Self) -> bool| {
            while may(&self, &longer) {
                let mut more = self;
                change(&mut more);
                if !fits(&more) {
                    break;
                }
                self = more;
            }
        };
        grow(|load| load.rows += 1, |load, longer| load.rows < longer.rows);
        grow(|load| load.models += 1, |load, longer| load.models < longer.models);
        grow(|load| load.questions += 1, |load, longer| load.questions < longer.questions);
        self
    }

    fn least(self, spec: &Spec) -> u32 {
        self.needs(spec).iter().map(|need| need.least).sum()
    }
}

/// What there is time for in so many minutes, at least 10: never more of anything than in a longer lesson.
pub fn load(spec: &Spec, minutes: u32) -> Load {
    let full = Load::full(spec);
    let all: Vec<(u32, Load)> = full.and_smaller(spec).into_iter().map(|load| (load.least(spec), load)).collect();
    let mut longer = full;
    for minutes in (minutes..least(spec)).rev() {
        longer = fitted(spec, minutes, &all, longer);
    }
    longer
}

/// The first of these loads, with their least minutes, that fits; what a later cut freed goes back to what was cut first,
/// as far as `longer` has it.
fn fitted(spec: &Spec, minutes: u32, all: &[(u32, Load)], longer: Load) -> Load {
    let fits = |load: &Load| load.least(spec) <= minutes;
    let first = all.iter().find(|(least, _)| *least <= minutes).or(all.last());
    first.map_or(longer, |(_, load)| *load).grown(longer, fits)
}

/// Whether a lesson is there for its quick checks: it prints them, and nothing to sort.
fn for_checks(spec: &Spec) -> bool {
    let makes = |kind| spec.sheets.make.value.contains(&kind);
    makes(SheetKind::Exit) && !makes(SheetKind::Board) && !makes(SheetKind::Strips)
}

/// The fewest minutes in which all of the lesson is done.
pub fn least(spec: &Spec) -> u32 {
    Load::full(spec).least(spec)
}

/// Fewer minutes left over than this are not worth another activity, and the most that more activities with the same numbers
/// hold a class (common practice, no source).
const FURTHER: (u32, u32) = (6, 40);
/// Fewer minutes than this at the end are not worth a word.
const SPARE: u32 = 10;
/// From so many minutes on a lesson has a break of so many (common practice, no source).
const BREAKS: [(u32, u32); 2] = [(100, 10), (75, 5)];

/// The phases in teaching order with their minutes, which sum to exactly the lesson's.
pub fn share(spec: &Spec) -> Vec<(Phase, u32)> {
    let minutes = spec.minutes.value;
    let mut needs = load(spec, minutes).needs(spec);
    let insert = |needs: &mut Vec<Need>, phase: Phase, minutes: u32| {
        let at = needs.iter().position(|need| need.phase > phase).unwrap_or(needs.len());
        needs.insert(at, Need { phase, least: minutes, weight: 1, most: minutes });
    };
    let least: u32 = needs.iter().map(|need| need.least).sum();
    let rest = BREAKS.into_iter().find(|(from, rest)| minutes >= *from && minutes >= least + rest);
    if let Some((_, rest)) = rest.filter(|_| needs.iter().any(|need| need.phase == Phase::Sorting)) {
        insert(&mut needs, Phase::Break, rest);
    }
    let full: u32 = needs.iter().map(|need| need.most).sum();
    let left = minutes.saturating_sub(full);
    if left >= FURTHER.0 {
        // What nobody can fill with these papers is said to be over.
        let over = left.saturating_sub(FURTHER.1);
        let spare = if over < SPARE { 0 } else { over };
        insert(&mut needs, Phase::Further, left - spare);
        if spare > 0 {
            insert(&mut needs, Phase::Spare, spare);
        }
    }
    let mut shares: Vec<u32> = needs.iter().map(|need| need.least).collect();
    // A load that is brisk may need a minute less than there is, never more: the least lesson has ten.
    let least: u32 = shares.iter().sum();
    // One minute at a time to the phase that is furthest behind its weight: no phase jumps, and the sum is exact.
    for _ in least..minutes {
        let behind = |k: &usize| {
            let extra = u64::from(shares[*k] - needs[*k].least);
            // Cross-multiplied by a common multiple of the weights 1, 2, 3 and 5, so that no fraction is rounded.
            (extra * 30 + 15) / u64::from(needs[*k].weight)
        };
        let open = (0..needs.len()).filter(|&k| shares[k] < needs[k].most).min_by_key(behind);
        // A few minutes more than every phase can use go to the longest work.
        let Some(next) = open.or_else(|| (0..needs.len()).max_by_key(|&k| needs[k].weight)) else { break };
        shares[next] += 1;
    }
    needs.iter().map(|need| need.phase).zip(shares).collect()
}

/// Where the file is silent about its minutes they grow to what the lesson needs, in steps of five.
pub fn settle_minutes(spec: &mut Spec) {
    let least = least(spec);
    if spec.minutes.is_assumed() && spec.minutes.value < least {
        let most = limits::MINUTES.most.narrow();
        spec.minutes = Given::assumed(least.next_multiple_of(5).min(most));
    }
}

/// Where the file is silent about its sheets, those that there is no time for are not made.
pub fn settle_sheets(spec: &mut Spec) {
    if spec.sheets.make.is_assumed() {
        let load = load(spec, spec.minutes.value);
        let uncut = load.strips == StripUse::Written && Load::full(spec).strips == StripUse::Cut;
        spec.sheets.make.value.retain(|kind| match kind {
            SheetKind::Strips => !uncut,
            // One number in two minutes is drawn: nothing is worth cutting out for it.
            kind => !(load.brisk && kind.is_for_work()),
        });
    }
}

/// The lesson with all sheets that are made where there is time for them.
fn with_all_sheets(spec: &Spec) -> Spec {
    let mut whole = spec.clone();
    if whole.sheets.make.is_assumed() {
        whole.sheets.make.value = usual_sheets(&spec.numbers);
    }
    whole
}

/// What is cut down because the lesson is short, in plain words for whoever plans it; `None` where all of it fits. Checks were made
/// with so many questions each.
pub fn told(spec: &Spec, questions: u32) -> Option<String> {
    let minutes = spec.minutes.value;
    let whole = with_all_sheets(spec);
    let (full, load) = (Load::full(&whole), load(spec, minutes));
    let left_out = |kind| whole.sheets.make.value.contains(&kind) && !spec.sheets.make.value.contains(&kind);
    let mut less = Vec::new();
    if load.rows < full.rows {
        let what = if whole.sheets.make.value.contains(&SheetKind::Board) { "rows" } else { "numbers to write" };
        less.push(match load.rows {
            0 => format!("no {what}"),
            rows => format!("{rows} of {} {what}", full.rows),
        });
    }
    if load.models < full.models {
        less.push(format!("{} of {} model numbers", load.models, full.models));
    }
    if full.together && !load.together {
        less.push("no example worked together".to_owned());
    }
    if load.strips != full.strips {
        less.push(if left_out(SheetKind::Strips) { "no strips" } else { "strips that stay uncut" }.to_owned());
    }
    if left_out(SheetKind::Record) {
        less.push("no mats, blocks, cards, recording sheets and word banks".to_owned());
    }
    if full.sharing && !load.sharing {
        less.push("no sharing at the end".to_owned());
    }
    if load.questions < full.questions.min(questions) {
        less.push(format!("{} of {questions} questions", load.questions));
    }
    if less.is_empty() {
        return None;
    }
    let ask = match load.strips {
        _ if left_out(SheetKind::Strips) => "; list `strips` under sheets.make to print them all the same",
        StripUse::Written if full.strips != StripUse::Written => "; leave `strips` out of sheets.make to print none",
        _ => "",
    };
    Some(format!(
        "{minutes} minutes are short for this lesson, which takes {}: the plan has {}{ask}",
        least(&whole),
        less.join(", ")
    ))
}
