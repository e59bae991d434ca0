//! The sheet *layered*: expanded-form cards that lie on top of each other and read as a numeral.
//!
//! In: the numbers that are built and matched. Out: a card for every digit that one of them shows in a place: 400 is three
//! pitches and a tab wide, 60 two, 2 one. The tab is the blank right end, as wide on every card: digits of neighbouring
//! cards stay apart across one cut, and there is something to hold a stack by. Every digit stands in the middle of a pitch
//! counted from the tab, all at one height, so cards with their right edges together read 462. Cards carry digits only: a
//! comma would be covered by the next card. A bar under every digit shows which way is up and tells 6 from 9.
//!
//! A row of the page holds whole sets (400, 40, 4), so all rows are alike and every cut runs from edge to edge. A set
//! need not show one digit in all its places: the digits of each place follow one another.

use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::number::Place;
use crate::sheets::kinds::supply::{Suit, Supply};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::share;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink::HEAVY;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::scrap;
use crate::sheets::page::text::Face;
use crate::sheets::page::{CutLine, Item, Layer, Node, Page, Piece, Reader, Tag, Text};
use crate::spec::SheetKind;
use crate::wording::ticket::PiecesCut;
use std::sync::Arc;

/// Digits are not made smaller than this to get more kits on a page.
const CLEAR: Length = Length::pt(48);

/// A card for each place, the highest first; `None` where every digit of a place has its card.
type CardSet = Vec<Option<u32>>;

/// Lays the masters out. Fails when the digits do not fit at their least size, saying how large they would be.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Layered)?;
    let sets = sets(desk);
    let plan = plan(desk, layout, &sets, 1)?;
    masters(desk, layout, &plan, &sets)
}

/// The pages of one kit.
fn masters(desk: &Desk<'_>, layout: &Layout, plan: &CardSheets, sets: &[CardSet]) -> Result<Vec<Page>, Problem> {
    let note = desk.lesson.wording().layered_note(None);
    let mut left = sets;
    let mut masters = Vec::new();
    for count in plan.shares(sets) {
        let (here, rest) = left.split_at(count.index().min(left.len()));
        left = rest;
        masters.push(page(desk, layout, plan, &note, &[here])?);
    }
    Ok(masters)
}

/// The sheets for so many kits, before they are drawn: several kits on a page where their digits stay clear.
#[derive(Debug, Clone)]
pub struct CardSupply {
    plan: CardSheets,
    sets: Vec<CardSet>,
    kits: u32,
    /// How many kits a page holds; 1 also where a kit takes several pages.
    together: u32,
}

/// Plans the sheets for so many kits. Fails where [`lay`] does.
pub fn supply(desk: &Desk<'_>, kits: u32) -> Result<CardSupply, Problem> {
    let layout = desk.layout(SheetKind::Layered)?;
    let sets = sets(desk);
    let shared = plan(desk, layout, &sets, kits)?;
    let rows = sets.len().narrow().div_ceil(shared.columns);
    let together = (shared.rows / rows).min(kits).max(1);
    let plan = if together > 1 { shared } else { plan(desk, layout, &sets, 1)? };
    Ok(CardSupply { plan, sets, kits, together })
}

impl CardSupply {
    /// How many sheets of card.
    pub fn leaves(&self) -> usize {
        match self.together {
            1 => self.plan.shares(&self.sets).len() * self.kits.index(),
            together => self.kits.div_ceil(together).index(),
        }
    }

    /// The sheets: pages that look the same are one.
    pub fn draw(&self, desk: &Desk<'_>) -> Result<Supply, Problem> {
        let layout = desk.layout(SheetKind::Layered)?;
        let (sets, together) = (&self.sets, self.together);
        if together == 1 {
            let masters = masters(desk, layout, &self.plan, sets)?;
            return Ok(Supply { pages: masters.into_iter().map(|page| (page, self.kits.index())).collect() });
        }
        let rows = sets.len().narrow().div_ceil(self.plan.columns);
        let note = desk.lesson.wording().layered_note(Some(rows));
        let (full, last) = (self.kits / together, self.kits % together);
        let mut pages = Vec::new();
        for (count, times) in [(together, full), (last, 1)] {
            if count > 0 && times > 0 {
                let kits = vec![sets.as_slice(); count.index()];
                pages.push((page(desk, layout, &self.plan, &note, &kits)?, times.index()));
            }
        }
        Ok(Supply { pages })
    }
}

