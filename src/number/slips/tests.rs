//! Tests of the slips: the published wrong answers, what no slip may make, and the catalogue's own form.

mod two_languages;

use std::collections::{BTreeMap, BTreeSet};

use super::*;
use crate::wording::{English, Spanish};

const PLAIN: Style = Style::plain(&English);
const ZEROS: Style = Style { and: true, zero_terms: true, thousands: None, ..Style::plain(&English) };
const SPANISH: Style = Style { names: &Spanish, ..PLAIN };
const ENGLISH_FIRST: Style = Style { second: Some(&Spanish), ..PLAIN };
const SPANISH_FIRST: Style = Style { second: Some(&English), ..SPANISH };
const HEARD: Task = Task::forms(Form::Words, Form::Numeral);
const READ: Task = Task::forms(Form::Numeral, Form::Words);
const SUM: Task = Task::forms(Form::Numeral, Form::Expanded);
const SEEN: Task = Task::forms(Form::Blocks, Form::Numeral);
const BUILT: Task = Task::forms(Form::Numeral, Form::Blocks);

fn number(value: u32) -> Number {
    Number::new(value).expect("in range")
}

/// What a slip makes of a number, the answers side by side; `-` where it makes none.
fn all(slip: Slip, value: u32, task: Task) -> String {
    let texts: Vec<String> =
        slip.wrong(number(value), task, &PLAIN).iter().map(|content| content.text(&English)).collect();
    if texts.is_empty() { "-".to_owned() } else { texts.join(" | ") }
}

/// What the rule gives, right or wrong, written out.
fn given(slip: Slip, of: Number, task: Task, style: &Style) -> Vec<Content> {
    let mut given = Vec::new();
    slip.each(of, task, style, &mut |answer| given.extend(answer.content(task.asked(), style)));
    given
}

/// As it is written, but for marks of thousands.
fn unmarked(content: &Content, style: &Style) -> Content {
    match content {
        Content::Text(_) => Content::Text(content.aloud(style.names)),
        Content::Both(_) | Content::Blocks(_) => content.clone(),
    }
}

/// The plain reading of [`Task::wrong`]: everything is written out, and what is written is compared.
fn plainly_wrong(of: Number, task: Task, style: &Style, given: &[(Slip, Vec<Content>)]) -> Vec<(Slip, Content)> {
    let is_shown = match task {
        Task::Forms { shown, .. } => shown.content(of, style).is_some(),
        Task::Worth(place) => of.shows(place),
        Task::Greater(_) => true,
    };
    let Some(right) = task.right(of, style).filter(|_| is_shown) else { return Vec::new() };
    let worth = right.worth(task.asked(), style.names);
    let mut wrong: Vec<(Slip, Content)> = Vec::new();
    for (slip, contents) in given {
        for content in contents {
            let is_right = *content == right || worth.is_some() && content.worth(task.asked(), style.names) == worth;
            if !is_right && wrong.iter().all(|(_, other)| unmarked(other, style) != unmarked(content, style)) {
                wrong.push((*slip, content.clone()));
            }
        }
    }
    wrong
}

/// What the rule gives alone, whoever explains it better: `-` where it gives nothing, the right answer, or a leading zero.
fn rule(slip: Slip, value: u32) -> String {
    let right = value.to_string();
    let given = given(slip, number(value), HEARD, &PLAIN);
    given.first().map(|content| content.text(&English)).filter(|text| *text != right).unwrap_or_else(|| "-".to_owned())
}

/// One row of the table of wrong answers.
#[track_caller]
fn row(slip: Slip, wants: [&str; 5]) {
    assert_eq!([406, 640, 383, 264, 911].map(|value| rule(slip, value)), wants, "{slip:?}");
}

