//! What each slip does to a number.
//!
//! Each rule follows the wrong answers that the research reports for three digits and carries the thinking over to 2 to 6
//! digits. A rule may return the right answer, and answers that another slip gives too; [`Task::wrong`](super::Task::wrong)
//! sorts that out.

use super::{Content, Form, Number, Style};
use crate::number::Place;

/// The digits as the numeral shows them, greatest place first.
#[derive(Clone, Copy)]
struct Row {
    digits: [u8; Place::ALL.len()],
    len: usize,
}

impl Row {
    fn of(number: Number) -> Self {
        let (mut digits, len) = ([0; Place::ALL.len()], number.len());
        for (into, (_, digit)) in digits[..len].iter_mut().rev().zip(number.digits().rev()) {
            *into = digit;
        }
        Self { digits, len }
    }

    /// The row with the digits at two indices exchanged.
    fn swapped(mut self, one: usize, other: usize) -> Self {
        self.digits.swap(one, other);
        self
    }

    fn number(&self) -> Option<Number> {
        rebuilt(self.all())
    }

    fn all(&self) -> &[u8] {
        &self.digits[..self.len]
    }
}

/// The number of these digits, greatest place first. A leading 0 would read as a shorter number: `None`.
fn rebuilt(digits: &[u8]) -> Option<Number> {
    if digits.len() > 1 && digits.first() == Some(&0) {
        return None;
    }
    Number::new(digits.iter().fold(0, |sum, &digit| sum * 10 + u32::from(digit)))
}

/// The number with the digits at two places exchanged, counted from the ones.
fn swapped(number: Number, one: Place, other: Place) -> Option<Number> {
    if !number.shows(one) || !number.shows(other) {
        return None;
    }
    let (first, second) = (u32::from(number.digit(one)), u32::from(number.digit(other)));
    let rest = number.value() - first * one.worth() - second * other.worth();
    // A leading 0 would make it shorter.
    Number::new(rest + first * other.worth() + second * one.worth()).filter(|swapped| swapped.len() == number.len())
}

/// 406: 46. All zeros go, since none of them counts for anything.
pub(super) fn zero_dropped(number: Number) -> Option<Number> {
    let value = number.parts().fold(0, |sum, (_, digit)| sum * 10 + u32::from(digit));
    Number::new(value).filter(|number| *number > Number::MIN)
}

/// 406: 460, 640: 604. The first zero that can changes places with its right neighbour, else with its left one.
pub(super) fn zero_moved(number: Number) -> Option<Number> {
    let row = Row::of(number);
    let digits = row.all();
    let moved = |zero: usize, to: usize| {
        let moves = digits[zero] == 0 && digits[to] != 0;
        moves.then(|| row.swapped(zero, to).number()).flatten()
    };
    let to_right = (1..digits.len()).find_map(|at| moved(at - 1, at));
    to_right.or_else(|| (1..digits.len()).find_map(|at| moved(at, at - 1)))
}

/// The number with its last two digits changed by `rule`; where that gives nothing, the two digits before the thousands:
/// thirteen thousand sounds like thirty thousand just as well.
fn in_two_digits(number: Number, rule: impl Fn(u32) -> Option<u32>) -> Option<Number> {
    let value = number.value();
    let last = rule(value % 100).map(|two| value - value % 100 + two);
    let thousands = || {
        let (thousands, rest) = (value / 1_000, value % 1_000);
        rule(thousands % 100).map(|two| (thousands - thousands % 100 + two) * 1_000 + rest)
    };
    last.or_else(thousands).and_then(Number::new)
}

/// 614: 640, 640: 614. Eleven, twelve, ten and twenty do not sound alike.
pub(super) fn teen_ty(number: Number, style: &Style) -> Option<Number> {
    if !style.names.teens_turned() {
        return None;
    }
    in_two_digits(number, |two| match (two / 10, two % 10) {
        (1, ones @ 3..=9) => Some(ones * 10),
        (tens @ 3..=9, 0) => Some(10 + tens),
        _ => None,
    })
}

