//! Decoys: strips made by slips, which match no row.
//!
//! In: the numbers of a sort set and its forms. Out: every different decoy that slips can make for it, and from those as
//! many as asked for, spread over slips, numbers and forms.

use std::collections::HashSet;

use super::Wrong;
use crate::number::{Content, Form, Number, Slip, Style};
use crate::rng::Stream;

/// Every different decoy for a set, in the order of the catalogue of slips.
///
/// `matched` are the lesson's forms, of which the first is printed and never a strip. No decoy shows what is right for any
/// number of the set in any of these forms, none is worth as much as one of these numbers (ten cubes are a right picture
/// of 10), and no two show the same. Where two slips make the same decoy, the first of the catalogue stands for it.
pub fn possible(rows: &[Number], matched: &[Form], style: &Style) -> Vec<Wrong> {
    let right = rows.iter().flat_map(|&row| matched.iter().filter_map(move |&form| form.content(row, style)));
    let mut taken: HashSet<Content> = right.collect();
    let worths: HashSet<u64> = rows.iter().map(|row| u64::from(row.value())).collect();
    let mut decoys = Vec::new();
    for slip in Slip::all() {
        for &of in rows {
            for &form in matched.iter().skip(1) {
                let Some(content) = slip.wrong(of, form, style) else { continue };
                let is_right = content.worth(form).is_some_and(|worth| worths.contains(&worth));
                if !is_right && taken.insert(content.clone()) {
                    decoys.push(Wrong { of, form, content, slip });
                }
            }
        }
    }
    decoys
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
            used(|a, b| a.slip == b.slip)
                + used(|a, b| a.of == b.of)
                + used(|a, b| a.form == b.form)
                + usize::from(wrong.slip.is_rare())
        };
        let Some(at) = (0..possible.len()).min_by_key(|&at| cost(&possible[at])) else { break };
        chosen.push(possible.remove(at));
    }
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::English;
    use std::collections::BTreeSet;

    const PLAIN: Style = Style { and: false, zero_terms: false, thousands: Some(','), names: &English };
    const FORMS: [Form; 4] = [Form::Numeral, Form::Words, Form::Expanded, Form::Blocks];

    fn numbers(values: &[u32]) -> Vec<Number> {
        values.iter().filter_map(|&value| Number::new(value)).collect()
    }

    fn texts(decoys: &[Wrong]) -> Vec<String> {
        decoys.iter().map(|decoy| decoy.content.aloud()).collect()
    }

    #[test]
    fn a_decoy_is_never_right_for_another_row() {
        // 640 with its zero dropped is 64, and 406 with its zero moved is 460: both stand on this board.
        let decoys = possible(&numbers(&[640, 406, 460, 64]), &FORMS, &PLAIN);
        let texts = texts(&decoys);
        for right in ["sixty-four", "60 + 4", "6 rods, 4 cubes", "four hundred sixty", "400 + 60"] {
            assert!(!texts.iter().any(|text| text == right), "{right}");
        }
        assert!(texts.iter().any(|text| text == "forty-six"));
        // Face value of 46 in cubes is a right picture of 10.
        let cubes = possible(&numbers(&[46, 10]), &[Form::Words, Form::Blocks], &PLAIN);
        assert!(cubes.iter().all(|decoy| decoy.content != Content::Blocks([0, 0, 0, 10])));
    }

    #[test]
    fn only_strips_have_decoys() {
        let decoys = possible(&numbers(&[640, 383]), &FORMS, &PLAIN);
        assert!(decoys.iter().all(|decoy| decoy.form != Form::Numeral && FORMS.contains(&decoy.form)));
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
            forms.retain(|&form| form != Form::Blocks || end <= 10_000);
            let rows: Vec<Number> =
                (0..2 + round % 12).filter_map(|_| Number::new(u32::try_from(stream.below(end)).ok()?)).collect();
            let style = Style {
                and: round % 2 == 0,
                zero_terms: round % 3 == 0,
                thousands: [None, Some(',')][round % 2],
                names: &English,
            };
            let decoys = choose(possible(&rows, &forms, &style), 12, &mut stream);
            for (k, decoy) in decoys.iter().enumerate() {
                for (&row, &form) in rows.iter().flat_map(|row| forms.iter().map(move |form| (row, form))) {
                    assert_ne!(Some(&decoy.content), form.content(row, &style).as_ref(), "{decoy:?}");
                    assert_ne!(decoy.content.worth(decoy.form), Some(row.value().into()), "{decoy:?}");
                }
                assert!(decoys[..k].iter().all(|other| other.content != decoy.content), "{decoy:?}");
                assert_eq!(decoy.slip.wrong(decoy.of, decoy.form, &style).as_ref(), Some(&decoy.content));
                assert!(rows.contains(&decoy.of) && forms[1..].contains(&decoy.form), "{decoy:?}");
            }
        }
    }

    #[test]
    fn decoys_are_spread() {
        let rows = numbers(&[640, 460, 406, 383, 833, 614, 505, 911]);
        for seed in 0..40 {
            let decoys = choose(possible(&rows, &FORMS, &PLAIN), 4, &mut Stream::new(seed, "spread"));
            let count = |key: fn(&Wrong) -> String| decoys.iter().map(key).collect::<BTreeSet<_>>().len();
            assert_eq!(count(|d| d.slip.name().to_owned()), 4, "{decoys:?}");
            assert_eq!(count(|d| d.of.to_string()), 4, "{decoys:?}");
            assert_eq!(count(|d| d.form.word().to_owned()), 3, "{decoys:?}");
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
