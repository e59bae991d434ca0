//! The text sheets (record, word bank, quick check, tally, plan) on every paper at both text sizes: nothing spills, nothing
//! overlaps, nothing is too small, and what is cut out is equal and cut straight.

use crate::support::packets::masters;
use crate::support::sentences::{sentences, word_count};
use crate::support::setup;
use placewright::lesson::Lesson;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::measure::{Family, Length, Point, Rect, Sides};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::{Layouts, least};
use placewright::sheets::page::{CutLine, Item, Node, Page, Reader, Tag, Text};
use placewright::spec::{Given, Joiner, Paper, SheetKind, TextSize};
use setup::{lesson, plain, spec};

type Numbers = (&'static [u32], &'static [&'static [u32]], &'static [u32], &'static str);
const LESSONS: [Numbers; 7] = [
    (&[406, 383, 617], &[&[640, 604, 460, 222, 777], &[383, 338, 833, 500, 911]], &[911, 264, 170, 305], "2"),
    (&[40, 18, 88], &[&[14, 41, 70, 11, 80]], &[13, 30], "1"),
    (&[], &[&[200, 300, 600, 800]], &[700], "K"),
    (&[7, 8, 0], &[&[1, 2, 3]], &[6, 9], "1"),
    (&[1_010, 8_888], &[&[1_101, 1_011, 9_999]], &[3_008, 3_080], "3"),
    (&[24_507, 81_011], &[&[10_000, 12_035]], &[99_999], "4"),
    (&[878_878, 811_011], &[&[100_000, 777_777]], &[999_999, 500_500, 373_878], "4"),
];
const SHEETS: [SheetKind; 9] = [
    SheetKind::Record,
    SheetKind::WordBank,
    SheetKind::Exit,
    SheetKind::Key,
    SheetKind::Tally,
    SheetKind::SmallGroups,
    SheetKind::Practice,
    SheetKind::Family,
    SheetKind::Plan,
];

fn made(numbers: Numbers, paper: Paper, text: TextSize) -> Lesson {
    let (model, sort, exit, grade) = numbers;
    let mut spec = spec(60, model, sort, exit);
    spec.paper.value = paper;
    spec.print.text.value = text;
    spec.grade = Some(Given::assumed(grade.to_owned()));
    if paper == Paper::A4 {
        spec.forms.joiner.value = Joiner::And;
    }
    lesson(spec, model, sort, exit).expect("a lesson")
}

fn pages(lesson: &Lesson, layouts: &Layouts, family: &Family, kind: SheetKind) -> Vec<Page> {
    let desk = Desk::new(lesson, layouts, family);
    masters(&desk, kind).unwrap_or_else(|problem| panic!("{}: {problem:?}", kind.word()))
}

/// Everything drawn on a page, and its texts.
fn items(page: &Page) -> (Vec<Item>, Vec<Text>) {
    let mut items = Vec::new();
    for node in page.layers.iter().flat_map(|layer| &layer.nodes) {
        node.each(&mut |item| items.push(item.clone()));
    }
    let texts = items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text.clone()) } else { None });
    let texts = texts.collect();
    (items, texts)
}

