//! Sorting and matching: what the class does with boards and strips, and what to ask while walking round.

use std::collections::BTreeSet;

use super::opening::twins;
use super::script::{Script, gives_several};
use super::steps::Seen;
use crate::lesson::timing::StripUse;
use crate::lesson::{SortSet, Wrong};
use crate::measure::Count;
use crate::number::{Digits, Form, Number, Place, Task, Trading};
use crate::spec::SheetKind;
use crate::wording::plan::{Asked, Deed, Laid, Said};

/// Decoys of all sets that the plan names; the key has them all.
const DECOYS_NAMED: usize = 2;
/// Sets that the plan asks about; more than these are not heard one by one.
const SETS_ASKED: usize = 2;
/// From this many minutes on the class gets a moment to stretch (common practice, no source).
const LONG: u32 = 25;
/// Numbers that are written on the board by hand, at most.
const BY_HAND: usize = 8;

pub(super) fn write(script: &mut Script<'_>) -> Vec<Laid> {
    let (board, strips) = (script.has(SheetKind::Board), script.has(SheetKind::Strips));
    let handling = script.load.strips;
    let out = strips && (handling != StripUse::Written || !board);
    let now = [(board, SheetKind::Board), (out, SheetKind::Strips)].into_iter().filter(|(is, _)| *is);
    let now: Vec<SheetKind> = now.map(|(_, kind)| kind).collect();
    if !now.is_empty() && !script.hand_out(&now) {
        // Piles come from the guillotine, each with a band that says whose it is.
        let packed = script.means.packets().iter().any(|sheets| sheets.iter().any(|kind| now.contains(kind)));
        script.act(if packed {
            Deed::GivePiles { named: !script.lesson.roster.is_empty() }
        } else {
            Deed::GiveSets { boards: board && handling == StripUse::Written, whose: script.whose(&now) }
        });
    }
    if (board || strips) && !script.lesson.groups.is_empty() {
        script.act(Deed::GroupsQuiet);
    }
    if handling == StripUse::Cut {
        let pieces = script.lesson.sets.iter().map(|set| set.strips.len()).max().unwrap_or(0);
        script.say(Said::Scissors);
        let pieces = pieces.narrow();
        script.act(if script.lesson.groups.is_empty() { Deed::CutStrips(pieces) } else { Deed::CutOwnStrips });
    } else if strips && handling == StripUse::Written {
        script.act(Deed::LeaveStrips);
    }
    if board {
        if let Some(rows) = script.some_rows() {
            script.act(Deed::RowsToday { count: rows, uneven: script.lesson.has_uneven_sets() });
        }
    } else {
        numbers_by_hand(script, out);
    }
    task(script, board, strips);
    if board || strips {
        let (groups, rest): (Vec<_>, Vec<_>) =
            script.lesson.shares().into_iter().partition(|share| share.name.is_some());
        for mut share in groups.into_iter().chain(rest) {
            if handling == StripUse::Written {
                share.strips = 0;
            }
            script.act(Deed::GroupSorts(share));
        }
    }
    let common = script.lesson.common_set();
    let rest = script.lesson.sets.iter().filter(|set| common.is_none_or(|common| common.version != set.version));
    let asked_of = if board || strips { SETS_ASKED } else { 1 };
    for set in common.into_iter().chain(rest).take(asked_of) {
        asked(script, set);
    }
    if script.has(SheetKind::Tally) && (board || strips) {
        script.act(Deed::MarkSorting { slips: !script.lesson.slips.is_empty() });
    }
    if strips && matches!(handling, StripUse::Cut | StripUse::Ready) {
        decoys(script);
    }
    if script.lesson.marks_strips() && strips && matches!(handling, StripUse::Cut | StripUse::Ready) {
        script.act(Deed::TurnOver);
    }
    if script.minutes >= LONG {
        script.act(Deed::Stretch);
    }
    // Where not all rows are done, those who are early have more of them.
    if script.some_rows().is_none() {
        let letters = script.lesson.sets.len() > 1 && board;
        let record = script.has(SheetKind::Record) && script.model().is_empty();
        script.act(Deed::DoneEarly { letters, record });
    }
    table(script, board, strips)
}

fn table(script: &Script<'_>, board: bool, strips: bool) -> Vec<Laid> {
    let mut table = Vec::new();
    if board {
        table.push(script.laid(SheetKind::Board));
    }
    let pages = script.means.pages_of_all(SheetKind::Strips);
    match script.load.strips {
        StripUse::Cut => table.extend([Laid::UncutStrips(pages), Laid::Envelopes]),
        StripUse::Ready => table.extend([Laid::CutStrips, Laid::Envelopes]),
        StripUse::Whole => table.extend([Laid::WholeStrips(pages), Laid::Pencils]),
        StripUse::Written if board => table.push(Laid::Pencils),
        StripUse::Written => table.push(Laid::Paper),
    }
    if script.has(SheetKind::Tally) && (board || strips) {
        table.push(Laid::Tally);
    }
    table
}