// Wrong answers of the rules for three digits, as worked out for this project from the research that the catalogue names.
#[test]
fn published_rules() {
    row(Slip::SideBySide, ["4006", "60040", "300803", "200604", "90011"]);
    row(Slip::BigPartThenRest, ["4006", "60040", "30083", "20064", "90011"]);
    row(Slip::HalfOverwritten, ["-", "6040", "3083", "2064", "9011"]);
    row(Slip::PlaceWordWritten, ["41006", "610040", "310083", "210064", "910011"]);
    row(Slip::ZeroDropped, ["46", "64", "-", "-", "-"]);
    row(Slip::ZeroMoved, ["460", "604", "-", "-", "-"]);
    row(Slip::TensOnesSwapped, ["460", "604", "338", "246", "-"]);
    row(Slip::HundredsTensSwapped, ["-", "460", "833", "624", "191"]);
    row(Slip::Reversed, ["604", "-", "-", "462", "119"]);
    row(Slip::TeenTy, ["-", "614", "-", "-", "-"]);
    row(Slip::TeenReversed, ["-", "-", "-", "-", "-"]);
}

// The researchers' own examples: Power and Dal Martello 1990 and 1997; Byrge, Smith and Mix 2014; NSW numeracy continuum.
#[test]
fn published_examples() {
    assert_eq!(all(Slip::BigPartThenRest, 365, HEARD), "30065");
    assert_eq!(all(Slip::HalfOverwritten, 365, HEARD), "3065");
    assert_eq!(all(Slip::SideBySide, 642, HEARD), "600402");
    assert_eq!(all(Slip::PlaceWordWritten, 642, HEARD), "610042");
    assert_eq!(all(Slip::ReadInPieces, 834, READ), "eighty thirty-four");
    assert_eq!(all(Slip::TeenReversed, 617, HEARD), "671");
    assert_eq!([13, 14].map(|n| all(Slip::TeenReversed, n, HEARD)), ["31", "41"]);
    assert_eq!([31, 41].map(|n| all(Slip::TeenReversed, n, READ)), ["thirteen", "fourteen"]);
    assert_eq!([640, 614, 13, 30].map(|n| all(Slip::TeenTy, n, HEARD)), ["614", "640", "30", "13"]);
}

#[test]
fn other_lengths() {
    assert_eq!(all(Slip::SideBySide, 46, HEARD), "406");
    assert_eq!(all(Slip::SideBySide, 1_206, HEARD), "10002006");
    assert_eq!(all(Slip::SideBySide, 12_040, HEARD), "1200040");
    assert_eq!(all(Slip::BigPartThenRest, 406_383, HEARD), "406000383");
    assert_eq!(all(Slip::HalfOverwritten, 1_206, HEARD), "10206");
    assert_eq!(all(Slip::PlaceWordWritten, 1_206, HEARD), "11000206");
    assert_eq!(all(Slip::PlaceWordWritten, 400, HEARD), "4100");
    assert_eq!(all(Slip::PlaceWordWritten, 46, HEARD), "-");
    assert_eq!(all(Slip::ZeroDropped, 1_005, HEARD), "15");
    assert_eq!(all(Slip::ZeroMoved, 1_200, HEARD), "1,020");
    assert_eq!(all(Slip::ZeroMoved, 400, HEARD), "-");
    assert_eq!([400, 40, 4].map(|n| all(Slip::BigPartThenRest, n, HEARD)), ["-", "-", "-"]);
    assert_eq!(all(Slip::TeenTy, 13_205, HEARD), "30,205");
    assert_eq!(all(Slip::Reversed, 406_383, SEEN), "-");
    assert_eq!(all(Slip::Reversed, 406_383, HEARD), "383,604");
}

#[test]
fn other_forms() {
    assert_eq!(all(Slip::ZeroDropped, 640, READ), "sixty-four");
    assert_eq!(all(Slip::ZeroDropped, 406, Task::forms(Form::Numeral, Form::Units)), "4 tens 6 ones");
    assert_eq!(all(Slip::FaceValue, 406, SUM), "4 + 6");
    assert_eq!(all(Slip::FaceValue, 989, BUILT), "26 cubes");
    assert_eq!(all(Slip::ZeroMoved, 406, BUILT), "4 flats, 6 rods");
    assert_eq!(all(Slip::CountedAlike, 406, SEEN), "10");
    assert_eq!(all(Slip::SideBySide, 406, Task::forms(Form::Expanded, Form::Numeral)), "4006");
    // Twenty-one digits are more than a strip holds.
    assert_eq!(all(Slip::SideBySide, 715_619, Task::forms(Form::Expanded, Form::Numeral)), "-");
    assert_eq!(all(Slip::SideBySide, 406, Task::forms(Form::Units, Form::Numeral)), "40006");
    let with_zeros = Slip::SideBySide.wrong(number(406), Task::forms(Form::Expanded, Form::Numeral), &ZEROS);
    assert_eq!(with_zeros, [Content::Text("40006".to_owned())]);
    assert_eq!(all(Slip::ReadInPieces, 269, READ), "twenty sixty-nine");
    assert_eq!(all(Slip::ReadInPieces, 1_206, READ), "one two zero six");
    // Seventeen and twenty are learned whole, and many say "four zero six" and "one twenty-eight".
    assert_eq!([17, 20, 90, 406, 128].map(|n| all(Slip::ReadInPieces, n, READ)), ["-"; 5]);
}

