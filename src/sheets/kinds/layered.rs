//! The sheet *layered*: expanded-form cards that lie on top of each other and read as a numeral.
//!
//! In: the places that the lesson's range reaches. Out: a card for every digit from 1 to 9 of every place: 400 is three
//! pitches wide, 60 two, 2 one. Every digit stands in the middle of a pitch counted from the right edge, all at one height,
//! so cards with their right edges together read 462. Cards carry digits only: a comma would be covered by the next card.
//! A bar under every digit shows which way is up and tells 6 from 9.
//!
//! A row of the page holds whole sets (400, 40, 4), so all rows are alike and every cut runs from edge to edge.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink::HEAVY;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Face;
use crate::sheets::page::{CutLine, Item, Layer, Node, Page, Piece, Reader, Tag, Text};
use crate::spec::SheetKind;

const NOTE: &str = "Sit down to cut. Lay cards on top of each other, right edges together.";
/// One card a place for each of the digits 1 to 9.
const SETS: u32 = 9;

/// Lays the masters out. Fails when the digits do not fit at their least size, saying how large they would be.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Layered)?;
    let face = desk.face(layout, "digit")?;
    let (_, greatest) = desk.lesson.spec.numbers.range.value;
    let plan = plan(desk, layout, &face, greatest.len())?;
    let a_page = plan.columns * plan.rows;
    let pages = crate::sheets::page::grid::share(SETS, a_page, plan.columns);
    let mut first = 1;
    let mut masters = Vec::new();
    for sets in pages {
        masters.push(page(desk, layout, &plan, first..first + sets)?);
        first += sets;
    }
    Ok(masters)
}

/// How the cards stand on a page.
struct CardSheets {
    size: Size,
    /// How many places a set has.
    places: usize,
    /// Sets in a row.
    columns: u32,
    /// Rows on a full page.
    rows: u32,
    pitch: Length,
    high: Length,
    face: Face,
    /// From the top of a card to the base line of its digits.
    base: Length,
}

/// The width of a set, in pitches.
fn pitches(places: usize) -> i64 {
    let places = i64::try_from(places).unwrap_or(0);
    places * (places + 1) / 2
}

/// The fewest pages on which the digits can be read, then the largest digits.
fn plan(desk: &Desk<'_>, layout: &Layout, face: &Face, places: usize) -> Result<CardSheets, Problem> {
    let (bar, most) = (layout.length("bar")?, layout.length("most")?);
    let mut best: Option<(u32, CardSheets)> = None;
    let mut largest = Length::ZERO;
    for &turn in &layout.turns {
        let size = desk.page(turn);
        let body = headed(desk, layout, size)?.body;
        for columns in layout.grid.columns.0..=layout.grid.columns.1 {
            for rows in layout.grid.rows.0..=layout.grid.rows.1.min(SETS.div_ceil(columns)) {
                let pages = SETS.div_ceil(columns).div_ceil(rows);
                let cell = Size::new(
                    share(body.width(), pitches(places) * i64::from(columns)),
                    share(body.height(), i64::from(rows)).min(most),
                );
                let Some((em, base)) = digit(desk, layout, face, cell, bar) else { continue };
                largest = largest.max(em);
                let better =
                    |(fewest, plan): &(u32, CardSheets)| pages < *fewest || pages == *fewest && em > plan.face.size;
                if em >= face.least && best.as_ref().is_none_or(better) {
                    let (pitch, high) = (cell.width, cell.height);
                    best =
                        Some((pages, CardSheets { size, places, columns, rows, pitch, high, face: face.at(em), base }));
                }
            }
        }
    }
    best.map(|(_, plan)| plan).ok_or_else(|| {
        let places = crate::number::Place::ALL[places - 1].words();
        Problem::new(format!("cards up to the {places} do not fit at {:.0} pt", face.least.to_pt())).hint(format!(
            "the digits would be {:.0} pt: larger paper, standard text or a smaller `range` would fit",
            largest.to_pt()
        ))
    })
}

/// An equal share in whole hundredths of a millimetre.
fn share(room: Length, parts: i64) -> Length {
    Length::mm100(room.holds(Length::mm100(1)) / parts.max(1))
}

/// The largest type size at which every digit fits its part of a card, and its base line below the card's top; `None`
/// when there is no room at all.
fn digit(desk: &Desk<'_>, layout: &Layout, face: &Face, cell: Size, bar: Length) -> Option<(Length, Length)> {
    const DIGITS: &str = "0123456789";
    let font = desk.family.font(face.weight);
    // Digits of neighbouring cards must not look like one numeral.
    let fill = i64::from(layout.count("fill").ok()?);
    let room = Size::new(cell.width.scaled(fill, 100), cell.height - layout.padding * 2 - bar);
    let step = Length::pt100(50);
    let mut em = face.size;
    while em > Length::ZERO {
        let wide = DIGITS.chars().map(|digit| font.width(digit.encode_utf8(&mut [0; 4]), em)).max()?;
        let ink = font.ink(DIGITS, em, Point::ORIGIN)?;
        if wide <= room.width && ink.height() <= room.height {
            let spare = (room.height - ink.height()).half();
            return Some((em, layout.padding + spare - ink.top()));
        }
        em -= step;
    }
    None
}

