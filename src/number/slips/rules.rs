//! What each slip does to a number.
//!
//! Each rule follows the wrong answers that the research reports for three digits and carries the thinking over to 2 to 6
//! digits. A rule may return the right answer; [`Slip::wrong`](super::Slip::wrong) drops it.

use std::fmt::Write as _;

use super::{Content, Form, Number, Style};
use crate::number::{Place, counted};

/// The digits as the numeral shows them, greatest place first.
fn digits(number: Number) -> Vec<u8> {
    number.digits().map(|(_, digit)| digit).collect()
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
    let mut digits = digits(number);
    let end = digits.len().checked_sub(1)?;
    let (one, other) = (end.checked_sub(one.index())?, end.checked_sub(other.index())?);
    digits.swap(one, other);
    rebuilt(&digits)
}

/// 406: 46. All zeros go, since none of them counts for anything.
pub(super) fn zero_dropped(number: Number) -> Option<Number> {
    let mut digits = digits(number);
    digits.retain(|&digit| digit != 0);
    if digits.is_empty() { None } else { rebuilt(&digits) }
}

/// 406: 460, 640: 604. The first zero that can changes places with its right neighbour, else with its left one.
pub(super) fn zero_moved(number: Number) -> Option<Number> {
    let digits = digits(number);
    let moved = |zero: usize, to: usize| {
        let mut moved = digits.clone();
        moved.swap(zero, to);
        (digits[zero] == 0 && digits[to] != 0).then(|| rebuilt(&moved)).flatten()
    };
    let to_right = (1..digits.len()).find_map(|at| moved(at - 1, at));
    to_right.or_else(|| (1..digits.len()).find_map(|at| moved(at, at - 1)))
}

/// The number with its last two digits changed by `rule`; where that gives nothing, the two digits before the thousands:
/// thirteen thousand sounds like thirty thousand just as well.
fn in_two_digits(number: Number, rule: fn(u32) -> Option<u32>) -> Option<Number> {
    let value = number.value();
    let last = rule(value % 100).map(|two| value - value % 100 + two);
    let thousands = || {
        let (thousands, rest) = (value / 1_000, value % 1_000);
        rule(thousands % 100).map(|two| (thousands - thousands % 100 + two) * 1_000 + rest)
    };
    last.or_else(thousands).and_then(Number::new)
}

/// 614: 640, 640: 614. Eleven, twelve, ten and twenty do not sound alike.
pub(super) fn teen_ty(number: Number) -> Option<Number> {
    in_two_digits(number, |two| match (two / 10, two % 10) {
        (1, ones @ 3..=9) => Some(ones * 10),
        (tens @ 3..=9, 0) => Some(10 + tens),
        _ => None,
    })
}

/// 617: 671, 31: 13. Only words that say their ones first are turned: thirteen to nineteen.
pub(super) fn teen_reversed(number: Number) -> Option<Number> {
    in_two_digits(number, |two| match (two / 10, two % 10) {
        (1, ones @ 3..=9) => Some(ones * 10 + 1),
        (tens @ 3..=9, 1) => Some(10 + tens),
        _ => None,
    })
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
    let mut digits = digits(number);
    digits.reverse();
    rebuilt(&digits)
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

/// 642: 600402; 46: 406. From 10,000 up the thousands are one part, as they are heard: 12,040 as 1200040.
pub(super) fn side_by_side(number: Number) -> Option<String> {
    let thousands = if number.value() >= 10_000 { number.value() / 1_000 * 1_000 } else { 0 };
    let rest = Number::new(number.value() - thousands)?;
    let mut text = if thousands > 0 { thousands.to_string() } else { String::new() };
    for (place, digit) in rest.digits().filter(|&(_, digit)| digit != 0) {
        // Writing to a string cannot fail.
        let _ = write!(text, "{}", u32::from(digit) * place.worth());
    }
    (!text.is_empty()).then_some(text)
}

/// 365: 30065.
pub(super) fn big_part_then_rest(number: Number) -> Option<String> {
    let (count, unit, rest) = leading_part(number)?;
    (rest > 0).then(|| format!("{}{rest}", count * unit))
}

/// 365: 3065. The rest covers all zeros of the greatest part but one. Where the rest is short, as in 406, it would cover
/// too many instead, which is zero dropped.
pub(super) fn half_overwritten(number: Number) -> Option<String> {
    let (count, unit, rest) = leading_part(number)?;
    (rest >= unit / 10).then(|| format!("{count}0{rest}"))
}

/// 642: 610042.
pub(super) fn place_word_written(number: Number) -> Option<String> {
    let (count, unit, rest) = leading_part(number)?;
    Some(if rest > 0 { format!("{count}{unit}{rest}") } else { format!("{count}{unit}") })
}

/// 406: 3106. One of a place stands as ten more of the next smaller one, and the count is written as it is. The hundred is
/// opened, or the smallest larger block where the numeral has no hundred to spare; in two digits, a ten.
pub(super) fn not_traded(number: Number) -> Option<String> {
    let places = if number.len() == 2 { &Place::ALL[1..2] } else { Place::ALL.get(2..number.len())? };
    let open = |&place: &Place| {
        let mut text = String::new();
        for (at, digit) in number.digits() {
            let count = match at {
                at if at == place => digit.checked_sub(1)?,
                at if at.index() + 1 == place.index() => digit + 10,
                _ => digit,
            };
            let _ = write!(text, "{count}");
        }
        (!text.starts_with('0')).then_some(text)
    };
    places.iter().find_map(open)
}

/// 406: as a numeral 10, as words "four zero six", in expanded form 4 + 6, in unit form 4 ones 0 ones 6 ones, ten cubes.
pub(super) fn face_value(number: Number, form: Form, style: &Style) -> Option<Content> {
    let digits = digits(number);
    if digits.len() < 2 {
        return None;
    }
    let sum: u32 = digits.iter().map(|&digit| u32::from(digit)).sum();
    let joined = |with: &str, show: &dyn Fn(u8) -> String| {
        let parts: Vec<String> = digits.iter().map(|&digit| show(digit)).collect();
        Content::Text(parts.join(with))
    };
    Some(match form {
        Form::Numeral => Content::Text(sum.to_string()),
        Form::Words => joined(" ", &|digit| style.names.cardinal(digit.into(), false)),
        Form::Expanded => {
            let terms: Vec<String> =
                digits.iter().filter(|&&digit| digit != 0 || style.zero_terms).map(u8::to_string).collect();
            Content::Text(terms.join(" + "))
        }
        Form::Units => joined(" ", &|digit| counted(u32::from(digit), Place::Ones)),
        Form::Blocks => (number <= Number::MAX_BLOCKS).then_some(Content::Blocks([0, 0, 0, sum]))?,
    })
}

/// 834: "eighty thirty-four". Three digits with a ten to begin the second piece; "forty six" for 406 would only look like
/// a missing hyphen.
pub(super) fn read_in_pieces(number: Number, form: Form, style: &Style) -> Option<Content> {
    if form != Form::Words || number.len() != 3 || number.digit(Place::Tens) == 0 {
        return None;
    }
    let rest = Number::new(number.value() % 100)?;
    Some(Content::Text(format!(
        "{} {}",
        style.names.cardinal(u32::from(number.digit(Place::Hundreds)) * 10, false),
        style.words(rest)
    )))
}