#[track_caller]
fn holds(page: &Page, lesson: &Lesson, family: &Family) {
    let what = format!("{} on {:?}, {:?}", page.name, lesson.spec.paper.value, lesson.spec.print.text.value);
    let sheet = Rect::new(Point::ORIGIN, page.size);
    let printable = sheet.shrunk(Sides::splat(lesson.spec.print.margin.value));
    // Half of a pen stands outside the line that it draws.
    let reach = printable.grown(Sides::splat(Length::pt100(75)));
    let (items, texts) = items(page);
    let mut inks: Vec<(Rect, &str)> = Vec::new();
    for text in &texts {
        let font = family.font(text.weight);
        assert_eq!(font.lacks(&text.text), None, "{what}: {}", text.text);
        assert!(text.size >= least(text.reader, lesson.spec.print.text.value), "{what}: {} is small", text.text);
        assert!(printable.contains(text.frame), "{what}: the frame of {} leaves the page", text.text);
        if let Some(ink) = font.ink(&text.text, text.size, text.at) {
            assert!(text.frame.contains(ink), "{what}: {} leaves its frame", text.text);
            inks.push((ink, &text.text));
        }
    }
    for (k, (a, one)) in inks.iter().enumerate() {
        for (b, other) in &inks[k + 1..] {
            assert!(!a.overlaps(*b), "{what}: `{one}` overlaps `{other}`");
        }
    }
    for item in &items {
        let stroke = match item {
            Item::Line { from, to, stroke } => {
                assert!(reach.contains(Rect::between(*from, *to)), "{what}: a line leaves the page: {item:?}");
                Some(*stroke)
            }
            Item::Rect { rect, stroke, .. } => {
                assert!(reach.contains(*rect), "{what}: a box leaves the page");
                *stroke
            }
            Item::Circle { stroke, .. } | Item::Polygon { stroke, .. } => *stroke,
            Item::Text(_) | Item::Symbol { .. } => None,
        };
        assert!(stroke.is_none_or(|stroke| stroke.width >= Length::pt100(50)), "{what}: a thin line");
    }
    let first = page.layers.iter().flat_map(|layer| &layer.nodes).find(|node| matches!(node, Node::Tagged(..)));
    assert!(matches!(first, Some(Node::Tagged(Tag::Heading(1), _))), "{what}: the page begins without a heading");
}

/// Pieces are equal, and each edge of each that parts it from another is a full cut.
#[track_caller]
fn cut_straight(page: &Page) {
    for layer in &page.layers {
        let whole = layer.pieces.iter().map(|piece| piece.rect).reduce(Rect::union).unwrap_or_default();
        for piece in &layer.pieces {
            assert_eq!(piece.rect.size(), layer.pieces[0].rect.size());
            for y in
                [piece.rect.top(), piece.rect.bottom()].into_iter().filter(|y| whole.top() < *y && *y < whole.bottom())
            {
                assert!(layer.cuts.contains(&CutLine::Level(y)), "{}", piece.name);
            }
            for x in
                [piece.rect.left(), piece.rect.right()].into_iter().filter(|x| whole.left() < *x && *x < whole.right())
            {
                assert!(layer.cuts.contains(&CutLine::Upright(x)), "{}", piece.name);
            }
        }
        for (k, piece) in layer.pieces.iter().enumerate() {
            assert!(layer.pieces[k + 1..].iter().all(|other| !piece.rect.overlaps(other.rect)));
        }
    }
}

/// The text in a node.
fn words(node: &Node) -> String {
    let mut words = String::new();
    node.each(&mut |item| {
        if let Item::Text(text) = item {
            words.push_str(&text.text);
        }
    });
    words
}

#[test]
fn nothing_goes_on_over_the_page_with_a_single_line() {
    let (layouts, family) = (Layouts::read(&[]).expect("layouts"), bundled(Bundled::Andika).expect("a font"));
    let mut went_on = 0;
    for (numbers, paper) in LESSONS.into_iter().flat_map(|numbers| Paper::ALL.map(|paper| (numbers, paper))) {
        let lesson = made(numbers, paper, TextSize::Standard);
        for page in pages(&lesson, &layouts, &family, SheetKind::Plan) {
            let mut nodes = page.layers.iter().flat_map(|layer| &layer.nodes);
            if nodes.any(|node| words(node).ends_with("(goes on)")) {
                let list =
                    nodes.find_map(|node| if let Node::Tagged(Tag::List, items) = node { Some(items) } else { None });
                assert!(list.expect("steps").len() > 1, "{paper:?}, {:?}: plan", numbers.0);
                went_on += 1;
            }
        }
        for page in pages(&lesson, &layouts, &family, SheetKind::Key) {
            let mut nodes = page.layers.iter().flat_map(|layer| &layer.nodes);
            let first = nodes.find(|node| matches!(node, Node::Tagged(Tag::Heading(2) | Tag::Table, _)));
            if let Some(Node::Tagged(Tag::Table, rows)) = first {
                assert!(rows.len() > 2, "{paper:?}, {:?}: key", numbers.0);
                went_on += 1;
            }
        }
    }
    assert!(went_on > 10, "{went_on}");
}

