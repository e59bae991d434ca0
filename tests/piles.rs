//! Cuts the produced files as the ticket says, stacks the pieces and reads every pile.
//!
//! Nothing here asks the program where a piece is: pages and ticket are read with an independent reader, and turning a sheet
//! over is done on the paper's own measures.

use crate::support;
use std::collections::BTreeMap;

use hayro_interpret::kurbo::Rect;
use placewright::lesson::{Lesson, SortSet};
use placewright::number::Content;
use placewright::sheets::files::PacketKind;
use support::class::{Shop, lesson};
use support::pdf::Page;

const MM: f64 = 72.0 / 25.4;

fn text(forms: &str, sort: u32, decoys: u32, class: &str, print: &str, paper: &str) -> String {
    format!(
        "title = \"Print shop\"\npaper = \"{paper}\"\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = {sort}\n\
         [forms]\nmatch = [{forms}]\ndecoys = {decoys}\n[class]\n{class}\n[print]\ncut = \"stack\"\n{print}\n\
         [sheets]\nmake = [\"board\", \"strips\"]\n"
    )
}

/// What the ticket says about cutting.
#[derive(Debug)]
struct Ticket {
    level: Vec<f64>,
    upright: Vec<f64>,
    total: usize,
    piles: usize,
    sheets: usize,
}

/// Reads the ticket's cut list off the page: distances in mm stand below the edge they are measured from.
fn ticket(bytes: &[u8]) -> Ticket {
    let pages = support::pdf::read(bytes);
    let runs: Vec<_> = pages.iter().flat_map(|page| &page.texts).collect();
    let column = |head: &str| {
        let x = runs.iter().find(|run| run.text == head).expect(head).x;
        let number = |text: &str| text.strip_suffix(" mm").and_then(|n| n.parse::<f64>().ok());
        let below = runs.iter().filter(|run| (run.x - x).abs() < 0.5).filter_map(|run| number(&run.text));
        below.map(|mm| mm * MM).collect::<Vec<f64>>()
    };
    let all = support::pdf::text(&pages).replace('\n', " ");
    let word = |before: &str, after: &str| {
        let from = all.find(before).unwrap_or_else(|| panic!("{before} in {all}")) + before.len();
        let words = &all[from..from + all[from..].find(after).expect(after)];
        words.trim().parse::<usize>().unwrap_or_else(|_| panic!("{words}"))
    };
    let piles = word("copy-room-paper.pdf: ", " pile");
    let sheets = word(if piles == 1 { "1 pile of " } else { " piles of " }, " sheet");
    Ticket {
        level: column("From the top"),
        upright: column("From the left"),
        total: word("Cut the piles: ", " cut"),
        piles,
        sheets,
    }
}

/// The rectangles between the cuts, row by row; what lies outside the first and last cut is waste.
fn cells(ticket: &Ticket) -> Vec<Rect> {
    let row = |y: &[f64]| {
        let cell = move |x: &[f64], y0: f64, y1: f64| Rect::new(x[0], y0, x[1], y1);
        ticket.upright.windows(2).map(|x| cell(x, y[0], y[1])).collect::<Vec<_>>()
    };
    ticket.level.windows(2).flat_map(row).collect()
}

/// What is printed in a cell, in reading order. Fails when anything but a cut line lies across a cut.
fn piece(page: &Page, cell: Rect) -> Vec<String> {
    let mut found = Vec::new();
    for run in &page.texts {
        let Some(ink) = run.ink else { continue };
        let middle = ink.center();
        if cell.contains(middle) {
            assert!(cell.contains(ink.origin()) && cell.x1 >= ink.x1 && cell.y1 >= ink.y1, "`{}` is cut", run.text);
            found.push(run.text.clone());
        }
    }
    found
}

/// Whether shapes of a block picture are drawn in a cell.
fn pictured(page: &Page, cell: Rect) -> bool {
    let inside = |path: &support::pdf::Path| {
        let ink = path.bounds();
        cell.contains(ink.center()) && ink.width() < cell.width() * 0.95 && !path.dashed
    };
    page.paths.iter().filter(|path| inside(path)).count() > 0
}

/// Checks that a pile is one learner's set: band, then every strip of the version in order. Gives the learner and the set.
fn whole_set<'l>(pile: &[(&Page, Rect)], lesson: &'l Lesson) -> (u32, &'l SortSet) {
    let band = piece(pile[0].0, pile[0].1).join(" ");
    let number: u32 = band.split(|c: char| !c.is_ascii_digit()).find(|n| !n.is_empty()).unwrap().parse().unwrap();
    let set: &SortSet = lesson.sets.iter().find(|set| band.contains(&format!("Version {}", set.version))).unwrap();
    assert!(band.contains(&format!("{} strips", set.strips.len())), "{band}");
    assert_eq!(pile.len(), set.strips.len() + 1, "{band}");
    for ((page, cell), strip) in pile[1..].iter().zip(&set.strips) {
        let mut words = piece(page, *cell);
        let code = words.iter().position(|w| *w == format!("{} \u{b7} {number}", set.version)).expect("a mark");
        words.remove(code);
        match &strip.content {
            Content::Text(text) => assert_eq!(words.join(" "), *text),
            Content::Blocks(_) => assert!(words.is_empty() && pictured(page, *cell)),
        }
    }
    (number, set)
}

