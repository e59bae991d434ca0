//! Which sort sets share sizes of strips and boxes.
//!
//! In: the sets of a lesson. Out: a [`Design`] for every set. The sets of one group of learners share one, so that its versions
//! look alike. Groups whose numbers differ in length do not: the pictures of thousands would make every learner's strips as
//! large as they are. Where strips are cut as piles, groups share a design, and so their piles, where that takes less paper.

use crate::diag::Problem;
use crate::lesson::{SortSet, Version};
use crate::sheets::kinds::pieces::{Design, search};
use crate::sheets::page::desk::{Desk, OnceFor};
use crate::sheets::page::division::Division;
use crate::spec::{Cut, SheetKind};

/// The designs of a lesson.
#[derive(Debug, Clone)]
pub struct Designs(Vec<(Design, Vec<Version>)>);

/// The best designs for this lesson, worked out once a desk. Fails when something fits no arrangement at its least size.
pub fn designs<'d>(desk: &'d Desk<'_>) -> Result<&'d Designs, Problem> {
    desk.once(OnceFor::Strips, Designs::of_lesson)
}

impl Designs {
    /// The design of a set's board and strips.
    pub fn of(&self, set: &SortSet) -> Result<&Design, Problem> {
        let found = self.0.iter().find(|(_, versions)| versions.contains(&set.version));
        found.map(|(design, _)| design).ok_or_else(|| Problem::new("internal: a sort set was never measured"))
    }

    /// Each design with the versions that share it, in the order of their letters.
    pub fn shared(&self) -> &[(Design, Vec<Version>)] {
        &self.0
    }

    fn of_lesson(desk: &Desk<'_>) -> Result<Self, Problem> {
        let stacked = desk.lesson.spec.print.cut.value == Cut::Stack;
        let mut parts: Vec<Part<'_>> = Vec::new();
        for sets in by_group(&desk.lesson.sets) {
            let mut own = Part::of(desk, sets)?;
            for part in parts.iter_mut().filter(|_| stacked).take(TRIED) {
                let together = Part::of(desk, [part.sets.as_slice(), &own.sets].concat());
                // What does not fit together stays apart.
                let Ok(together) = together else { continue };
                if together.leaves(desk)? <= part.leaves(desk)? + own.leaves(desk)? {
                    (*part, own) = (together, Part::default());
                    break;
                }
            }
            parts.extend((!own.sets.is_empty()).then_some(own));
        }
        let shared = |part: Part<'_>| {
            let mut versions: Vec<Version> = part.sets.iter().map(|set| set.version).collect();
            versions.sort_unstable();
            part.design.map(|design| (design, versions))
        };
        let mut all: Vec<(Design, Vec<Version>)> = parts.into_iter().filter_map(shared).collect();
        all.sort_by_key(|(_, versions)| versions.first().copied());
        if all.is_empty() { Err(Problem::new("the lesson has no numbers to sort")) } else { Ok(Self(all)) }
    }
}

/// A group is tried together with so many others: enough to find its like, and no class has to wait for all pairs.
const TRIED: usize = 3;

/// Sets that share a design.
#[derive(Default)]
struct Part<'s> {
    sets: Vec<&'s SortSet>,
    design: Option<Design>,
}

impl<'s> Part<'s> {
    fn of(desk: &Desk<'_>, sets: Vec<&'s SortSet>) -> Result<Self, Problem> {
        let design = Some(search(desk, &sets)?);
        Ok(Self { sets, design })
    }

    /// How many sheets of paper boards and piles of strips take for everyone who gets one of the sets.
    fn leaves(&self, desk: &Desk<'_>) -> Result<usize, Problem> {
        let Some(design) = &self.design else { return Ok(0) };
        let cut = desk.layout(SheetKind::Strips)?.cut;
        let places = Division::of(desk, design.single()?, Division::line_height(desk)?, cut)?.places();
        let seats = desk.lesson.seats(desk.lesson.spec.class.spares.value);
        let set = |version: Version| self.sets.iter().find(|set| set.version == version);
        let mine: Vec<&&SortSet> = seats.iter().filter_map(|seat| set(seat.version)).collect();
        let board: usize = mine.iter().map(|set| design.rows_of(set).len()).sum();
        let mut lengths: Vec<usize> = mine.iter().map(|set| set.strips.len() + BAND).collect();
        lengths.sort_unstable_by(|a, b| b.cmp(a));
        Ok(board + lengths.into_iter().step_by(places.max(1)).sum::<usize>())
    }
}

/// The piece on top of a set that says whose it is.
const BAND: usize = 1;

/// The sets of each group of learners; those of whoever is in none are one group.
fn by_group(sets: &[SortSet]) -> Vec<Vec<&SortSet>> {
    let mut groups: Vec<Vec<&SortSet>> = Vec::new();
    for set in sets {
        match groups.iter_mut().find(|group| group[0].group == set.group) {
            Some(group) => group.push(set),
            None => groups.push(vec![set]),
        }
    }
    groups
}
