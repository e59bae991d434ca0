//! The sheet *blocks*: the pieces that numbers need, on provably the fewest pages, at true size.

use crate::support;
use crate::support::packets::{masters, teachers, texts};
use crate::support::setup;
use placewright::lesson::Lesson;
use placewright::measure::{Length, Point, Rect, Sides, Size};
use placewright::rng::Stream;
use placewright::sheets::kinds::blocks;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{CutLine, Item, Layer, Node, Page, Text};
use placewright::spec::{Given, Ink, Paper, SheetKind, TextSize};

fn pages(lesson: &Lesson) -> Vec<Page> {
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    let desk = Desk::new(lesson, &layouts, &family);
    masters(&desk, SheetKind::Blocks).unwrap_or_else(|problem| panic!("{problem:?}"))
}

fn layer(page: &Page) -> &Layer {
    &page.layers[0]
}

/// Everything drawn, and every line of text.
fn drawn(page: &Page) -> (Vec<Item>, Vec<Text>) {
    fn walk(nodes: &[Node], items: &mut Vec<Item>) {
        for node in nodes {
            match node {
                Node::Tagged(_, inner) => walk(inner, items),
                Node::Item(item) => items.push(item.clone()),
                Node::Artifact(all) => items.extend(all.iter().cloned()),
            }
        }
    }
    let mut items = Vec::new();
    page.layers.iter().for_each(|layer| walk(&layer.nodes, &mut items));
    let texts = items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text.clone()) } else { None });
    let texts = texts.collect();
    (items, texts)
}

/// The largest digit of each place: thousands, hundreds, tens, ones; ten cubes wherever a rod can lie beside them. Worked out on the numerals, not with our own code.
fn needs(numbers: &[u32]) -> [usize; 4] {
    let mut most = [0; 4];
    for text in numbers.iter().map(|n| format!("{n:04}")) {
        for (most, digit) in most.iter_mut().zip(text.bytes()) {
            *most = usize::from(digit - b'0').max(*most);
        }
    }
    let [.., rods, cubes] = &mut most;
    *cubes = if *rods > 0 { 10 } else { *cubes };
    most
}

/// No way of packing upright pieces does with fewer pages than this. Units of 10 mm; the page holds w x h of them, any way
/// up. Pieces and page measure whole units, so pieces pushed left and up stand at whole units.
///
/// Equal squares: at most floor(w/10) x floor(h/10) on a page, because each one covers exactly one of the points whose
/// coordinates are whole multiples of ten, shifted to the far corner of the first cell. Bars 1 x 10: colour the cells by
/// (x + y) mod 10; a bar covers each colour once, so a page takes no more bars than its rarest colour has cells; a flat is
/// ten bars. Cubes: the area.
fn bound([thousands, flats, rods, cubes]: [usize; 4], (w, h): (usize, usize)) -> usize {
    let squares = thousands + flats;
    let mut colours = [0; 10];
    for (x, y) in (0..w).flat_map(|x| (0..h).map(move |y| (x, y))) {
        colours[(x + y) % 10] += 1;
    }
    let bars = colours.into_iter().min().unwrap();
    let by_squares = squares.div_ceil((w / 10) * (h / 10));
    let by_bars = (10 * squares + rods).div_ceil(bars);
    let by_area = (100 * squares + 10 * rods + cubes).div_ceil(w * h);
    by_squares.max(by_bars).max(by_area).max(1)
}

#[track_caller]
fn holds(lesson: &Lesson, numbers: &[u32]) {
    let pages = pages(lesson);
    let paper = lesson.spec.paper.value.size();
    let margin = lesson.spec.print.margin.value;
    let need = needs(numbers);
    let case = format!("{:?} {:?} {margin} {need:?}", lesson.spec.paper.value, lesson.spec.print.text.value);

    // Counts: exactly what the numbers need.
    for (name, count) in ["thousand-block", "flat", "rod", "cube"].into_iter().zip(need) {
        let made = pages.iter().flat_map(|p| &layer(p).pieces).filter(|piece| piece.name == name).count();
        assert_eq!(made, count, "{case}: {name}");
    }
    // The fewest pages.
    let units = |length: Length| usize::try_from((length - margin * 2).holds(Length::mm(10))).unwrap();
    assert_eq!(pages.len(), bound(need, (units(paper.width), units(paper.height))), "{case}");

    for page in &pages {
        let printable = Rect::new(Point::ORIGIN, page.size).shrunk(Sides::splat(margin));
        let (items, texts) = drawn(page);
        pieces_are_true(page, printable, &case);
        for (length, label) in [(Length::mm(100), "10 cm"), (Length::mm100(10_160), "4 in")] {
            assert!(texts.iter().any(|text| text.text.contains(label)), "{case}: no {label}");
            let lines = items.iter().filter(|item| match item {
                Item::Line { from, to, stroke } => from.y == to.y && to.x - from.x == length && stroke.dash.is_none(),
                _ => false,
            });
            assert_eq!(lines.count(), 1, "{case}: {label}");
        }
        assert!(texts.iter().any(|t| t.text.contains("100 %")), "{case}: how to print");
        for text in &texts {
            let least = if text.reader == placewright::sheets::page::Reader::Staff { 9 } else { 14 };
            assert!(text.size >= Length::pt(least), "{case}: {text:?}");
            assert!(printable.contains(text.frame), "{case}: {text:?}");
            assert!(layer(page).pieces.iter().all(|p| p.rect.contains(text.frame) || !p.rect.overlaps(text.frame)));
        }
    }
}

