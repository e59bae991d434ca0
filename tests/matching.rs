//! Board, strips and key of every sample, read back out of the PDF by a reader that had no part in writing it: together
//! they are a perfect matching, and every decoy is an orphan.

use crate::support::packets::{self, Laid};
use crate::support::pdf as pdf_reader;
use std::collections::BTreeMap;
use std::sync::Arc;

use hayro_interpret::kurbo::Rect;
use pdf_reader::{Page, Run};
use placewright::diag::Source;
use placewright::lesson::{self, Lesson};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::Form;
use placewright::sheets::files::PacketKind;
use placewright::spec::{self, FontChoice, SheetKind};

/// What a strip or a cell shows, as read from a page.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Shown {
    Text(String),
    /// Thousands, flats, rods and cubes.
    Blocks([usize; 4]),
}

fn sample(name: &str) -> (Lesson, Laid, Vec<Page>) {
    let path = format!("{}/samples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    laid(Source { text: std::fs::read_to_string(&path).unwrap(), name: path })
}

fn laid(source: Source) -> (Lesson, Laid, Vec<Page>) {
    let source = Arc::new(source);
    let spec = spec::read(&source).unwrap();
    let family = match spec.print.font.value {
        FontChoice::Lato => bundled(Bundled::Lato),
        FontChoice::Andika | FontChoice::File(_) => bundled(Bundled::Andika),
    }
    .unwrap();
    let lesson = lesson::plan(&source, spec, Vec::new()).unwrap();
    let packet = packets::one(&lesson, &family, PacketKind::Teacher);
    let pages = pdf_reader::read(&packet.bytes(&family, 1));
    (lesson, packet, pages)
}

/// The places of long level lines, dashed (cuts) or not (rules), sorted, each once.
fn levels(page: &Page, dashed: bool) -> Vec<f64> {
    let drawn = page.paths.iter().filter(|path| path.stroke.is_some() && path.dashed == dashed);
    let long = drawn.map(pdf_reader::Path::bounds).filter(|b| b.height() < 0.01 && b.width() > 100.0);
    let mut places: Vec<f64> = long.map(|b| b.y0).collect();
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    places
}

/// The texts in a box as one line, marks of 9 pt in its corner left out.
fn text(page: &Page, cell: Rect) -> String {
    let inside = |run: &&Run| run.size > 9.5 && cell.contains((run.x + 0.5, run.y)) && !run.text.trim().is_empty();
    let mut runs: Vec<&Run> = page.texts.iter().filter(inside).collect();
    runs.sort_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)));
    runs.into_iter().map(|run| run.text.trim()).collect::<Vec<_>>().join(" ")
}

/// The blocks in a box, by the outlines of their faces; `unit` in points. A thousand is a face and an outline of six sides.
fn blocks(page: &Page, cell: Rect, unit: f64) -> Option<[usize; 4]> {
    let near = |a: f64, b: f64| (a - b).abs() < unit / 4.0;
    let mut counts = [0_usize; 4];
    for bounds in page.edged() {
        if !cell.contains(bounds.center()) {
            continue;
        }
        let (wide, high) = (bounds.width() / unit, bounds.height() / unit);
        let is = |w: f64, h: f64| near(wide * unit, w * unit) && near(high * unit, h * unit);
        let kind = if is(1.0, 1.0) {
            3
        } else if is(1.0, 10.0) {
            2
        } else if is(10.0, 10.0) {
            1
        } else if is(13.75, 13.75) {
            0
        } else {
            continue;
        };
        counts[kind] += 1;
    }
    // The front of a thousand is a flat of its own.
    counts[1] = counts[1].checked_sub(counts[0])?;
    (counts != [0; 4]).then_some(counts)
}

/// The edge of a cube: the smallest outline on these pages that is filled and square.
fn unit(pages: &[&Page]) -> f64 {
    let shapes = pages.iter().flat_map(|page| page.edged());
    let sides = shapes.map(|bounds| bounds.width().min(bounds.height())).filter(|side| *side > 1.0);
    sides.fold(f64::INFINITY, f64::min)
}

