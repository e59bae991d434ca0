//! Place-value charts.

use super::sheet::{self, EDGE, boxed, cell, centred, counted, drawing, face, shade};
use super::{Amounts, Finish};
use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Sides, Size, Weight};
use crate::number::Place;
use crate::sheets::page::Item;
use crate::sheets::page::ink::{HEAVY, OUTLINE};
use crate::svg::Drawing;

/// Columns are at most a third of the width, so that a chart of ones is not a wall.
const FEWEST: i64 = 3;

/// All charts have the columns that the largest number needs.
pub fn draw(shown: &[Amounts], finish: &Finish<'_>) -> Result<Vec<Drawing>, Problem> {
    let places: Vec<Place> = Place::ALL[..shown.iter().map(Amounts::places).max().unwrap_or(1)].to_vec();
    let columns = places.len().narrow();
    let column = (finish.width - EDGE * 2).scaled(1, i64::from(columns).max(FEWEST));
    let side = Sides::splat(column.scaled(1, 24));

    let names: Vec<&str> = places.iter().map(|place| sheet::name(*place)).collect();
    let counts: Vec<String> =
        shown.iter().flat_map(|amounts| places.iter().map(|place| amounts.count(*place).to_string())).collect();
    let counts: Vec<&str> = counts.iter().map(String::as_str).collect();
    // Long names take two lines.
    let heading = column.scaled(if columns > 4 { 45 } else { 32 }, 100);
    let digits = column.scaled(85, 100);
    let name_room = Rect::new(Point::ORIGIN, Size::new(column, heading)).shrunk(side).size();
    let digit_room = Rect::new(Point::ORIGIN, Size::new(column, digits)).shrunk(side).size();
    let name = face(finish, &names, name_room, heading.scaled(60, 100), Weight::Bold)
        .or_else(|_| face(finish, &names, name_room, heading.scaled(60, 100), Weight::Regular))?;
    let digit = face(finish, &counts, digit_room, digits.scaled(90, 100), Weight::Bold)?;

    let size = Size::new(column * i64::from(columns) + EDGE * 2, heading + digits + EDGE * 2);
    let whole = Rect::new(Point::ORIGIN, size).shrunk(Sides::splat(EDGE));
    let draw = |amounts: &Amounts| {
        let mut items = Vec::new();
        for (k, place) in (0..).zip(places.iter().rev()) {
            let top = Rect::new(whole.origin().moved(column * k, Length::ZERO), Size::new(column, heading));
            let bottom = Rect::new(top.origin().moved(Length::ZERO, heading), Size::new(column, digits));
            items.extend([boxed(top, shade(finish.ink, *place), OUTLINE), cell(bottom)]);
            items.extend(centred(finish, sheet::name(*place), top.shrunk(side), &name)?);
            // A place that the number does not reach stays empty.
            if place.index() < amounts.places() {
                items.extend(centred(finish, &amounts.count(*place).to_string(), bottom.shrunk(side), &digit)?);
            }
        }
        items.push(Item::Rect { rect: whole, fill: None, stroke: Some(HEAVY) });
        let told = Place::ALL[..amounts.places()].iter().rev().map(|place| counted(amounts.count(*place), *place));
        let instead = format!("place-value chart: {}", told.collect::<Vec<_>>().join(", "));
        Ok(drawing(size, format!("{amounts} on a chart"), instead, items))
    };
    shown.iter().map(draw).collect()
}
