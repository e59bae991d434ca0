//! The sheet *layered*: cards stacked with their right edges together read as the numeral, to a tenth of a millimetre.

use crate::support::packets::masters;
use crate::support::setup;
use std::collections::BTreeMap;

use placewright::measure::{Length, Point, Rect, Sides};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{CutLine, Item, Node, Page, Text};
use placewright::spec::{Given, Paper, SheetKind, TextSize};

fn pages(paper: Paper, text: TextSize, margin: Length, greatest: u32) -> Vec<Page> {
    // Numbers that show every digit in every place.
    let ones = greatest / 9;
    let numbers: Vec<u32> = (1..=9).map(|digit| digit * ones).collect();
    let mut lesson = setup::only(SheetKind::Layered, paper, &[], &[&numbers]);
    lesson.spec.print.text = Given::assumed(text);
    lesson.spec.print.margin = Given::assumed(margin);
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    let desk = Desk::new(&lesson, &layouts, &family);
    masters(&desk, SheetKind::Layered).unwrap_or_else(|problem| panic!("{paper:?} {problem:?}"))
}

/// Each card's edges and its digits, by what it shows.
fn cards(pages: &[Page]) -> BTreeMap<String, (Rect, Vec<Text>)> {
    fn walk(nodes: &[Node], texts: &mut Vec<Text>) {
        for node in nodes {
            match node {
                Node::Tagged(_, inner) => walk(inner, texts),
                Node::Item(Item::Text(text)) => texts.push(text.clone()),
                _ => {}
            }
        }
    }
    let mut cards = BTreeMap::new();
    for layer in pages.iter().flat_map(|page| &page.layers) {
        let mut texts = Vec::new();
        walk(&layer.nodes, &mut texts);
        for piece in &layer.pieces {
            let inside: Vec<Text> = texts.iter().filter(|text| piece.rect.contains(text.frame)).cloned().collect();
            let shown: String = inside.iter().map(|text| &*text.text).collect();
            assert_eq!(piece.name, format!("card {shown}"));
            assert!(cards.insert(shown, (piece.rect, inside)).is_none(), "{} twice", piece.name);
        }
    }
    cards
}

/// What is seen of cards stacked with their right edges together, largest at the bottom: each digit with the middle of
/// its advance and its base line, from the right edge and the top.
fn stacked(cards: &BTreeMap<String, (Rect, Vec<Text>)>, numeral: &str) -> Vec<(char, f64, f64)> {
    let font = setup::family().bold;
    let mut seen: Vec<(char, f64, f64)> = Vec::new();
    for (k, digit) in numeral.chars().enumerate().filter(|(_, digit)| *digit != '0') {
        let (rect, texts) = &cards[&format!("{digit}{}", "0".repeat(numeral.len() - 1 - k))];
        // The card hides whatever lies under it.
        seen.retain(|(_, middle, _)| *middle > rect.width().to_mm());
        for text in texts {
            let middle = text.at.x + font.width(&text.text, text.size).half();
            let digit = text.text.chars().next().unwrap();
            seen.push((digit, (rect.right() - middle).to_mm(), (text.at.y - rect.top()).to_mm()));
        }
    }
    seen
}

#[test]
fn every_numeral_is_read_off_its_stack() {
    let cards = cards(&pages(Paper::Letter, TextSize::Standard, Length::mm100(635), 999));
    assert_eq!(cards.len(), 27);
    let pitch = cards["1"].0.width().to_mm();
    let base = stacked(&cards, "1")[0].2;
    // Where a numeral has a zero, the zero of a card below shows.
    for n in 100..=999 {
        let numeral = n.to_string();
        let seen = stacked(&cards, &numeral);
        assert_eq!(seen.iter().map(|(digit, ..)| *digit).collect::<String>(), numeral);
        for (k, (_, middle, line)) in seen.iter().enumerate() {
            let want = pitch * (2.5 - f64::from(u32::try_from(k).unwrap()));
            assert!((middle - want).abs() < 0.1 && (line - base).abs() < 0.1, "{n}: {seen:?}, pitch {pitch}");
        }
    }
}

#[test]
fn sets_fit_every_paper_at_both_text_sizes_for_one_to_six_places() {
    for (paper, text, margin, places) in Paper::ALL.into_iter().flat_map(|paper| {
        [TextSize::Standard, TextSize::Large].into_iter().flat_map(move |text| {
            [635, 1270].into_iter().flat_map(move |margin| (1..=6).map(move |places| (paper, text, margin, places)))
        })
    }) {
        let case = format!("{paper:?} {text:?} {margin} {places}");
        let pages = pages(paper, text, Length::mm100(margin), 10_u32.pow(places) - 1);
        let cards = cards(&pages);
        assert_eq!(cards.len(), 9 * usize::try_from(places).unwrap(), "{case}");
        let pitch = cards["1"].0.width();
        for (shown, (rect, texts)) in &cards {
            assert_eq!(rect.width(), pitch * i64::try_from(shown.len()).unwrap(), "{case}: {shown}");
            assert_eq!(rect.height(), cards["1"].0.height(), "{case}: {shown}");
            let font = setup::family().bold;
            for text in texts {
                let ink = font.ink(&text.text, text.size, text.at).unwrap();
                assert!(text.frame.contains(ink), "{case}: {shown} spills");
                assert!(text.size >= Length::pt(if places < 4 { 70 } else { 36 }), "{case}: {:?}", text.size);
            }
        }
        for page in &pages {
            let printable = Rect::new(Point::ORIGIN, page.size).shrunk(Sides::splat(Length::mm100(margin)));
            let layer = &page.layers[0];
            for piece in &layer.pieces {
                assert!(printable.contains(piece.rect), "{case}");
                let edges = [CutLine::Upright(piece.rect.left()), CutLine::Upright(piece.rect.right())];
                assert!(edges.iter().all(|edge| layer.cuts.contains(edge)), "{case}: {piece:?}");
                assert!(layer.cuts.iter().all(|cut| match *cut {
                    CutLine::Level(y) => y <= piece.rect.top() || y >= piece.rect.bottom(),
                    CutLine::Upright(x) => x <= piece.rect.left() || x >= piece.rect.right(),
                }));
            }
        }
    }
}

/// There is a card for each digit that a number of the lesson shows in a place, and no other.
#[test]
fn only_what_the_numbers_need_is_made() {
    let lesson = setup::only(SheetKind::Layered, Paper::Letter, &[406], &[&[460, 46]]);
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    let cards = cards(&masters(&Desk::new(&lesson, &layouts, &family), SheetKind::Layered).unwrap());
    assert_eq!(cards.keys().map(String::as_str).collect::<Vec<_>>(), ["40", "400", "6", "60"]);
}