fn shown(page: &Page, cell: Rect, unit: f64) -> Option<Shown> {
    match blocks(page, cell, unit) {
        Some(counts) => Some(Shown::Blocks(counts)),
        None => Some(Shown::Text(text(page, cell))).filter(|shown| *shown != Shown::Text(String::new())),
    }
}

/// Where dashed lines cut a row from top to bottom.
fn uprights(page: &Page, row: (f64, f64)) -> Vec<f64> {
    let drawn = page.paths.iter().filter(|path| path.stroke.is_some() && path.dashed).map(pdf_reader::Path::bounds);
    let across = drawn.filter(|b| b.width() < 0.01 && b.y0 < row.0 + 1.0 && b.y1 > row.1 - 1.0);
    let mut places: Vec<f64> = across.map(|b| b.x0).collect();
    places.sort_by(f64::total_cmp);
    places
}

/// Every strip of some pages: what each cell between cut lines shows beside its mark.
fn strips(pages: &[&Page]) -> Vec<Shown> {
    let unit = unit(pages);
    let mut found = Vec::new();
    for page in pages {
        for row in levels(page, true).windows(2) {
            for column in uprights(page, (row[0], row[1])).windows(2) {
                let cell = Rect::new(column[0], row[0], column[1], row[1]);
                found.extend(shown(page, cell, unit));
            }
        }
    }
    found
}

/// The rows of a key's board: the cells between its level lines, columns beginning where their headings do; the table after
/// it begins with `next`.
fn answers(page: &Page, forms: &[&str], next: &str) -> Vec<Vec<Shown>> {
    let unit = unit(&[page]);
    // A long heading stands on several lines, and two may begin with the same words.
    let heading = |form: &str, after: f64| {
        page.texts.iter().find(|run| run.x > after && !run.text.is_empty() && form.starts_with(&*run.text)).unwrap()
    };
    let mut starts: Vec<f64> = Vec::new();
    for form in forms {
        starts.push(heading(form, starts.last().map_or(0.0, |last| last + 2.0)).x - 1.0);
    }
    starts.push(page.width);
    let (top, decoys) = (heading(forms[0], 0.0).y, page.texts.iter().find(|run| run.text == next));
    let bottom = decoys.map_or(page.height, |run| run.y);
    let levels: Vec<f64> = levels(page, false).into_iter().filter(|y| *y > top && *y < bottom).collect();
    let row = |edge: &[f64]| {
        let cell = |k: usize| Rect::new(starts[k], edge[0], starts[k + 1], edge[1]);
        (0..forms.len()).map(|k| shown(page, cell(k), unit).unwrap()).collect()
    };
    levels.windows(2).map(row).collect()
}

/// What the first column of a board shows below its heading. The table is the largest outline on the page.
fn given(page: &Page) -> Vec<Shown> {
    let outlines = page.paths.iter().filter(|path| path.fill.is_none()).map(pdf_reader::Path::bounds);
    let table = outlines.max_by(|a, b| a.area().total_cmp(&b.area())).unwrap();
    let inside = |y: &f64| *y > table.y0 && *y < table.y1;
    let mut levels: Vec<f64> = levels(page, false).into_iter().filter(inside).collect();
    levels.push(table.y1);
    let upright = page.paths.iter().filter(|path| path.stroke.is_some() && !path.dashed).map(pdf_reader::Path::bounds);
    let upright = upright.filter(|b| b.width() < 0.01 && b.height() > 30.0);
    let right = upright.map(|b| b.x0).min_by(f64::total_cmp).unwrap();
    let unit = unit(&[page]);
    levels.windows(2).map(|row| shown(page, Rect::new(table.x0, row[0], right, row[1]), unit).unwrap()).collect()
}

