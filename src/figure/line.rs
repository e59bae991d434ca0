//! Number lines: where a number lies between its neighbours with one digit and zeros.

use super::sheet::{EDGE, centred, drawing, face, numeral};
use super::{Amounts, Finish};
use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size, Weight};
use crate::number::{Number, Place};
use crate::sheets::page::ink::{HEAVY, OUTLINE, tone};
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Paint};
use crate::spec::Ink;
use crate::svg::Drawing;

/// How many parts a line has.
const PARTS: u32 = 10;

/// The two ends of a number's line: 400 and 500 for 406, 0 and 10 for 7.
fn ends(number: Number) -> (u32, u32) {
    let step = Place::ALL[number.len() - 1].worth().max(10);
    let start = number.value() / step * step;
    (start, start + step)
}

/// A mark of a line as it is written; the last may be a million.
fn mark(value: u32) -> String {
    Number::new(value).map_or_else(|| "1,000,000".to_owned(), numeral)
}

/// All lines have one length, and type of one size.
pub fn draw(shown: &[Amounts], finish: &Finish<'_>) -> Result<Vec<Drawing>, Problem> {
    let width = finish.width;
    let side = width.scaled(7, 100);
    let part = (width - side * 2).scaled(1, i64::from(PARTS));
    let tick = width.scaled(1, 50);
    let rows = [width.scaled(8, 100), width.scaled(4, 100), tick * 2, width.scaled(6, 100)];
    let marks: Vec<Vec<String>> = shown.iter().map(|amounts| marks(ends(amounts.number()))).collect();
    let all: Vec<&str> = marks.iter().flatten().map(String::as_str).collect();
    let small = face(finish, &all, Size::new(part.scaled(92, 100), rows[3]), rows[3].scaled(70, 100), Weight::Regular)?;
    let names: Vec<String> = shown.iter().map(|amounts| numeral(amounts.number())).collect();
    let named: Vec<&str> = names.iter().map(String::as_str).collect();
    let big = face(finish, &named, Size::new(width.scaled(1, 4), rows[0]), rows[0].scaled(90, 100), Weight::Bold)?;

    let size = Size::new(width, rows.into_iter().sum::<Length>() + EDGE * 2);
    let line = Line { finish, side, part, tick, axis: EDGE + rows[0] + rows[1] + tick, rows, small, big };
    let draw = |(amounts, marks): (&Amounts, &Vec<String>)| {
        let number = amounts.number();
        let (from, to) = ends(number);
        let step = (to - from) / PARTS;
        let mut items = line.axis(marks)?;
        items.extend(line.pointer(number, from, to)?);
        let name = numeral(number);
        let instead = format!(
            "number line from {} to {}, a mark every {}; an arrow shows {name}",
            mark(from),
            mark(to),
            mark(step)
        );
        Ok(drawing(size, format!("{name} on a number line"), instead, items))
    };
    shown.iter().zip(&marks).map(draw).collect()
}

/// What stands at the eleven marks.
fn marks((from, to): (u32, u32)) -> Vec<String> {
    (0..=PARTS).map(|k| mark(from + (to - from) / PARTS * k)).collect()
}

struct Line<'a> {
    finish: &'a Finish<'a>,
    /// From the edge of the picture to the first mark, and from the last to the other edge.
    side: Length,
    part: Length,
    /// Half as high as a mark.
    tick: Length,
    /// The height of the line.
    axis: Length,
    rows: [Length; 4],
    small: Face,
    big: Face,
}

impl Line<'_> {
    /// The line with its marks and their numbers, and a tip at each end, because numbers go on.
    fn axis(&self, marks: &[String]) -> Result<Vec<Item>, Problem> {
        let (left, right) = (EDGE, self.finish.width - EDGE);
        let at = |x: Length, dy: Length| Point::new(x, self.axis + dy);
        let tip = self.tick.scaled(2, 3);
        let mut items = vec![Item::Line { from: at(left, Length::ZERO), to: at(right, Length::ZERO), stroke: HEAVY }];
        for (end, inward) in [(left, tip), (right, -tip)] {
            let points = vec![at(end, Length::ZERO), at(end + inward, -tip.half()), at(end + inward, tip.half())];
            items.push(Item::Polygon { points, fill: Some(Paint::BLACK), stroke: None });
        }
        for (k, text) in (0..).zip(marks) {
            let x = self.side + self.part * k;
            // The ends and the middle are longer.
            let (half, stroke) = if k % 5 == 0 { (self.tick, HEAVY) } else { (self.tick.scaled(2, 3), OUTLINE) };
            items.push(Item::Line { from: at(x, -half), to: at(x, half), stroke });
            let room = Size::new(self.part, self.rows[3]);
            let frame = Rect::new(at(x - self.part.half(), self.tick), room);
            items.extend(centred(self.finish, text, frame, &self.small)?);
        }
        Ok(items)
    }

    /// The number over an arrow whose point is exactly at its place.
    fn pointer(&self, number: Number, from: u32, to: u32) -> Result<Vec<Item>, Problem> {
        let along = (self.part * i64::from(PARTS)).scaled(i64::from(number.value() - from), i64::from(to - from));
        let x = self.side + along;
        let (top, half) = (EDGE + self.rows[0], self.rows[1].half());
        let point = Point::new(x, self.axis - self.tick.scaled(1, 3));
        let points = vec![Point::new(x - half, top), Point::new(x + half, top), point];
        let fill = match self.finish.ink {
            Ink::Grey => Paint::BLACK,
            Ink::Colour => tone(self.finish.ink, Place::ALL[number.len() - 1]).fill,
        };
        let mut items = vec![Item::Polygon { points, fill: Some(fill), stroke: Some(OUTLINE) }];
        let room = Size::new(self.finish.width.scaled(1, 4), self.rows[0]);
        let left = (x - room.width.half()).max(EDGE).min(self.finish.width - EDGE - room.width);
        // At an end of the line the number moves in, as far as it must to stay in the picture.
        let text = numeral(number);
        let needed = self.finish.family.font(self.big.weight).width(&text, self.big.size);
        let middle = x.max(EDGE + needed.half()).min(self.finish.width - EDGE - needed.half());
        let frame = Rect::new(Point::new(left, EDGE), room);
        let moved = middle - frame.centre().x;
        items.extend(centred(self.finish, &text, frame.moved(moved, Length::ZERO), &self.big)?);
        Ok(items)
    }
}
