//! What must always hold of placed pages (the contract's "nothing spills" and "cuts are straight"): in every packet of every
//! sample, as the program makes it, on every paper, at both text sizes and cut in both ways; and of lessons of one to six
//! digits.

use std::collections::BTreeMap;
use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson::{self, Lesson, Version};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::measure::{Family, Length, Point, Rect, Sides};
use placewright::number::Form;
use placewright::sheets::blocks::picture::CUT_EDGE;
use placewright::sheets::files::PacketKind;
use placewright::sheets::packets;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::ink;
use placewright::sheets::page::layout::{Layouts, least};
use placewright::sheets::page::{CutLine, Item, Node, Page, Snip, Stroke, Text};
use placewright::spec::{self, Cut, FontChoice, Given, Paper, SheetKind, TextSize};

/// A sample as it stands, and its type.
fn sample(name: &str) -> (Lesson, Family) {
    let path = format!("{}/samples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let source = Arc::new(Source { text: std::fs::read_to_string(&path).unwrap(), name: path });
    let spec = spec::read(&source).unwrap();
    let family = match spec.print.font.value {
        FontChoice::Lato => bundled(Bundled::Lato),
        FontChoice::Andika | FontChoice::File(_) => bundled(Bundled::Andika),
    };
    (lesson::plan(&source, spec, Vec::new()).unwrap(), family.unwrap())
}

/// Everything drawn on a page, in page coordinates.
fn items(page: &Page) -> Vec<Item> {
    let mut items = Vec::new();
    for layer in &page.layers {
        layer.nodes.iter().for_each(|node| node.each(&mut |item| items.push(item.clone())));
    }
    items
}

fn texts(page: &Page) -> Vec<Text> {
    let text = |item| if let Item::Text(text) = item { Some(text) } else { None };
    items(page).into_iter().filter_map(text).collect()
}

/// The pens of an item, those inside a symbol among them.
fn strokes(item: &Item) -> Vec<Stroke> {
    match item {
        Item::Text(_) => Vec::new(),
        Item::Line { stroke, .. } => vec![*stroke],
        Item::Rect { stroke, .. } | Item::Polygon { stroke, .. } | Item::Circle { stroke, .. } => {
            stroke.iter().copied().collect()
        }
        Item::Symbol { symbol, .. } => symbol.items.iter().flat_map(strokes).collect(),
    }
}

/// The box of an item's ink: of a line without its ends, which are cut off square.
fn extent(item: &Item, family: &Family) -> Option<Rect> {
    let pen = |rect: Rect, stroke: &Option<Stroke>| {
        rect.grown(Sides::splat(stroke.map_or(Length::ZERO, |stroke| stroke.width.half())))
    };
    Some(match item {
        Item::Text(text) => family.font(text.weight).ink(&text.text, text.size, text.at)?,
        Item::Line { from, to, stroke } => {
            let half = stroke.width.half();
            let across = if from.y == to.y { Length::ZERO } else { half };
            let down = if from.x == to.x { Length::ZERO } else { half };
            Rect::between(*from, *to).grown(Sides { left: across, right: across, top: down, bottom: down })
        }
        Item::Rect { rect, stroke, .. } => pen(*rect, stroke),
        Item::Polygon { points, stroke, .. } => {
            pen(points.iter().map(|p| Rect::between(*p, *p)).reduce(Rect::union)?, stroke)
        }
        Item::Circle { centre, radius, stroke, .. } => {
            pen(Rect::between(centre.moved(-*radius, -*radius), centre.moved(*radius, *radius)), stroke)
        }
        Item::Symbol { symbol, at } => {
            let parts = symbol.items.iter().filter_map(|item| extent(item, family));
            parts.reduce(Rect::union)?.moved(at.x, at.y)
        }
    })
}

/// What is written on a page and not told to a listener: artifacts (ISO 32000-1, 14.8.2.2).
fn unheard<'p>(nodes: &'p [Node], found: &mut Vec<&'p Text>) {
    for node in nodes {
        match node {
            Node::Tagged(_, inner) => unheard(inner, found),
            Node::Artifact(items) => {
                found.extend(
                    items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None }),
                );
            }
            Node::Item(_) => {}
        }
    }
}