/// Six hundred seventeen: 671; and 671 read back: six hundred seventeen. Only words that say their ones first are turned:
/// thirteen to nineteen.
pub(super) fn teen_reversed(number: Number, shown: Form, style: &Style) -> Option<Number> {
    if !style.names.teens_turned() {
        return None;
    }
    let heard = |two: u32| (two / 10 == 1 && two % 10 >= 3).then_some(two % 10 * 10 + 1);
    let read = |two: u32| (two / 10 >= 3 && two % 10 == 1).then_some(10 + two / 10);
    in_two_digits(number, if shown == Form::Numeral { read } else { heard })
}

/// Trescientos sesenta y cuatro: 374.
pub(super) fn sound_alike(number: Number, style: &Style) -> Option<Number> {
    in_two_digits(number, |two| style.names.sounds_like(two))
}

/// 105: cien cinco.
pub(super) fn misspelt(number: Number, asked: Form, style: &Style) -> Option<Content> {
    let wrong = asked.is_words().then(|| style.names.misspelt(number.value())).flatten();
    wrong.map(Content::Text)
}

/// 264: 246.
pub(super) fn tens_ones_swapped(number: Number) -> Option<Number> {
    swapped(number, Place::Tens, Place::Ones)
}

/// 264: 624.
pub(super) fn hundreds_tens_swapped(number: Number) -> Option<Number> {
    swapped(number, Place::Hundreds, Place::Tens)
}

/// 264: 462.
pub(super) fn reversed(number: Number) -> Option<Number> {
    let mut row = Row::of(number);
    row.digits[..row.len].reverse();
    row.number()
}

/// The greatest part that a number's words name and what comes after it: 365 as (3, 100, 65), 12,040 as (12, 1000, 40).
fn leading_part(number: Number) -> Option<(u32, u32, u32)> {
    let value = number.value();
    let unit = match value {
        0..100 => return None,
        100..1_000 => 100,
        _ => 1_000,
    };
    Some((value / unit, unit, value % unit))
}

/// All parts, each written out in full.
fn parts(number: Number, with_zeros: bool) -> impl Iterator<Item = u32> {
    let parts = number.digits().filter(move |&(_, digit)| digit != 0 || with_zeros);
    parts.map(|(place, digit)| u32::from(digit) * place.worth())
}

/// The most digits that parts make side by side: more are never written out, and no strip holds them.
const LONGEST: u32 = 12;

/// What these make written side by side, of which the first is not 0; `None` without any, and where that is longer than
/// what is ever written out.
pub(super) fn in_a_row(mut parts: impl Iterator<Item = u32>) -> Option<u64> {
    let first = u64::from(parts.next()?);
    parts.try_fold(first, |row, part| {
        let digits = part.checked_ilog10().unwrap_or(0) + 1;
        let row = row * 10_u64.pow(digits) + u64::from(part);
        (row < 10_u64.pow(LONGEST)).then_some(row)
    })
}

/// 642: 600402; 46: 406. As many parts as are shown: from 400 + 0 + 6 and from 4 hundreds 0 tens 6 ones comes 40006. In words
/// eleven to nineteen are one part, and so are thousands from 10,000 up: nine hundred eleven as 90011, twelve thousand
/// forty as 1200040.
pub(super) fn side_by_side(number: Number, shown: Form, style: &Style) -> Option<u64> {
    match shown {
        Form::Words | Form::SecondWords => {
            let thousands = if number.value() >= 10_000 { number.value() / 1_000 * 1_000 } else { 0 };
            let rest = number.value() - thousands;
            let last = if (11..20).contains(&(rest % 100)) { rest % 100 } else { 0 };
            let middle = Number::new(rest - last)?;
            let said = |part: u32| (part > 0).then_some(part);
            in_a_row(said(thousands).into_iter().chain(parts(middle, false)).chain(said(last)))
        }
        Form::Expanded => in_a_row(parts(number, style.zero_terms)),
        Form::Units => in_a_row(parts(number, true)),
        Form::Numeral | Form::Regrouped | Form::Blocks | Form::Untraded => None,
    }
}

