//! Plays the copy room: prints the files, cuts the piles as the ticket says, stacks the pieces and reads every pile.
//!
//! Nothing here asks the program where a piece is. Its only input are the files: the ticket's words, the pages as an
//! independent reader sees them, and `contents.json` for the numbers. Cutting and turning over are done on the paper's own
//! measures.

mod groups;
mod ticket;

use crate::support;
use std::collections::{BTreeMap, BTreeSet};

use hayro_interpret::kurbo::Rect;
use placewright::lesson::{Lesson, SortSet};
use placewright::number::Content;
use placewright::sheets::files::PacketKind;
use support::class::{Shop, lesson};
use support::pdf::Page;
use ticket::{Cutting, Printed, ticket};

const MM: f64 = 72.0 / 25.4;

/// A file as the ticket says it is printed.
#[derive(Debug)]
struct File {
    name: String,
    sheets: usize,
    /// The edge over which sheets are turned, where both sides are printed.
    turn: Option<String>,
    pages: Vec<Page>,
}

impl File {
    /// Front and back of a sheet, from 1.
    fn sheet(&self, number: usize) -> (&Page, Option<&Page>) {
        match self.turn {
            None => (&self.pages[number - 1], None),
            Some(_) => (&self.pages[2 * number - 2], Some(&self.pages[2 * number - 1])),
        }
    }

    /// Where a place on the front lies on the back, as the sheet is turned over the ticket's edge.
    fn behind(&self, page: &Page, front: Rect) -> Rect {
        let upright = page.width <= page.height;
        if (self.turn.as_deref() == Some("long")) == upright {
            Rect::new(page.width - front.x1, front.y0, page.width - front.x0, front.y1)
        } else {
            Rect::new(front.x0, page.height - front.y1, front.x1, page.height - front.y0)
        }
    }
}

/// Makes the cuts in the ticket's order, each measured from an edge that is still there, and gives what falls, row by row
/// from the top left. What lies outside the first and last cut is waste.
fn cells(cutting: &Cutting, page: &Page) -> Vec<Rect> {
    assert_eq!(cutting.level.len() + cutting.upright.len(), cutting.total, "{}", cutting.what);
    let slice = |cuts: &[f64], whole: f64| -> Vec<(f64, f64)> {
        // What still lies against the back gauge, and what fell off in front.
        let (mut held, mut fallen) = (whole, Vec::new());
        for cut in cuts {
            assert!(*cut < held, "{}: nothing is left to cut at {cut}", cutting.what);
            fallen.push((*cut, held));
            held = *cut;
        }
        fallen.remove(0);
        fallen.reverse();
        fallen
    };
    let (rows, columns) = (slice(&cutting.level, page.height), slice(&cutting.upright, page.width));
    rows.iter().flat_map(|y| columns.iter().map(|x| Rect::new(x.0, y.0, x.1, y.1))).collect()
}

/// What is printed in a cell, in reading order. Fails when anything but a cut line lies across a cut.
fn piece(page: &Page, cell: Rect) -> Vec<String> {
    let mut found = Vec::new();
    for run in &page.texts {
        let Some(ink) = run.ink else { continue };
        if cell.contains(ink.center()) {
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
            Content::Text(_) | Content::Both(_) => assert_eq!(words.join(" "), strip.content.texts().join(" ")),
            Content::Blocks(_) => assert!(words.is_empty() && pictured(page, *cell)),
        }
    }
    (number, set)
}

