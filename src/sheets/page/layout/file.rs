//! One layout file: text to [`Layout`], every mistake at its place.

use std::ops::Range;
use std::sync::Arc;

use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

use crate::diag::nearest::{hint, listed};
use crate::diag::{Diagnostic, Problem, Source, first};
use crate::measure::{Length, Weight};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Limits, Sizes, Turn, least};
use crate::sheets::page::{Reader, Stock};
use crate::spec::{TextSize, limits};

/// Reads a layout. With a `base`, whatever the text leaves out is taken from it and names the base lacks are mistakes;
/// without one, the text must be whole.
pub(super) fn read(source: &Arc<Source>, base: Option<&Layout>) -> Result<Layout, Vec<Diagnostic>> {
    let mut log = Log { source, found: Vec::new() };
    let root = match DeTable::parse(&source.text) {
        Ok(root) => root,
        Err(error) => {
            log.error(error.span().unwrap_or(0..0), Problem::new(error.message().to_owned()));
            return Err(log.found);
        }
    };
    let layout = whole(root.get_ref(), base, &mut log);
    match layout {
        Some(layout) if log.found.is_empty() => Ok(layout),
        _ => {
            if log.found.is_empty() {
                log.error(0..0, Problem::new("this layout leaves something out"));
            }
            log.found.sort_by_key(|found| found.place.as_ref().map_or(0, |place| place.span.start));
            Err(first(log.found))
        }
    }
}

/// What is wrong so far.
struct Log<'s> {
    source: &'s Arc<Source>,
    found: Vec<Diagnostic>,
}

impl Log<'_> {
    fn error(&mut self, span: Range<usize>, problem: Problem) {
        self.found.push(problem.at(self.source, span));
    }

    /// A key that nothing reads.
    fn unknown(&mut self, key: &Spanned<DeString<'_>>, valid: &[&str], whose: &str) {
        let name: &str = key.get_ref();
        let short: String = name.chars().filter(|c| !c.is_control()).take(40).collect();
        let expected = format!("expected {}", listed(valid, "or"));
        let problem = Problem::new(format!("`{short}` is not a key of {whose}"));
        self.error(key.span(), problem.hint(hint(name, valid.iter().copied(), &expected)));
    }
}

type Entry<'t> = Spanned<DeValue<'t>>;

const KEYS: [&str; 11] =
    ["stock", "orientation", "inset", "padding", "gutter", "columns", "rows", "cut", "type", "length", "count"];

fn whole(root: &DeTable<'_>, base: Option<&Layout>, log: &mut Log<'_>) -> Option<Layout> {
    for (key, _) in root {
        if !KEYS.contains(&key.get_ref().as_ref()) {
            log.unknown(key, &KEYS, "a layout file");
        }
    }
    let stock = one_of(root.get("stock"), log, &[("paper", Stock::Paper), ("card", Stock::Card)]);
    let turns = one_of(
        root.get("orientation"),
        log,
        &[
            ("portrait", vec![Turn::Portrait]),
            ("landscape", vec![Turn::Landscape]),
            ("either", vec![Turn::Portrait, Turn::Landscape]),
        ],
    );
    let cut = one_of(root.get("cut"), log, &[("dashed", ink::CUT_DASHED), ("solid", ink::CUT_SOLID)]);
    let columns = pair(root.get("columns"), log).or(base.map(|b| b.grid.columns));
    let rows = pair(root.get("rows"), log).or(base.map(|b| b.grid.rows));
    let gutter = length(root.get("gutter"), log).or(base.map(|b| b.grid.gutter));
    let mut layout = Layout {
        stock: stock.or(base.map(|b| b.stock))?,
        turns: turns.or(base.map(|b| b.turns.clone()))?,
        inset: length(root.get("inset"), log).or(base.map(|b| b.inset))?,
        padding: length(root.get("padding"), log).or(base.map(|b| b.padding))?,
        grid: Limits { columns: columns?, rows: rows?, gutter: gutter? },
        cut: cut.or(base.map(|b| b.cut))?,
        faces: base.map(|b| b.faces.clone()).unwrap_or_default(),
        lengths: base.map(|b| b.lengths.clone()).unwrap_or_default(),
        counts: base.map(|b| b.counts.clone()).unwrap_or_default(),
    };
    named(root.get("type"), "type", &mut layout.faces, base.is_some(), log, sizes);
    named(root.get("length"), "length", &mut layout.lengths, base.is_some(), log, |v, log, _| length(Some(v), log));
    named(root.get("count"), "count", &mut layout.counts, base.is_some(), log, |v, log, _| count(v, log));
    Some(layout)
}