fn headed(desk: &Desk<'_>, layout: &Layout, page: Size) -> Result<Headed, Problem> {
    let title = desk.lesson.wording().sheet_title(SheetKind::Layered);
    let head = Head { title, note: Some(NOTE), reader: Reader::Learner, name: false, code: true };
    head::lay(desk, desk.live(page, layout), &head)
}

/// One page with the sets of these digits.
fn page(desk: &Desk<'_>, layout: &Layout, plan: &CardSheets, digits: std::ops::Range<u32>) -> Result<Page, Problem> {
    let headed = headed(desk, layout, plan.size)?;
    let set = plan.pitch * pitches(plan.places);
    let width = set * i64::from(plan.columns);
    let left = headed.body.left() + (headed.body.width() - width).half();
    let top = headed.body.top();
    let rows = i64::from(digits.len().try_into().unwrap_or(SETS).div_ceil(plan.columns));
    let mut layer = Layer::default();

    let levels = (0..=rows).map(|row| top + plan.high * row);
    let mut uprights = vec![left];
    for place in (0..plan.columns).flat_map(|_| (1..=plan.places).rev()) {
        let last = uprights.last().copied().unwrap_or(left);
        uprights.push(last + plan.pitch * i64::try_from(place).unwrap_or(1));
    }
    let live = desk.live(plan.size, layout);
    let bottom = top + plan.high * rows;
    let ruled = |from: Point, to: Point| Item::Line { from, to, stroke: layout.cut };
    let mut lines = Vec::new();
    for y in levels {
        layer.cuts.push(CutLine::Level(y));
        lines.push(ruled(Point::new(live.left(), y), Point::new(live.right(), y)));
    }
    for x in uprights {
        layer.cuts.push(CutLine::Upright(x));
        lines.push(ruled(Point::new(x, top), Point::new(x, bottom)));
    }
    layer.nodes.push(Node::Artifact(lines));

    let first = digits.start;
    for digit in digits {
        let (row, column) = ((digit - first) / plan.columns, (digit - first) % plan.columns);
        let mut x = left + set * i64::from(column);
        for place in (1..=plan.places).rev() {
            let size = Size::new(plan.pitch * i64::try_from(place).unwrap_or(1), plan.high);
            let rect = Rect::new(Point::new(x, top + plan.high * i64::from(row)), size);
            let text = format!("{digit}{}", "0".repeat(place - 1));
            layer.nodes.extend(card(desk, layout, plan, &text, rect)?);
            layer.pieces.push(Piece { rect, name: format!("card {text}") });
            x += size.width;
        }
    }
    Ok(desk.finish(SheetKind::Layered, plan.size, layout.stock, headed, layer))
}

/// The digits of a card, each in the middle of its pitch, and the bars under them.
fn card(desk: &Desk<'_>, layout: &Layout, plan: &CardSheets, text: &str, rect: Rect) -> Result<[Node; 2], Problem> {
    let bar = rect.top() + plan.base + layout.length("bar")?;
    let font = desk.family.font(plan.face.weight);
    let side = (plan.pitch - plan.pitch.scaled(i64::from(layout.count("fill")?), 100)).half();
    let edge = Sides { left: side, right: side, top: layout.padding, bottom: layout.padding };
    let (mut digits, mut bars) = (Vec::new(), Vec::new());
    for (k, digit) in (0..).zip(text.chars()) {
        let corner = Point::new(rect.left() + plan.pitch * k, rect.top());
        let cell = Rect::new(corner, Size::new(plan.pitch, plan.high));
        let digit = digit.to_string();
        let x = cell.left() + (plan.pitch - font.width(&digit, plan.face.size)).half();
        digits.push(Node::Item(Item::Text(Text {
            at: Point::new(x, rect.top() + plan.base),
            size: plan.face.size,
            weight: plan.face.weight,
            text: digit,
            paint: plan.face.paint,
            reader: plan.face.reader,
            frame: cell.shrunk(edge),
        })));
        let inset = plan.pitch.scaled(1, 4);
        let (from, to) = (Point::new(cell.left() + inset, bar), Point::new(cell.right() - inset, bar));
        bars.push(Item::Line { from, to, stroke: HEAVY });
    }
    Ok([Node::Tagged(Tag::Paragraph, digits), Node::Artifact(bars)])
}