/// The shape under a piece, told by what is drawn relative to its middle; it must lie on the piece when the sides are 2 mm
/// apart.
fn shape(page: &Page, behind: Rect) -> String {
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

/// Checks the marks of a set: the strips of a row share one, every decoy has its own.
fn marks(shapes: &[String], set: &SortSet) {
    let mut rows: BTreeMap<&str, Vec<Option<usize>>> = BTreeMap::new();
    assert_eq!(shapes.len(), set.strips.len());
    for (shape, strip) in shapes.iter().zip(&set.strips) {
        assert!(!shape.is_empty());
        rows.entry(shape).or_default().push(strip.row);
    }
    for homes in rows.values() {
        let wanted = if homes[0].is_some() { set.forms.len() } else { 1 };
        assert!(homes.len() == wanted && homes.iter().all(|home| *home == homes[0]), "{homes:?}");
    }
}

/// Flats, rods and cubes in a cell, by the outlines of their faces.
fn blocks(page: &Page, cell: Rect) -> [usize; 3] {
    let near = |a: f64, mm: f64| (a - mm * MM).abs() < MM;
    let mut counts = [0; 3];
    for bounds in page.edged() {
        let (w, h) = (bounds.width(), bounds.height());
        if !cell.contains(bounds.center()) {
            continue;
        }
        match (near(w, 100.0), near(h, 100.0), near(w, 10.0), near(h, 10.0)) {
            (true, true, ..) => counts[0] += 1,
            (true, _, _, true) | (_, true, true, _) => counts[1] += 1,
            (_, _, true, true) => counts[2] += 1,
            _ => {}
        }
    }
    counts
}

/// Everything that the copy room gets for a lesson.
struct Room {
    lesson: Lesson,
    files: Vec<File>,
    cuttings: Vec<Cutting>,
}

fn print(text: &str, names: &[&str]) -> Room {
    printed(lesson(text, names))
}

fn printed(lesson: Lesson) -> Room {
    let shop = Shop::open();
    let packets = shop.packets(&lesson);
    let of = |name: &str| packets.iter().find(|packet| packet.file() == name).expect(name);
    let bytes = shop.write(packets.iter().find(|packet| packet.kind == PacketKind::Ticket).expect("a ticket"));
    let (named, cuttings) = ticket(&bytes);
    let files: Vec<File> = named
        .into_iter()
        .map(|Printed { name, sheets, turn }| {
            let pages = support::pdf::read(&shop.write(of(&name)));
            assert_eq!(pages.len(), sheets * if turn.is_some() { 2 } else { 1 }, "{name}");
            File { name, sheets, turn, pages }
        })
        .collect();
    drop(packets);
    Room { lesson, files, cuttings }
}

impl Room {
    fn file(&self, name: &str) -> &File {
        self.files.iter().find(|file| file.name == name).expect(name)
    }

    /// How many learners the ticket and the lesson know.
    fn asked(&self) -> u32 {
        self.lesson.spec.class.learners.value + self.lesson.spec.class.spares.value
    }

    /// Cuts and stacks the strips: every set comes out once, whole, with its marks behind it.
    fn strips(&self) {
        let mut all: Vec<u32> = Vec::new();
        for cutting in self.cuttings.iter().filter(|cutting| cutting.what.starts_with("strips")) {
            all.extend(self.sets(cutting));
        }
        all.sort_unstable();
        // Spare sets may fill up the last pile.
        let want: Vec<u32> = (1..=all.len() as u32).collect();
        let strips = self.cuttings.iter().any(|cutting| cutting.what.starts_with("strips"));
        assert!(all == want && (!strips || want.len() >= self.asked() as usize), "{all:?} for {}", self.asked());
    }

    /// The learners whose sets fall from the piles of one cutting.
    fn sets(&self, cutting: &Cutting) -> Vec<u32> {
        let file = self.file(&cutting.file);
        let cells = cells(cutting, file.sheet(cutting.piles[0].0).0);
        let mut seen = Vec::new();
        for (first, last) in &cutting.piles {
            for cell in &cells {
                let mut pile: Vec<(&Page, Rect)> = (*first..=*last).map(|sheet| (file.sheet(sheet).0, *cell)).collect();
                // Blank pieces at the end are thrown away: the pile's longest set has as many as there are sheets.
                while pile.len() > 1
                    && pile.last().is_some_and(|(page, cell)| piece(page, *cell).is_empty() && !pictured(page, *cell))
                {
                    pile.pop();
                }
                let last = first + pile.len() - 1;
                if piece(pile[0].0, *cell).is_empty() {
                    assert!(pile.iter().all(|(page, cell)| piece(page, *cell).is_empty() && !pictured(page, *cell)));
                    continue;
                }
                let (number, set) = whole_set(&pile, &self.lesson);
                if file.turn.is_some() {
                    let back = |sheet: usize| file.sheet(sheet).1.expect("a back");
                    let shapes: Vec<String> =
                        (*first..=last).map(|sheet| shape(back(sheet), file.behind(back(sheet), *cell))).collect();
                    assert_eq!(shapes[0], "", "nothing is behind a band");
                    marks(&shapes[1..], set);
                }
                seen.push(number);
            }
        }
        // Each run of sheets gives at most one set a place.
        assert_eq!(cutting.piles.len(), seen.len().div_ceil(cells.len()));
        self.lines(cutting);
        seen
    }

    /// The lines on the first sheet are the ticket's cuts, and there are no others.
    fn lines(&self, cutting: &Cutting) {
        let page = self.file(&cutting.file).sheet(cutting.piles[0].0).0;
        let lines = page.paths.iter().filter(|path| path.dashed).map(|path| path.bounds());
        let mut drawn: Vec<f64> = lines.map(|b| if b.width() > b.height() { b.y0 } else { b.x0 }).collect();
        let mut listed: Vec<f64> = cutting.level.iter().chain(&cutting.upright).copied().collect();
        drawn.sort_unstable_by(f64::total_cmp);
        listed.sort_unstable_by(f64::total_cmp);
        assert_eq!(drawn.len(), listed.len(), "{}", cutting.what);
        assert!(drawn.iter().zip(&listed).all(|(a, b)| (a - b).abs() < 0.02), "{drawn:?} {listed:?}");
    }

    /// The pieces of each kit, pile by pile from left to right.
    fn kits(&self, cutting: &Cutting) -> BTreeMap<usize, Vec<(&Page, Rect)>> {
        let file = self.file(&cutting.file);
        let cells = cells(cutting, file.sheet(cutting.piles[0].0).0);
        assert_eq!(cutting.piles.len(), cutting.kits.len(), "{}", cutting.what);
        let mut kits = BTreeMap::new();
        for ((first, last), (from, to, places)) in cutting.piles.iter().zip(&cutting.kits) {
            for (k, kit) in (*from..=*to).enumerate() {
                let own = &cells[k * places..(k + 1) * places];
                let pieces =
                    own.iter().flat_map(|cell| (*first..=*last).map(move |sheet| (file.sheet(sheet).0, *cell)));
                assert!(kits.insert(kit, pieces.collect()).is_none(), "kit {kit} twice");
            }
        }
        self.lines(cutting);
        kits
    }

    /// Cuts and stacks the blocks: every kit has what its band says, and there are as many kits as the band says.
    fn blocks(&self) {
        let mut counts: BTreeMap<usize, [usize; 3]> = BTreeMap::new();
        let mut bands: BTreeMap<usize, String> = BTreeMap::new();
        for cutting in self.cuttings.iter().filter(|cutting| cutting.what.starts_with("blocks")) {
            for (kit, pieces) in self.kits(cutting) {
                for (page, cell) in pieces {
                    let here = blocks(page, cell);
                    let sum = counts.entry(kit).or_default();
                    *sum = std::array::from_fn(|k| sum[k] + here[k]);
                    let said = piece(page, cell).join(" ");
                    if said.starts_with("Kit ") {
                        assert!(said.starts_with(&format!("Kit {kit} of ")), "{said} is kit {kit}");
                        bands.insert(kit, said);
                    }
                }
            }
        }
        let share = self.lesson.spec.class.share(placewright::spec::SheetKind::Blocks);
        assert_eq!(bands.len() as u32, self.lesson.spec.class.learners.value.div_ceil(share));
        for (kit, band) in bands {
            let said = |word: &str| {
                let words: Vec<&str> = band.split([' ', ',']).collect();
                words.windows(2).find(|pair| pair[1].trim_end_matches('s') == word).map_or(0, |p| p[0].parse().unwrap())
            };
            assert_eq!(counts[&kit], ["flat", "rod", "cube"].map(said), "kit {kit}: {band}");
            // Enough for each number that is built.
            for number in self.numbers() {
                let digit = |place: u32| (number / 10_u32.pow(place) % 10) as usize;
                let have = counts[&kit];
                assert!(have[0] >= digit(2) && have[1] >= digit(1) && have[2] >= digit(0), "{number} from {have:?}");
            }
        }
    }

    /// Cuts and stacks the cards: every kit has the same, and each number can be built from it.
    fn cards(&self) {
        let mut cards: BTreeMap<usize, BTreeSet<String>> = BTreeMap::new();
        let mut banded = BTreeSet::new();
        for cutting in self.cuttings.iter().filter(|cutting| cutting.what.starts_with("layered")) {
            for (kit, pieces) in self.kits(cutting) {
                for (page, cell) in pieces {
                    let said = piece(page, cell).concat();
                    if said.starts_with("Kit ") {
                        assert!(said.starts_with(&format!("Kit {kit} of ")) && banded.insert(kit), "{said}");
                    } else if !said.is_empty() {
                        assert!(cards.entry(kit).or_default().insert(said.clone()), "{said} twice in kit {kit}");
                    }
                }
            }
        }
        let share = self.lesson.spec.class.share(placewright::spec::SheetKind::Layered);
        assert_eq!(cards.len() as u32, self.lesson.spec.class.learners.value.div_ceil(share));
        assert_eq!(banded.len(), cards.len());
        for own in cards.values() {
            assert_eq!(own, &cards[&1]);
            for number in self.numbers() {
                let parts = (0..6).map(|place| (number / 10_u32.pow(place) % 10) * 10_u32.pow(place));
                for part in parts.filter(|part| *part > 0) {
                    assert!(own.contains(&part.to_string()), "no card {part} for {number} in {own:?}");
                }
            }
        }
    }

    /// The model and sort numbers.
    fn numbers(&self) -> Vec<u32> {
        let chosen = &self.lesson.chosen;
        chosen.model.iter().chain(chosen.sort.iter().flatten()).map(|number| number.value()).collect()
    }
}

fn text(forms: &str, sort: u32, class: &str, print: &str, paper: &str, make: &str) -> String {
    format!(
        "title = \"Print shop\"\npaper = \"{paper}\"\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = {sort}\n\
         [forms]\nmatch = [{forms}]\ndecoys = 2\n[class]\n{class}\n[print]\n{print}\n[sheets]\nmake = [{make}]\n"
    )
}

const THREE: &str = r#""numeral", "words", "expanded""#;
const FOUR: &str = r#""numeral", "words", "units", "blocks""#;
const SORTED: &str = r#""board", "strips""#;
const ALL: &str = r#""mat", "blocks", "layered", "record", "word-bank", "board", "strips", "exit""#;

fn stacked(text: &str, names: &[&str]) {
    let room = print(text, names);
    assert!(!room.cuttings.is_empty());
    room.strips();
    if room.cuttings.iter().any(|cutting| cutting.what.starts_with("blocks")) {
        room.blocks();
        room.cards();
    }
}

#[test]
fn every_class_size_up_to_40_falls_into_whole_sets_and_kits() {
    for learners in 1..=40 {
        let (versions, share) = (1 + learners % 3, 1 + learners % 4);
        let class = format!(
            "learners = {learners}\nspares = {}\nversions = {versions}\nshare = {{ blocks = {share}, layered = {share} }}",
            learners % 2
        );
        let sides = if learners % 2 == 0 { "two" } else { "one" };
        let paper = ["letter", "a4", "tabloid"][learners % 3];
        let print = format!("cut = \"stack\"\nsides = \"{sides}\"");
        stacked(&text(THREE, 2, &class, &print, paper, ALL), &["Marrow"]);
    }
}

#[test]
fn several_grids_with_spares_and_pictures() {
    for (paper, learners, spares) in [("a4", 11, 2), ("legal", 17, 3), ("tabloid", 31, 1), ("a3", 40, 0)] {
        let class = format!("learners = {learners}\nspares = {spares}\nversions = 3");
        stacked(&text(FOUR, 3, &class, "cut = \"stack\"", paper, SORTED), &["Marrow", "Quill"]);
    }
}

#[test]
fn backs_meet_their_fronts() {
    for (paper, learners) in [("letter", 9), ("a4", 3), ("tabloid", 23)] {
        let class = format!("learners = {learners}\nspares = 1\nversions = 2");
        stacked(&text(THREE, 3, &class, "cut = \"stack\"\nsides = \"two\"", paper, SORTED), &["Marrow"]);
    }
}

/// Learners who cut their own pages: behind every strip lies its mark when the sheet is turned as the ticket says.
#[test]
fn backs_meet_their_fronts_where_learners_cut() {
    for (paper, make) in [("letter", ALL), ("a4", ALL), ("legal", SORTED), ("tabloid", ALL), ("a3", SORTED)] {
        let class = "learners = 3\nspares = 0\nversions = 2";
        let room = print(&text(THREE, 4, class, "sides = \"two\"", paper, make), &[]);
        let mut checked = 0;
        for file in room.files.iter().filter(|file| file.turn.is_some()) {
            for sheet in 1..=file.sheets {
                let (front, back) = file.sheet(sheet);
                let titled = front.texts.iter().any(|run| run.text == "Strips");
                let (Some(back), true) = (back, titled) else { continue };
                let places = |level: bool| {
                    let long = |b: &Rect| if level { b.width() > b.height() } else { b.height() > b.width() };
                    let cuts = front.paths.iter().filter(|path| path.dashed).map(|path| path.bounds()).filter(long);
                    let mut places: Vec<f64> = cuts.map(|b| if level { b.y0 } else { b.x0 }).collect();
                    places.sort_by(f64::total_cmp);
                    places.dedup_by(|a, b| (*a - *b).abs() < 0.05);
                    places
                };
                for y in places(true).windows(2) {
                    for x in places(false).windows(2) {
                        let cell = Rect::new(x[0], y[0], x[1], y[1]);
                        let (said, mark) = (piece(front, cell), shape(back, file.behind(back, cell)));
                        assert_eq!(said.is_empty(), mark.is_empty(), "{paper}: {said:?}");
                        checked += usize::from(!mark.is_empty());
                    }
                }
            }
        }
        // Three learners with a set each: two forms for four numbers, and two decoys.
        assert_eq!(checked, 3 * (2 * 4 + 2), "{paper}");
    }
}