/// True sizes, inside the printable area, no overlap, every edge on a cut and no cut through a piece.
#[track_caller]
fn pieces_are_true(page: &Page, printable: Rect, case: &str) {
    let Layer { pieces, cuts, snips, .. } = layer(page);
    for (k, piece) in pieces.iter().enumerate() {
        let size = piece.rect.size();
        let mm = |width, height| Size::new(Length::mm(width), Length::mm(height));
        let right = match &*piece.name {
            "thousand-block" | "flat" => size == mm(100, 100),
            "rod" => size == mm(10, 100) || size == mm(100, 10),
            _ => size == mm(10, 10),
        };
        assert!(right, "{case}: {piece:?}");
        assert!(printable.contains(piece.rect), "{case}: {piece:?} in {printable:?}");
        assert!(pieces[..k].iter().all(|other| !other.rect.overlaps(piece.rect)), "{case}");
        for (at, upright) in [
            (piece.rect.left(), true),
            (piece.rect.right(), true),
            (piece.rect.top(), false),
            (piece.rect.bottom(), false),
        ] {
            let full = cuts.contains(&if upright { CutLine::Upright(at) } else { CutLine::Level(at) });
            let short = snips.iter().any(|snip| {
                let along = Rect::between(snip.from, snip.to);
                if upright {
                    snip.from.x == at && along.top() <= piece.rect.top() && along.bottom() >= piece.rect.bottom()
                } else {
                    snip.from.y == at && along.left() <= piece.rect.left() && along.right() >= piece.rect.right()
                }
            });
            assert!(full || short, "{case}: nothing cuts {piece:?} at {at}");
        }
        let crosses = |low: Length, at: Length, high: Length| low < at && at < high;
        assert!(
            !cuts.iter().any(|cut| match *cut {
                CutLine::Level(y) => crosses(piece.rect.top(), y, piece.rect.bottom()),
                CutLine::Upright(x) => crosses(piece.rect.left(), x, piece.rect.right()),
            }),
            "{case}: a cut goes through {piece:?}"
        );
    }
    // A line that can go from edge to edge does; a snip goes through no piece, frees one, and is asked for once.
    let within = |low: Length, at: Length, high: Length| low < at && at < high;
    for (k, snip) in snips.iter().enumerate() {
        let (x, y, along) = (snip.from.x, snip.from.y, Rect::between(snip.from, snip.to));
        assert!(x == snip.to.x || y == snip.to.y);
        let upright = x == snip.to.x;
        let through = |rect: Rect| {
            if upright {
                within(rect.left(), x, rect.right()) && along.top() < rect.bottom() && rect.top() < along.bottom()
            } else {
                within(rect.top(), y, rect.bottom()) && along.left() < rect.right() && rect.left() < along.right()
            }
        };
        let frees = |rect: Rect| {
            if upright {
                [rect.left(), rect.right()].contains(&x) && along.top() <= rect.top() && rect.bottom() <= along.bottom()
            } else {
                [rect.top(), rect.bottom()].contains(&y) && along.left() <= rect.left() && rect.right() <= along.right()
            }
        };
        assert!(pieces.iter().all(|piece| !through(piece.rect)), "{case}: {snip:?} goes through a piece");
        assert!(pieces.iter().any(|piece| frees(piece.rect)), "{case}: {snip:?} frees nothing");
        let full = if upright { CutLine::Upright(x) } else { CutLine::Level(y) };
        assert!(!cuts.contains(&full) && !snips[..k].contains(snip), "{case}: {snip:?} twice");
        let free = pieces.iter().all(|piece| !within(piece.rect.left(), x, piece.rect.right()));
        assert!(!(upright && free), "{case}: {snip:?} could be a cut");
    }
}