/// Only what every page of a lesson repeats, and a word or two, is kept from a listener.
fn is_heard(page: &Page, lesson: &Lesson) {
    let mut found = Vec::new();
    page.layers.iter().for_each(|layer| unheard(&layer.nodes, &mut found));
    let prose =
        |text: &&&Text| text.text.split_whitespace().filter(|word| word.chars().any(char::is_alphabetic)).count() > 4;
    for text in found.iter().filter(prose) {
        let title = &lesson.spec.title.value;
        assert!(
            text.text.contains(title) || lesson.roster.contains(&text.text),
            "{}: not heard: {}",
            page.name,
            text.text
        );
    }
}

/// Checks everything about one page that the page alone can tell.
fn check(page: &Page, lesson: &Lesson, family: &Family) {
    is_heard(page, lesson);
    let at = format!("{} of {} on {:?}", page.name, lesson.spec.title.value, lesson.spec.paper.value);
    let printable = Rect::new(Point::ORIGIN, page.size).shrunk(Sides::splat(lesson.spec.print.margin.value));
    // The pieces alone may stand out by half their pen: two flats of 100 mm share an A4 page with margins of 5 mm, edge to
    // edge.
    let half = if page.sheet == SheetKind::Blocks { CUT_EDGE.width.half() } else { Length::ZERO };
    let reach = printable.grown(Sides::splat(half));
    for item in items(page) {
        if let Some(extent) = extent(&item, family) {
            assert!(reach.contains(extent), "{at}: in the margin: {extent:?} of {item:?}");
        }
        for stroke in strokes(&item) {
            assert!(stroke.width >= ink::FINE.width, "{at}: too fine: {stroke:?}");
        }
        let strong = match &item {
            Item::Rect { stroke, .. } | Item::Polygon { stroke, .. } => *stroke,
            Item::Line { from, to, stroke } if is_cut(page, *from, *to) => Some(*stroke),
            _ => None,
        };
        assert!(strong.is_none_or(|pen| pen.width >= ink::OUTLINE.width), "{at}: too fine for an edge: {item:?}");
    }
    let texts = texts(page);
    for text in &texts {
        let ink = family.font(text.weight).ink(&text.text, text.size, text.at);
        assert!(ink.is_none_or(|ink| text.frame.contains(ink)), "{at}: spills: {text:?}");
        assert!(text.size >= least(text.reader, lesson.spec.print.text.value), "{at}: too small: {text:?}");
    }
    let inks: Vec<_> =
        texts.iter().filter_map(|t| Some((t, family.font(t.weight).ink(&t.text, t.size, t.at)?))).collect();
    for (k, (a, ink)) in inks.iter().enumerate() {
        for (b, other) in &inks[k + 1..] {
            assert!(!ink.overlaps(*other), "{at}: `{}` lies on `{}`", a.text, b.text);
        }
    }
}

/// Whether a line lies along a cut.
fn is_cut(page: &Page, from: Point, to: Point) -> bool {
    let mut cuts = page.layers.iter().flat_map(|layer| &layer.cuts);
    cuts.any(|cut| match *cut {
        CutLine::Level(y) => from.y == y && to.y == y,
        CutLine::Upright(x) => from.x == x && to.x == x,
    })
}

