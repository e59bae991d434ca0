//! Before the lesson: chores with their minutes, what to lay out for this class, and what to do with less time.

use super::closing::bags_strips;
use super::means::{BuiltWith, Means};
use super::models::models;
use crate::lesson::job::{Cutter, PrintedSheet};
use crate::lesson::timing::{self, Load, StripUse};
use crate::lesson::{Lesson, display};
use crate::measure::Count;
use crate::number::{Counted, Number, Place};
use crate::spec::{SheetKind, Spec, Version};
use crate::wording::cover::Papers;
use crate::wording::plan::{Chore, Phase, RowsBy, Short, Shortcut, SortedOn, Thing};

/// Straight cuts that a grown-up makes at a trimmer in a minute; halves of a minute to trim and join two pages of a mat, and to
/// count out a set of blocks (common practice, no source).
const CUTS: u32 = 10;
const JOIN_HALVES: u32 = 2;
const COUNT_HALVES: u32 = 2;

/// Whole minutes, at least one.
fn from_halves(halves: u32) -> u32 {
    halves.div_ceil(2).max(1)
}

/// Whether learners cut anything.
pub fn cuts(means: &Means<'_>) -> bool {
    let load = means.lesson.load();
    means.has(SheetKind::Strips) && load.rows > 0 && load.strips == StripUse::Cut
}

/// How many sets are counted out of the class's tub and the blocks of each place in one, where anything is built with them.
fn from_tub(means: &Means<'_>) -> Option<(u32, Counted)> {
    // What is built today; without model numbers it is one of those that are sorted.
    let lesson = means.lesson;
    let today = if lesson.chosen.model.is_empty() { lesson.chosen.built().collect() } else { models(lesson) };
    let [thousands, flats, rods, cubes] = lesson.tub_set(today.iter().copied())?;
    let sets = lesson.spec.class.learners.value.div_ceil(means.tub_share());
    let held = [cubes, rods, flats, thousands, 0, 0];
    today.iter().any(|number| means.built_with(*number) == BuiltWith::Tub).then_some((sets, held))
}

fn display_pages(means: &Means<'_>) -> u32 {
    display::pages(means.lesson).len().narrow()
}

/// What to do before the class comes in, each with its minutes.
pub(super) fn chores(means: &Means<'_>) -> Vec<(Chore, u32)> {
    let learners = means.lesson.spec.class.learners.value;
    let mut all = Vec::new();
    for sheet in means.job.cut_by(Cutter::Teacher) {
        let PrintedSheet { kind, sheets, copies, holds, pieces, all_cuts, .. } = *sheet;
        let chore = Chore::Cut { sheet: kind, sheets, copies, holds, pieces };
        all.push((chore, all_cuts.narrow().div_ceil(CUTS).max(1)));
    }
    for &PrintedSheet { copies, cube_cuts: cuts, .. } in means.job.sheets.iter().filter(|sheet| sheet.cube_cuts > 0) {
        let minutes = cuts.narrow().saturating_mul(copies).div_ceil(CUTS);
        all.push((Chore::CutCubes { copies, cuts }, minutes.max(1)));
    }
    if let Some(mat) = means.sheet(SheetKind::Mat).filter(|mat| mat.pages > 1) {
        let (copies, pages) = (mat.copies, means.pages(SheetKind::Mat));
        let joins = copies * (pages - 1) * JOIN_HALVES;
        all.push((Chore::Join { sheet: SheetKind::Mat, copies, pages }, from_halves(joins)));
    }
    if let Some((sets, held)) = from_tub(means) {
        all.push((Chore::CountOut(sets, held), from_halves(sets * COUNT_HALVES)));
    }
    if means.has(SheetKind::Display) && display_pages(means) > 0 {
        let model = &means.lesson.chosen.model;
        let built = models(means.lesson);
        let some = built.len() < model.len();
        let built =
            (1..).zip(model).filter(|(_, number)| built.contains(number)).map(|(k, number)| (*number, k)).collect();
        all.push((Chore::Display(display_pages(means), if some { built } else { Vec::new() }), 1));
    }
    if cuts(means) {
        all.push((Chore::CountScissors(learners), 1));
    }
    if !means.lesson.groups.is_empty() && means.has(SheetKind::Tally) {
        let named = !means.lesson.roster.is_empty();
        // A name is written in six seconds or so (common practice, no source).
        all.push((
            Chore::KnowGroups { named, common: means.lesson.common_set().map(|set| set.version) },
            if named { 1 } else { learners.div_ceil(10).max(1) },
        ));
    }
    all.push((Chore::LayOut { packets: means.packets().iter().any(|sheets| sheets.len() > 1) }, 3));
    if is_long(&all) {
        // What nothing else can be done without comes first.
        all.sort_by_key(|(chore, _)| matches!(chore, Chore::Cut { .. } | Chore::CutCubes { .. } | Chore::Join { .. }));
    }
    all
}