#[test]
fn digits_are_judged() {
    let worth = |slip, value, place| all(slip, value, Task::Worth(place));
    assert_eq!(worth(Slip::FaceValue, 274, Place::Hundreds), "2");
    assert_eq!(worth(Slip::PlaceOff, 274, Place::Hundreds), "20");
    assert_eq!(worth(Slip::PlaceOff, 274, Place::Tens), "700");
    assert_eq!(worth(Slip::PlaceOff, 74, Place::Tens), "700");
    assert_eq!(worth(Slip::FaceValue, 274, Place::Ones), "-");
    assert_eq!(worth(Slip::FaceValue, 406, Place::Tens), "-");
    let judged = |slip: Slip, one, other| slip.judges(number(one), number(other));
    assert_eq!(judged(Slip::FromTheOnes, 67, 76), Some(Judged::Lesser));
    assert_eq!(judged(Slip::FaceValue, 76, 67), Some(Judged::Equal));
    assert_eq!(judged(Slip::FromTheOnes, 69, 76), Some(Judged::Lesser));
    assert_eq!(judged(Slip::FaceValue, 69, 76), None, "the last digit explains it better");
    assert_eq!(judged(Slip::FaceValue, 390, 402), Some(Judged::Lesser));
    assert_eq!(judged(Slip::FromTheOnes, 99, 100), None);
    assert_eq!(all(Slip::FromTheOnes, 76, Task::Greater(number(67))), "67");
}

// Digits that change places are rare where number words run from left to right (Steiner et al. 2021).
#[test]
fn inversions_are_rare() {
    let rare: Vec<&str> = Slip::all().filter(|slip| slip.is_rare()).map(Slip::word).collect();
    assert_eq!(rare, ["tens and ones swapped", "hundreds and tens swapped", "digits reversed"]);
}

/// All tasks about a number: every pair of forms, the worth of every digit, and three comparisons.
fn tasks(value: u32) -> Vec<Task> {
    let pairs = Form::ALL.into_iter().flat_map(|shown| Form::ALL.map(|asked| Task::forms(shown, asked)));
    let worths = number(value).digits().map(|(place, _)| Task::Worth(place)).collect::<Vec<_>>();
    let turned: u32 = value.to_string().chars().rev().collect::<String>().parse().expect("digits");
    let others = [turned, value.saturating_sub(9), value + 9].into_iter().filter(|other| *other != value);
    pairs.chain(worths).chain(others.filter_map(Number::new).map(Task::Greater)).collect()
}