/// Checks the pieces of a page and the cuts that free them.
fn check_cuts(page: &Page, at: &str) {
    let pieces: Vec<Rect> = page.layers.iter().flat_map(|l| &l.pieces).map(|piece| piece.rect).collect();
    let cuts: Vec<CutLine> = page.layers.iter().flat_map(|l| l.cuts.iter().copied()).collect();
    let snips: Vec<Snip> = page.layers.iter().flat_map(|l| l.snips.iter().copied()).collect();
    for (k, piece) in pieces.iter().enumerate() {
        // Text and pictures may differ in width, but then all of one width stand below each other.
        assert_eq!(piece.height(), pieces[0].height(), "{at}");
        let sizes = pieces.iter().map(|piece| piece.width()).collect::<std::collections::BTreeSet<_>>().len();
        assert!(sizes <= 2, "{at}: {sizes} widths");
        assert!(pieces[k + 1..].iter().all(|other| !piece.overlaps(*other)), "{at}: {piece:?}");
        for edge in [CutLine::Level(piece.top()), CutLine::Level(piece.bottom())] {
            assert!(cuts.contains(&edge), "{at}: no cut along {edge:?}");
        }
        for x in [piece.left(), piece.right()] {
            let snip = |snip: &Snip| {
                snip.from.x == x && snip.to.x == x && snip.from.y <= piece.top() && piece.bottom() <= snip.to.y
            };
            assert!(cuts.contains(&CutLine::Upright(x)) || snips.iter().any(snip), "{at}: no cut along {x}");
        }
        for cut in &cuts {
            let inside = match *cut {
                CutLine::Level(y) => piece.top() < y && y < piece.bottom(),
                CutLine::Upright(x) => piece.left() < x && x < piece.right(),
            };
            assert!(!inside, "{at}: {cut:?} crosses {piece:?}");
        }
        for snip in &snips {
            let (from, to) = (snip.from, snip.to);
            let inside =
                piece.left() < from.x && from.x < piece.right() && from.y < piece.bottom() && piece.top() < to.y;
            assert!(from.x == to.x && !inside, "{at}: {snip:?} crosses {piece:?}");
            // A cut across a band ends where level cuts have freed it.
            for end in [from.y, to.y] {
                assert!(cuts.contains(&CutLine::Level(end)), "{at}: {snip:?} ends inside a sheet");
            }
        }
    }
    // Each text on a piece keeps a millimetre and more from its edges: cutting is a millimetre or so off.
    for text in texts(page) {
        if let Some(piece) = pieces.iter().find(|piece| piece.overlaps(text.frame)) {
            assert!(piece.shrunk(Sides::splat(Length::mm(1))).contains(text.frame), "{at}: {text:?}");
        }
    }
}

/// Checks that every strip fits every box of its form with a millimetre all round, and that strips of one form are equal.
fn check_boxes(pages: &[Page], lesson: &Lesson) {
    for set in &lesson.sets {
        let of = |kind| pages.iter().filter(move |page| page.sheet == kind && page.version == Some(set.version));
        let boxes: Vec<Rect> = of(SheetKind::Board).flat_map(|p| &p.layers).flat_map(|l| l.boxes.clone()).collect();
        assert_eq!(boxes.len(), set.rows.len() * set.forms.len());
        let mut seen = vec![false; set.strips.len()];
        for piece in of(SheetKind::Strips).flat_map(|p| &p.layers).flat_map(|l| &l.pieces) {
            let number: usize = piece.name.trim_start_matches("strip ").parse().unwrap();
            assert!(!std::mem::replace(&mut seen[number - 1], true), "strip {number} twice");
            let column = set.forms.iter().position(|form| *form == set.strips[number - 1].form).unwrap();
            for cell in boxes.iter().skip(column).step_by(set.forms.len()) {
                let room = cell.shrunk(Sides::splat(Length::mm(1))).size();
                assert!(piece.rect.size().fits(room), "{:?} in {cell:?}", piece.rect);
            }
        }
        assert!(seen.into_iter().all(|seen| seen), "every strip of {} is on a page", set.version);
    }
}

/// A sample on every paper, at both text sizes, cut in both ways. What is printed does not change which numbers there are.
#[track_caller]
fn holds(name: &str) {
    let (mut lesson, family) = sample(name);
    for paper in Paper::ALL {
        for text in TextSize::ALL {
            for cut in Cut::ALL {
                lesson.spec.paper = Given::assumed(paper);
                lesson.spec.print.text = Given::assumed(text);
                lesson.spec.print.cut = Given::assumed(cut);
                hold(&lesson, &family);
            }
        }
    }
}

/// Whether pieces may be too large for the paper: pictures of thousands beside large print, where a guillotine asks for
/// pieces of one size.
fn may_not_fit(lesson: &Lesson) -> bool {
    let print = &lesson.spec.print;
    let pictures = lesson.spec.forms.matched.value.contains(&Form::Blocks);
    let thousands = lesson.spec.numbers.range.value.1.value() > 999;
    pictures && thousands && print.text.value == TextSize::Large && print.cut.value == Cut::Stack
}

/// How many pages of one kind and version are looked at in a file; the others are made in the same way.
const LOOKED: usize = 2;

