//! What the cover says of this packet: its pages, its copies, its cautions.

use super::runs::PageRun;
use crate::lesson::job::{Cutter, For, JobFacts, KITS};
use crate::lesson::teach::{Means, cuts, models};
use crate::lesson::{Lesson, SortSet, display};
use crate::measure::Count;
use crate::number::{Form, Number};
use crate::spec::SheetKind;
use crate::wording::class_groups::GroupShare;
use crate::wording::cover::{ByHand, Caution, CopiedSets, KeyPages, PageRange, SortSheets};

/// Numbers that are written on the board by hand, at most.
const BY_HAND: usize = 6;
/// The same where each group has a list of its own.
const BY_HAND_EACH: usize = 3;
/// More lists than these are not spelled out: their numbers are on the boards.
const LISTS: usize = 3;

/// The pages from the first run of a kind to the last; `None` without one.
fn pages(runs: &[PageRun], wanted: impl Fn(&PageRun) -> bool) -> Option<PageRange> {
    let found: Vec<&PageRun> = runs.iter().filter(|run| wanted(run)).collect();
    Some(PageRange { first: found.first()?.pages.first, last: found.last()?.pages.last })
}

/// What to do first.
pub(super) fn first(means: &Means<'_>, runs: &[PageRun]) -> Vec<String> {
    let lesson = means.lesson;
    let (wording, usage) = (lesson.wording(), lesson.usage());
    let mut items = Vec::new();
    items.extend(pages(runs, |run| run.sheet == SheetKind::Plan).map(|plan| wording.read_plan(plan)));
    items.push(wording.lay_out_first(means.job.cut_by(Cutter::Teacher).next().is_some()).to_owned());
    // Only model numbers have display pages.
    let steps = runs.iter().any(|run| run.sheet == SheetKind::Display) && !display::steps(lesson).is_empty();
    let shown = |number: Number| steps && lesson.chosen.model.contains(&number);
    let sorted = lesson.common_set().and_then(|set| set.rows.first());
    let first = models(lesson).first().copied().or(sorted.copied());
    items.extend(first.map(|number| wording.begin_with(number, shown(number), &usage)));
    // The answers to boards are a version's; those to quick checks are everyone's.
    let keys = |run: &PageRun| run.sheet == SheetKind::Key && run.version.is_some();
    let sets = runs.iter().filter(|run| keys(run)).flat_map(|run| run.sets.iter().copied());
    let sets: Vec<_> = sets.filter(|_| lesson.sets.len() > 1).collect();
    let boards = pages(runs, keys).map(|all| KeyPages { all, sets });
    let has = |kind| runs.iter().any(|run| run.sheet == kind);
    let checks = pages(runs, |run| run.sheet == SheetKind::Key && run.version.is_none());
    let checks = checks.filter(|_| has(SheetKind::Exit));
    let sheets = match (has(SheetKind::Board), has(SheetKind::Strips)) {
        (true, true) => SortSheets::BoardsAndStrips,
        (true, false) => SortSheets::Boards,
        (false, true) => SortSheets::Strips,
        (false, false) => SortSheets::Numbers,
    };
    items.push(wording.answers_on(boards.map(|pages| (pages, sheets)), checks, has(SheetKind::Exit)));
    items
}

/// How many copies of a learner's pages are needed where there are none.
pub(super) fn copies(job: &JobFacts, run: &PageRun) -> Option<u32> {
    let For::Learner(_) = run.reader else { return None };
    if run.sheet == SheetKind::Strips && written_instead(job) || kits_done_without(job).contains(&run.sheet) {
        return None;
    }
    // The packet has set A only: whoever would have another letter gets it too.
    Some(match run.version {
        // Of a group's sheets its first letter is here.
        Some(version) if !job.groups.is_empty() => job.needed_in_group(run.sheet, version),
        _ => job.needed(run.sheet, None),
    })
}

/// Whether learners write on boards: where nobody has time to cut strips, or the copy room that would have cut them sent none.
fn written_instead(job: &JobFacts) -> bool {
    let cutter = job.sheet(SheetKind::Strips).map(|strips| strips.cutter);
    job.has(SheetKind::Board) && matches!(cutter, Some(Cutter::CopyRoom | Cutter::Later))
}

/// Kits that the copy room would have cut: without it nobody has them, and the plan says how to do without.
fn kits_done_without(job: &JobFacts) -> Vec<SheetKind> {
    let kits = job.cut_by(Cutter::CopyRoom).map(|sheet| sheet.kind);
    kits.filter(|kind| KITS.contains(kind)).collect()
}

