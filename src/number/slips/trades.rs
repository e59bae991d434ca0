//! What slips do to a number that is traded: 264 as 1 hundred 16 tens 4 ones.

use super::rules::in_a_row;
use super::{Content, Form, Number, Place, Style, Task};
use crate::number::forms::{blocks_of, regrouped_text, traded};

/// The form that is asked for, with every trade gone wrong: `wrong` takes how many of a place the form shows, how many of it
/// were traded away and how many of the next greater place, and gives how many the learner has. Nothing where it takes more
/// away than there is.
fn gone_wrong(
    number: Number,
    asked: Form,
    style: &Style,
    wrong: impl Fn(u32, u32, u32) -> Option<u32>,
) -> Option<Content> {
    let right = Task::forms(asked, asked).counted(number, style)?;
    let gone = traded(number, &right);
    let mut counted = right;
    for (at, count) in counted.iter_mut().enumerate() {
        let above = gone.get(at + 1).copied().unwrap_or(0);
        *count = wrong(*count, gone[at], above)?;
    }
    Some(if asked.is_picture() {
        Content::Blocks(blocks_of(&counted))
    } else {
        Content::Text(regrouped_text(&counted, style))
    })
}

/// 2 hundreds 16 tens 4 ones.
pub(super) fn not_taken_away(number: Number, asked: Form, style: &Style) -> Option<Content> {
    gone_wrong(number, asked, style, |count, gone, _| Some(count + gone))
}

/// 1 hundred 7 tens 4 ones.
pub(super) fn one_for_one(number: Number, asked: Form, style: &Style) -> Option<Content> {
    gone_wrong(number, asked, style, |count, _, above| count.checked_sub(9 * above))
}

/// 1 hundred 15 tens 4 ones: nine more for each piece.
pub(super) fn one_too_few(number: Number, asked: Form, style: &Style) -> Option<Content> {
    gone_wrong(number, asked, style, |count, _, above| count.checked_sub(above))
}

/// 1164. A place within that holds nothing is passed over, since nothing is shown of it.
pub(super) fn counts_side_by_side(number: Number, shown: Form, style: &Style) -> Option<u64> {
    let counted = Task::forms(shown, shown).counted(number, style)?;
    in_a_row(counted.iter().rev().copied().filter(|count| *count > 0))
}

/// 164: of each count only the last digit stays.
pub(super) fn ten_left_out(number: Number, shown: Form, style: &Style) -> Option<Number> {
    let counted = Task::forms(shown, shown).counted(number, style)?;
    let kept = counted.iter().zip(Place::ALL).map(|(count, place)| count % 10 * place.worth()).sum();
    Number::new(kept).filter(|kept| *kept > Number::MIN)
}