/// The numbers that learners work on, where no sorting board has them: those of each set that has strips, or else as many as
/// there is time for and one more.
fn numbers_by_hand(script: &mut Script<'_>, strips: bool) {
    let all = script.lesson.common_set().map_or(&[][..], |set| &set.rows);
    let today = script.sort().len();
    let shown = if strips { all.len() } else { (today + 1).min(all.len()).min(BY_HAND) };
    if strips && !script.one_set() {
        for set in &script.lesson.sets {
            script.write_set(set);
        }
    } else {
        script.write_all(all[..shown].iter().copied());
    }
    if today < shown {
        script.act(Deed::NumbersToday { count: today.narrow(), more: (shown - today).narrow() });
    }
}

/// What the learners are told to do.
fn task(script: &mut Script<'_>, board: bool, strips: bool) {
    let matched = &script.lesson.spec.forms.matched.value;
    let given = matched.first().copied().unwrap_or(Form::Numeral);
    // Where boards differ, no row is named that some have not.
    let some = script.some_rows().filter(|_| !script.lesson.has_uneven_sets());
    // Nobody is asked for a trade who has seen none.
    if !script.has_traded()
        && let Some(number) = script.sort().iter().copied().find(|number| number.len() > 1)
        && script.lesson.trades()
        && let Some(counted) = Trading::ANY.single(number, 0)
    {
        script.on_board(number);
        script.ask(Asked::Regrouped(number, counted));
    }
    several_pieces(script);
    match (script.load.strips, board) {
        (StripUse::Cut | StripUse::Ready, true) => {
            script.say(Said::FindStrips(given, some));
            script.say(Said::LayStrips);
            let all = |form: &&Form| script.lesson.sets.iter().all(|set| set.forms.contains(form));
            // What was traded is the hardest to see: it does not come first.
            let easy = matched.iter().skip(1).find(|form| !form.is_traded()).or(matched.get(1));
            if let Some(first) = easy.filter(|_| matched.len() > 2).filter(all) {
                script.act(Deed::OneKindFirst(*first));
            }
        }
        (StripUse::Cut | StripUse::Ready, false) => script.say(Said::StripsInRows { sets: !script.one_set() }),
        (StripUse::Whole, _) => script.say(Said::LetterStrips { sets: !script.one_set() }),
        (StripUse::Written, true) => {
            script.say(Said::WriteBoxes { rows: some, draws: script.lesson.draws_in_boxes() });
            draw(script);
        }
        (StripUse::Written, false) => {
            let others: Vec<Form> = matched.iter().copied().filter(|form| *form != Form::Numeral).collect();
            script.say(Said::WriteAgain(others));
            draw(script);
        }
    }
    if script.load.strips == StripUse::Written {
        let words = script.lesson.matched().iter().skip(1).any(|form| form.is_words());
        if words && !script.has(SheetKind::WordBank) {
            script.act_once(Deed::SpellWords);
        }
        any_trade(script);
    }
    let has = |set: &SortSet| set.strips.iter().any(|strip| strip.row.is_none());
    let sets = &script.lesson.sets;
    let decoys = sets.iter().any(has);
    if strips && !board && decoys {
        script.say(Said::SomeShowNone);
    } else if strips && board && script.load.strips != StripUse::Written && (decoys || some.is_some()) {
        script.say(match some {
            Some(_) => Said::SomeFitNoRowToday { none: decoys },
            None => Said::SomeFitNoRow { all: sets.iter().all(has) && script.some_rows().is_none() },
        });
    }
}

/// Some rows are shown with several pieces traded: before they are matched or written it is shown how.
fn several_pieces(script: &mut Script<'_>) {
    let trading = script.style().trading;
    let forms = script.lesson.matched();
    let shown = |n: Number| {
        let words = trading.regrouped(n).filter(|_| forms.contains(&Form::Regrouped));
        let picture = trading.pictured(n).filter(|_| forms.contains(&Form::Untraded));
        words.into_iter().chain(picture)
    };
    let rows = || script.lesson.sets.iter().flat_map(|set| &set.rows).copied();
    if script.has_traded_several() || !rows().any(|n| shown(n).any(|counted| gives_several(n, &counted))) {
        return;
    }
    // All know the model numbers, and the rows of their own set; what a strip shows is for learners to find.
    let known = script.model().iter().chain(script.sort()).copied().chain(rows());
    let mut ways: Vec<_> = known.filter_map(|n| Some((n, trading.pair(n)?))).collect();
    ways.sort_by_key(|(n, counted)| shown(*n).any(|strip| strip == *counted));
    if let Some((number, counted)) = ways.first().copied() {
        script.on_board(number);
        script.trade_several(number, counted);
    }
}