/// Minutes that somebody who stands in has before the lesson, at most (common practice, no source).
const AHEAD: u32 = 25;

/// Whether chores take longer than there usually is.
pub(super) fn is_long(chores: &[(Chore, u32)]) -> bool {
    chores.iter().map(|(_, minutes)| minutes).sum::<u32>() > AHEAD
}

/// What to do instead of what nobody had time for.
pub(super) fn shortcuts(means: &Means<'_>) -> Vec<Shortcut> {
    let shows = |place: Place| means.lesson.chosen.built().any(|n| n.shows(place));
    let mut all = Vec::new();
    // What the copy room cuts is uncut where its copies are made anew.
    let cut = [Cutter::Teacher, Cutter::CopyRoom];
    for sheet in cut.into_iter().flat_map(|cutter| means.job.cut_by(cutter)) {
        match sheet.kind {
            SheetKind::Blocks => {
                let (thousands, hundreds) = (shows(Place::Thousands), shows(Place::Hundreds));
                all.push(Shortcut::DrawBlocks { thousands, hundreds });
            }
            SheetKind::Layered => all.push(Shortcut::WriteParts),
            _ => {}
        }
    }
    if means.pages(SheetKind::Mat) > 1 {
        all.push(Shortcut::SideBySide);
    }
    all
}

/// All that the lesson needs, what is printed first, with counts for this class; `paper` where learners write on paper of their
/// own.
pub fn materials(means: &Means<'_>, paper: bool) -> Vec<(u32, Thing)> {
    let learners = means.lesson.spec.class.learners.value;
    let letters: Vec<Version> = means.lesson.sets.iter().map(|set| set.version).collect();
    let mut all = Vec::new();
    let thing = |sheet: SheetKind, copies: u32, letters: Vec<Version>| {
        let printed = means.sheet(sheet);
        let cut = printed.is_some_and(|sheet| matches!(sheet.cutter, Cutter::Teacher | Cutter::CopyRoom));
        // Where learners get different numbers of pages, none is said.
        let pages = if cut { 1 } else { means.pages_of_all(sheet).unwrap_or(1) };
        let share = printed.map_or(1, |sheet| sheet.share.min(learners).max(1));
        (copies, Thing::Sheet { sheet, copies, pages, share, letters })
    };
    if means.has(SheetKind::Display) && display_pages(means) > 0 {
        all.push(thing(SheetKind::Display, display_pages(means), Vec::new()));
    }
    let packets = means.packets();
    for sheet in &means.job.sheets {
        let versions = means.lesson.is_lettered(sheet.kind);
        let letters = |lettered: bool| if lettered { letters.clone() } else { Vec::new() };
        match packets.iter().find(|packet| packet.len() > 1 && packet.contains(&sheet.kind)) {
            None => all.push(thing(sheet.kind, sheet.copies, letters(versions))),
            Some(packet) if packet.first() == Some(&sheet.kind) => {
                // Whose letters of groups are whose is said where that counts.
                let lettered =
                    means.lesson.groups.is_empty() && packet.iter().any(|kind| means.lesson.is_lettered(*kind));
                let (copies, sheets) = (sheet.copies, packet.to_vec());
                all.push((copies, Thing::Packets { copies, sheets, letters: letters(lettered) }));
            }
            Some(_) => {}
        }
    }
    if means.has(SheetKind::Tally) {
        all.push(thing(SheetKind::Tally, 1, Vec::new()));
    }
    if let Some((sets, held)) = from_tub(means) {
        all.push((sets, Thing::TubBlocks(sets, held)));
    }
    if bags_strips(means) {
        all.push((learners, Thing::Envelopes(learners)));
    }
    let tape = means.pages(SheetKind::Mat) > 1;
    if cuts(means) {
        all.push((learners, Thing::Scissors(learners, tape)));
    } else if tape || means.job.cut_by(Cutter::Teacher).next().is_some() {
        all.push((1, Thing::Tools { tape }));
    }
    if paper {
        all.push((learners, Thing::Paper(learners)));
    }
    all.push((learners, Thing::Pencils(learners)));
    all
}

