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

/// By how much a card is wider for each of its digits, and what every card has besides, at its right end.
fn pitch(cards: &BTreeMap<String, (Rect, Vec<Text>)>) -> (Length, Length) {
    let texts = |card: &str| cards[card].1.clone();
    let middle = |text: &Text| text.at.x + setup::family().bold.width(&text.text, text.size).half();
    let card = cards.keys().find(|shown| shown.len() == 2).map(|shown| texts(shown));
    let one = cards["1"].0.width();
    let pitch = card.map_or(one, |digits| middle(&digits[1]) - middle(&digits[0]));
    (pitch, one - pitch)
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
    let (pitch, tab) = pitch(&cards);
    let (pitch, tab) = (pitch.to_mm(), tab.to_mm());
    let base = stacked(&cards, "1")[0].2;
    // Where a numeral has a zero, the zero of a card below shows.
    for n in 100..=999 {
        let numeral = n.to_string();
        let seen = stacked(&cards, &numeral);
        assert_eq!(seen.iter().map(|(digit, ..)| *digit).collect::<String>(), numeral);
        for (k, (_, middle, line)) in seen.iter().enumerate() {
            let want = tab + pitch * (2.5 - f64::from(u32::try_from(k).unwrap()));
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
        let (pitch, tab) = pitch(&cards);
        for (shown, (rect, texts)) in &cards {
            assert_eq!(rect.width(), tab + pitch * i64::try_from(shown.len()).unwrap(), "{case}: {shown}");
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

/// Cards that share a cut do not run together into one numeral: across the cut their digits stand at least a quarter further
/// apart than any two digits of one card. Common practice in setting figures side by side, no source.
#[test]
fn digits_of_neighbouring_cards_stand_apart() {
    let font = setup::family().bold;
    let ink = |text: &Text| font.ink(&text.text, text.size, text.at).unwrap();
    for greatest in [99, 999, 9_999, 999_999] {
        for page in pages(Paper::Letter, TextSize::Standard, Length::mm100(635), greatest) {
            let cards = cards(std::slice::from_ref(&page));
            let within = |(_, texts): &(Rect, Vec<Text>)| {
                texts.windows(2).map(|pair| ink(&pair[1]).left() - ink(&pair[0]).right()).max()
            };
            let widest = cards.values().filter_map(within).max().unwrap();
            let mut met = 0;
            for (left, texts) in cards.values() {
                for (right, others) in cards.values() {
                    if right.left() == left.right() && right.top() == left.top() {
                        let across = ink(&others[0]).left() - ink(texts.last().unwrap()).right();
                        assert!(across * 4 >= widest * 5, "{greatest}: {} to {}", texts[0].text, others[0].text);
                        met += 1;
                    }
                }
            }
            assert!(met > 0, "{greatest}");
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
