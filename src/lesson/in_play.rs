//! The slips in play: those behind the decoys and wrong choices of this lesson, each with its letter.
//!
//! Worked out once. Key, tally, plan and small groups all show this list, so a slip has one letter wherever it is met.

use super::exit::check::Check;
use super::types::{SortSet, Wrong};
use crate::number::Slip;
use crate::spec::{SheetKind, Spec};

/// A slip that learners of this lesson can show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InPlay {
    /// Its letter in key, tally, plan and small groups: `a` for the slip that can be seen most often.
    pub letter: char,
    /// The slip.
    pub slip: Slip,
    /// What it makes in this lesson, decoys first: never empty.
    pub seen: Vec<Wrong>,
}

/// The slips in play, those that can be seen most often first.
pub(super) fn list<'l>(
    spec: &Spec,
    sets: impl IntoIterator<Item = &'l SortSet>,
    checks: impl IntoIterator<Item = &'l Check>,
) -> Vec<InPlay> {
    let makes = |kind| spec.sheets.make.value.contains(&kind);
    let decoys = sets.into_iter().filter(|_| makes(SheetKind::Strips)).flat_map(SortSet::decoys);
    let questions = checks.into_iter().filter(|_| makes(SheetKind::Exit)).flat_map(|check| &check.questions);
    let choices = questions.flat_map(|question| {
        question.wrong().map(|(_, choice, slip)| Wrong {
            of: question.of,
            task: question.task,
            content: choice.content.clone(),
            slip,
        })
    });
    let mut found: Vec<(Slip, Vec<Wrong>)> = Vec::new();
    for wrong in decoys.chain(choices) {
        match found.iter_mut().find(|(slip, _)| *slip == wrong.slip) {
            Some((_, seen)) => seen.push(wrong),
            None => found.push((wrong.slip, vec![wrong])),
        }
    }
    found.sort_by_key(|(slip, seen)| (std::cmp::Reverse(seen.len()), *slip));
    ('a'..='z').zip(found).map(|(letter, (slip, seen))| InPlay { letter, slip, seen }).collect()
}