#[test]
fn every_sheet_on_every_paper_at_both_sizes() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    for (k, numbers) in LESSONS.into_iter().enumerate() {
        for paper in Paper::ALL {
            // The two commonest papers take every lesson, the others the shortest and the longest numbers.
            if !matches!(paper, Paper::Letter | Paper::A4) && !matches!(k, 0 | 3 | 6) {
                continue;
            }
            for text in [TextSize::Standard, TextSize::Large] {
                let lesson = made(numbers, paper, text);
                for kind in SHEETS {
                    let pages = pages(&lesson, &layouts, &family, kind);
                    // Where no slip can be seen, there is nothing to group by.
                    let groups = kind != SheetKind::SmallGroups || !lesson.slips.is_empty();
                    assert_eq!(!pages.is_empty(), groups, "{} {numbers:?}", kind.word());
                    for page in &pages {
                        holds(page, &lesson, &family);
                        cut_straight(page);
                    }
                    if kind == SheetKind::Plan {
                        assert!(pages.len() <= 3, "the plan of {numbers:?} has {} pages", pages.len());
                    }
                }
            }
        }
    }
}

#[test]
fn slips_hold_all_questions_on_every_paper_and_none_is_half_empty() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    for (paper, text) in
        Paper::ALL.into_iter().flat_map(|paper| [(paper, TextSize::Standard), (paper, TextSize::Large)])
    {
        let lesson = made(LESSONS[0], paper, text);
        let desk = Desk::new(&lesson, &layouts, &family);
        let all = lesson.checks[0].questions.len();
        assert_eq!(placewright::sheets::kinds::exit::questions(&desk), Ok(all), "{paper:?} {text:?}");
        for page in pages(&lesson, &layouts, &family, SheetKind::Exit) {
            let (_, texts) = items(&page);
            for piece in &page.layers[0].pieces {
                let inside = texts.iter().filter(|text| piece.rect.contains(text.frame));
                let lowest = inside.map(|text| text.frame.bottom()).max().expect("texts on a slip");
                let used = lowest - piece.rect.top();
                assert!(used * 10 >= piece.rect.height() * 7, "{paper:?} {text:?}: {used} of {}", piece.rect.height());
            }
        }
    }
}

#[test]
fn rings_stand_in_columns_apart_from_each_other() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    for text in [TextSize::Standard, TextSize::Large] {
        for page in pages(&made(LESSONS[0], Paper::Letter, text), &layouts, &family, SheetKind::Exit) {
            let (all, texts) = items(&page);
            let ring = |item: &Item| match item {
                Item::Circle { centre, radius, .. } => Some((*centre, *radius)),
                _ => None,
            };
            let rings: Vec<(Point, Length)> = all.iter().filter_map(ring).collect();
            assert!(rings.len() >= 12, "{text:?}: {rings:?}");
            for (k, (centre, radius)) in rings.iter().enumerate() {
                for (other, _) in &rings[..k] {
                    let (dx, dy) = ((centre.x - other.x).abs(), (centre.y - other.y).abs());
                    let apart = *radius * 2 + Length::mm(1);
                    assert!(dx >= apart || dy >= apart, "{text:?}: rings touch at {centre:?}");
                }
                // The letter's ink stands in the middle of its ring.
                let near =
                    |text: &&Text| (text.at.x - centre.x).abs() < *radius && (text.at.y - centre.y).abs() < *radius;
                let letter = texts.iter().find(near).expect("a letter in the ring");
                let ink = family.font(letter.weight).ink(&letter.text, letter.size, letter.at).expect("ink");
                let off = [(ink.centre().x - centre.x).abs(), (ink.centre().y - centre.y).abs()];
                assert!(off.iter().all(|off| *off <= Length::mm100(5)), "{text:?}: {} is off by {off:?}", letter.text);
            }
            // On one slip rings stand in at most three columns.
            for piece in &page.layers[0].pieces {
                let (left, right) = (piece.rect.left(), piece.rect.right());
                let inside = rings.iter().filter(|(centre, _)| left < centre.x && centre.x < right);
                let columns: std::collections::BTreeSet<Length> = inside.map(|(centre, _)| centre.x).collect();
                assert!(columns.len() <= 3, "{text:?}: {columns:?}");
            }
        }
    }
}

