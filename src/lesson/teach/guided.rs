//! Practice together: one number is written in every way with the class, the others alone.

use super::means::BuiltWith;
use super::opening::twins;
use super::script::Script;
use crate::number::{Form, Number, Task};
use crate::spec::SheetKind;
use crate::wording::plan::{Asked, Deed, Laid, Said};

/// Numbers that learners do by themselves: more would not be done in the time there is.
const ALONE: usize = 3;

pub(super) fn write(script: &mut Script<'_>) -> Vec<Laid> {
    let model = script.model();
    let numbers = if model.is_empty() { script.sort() } else { model };
    // A number of several parts shows the most; the first of them is worked together.
    let several = |n: &&Number| n.digits().filter(|(_, digit)| *digit > 0).count() > 1;
    let Some(&number) = numbers.iter().find(several).or(numbers.first()) else { return Vec::new() };
    let others: Vec<Number> = numbers.iter().copied().filter(|n| *n != number).collect();
    let record = script.has(SheetKind::Record);
    // Without model numbers each version records its own sort numbers, so no row is on every learner's sheet.
    let shared = !model.is_empty() || script.lesson.sets.len() < 2;
    let mut table = vec![if record { script.laid(SheetKind::Record) } else { Laid::Paper }];
    script.act(match (record, shared) {
        (true, true) => Deed::FillRow(number),
        (true, false) => Deed::OwnFirstRow,
        (false, _) => Deed::TopOfPage(number),
    });
    if model.is_empty() {
        table.extend(build(script, number));
    } else if number <= Number::MAX_BLOCKS {
        script.say(Said::Draw(number));
    }
    script.ask_one([if several(&&number) { Asked::Expanded(number) } else { Asked::OnePart(number) }]);
    let trades = script.lesson.spec.forms.matched.value.iter().any(|form| form.is_traded());
    if trades && script.lesson.style.trading.told(number).is_some() {
        script.ask_one([Asked::Regrouped(number)]);
    }
    script.ask(Asked::Words(number));
    // Of two hyphens it would not be clear which is meant.
    if script.style().words(number).matches('-').count() == 1 {
        script.ask(Asked::Hyphen(number));
    }
    if script.has(SheetKind::WordBank) {
        table.push(script.laid(SheetKind::WordBank));
        script.act(Deed::PointToWordBank);
    }
    let alone: Vec<Number> = others.iter().copied().take(ALONE).collect();
    script.act(if alone.is_empty() || !shared { Deed::PickOne } else { Deed::Alone(alone) });
    script.look_for(number, Task::forms(Form::Numeral, Form::Expanded));
    if script.minutes >= 5 {
        let last = others.last().copied().unwrap_or(number);
        script.look_for(last, Task::forms(Form::Numeral, Form::Words));
    }
    if model.is_empty() {
        script.ask_one(twins(numbers));
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
        BuiltWith::Tub => table.push(Laid::TubBlocks),
        BuiltWith::Drawn | BuiltWith::Columns => {}
    }
    match way {
        BuiltWith::Blocks | BuiltWith::Tub => {
            script.ask(Asked::Blocks(number));
            script.act(Deed::Build { number, first: true });
        }
        BuiltWith::Drawn => script.say(Said::Draw(number)),
        BuiltWith::Columns => {
            script.act(Deed::WriteColumns { number, mat: script.has(SheetKind::Mat), first: true });
        }
    }
    if script.has(SheetKind::Layered) && number.digits().filter(|(_, digit)| *digit > 0).count() > 1 {
        script.act(Deed::LayCards(number));
        script.ask(Asked::Cards(number));
    }
    table
}