/// 365: 30065.
pub(super) fn big_part_then_rest(number: Number, _: Form, _: &Style) -> Option<u64> {
    let (count, unit, rest) = leading_part(number)?;
    if rest > 0 { in_a_row([count * unit, rest].into_iter()) } else { None }
}

/// 365: 3065. The rest covers all zeros of the greatest part but one. Where the rest is short, as in 406, it would cover
/// too many instead, which is zero dropped.
pub(super) fn half_overwritten(number: Number, _: Form, _: &Style) -> Option<u64> {
    let (count, unit, rest) = leading_part(number)?;
    if rest >= unit / 10 { in_a_row([count, 0, rest].into_iter()) } else { None }
}

/// 642: 610042. Only where the words say how many before they name the place: no one hears a one in "ciento", nor a hundred
/// by itself in "doscientos".
pub(super) fn place_word_written(number: Number, _: Form, style: &Style) -> Option<u64> {
    let (count, unit, rest) = leading_part(number)?;
    style.names.cardinal(count * unit, false).contains(' ').then_some(())?;
    in_a_row([count, unit].into_iter().chain((rest > 0).then_some(rest)))
}

/// 4 flats and 6 cubes: 10. All pieces that lie there are counted.
pub(super) fn counted_alike(number: Number, shown: Form, style: &Style) -> Option<Number> {
    match shown.content(number, style)? {
        Content::Blocks(counts) => Number::new(counts.iter().sum()),
        Content::Text(_) | Content::Both(_) => None,
    }
}

/// 406: 4 + 6 in expanded form, ten cubes.
pub(super) fn face_value(number: Number, asked: Form, style: &Style) -> Option<Content> {
    if number.len() == 1 {
        return None;
    }
    let row = Row::of(number);
    let digits = row.all();
    match asked {
        Form::Expanded => {
            let mut terms = String::with_capacity(4 * digits.len());
            for digit in digits.iter().filter(|&&digit| digit != 0 || style.zero_terms) {
                terms.push_str(if terms.is_empty() { "" } else { " + " });
                terms.push(char::from(b'0' + digit));
            }
            Some(Content::Text(terms))
        }
        Form::Blocks => {
            let cubes = digits.iter().map(|&digit| u32::from(digit)).sum();
            (number <= Number::MAX_BLOCKS).then_some(Content::Blocks([0, 0, 0, cubes]))
        }
        // A numeral, words, unit or regrouped form made of ones alone: no learner writes or picks that.
        Form::Numeral | Form::Words | Form::SecondWords | Form::Units | Form::Regrouped | Form::Untraded => None,
    }
}

/// 834: "eighty thirty-four" (834 was read so in Italian); from four digits on each digit by itself, "one two zero six" (common
/// practice, no source). One reading a number, so that a page shows one kind. Two digits are not cut: seventeen and twenty are
/// learned whole. Of three, "four zero six" and "one twenty-eight" are how families say them, and "forty six" for 406 would look
/// like a missing hyphen.
pub(super) fn read_in_pieces(number: Number, _: Form, style: &Style) -> Option<Content> {
    let word = |value: u32| style.names.cardinal(value, false);
    let hundreds = u32::from(number.digit(Place::Hundreds));
    let reading = match number.len() {
        3 if hundreds > 1 && number.digit(Place::Tens) != 0 => {
            Some(format!("{} {}", word(hundreds * 10), word(number.value() % 100)))
        }
        0..=3 => None,
        _ => Some(number.digits().map(|(_, digit)| word(digit.into())).collect::<Vec<_>>().join(" ")),
    };
    reading.map(Content::Text)
}