#[test]
fn large_text_changes_the_arrangement() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    let slips = |text| {
        let lesson = made(LESSONS[0], Paper::Letter, text);
        let page = &pages(&lesson, &layouts, &family, SheetKind::Exit)[0];
        page.layers[0].pieces.iter().map(|piece| piece.rect.size()).collect::<Vec<_>>()
    };
    let desk = |text| made(LESSONS[0], Paper::Letter, text);
    let (standard, large) = (desk(TextSize::Standard), desk(TextSize::Large));
    let count = |lesson: &Lesson| {
        placewright::sheets::kinds::exit::questions(&Desk::new(lesson, &layouts, &family)).expect("fits")
    };
    assert!(slips(TextSize::Large) != slips(TextSize::Standard) || count(&large) < count(&standard));
}

#[test]
fn a_learners_sentences_are_short() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    for numbers in LESSONS {
        let lesson = made(numbers, Paper::A4, TextSize::Standard);
        for kind in [SheetKind::Record, SheetKind::WordBank] {
            for page in pages(&lesson, &layouts, &family, kind) {
                for text in items(&page).1.iter().filter(|text| text.reader == Reader::Learner) {
                    assert!(sentences(&text.text).all(|sentence| word_count(sentence) <= 12), "{}", text.text);
                }
            }
        }
    }
}

#[test]
fn thirty_six_learners_fit_on_one_tally() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    for paper in Paper::ALL {
        let (model, sort, exit, _) = LESSONS[0];
        let mut spec = spec(60, model, sort, exit);
        spec.paper.value = paper;
        spec.class.learners.value = 36;
        let lesson = lesson(spec, model, sort, exit).expect("a lesson");
        assert_eq!(pages(&lesson, &layouts, &family, SheetKind::Tally).len(), 1, "{paper:?}");
    }
    let mut many = plain(60, &[406], &[&[640, 604]], &[911]);
    many.roster = (0..45).map(|k| format!("Learner {k}")).collect();
    assert_eq!(pages(&many, &layouts, &family, SheetKind::Tally).len(), 2);
}

#[test]
fn a_recording_sheet_is_called_one_thing_and_calls_forms_what_the_class_does() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    let text = "title = \"Harbour stalls\"\n[numbers]\nrange = [100, 999]\n[forms.names]\nwords = \"Word form\"\nexpanded = \"Sum of parts\"\n";
    let lesson = setup::planned(text);
    let page = &pages(&lesson, &layouts, &family, SheetKind::Record)[0];
    let said: Vec<String> = items(page).1.into_iter().map(|text| text.text).collect();
    for wanted in [
        "Recording sheet",
        "Word form",
        "Sum of parts",
        "I can say what each digit is worth, up to 1,000.",
        "Name",
        "Date",
    ] {
        assert!(said.iter().any(|text| text == wanted), "{wanted}: {said:?}");
    }
    assert!(!said.iter().any(|text| text == "Words" || text == "Expanded form"), "{said:?}");
}

#[test]
fn handwriting_lines_follow_the_grade() {
    let family = bundled(Bundled::Andika).expect("a font");
    let layouts = Layouts::read(&[]).expect("layouts");
    let high = |grade: &str| {
        let (model, sort, exit, _) = LESSONS[1];
        let mut spec = spec(60, model, sort, exit);
        spec.grade = (!grade.is_empty()).then(|| Given::assumed(grade.to_owned()));
        let lesson = lesson(spec, model, sort, exit).expect("a lesson");
        let page = &pages(&lesson, &layouts, &family, SheetKind::Record)[0];
        // From the dashed middle line to the solid base line below it.
        let lines = items(page).0.into_iter().filter_map(|item| match item {
            Item::Line { from, to, stroke } if from.y == to.y => Some((from.y, stroke.dash.is_some())),
            _ => None,
        });
        let lines: Vec<_> = lines.collect();
        let middle = lines.iter().find(|(_, dashed)| *dashed).expect("a middle line").0;
        lines.iter().filter(|(y, dashed)| !dashed && *y > middle).map(|(y, _)| *y - middle).min().expect("a base line")
    };
    assert!(high("K") > high("2") && high("Grade 1") > high("2nd") && high("2") > high("3"));
    // Without a grade the size of the numbers decides: two digits are grade 1's.
    assert_eq!(high(""), high("1"));
}