/// How boxes for pictures are filled by hand, where that was not said before.
fn draw(script: &mut Script<'_>) {
    if script.lesson.matched().into_iter().any(Form::is_picture) {
        let rows = script.sort();
        let holds = |n: &Number, place: Place| n.digit(place) > 0 || script.lesson.trades() && n.len() > place.index();
        let shows = |place: &Place| *place <= Place::Thousands && rows.iter().any(|n| holds(n, *place));
        let places: Vec<Place> = Place::ALL.into_iter().rev().filter(shows).collect();
        if !script.has_drawn(&places) {
            script.say(Said::DrawMarks(places));
        }
    }
}

/// Whoever writes a trade may make another than the key shows.
fn any_trade(script: &mut Script<'_>) {
    let rows = script.sort();
    let other = |number: &Number| Some((*number, script.style().trading.other(*number)?));
    if let Some((number, counted)) = rows.iter().find_map(other).filter(|_| script.lesson.trades()) {
        script.act(Deed::AnyTrade(number, counted));
    }
}

/// A question for a set, on the pair of its rows that is most easily mixed up.
fn asked(script: &mut Script<'_>, set: &SortSet) {
    let rows = set.rows.iter().copied().take(script.load.rows as usize).collect::<Vec<_>>();
    let letter = script.letter(set);
    let strips = script.has(SheetKind::Strips) && script.load.strips != StripUse::Written;
    let apart = same_digits(&rows).map(|(a, b)| Asked::TellApart(a, b, letter));
    // Where the board shows no numeral, that is for learners to find.
    let unsaid = rows.first().filter(|_| set.given != Form::Numeral && script.has(SheetKind::Board));
    let unsaid = unsaid.map(|first| Asked::FirstRow(*first, set.forms.clone(), letter));
    if unsaid.is_some() {
        script.ask_one(unsaid);
        return;
    }
    // The question says the numeral.
    let forms: Vec<Form> = set.forms.iter().copied().filter(|form| *form != Form::Numeral).collect();
    // Of a number with one part the expanded form is the numeral again.
    let single = |row: &Number| row.parts().count() < 2;
    let plainest = || rows.iter().copied().min_by_key(|row| (single(row), most_pieces(set, *row)));
    let ways = |row: Number| {
        let telling = forms.iter().copied().filter(|form| *form != Form::Expanded || !single(&row));
        Some((row, telling.collect::<Vec<_>>())).filter(|(_, forms)| !forms.is_empty())
    };
    let plainest = plainest().and_then(ways);
    let belongs = plainest.clone().filter(|_| strips).map(|(row, forms)| Asked::Belongs(row, forms, letter));
    let written = plainest.filter(|_| !strips).map(|(row, forms)| Asked::Ways(row, forms, letter));
    let (shown, digits) = (belongs.into_iter().chain(written), apart.into_iter().chain(twins(&rows, letter)));
    // A lesson on trading asks for what was traded, any other for digits.
    if script.lesson.teaches_trading() {
        script.ask_one(shown.chain(digits));
    } else {
        script.ask_one(digits.chain(shown));
    }
}

/// How many pieces are traded in a row of a set, in the form that trades most.
fn most_pieces(set: &SortSet, row: Number) -> u32 {
    let pieces = |form: &Form| Task::forms(set.given, *form).pieces_traded(row, &set.style);
    set.forms.iter().map(pieces).max().unwrap_or(0)
}

/// The first two rows made of the same digits in different places.
pub(super) fn same_digits(rows: &[Number]) -> Option<(Number, Number)> {
    let same = |a: Number, b: Number| a != b && Digits::of(a) == Digits::of(b);
    rows.iter().enumerate().find_map(|(k, &a)| rows[k + 1..].iter().copied().find(|&b| same(a, b)).map(|b| (a, b)))
}

/// Decoys of rows that are done, those that were not explained first; from different sets where there are any.
fn decoys(script: &mut Script<'_>) {
    let mut found: Vec<(Seen, Wrong)> = Vec::new();
    for set in &script.lesson.sets {
        let rows = script.rows(set);
        let texts = set.decoys().into_iter().filter(|wrong| wrong.content.line().is_some() && rows.contains(&wrong.of));
        found.extend(texts.map(|wrong| (Seen::Strip(script.letter(set)), wrong)));
    }
    // A trade of several pieces is named only where there is nothing plainer.
    let pieces = |wrong: &Wrong| wrong.task.pieces_traded(wrong.of, script.style());
    if found.iter().any(|(_, wrong)| pieces(wrong) < 2) {
        found.retain(|(_, wrong)| pieces(wrong) < 2);
    }
    let mut named = BTreeSet::new();
    found.retain(|(_, wrong)| named.insert(wrong.slip));
    found.sort_by_key(|(_, wrong)| script.is_explained(wrong.slip));
    for (seen, wrong) in found.into_iter().take(DECOYS_NAMED) {
        script.watch(seen, wrong);
    }
}
