//! What strips show: something on every one, clear of every cut.

use crate::support::packets::masters;
use crate::support::setup;
use placewright::measure::{Length, Rect, Sides};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{Item, Page};
use placewright::spec::{Paper, SheetKind};

/// A cut that runs off by a millimetre leaves half as much again. Common practice, no source.
const CLEAR: Length = Length::mm100(150);

/// The same where pictures are small enough to stand further off.
const ROOMY: Length = Length::mm100(230);

/// The edges of each block that is drawn on a page, its pen included, and of the frame of each text.
fn drawn(page: &Page) -> (Vec<Rect>, Vec<(String, Rect)>) {
    let (mut blocks, mut texts) = (Vec::new(), Vec::new());
    for node in page.layers.iter().flat_map(|layer| &layer.nodes) {
        node.each(&mut |item| match item {
            Item::Symbol { symbol, at } => {
                blocks.push(Rect::new(*at, symbol.size).grown(Sides::splat(Length::pt100(75).half())));
            }
            Item::Text(text) => texts.push((text.text.clone(), text.frame)),
            _ => {}
        });
    }
    (blocks, texts)
}

fn strips(numbers: &[u32], paper: Paper) -> Vec<Page> {
    let mut lesson = setup::plain(45, &[], &[numbers], &[]);
    lesson.spec.paper.value = paper;
    let (layouts, family) = (Layouts::read(&[]).unwrap(), setup::family());
    masters(&Desk::new(&lesson, &layouts, &family), SheetKind::Strips).unwrap()
}

#[test]
fn no_strip_is_blank_and_no_picture_is_at_a_cut() {
    let lessons: [&[u32]; 5] =
        [&[0, 3, 10, 12, 30], &[7, 21, 77, 95, 99], &[406, 460, 999, 830], &[5_083, 902, 1_470, 9_999], &[0, 1, 2]];
    for (numbers, paper) in lessons.into_iter().flat_map(|numbers| [(numbers, Paper::Letter), (numbers, Paper::A4)]) {
        let (mut blocks, mut nothing) = (0, 0);
        for page in strips(numbers, paper) {
            let (drawn, texts) = drawn(&page);
            for piece in &page.layers[0].pieces {
                let within: Vec<&Rect> = drawn.iter().filter(|block| piece.rect.overlaps(**block)).collect();
                let said: Vec<&str> =
                    texts.iter().filter(|(_, frame)| piece.rect.contains(*frame)).map(|(text, _)| &**text).collect();
                assert!(!within.is_empty() || !said.is_empty(), "{numbers:?}: {} is blank", piece.name);
                let roomy = numbers.iter().all(|number| *number < 100);
                let clear = piece.rect.shrunk(Sides::splat(if roomy { ROOMY } else { CLEAR }));
                let outside = within.iter().find(|block| !clear.contains(***block));
                assert_eq!(outside, None, "{numbers:?}: {} at {:?}", piece.name, piece.rect);
                blocks += within.len();
                nothing += usize::from(said.join(" ") == "no blocks");
            }
        }
        assert!(blocks > 0, "{numbers:?}");
        assert_eq!(nothing > 0, numbers.contains(&0), "{numbers:?}");
    }
}
