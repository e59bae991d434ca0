//! Decoys: strips made by slips, which match no row.
//!
//! In: the numbers of a sort set and its forms. Out: every different decoy that slips can make for it, and from those as
//! many as asked for, spread over slips, numbers and forms.

use std::collections::{HashMap, HashSet};

use super::Wrong;
use crate::number::{Content, Form, Number, Slip, Style, Task};
use crate::rng::Stream;

/// Every different decoy for a set, row after row, each row's likeliest slips first.
///
/// `matched` are the lesson's forms, of which the first is printed and never a strip. A decoy is a wrong answer to what is
/// printed. None shows what is right for any number of the set in any of these forms, none is worth as much as one of these
/// numbers (ten cubes are a right picture of 10), and no two show the same. A strip that different slips would make of
/// different rows is left out: nobody could tell what a learner thinks who lays it down.
pub fn possible(rows: &[Number], matched: &[Form], style: &Style) -> Vec<Wrong> {
    let right = rows.iter().flat_map(|&row| matched.iter().filter_map(move |&form| form.content(row, style)));
    let mut taken: HashSet<Content> = right.map(|content| content.unmarked(style.names)).collect();
    let worths: HashSet<u64> = rows.iter().map(|row| u64::from(row.value())).collect();
    let (Some(&given), mut decoys) = (matched.first(), Vec::new()) else { return Vec::new() };
    let mut makers: HashMap<Content, Slip> = HashMap::new();
    let mut unclear: HashSet<Content> = HashSet::new();
    for &of in rows {
        for &form in matched.iter().skip(1) {
            let task = Task::forms(given, form);
            for (slip, content) in task.wrong(of, style) {
                let look = content.unmarked(style.names);
                if *makers.entry(look.clone()).or_insert(slip) != slip {
                    unclear.insert(look.clone());
                }
                let is_right = content.worth(form, style.names).is_some_and(|worth| worths.contains(&worth));
                if !is_right && taken.insert(look.clone()) {
                    decoys.push((look, Wrong { of, task, content, slip }));
                }
            }
        }
    }
    decoys.into_iter().filter(|(look, _)| !unclear.contains(look)).map(|(_, decoy)| decoy).collect()
}

