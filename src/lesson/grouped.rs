//! A lesson whose class has groups with numbers of their own.
//!
//! The class that is left over and each group are parts: each has numbers chosen for its own requests, exactly and evenly,
//! with a seed of its own, away from the model numbers that all build. Letters of versions and marks of checks run on
//! through the parts in an order that the seed shuffles, so that neither tells who has which numbers.

use std::sync::Arc;

use super::choose;
use super::exit;
use super::in_play;
use super::planned::{Lesson, LessonGroup};
use super::settle::{settle, settle_cards, sort_sets, style};
use super::timing;
use super::types::{Chosen, SortSet};
use crate::diag::{Diagnostic, Source};
use crate::measure::Count;
use crate::number::Number;
use crate::rng::Stream;
use crate::spec::{Given, GroupSpec, RoleSpec, Spec};
use crate::wording;

/// The names of a class, and who is in which group.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Roster {
    /// The names in order; empty without a roster.
    pub names: Vec<String>,
    /// For each name its group, as an index into the lesson file's groups; none for whoever is in no group. Empty where the
    /// roster does not say.
    pub groups: Vec<Option<usize>>,
}

impl From<Vec<String>> for Roster {
    fn from(names: Vec<String>) -> Self {
        Self { names, groups: Vec::new() }
    }
}

/// The class that is left over, or a group.
struct ClassPart {
    /// Which group, as an index into the lesson file's groups.
    group: Option<usize>,
    /// What is asked for it, as for a class of its own.
    spec: Spec,
    /// How many learners.
    learners: u32,
}