/// The cards of each place for the guillotine, one size a place, the widest first.
pub fn suits<'d>(desk: &'d Desk<'_>) -> Result<Vec<Suit<'d>>, Problem> {
    let layout = desk.layout(SheetKind::Layered)?;
    let sets = sets(desk);
    let plan = Arc::new(plan(desk, layout, &sets, 1)?);
    let suit = |(k, place): (usize, usize)| {
        let texts: Vec<String> =
            sets.iter().filter_map(|set| set.get(k).copied().flatten()).map(|d| text(d, place)).collect();
        let size = Size::new(plan.wide(place), plan.high);
        let (names, plan) = (texts.iter().map(|text| desk.lesson.wording().card(text)).collect(), Arc::clone(&plan));
        let draw = move |piece: usize, rect: Rect| match texts.get(piece) {
            Some(text) => card(desk, layout, &plan, text, rect).map(Vec::from),
            None => Ok(Vec::new()),
        };
        Suit {
            kind: SheetKind::Layered,
            what: PiecesCut::Cards(Place::ALL[place - 1]),
            size,
            names,
            stock: layout.stock,
            draw: Box::new(draw),
        }
    };
    Ok((0..plan.places).zip((1..=plan.places).rev()).map(suit).filter(|suit| !suit.names.is_empty()).collect())
}

/// What a card shows.
fn text(digit: u32, place: usize) -> String {
    format!("{digit}{}", "0".repeat(place - 1))
}

/// The sets of one kit: enough to build each of the model and sort numbers, one at a time. A lesson without these gets
/// all digits.
fn sets(desk: &Desk<'_>) -> Vec<CardSet> {
    let places = desk.lesson.card_places().unwrap_or_else(|| desk.lesson.greatest().len());
    let digits = |place: Place| desk.lesson.card_digits(place);
    let columns: Vec<Vec<u32>> = Place::ALL.into_iter().take(places).rev().map(digits).collect();
    let count = columns.iter().map(Vec::len).max().unwrap_or(0).max(1);
    (0..count).map(|k| columns.iter().map(|column| column.get(k).copied()).collect()).collect()
}

/// How the cards stand on a page.
#[derive(Debug, Clone)]
struct CardSheets {
    size: Size,
    /// How many places a set has.
    places: usize,
    /// Sets in a row.
    columns: u32,
    /// Rows on a full page.
    rows: u32,
    pitch: Length,
    /// What every card has at the right of its digits.
    tab: Length,
    high: Length,
    face: Face,
    /// From the top of a card to the base line of its digits.
    base: Length,
}

impl CardSheets {
    /// How wide a card of so many digits is.
    fn wide(&self, digits: usize) -> Length {
        self.pitch * digits.wide() + self.tab
    }

    /// How wide a set is.
    fn set(&self) -> Length {
        (1..=self.places).map(|digits| self.wide(digits)).sum()
    }

    /// How many sets each page of a kit has.
    fn shares(&self, sets: &[CardSet]) -> Vec<u32> {
        share(sets.len().narrow(), self.columns * self.rows, self.columns)
    }
}

/// The digits of a set: it is so many pitches wide without its tabs.
fn pitches(places: usize) -> i64 {
    let places = places.wide();
    places * (places + 1) / 2
}

/// The fewest pages for so many kits on which the digits can be read, then the largest digits.
fn plan(desk: &Desk<'_>, layout: &Layout, sets: &[CardSet], kits: u32) -> Result<CardSheets, Problem> {
    let face = desk.face(layout, "digit")?;
    let (bar, most) = (layout.length("bar")?, layout.length("most")?);
    let tab = i64::from(layout.count("tab")?);
    let (count, places) = (sets.len().narrow(), sets.first().map_or(1, Vec::len));
    let mut best: Option<(u32, CardSheets)> = None;
    let mut largest = Length::ZERO;
    for &turn in &layout.turns {
        let size = desk.page(turn);
        // What is said where there is scrap takes the most room.
        let body = |rows: Option<u32>| {
            let note = scrap::note(desk, &desk.lesson.wording().layered_note(rows), true);
            Ok(headed(desk, layout, size, &note)?.body)
        };
        let (alone, shared) = (body(None)?, body(Some(layout.grid.rows.1))?);
        for columns in layout.grid.columns.0..=layout.grid.columns.1 {
            let kit = count.div_ceil(columns);
            let together = if kits > 1 { layout.grid.rows.1 } else { layout.grid.rows.1.min(kit) };
            for rows in layout.grid.rows.0..=together {
                let here = rows / kit;
                let body = if here > 1 { shared } else { alone };
                let pages = if here > 1 { kits.div_ceil(here) } else { kit.div_ceil(rows) * kits };
                // A set in hundredths of a pitch.
                let set = pitches(places) * 100 + tab * places.wide();
                let cell = Size::new(
                    equal(body.width() * 100, set * i64::from(columns)),
                    equal(body.height(), i64::from(rows)).min(most),
                );
                let Some((em, base)) = digit(desk, layout, &face, cell, bar) else { continue };
                largest = largest.max(em);
                let better =
                    |(fewest, plan): &(u32, CardSheets)| pages < *fewest || pages == *fewest && em > plan.face.size;
                let least = if here > 1 { face.least.max(CLEAR) } else { face.least };
                if em >= least && best.as_ref().is_none_or(better) {
                    let (pitch, high) = (cell.width, cell.height);
                    let (tab, face) = (equal(pitch * tab, 100), face.at(em));
                    best = Some((pages, CardSheets { size, places, columns, rows, pitch, tab, high, face, base }));
                }
            }
        }
    }
    best.map(|(_, plan)| plan).ok_or_else(|| {
        let places = desk.lesson.wording().place(Place::ALL[places - 1]);
        Problem::new(format!("cards up to the {places} do not fit at {:.0} pt", face.least.to_pt())).hint(format!(
            "the digits would be {:.0} pt: larger paper, standard text or a smaller `range` would fit",
            largest.to_pt()
        ))
    })
}