/// `count` of the possible decoys, or all where there are fewer: each time one of those whose slip, number and form have
/// been used least so far. Slips that are rare among learners wait until the others have been used.
pub fn choose(mut possible: Vec<Wrong>, count: usize, stream: &mut Stream) -> Vec<Wrong> {
    stream.shuffle(&mut possible);
    let mut chosen: Vec<Wrong> = Vec::new();
    while chosen.len() < count {
        let cost = |wrong: &Wrong| {
            let used =
                |is_like: fn(&Wrong, &Wrong) -> bool| chosen.iter().filter(|other| is_like(wrong, other)).count();
            2 * used(|a, b| a.slip == b.slip)
                + used(|a, b| a.of == b.of)
                + used(|a, b| a.task == b.task)
                + 3 * usize::from(wrong.slip.is_rare())
        };
        let Some(at) = (0..possible.len()).min_by_key(|&at| cost(&possible[at])) else { break };
        chosen.push(possible.remove(at));
    }
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::Names;
    use crate::wording::{English, Spanish};
    use std::collections::BTreeSet;

    const PLAIN: Style = Style::plain(&English);
    const FORMS: [Form; 4] = [Form::Numeral, Form::Words, Form::Expanded, Form::Blocks];

    fn numbers(values: &[u32]) -> Vec<Number> {
        values.iter().filter_map(|&value| Number::new(value)).collect()
    }

    fn texts(decoys: &[Wrong]) -> Vec<String> {
        decoys.iter().map(|decoy| decoy.content.text(&English)).collect()
    }

    #[test]
    fn a_decoy_is_never_right_for_another_row() {
        // 640 with its zero dropped is 64, and 406 with its zero moved is 460: both stand on this board.
        let decoys = possible(&numbers(&[640, 406, 460, 64]), &FORMS, &PLAIN);
        let texts = texts(&decoys);
        for right in ["sixty-four", "60 + 4", "6 rods, 4 cubes", "four hundred sixty", "400 + 60"] {
            assert!(!texts.iter().any(|text| text == right), "{right}");
        }
        assert!(texts.iter().any(|text| text == "six hundred fourteen"));
        // 406 with its zero dropped, or 64 with its digits swapped: nobody could tell.
        assert!(!texts.iter().any(|text| text == "forty-six"));
        // Face value of 46 in cubes is a right picture of 10.
        let cubes = possible(&numbers(&[46, 10]), &[Form::Words, Form::Blocks], &PLAIN);
        assert!(cubes.iter().all(|decoy| decoy.content != Content::Blocks([0, 0, 0, 10])));
    }

    #[test]
    fn only_strips_have_decoys() {
        let decoys = possible(&numbers(&[640, 383]), &FORMS, &PLAIN);
        let is_strip = |form: Form| form != Form::Numeral && FORMS.contains(&form);
        assert!(decoys.iter().all(|decoy| is_strip(decoy.task.asked())));
        let numerals = possible(&numbers(&[640]), &[Form::Words, Form::Numeral], &PLAIN);
        assert!(texts(&numerals).contains(&"60040".to_owned()));
    }

    #[test]
    fn decoys_are_orphans_in_random_sets() {
        let mut stream = Stream::new(3, "test");
        for round in 0..300 {
            let end = [100, 1_000, 10_000, 1_000_000][round % 4];
            let mut forms = Form::ALL.to_vec();
            stream.shuffle(&mut forms);
            forms.truncate(2 + round % 4);
            // Some in one language, some in two: words apart, or both on one strip.
            let second = (round % 5 < 2).then_some(&Spanish as &'static dyn Names);
            forms.retain(|form| !form.is_picture() || end <= 10_000);
            forms.retain(|form| *form != Form::SecondWords || second.is_some());
            let rows: Vec<Number> =
                (0..2 + round % 12).filter_map(|_| Number::new(u32::try_from(stream.below(end)).ok()?)).collect();
            let style = Style {
                and: round % 2 == 0,
                zero_terms: round % 3 == 0,
                thousands: [None, Some(',')][round % 2],
                second,
                both: second.is_some() && !forms.contains(&Form::SecondWords),
                ..Style::plain(&English)
            };
            let decoys = choose(possible(&rows, &forms, &style), 12, &mut stream);
            for (k, decoy) in decoys.iter().enumerate() {
                for (&row, &form) in rows.iter().flat_map(|row| forms.iter().map(move |form| (row, form))) {
                    assert_ne!(Some(&decoy.content), form.content(row, &style).as_ref(), "{decoy:?}");
                    assert_ne!(
                        decoy.content.worth(decoy.task.asked(), style.names),
                        Some(row.value().into()),
                        "{decoy:?}"
                    );
                }
                assert!(decoys[..k].iter().all(|other| other.content != decoy.content), "{decoy:?}");
                let explained = |of: Number| {
                    let wrong = decoy.task.wrong(of, &style).into_iter();
                    wrong.filter(|(_, content)| *content == decoy.content).map(|(slip, _)| slip).next()
                };
                assert_eq!(explained(decoy.of), Some(decoy.slip));
                assert!(rows.contains(&decoy.of) && forms[1..].contains(&decoy.task.asked()), "{decoy:?}");
                let others = rows.iter().filter(|row| **row != decoy.of);
                let made = others.filter_map(|row| explained(*row));
                assert!(made.into_iter().all(|slip| slip == decoy.slip), "{decoy:?}");
            }
        }
    }

    #[test]
    fn decoys_are_spread() {
        let rows = numbers(&[640, 460, 406, 383, 833, 614, 505, 911]);
        for seed in 0..40 {
            let decoys = choose(possible(&rows, &FORMS, &PLAIN), 4, &mut Stream::new(seed, "spread"));
            let count = |key: fn(&Wrong) -> String| decoys.iter().map(key).collect::<BTreeSet<_>>().len();
            assert_eq!(count(|d| d.slip.word().to_owned()), 4, "{decoys:?}");
            assert!(count(|d| d.of.to_string()) >= 3, "{decoys:?}");
            assert_eq!(count(|d| d.task.asked().word().to_owned()), 3, "{decoys:?}");
            assert!(decoys.iter().all(|d| !d.slip.is_rare()), "{decoys:?}");
        }
    }

    #[test]
    fn the_seed_decides() {
        let rows = numbers(&[640, 460, 406, 383]);
        let draw = |seed| choose(possible(&rows, &FORMS, &PLAIN), 3, &mut Stream::new(seed, "decoys A"));
        assert_eq!(draw(1), draw(1));
        assert!((2..20).any(|seed| draw(seed) != draw(1)));
        assert_eq!(choose(Vec::new(), 3, &mut Stream::new(1, "none")), []);
    }
}
