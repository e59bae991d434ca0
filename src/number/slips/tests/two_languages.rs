//! Slips where words stand in two languages, each on pieces of its own or both on one.

use std::collections::HashMap;

use super::{ENGLISH_FIRST, PLAIN, SPANISH, SPANISH_FIRST, number, tasks};
use crate::number::{Content, Form, Names, Slip, Style, Task};

/// Every style with two languages: words apart, and both on one piece.
fn styles() -> [Style; 4] {
    let both = |style: Style| Style { both: true, ..style };
    [ENGLISH_FIRST, SPANISH_FIRST, both(ENGLISH_FIRST), both(SPANISH_FIRST)]
}

/// The language whose words a task is about: what is shown is read first. `None` where it shows and asks for none.
fn spoken(task: Task, style: &Style) -> Option<&'static dyn Names> {
    let form = [task.shown(), task.asked()].into_iter().find(|form| form.is_words())?;
    if form == Form::SecondWords { style.second } else { Some(style.names) }
}

// The slip that a wrong answer is named by belongs to the language of the words; to words in both belong only slips that
// any language provokes.
#[test]
fn a_slip_belongs_to_the_language_of_the_words() {
    let (mut own, mut seen) = (0_u32, 0_u32);
    for style in styles() {
        for value in (0..=9_999).step_by(7).chain((10_000..=999_999).step_by(48_611)) {
            for task in tasks(value) {
                let answers = task.wrong(number(value), &style);
                let right = task.right(number(value), &style);
                for (k, (slip, content)) in answers.iter().enumerate() {
                    seen += 1;
                    assert_ne!(Some(content), right.as_ref(), "{slip:?} of {value} in {task:?}");
                    assert!(answers[..k].iter().all(|(_, other)| other != content), "{value} in {task:?}: {content:?}");
                    if let Some(only) = slip.only() {
                        own += 1;
                        let words = spoken(task, &style).map(Names::tag);
                        let misspelt = *slip == Slip::HundredWord && task.asked().is_words();
                        let asked = if task.asked() == Form::SecondWords { style.second } else { Some(style.names) };
                        let asked = asked.filter(|_| misspelt).map(Names::tag);
                        assert!(words == Some(only) || asked == Some(only), "{slip:?} of {value} in {task:?}");
                        let shared = style.both && [task.shown(), task.asked()].contains(&Form::Words);
                        assert!(!shared, "{slip:?} of {value} on a piece in both languages");
                    }
                }
            }
        }
    }
    assert!(own > 1_000 && seen > 100_000, "{own} of {seen}");
}

/// The number that words say, in a language.
fn values(names: &dyn Names) -> HashMap<String, u32> {
    (0..=9_999).map(|value| (names.cardinal(value, false), value)).collect()
}

#[test]
fn both_halves_of_a_piece_say_the_same() {
    let (english, spanish) = (values(PLAIN.names), values(SPANISH.names));
    let style = Style { both: true, ..ENGLISH_FIRST };
    let mut pieces = 0;
    for value in (0..=9_999).step_by(3) {
        let of = number(value);
        let Some(Content::Both(right)) = Form::Words.content(of, &style) else { panic!("{value}") };
        assert_eq!(
            [&right[0], &right[1]].map(String::as_str),
            [style.words(of), SPANISH.words(of)].each_ref().map(|w| &**w)
        );
        for given in [Form::Numeral, Form::Expanded, Form::Units, Form::Blocks] {
            for (slip, content) in Task::forms(given, Form::Words).wrong(of, &style) {
                let Content::Both([first, second]) = &content else { panic!("{slip:?} of {value}: {content:?}") };
                assert_eq!(english.get(first), spanish.get(second), "{slip:?} of {value}");
                // Neither half is right: whoever reads one language only is told the same as whoever reads both.
                assert!(*first != right[0] && *second != right[1], "{slip:?} of {value}: {content:?}");
                pieces += 1;
            }
        }
    }
    assert!(pieces > 10_000, "{pieces}");
}

// A strip has one home: no words of one language are words of the other.
#[test]
fn no_words_say_a_number_in_both_languages() {
    let english = values(PLAIN.names);
    for value in (0..=9_999).chain((10_000..=999_999).step_by(331)) {
        let words = SPANISH.names.cardinal(value, false);
        assert!(!english.contains_key(&words), "{words}");
        assert_ne!(words, PLAIN.names.cardinal(value, false));
    }
}