/// An equal share in whole hundredths of a millimetre.
fn equal(room: Length, parts: i64) -> Length {
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
    let spare = |em: Length| {
        let wide = DIGITS.chars().map(|digit| font.width(digit.encode_utf8(&mut [0; 4]), em)).max()?;
        let ink = font.ink(DIGITS, em, Point::ORIGIN)?;
        let spare = (room.height - ink.height()).half();
        (wide <= room.width && ink.height() <= room.height).then(|| layout.padding + spare - ink.top())
    };
    // Whether digits fit changes once, as they get smaller.
    let (mut fewest, mut most) = (0, face.size.holds(step));
    while fewest < most {
        let steps = fewest.midpoint(most);
        if spare(face.size - step * steps).is_some() { most = steps } else { fewest = steps + 1 }
    }
    let em = face.size - step * fewest;
    (em > Length::ZERO).then(|| Some((em, spare(em)?))).flatten()
}

fn headed(desk: &Desk<'_>, layout: &Layout, page: Size, note: &str) -> Result<Headed, Problem> {
    let title = desk.lesson.wording().sheet_title(SheetKind::Layered);
    let head = Head { title, note: Some(note), reader: Reader::Learner, code: true, goal: None };
    // The pen of the outermost cuts stays inside what the printer reaches.
    let live = desk.live(page, layout).shrunk(Sides::splat(layout.cut.width.half()));
    head::lay(desk, live, &head)
}

/// One page with these kits, each beginning in a row of its own.
fn page(desk: &Desk<'_>, layout: &Layout, plan: &CardSheets, note: &str, kits: &[&[CardSet]]) -> Result<Page, Problem> {
    let across = plan.columns.index();
    let rows: Vec<&[CardSet]> = kits.iter().flat_map(|sets| sets.chunks(across)).collect();
    let blank = |row: &[CardSet]| row.len() < across || row.iter().flatten().any(Option::is_none);
    let note = scrap::note(desk, note, rows.iter().any(|row| blank(row)));
    let headed = headed(desk, layout, plan.size, &note)?;
    let width = plan.set() * i64::from(plan.columns);
    let left = headed.body.left() + (headed.body.width() - width).half();
    let top = headed.body.top();
    let count = rows.len().wide();
    let mut layer = Layer::default();

    let levels = (0..=count).map(|row| top + plan.high * row);
    let mut uprights = vec![left];
    for place in (0..plan.columns).flat_map(|_| (1..=plan.places).rev()) {
        let last = uprights.last().copied().unwrap_or(left);
        uprights.push(last + plan.wide(place));
    }
    let live = desk.live(plan.size, layout);
    let bottom = top + plan.high * count;
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

    for (row, sets) in (0..).zip(rows) {
        let mut x = left;
        for set in 0..across {
            for (k, place) in (1..=plan.places).rev().enumerate() {
                let size = Size::new(plan.wide(place), plan.high);
                let rect = Rect::new(Point::new(x, top + plan.high * row), size);
                x += size.width;
                let Some(digit) = sets.get(set).and_then(|set| *set.get(k)?) else {
                    lines.extend(scrap::stripes(rect));
                    continue;
                };
                let text = text(digit, place);
                layer.nodes.extend(card(desk, layout, plan, &text, rect)?);
                layer.pieces.push(Piece::named(desk.lesson.wording().card(&text), rect));
            }
        }
    }
    layer.nodes.push(Node::Artifact(lines));
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