/// Checks the pages of all packets of a lesson.
fn hold(lesson: &Lesson, family: &Family) {
    let (paper, text) = (lesson.spec.paper.value, lesson.spec.print.text.value);
    let layouts = Layouts::read(&[]).unwrap();
    let packets = match packets::make(&Desk::new(lesson, &layouts, family), &[]) {
        Ok(packets) => packets,
        Err(found) => {
            let found: Vec<_> = found.into_iter().map(|d| (d.problem.message, d.problem.hint)).collect();
            assert!(may_not_fit(lesson), "{} on {paper:?}: {found:#?}", lesson.spec.title.value);
            assert!(found.iter().all(|(_, hint)| { hint.as_ref().is_some_and(|hint| hint.contains("would fit")) }));
            return;
        }
    };
    let mut kinds = Vec::new();
    for packet in packets {
        kinds.push(packet.kind);
        let mut seen: BTreeMap<(SheetKind, Option<Version>), usize> = BTreeMap::new();
        for (index, entry) in packet.entries().enumerate() {
            let times = seen.entry((entry.sheet, entry.version)).or_default();
            *times += 1;
            if *times > LOOKED && index + 1 < packet.len() {
                continue;
            }
            let page = packet.page(index).unwrap();
            check(&page, lesson, family);
            if page.sheet == SheetKind::Strips && !page.name.ends_with("(back)") {
                let title = &lesson.spec.title.value;
                check_cuts(&page, &format!("{} of {title} on {paper:?} {text:?}", page.name));
            }
        }
        if packet.kind == PacketKind::Teacher {
            let pages: Vec<Page> = (0..packet.len()).map(|k| packet.page(k).unwrap().into_owned()).collect();
            check_boxes(&pages, lesson);
        }
    }
    for kind in [PacketKind::Teacher, PacketKind::Ticket, PacketKind::Substitute] {
        assert!(kinds.contains(&kind), "{kind:?} of {kinds:?}");
    }
    assert!([PacketKind::Paper, PacketKind::PaperBothSides].iter().any(|kind| kinds.contains(kind)), "{kinds:?}");
}

#[test]
fn beehives() {
    holds("beehives");
}

#[test]
fn brickworks() {
    holds("brickworks");
}

#[test]
fn harbour() {
    holds("harbour");
}

#[test]
fn lighthouse() {
    holds("lighthouse");
}

#[test]
fn post_office() {
    holds("post-office");
}

#[test]
fn print_shop() {
    holds("print-shop");
}

#[test]
fn seed_library() {
    holds("seed-library");
}

#[test]
fn star_atlas() {
    holds("star-atlas");
}

#[test]
fn tram_stops() {
    holds("tram-stops");
}

/// A small lesson on numbers of so many digits.
fn digits(count: u32, paper: Paper, text: TextSize) -> (Lesson, Family) {
    let (least, most) = (if count == 1 { 1 } else { 10_u32.pow(count - 1) }, 10_u32.pow(count) - 1);
    let text_of_lesson = format!(
        "title = \"Lamp posts of {count} digits\"\n[numbers]\nrange = [{least}, {most}]\nmodel.count = 2\nsort.count = 4\nexit.count = 2\n"
    );
    let source = Arc::new(Source { name: format!("{count} digits"), text: text_of_lesson });
    let mut spec = spec::read(&source).unwrap();
    spec.paper = Given::assumed(paper);
    spec.print.text = Given::assumed(text);
    (lesson::plan(&source, spec, Vec::new()).unwrap(), bundled(Bundled::Andika).unwrap())
}

#[track_caller]
fn sweep(paper: Paper) {
    for count in 1..=6 {
        for text in [TextSize::Standard, TextSize::Large] {
            let (lesson, family) = digits(count, paper, text);
            hold(&lesson, &family);
        }
    }
}

#[test]
fn one_to_six_digits_on_letter() {
    sweep(Paper::Letter);
}

#[test]
fn one_to_six_digits_on_legal() {
    sweep(Paper::Legal);
}

#[test]
fn one_to_six_digits_on_tabloid() {
    sweep(Paper::Tabloid);
}

#[test]
fn one_to_six_digits_on_a4() {
    sweep(Paper::A4);
}

#[test]
fn one_to_six_digits_on_a3() {
    sweep(Paper::A3);
}