/// Whether what the slip needs is in sight, told from the printed text of what is shown: the test's own reading of the
/// catalogue, apart from the table of pairs.
fn is_in_sight(slip: Slip, value: u32, task: Task, style: &Style) -> bool {
    let Task::Forms { shown, asked } = task else {
        return matches!(slip, Slip::FaceValue | Slip::PlaceOff | Slip::FromTheOnes);
    };
    let Some(content) = shown.content(number(value), style) else { return true };
    let text = content.text(&English);
    let digits = value.to_string();
    let two_alike = |at: usize| digits.chars().rev().nth(at) != digits.chars().rev().nth(at + 1);
    match slip {
        Slip::ZeroDropped | Slip::ZeroMoved => {
            digits[1..].contains('0') && (shown == Form::Numeral || asked == Form::Numeral)
        }
        Slip::TeenTy => {
            let sounds = text.contains("teen") || text.contains("ty") || asked == Form::Words;
            sounds && (shown == Form::Words || asked == Form::Words)
        }
        Slip::SoundAlike => shown == Form::Words || asked == Form::Words,
        Slip::HundredWord => asked == Form::Words,
        Slip::TeenReversed => {
            text.contains("teen") || (shown == Form::Numeral && asked == Form::Words && digits.contains('1'))
        }
        Slip::SideBySide => text.contains([' ', '-']) && matches!(shown, Form::Words | Form::Expanded | Form::Units),
        Slip::BigPartThenRest | Slip::HalfOverwritten | Slip::PlaceWordWritten => shown == Form::Words && value >= 100,
        Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => asked.is_traded() && value >= 10,
        Slip::CountsSideBySide | Slip::TenLeftOut => shown.is_traded(),
        Slip::FaceValue => text.contains(|c: char| c.is_ascii_digit()) && digits.len() > 1 && !shown.is_picture(),
        Slip::CountedAlike => {
            shown.is_picture() && (text.contains("rod") || text.contains("flat") || text.contains("thousand"))
        }
        Slip::ReadInPieces => shown == Form::Numeral && digits.len() > 2,
        Slip::PlaceOff | Slip::FromTheOnes => false,
        Slip::TensOnesSwapped => two_alike(0),
        Slip::HundredsTensSwapped => digits.len() > 2 && two_alike(1),
        Slip::Reversed => digits.len() > 1,
    }
}

// Every number to 9,999 and every pair of forms, then samples up to 999,999.
#[test]
fn a_wrong_answer_means_what_its_slip_says() {
    let numbers = (0..=9_999).map(|value| (value, PLAIN)).chain((0..=9_999).step_by(13).map(|value| (value, ZEROS)));
    let numbers: Vec<_> = numbers.chain((10_000..=999_999).step_by(4_973).map(|value| (value, PLAIN))).collect();
    // The longest test by far: both cores share it.
    let cases: u64 = std::thread::scope(|scope| {
        let parts = numbers.chunks(numbers.len().div_ceil(2));
        let works: Vec<_> = parts.map(|part| scope.spawn(move || wrong_answers(part))).collect();
        works.into_iter().map(|work| work.join().expect("every answer means what its slip says")).sum()
    });
    assert!(cases > 600_000, "{cases} cases");
}

/// Checks every wrong answer about these numbers; returns how many there are.
fn wrong_answers(numbers: &[(u32, Style)]) -> u64 {
    let mut cases = 0;
    for &(value, style) in numbers {
        let of = number(value);
        for task in tasks(value) {
            let answers = task.wrong(of, &style);
            let right = task.right(of, &style);
            let given: Vec<_> = task.provokes().iter().map(|slip| (*slip, given(*slip, of, task, &style))).collect();
            // Writing everything out takes long: one number of ten is enough to see that nothing was missed.
            if value % 11 == 6 {
                assert_eq!(answers, plainly_wrong(of, task, &style, &given), "{value} in {task:?}");
            }
            let mut named: Vec<Slip> = answers.iter().map(|(slip, _)| *slip).collect();
            named.dedup();
            let slips = task.slips(of, &style);
            let likeliest_first: Vec<Slip> =
                task.provokes().iter().copied().filter(|slip| slips.contains(*slip)).collect();
            assert_eq!(named, likeliest_first, "{value} in {task:?}");
            for (k, (slip, content)) in answers.iter().enumerate() {
                cases += 1;
                assert_ne!(Some(content), right.as_ref(), "{slip:?} of {value} in {task:?}");
                if let Task::Forms { asked, .. } = task {
                    assert_ne!(
                        content.worth(asked, &English),
                        Some(u64::from(value)),
                        "{slip:?} of {value} in {task:?}"
                    );
                }
                if let (Content::Text(text), Form::Numeral) = (content, task.asked()) {
                    assert!(!text.starts_with('0') && text.len() <= 30, "{slip:?} of {value}: {text}");
                    assert_ne!(
                        Some(text.replace(',', "")),
                        right.as_ref().map(|right| right.text(&English).replace(',', ""))
                    );
                }
                assert!(is_in_sight(*slip, value, task, &style), "{slip:?} of {value} in {task:?}: {content:?}");
                // The label is unique: no answer twice, and no likelier slip gives it.
                assert!(answers[..k].iter().all(|(_, other)| other != content), "{value} in {task:?}: {content:?}");
                let likelier = given.iter().take_while(|(other, _)| other != slip);
                for (other, contents) in likelier {
                    assert!(!contents.contains(content), "{other:?} gives {content:?} of {value} in {task:?} too");
                }
            }
        }
    }
    cases
}

