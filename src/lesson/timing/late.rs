//! What there is time for where a lesson starts late.
//!
//! In: a [`Spec`] and the minutes that are left. Out: a [`Load`] whose minutes in the lesson's own plan come to no more than
//! are left, so that whoever holds the plan can add them up. A phase of which a part is done takes that part of its minutes in the
//! plan, by the numbers, rows or questions that are left of it or by the work that is left of it, whichever is more: kits
//! are given out for one number as for three, and strips are all cut before the first row is matched. Where nothing is built or cut,
//! clearing away takes half of its minutes. What does not fit goes in this order (common practice, no source): rows down to half,
//! never under three; sharing; model numbers down to half; the cutting; rows down to three; the example worked together; model
//! numbers down to one; questions of the quick check down to half, then to one; rows down to two; what is built; rows down to one;
//! and at last the opening, so that a row and a question are left. A lesson that is there for its checks loses its questions only
//! after all of these. What a later cut freed goes back to what was cut first.

use super::{Load, Phase, ROWS, StripUse, for_checks, load, share};
use crate::spec::{SheetKind, Spec};

/// The lesson's plan: its minutes, and what it has time for.
struct Planned<'a> {
    spec: &'a Spec,
    whole: Load,
    /// Each phase with its minutes and with the work of all of it.
    shares: Vec<(Phase, u32, u32)>,
}

impl Planned<'_> {
    /// The minutes of a load by the plan's own, each phase in whole minutes.
    fn takes(&self, load: &Load) -> u32 {
        self.shares.iter().map(|share| self.part(*share, load)).sum()
    }

    /// Of a phase that takes so many minutes in the plan, those of a load.
    fn part(&self, (phase, minutes, all): (Phase, u32, u32), load: &Load) -> u32 {
        let part = |(done, of): (u32, u32)| if of == 0 { 0 } else { (minutes * done).div_ceil(of) };
        let work = part((load.work(self.spec, phase), all));
        let counted = match phase {
            Phase::Building => (load.models, self.whole.models),
            Phase::Sorting => (load.rows, self.whole.rows),
            Phase::Exit => (load.questions, self.whole.questions),
            // What was never taken out is not put back.
            Phase::Clearing => return part((if load.takes_out() || !self.whole.takes_out() { 2 } else { 1 }, 2)),
            _ => return work,
        };
        part(counted).max(work)
    }

    /// All that the plan does and ever less, by the rule at the head of this file, each with its minutes.
    fn and_less(&self) -> Vec<(u32, Load)> {
        let whole = self.whole;
        let half = |count: u32, least: u32| count.div_ceil(2).max(least.min(count));
        let mut all = vec![whole];
        let mut now = whole;
        let mut down = |change: &mut dyn FnMut(&mut Load)| {
            change(&mut now);
            all.push(now);
        };
        let rows = half(whole.rows, ROWS);
        for rows in (rows..whole.rows).rev() {
            down(&mut |load| load.rows = rows);
        }
        down(&mut |load| load.sharing = false);
        let models = half(whole.models, 1);
        for models in (models..whole.models).rev() {
            down(&mut |load| load.models = models);
        }
        if whole.strips == StripUse::Cut {
            let board = self.spec.sheets.make.value.contains(&SheetKind::Board);
            down(&mut |load| load.strips = if board { StripUse::Written } else { StripUse::Whole });
        }
        for rows in (ROWS.min(rows)..rows).rev() {
            down(&mut |load| load.rows = rows);
        }
        // Without model numbers the example is all that is built.
        down(&mut |load| load.together &= load.models == 0);
        for models in (1..models).rev() {
            down(&mut |load| load.models = models);
        }
        let asked = [half(whole.questions, 1), whole.questions.min(1)];
        let for_checks = for_checks(self.spec);
        for questions in asked.into_iter().filter(|_| !for_checks) {
            down(&mut |load| load.questions = questions);
        }
        let few = ROWS.min(rows);
        for rows in (2..few).rev() {
            down(&mut |load| load.rows = rows);
        }
        if whole.rows > 0 {
            down(&mut |load| (load.models, load.together) = (0, false));
        }
        down(&mut |load| load.rows = load.rows.min(1));
        for questions in asked.into_iter().filter(|_| for_checks) {
            down(&mut |load| load.rows = 0);
            down(&mut |load| load.questions = questions);
        }
        if whole.rows + whole.models > 0 {
            down(&mut |load| load.opening = false);
        }
        all.into_iter().map(|load| (self.takes(&load), load)).collect()
    }

    /// What fits into so many minutes, never more of anything than `longer` has, unless nothing is built any more.
    fn fitted(&self, minutes: u32, all: &[(u32, Load)], longer: Load) -> Load {
        let fits = |load: &Load| self.takes(load) <= minutes;
        let first = all.iter().find(|(takes, _)| *takes <= minutes).or(all.last());
        let mut load = first.map_or(longer, |(_, load)| *load);
        let builds = |load: &Load| load.models > 0 || load.together;
        let longer = if builds(&longer) && !builds(&load) {
            // All that building took goes to what is written.
            Load { rows: ROWS.min(self.whole.rows), questions: self.whole.questions, ..longer }
        } else {
            longer
        };
        load.sharing &= longer.sharing;
        load.together &= longer.together;
        load.grown(longer, fits)
    }
}

/// What there is time for by the minutes of a lesson that are left, at least 10: never all of the lesson, and never more of anything
/// than with more minutes left, unless those would be for building.
pub fn late(spec: &Spec) -> impl Fn(u32) -> Load {
    let mut shares = share(spec);
    // Nobody takes a break, or looks for more to do, in what is left of a lesson.
    shares.retain(|(phase, _)| !matches!(phase, Phase::Break | Phase::Further | Phase::Spare));
    let whole = load(spec, spec.minutes.value);
    let with_work = |(phase, minutes): (Phase, u32)| (phase, minutes, whole.work(spec, phase));
    let planned = Planned { spec, whole, shares: shares.into_iter().map(with_work).collect() };
    let all = planned.and_less();
    move |minutes| {
        let whole = planned.whole;
        let top = planned.takes(&whole).saturating_sub(1);
        let (mut longer, mut now) = (whole, top);
        while now > minutes.min(top) {
            longer = planned.fitted(now, &all, longer);
            now -= 1;
        }
        planned.fitted(now, &all, longer)
    }
}