/// Cuts and stacks everything; every set must come out once.
fn cut(text: &str, names: &[&str]) {
    let shop = Shop::open();
    let lesson = lesson(text, names);
    let asked = lesson.spec.class.learners.value + lesson.spec.class.spares.value;
    let ticket = ticket(&shop.ticket(&lesson));
    let copies = shop.copies(&lesson);
    let job = copies.iter().find(|packet| packet.kind == PacketKind::Paper).unwrap();
    let pages = support::pdf::read(&shop.write(job));
    let two = text.contains("sides = \"two\"");
    let sides = if two { 2 } else { 1 };
    assert_eq!(ticket.level.len() + ticket.upright.len(), ticket.total);
    let cells = cells(&ticket);
    let mut seen = Vec::new();
    for group in 0..ticket.piles {
        let sheets: Vec<&[Page]> = pages.chunks(sides).skip(group * ticket.sheets).take(ticket.sheets).collect();
        for cell in &cells {
            let pile: Vec<(&Page, Rect)> = sheets.iter().map(|sheet| (&sheet[0], *cell)).collect();
            if piece(pile[0].0, *cell).is_empty() {
                assert!(pile.iter().all(|(page, cell)| piece(page, *cell).is_empty() && !pictured(page, *cell)));
                continue;
            }
            let (number, set) = whole_set(&pile, &lesson);
            if two {
                let backs: Vec<(&Page, Rect)> = sheets.iter().map(|sheet| (&sheet[1], *cell)).collect();
                marks(&backs, set);
            }
            seen.push(number);
        }
    }
    seen.sort_unstable();
    // Spare sets may fill up the last pile.
    let want: Vec<u32> = (1..=seen.len() as u32).collect();
    assert!(seen == want && want.len() >= asked as usize, "{seen:?} for {asked}");
    // Each run of sheets gives at most one set a place.
    assert_eq!(ticket.piles, want.len().div_ceil(cells.len()));
    assert_eq!(ticket.sheets, lesson.sets.iter().map(|set| set.strips.len() + 1).max().unwrap());
    // The lines on the page are the ticket's cuts, and there are no others.
    let lines = pages[0].paths.iter().filter(|path| path.dashed).map(|path| path.bounds());
    let mut drawn: Vec<f64> = lines.map(|b| if b.width() > b.height() { b.y0 } else { b.x0 }).collect();
    let mut listed: Vec<f64> = ticket.level.iter().chain(&ticket.upright).copied().collect();
    drawn.sort_unstable_by(f64::total_cmp);
    listed.sort_unstable_by(f64::total_cmp);
    assert_eq!(drawn.len(), listed.len());
    assert!(drawn.iter().zip(&listed).all(|(a, b)| (a - b).abs() < 0.02), "{drawn:?} {listed:?}");
}

/// The shape under a piece, told by what is drawn relative to its middle; it must lie on the piece when the sides are 2 mm
/// apart.
fn shape(page: &Page, front: Rect) -> String {
    // An upright sheet turned over its long edge, or a wide one over its short edge: left and right change places.
    let behind = Rect::new(page.width - front.x1, front.y0, page.width - front.x0, front.y1);
    let safe = behind.inset(-2.0 * MM);
    let mut parts = Vec::new();
    for path in &page.paths {
        if behind.contains(path.bounds().center()) {
            let ink = path.ink();
            assert!(
                safe.x0 <= ink.x0 && safe.y0 <= ink.y0 && safe.x1 >= ink.x1 && safe.y1 >= ink.y1,
                "{ink:?} {safe:?}"
            );
            let (dx, dy) = (path.bounds().x0 - behind.x0, path.bounds().y0 - behind.y0);
            let size = path.path.elements().len();
            parts.push(format!("{size} {} {dx:.1} {dy:.1} {:.1}", path.dashed, path.bounds().height()));
        }
    }
    parts.join("; ")
}

/// Checks the marks under a pile: the strips of a row share one, every decoy has its own, the band has none.
fn marks(pile: &[(&Page, Rect)], set: &SortSet) {
    assert_eq!(shape(pile[0].0, pile[0].1), "");
    let mut rows: BTreeMap<String, Vec<Option<usize>>> = BTreeMap::new();
    for ((page, cell), strip) in pile[1..].iter().zip(&set.strips) {
        let shape = shape(page, *cell);
        assert!(!shape.is_empty());
        rows.entry(shape).or_default().push(strip.row);
    }
    for homes in rows.values() {
        let wanted = if homes[0].is_some() { set.forms.len() } else { 1 };
        assert!(homes.len() == wanted && homes.iter().all(|home| *home == homes[0]), "{homes:?}");
    }
}

const THREE: &str = r#""numeral", "words", "expanded""#;
const FOUR: &str = r#""numeral", "words", "units", "blocks""#;

#[test]
fn every_class_size_up_to_40_falls_into_whole_sets() {
    for learners in 1..=40 {
        let class = format!("learners = {learners}\nspares = 0\nversions = {}", 1 + learners % 3);
        cut(&text(THREE, 2, 1, &class, "", "letter"), &["Marrow"]);
    }
}

#[test]
fn several_grids_with_spares_and_pictures() {
    for (paper, learners, spares) in [("a4", 11, 2), ("legal", 17, 3), ("tabloid", 31, 1), ("a3", 40, 0)] {
        let class = format!("learners = {learners}\nspares = {spares}\nversions = 3");
        cut(&text(FOUR, 3, 2, &class, "", paper), &["Marrow", "Quill"]);
    }
}

#[test]
fn backs_meet_their_fronts() {
    for (paper, learners) in [("letter", 9), ("a4", 3), ("tabloid", 23)] {
        let class = format!("learners = {learners}\nspares = 1\nversions = 2");
        cut(&text(THREE, 3, 2, &class, "sides = \"two\"", paper), &["Marrow"]);
    }
}
