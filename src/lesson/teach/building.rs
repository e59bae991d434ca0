//! Building the model numbers: each is shown, built or drawn, and talked about.

use super::means::BuiltWith;
use super::opening::{telling_place, twins};
use super::script::Script;
use crate::number::{Feature, Form, Number, Place, Task};
use crate::spec::{DisplayForm, SheetKind};
use crate::wording::plan::{Asked, Deed, Laid, Said};

/// Learners write the numeral of a number that is said.
const HEARD: Task = Task::forms(Form::Words, Form::Numeral);
/// Numbers that are talked about at length; the others are built the same way and checked.
const AT_LENGTH: usize = 3;
/// With fewer minutes than this there is time for one question, and none to walk round.
const UNHURRIED: u32 = 3;

pub(super) fn write(script: &mut Script<'_>) -> Vec<Laid> {
    let numbers = script.model();
    let ways: Vec<BuiltWith> = numbers.iter().map(|n| script.means.built_with(*n)).collect();
    // Two minutes a number carry two questions, and each further minute one more.
    let questions = script.minutes as usize / numbers.len().max(1);
    let brisk = script.minutes < UNHURRIED;
    let several = |n: &Number| n.parts().count() > 1;
    // Cards that are cut out are used: where no model number has parts to stack, one of the board has.
    let all = || numbers.iter().chain(script.sort()).copied();
    let stacked = all().find(several).filter(|_| script.has(SheetKind::Layered));
    for (k, &number) in numbers.iter().enumerate() {
        if k < AT_LENGTH {
            at_length(script, k, number, stacked == Some(number), if brisk { 1 } else { questions.clamp(2, 5) });
        } else {
            in_short(script, number, ways[k]);
        }
    }
    if let Some(number) = stacked.filter(|number| !numbers[..numbers.len().min(AT_LENGTH)].contains(number)) {
        script.on_board(number);
        script.act(Deed::LayCards(number));
        script.ask(Asked::Cards(number));
    }
    if let Some(pair) = twins(numbers, None)
        && script.ask(pair)
    {
        script.say(Said::HowManyOfWhat);
    }
    // With no time to work one together, the papers for it are used here.
    if !script.load.together
        && let Some(first) = numbers.first()
    {
        if script.has(SheetKind::Record) {
            script.hand_out(&[SheetKind::Record]);
            script.act(Deed::FillRow(*first));
            let shown = places(&[*first]);
            if *first <= Number::MAX_BLOCKS && !script.has_drawn(&shown) {
                script.say(Said::DrawMarks(shown));
            }
            if script.has_more_rows() || script.means.own_rows {
                script.act(Deed::OtherRows);
            }
        }
        if script.has(SheetKind::WordBank) {
            script.act(Deed::PointToWordBank);
        }
    }
    table(script, &ways, stacked.is_some())
}

fn table(script: &Script<'_>, ways: &[BuiltWith], stacked: bool) -> Vec<Laid> {
    let mut table = Vec::new();
    let mat = script.means.pages(SheetKind::Mat);
    if mat > 0 {
        table.push(script.laid(SheetKind::Mat));
    }
    if ways.contains(&BuiltWith::Blocks) {
        table.push(script.laid(SheetKind::Blocks));
        if mat == 0 {
            table.push(Laid::FoldedPaper);
        }
    }
    if ways.contains(&BuiltWith::Tub) {
        table.push(Laid::TubBlocks(script.means.tub_share()));
    }
    if script.has(SheetKind::Layered) && stacked {
        table.push(script.laid(SheetKind::Layered));
    }
    let drawn = ways.iter().any(|way| matches!(way, BuiltWith::Drawn | BuiltWith::Columns));
    if drawn || ways.len() > 1 {
        table.push(Laid::Paper);
    }
    if !script.load.together {
        let fits = [SheetKind::Record, SheetKind::WordBank].into_iter().filter(|kind| script.has(*kind));
        table.extend(fits.map(|kind| script.laid(kind)));
        // Paper comes with a pencil.
        if script.has(SheetKind::Record) && !table.contains(&Laid::Paper) {
            table.push(Laid::Pencils);
        }
    }
    if script.has(SheetKind::Tally) && script.minutes >= UNHURRIED {
        table.push(Laid::Tally);
    }
    table
}

/// Shows and builds one number; `first` for the first number built so.
fn build(script: &mut Script<'_>, number: Number, first: bool) {
    match script.means.built_with(number) {
        BuiltWith::Blocks | BuiltWith::Tub => {
            with_blocks(script, number, first);
        }
        BuiltWith::Drawn => {
            script.say(Said::Draw(number));
            if number.len() > 1 {
                script.ask(Asked::Units(number));
            }
            if script.has(SheetKind::Mat) {
                script.act(Deed::WriteColumns { number, mat: true, first });
            }
        }
        BuiltWith::Columns => {
            let mat = script.has(SheetKind::Mat);
            script.act(Deed::WriteColumns { number, mat, first });
        }
    }
}

