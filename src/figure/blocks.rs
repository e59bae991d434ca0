//! Block pictures.

use super::sheet::{drawing, numeral, wording};
use super::{Amounts, Finish};
use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size};
use crate::number::{Number, Place};
use crate::sheets::blocks::geometry::{Blockwork, Counts, LEAST_UNIT};
use crate::sheets::blocks::picture::Pictures;
use crate::svg::Drawing;

/// All pictures have one unit: the largest at which the widest is as wide as asked, and none is higher than three quarters
/// of that, as on a slide.
pub fn draw(shown: &[Amounts], finish: &Finish<'_>) -> Result<Vec<Drawing>, Problem> {
    if let Some(large) = shown.iter().find(|amounts| amounts.number() > Number::MAX_BLOCKS) {
        let problem = Problem::new(format!("{} has no block picture", numeral(large.number())));
        return Err(problem.hint("block pictures go up to 9,999; --form chart shows larger numbers"));
    }
    let counts: Vec<Counts> = shown.iter().map(counts).collect();
    let fit =
        |width: Length| Blockwork::fit(&counts, Size::new(width, width.scaled(3, 4)), LEAST_UNIT, width.scaled(1, 12));
    let work = fit(finish.width).map_err(|_| {
        let problem = Problem::new(format!("the blocks cannot be counted in a picture {} wide", finish.width));
        let width = (1..200).map(|k| Length::mm(10 * k)).find(|width| *width > finish.width && fit(*width).is_ok());
        problem.hint(width.map_or_else(
            || "expected fewer blocks".to_owned(),
            |width| format!("expected --size \"{width}\" or more: the units are then at least {LEAST_UNIT}"),
        ))
    })?;
    let room = work.size();
    let pictures = Pictures::new(work, finish.ink, wording());
    let draw = |(amounts, counts): (&Amounts, &Counts)| {
        let items = pictures.items(*counts, Rect::new(Point::ORIGIN, room));
        drawing(room, format!("{amounts} in blocks"), wording().blocks_told(*counts), items)
    };
    Ok(shown.iter().zip(&counts).map(draw).collect())
}

/// How many thousands, flats, rods and cubes.
fn counts(amounts: &Amounts) -> Counts {
    [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones].map(|place| amounts.count(place))
}