#[test]
fn two_hundred_random_lessons_take_the_fewest_pages() {
    let mut stream = Stream::new(11, "packing");
    let margins = [500, 635, 635, 800, 1000, 1270, 1900].map(Length::mm100);
    for k in 0..200 {
        let top = [99, 999, 999, 999, 9_999][stream.index(5)];
        let count = 1 + stream.index(12);
        let numbers: Vec<u32> = (0..count).map(|_| u32::try_from(stream.below(top + 1)).unwrap()).collect();
        let (model, sort) = numbers.split_at(count / 4);
        let paper = Paper::ALL[k % 5];
        let mut lesson = setup::only(SheetKind::Blocks, paper, model, &[sort]);
        lesson.spec.print.margin = Given::assumed(margins[stream.index(margins.len())]);
        if k % 3 == 0 {
            lesson.spec.print.text = Given::assumed(TextSize::Large);
            lesson.spec.print.ink = Given::assumed(Ink::Colour);
        }
        holds(&lesson, &numbers);
    }
}

#[test]
fn every_load_up_to_999_takes_the_fewest_pages_on_every_paper() {
    // Every count of flats and rods, with no cubes, one, nine and ten: the packing alone, against the same bound.
    for paper in Paper::ALL {
        for margin in [500, 635, 1270].map(Length::mm100) {
            let units = |length: Length, less: i64| {
                u32::try_from((length - margin * 2 - Length::mm100(less)).holds(Length::mm(10))).unwrap()
            };
            let (size, turned) = (paper.size(), paper.size().turned());
            for (squares, rods, cubes) in
                (0..=18).flat_map(|s| (0..=9).flat_map(move |r| [0, 1, 9, 10].map(|c| (s, r, c))))
            {
                let need = placewright::sheets::blocks::packing::PieceCounts { squares, rods, cubes };
                let made = [size, turned].into_iter().filter_map(|size| {
                    let (across, down) = (units(size.width, 0), units(size.height, 280));
                    let easy = units(size.height, 1_500);
                    Some(
                        placewright::sheets::blocks::packing::pack(
                            need,
                            placewright::sheets::blocks::packing::SheetRoom { across, down, easy },
                        )?
                        .len(),
                    )
                });
                let counts = [0, squares, rods, cubes].map(|n| usize::try_from(n).unwrap());
                let page = [size.width, size.height].map(|l| usize::try_from(units(l, 0)).unwrap());
                let bound = bound(counts, (page[0], page[1]));
                assert_eq!(made.min(), Some(bound), "{paper:?} {margin} {need:?}");
            }
        }
    }
}

/// Where there is room, rods lie in rows below the flats, and the cubes beside the last: easy to cut and to count.
#[test]
fn an_easy_load_lies_in_rows() {
    use placewright::sheets::blocks::packing::{Band, PieceCounts, SheetRoom, pack};
    let tall = |squares| Band { tall: true, squares, rods: 0, cubes: 0 };
    let low = |rods, cubes| Band { tall: false, squares: 0, rods, cubes };
    #[track_caller]
    fn case((squares, rods, cubes): (u32, u32, u32), (down, easy): (u32, u32), want: &[&[Band]]) {
        let made = pack(PieceCounts { squares, rods, cubes }, SheetRoom { across: 20, down, easy }).unwrap();
        assert_eq!(made, want, "{squares} {rods} {cubes}");
    }
    case((2, 3, 4), (24, 22), &[&[tall(2), low(2, 0), low(1, 4)]]);
    case((1, 0, 4), (24, 22), &[&[tall(1), low(0, 4)]]);
    case((0, 1, 9), (24, 22), &[&[low(1, 9)]]);
    case((0, 2, 9), (24, 22), &[&[low(2, 0), low(0, 9)]]);
    // The sheet that is cut in rows is the last; those before it hold flats alone.
    case((5, 3, 0), (24, 22), &[&[tall(2), tall(2)], &[tall(1), low(2, 0), low(1, 0)]]);
    // No room for a row below: the rods stand beside the flats.
    let beside = Band { tall: true, squares: 1, rods: 3, cubes: 4 };
    case((1, 3, 4), (10, 10), &[&[beside]]);
}

