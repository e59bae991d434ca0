//! The cards of an expanded form: apart, right edges together, and below them laid on top of each other.

use super::sheet::{EDGE, boxed, centred, drawing, face, numeral};
use super::{Amounts, Finish};
use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Size, Weight};
use crate::number::Place;
use crate::sheets::page::Item;
use crate::sheets::page::ink::{HEAVY, tone};
use crate::sheets::page::text::Face;
use crate::svg::Drawing;

/// A digit's part of a card is at most a third of the width.
const FEWEST: i64 = 3;

/// The cards of all numbers have one size of digits.
pub fn draw(shown: &[Amounts], finish: &Finish<'_>) -> Result<Vec<Drawing>, Problem> {
    if shown.iter().any(|amounts| amounts.number().value() == 0) {
        return Err(Problem::new("0 has no cards").hint("a card shows what a digit from 1 to 9 is worth"));
    }
    let longest = shown.iter().map(Amounts::places).max().unwrap_or(1);
    let pitches = longest.wide();
    let rows = |amounts: &Amounts| match cards(amounts).len().wide() {
        // One card alone reads as the number already.
        1 => 1,
        cards => cards + 1,
    };
    let most = shown.iter().map(rows).max().unwrap_or(1);
    // A card is five quarters of a pitch high, and a quarter lies between two; all of it is no higher than on a slide.
    let wide = (finish.width - EDGE * 2).scaled(1, pitches.max(FEWEST));
    let pitch = wide.min((finish.width.scaled(3, 4) - EDGE * 2).scaled(4, most * 6 - 1));
    let (high, gap) = (pitch.scaled(5, 4), pitch.scaled(1, 4));
    let face = face(finish, &["8"], Size::new(pitch.scaled(82, 100), high.scaled(82, 100)), pitch, Weight::Bold)?;
    let size = Size::new(pitch * pitches + EDGE * 2, (high + gap) * most - gap + EDGE * 2);
    let deck = Deck { finish, face, pitch, high, right: size.width - EDGE };
    let draw = |amounts: &Amounts| {
        let cards = cards(amounts);
        let mut items = Vec::new();
        let mut top = EDGE;
        for card in &cards {
            items.extend(deck.card(*card, top)?);
            top += high + gap;
        }
        if cards.len() > 1 {
            for card in &cards {
                items.extend(deck.card(*card, top)?);
            }
        }
        let number = numeral(amounts.number());
        let names: Vec<String> =
            cards.iter().map(|(place, digit)| (u32::from(*digit) * place.worth()).to_string()).collect();
        let instead = if let [only] = names.as_slice() {
            format!("the card {only}")
        } else {
            format!("the cards {}, and the same laid on top of each other: {number}", names.join(", "))
        };
        Ok(drawing(size, format!("{number} in layered cards"), instead, items))
    };
    shown.iter().map(draw).collect()
}

/// The cards of a number from the greatest place down: one for each digit that is not 0.
fn cards(amounts: &Amounts) -> Vec<(Place, u8)> {
    amounts.number().parts().collect()
}

struct Deck<'a> {
    finish: &'a Finish<'a>,
    face: Face,
    pitch: Length,
    high: Length,
    /// Where the right edges of all cards are.
    right: Length,
}

impl Deck<'_> {
    /// One card: a digit, and a zero for every place below it, each in the middle of its pitch.
    fn card(&self, (place, digit): (Place, u8), top: Length) -> Result<Vec<Item>, Problem> {
        let digits = place.index().wide() + 1;
        let left = self.right - self.pitch * digits;
        let rect = Rect::new(Point::new(left, top), Size::new(self.pitch * digits, self.high));
        let mut items = vec![boxed(rect, tone(self.finish.ink, place).fill, HEAVY)];
        for k in 0..digits {
            let frame = Rect::new(rect.origin().moved(self.pitch * k, Length::ZERO), Size::new(self.pitch, self.high));
            let text = if k == 0 { digit.to_string() } else { "0".to_owned() };
            items.extend(centred(self.finish, &text, frame, &self.face)?);
        }
        Ok(items)
    }
}