/// A table of named values, read over what is known already.
fn named<T>(
    table: Option<&Entry<'_>>,
    title: &str,
    known: &mut std::collections::BTreeMap<String, T>,
    closed: bool,
    log: &mut Log<'_>,
    read: impl Fn(&Entry<'_>, &mut Log<'_>, Option<&T>) -> Option<T>,
) {
    let Some(entry) = table else { return };
    let DeValue::Table(table) = entry.get_ref() else {
        log.error(entry.span(), Problem::new(format!("`{title}` is not a section")));
        return;
    };
    for (key, value) in table {
        let name: &str = key.get_ref();
        if closed && !known.contains_key(name) {
            let names: Vec<&str> = known.keys().map(String::as_str).collect();
            log.unknown(key, &names, &format!("[{title}] of this sheet"));
        } else if let Some(read) = read(value, log, known.get(name)) {
            known.insert(name.to_owned(), read);
        }
    }
}

const TYPE_KEYS: [&str; 7] = ["reader", "weight", "leading", "size", "least", "large_size", "large_least"];

/// A kind of text; keys left out keep their old values, large sizes follow from the standard ones by 24 / 14.
fn sizes(value: &Entry<'_>, log: &mut Log<'_>, old: Option<&Sizes>) -> Option<Sizes> {
    let DeValue::Table(table) = value.get_ref() else {
        log.error(value.span(), Problem::new("a kind of text is a table with reader, size and least"));
        return None;
    };
    for (key, _) in table {
        if !TYPE_KEYS.contains(&key.get_ref().as_ref()) {
            log.unknown(key, &TYPE_KEYS, "a kind of text");
        }
    }
    let reader = one_of(table.get("reader"), log, &[("learner", Reader::Learner), ("staff", Reader::Staff)])
        .or(old.map(|o| o.reader))?;
    let weight = one_of(table.get("weight"), log, &[("regular", Weight::Regular), ("bold", Weight::Bold)])
        .or(old.map(|o| o.weight))
        .unwrap_or(Weight::Regular);
    let leading = match table.get("leading") {
        Some(value) => i64::from(count(value, log)?),
        None => old.map_or(120, |o| o.leading),
    };
    if !(100..=300).contains(&leading) {
        log.error(value.span(), Problem::new(format!("a leading of {leading} % is out of range")).hint("100 to 300"));
    }
    let (size, floor) = (length(table.get("size"), log), length(table.get("least"), log));
    let fresh = size.is_some() || floor.is_some() || old.is_none();
    let floor = floor.or(old.map(|o| o.standard.1)).unwrap_or(least(reader, TextSize::Standard));
    let size = size.or(old.map(|o| o.standard.0)).unwrap_or(floor);
    let larger = |size: Length| match reader {
        Reader::Learner => size.scaled(24, 14).min(limits::TYPE.max(size)).max(least(reader, TextSize::Large)),
        Reader::Staff => size,
    };
    let follow = |value: Length, old: Option<Length>| old.filter(|_| !fresh).unwrap_or(larger(value));
    let large_floor = length(table.get("large_least"), log).unwrap_or(follow(floor, old.map(|o| o.large.1)));
    let large = length(table.get("large_size"), log).unwrap_or(follow(size, old.map(|o| o.large.0)));
    for (size, floor, text) in [(size, floor, TextSize::Standard), (large, large_floor, TextSize::Large)] {
        let bound = least(reader, text);
        if floor < bound {
            let problem = Problem::new(format!("{:.1} pt is too small for this reader", floor.to_pt()));
            log.error(value.span(), problem.hint(format!("expected at least {:.0} pt", bound.to_pt())));
        }
        if size > limits::TYPE {
            let problem = Problem::new(format!("{:.1} pt is too large", size.max(floor).to_pt()));
            log.error(value.span(), problem.hint(format!("expected at most {:.0} pt", limits::TYPE.to_pt())));
        }
        if size < floor {
            let problem = Problem::new("the preferred size is less than the least size");
            log.error(value.span(), problem.hint("expected size to be as large as least, or larger"));
        }
    }
    Some(Sizes { reader, weight, leading, standard: (size, floor), large: (large, large_floor) })
}

fn one_of<T: Clone>(value: Option<&Entry<'_>>, log: &mut Log<'_>, all: &[(&str, T)]) -> Option<T> {
    let value = value?;
    let text = value.get_ref().as_str().unwrap_or("");
    let found = all.iter().find(|(word, _)| *word == text).map(|(_, value)| value.clone());
    if found.is_none() {
        let words: Vec<&str> = all.iter().map(|(word, _)| *word).collect();
        let given: String = log.source.text.get(value.span()).unwrap_or("").chars().take(40).collect();
        let expected = format!("expected {}", listed(&words, "or"));
        let problem = Problem::new(format!("{given} is not a word that is known here"));
        log.error(value.span(), problem.hint(hint(text, words, &expected)));
    }
    found
}

fn length(value: Option<&Entry<'_>>, log: &mut Log<'_>) -> Option<Length> {
    let value = value?;
    let read = match value.get_ref() {
        DeValue::String(text) => Length::parse(text),
        _ => Err(Problem::new("this is not a length").hint("expected a length in quotes, such as \"3 mm\"")),
    };
    read.map_err(|problem| log.error(value.span(), problem)).ok()
}