/// How rows are done with so much time.
fn rows_by(load: &Load, whole: &Load) -> RowsBy {
    match (load.strips, whole.strips) {
        (StripUse::Cut | StripUse::Ready | StripUse::Whole, _) => RowsBy::Matching,
        (StripUse::Written, StripUse::Written) => RowsBy::Writing,
        (StripUse::Written, _) => RowsBy::WritingUncut,
    }
}

/// How rows are done, in all of the lesson or where it starts late: whether the packet has anybody write them.
pub fn rows_written(lesson: &Lesson) -> RowsBy {
    let whole = lesson.load();
    let all = [whole].into_iter().chain(late_loads(&lesson.fullest).map(|(_, load)| load));
    all.map(|load| rows_by(&load, &whole)).find(|by| *by != RowsBy::Matching).unwrap_or(RowsBy::Matching)
}

/// How model numbers are shown: what the phase is called that does it.
pub(super) fn models_phase(means: &Means<'_>, numbers: &[Number]) -> Phase {
    let all = |way| numbers.iter().all(|number| means.built_with(*number) == way);
    if all(BuiltWith::Drawn) {
        Phase::Drawing
    } else if all(BuiltWith::Columns) {
        Phase::Columns
    } else {
        Phase::Building
    }
}

/// Minutes that a late start may leave.
const LEFT: [u32; 5] = [60, 40, 30, 20, 10];

/// What there is time for with the minutes that a late start leaves, at least five fewer than the lesson has, longest first.
fn late_loads(spec: &Spec) -> impl Iterator<Item = (u32, Load)> {
    let load = timing::late(spec);
    let left = LEFT.into_iter().filter(|minutes| *minutes + 5 <= spec.minutes.value);
    left.map(move |minutes| (minutes, load(minutes)))
}

/// What is done when fewer minutes are left, longest first.
pub(super) fn shorter(means: &Means<'_>) -> Vec<Short> {
    let spec = &means.lesson.fullest;
    let rows = spec.numbers.sort.count.value;
    let whole = means.lesson.load();
    // Never more than a check has room for.
    let questions = |load: &Load| load.questions.min(means.questions);
    let model = &means.lesson.chosen.model;
    let all_questions = timing::questions(spec).min(means.questions);
    let uneven = means.lesson.has_uneven_sets();
    let short = |(minutes, load): (u32, Load)| Short {
        minutes: (minutes, minutes),
        unopened: !load.opening,
        models: load.models,
        shown: models_phase(means, &model[..model.len().min(load.models as usize)]),
        rows: (load.rows, rows),
        by: rows_by(&load, &whole),
        uneven,
        on: if means.has(SheetKind::Board) { SortedOn::SortingBoards } else { SortedOn::ClassroomBoard },
        together: load.together,
        sharing: load.sharing,
        questions: (questions(&load), all_questions),
        papers: if means.has(SheetKind::Exit) { Papers::Checks } else { Papers::Answers },
    };
    let mut all: Vec<Short> = late_loads(spec).map(short).collect();
    // What is the same for fewer minutes is said once, of both.
    all.dedup_by(|fewer, more| {
        let same = *more == Short { minutes: more.minutes, ..*fewer };
        if same {
            more.minutes.0 = fewer.minutes.0;
        }
        same
    });
    all
}
