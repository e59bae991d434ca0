//! A question's wrong choices: each made by a slip, none right, no two alike.

use super::ask::{Ask, Family};
use super::{Choice, Question};
use crate::lesson::Lesson;
use crate::lesson::say::written;
use crate::number::{Content, Form, Number, Place, Slip, Style};
use crate::rng::Stream;

/// Wrong choices on a question, at most: four lines are what a learner reads at a glance.
const MOST_WRONG: usize = 3;

/// A question of this family about this number. Where the family has none with enough wrong choices another family steps
/// in, and where no slip gives anything (7 has few wrong forms) the answer is written instead of chosen. `None` when the
/// number can be asked about in no way that `before`, the check's earlier questions, do not ask or answer.
pub(super) fn question(
    lesson: &Lesson,
    mark: u32,
    family: Family,
    of: Number,
    before: &[Question],
) -> Option<Question> {
    let matched = &lesson.spec.forms.matched.value;
    // A numeral in print answers every question that wants that numeral, and the other way round.
    let wants = |ask: Ask| matches!(ask, Ask::Match { wanted: Form::Numeral, .. });
    let fresh =
        |ask: &Ask| before.iter().filter(|b| b.of == of).all(|b| b.ask != *ask && !wants(b.ask) && !wants(*ask));
    let turned = |family: Family| {
        let mut asks: Vec<Ask> = family.asks(of, matched).into_iter().filter(fresh).collect();
        let turn = (mark as usize - 1) % asks.len().max(1);
        asks.rotate_left(turn);
        asks
    };
    let families = [family].into_iter().chain([Family::Given, Family::Sense, Family::Wanted]);
    let asks: Vec<Ask> = families.flat_map(turned).collect();
    let chosen = asks.iter().find_map(|&ask| with_choices(lesson, mark, ask, of));
    chosen.or_else(|| asks.iter().find_map(|&ask| written_answer(lesson, ask, of)))
}

fn with_choices(lesson: &Lesson, mark: u32, ask: Ask, of: Number) -> Option<Question> {
    let style = &lesson.style;
    let answer = ask.answer(of, style)?;
    let mut wrong = wrong(ask, of, &answer, style);
    let (least, most) = match ask {
        Ask::Greater => (1, 1),
        // Words and sums take a line each: three of them can be read without losing the place.
        Ask::Match { wanted, .. } if wanted != Form::Numeral => (2, MOST_WRONG - 1),
        _ => (2, MOST_WRONG),
    };
    if wrong.len() < least {
        return None;
    }
    let mut stream = Stream::new(lesson.spec.seed.value, &format!("exit {mark} {of}"));
    stream.shuffle(&mut wrong);
    // What children really do first; the sort is stable, so the shuffle still decides among equals.
    // A digit's worth is asked for to see whether it is taken at face value.
    let told = |slip: Slip| matches!(ask, Ask::Worth(_)) && slip == Slip::FaceValue;
    wrong.sort_by_key(|choice| choice.slip.map(|slip| (!told(slip), slip.is_rare())));
    wrong.truncate(most);
    wrong.push(Choice { content: answer.clone(), slip: None });
    stream.shuffle(&mut wrong);
    let sentence = ask.sentence(of, style);
    Some(Question { of, ask, sentence, shown: ask.shown(of, style), answer, choices: wrong })
}

fn written_answer(lesson: &Lesson, ask: Ask, of: Number) -> Option<Question> {
    let style = &lesson.style;
    if ask == Ask::Greater {
        return None;
    }
    let answer = ask.answer(of, style)?;
    let sentence = ask.request(of, style);
    Some(Question { of, ask, sentence, shown: ask.shown(of, style), answer, choices: Vec::new() })
}

/// All wrong choices that slips make, the first slip kept where two make the same one.
fn wrong(ask: Ask, of: Number, answer: &Content, style: &Style) -> Vec<Choice> {
    let mut wrong: Vec<Choice> = Vec::new();
    for slip in Slip::all() {
        let content = match ask {
            Ask::Match { wanted, .. } => slip.wrong(of, wanted, style),
            Ask::Worth(place) => misread_worth(slip, of, place, style),
            Ask::Digit(place) => misread_digit(slip, of, place, style),
            Ask::Greater => misread(slip, of, style)
                .filter(|digits| digits.len() == of.len())
                .and_then(|digits| number(&digits))
                .filter(|other| *other < of)
                .map(|other| Content::Text(written(other, style))),
        };
        let Some(content) = content else { continue };
        if content != *answer && wrong.iter().all(|choice| choice.content != content) {
            wrong.push(Choice { content, slip: Some(slip) });
        }
    }
    wrong
}

/// The digits of the numeral that a slip makes of a number, from the left.
fn misread(slip: Slip, of: Number, style: &Style) -> Option<Vec<u8>> {
    let Content::Text(numeral) = slip.wrong(of, Form::Numeral, style)? else { return None };
    Some(numeral.bytes().filter(u8::is_ascii_digit).map(|byte| byte - b'0').collect())
}

/// What the digit is worth where the slip has put it: with the zero dropped, the 4 of 406 stands in 46 and is worth 40.
fn misread_worth(slip: Slip, of: Number, place: Place, style: &Style) -> Option<Content> {
    let digit = of.digit(place);
    if slip == Slip::FaceValue {
        return Some(Content::Text(digit.to_string()));
    }
    let digits = misread(slip, of, style)?;
    let mut spots = (0..digits.len()).filter(|&k| digits[k] == digit);
    let (spot, None) = (spots.next()?, spots.next()) else { return None };
    let place = Place::ALL.get(digits.len() - 1 - spot)?;
    let worth = Number::new(u32::from(digit) * place.worth())?;
    Some(Content::Text(written(worth, style)))
}

/// The digit in the place, read off the numeral that the slip makes.
fn misread_digit(slip: Slip, of: Number, place: Place, style: &Style) -> Option<Content> {
    if slip == Slip::FaceValue {
        return None;
    }
    let digits = misread(slip, of, style)?;
    let digit = digits.iter().rev().nth(place.index())?;
    Some(Content::Text(digit.to_string()))
}

fn number(digits: &[u8]) -> Option<Number> {
    let value = digits.iter().try_fold(0_u32, |sum, digit| sum.checked_mul(10)?.checked_add(u32::from(*digit)))?;
    Number::new(value)
}
