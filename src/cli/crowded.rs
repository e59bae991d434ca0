//! What large block pictures cost: boards on which each row takes a page of its own, and what would take less paper.

use std::path::Path;

use super::gather::{Planned, Shared};
use crate::lesson::SortSet;
use crate::lesson::job::{FileFacts, JobFacts};
use crate::sheets::packets::Packet;
use crate::spec::{FormsSpec, SheetKind, Spec};

/// Boards of so many pages are worth a word.
const MANY: usize = 3;

/// What is said of boards with a row a page; what else would take is counted by making the lesson so. `None` where there are
/// none, or where nothing that was tried takes fewer sheets.
pub fn told(shared: &Shared, path: &Path, planned: &Planned, packets: &[Packet<'_>], job: &JobFacts) -> Option<String> {
    let lesson = &planned.lesson;
    let crowded: Vec<&SortSet> = lesson.sets.iter().filter(|set| is_crowded(set, packets)).collect();
    let pages = crowded.iter().map(|set| set.rows.len()).max()?;
    let fewer = |change: &dyn Fn(&mut Spec)| {
        let other = shared.otherwise(path, planned, change).ok()?;
        let (_, then) = shared.lay(&other, &[]).ok()?;
        sheets(job).checked_sub(sheets(&then)).filter(|saved| *saved > 0)
    };
    let group = |set: &&SortSet| set.group.and_then(|group| lesson.groups.get(group)?.name.clone());
    let groups: Vec<Option<String>> = crowded.iter().map(group).collect();
    let mut ways = Vec::new();
    let unpictured = fewer(&|spec: &mut Spec| {
        if groups.contains(&None) {
            without_pictures(&mut spec.forms);
        }
        for group in &mut spec.groups {
            // A group that is silent has the class's forms.
            if groups.contains(&Some(group.name.value.clone())) {
                without_pictures(&mut group.forms);
            }
        }
    });
    ways.extend(unpictured.map(|saved| format!("without these pictures under `match` {saved} fewer")));
    for &paper in lesson.spec.paper.value.larger() {
        let saved = fewer(&|spec: &mut Spec| spec.paper.value = paper);
        ways.extend(saved.map(|saved| format!("on `paper = \"{}\"` {saved} fewer", paper.word())));
    }
    let letters: Vec<String> = crowded.iter().map(|set| set.version.to_string()).collect();
    let boards = if letters.len() == 1 { "board" } else { "boards" };
    let all = sheets(job);
    (!ways.is_empty()).then(|| {
        format!(
            "the block pictures of {boards} {} are so large that each row has a page of its own, up to {pages} a board; \
             the class copies take {all} sheets, {}",
            letters.join(", "),
            ways.join(", ")
        )
    })
}

fn sheets(job: &JobFacts) -> usize {
    job.files.iter().map(FileFacts::sheets).sum()
}

/// Whether each row of a set's board, one with pictures, has a page of its own.
fn is_crowded(set: &SortSet, packets: &[Packet<'_>]) -> bool {
    let board = |packet: &Packet<'_>| {
        packet.entries().filter(|page| page.sheet == SheetKind::Board && page.version == Some(set.version)).count()
    };
    let pictured = set.given.is_picture() || set.forms.iter().any(|form| form.is_picture());
    pictured && set.rows.len() >= MANY && packets.first().map(board) == Some(set.rows.len())
}

/// Takes the pictures out of what is matched, while there is enough to match without them.
fn without_pictures(forms: &mut FormsSpec) {
    let rest: Vec<_> = forms.matched.value.iter().copied().filter(|form| !form.is_picture()).collect();
    if rest.len() > 1 {
        forms.matched.value = rest;
    }
}
