//! Practice together: one number is written in every way with the class, the others alone.

use super::building::{places, with_blocks};
use super::means::BuiltWith;
use super::opening::twins;
use super::script::Script;
use crate::lesson::timing;
use crate::number::{Form, Number, Task, Trading};
use crate::spec::SheetKind;
use crate::wording::plan::{Asked, Deed, Laid, Said};

/// Numbers that learners are to do by themselves, at most (common practice, no source).
const ALONE: usize = 3;

pub(super) fn write(script: &mut Script<'_>) -> Vec<Laid> {
    let model = script.model();
    let numbers = if model.is_empty() { script.sort() } else { model };
    // A number of several parts shows the most; the first of them is worked together.
    let several = |n: &&Number| n.parts().count() > 1;
    let Some(&number) = numbers.iter().find(several).or(numbers.first()) else { return Vec::new() };
    let others: Vec<Number> = numbers.iter().copied().filter(|n| *n != number).collect();
    let record = script.has(SheetKind::Record);
    // Without model numbers each version records its own sort numbers, so no row is on every learner's sheet.
    let shared = !model.is_empty() || script.lesson.sets.len() < 2;
    let mut table = if record { vec![script.laid(SheetKind::Record), Laid::Pencils] } else { vec![Laid::Paper] };
    let spec = &script.lesson.fullest;
    let alone = script.minutes.saturating_sub(timing::together_minutes(spec));
    let time = (alone / timing::row_minutes(spec)).max(1) as usize;
    let (now, later) = others.split_at(others.len().min(ALONE).min(time));
    if model.is_empty() && !shared {
        // One number is shown to all before everyone turns to a row of their own.
        script.on_board(number);
        table.extend(build(script, number));
    }
    if record {
        script.hand_out(&[SheetKind::Record]);
    }
    // A sheet that is full of drawings of these numbers is not drawn on once more.
    let drawn = !record && numbers.iter().all(|n| !model.is_empty() && script.means.built_with(*n) == BuiltWith::Drawn);
    let sums = !script.lesson.spec.numbers.counts_to_ten();
    match (record, shared) {
        (true, true) => script.act(Deed::FillRow(number)),
        (true, false) => {}
        (false, _) if drawn => {
            let forms = [Form::Expanded, Form::Words].into_iter().filter(|form| sums || *form != Form::Expanded);
            script.act(Deed::OtherSide(number, forms.collect()));
        }
        (false, _) => script.act(Deed::TopOfPage(number)),
    }
    if model.is_empty() && shared {
        table.extend(build(script, number));
    } else if number <= Number::MAX_BLOCKS && (record || !model.is_empty()) && !drawn {
        script.say(Said::DrawMarks(places(numbers)));
    }
    if sums {
        script.ask_one([if several(&&number) { Asked::Expanded(number) } else { Asked::OnePart(number) }]);
    }
    // One piece: how several are traded is shown where the first strips have them.
    if let Some(one) = Trading::ANY.single(number, 0).filter(|_| script.lesson.trades()) {
        script.ask(Asked::Regrouped(number, one));
    }
    script.ask(Asked::Words(number));
    // Of two hyphens it would not be clear which is meant.
    if script.style().words(number).matches('-').count() == 1 {
        script.ask(Asked::Hyphen(number));
    }
    if script.has(SheetKind::WordBank) {
        table.push(script.laid(SheetKind::WordBank));
        script.act(Deed::PointToWordBank);
    } else {
        script.act_once(Deed::SpellWords);
    }
    if record && !shared {
        script.act(Deed::OwnFirstRow);
    }
    let sharing = [SheetKind::Mat, SheetKind::Blocks]
        .into_iter()
        .any(|kind| model.is_empty() && script.means.sheet(kind).is_some_and(|sheet| sheet.share > 1));
    let next = match (now.is_empty() || !shared, record && (!shared || script.has_more_rows())) {
        (true, true) => Some(Deed::OwnRows),
        // The last row waits for a number of one's own.
        (true, false) if record && script.means.own_rows => None,
        (true, false) => Some(Deed::PickOne { pairs: sharing }),
        (false, _) => Some(Deed::Alone(now.to_vec(), later.to_vec())),
    };
    if let Some(next) = next {
        script.act(next);
    }
    if record && shared && script.means.own_rows {
        script.act(Deed::OwnNumberLast);
    }
    // What nobody writes is not looked out for.
    if sums {
        script.look_for(number, Task::forms(Form::Numeral, Form::Expanded));
    }
    if script.minutes >= 5 {
        // Work that there is to see: the last of the rows that are done now.
        let last = now.last().copied().filter(|_| shared).unwrap_or(number);
        script.look_for(last, Task::forms(Form::Numeral, Form::Words));
    }
    if model.is_empty() {
        script.ask_one(twins(numbers, script.common_letter()));
    }
    table
}

/// In a lesson without model numbers, what there is to build with is used here.
fn build(script: &mut Script<'_>, number: Number) -> Vec<Laid> {
    let mut table = Vec::new();
    let mut lay = |kind: SheetKind| table.push(script.laid(kind));
    let way = script.means.built_with(number);
    if script.has(SheetKind::Mat) {
        lay(SheetKind::Mat);
    }
    if script.has(SheetKind::Layered) {
        lay(SheetKind::Layered);
    }
    match way {
        BuiltWith::Blocks => lay(SheetKind::Blocks),
        BuiltWith::Tub => table.push(Laid::TubBlocks(script.means.tub_share())),
        BuiltWith::Drawn | BuiltWith::Columns => {}
    }
    match way {
        BuiltWith::Blocks | BuiltWith::Tub => with_blocks(script, number, true),
        BuiltWith::Drawn => {
            script.say(Said::Draw(number));
            if script.has(SheetKind::Mat) {
                script.act(Deed::WriteColumns { number, mat: true, first: true });
            }
        }
        BuiltWith::Columns => {
            script.act(Deed::WriteColumns { number, mat: script.has(SheetKind::Mat), first: true });
        }
    }
    if script.has(SheetKind::Layered) && number.parts().count() > 1 {
        script.act(Deed::LayCards(number));
        script.ask(Asked::Cards(number));
    }
    script.trade(number, 0);
    table
}