#[track_caller]
fn matches(name: &str) {
    let (lesson, packet, pages) = sample(name);
    is_matching(name, &lesson, &packet, &pages);
}

#[track_caller]
fn is_matching(name: &str, lesson: &Lesson, packet: &Laid, pages: &[Page]) {
    for set in &lesson.sets {
        let of = |kind: SheetKind| -> Vec<&Page> {
            let laid = packet.pages.iter().zip(pages);
            laid.filter(|(page, _)| page.sheet == kind && page.version == Some(set.version)).map(|(_, p)| p).collect()
        };
        let forms: Vec<Form> = lesson.spec.forms.matched.value.clone();
        let headings: Vec<&str> = forms.iter().map(|form| lesson.form_heading(*form)).collect();
        let key = of(SheetKind::Key);
        let answers: Vec<Vec<Shown>> =
            key.iter().take(1).flat_map(|page| answers(page, &headings, lesson.wording().decoys().0)).collect();
        assert_eq!(answers.len(), set.rows.len(), "{name} {}: rows of the key", set.version);

        // The board shows the given forms in the key's order, a row each.
        let board = of(SheetKind::Board);
        let given: Vec<Shown> = board.iter().flat_map(|page| given(page)).collect();
        let first: Vec<Shown> = answers.iter().map(|row| row[0].clone()).collect();
        assert_eq!(given, first, "{name} {}", set.version);

        // Every box has exactly one strip; what is left are the decoys, and none of them is an answer.
        let mut left: BTreeMap<Shown, usize> = BTreeMap::new();
        let strips = strips(&of(SheetKind::Strips));
        assert_eq!(strips.len(), set.strips.len(), "{name} {}: {strips:?}", set.version);
        for strip in strips {
            *left.entry(strip).or_default() += 1;
        }
        for answer in answers.iter().flat_map(|row| &row[1..]) {
            let count = left.get_mut(answer).unwrap_or_else(|| panic!("{name}: no strip for {answer:?}"));
            assert_eq!(*count, 1, "{name}: {answer:?} has {count} strips");
            left.remove(answer);
        }
        let decoys = usize::try_from(lesson.spec.forms.decoys.value).unwrap();
        assert_eq!(left.values().sum::<usize>(), decoys, "{name} {}: {left:?}", set.version);
        for row in &answers {
            assert!(row.iter().all(|answer| !left.contains_key(answer)), "{name}: a decoy is an answer");
        }
    }
}

#[test]
fn seed_library() {
    matches("seed-library");
}

#[test]
fn harbour() {
    matches("harbour");
}

#[test]
fn tram_stops() {
    matches("tram-stops");
}

#[test]
fn lighthouse() {
    matches("lighthouse");
}

#[test]
fn print_shop() {
    matches("print-shop");
}

#[test]
fn brickworks() {
    matches("brickworks");
}

#[test]
fn star_atlas() {
    matches("star-atlas");
}

#[test]
fn orchard() {
    matches("orchard");
}

#[test]
fn ferry() {
    matches("ferry");
}

#[test]
fn plant_nursery() {
    matches("plant-nursery");
}

// Words of each language as strips of their own, and a language on the board that the strips are not in.
#[test]
fn words_of_two_languages_apart() {
    let class = "[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 6\nteens = 2\n[class]\nlearners = 2\n";
    for (first, second) in [("en", "es"), ("es", "en")] {
        let lists =
            [r#""numeral", "words", "words2""#, r#""words", "words2", "numeral""#, r#""words2", "words", "blocks""#];
        for forms in lists {
            let text = format!(
                "title = \"1\"\nlanguage = \"{first}\"\nsecond_language = \"{second}\"\n{class}[forms]\nmatch = [{forms}]\n"
            );
            let (lesson, packet, pages) = laid(Source { name: format!("{first} {forms}"), text });
            is_matching(&format!("{first} {forms}"), &lesson, &packet, &pages);
        }
    }
}