#[test]
fn every_slip_is_provoked_and_shown_by_its_example() {
    for slip in Slip::all() {
        let Example { of, task, answer } = slip.example();
        let style = if slip.only() == Some("es") { SPANISH } else { PLAIN };
        let made: Vec<String> =
            slip.wrong(number(of), task, &style).iter().map(|content| content.text(style.names)).collect();
        assert!(made.iter().any(|text| text == answer), "{slip:?}: {made:?}");
    }
    // No task names a slip that it never provokes.
    let mut made: BTreeMap<Task, BTreeSet<Slip>> = BTreeMap::new();
    for value in (0..1_100).chain([12_305, 13_205]) {
        for task in tasks(value).into_iter().filter(|task| matches!(task, Task::Forms { .. })) {
            for style in [ENGLISH_FIRST, SPANISH_FIRST] {
                let wrong = task.wrong(number(value), &style).into_iter().map(|(slip, _)| slip);
                made.entry(task).or_default().extend(wrong);
            }
        }
    }
    for (task, slips) in made {
        assert_eq!(slips, task.provokes().iter().copied().collect(), "{task:?}");
    }
}

#[test]
fn the_catalogue_is_complete() {
    for (at, slip) in Slip::all().enumerate() {
        assert_eq!(slip as usize, at, "{slip:?} is out of order");
        assert!(Slip::all().take(at).all(|other| other.word() != slip.word()));
        assert!(!slip.source().is_empty());
    }
}

// Sesenta and setenta, dieci- and veinti-, cien and ciento: what Spanish words provoke, and what English ones do not.
#[test]
fn slips_belong_to_their_language() {
    let made = |slip: Slip, value, task, style: &Style| -> Vec<String> {
        slip.wrong(number(value), task, style).iter().map(|content| content.text(style.names)).collect()
    };
    assert_eq!(made(Slip::SoundAlike, 364, HEARD, &SPANISH), ["374"]);
    assert_eq!(made(Slip::SoundAlike, 217, HEARD, &SPANISH), ["227"]);
    assert_eq!(made(Slip::SoundAlike, 26, READ, &SPANISH), ["dieciséis"]);
    assert_eq!(made(Slip::HundredWord, 105, READ, &SPANISH), ["cien cinco"]);
    assert_eq!(made(Slip::HundredWord, 100, READ, &SPANISH), ["ciento"]);
    assert_eq!(made(Slip::HundredWord, 205, READ, &SPANISH), Vec::<String>::new());
    for value in 0..1_000 {
        for task in tasks(value) {
            for (slip, answer) in task.wrong(number(value), &PLAIN) {
                let foreign = [Slip::SoundAlike, Slip::HundredWord].contains(&slip);
                assert!(!foreign, "{slip:?} of {value} in English: {answer:?}");
            }
            for (slip, answer) in task.wrong(number(value), &SPANISH) {
                let foreign = [Slip::TeenTy, Slip::TeenReversed].contains(&slip);
                assert!(!foreign, "{slip:?} of {value} in Spanish: {answer:?}");
            }
        }
    }
}

// What holds of the English answers holds of the Spanish ones: never right, one label an answer.
#[test]
fn a_spanish_wrong_answer_means_what_its_slip_says() {
    for value in (0..=9_999).step_by(3) {
        let of = number(value);
        for task in tasks(value) {
            let answers = task.wrong(of, &SPANISH);
            let right = task.right(of, &SPANISH);
            for (k, (slip, content)) in answers.iter().enumerate() {
                assert_ne!(Some(content), right.as_ref(), "{slip:?} of {value} in {task:?}");
                assert!(answers[..k].iter().all(|(_, other)| other != content), "{value} in {task:?}: {content:?}");
                assert!(slip.only() != Some("en-US"), "{slip:?}");
            }
        }
    }
}
