//! Questions and remarks about one number or two, with the answers to expect.

use super::{Step, ask, say, watch};
use crate::lesson::say::{
    article, capital, columns, counted, empty_places, expanded, list, piece, pieces, small, spoken, without_zeros,
    worth, written,
};
use crate::lesson::{Lesson, Wrong};
use crate::number::{Content, Feature, Number, Place, Slip, Style, Task};

/// "4 flats in the hundreds column and 6 cubes in the ones column. Leave the tens column empty.": how a number is built on a mat; only for numbers that have a block picture.
pub(super) fn build(number: Number) -> String {
    let parts: Vec<String> = number
        .digits()
        .filter(|(_, digit)| *digit > 0)
        .filter_map(|(place, digit)| {
            let (one, many) = piece(place)?;
            Some(format!("{} in the {} column", counted(digit.into(), one, many), place.words()))
        })
        .collect();
    let put = match parts.len() {
        0 => return "the whole mat stays empty.".to_owned(),
        1 | 2 => list(&parts),
        // Every column named would make a sentence too long to say.
        _ => format!("{}, each in its own column", pieces(number)),
    };
    let empty = empty_places(number);
    if empty.is_empty() { format!("{put}.") } else { format!("{put}. Leave {} empty.", columns(&empty)) }
}

/// What each digit is worth, for the digit in the greatest place: "What is the 4 in 406 worth?"
pub(super) fn worth_of(number: Number, place: Place, style: &Style) -> Step {
    let digit = number.digit(place);
    ask(
        format!("What is the {digit} in {} worth?", written(number, style)),
        format!("{}, because it is in the {} place.", worth(number, place, style), place.words()),
    )
}

/// A place whose digit stands in the numeral only once and is not 0, the greatest such place first; turned by `turn`, so
/// that one number after another is asked about different places.
pub(super) fn telling_place(number: Number, turn: usize) -> Option<Place> {
    let digits: Vec<(Place, u8)> = number.digits().collect();
    if digits.len() < 2 {
        return None;
    }
    let once = |digit: u8| digits.iter().filter(|(_, d)| *d == digit).count() == 1;
    let places: Vec<Place> = digits.iter().filter(|(_, d)| *d > 0 && once(*d)).map(|(place, _)| *place).collect();
    places.get(turn % places.len().max(1)).copied()
}

/// What zeros do; nothing for a number that shows none. Only the first such number is asked about at length.
pub(super) fn zeros(number: Number, first: bool, style: &Style) -> Vec<Step> {
    let numeral = written(number, style);
    if number == Number::MIN {
        return vec![ask("Why do we still write a 0?", "It tells everyone that there are none.")];
    }
    let (empty, Some(rest)) = (empty_places(number), without_zeros(number)) else { return Vec::new() };
    let words: Vec<&str> = empty.iter().map(|place| place.words()).collect();
    let (rest, one) = (written(rest, style), empty.len() == 1);
    let places = format!("the {} {}", list(&words), if one { "place" } else { "places" });
    let (zero, keeps, them) = if one { ("the 0", "It keeps", "it") } else { ("the 0s", "They keep", "them") };
    let (does, is) = if one { ("does", "is") } else { ("do", "are") };
    let keep = format!("{keeps} {places}. Without {them} we would read {rest}.");
    if !first {
        return vec![ask(format!("Why do we write {zero} in {numeral}?"), keep)];
    }
    vec![
        ask(format!("What {does} {zero} in {numeral} tell us?"), format!("{} {is} empty.", capital(&places))),
        ask(format!("Why do we write {them}?"), keep),
    ]
}

/// What a digit that appears more than once is worth in each place; nothing where no digit but 0 does.
pub(super) fn repeats(number: Number, style: &Style) -> Option<Step> {
    let digits: Vec<(Place, u8)> = number.digits().collect();
    let count = |digit: u8| digits.iter().filter(|(_, d)| *d == digit).count();
    let digit = digits.iter().map(|(_, d)| *d).find(|d| *d > 0 && count(*d) > 1)?;
    let worths: Vec<String> =
        digits.iter().filter(|(_, d)| *d == digit).map(|(place, _)| worth(number, *place, style)).collect();
    Some(say(format!(
        "{} has {} {digit}s. From left to right they are worth {}.",
        written(number, style),
        small(worths.len()),
        list(&worths)
    )))
}

