//! The picture is the number: an independent renderer draws every block picture and finds exactly n closed unit cells.

use crate::support;
use crate::support::packets::{self, teachers};
use std::sync::Arc;

use placewright::diag::Source;
use placewright::lesson;
use placewright::measure::{Length, Point, Rect, Size};
use placewright::sheets::blocks::geometry::{Blockwork, Counts, LEAST_UNIT, least_unit};
use placewright::sheets::blocks::picture::Pictures;
use placewright::sheets::files::PacketKind;
use placewright::sheets::page::{Item, Layer, Node, Page, Stock, Tag};
use placewright::spec::{self, Ink, SheetKind};
use placewright::wording::English;
use support::raster::{Area, Cell, draw};
use support::setup::family;

fn digits(n: u32) -> Counts {
    [n / 1000, n / 100 % 10, n / 10 % 10, n % 10]
}

/// One picture on a page of its own, as large as the picture and 2 mm around it.
fn page(pictures: &Pictures, counts: Counts) -> Page {
    let blocks = pictures.work().place(counts, Rect::default());
    let picture = blocks.iter().map(|block| block.rect).reduce(Rect::union).unwrap_or_default().size();
    let around = Length::mm(4);
    let size = Size::new(picture.width + around, picture.height + around);
    let layer = Layer { nodes: vec![pictures.figure(counts, Rect::new(Point::ORIGIN, size))], ..Layer::default() };
    Page {
        size,
        sheet: SheetKind::Display,
        version: None,
        learner: None,
        stock: Stock::Paper,
        name: "picture".to_owned(),
        layers: vec![Arc::new(layer)],
    }
}

/// The enclosed cells of each picture, drawn at `scale` dots to the point; what is darker than `line` is a line.
fn cells(pictures: &Pictures, all: &[Counts], scale: f64, line: u8) -> Vec<Vec<Cell>> {
    let pages: Vec<Page> = all.iter().map(|counts| page(pictures, *counts)).collect();
    let bytes = teachers("Pictures", pages).bytes(&family(), 1);
    let whole = Area { left: 0.0, top: 0.0, right: 10_000.0, bottom: 10_000.0 };
    (0..all.len()).map(|index| draw(&bytes, index, scale).enclosed(whole, line)).collect()
}

/// Exactly `counts` worth of cells, all square and all of one size: `unit` dots less a line, give or take the difference
/// between an outline and a grid line.
#[track_caller]
fn holds(counts: Counts, cells: &[Cell], unit: usize, slack: usize) {
    let [_, flats, rods, cubes] = counts.map(|n| usize::try_from(n).unwrap());
    assert_eq!(cells.len(), 100 * flats + 10 * rods + cubes, "{counts:?}");
    let sides = || cells.iter().flat_map(|cell| [cell.width(), cell.height()]);
    if let (Some(least), Some(most)) = (sides().min(), sides().max()) {
        assert!(
            most - least <= slack && most < unit && least * 3 > unit * 2,
            "{counts:?}: {least} to {most} of {unit}"
        );
    }
    assert!(cells.iter().all(Cell::is_rectangle), "{counts:?}");
}

#[test]
fn every_number_to_999_has_exactly_n_cells_of_one_size() {
    let all: Vec<Counts> = (0..=999).map(digits).collect();
    // 20 steps of 1/300 inch: 10 dots at 150 dots to the inch.
    let unit = Length::inches(1).scaled(20, 300);
    let pictures = Pictures::new(Blockwork::at(unit, &all, Length::mm(110)).unwrap(), Ink::Grey, &English);
    assert_eq!(pictures.work().unit(), unit);
    std::thread::scope(|scope| {
        for part in all.chunks(500) {
            let pictures = &pictures;
            scope.spawn(move || {
                for some in part.chunks(100) {
                    for (counts, cells) in some.iter().zip(cells(pictures, some, 150.0 / 72.0, 170)) {
                        holds(*counts, &cells, 10, 2);
                    }
                }
            });
        }
    });
}

/// Rods, cubes and flats beside blocks of a thousand, at the smallest unit that those have: 26 dots at 600 dots to the inch.
#[test]
fn cells_stay_open_beside_thousands() {
    let all = [[0, 9, 9, 9], [0, 1, 0, 7], [0, 3, 8, 0]];
    let least = least_unit(&[[9, 0, 0, 1]]);
    let room = Size::new(Length::mm(400), Length::mm(400));
    let work = Blockwork::fit(&all, room, least, Length::inches(1).scaled(13, 300)).expect("room for all");
    assert!(work.unit() == Length::inches(1).scaled(13, 300) && work.unit() >= least);
    let pictures = Pictures::new(work, Ink::Grey, &English);
    for (counts, cells) in all.iter().zip(cells(&pictures, &all, 600.0 / 72.0, 150)) {
        holds(*counts, &cells, 26, 2);
    }
}