/// Plans the lesson; see [`super::plan`].
pub(super) fn plan(
    source: &Arc<Source>,
    mut spec: Spec,
    roster: Roster,
    memory: &choose::Memory,
) -> Result<Lesson, Vec<Diagnostic>> {
    let mut wrong = settle(source, &mut spec, &roster.names);
    let mut parts = parts(&spec, &roster);
    Stream::new(spec.seed.value, "groups in order").shuffle(&mut parts);
    let model = match choose::choose_with(&only(&spec, true), source, memory) {
        Ok(chosen) => chosen,
        Err(found) => {
            wrong.extend(found);
            return Err(wrong);
        }
    };
    let mut whole = Whole::default();
    for part in &mut parts {
        if let Err(found) = whole.add(source, &spec, &model, part, memory) {
            let of_group = |diagnostic: Diagnostic| match part.group.and_then(|at| spec.groups.get(at)) {
                Some(GroupSpec { name, .. }) => of_group(diagnostic, name, source),
                None => diagnostic,
            };
            wrong.extend(found.into_iter().map(of_group));
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(whole.lesson(spec, model, &parts, roster))
}

/// A problem of a group: it says which, and stands at least at the group's name.
fn of_group(diagnostic: Diagnostic, name: &Given<String>, source: &Arc<Source>) -> Diagnostic {
    let Diagnostic { severity, place, problem, related } = diagnostic;
    let problem = problem.of_group(&name.value);
    match (place, name.span()) {
        (None, Some(span)) => problem.at(source, span),
        (place, _) => Diagnostic { severity, place, problem, related },
    }
}

/// The spec with model numbers alone, or with all but them.
fn only(spec: &Spec, model: bool) -> Spec {
    let mut less = spec.clone();
    let roles =
        if model { vec![&mut less.numbers.sort, &mut less.numbers.exit] } else { vec![&mut less.numbers.model] };
    for role in roles {
        *role = RoleSpec::default();
    }
    less
}

/// The parts that have learners.
fn parts(spec: &Spec, roster: &Roster) -> Vec<ClassPart> {
    let counted = |at: usize, group: &GroupSpec| match group.learners {
        _ if !roster.groups.is_empty() => roster.groups.iter().filter(|of| **of == Some(at)).count().narrow(),
        Some(learners) => learners.value,
        None => 0,
    };
    let mut parts: Vec<ClassPart> = Vec::new();
    for (at, group) in spec.groups.iter().enumerate() {
        let mut own = Spec { numbers: group.numbers.clone(), forms: group.forms.clone(), ..spec.clone() };
        own.class.versions = group.versions;
        parts.push(ClassPart { group: Some(at), spec: own, learners: counted(at, group) });
    }
    let grouped: u32 = parts.iter().map(|part| part.learners).sum();
    let left = spec.class.learners.value.saturating_sub(grouped);
    if left > 0 {
        parts.push(ClassPart { group: None, spec: only(spec, false), learners: left });
    }
    parts.retain(|part| part.learners > 0);
    parts
}

/// What is known of all parts so far, in the order of the letters.
#[derive(Default)]
struct Whole {
    sets: Vec<SortSet>,
    checks: Vec<exit::Check>,
    groups: Vec<LessonGroup>,
    chosen: Vec<Chosen>,
    notes: Vec<String>,
}

impl Whole {
    /// Chooses the numbers of the next part and makes its sets and checks.
    fn add(
        &mut self,
        source: &Arc<Source>,
        lesson: &Spec,
        model: &Chosen,
        part: &mut ClassPart,
        memory: &choose::Memory,
    ) -> Result<(), Vec<Diagnostic>> {
        let name = part.group.and_then(|at| lesson.groups.get(at)).map(|group| group.name.value.clone());
        let purpose = format!("group {}", name.as_deref().unwrap_or_default());
        let mut seeded = part.spec.clone();
        if part.group.is_some() {
            seeded.seed = Given::assumed(Stream::new(lesson.seed.value, &purpose).bits() >> 1);
        }
        let mut chosen = apart(&seeded, &model.model, source, memory)?;
        let first = self.sets.len();
        let style = style(&part.spec);
        let letter = u8::try_from(first).unwrap_or(u8::MAX);
        let mut sets = sort_sets(source, &mut part.spec, &mut chosen, &style, letter)?;
        for set in &mut sets {
            set.group = Some(self.groups.len());
        }
        seeded.forms = part.spec.forms.clone();
        let seen = Chosen { model: model.model.clone(), ..chosen.clone() };
        let mut checks = exit::checks(&seeded, &seen, &style, wording::of(lesson.language.value), &self.checks);
        let marks = self.checks.iter().map(|check| check.mark).max().unwrap_or(0);
        for check in &mut checks {
            check.mark += marks;
        }
        let told = exit::unasked(&chosen, &checks).into_iter().chain(std::mem::take(&mut chosen.notes));
        let told =
            told.chain(part.group.and_then(|at| lesson.groups.get(at)).into_iter().flat_map(|g| g.notes.clone()));
        let named = |note: String| name.as_ref().map_or_else(|| note.clone(), |name| format!("group `{name}`: {note}"));
        self.notes.extend(told.map(named));
        self.groups.push(LessonGroup {
            name,
            numbers: part.spec.numbers.clone(),
            forms: part.spec.forms.clone(),
            style,
            learners: Vec::new(),
            versions: sets.iter().map(|set| set.version).collect(),
            exit: chosen.exit.clone(),
            checks: checks.iter().map(|check| check.mark).collect(),
            solutions: chosen.solutions.clone(),
        });
        self.sets.extend(sets);
        self.checks.extend(checks);
        self.chosen.push(chosen);
        Ok(())
    }

    /// The lesson of all parts.
    fn lesson(self, mut spec: Spec, model: Chosen, parts: &[ClassPart], roster: Roster) -> Lesson {
        let Self { sets, checks, mut groups, chosen: own, mut notes } = self;
        members(&mut groups, parts, &roster, spec.class.learners.value);
        let mut chosen = model;
        chosen.sort = own.iter().flat_map(|own| own.sort.iter().filter(|set| !set.is_empty()).cloned()).collect();
        settle_cards(&mut spec, &chosen);
        chosen.exit = own.iter().flat_map(|own| own.exit.clone()).collect();
        for own in own {
            for (number, reasons) in own.why {
                let known = chosen.why.entry(number).or_default();
                let new: Vec<_> = reasons.into_iter().filter(|reason| !known.contains(reason)).collect();
                known.extend(new);
            }
        }
        if !parts.iter().any(|part| part.group.is_none()) {
            // Nobody is left over: what is said of the class is said of its fullest group.
            let fullest = parts.iter().max_by_key(|part| part.spec.numbers.sort.count.value);
            if let Some(part) = fullest {
                spec.numbers.sort = part.spec.numbers.sort.clone();
                spec.numbers.exit = part.spec.numbers.exit.clone();
                spec.forms = part.spec.forms.clone();
            }
        } else if let Some(rest) = parts.iter().find(|part| part.group.is_none()) {
            spec.forms = rest.spec.forms.clone();
        }
        let mut fullest = spec.clone();
        for part in parts {
            let larger = |one: Given<u32>, other: Given<u32>| if other.value > one.value { other } else { one };
            fullest.numbers.sort.count = larger(fullest.numbers.sort.count, part.spec.numbers.sort.count);
            fullest.numbers.exit.count = larger(fullest.numbers.exit.count, part.spec.numbers.exit.count);
            fullest.forms.decoys = larger(fullest.forms.decoys, part.spec.forms.decoys);
            if part.spec.forms.matched.value.len() > fullest.forms.matched.value.len() {
                fullest.forms.matched = part.spec.forms.matched.clone();
            }
        }
        // Its sheets are the class's: what is printed was settled before the sets were made.
        timing::settle_minutes(&mut fullest);
        spec.minutes = fullest.minutes;
        chosen.notes.append(&mut notes);
        chosen.notes.extend(timing::told(&fullest, exit::longest(&checks)));
        let slips = in_play::list(&spec, &sets, &checks);
        let style = style(&spec);
        let (roster, warm_up) = (roster.names, None);
        Lesson { spec, fullest, style, chosen, sets, checks, slips, roster, groups, warm_up }.warmed_up()
    }
}

/// Chooses the numbers of a part, away from the model numbers where its range has room for that.
fn apart(
    spec: &Spec,
    model: &[Number],
    source: &Arc<Source>,
    memory: &choose::Memory,
) -> Result<Chosen, Vec<Diagnostic>> {
    let mut away = spec.clone();
    let sort = &away.numbers.sort;
    let own = sort.by_name().map(|(_, given)| given).chain(&away.numbers.exit.always);
    let forced: Vec<Number> = own.map(|given| given.value).collect();
    let barred = model.iter().filter(|number| !forced.contains(number));
    away.numbers.never.extend(barred.map(|number| Given::assumed(*number)));
    if let Ok(chosen) = choose::choose_with(&away, source, memory) {
        return Ok(chosen);
    }
    let mut chosen = choose::choose_with(spec, source, memory)?;
    let all = || chosen.sort.iter().flatten().chain(&chosen.exit);
    if all().any(|number| model.contains(number)) {
        chosen.notes.push("some numbers are model numbers too: the range allows no other set".to_owned());
    }
    Ok(chosen)
}

/// Who is in which part: as the roster says, else one part after the other in the order of the letters.
fn members(groups: &mut [LessonGroup], parts: &[ClassPart], roster: &Roster, learners: u32) {
    let mut next = 1;
    for (group, part) in groups.iter_mut().zip(parts) {
        group.learners = if roster.groups.is_empty() {
            let from = next;
            next += part.learners;
            (from..next).collect()
        } else {
            let of = |number: u32| {
                let at = usize::try_from(number).ok().and_then(|number| number.checked_sub(1));
                at.and_then(|at| roster.groups.get(at)).copied().flatten()
            };
            (1..=learners).filter(|number| of(*number) == part.group).collect()
        };
    }
}
