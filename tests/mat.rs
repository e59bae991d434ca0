//! The sheet *mat*: columns wide enough for what is built on them, on one page or on pages that join.

use crate::support::packets::masters;
use crate::support::setup;
use placewright::measure::{Length, Point, Rect, Sides};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{CutLine, Item, Layer, Node, Page, Symbol};
use placewright::spec::{Given, Paper, SheetKind, TextSize};

fn pages(paper: Paper, text: TextSize, margin: i64, numbers: &[u32]) -> Vec<Page> {
    let mut lesson = setup::only(SheetKind::Mat, paper, &[], &[numbers]);
    lesson.spec.print.text = Given::assumed(text);
    lesson.spec.print.margin = Given::assumed(Length::mm100(margin));
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    let desk = Desk::new(&lesson, &layouts, &family);
    masters(&desk, SheetKind::Mat).unwrap_or_else(|problem| panic!("{paper:?} {text:?} {problem:?}"))
}

fn walk(nodes: &[Node], items: &mut Vec<Item>) {
    for node in nodes {
        match node {
            Node::Tagged(_, inner) => walk(inner, items),
            Node::Item(item) => items.push(item.clone()),
            Node::Artifact(all) => items.extend(all.iter().cloned()),
        }
    }
}

fn items(page: &Page) -> Vec<Item> {
    let mut items = Vec::new();
    page.layers.iter().for_each(|layer| walk(&layer.nodes, &mut items));
    items
}

fn layer(page: &Page) -> &Layer {
    &page.layers[0]
}

#[test]
fn columns_hold_their_blocks_on_every_paper_at_both_text_sizes() {
    for (paper, text, margin) in Paper::ALL.into_iter().flat_map(|paper| {
        [TextSize::Standard, TextSize::Large]
            .into_iter()
            .flat_map(move |text| [500, 635, 1270].map(|margin| (paper, text, margin)))
    }) {
        for (places, number) in (1..).zip([9, 97, 986, 4_975, 86_420, 975_310]) {
            let case = format!("{paper:?} {text:?} {margin} {number}");
            let pages = pages(paper, text, margin, &[number, 0]);
            let fields: Vec<Rect> = pages.iter().flat_map(|page| layer(page).boxes.clone()).collect();
            assert_eq!(fields.len(), places, "{case}");
            // A flat, the rods of the largest tens digit or a frame of five 10 mm boxes, and 2 mm on each side.
            let tens = i64::from(number / 10 % 10) * 10 + 4;
            let needs: Vec<i64> =
                if places <= 4 { [104, 104, tens, 54][4 - places..].to_vec() } else { vec![34; places] };
            for (field, need) in fields.iter().zip(needs) {
                let high = if places <= 4 { 104 } else { 50 };
                assert!(field.width() >= Length::mm(need) && field.height() >= Length::mm(high), "{case}: {field:?}");
            }
            for page in &pages {
                let printable = Rect::new(Point::ORIGIN, page.size).shrunk(Sides::splat(Length::mm100(margin)));
                assert!(layer(page).boxes.iter().all(|field| printable.contains(*field)), "{case}");
                for item in items(page) {
                    if let Item::Text(text) = item {
                        assert!(printable.contains(text.frame), "{case}: {text:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn letter_takes_hundreds_on_one_page_and_thousands_on_two_that_join() {
    let count = |paper, number| pages(paper, TextSize::Standard, 635, &[number]).len();
    assert_eq!((count(Paper::Letter, 999), count(Paper::A4, 999)), (1, 1));
    assert_eq!((count(Paper::Letter, 9_999), count(Paper::Tabloid, 9_999), count(Paper::A3, 9_999)), (2, 1, 1));
}

#[test]
fn pages_join_at_one_height_and_the_marks_meet() {
    let pages = pages(Paper::Letter, TextSize::Standard, 635, &[9_999]);
    let [left, right] = &pages[..] else { panic!("two pages") };
    let (first, second) = (layer(left).boxes.last().unwrap(), layer(right).boxes.first().unwrap());
    assert_eq!((first.top(), first.bottom()), (second.top(), second.bottom()));
    assert_eq!(layer(right).cuts, [CutLine::Upright(second.left())]);
    let marks = |page: &Page, edge: Length| {
        let points = items(page).into_iter().filter_map(|item| match item {
            Item::Polygon { points, .. } => Some(points),
            _ => None,
        });
        points.map(|p| p.iter().map(|at| (at.x - edge, at.y)).collect::<Vec<_>>()).collect::<Vec<_>>()
    };
    let (ours, theirs) = (marks(left, first.right()), marks(right, second.left()));
    assert_eq!(ours.len(), 2);
    let mirrored: Vec<Vec<_>> = ours.iter().map(|p| p.iter().map(|(x, y)| (-*x, *y)).collect()).collect();
    assert_eq!(mirrored, theirs);
}

#[test]
fn the_ones_have_a_frame_of_two_rows_of_five_boxes_with_play_for_a_cube() {
    let pages = pages(Paper::A4, TextSize::Standard, 500, &[406]);
    let frames: Vec<_> = items(&pages[0])
        .into_iter()
        .filter_map(|item| match item {
            Item::Symbol { symbol, at } if symbol.items.len() == 10 && symbol.size.width > symbol.size.height => {
                Some((symbol, at))
            }
            _ => None,
        })
        .collect();
    let [(frame, at)] = &frames[..] else { panic!("one frame") };
    let Symbol { size, items } = &**frame;
    assert_eq!((size.width, size.height), (Length::mm(65), Length::mm(26)));
    assert!(items.iter().all(|item| matches!(item, Item::Rect { rect, .. } if rect.width() == Length::mm(13))));
    assert!(layer(&pages[0]).boxes[2].contains(Rect::new(*at, *size)));
}