#[test]
fn a_page_says_what_is_on_it_and_which_it_is() {
    let told = |numbers: &[u32]| {
        let lesson = setup::only(SheetKind::Blocks, Paper::Letter, &[], &[numbers]);
        let figure = |page: &Page| {
            layer(page).nodes.iter().find_map(|node| match node {
                Node::Tagged(placewright::sheets::page::Tag::Figure(text), _) => Some(text.clone()),
                _ => None,
            })
        };
        pages(&lesson).iter().map(|page| (page.name.clone(), figure(page).unwrap())).collect::<Vec<_>>()
    };
    let one = told(&[101, 20]);
    assert_eq!((one.len(), one[0].1.as_str()), (1, "1 flat, 2 rods, 10 cubes to cut out"));
    assert!(!one[0].0.contains("sheet"), "{one:?}");
    let two = told(&[1_409]);
    assert_eq!(
        two.iter().map(|(_, told)| told.as_str()).collect::<Vec<_>>().join("; ").matches("1 thousand-block,").count(),
        1
    );
    for (k, (name, _)) in two.iter().enumerate() {
        assert!(name.ends_with(&format!(", sheet {} of {}", k + 1, two.len())) && two.len() > 1, "{name}");
    }
}

/// However low its head is, a page says by name what it is.
#[test]
fn every_page_has_its_title() {
    let mut heads = [0; 2];
    for numbers in [&[409][..], &[999], &[189], &[250, 305], &[860], &[555], &[77], &[1_409]] {
        for paper in [Paper::Letter, Paper::A4] {
            let all = pages(&setup::only(SheetKind::Blocks, paper, &[], &[numbers]));
            for page in &all {
                let said = texts([page]);
                let titled = said.contains(&page.name);
                assert!(titled || said.iter().any(|text| text.starts_with("BLOCKS")), "{numbers:?}: {said:?}");
                heads[usize::from(titled)] += 1;
            }
        }
    }
    assert!(heads[1] > heads[0], "{heads:?}");
}

#[test]
fn a4_takes_two_flats_across_with_a_margin_of_5_mm_and_not_with_6_35_mm() {
    let count = |margin: i64| {
        let mut lesson = setup::only(SheetKind::Blocks, Paper::A4, &[], &[&[400]]);
        lesson.spec.print.margin = Given::assumed(Length::mm100(margin));
        pages(&lesson).len()
    };
    assert_eq!((count(500), count(635)), (1, 2));
}

#[test]
fn a_page_too_narrow_for_a_flat_says_so() {
    let mut lesson = setup::only(SheetKind::Blocks, Paper::Letter, &[], &[&[234]]);
    lesson.spec.print.margin = Given::assumed(Length::mm(60));
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    let problem = blocks::lay(&Desk::new(&lesson, &layouts, &family)).unwrap_err();
    assert_eq!(problem.message, "no flat fits the printable area of 95.9 mm by 159.4 mm");
}

#[test]
fn the_unit_in_the_file_is_10_mm_and_the_check_lines_are_true() {
    let lesson = setup::only(SheetKind::Blocks, Paper::Letter, &[], &[&[101]]);
    let packet = teachers("Blocks", pages(&lesson));
    let bytes = packet.bytes(&setup::family(), 1);
    // In the file itself, through a reader that is not the writer. First the grid lines of the flat: the thin ones.
    let read = support::pdf::read(&bytes);
    let points = |mm: f64| mm * 72.0 / 25.4;
    let flat = layer(&packet.pages[0]).pieces[0].rect;
    let lines: Vec<_> = read[0].paths.iter().map(|path| path.bounds()).collect();
    let mut across: Vec<f64> = lines
        .iter()
        .filter(|line| line.x1 - line.x0 < 0.001 && (line.y0 - flat.top().to_pt()).abs() < 0.01)
        .filter(|line| line.x0 > flat.left().to_pt() + 1.0 && line.x0 < flat.right().to_pt() - 1.0)
        .map(|line| line.x0)
        .collect();
    across.sort_by(f64::total_cmp);
    assert_eq!(across.len(), 9);
    for pair in across.windows(2) {
        assert!((pair[1] - pair[0] - points(10.0)).abs() < points(0.005), "{across:?}");
    }
    // Then the check lines.
    for mm in [100.0, 101.6] {
        let level = lines.iter().filter(|line| line.y1 - line.y0 < 0.001 && line.y0 < flat.top().to_pt() - 1.0);
        assert_eq!(level.filter(|line| (line.x1 - line.x0 - points(mm)).abs() < 0.001).count(), 1, "{mm} mm");
    }
}