fn count(value: &Entry<'_>, log: &mut Log<'_>) -> Option<u32> {
    let read = value.get_ref().as_integer().and_then(|i| u32::from_str_radix(i.as_str(), i.radix()).ok());
    let read = read.filter(|n| *n <= 1_000);
    if read.is_none() {
        log.error(value.span(), Problem::new("this is not a whole number from 0 to 1,000"));
    }
    read
}

/// `[least, most]`, or one whole number for both.
fn pair(value: Option<&Entry<'_>>, log: &mut Log<'_>) -> Option<(u32, u32)> {
    let value = value?;
    let (least, most) = match value.get_ref() {
        DeValue::Array(items) if items.len() == 2 => (count(items.first()?, log)?, count(items.get(1)?, log)?),
        _ => {
            let both = count(value, log)?;
            (both, both)
        }
    };
    if least == 0 || least > most || most > 100 {
        let problem = Problem::new(format!("{least} to {most} is not a range of rows or columns"));
        log.error(value.span(), problem.hint("expected [least, most] with 1 <= least <= most <= 100"));
        return None;
    }
    Some((least, most))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::page::layout::Layouts;
    use crate::spec::SheetKind;

    fn over(text: &str) -> Result<Layouts, Vec<Diagnostic>> {
        Layouts::read(&[Arc::new(Source { name: "my/strips.toml".to_owned(), text: text.to_owned() })])
    }

    #[track_caller]
    fn refused(text: &str, line_column: (usize, usize), message: &str, hint: &str) {
        let found = over(text).expect_err(text);
        let first = found.first().expect(text);
        assert_eq!(first.problem.message, message);
        assert_eq!(first.problem.hint.as_deref().unwrap_or(""), hint);
        assert_eq!(first.place.as_ref().expect("a place").line_column(), line_column, "{text}");
    }

    #[test]
    fn an_override_keeps_what_it_does_not_give() {
        let (bundled, mine) =
            (Layouts::read(&[]).unwrap(), over("padding = \"5 mm\"\n[length]\nplay = \"2 mm\"").unwrap());
        let (old, new) = (bundled.of(SheetKind::Strips).unwrap(), mine.of(SheetKind::Strips).unwrap());
        assert_eq!((new.padding, new.length("play").unwrap()), (Length::mm(5), Length::mm(2)));
        assert_eq!((new.grid, new.length("unit").unwrap()), (old.grid, old.length("unit").unwrap()));
        assert_eq!(mine.of(SheetKind::Board), bundled.of(SheetKind::Board));
    }

    #[test]
    fn large_sizes_follow_from_standard_ones() {
        let mine = over("[type]\nstrip = { size = \"28 pt\", least = \"14 pt\" }").unwrap();
        let face = mine.of(SheetKind::Strips).unwrap().face("strip", TextSize::Large).unwrap();
        assert_eq!((face.size, face.least), (Length::pt(48), Length::pt(24)));
    }

    #[test]
    fn mistakes_are_shown_where_they_are() {
        let keys = "expected stock, orientation, inset, padding, gutter, columns, rows, cut, type, length or count";
        refused(
            "paddin = \"3 mm\"",
            (1, 1),
            "`paddin` is not a key of a layout file",
            &format!("did you mean `padding`? {keys}"),
        );
        refused(
            "[length]\nplai = \"2 mm\"",
            (2, 1),
            "`plai` is not a key of [length] of this sheet",
            "did you mean `play`? expected play or unit",
        );
        refused("padding = 3", (1, 11), "this is not a length", "expected a length in quotes, such as \"3 mm\"");
        refused(
            "cut = \"dashd\"",
            (1, 7),
            "\"dashd\" is not a word that is known here",
            "did you mean `dashed`? expected dashed or solid",
        );
        refused(
            "rows = [4, 2]",
            (1, 8),
            "4 to 2 is not a range of rows or columns",
            "expected [least, most] with 1 <= least <= most <= 100",
        );
        refused(
            "[type]\nstrip = { least = \"10 pt\" }",
            (2, 9),
            "10.0 pt is too small for this reader",
            "expected at least 14 pt",
        );
        refused("[type]\nstrip = { size = \"601 pt\" }", (2, 9), "601.0 pt is too large", "expected at most 600 pt");
        assert_eq!(over("padding = 3\nrows = 0\n[type]\nx = 1").unwrap_err().len(), 3, "all mistakes at once");
    }

    #[test]
    fn every_bundled_layout_is_whole() {
        let bundled = Layouts::read(&[]).unwrap();
        for kind in SheetKind::ALL {
            assert!(bundled.of(kind).is_ok(), "{kind:?}");
        }
    }

    #[test]
    fn a_file_that_names_no_sheet_is_refused() {
        let source = Source { name: "posters.toml".to_owned(), text: String::new() };
        let found = Layouts::read(&[Arc::new(source)]).unwrap_err();
        assert_eq!(found[0].problem.message, "`posters.toml` is not named after a sheet");
    }
}
