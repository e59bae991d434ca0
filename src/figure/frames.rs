//! Ten-frames: two rows of five boxes, filled from the left of the top row.

use super::sheet::{EDGE, cell, drawing, numeral};
use super::{Amounts, Finish};
use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Size};
use crate::number::Place;
use crate::sheets::page::ink::{HEAVY, OUTLINE, QUIET, tone};
use crate::sheets::page::{Item, Paint};
use crate::spec::Ink;
use crate::svg::Drawing;

/// More frames than ten are not seen at a glance.
const MOST: u32 = 100;

/// All pictures have one size of frames, and room for as many as the largest number fills.
pub fn draw(shown: &[Amounts], finish: &Finish<'_>) -> Result<Vec<Drawing>, Problem> {
    let most = shown.iter().map(|amounts| amounts.number().value()).max().unwrap_or(0);
    if most > MOST {
        let problem = Problem::new(format!("{most} is too large for ten-frames"));
        return Err(problem.hint(format!("they show numbers up to {MOST}; --form blocks goes further")));
    }
    let frames = i64::from(most.div_ceil(10).max(1));
    let across = match frames {
        1 => 1,
        2..=4 => 2,
        5..=6 => 3,
        _ => 5,
    };
    // Between frames there is the width of a box.
    let side = (finish.width - EDGE * 2).scaled(1, across * 6 - 1);
    let down = (frames + across - 1) / across;
    let size = Size::new(side * (across * 6 - 1) + EDGE * 2, side * (down * 3 - 1) + EDGE * 2);
    let fill = match finish.ink {
        Ink::Grey => QUIET,
        Ink::Colour => tone(finish.ink, Place::Ones).fill,
    };
    let draw = |amounts: &Amounts| {
        let value = i64::from(amounts.number().value());
        let count = ((value + 9) / 10).max(1);
        let mut items = Vec::new();
        for frame in 0..count {
            let corner = Point::new(EDGE + side * (frame % across * 6), EDGE + side * (frame / across * 3));
            items.extend(one(corner, side, (value - frame * 10).clamp(0, 10), fill));
        }
        drawing(size, format!("{} in ten-frames", numeral(amounts.number())), told(value), items)
    };
    Ok(shown.iter().map(draw).collect())
}

/// One frame with so many counters.
fn one(corner: Point, side: Length, counters: i64, fill: Paint) -> Vec<Item> {
    let boxes = (0..10).map(|k| corner.moved(side * (k % 5), side * (k / 5)));
    let boxes: Vec<Rect> = boxes.map(|corner| Rect::new(corner, Size::new(side, side))).collect();
    let mut items: Vec<Item> = boxes.iter().map(|rect| cell(*rect)).collect();
    let whole = Rect::new(corner, Size::new(side * 5, side * 2));
    items.push(Item::Rect { rect: whole, fill: None, stroke: Some(HEAVY) });
    let filled = boxes.iter().take(counters.index());
    items.extend(filled.map(|rect| Item::Circle {
        centre: rect.centre(),
        radius: side.scaled(36, 100),
        fill: Some(fill),
        stroke: Some(OUTLINE),
    }));
    items
}

/// What a listener hears.
fn told(value: i64) -> String {
    let (full, rest) = (value / 10, value % 10);
    let frames = |count: i64| format!("{count} ten-frame{}", if count == 1 { "" } else { "s" });
    match (full, rest) {
        (0, 0) => "1 empty ten-frame".to_owned(),
        (0, rest) => format!("1 ten-frame with {rest} of 10 boxes filled"),
        (full, 0) => format!("{}, filled", frames(full)),
        (full, rest) => format!("{}, filled, and one with {rest} of 10 boxes filled", frames(full)),
    }
}
