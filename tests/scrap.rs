//! What is thrown away when a page has been cut apart looks the same on every sheet, and the page says so.

use crate::support::packets::{masters, texts};
use crate::support::setup;
use placewright::lesson::Lesson;
use placewright::measure::{Length, Point, Rect};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{CutLine, Item, Page, Snip};
use placewright::spec::SheetKind;

/// The slanted lines of a page.
fn stripes(page: &Page) -> Vec<Rect> {
    let mut found = Vec::new();
    for node in page.layers.iter().flat_map(|layer| &layer.nodes) {
        node.each(&mut |item| {
            if let Item::Line { from, to, .. } = item
                && from.x != to.x
                && from.y != to.y
            {
                found.push(Rect::between(*from, *to));
            }
        });
    }
    found
}

/// What the cuts of a page leave between them: full cuts first, then those across a strip of the page.
fn cells(page: &Page) -> Vec<Rect> {
    let layer = &page.layers[0];
    let (mut levels, mut uprights): (Vec<Length>, Vec<Length>) = Default::default();
    for cut in &layer.cuts {
        match *cut {
            CutLine::Level(y) => levels.push(y),
            CutLine::Upright(x) => uprights.push(x),
        }
    }
    levels.sort_unstable();
    let rows = levels.windows(2).flat_map(|row| {
        let across = |snip: &&Snip| snip.from.x == snip.to.x && snip.from.y <= row[0] && snip.to.y >= row[1];
        let mut here: Vec<Length> = uprights.clone();
        here.extend(layer.snips.iter().filter(across).map(|snip| snip.from.x));
        here.sort_unstable();
        let cell = |ends: &[Length]| Rect::between(Point::new(ends[0], row[0]), Point::new(ends[1], row[1]));
        here.windows(2).map(cell).collect::<Vec<_>>()
    });
    rows.collect()
}

fn pages(lesson: &Lesson, kind: SheetKind) -> Vec<Page> {
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    masters(&Desk::new(lesson, &layouts, &family), kind).unwrap()
}

#[test]
fn what_cuts_leave_is_a_piece_or_striped_and_the_page_says_so() {
    let (mut striped_pages, mut plain_pages) = (0, 0);
    let lessons: [&[u32]; 4] =
        [&[406, 460, 46], &[111, 222, 333, 444, 555, 666, 777, 888, 999], &[10, 20, 31, 44, 75], &[5_083, 902, 1_470]];
    for numbers in lessons {
        for kind in [SheetKind::Layered, SheetKind::Strips] {
            for page in pages(&setup::plain(45, &[], &[numbers], &[]), kind) {
                let (stripes, pieces) = (stripes(&page), &page.layers[0].pieces);
                for cell in cells(&page) {
                    let piece = pieces.iter().any(|piece| piece.rect == cell);
                    let striped = stripes.iter().any(|stripe| cell.contains(*stripe));
                    assert!(piece != striped, "{numbers:?}: {} has {cell:?}", page.name);
                }
                let said = texts([&page]).join(" ").contains("Striped parts are scrap.");
                assert_eq!(said, !stripes.is_empty(), "{numbers:?}: {}", page.name);
                *(if said { &mut striped_pages } else { &mut plain_pages }) += 1;
            }
        }
    }
    assert!(striped_pages > 2 && plain_pages > 0, "{striped_pages} {plain_pages}");
}
