//! What slips do to a number that is traded: 264 as 1 hundred 16 tens 4 ones.

use super::rules::LONGEST;
use super::{Content, Form, Number, Place, Style};
use crate::number::Counted;
use crate::number::forms::{picture, regrouped_text, traded};

/// How many of each place a traded form of a number shows.
fn shown_in(number: Number, form: Form, style: &Style) -> Option<Counted> {
    match form {
        Form::Regrouped => style.trading.told(number),
        Form::Untraded => style.trading.pictured(number),
        Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Blocks => None,
    }
}

/// The form that is asked for, with one trade gone wrong: the greatest one in which `wrong` can happen. `wrong` takes how many
/// of each place the form shows, how many pieces were traded, and the index of the place that gave them.
fn gone_wrong(
    number: Number,
    asked: Form,
    style: &Style,
    wrong: impl Fn(Counted, u32, usize) -> Option<Counted>,
) -> Vec<Content> {
    let Some(counted) = shown_in(number, asked, style) else { return Vec::new() };
    let gone = traded(number, &counted);
    let trades = (1..gone.len()).rev().filter(|at| gone[*at] > 0);
    let found = trades.into_iter().find_map(|at| wrong(counted, gone[at], at));
    let shown =
        |counted| if asked.is_picture() { picture(&counted) } else { Content::Text(regrouped_text(&counted, style)) };
    found.map(shown).into_iter().collect()
}

/// 2 hundreds 16 tens 4 ones.
pub(super) fn not_taken_away(number: Number, asked: Form, style: &Style) -> Vec<Content> {
    gone_wrong(number, asked, style, |mut counted, gone, at| {
        counted[at] += gone;
        Some(counted)
    })
}

/// 1 hundred 7 tens 4 ones.
pub(super) fn one_for_one(number: Number, asked: Form, style: &Style) -> Vec<Content> {
    gone_wrong(number, asked, style, |mut counted, gone, at| {
        counted[at - 1] = counted[at - 1].checked_sub(9 * gone)?;
        Some(counted)
    })
}

/// 1 hundred 15 tens 4 ones.
pub(super) fn one_too_few(number: Number, asked: Form, style: &Style) -> Vec<Content> {
    gone_wrong(number, asked, style, |mut counted, _, at| {
        counted[at - 1] = counted[at - 1].checked_sub(1)?;
        Some(counted)
    })
}

/// 1164. A place within that holds nothing is passed over, since nothing is shown of it.
pub(super) fn counts_side_by_side(number: Number, shown: Form, style: &Style) -> Option<String> {
    let counted = shown_in(number, shown, style)?;
    let text: String = counted.iter().rev().filter(|count| **count > 0).map(u32::to_string).collect();
    (text.len() <= LONGEST).then_some(text)
}

/// 164: of each count only the last digit stays.
pub(super) fn ten_left_out(number: Number, shown: Form, style: &Style) -> Option<Number> {
    let counted = shown_in(number, shown, style)?;
    let kept = counted.iter().zip(Place::ALL).map(|(count, place)| count % 10 * place.worth()).sum();
    Number::new(kept).filter(|kept| *kept > Number::MIN)
}
