//! What is put on a page is what independent readers find there: text, place, size, pens, cells.

use crate::support;
use std::sync::Arc;

use placewright::measure::fonts::{Bundled, bundled};
use placewright::measure::{Length, Point, Rect, Size, Weight};
use placewright::sheets::page::{Item, Layer, Node, Page, Paint, Reader, Stock, Stroke, Symbol, Tag, Text};
use placewright::spec::SheetKind;
use support::packets::{Laid, teachers};
use support::pdf::{Mark, read};
use support::raster::{Area, draw};

fn stroke() -> Stroke {
    Stroke { width: Length::pt100(75), paint: Paint::BLACK, dash: None }
}

fn text(text: &str, x: i64, y: i64) -> Node {
    let at = Point::new(Length::mm(x), Length::mm(y));
    Node::Item(Item::Text(Text {
        at,
        size: Length::pt(14),
        weight: Weight::Regular,
        text: text.to_owned(),
        paint: Paint::BLACK,
        reader: Reader::Learner,
        frame: Rect::new(at, Size::new(Length::mm(100), Length::mm(10))),
    }))
}

/// A flat: a square of 10 x 10 cells of 5 mm.
fn flat() -> Arc<Symbol> {
    let edge = Length::mm(50);
    let mut items = vec![Item::Rect {
        rect: Rect::new(Point::ORIGIN, Size::new(edge, edge)),
        fill: Some(Paint::WHITE),
        stroke: Some(stroke()),
    }];
    for k in 1..10 {
        let at = Length::mm(5 * k);
        items.push(Item::Line { from: Point::new(at, Length::ZERO), to: Point::new(at, edge), stroke: stroke() });
        items.push(Item::Line { from: Point::new(Length::ZERO, at), to: Point::new(edge, at), stroke: stroke() });
    }
    Arc::new(Symbol { size: Size::new(edge, edge), items })
}

fn packet() -> Laid {
    let shared = Arc::new(Layer {
        nodes: vec![Node::Tagged(Tag::Heading(1), vec![text("Harbour stalls", 20, 20)])],
        ..Layer::default()
    });
    let page = |word: &str, flats: i64| {
        let symbol = flat();
        let pictures = (0..flats).map(|k| {
            let at = Point::new(Length::mm(20 + 60 * k), Length::mm(60));
            Node::Item(Item::Symbol { symbol: Arc::clone(&symbol), at })
        });
        let own = Arc::new(Layer {
            nodes: vec![
                Node::Tagged(Tag::Paragraph, vec![text(word, 20, 40)]),
                Node::Tagged(Tag::Figure(format!("{flats} flats")), pictures.collect()),
                Node::Artifact(vec![Item::Line {
                    from: Point::new(Length::mm(10), Length::mm(150)),
                    to: Point::new(Length::mm(200), Length::mm(150)),
                    stroke: stroke(),
                }]),
            ],
            ..Layer::default()
        });
        Page {
            size: Size::new(Length::pt(612), Length::pt(792)),
            sheet: SheetKind::Board,
            version: None,
            learner: None,
            stock: Stock::Paper,
            name: "Board".to_owned(),
            layers: vec![Arc::clone(&shared), own],
        }
    };
    let pages = vec![page("four hundred (six) \\ \u{e9}", 2), page("zwei\u{202f}010", 3)];
    teachers("Harbour stalls (A & B)", pages)
}

fn bytes() -> Vec<u8> {
    packet().bytes(&bundled(Bundled::Andika).unwrap(), 1)
}

#[test]
fn text_comes_back_at_its_place_and_size() {
    let pages = read(&bytes());
    assert_eq!(pages.len(), 2);
    assert_eq!((pages[0].width, pages[0].height), (612.0, 792.0));
    let texts: Vec<_> = pages.iter().flat_map(|p| &p.texts).map(|t| t.text.as_str()).collect();
    assert_eq!(texts, ["Harbour stalls", "four hundred (six) \\ \u{e9}", "Harbour stalls", "zwei\u{202f}010"]);
    let run = &pages[0].texts[1];
    let family = bundled(Bundled::Andika).unwrap();
    assert!((run.x - Length::mm(20).to_pt()).abs() < 0.001 && (run.y - Length::mm(40).to_pt()).abs() < 0.001);
    assert!((run.size - 14.0).abs() < 1e-4, "{}", run.size);
    let width = family.regular.width(&run.text, Length::pt(14)).to_pt();
    assert!((run.width - width).abs() < 0.001, "{} is not {width}", run.width);
    assert_eq!(run.mark, Mark::Content(1));
}

#[test]
fn every_path_is_content_or_artifact_and_keeps_its_pen() {
    let pages = read(&bytes());
    assert_eq!(pages[0].paths.len(), 2 * 19 + 1);
    assert!(pages.iter().flat_map(|p| &p.paths).all(|p| p.mark != Mark::Loose));
    assert!(pages[0].paths.iter().all(|p| p.stroke.is_some_and(|(width, _)| (width - 0.75).abs() < 1e-6)));
    assert_eq!(pages[0].paths.last().map(|p| p.mark), Some(Mark::Artifact));
}

#[test]
fn a_flat_has_a_hundred_cells_of_one_size() {
    let bitmap = draw(&bytes(), 0, 3.0);
    let mm = |mm: f64| mm * 72.0 / 25.4;
    let cells = bitmap.enclosed(Area { left: mm(15.0), top: mm(55.0), right: mm(135.0), bottom: mm(115.0) }, 128);
    assert_eq!(cells.len(), 200);
    assert!(cells.iter().all(support::raster::Cell::is_rectangle));
    let widths = cells.iter().map(support::raster::Cell::width);
    assert!(widths.clone().max().unwrap() - widths.min().unwrap() <= 1);
}

#[test]
fn the_same_pages_are_the_same_bytes() {
    assert_eq!(bytes(), bytes());
}