#[test]
fn cells_stay_open_at_the_least_unit_and_with_colour_marks() {
    let all = [[0, 9, 9, 9], [0, 1, 0, 7], [0, 0, 31, 6], [0, 3, 8, 0]];
    for (ink, line) in [(Ink::Grey, 150), (Ink::Colour, 60)] {
        let pictures = Pictures::new(Blockwork::at(LEAST_UNIT, &all, Length::mm(100)).unwrap(), ink, &English);
        // A unit of 14 steps of 1/300 inch: 28 dots at 600 dots to the inch.
        assert_eq!(pictures.work().unit(), Length::inches(1).scaled(14, 300));
        for (counts, cells) in all.iter().zip(cells(&pictures, &all, 600.0 / 72.0, line)) {
            if ink == Ink::Grey {
                holds(*counts, &cells, 28, 2);
            }
            let [_, flats, rods, cubes] = counts.map(|n| usize::try_from(n).unwrap());
            assert_eq!(cells.len(), 100 * flats + 10 * rods + cubes, "{ink:?} {counts:?}");
        }
    }
}

/// Every picture on a page: the rectangle of its blocks, and how many cells its alternative text promises.
fn figures(nodes: &[Node], found: &mut Vec<(Rect, usize)>) {
    for node in nodes {
        let Node::Tagged(tag, inner) = node else { continue };
        figures(inner, found);
        let Tag::Figure(alt) = tag else { continue };
        let words: Vec<&str> = alt.split([' ', ',']).collect();
        let counted = words.windows(2).filter_map(|pair| {
            let worth = [("flat", 100), ("rod", 10), ("cube", 1)];
            let (_, worth) = worth.into_iter().find(|(word, _)| pair[1].trim_end_matches('s') == *word)?;
            Some(if pair[0] == "no" { 0 } else { pair[0].parse::<usize>().unwrap() * worth })
        });
        let (mut cells, mut kinds) = (0, 0);
        counted.for_each(|count| (cells, kinds) = (cells + count, kinds + 1));
        let blocks = inner.iter().filter_map(|node| match node {
            Node::Item(Item::Symbol { symbol, at }) => Some(Rect::new(*at, symbol.size)),
            _ => None,
        });
        if let Some(room) = blocks.reduce(Rect::union).filter(|_| kinds > 0) {
            found.push((room, cells));
        }
    }
}

#[test]
fn whole_boards_strips_keys_and_cut_out_blocks_show_what_they_say() {
    let name = format!("{}/samples/harbour.toml", env!("CARGO_MANIFEST_DIR"));
    let source = Arc::new(Source { text: std::fs::read_to_string(&name).unwrap(), name });
    let spec = spec::read(&source).unwrap();
    let lesson = lesson::plan(&source, spec, Vec::new()).unwrap();
    let family = family();
    let mut pictures = 0;
    for sheet in [SheetKind::Strips, SheetKind::Key, SheetKind::Blocks, SheetKind::Display] {
        let packets = packets::all(&lesson, &family, &[sheet]).unwrap();
        let packet = packets.iter().find(|packet| packet.kind == PacketKind::Teacher).unwrap();
        let bytes = packet.bytes(&family, 1);
        for (index, page) in packet.pages.iter().enumerate() {
            let mut found = Vec::new();
            page.layers.iter().for_each(|layer| figures(&layer.nodes, &mut found));
            if found.is_empty() {
                continue;
            }
            let bitmap = draw(&bytes, index, 300.0 / 72.0);
            for (room, want) in found {
                let room = room.grown(placewright::measure::Sides::splat(Length::pt(2)));
                let area = Area {
                    left: room.left().to_pt(),
                    top: room.top().to_pt(),
                    right: room.right().to_pt(),
                    bottom: room.bottom().to_pt(),
                };
                assert_eq!(bitmap.enclosed(area, 150).len(), want, "{sheet:?} page {index} {room:?}");
                pictures += 1;
            }
        }
    }
    // Three versions of eight rows on strips and key, and more.
    assert!(pictures >= 48, "{pictures} pictures");
}
