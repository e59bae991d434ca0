//! The strips of one sort set: every form of every row, and decoys, shuffled.

use super::types::{SortSet, Strip, Wrong};
use crate::diag::Problem;
use crate::number::{Form, Number, Style};
use crate::rng::Stream;
use crate::spec::Version;

/// Makes a set of its numbers and decoys. The first of the matched forms is printed on the board, the others are strips.
/// A number that has no picture, where pictures are matched, is a problem.
pub fn plan(
    version: Version,
    rows: &[Number],
    matched: &[Form],
    style: &Style,
    decoys: Vec<Wrong>,
    stream: &mut Stream,
) -> Result<SortSet, Problem> {
    let forms: Vec<Form> = matched.iter().copied().skip(1).collect();
    let mut strips = Vec::with_capacity(rows.len() * forms.len() + decoys.len());
    for (row, &number) in rows.iter().enumerate() {
        // The printed form needs to exist as much as the strips do.
        for &form in matched {
            let Some(content) = form.content(number, style) else {
                let problem = if form.is_traded() && number.len() < 2 {
                    Problem::new(format!("{number} has nothing to trade")).hint("numbers with a trade begin at 10")
                } else {
                    Problem::new(format!("{} has no block picture", style.numeral(number)))
                        .hint(format!("block pictures go up to 9,999: leave `{}` out of the forms", form.word()))
                };
                return Err(problem);
            };
            if forms.contains(&form) {
                strips.push(Strip { form, content, row: Some(row), wrong: None });
            }
        }
    }
    let decoy = |wrong: Wrong| Strip {
        form: wrong.task.asked(),
        content: wrong.content,
        row: None,
        wrong: Some((wrong.of, wrong.slip)),
    };
    strips.extend(decoys.into_iter().map(decoy));
    stream.shuffle(&mut strips);
    let given = matched.first().copied().unwrap_or(Form::Numeral);
    Ok(SortSet { version, group: None, style: *style, rows: rows.to_vec(), given, forms, strips })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::decoys;
    use crate::wording::English;

    const PLAIN: Style = Style::plain(&English);

    #[test]
    fn every_box_has_one_strip() {
        let rows: Vec<Number> = [640, 406, 400, 7].into_iter().filter_map(Number::new).collect();
        let matched = [Form::Words, Form::Numeral, Form::Expanded, Form::Blocks];
        let wrong = decoys::choose(decoys::possible(&rows, &matched, &PLAIN), 5, &mut Stream::new(1, "decoys"));
        let set = plan(Version(0), &rows, &matched, &PLAIN, wrong.clone(), &mut Stream::new(1, "strips A")).unwrap();
        assert_eq!(set.forms, matched[1..]);
        for (row, &number) in rows.iter().enumerate() {
            for &form in &set.forms {
                let homed = set.strips.iter().filter(|s| s.row == Some(row) && s.form == form);
                let contents: Vec<_> = homed.map(|s| Some(&s.content)).collect();
                assert_eq!(contents, [form.content(number, &PLAIN).as_ref()]);
            }
        }
        assert_eq!(set.strips.iter().filter(|s| s.row.is_none() && s.wrong.is_some()).count(), 5);
        assert_eq!(set.strips.len(), 4 * 3 + 5);
        let decoys = set.decoys();
        assert!(wrong.iter().all(|decoy| decoys.contains(decoy)) && decoys.len() == 5);
        let row = |decoy: &Wrong| rows.iter().position(|row| *row == decoy.of);
        assert!(decoys.is_sorted_by_key(row));
    }

    #[test]
    fn large_numbers_have_no_pictures() {
        let rows: Vec<Number> = Number::new(12_345).into_iter().collect();
        let matched = [Form::Blocks, Form::Words];
        let problem =
            plan(Version(0), &rows, &matched, &PLAIN, Vec::new(), &mut Stream::new(1, "strips A")).unwrap_err();
        assert_eq!(problem.message, "12,345 has no block picture");
    }
}