/// How to go on without copies: what to copy how often, and what to do without a copier.
pub(super) fn missing(means: &Means<'_>, runs: &[PageRun]) -> Vec<String> {
    let (lesson, job) = (means.lesson, means.job);
    let wording = lesson.wording();
    let mut items = Vec::new();
    if runs.iter().any(|run| matches!(run.reader, For::Learner(_))) {
        let uncut = written_instead(job);
        let unmarked = lesson.marks_strips() && !uncut;
        let apart = job.sheet(SheetKind::Exit).is_some_and(|checks| checks.cuts > 0);
        items.push(wording.copy_pages(&copied(lesson, runs), uncut, &kits_done_without(job), unmarked, apart));
    }
    // What all work with, where groups match other forms.
    let mut forms = lesson.spec.forms.matched.value.clone();
    let of_all = |form: &Form| lesson.groups.iter().all(|group| group.forms.matched.value.contains(form));
    if forms.iter().any(|form| *form != Form::Numeral && of_all(form)) {
        forms.retain(of_all);
    }
    items.push(wording.no_copier(&by_hand(lesson, runs), &forms, &lesson.usage()));
    items
}

/// Which of its sets a class works with where all copies are made from this packet.
fn copied(lesson: &Lesson, runs: &[PageRun]) -> CopiedSets {
    if !runs.iter().any(|run| matches!(run.reader, For::Learner(_)) && run.is_lettered()) {
        return CopiedSets::All;
    }
    match lesson.sets.as_slice() {
        [first, _, ..] if lesson.groups.is_empty() => CopiedSets::One(first.version),
        _ if lesson.groups.iter().any(|group| group.versions.len() > 1) => CopiedSets::FirstOfGroups,
        _ => CopiedSets::All,
    }
}

/// What goes on the board where nothing can be copied: of each set the rows that the plan has time for.
fn by_hand(lesson: &Lesson, runs: &[PageRun]) -> ByHand {
    let time = lesson.load().rows as usize;
    let rows = |set: &SortSet, most: usize| set.rows.iter().copied().take(most.min(time)).collect::<Vec<_>>();
    let list = |share: GroupShare| {
        let set = lesson.sets.iter().find(|set| share.versions.contains(&set.version))?;
        Some((share, rows(set, BY_HAND_EACH))).filter(|(_, rows)| !rows.is_empty())
    };
    let mut lists: Vec<_> = lesson.shares().into_iter().filter_map(list).collect();
    // Groups first, everyone else last.
    lists.sort_by_key(|(share, _)| share.name.is_none());
    let numbers = lesson.common_set().map_or(Vec::new(), |set| rows(set, BY_HAND));
    let check = lesson.checks.first().zip(pages(runs, |run| run.sheet == SheetKind::Exit));
    match check {
        _ if lists.len() > LISTS && runs.iter().any(|run| run.sheet == SheetKind::Board) => {
            ByHand::Boards(lists.iter().map(|(_, rows)| rows.len()).max().unwrap_or(0).narrow())
        }
        _ if !lists.is_empty() => ByHand::Lists(lists),
        _ if !numbers.is_empty() => ByHand::Numbers(numbers),
        Some((check, pages)) => ByHand::Check {
            mark: check.mark,
            page: pages.first,
            choices: check.questions.iter().any(|question| !question.choices.is_empty()),
        },
        None => ByHand::Aloud,
    }
}

/// What to be careful about: only what this lesson has.
pub(super) fn cautions(means: &Means<'_>) -> Vec<String> {
    let (lesson, job) = (means.lesson, means.job);
    let mut all = vec![Caution::SchoolFirst];
    if cuts(means) {
        let without = if job.has(SheetKind::Board) { Caution::NoScissors } else { Caution::NoScissorsNoBoxes };
        all.extend([Caution::Scissors, without]);
    }
    // What the copy room cuts is cut when it comes.
    if job.cut_by(Cutter::Teacher).next().is_some() {
        all.push(Caution::Guillotine);
    }
    if job.has(SheetKind::Blocks)
        || cuts(means)
        || job.sheet(SheetKind::Strips).is_some_and(|s| s.cutter == Cutter::CopyRoom)
    {
        all.push(Caution::SmallPieces);
    }
    let alone = lesson.has_one_learner();
    all.into_iter().map(|caution| lesson.wording().caution(caution, alone).to_owned()).collect()
}
