//! What the cover says of this packet: its pages, its copies, its cautions.

use crate::lesson::Lesson;
use crate::lesson::job::{Cutter, For, JobFacts};
use crate::number::Number;
use crate::sheets::kinds::cover::PageRun;
use crate::spec::SheetKind;
use crate::wording::cover::{Caution, PageRange};

/// Numbers that are written on the board by hand, at most.
const BY_HAND: usize = 6;

/// The pages from the first run of a kind to the last; `None` without one.
fn pages(runs: &[PageRun], wanted: impl Fn(&PageRun) -> bool) -> Option<PageRange> {
    let found: Vec<&PageRun> = runs.iter().filter(|run| wanted(run)).collect();
    Some(PageRange { first: found.first()?.pages.first, last: found.last()?.pages.last })
}

/// What to do first.
pub(super) fn first(lesson: &Lesson, runs: &[PageRun]) -> Vec<String> {
    let (wording, usage) = (lesson.wording(), lesson.usage());
    let mut items = Vec::new();
    items.extend(pages(runs, |run| run.sheet == SheetKind::Plan).map(|plan| wording.read_plan(plan)));
    items.push(wording.lay_out_first().to_owned());
    let first = lesson.chosen.model.first().or_else(|| lesson.chosen.sort.first().and_then(|rows| rows.first()));
    items.extend(first.map(|number| wording.write_first(*number, &usage)));
    // The answers to boards are a version's; those to quick checks are everyone's.
    let boards = pages(runs, |run| run.sheet == SheetKind::Key && run.version.is_some());
    let checks = pages(runs, |run| run.sheet == SheetKind::Key && run.version.is_none());
    items.push(wording.answers_on(boards, checks));
    items
}

/// How to go on without copies: what to copy how often, and what to do without a copier.
pub(super) fn missing(lesson: &Lesson, job: &JobFacts, runs: &[PageRun]) -> Vec<String> {
    let wording = lesson.wording();
    let mut items = Vec::new();
    let mut copies: Vec<(u32, Vec<PageRange>)> = Vec::new();
    for run in runs.iter().filter(|run| matches!(run.reader, For::Learner(_))) {
        // The packet has set A only: whoever would have another letter gets it too.
        let count = match run.version {
            // Of a group's sheets its first letter is here.
            Some(version) if !job.groups.is_empty() => job.needed_in_group(run.sheet, version),
            _ => job.needed(run.sheet, None),
        };
        match copies.iter_mut().find(|(of, _)| *of == count) {
            Some((_, ranges)) => match ranges.last_mut() {
                Some(last) if last.last + 1 == run.pages.first => last.last = run.pages.last,
                _ => ranges.push(run.pages),
            },
            None => copies.push((count, vec![run.pages])),
        }
    }
    if !copies.is_empty() {
        let several = lesson.sets.len() > 1 && lesson.groups.is_empty();
        let first = lesson.sets.first().filter(|_| several).map(|set| set.version.to_string());
        items.push(wording.copy_pages(&copies, first.as_deref()));
        let shares = lesson.shares();
        if !shares.is_empty() {
            items.push(wording.first_letters(&shares));
        }
    }
    let rows = lesson.chosen.sort.first().map_or(&[][..], |rows| rows);
    let numbers: Vec<Number> = rows.iter().copied().take(BY_HAND).collect();
    items.push(wording.no_copier(&numbers, &lesson.spec.forms.matched.value, &lesson.usage()));
    items
}

/// What to be careful about: only what this lesson has.
pub(super) fn cautions(lesson: &Lesson, job: &JobFacts) -> Vec<String> {
    let mut all = vec![Caution::SchoolFirst];
    if job.cut_by(Cutter::Learner).next().is_some() {
        all.extend([Caution::Scissors, Caution::NoScissors]);
    }
    if job.cut_by(Cutter::Teacher).chain(job.cut_by(Cutter::CopyRoom)).next().is_some() {
        all.push(Caution::Guillotine);
    }
    if job.has(SheetKind::Blocks) || job.has(SheetKind::Strips) {
        all.push(Caution::SmallPieces);
    }
    all.into_iter().map(|caution| lesson.wording().caution(caution).to_owned()).collect()
}