/// That a teen is one ten and some ones; nothing for numbers that do not end in 11 to 19.
pub(super) fn teen(number: Number, style: &Style) -> Option<Step> {
    let tail = Number::new(number.value() % 100).filter(|tail| Feature::Teen.is_in(*tail))?;
    let ones = counted(tail.digit(Place::Ones).into(), "one", "ones");
    let name = spoken(tail, style);
    Some(if tail == number {
        say(format!("{} is 1 ten and {ones}.", capital(&name)))
    } else {
        say(format!("{} ends in {name}. That is 1 ten and {ones}.", written(number, style)))
    })
}

/// The expanded form; nothing for a number with one part only.
pub(super) fn parts(number: Number, style: &Style) -> Option<Step> {
    let sum = expanded(number, style);
    sum.contains('+')
        .then(|| ask(format!("How do we write {} in expanded form?", written(number, style)), format!("{sum}.")))
}

/// A digit that stands in two numbers in different places, and is worth different amounts there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Twins {
    pub(super) digit: u8,
    pub(super) first: (Number, Place),
    pub(super) second: (Number, Place),
}

/// The first such pair; each number has the digit only once.
pub(super) fn twins(numbers: &[Number]) -> Option<Twins> {
    let single = |number: Number, digit: u8| {
        let mut places = number.digits().filter(|(_, d)| *d == digit).map(|(place, _)| place);
        let (place, None) = (places.next()?, places.next()) else { return None };
        Some(place)
    };
    numbers.iter().enumerate().find_map(|(k, &a)| {
        numbers[k + 1..].iter().find_map(|&b| {
            a.digits().filter(|(_, digit)| *digit > 0).find_map(|(_, digit)| {
                let (first, second) = (single(a, digit)?, single(b, digit)?);
                (first != second).then_some(Twins { digit, first: (a, first), second: (b, second) })
            })
        })
    })
}

impl Twins {
    /// The question whether the digit is worth the same in both.
    pub(super) fn ask(&self, style: &Style) -> Step {
        let (a, b) = (written(self.first.0, style), written(self.second.0, style));
        ask(
            format!("Is the {} worth the same in {a} and in {b}?", self.digit),
            format!(
                "No. In {a} it is worth {}. In {b} it is worth {}.",
                worth(self.first.0, self.first.1, style),
                worth(self.second.0, self.second.1, style)
            ),
        )
    }
}

/// Where the greatest digit stands, to practise "an 8": "383 has an 8. Which place is it in?"
pub(super) fn find_digit(number: Number, turn: usize, style: &Style) -> Option<Step> {
    let place = telling_place(number, turn)?;
    let digit = number.digit(place);
    Some(ask(
        format!("{} has {} {digit}. Which place is it in?", written(number, style), article(digit.into())),
        format!("The {} place.", place.words()),
    ))
}

/// How many pieces show the number.
pub(super) fn how_many(number: Number, style: &Style) -> Step {
    ask(format!("Which blocks show {}?", written(number, style)), format!("{}.", capital(&pieces(number))))
}

/// A wrong answer to look out for: the likeliest of the slips in play that is not among `named`.
pub(super) fn look_for(lesson: &Lesson, number: Number, task: Task, named: &mut Vec<Slip>) -> Option<Step> {
    let style = &lesson.style;
    let in_play = |slip: Slip| lesson.letter(slip).is_some() && !named.contains(&slip);
    let (slip, content) = task.wrong(number, style).into_iter().find(|(slip, _)| in_play(*slip))?;
    let Content::Text(shown) = &content else { return None };
    let sees = format!("{shown} for {}", written(number, style));
    named.push(slip);
    Some(watch(sees, Wrong { of: number, task, content, slip }))
}