/// Builds a number with blocks; the first time they are named before anybody is asked for them.
pub(super) fn with_blocks(script: &mut Script<'_>, number: Number, first: bool) {
    if first {
        // What comes later is named here too, while blocks are on the table: also what only a group has.
        let met: Vec<Number> = script.lesson.chosen.built().chain(script.lesson.checked()).collect();
        script.say(Said::BlocksWorth(places(&met)));
    }
    script.ask(Asked::Blocks(number));
    script.act(Deed::Build { number, first: true });
    on_mat(script, number);
}

/// How pieces lie on a mat: said once for each kind.
fn on_mat(script: &mut Script<'_>, number: Number) {
    if script.has(SheetKind::Mat) {
        if number.digit(Place::Ones) > 1 {
            script.act_once(Deed::CubesInFrame);
        }
        if number.digit(Place::Hundreds) > 1 && script.means.built_with(number) == BuiltWith::Blocks {
            script.act_once(Deed::FlatsOnEachOther);
        }
    }
}

/// The places that these numbers have, from the greatest down, as far as there are blocks for them.
pub(super) fn places(numbers: &[Number]) -> Vec<Place> {
    let shown = |place: &Place| *place <= Place::Thousands && numbers.iter().any(|n| n.digit(*place) > 0);
    Place::ALL.into_iter().rev().filter(shown).collect()
}

/// One number, shown, built and asked about.
fn at_length(script: &mut Script<'_>, turn: usize, number: Number, stacked: bool, questions: usize) {
    // Only what is heard can be misheard: the numeral is shown after learners have written it.
    if turn > 0 {
        script.act(Deed::Dictate(number));
        script.look_for(number, HEARD);
    }
    script.on_board(number);
    build(script, number, turn == 0);
    if turn == 0 && script.has(SheetKind::Tally) && script.minutes >= UNHURRIED {
        script.act(Deed::MarkBuilding);
    }
    let stepped = !script.steps_of(number).is_empty();
    if stepped {
        script.turn_to(number, &[DisplayForm::Blocks]);
    } else if script.has(SheetKind::Display) {
        script.act(Deed::ShowDisplay(number));
    }
    let count = |digit: u8| number.digits().filter(|(_, d)| *d == digit).count();
    let repeated = number.digits().map(|(_, digit)| digit).find(|digit| *digit > 0 && count(*digit) > 1);
    let teen = Feature::Teen.is_in(number);
    // Of 11 at the end both remarks would say the same.
    let eleven = number.value() % 100 == 11 && count(1) == 2;
    if let Some(digit) = repeated.filter(|_| !eleven) {
        script.say(Said::Repeats(number, digit));
    }
    if teen {
        script.say(Said::Teen(number));
    }
    if stacked {
        script.act(Deed::LayCards(number));
        script.ask(Asked::Cards(number));
    }
    script.trade(number, turn);
    script.turn_to(number, &[DisplayForm::Chart]);
    let mut asked = Vec::new();
    if number == Number::MIN {
        asked.push(Asked::WhyZero(number));
    } else if !empty_places(number).is_empty() {
        let has_zero = |n: &&Number| !empty_places(**n).is_empty();
        if script.model().iter().find(has_zero) == Some(&number) {
            asked.push(Asked::ZeroTells(number));
        }
        asked.push(Asked::WhyZero(number));
    }
    let once = |place: &Place| count(number.digit(*place)) == 1;
    if turn % 2 == 1 {
        asked.extend(telling_place(number, turn).filter(once).map(|place| Asked::WhichPlace(number, place)));
    }
    // What was just told is not asked.
    let told = |place: &Place| {
        let digit = number.digit(*place);
        repeated == Some(digit) && !eleven || teen && matches!(place, Place::Tens | Place::Ones)
    };
    let worth = (0..number.len()).filter_map(|k| telling_place(number, turn + 1 + k)).find(|place| !told(place));
    asked.extend(worth.map(|place| Asked::Worth(number, place)));
    if number.parts().count() > 1 {
        asked.push(Asked::Expanded(number));
    }
    script.ask_some(asked, questions);
    script.turn_to(number, &[DisplayForm::Expanded, DisplayForm::Words]);
}

/// One number in a step or two.
fn in_short(script: &mut Script<'_>, number: Number, way: BuiltWith) {
    let steps = script.steps_of(number);
    match way {
        BuiltWith::Blocks | BuiltWith::Tub if steps.is_empty() => script.act(Deed::Build { number, first: false }),
        BuiltWith::Blocks | BuiltWith::Tub => {
            script.on_board(number);
            script.act(Deed::Build { number, first: true });
        }
        BuiltWith::Drawn | BuiltWith::Columns => {
            script.on_board(number);
            build(script, number, false);
        }
    }
    if let [_, (from, _), .., (to, _)] = steps[..] {
        script.act(Deed::TurnThrough { number, steps: (from, to) });
    }
}

/// The places in which the numeral shows a 0.
pub(super) fn empty_places(number: Number) -> Vec<Place> {
    Place::ALL.into_iter().rev().filter(|place| Feature::Zero(*place).is_in(number)).collect()
}
