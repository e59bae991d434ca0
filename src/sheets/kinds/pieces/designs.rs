//! Which sort sets share sizes of strips and boxes.
//!
//! In: the sets of a lesson. Out: a [`Design`] for every set. The sets of one group of learners share one, so that its versions
//! look alike. Groups whose numbers differ in length do not: the pictures of thousands would make every learner's strips as
//! large as they are. Where strips are cut as piles, groups share a design, and so their piles, where that takes less paper.

use crate::diag::Problem;
use crate::lesson::{SortSet, Version};
use crate::sheets::kinds::pieces::piled::{Piled, stacked};
use crate::sheets::kinds::pieces::{Design, advised, search};
use crate::sheets::page::desk::{Desk, OnceFor};
use crate::sheets::page::mark;

/// The designs of a lesson.
#[derive(Debug, Clone)]
pub struct Designs {
    shared: Vec<(Design, Vec<Version>)>,
}

/// The best designs for this lesson, worked out once a desk. Fails when something fits no arrangement at its least size.
pub fn designs<'d>(desk: &'d Desk<'_>) -> Result<&'d Designs, Problem> {
    desk.once(OnceFor::Strips, |desk| Designs::settle(desk, asked(desk)))
}

/// How many spare sets the lesson asks for.
fn asked(desk: &Desk<'_>) -> u32 {
    desk.lesson.spec.class.spares.value
}

impl Designs {
    /// The design of a set's board and strips.
    pub fn of(&self, set: &SortSet) -> Result<&Design, Problem> {
        let found = self.shared.iter().find(|(_, versions)| versions.contains(&set.version));
        found.map(|(design, _)| design).ok_or_else(|| Problem::new("internal: a sort set was never measured"))
    }

    /// Each design with the versions that share it, in the order of their letters.
    pub fn shared(&self) -> &[(Design, Vec<Version>)] {
        &self.shared
    }

    /// The designs if there were so many spare sets; `None` where they do not depend on that.
    pub fn with_spares(&self, desk: &Desk<'_>, spares: u32) -> Result<Option<Self>, Problem> {
        // How many sets a pile holds is weighed by how many there are.
        if !stacked(desk) && mark::digits(desk, spares) == mark::digits(desk, asked(desk)) {
            return Ok(None);
        }
        Self::settle(desk, spares).map(Some)
    }

    /// The best designs for so many spare sets.
    fn settle(desk: &Desk<'_>, spares: u32) -> Result<Self, Problem> {
        let mut parts: Vec<Part<'_>> = Vec::new();
        for sets in by_group(&desk.lesson.sets) {
            let own = Part::of(desk, spares, sets.clone());
            let mut own = own.map_err(|problem| advised(desk, spares, &sets, problem))?;
            for part in parts.iter_mut().filter(|_| stacked(desk)).take(TRIED) {
                let together = Part::of(desk, spares, [part.sets.as_slice(), &own.sets].concat());
                // What does not fit together stays apart.
                let Ok(together) = together else { continue };
                if together.leaves(desk, spares)? <= part.leaves(desk, spares)? + own.leaves(desk, spares)? {
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
        let mut shared: Vec<(Design, Vec<Version>)> = parts.into_iter().filter_map(shared).collect();
        shared.sort_by_key(|(_, versions)| versions.first().copied());
        if shared.is_empty() {
            return Err(Problem::new("the lesson has no numbers to sort"));
        }
        Ok(Self { shared })
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
    fn of(desk: &Desk<'_>, spares: u32, sets: Vec<&'s SortSet>) -> Result<Self, Problem> {
        let design = search(desk, spares, &sets)?;
        Ok(Self { sets, design: Some(design) })
    }

    /// How many sheets of paper boards and piles of strips take for everyone who gets one of the sets, with so many spare
    /// sets.
    fn leaves(&self, desk: &Desk<'_>, spares: u32) -> Result<usize, Problem> {
        let Some(design) = &self.design else { return Ok(0) };
        Piled::of(desk, spares, &self.sets)?.leaves(&design.rows, design.single()?)
    }
}

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
