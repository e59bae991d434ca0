//! What tells one sheet of a pile from another: the line at its top, and the band on every set.

use crate::diag::Problem;
use crate::lesson::deal::Seat;
use crate::measure::{Count, Length, Rect, Sides, Size};
use crate::sheets::job::impose::Stacks;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::division::Division;
use crate::sheets::page::ink;
use crate::sheets::page::name;
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Node, Tag};
use crate::wording::stamps::PileSheet;

/// The small face of the program's own remarks.
fn face(desk: &Desk<'_>) -> Result<Face, Problem> {
    desk.face(desk.layouts.page(), "foot")
}

/// The line at the top: pile, sheet, learners, versions. No larger than it needs to be, and outside every piece. Of so many
/// `piles` of strips so many come `before` these.
pub fn line(
    desk: &Desk<'_>,
    stacks: &Stacks,
    frame: Rect,
    seats: &[Seat],
    (leaf, back): (usize, bool),
    (before, piles): (usize, usize),
) -> Result<Node, Problem> {
    let group = stacks.group_of(leaf);
    let sheets = stacks.sheets_of(group);
    let members: Vec<&Seat> = stacks.sets_of(group).filter_map(|set| seats.get(set)).collect();
    let numbers: Vec<u32> = members.iter().map(|seat| seat.number).collect();
    let mut versions: Vec<String> = members.iter().map(|seat| seat.version.to_string()).collect();
    versions.sort_unstable();
    versions.dedup();
    let at = PileSheet { pile: (before + group + 1, piles), sheet: (leaf - sheets.start + 1, sheets.len()) };
    let text = desk.lesson.wording().pile_line(at, back, &versions.join(", "), &neighbours(&numbers));
    self::text(desk, &text, frame)
}

/// A line of small text at the top of a sheet, cut short where it is too long.
pub fn text(desk: &Desk<'_>, text: &str, frame: Rect) -> Result<Node, Problem> {
    let face = face(desk)?;
    let frame = Rect::new(frame.origin(), Size::new(frame.width(), Division::line_height(desk)?));
    let text = name::shortened(desk.family, text, frame.width(), &face);
    Ok(text::run(desk.family, &[text], frame, &face).tagged(Tag::Paragraph))
}

/// The name on the roster for a seat; empty for spares and where the roster ends.
pub fn name<'a>(desk: &Desk<'a>, seat: &Seat) -> &'a str {
    let index = seat.number.index().wrapping_sub(1);
    desk.lesson.roster.get(index).filter(|_| !seat.spare).map_or("", String::as_str)
}

/// The first piece of a kit: which it is, and what it holds.
pub fn kit_band(desk: &Desk<'_>, (kit, kits): (usize, usize), holds: &str, rect: Rect) -> Result<Node, Problem> {
    let small = face(desk)?;
    let inner = rect.shrunk(Sides::splat(PADDING + Length::mm(1)));
    let text = name::shortened(desk.family, &desk.lesson.wording().kit_band(kit, kits, holds), inner.width(), &small);
    let lines = if inner.height() < small.pitch() {
        rect.shrunk(Sides {
            left: PADDING + Length::mm(1),
            right: PADDING + Length::mm(1),
            top: Length::mm(2),
            bottom: Length::mm(2),
        })
    } else {
        inner
    };
    let text = desk.set(&text, lines, &small, Align::CENTRE)?.tagged(Tag::Paragraph);
    let edge = Item::Rect { rect: rect.shrunk(Sides::splat(PADDING.half())), fill: None, stroke: Some(ink::HEAVY) };
    Ok(Node::tagged(Tag::Section, [Node::artifact(edge), text]))
}

/// Numbers, neighbours drawn together.
fn neighbours(numbers: &[u32]) -> Vec<(u32, u32)> {
    let mut sorted = numbers.to_vec();
    sorted.sort_unstable();
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for number in sorted {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => runs.push((number, number)),
        }
    }
    runs
}

/// The first piece of a set.
pub fn band(desk: &Desk<'_>, seat: &Seat, called: &str, strips: usize, rect: Rect) -> Result<Node, Problem> {
    let page = desk.layouts.page();
    let (code, small) = (desk.face(page, "code")?, face(desk)?);
    let inner = rect.shrunk(Sides::splat(PADDING + Length::mm(1)));
    let low = small.pitch();
    let top = Rect::new(inner.origin(), Size::new(inner.width(), inner.height() - low));
    let bottom = Rect::new(inner.origin().moved(Length::ZERO, top.height()), Size::new(inner.width(), low));
    let who = match (called.is_empty(), seat.spare) {
        (false, _) => format!("{} \u{b7} {called}", seat.number),
        (true, spare) => desk.lesson.wording().whose_set(seat.number, spare),
    };
    let what = desk.lesson.wording().set_holds(seat.version, strips);
    let who = name::set(desk.family, &who, None, top, &code, Align::CENTRE).tagged(Tag::Paragraph);
    let what = name::shortened(desk.family, &what, bottom.width(), &small);
    let what = desk.set(&what, bottom, &small, Align::CENTRE)?.tagged(Tag::Paragraph);
    let edge = Item::Rect { rect: rect.shrunk(Sides::splat(PADDING.half())), fill: None, stroke: Some(ink::HEAVY) };
    Ok(Node::tagged(Tag::Section, [Node::artifact(edge), who, what]))
}

/// Between the edge of a band and its text: more than a cut may be off.
const PADDING: Length = Length::mm(2);

#[cfg(test)]
mod tests {
    use crate::wording::English;
    use crate::wording::stamps::Stamps as _;

    #[test]
    fn neighbours_are_drawn_together() {
        for (numbers, want) in [
            (&[][..], ""),
            (&[4], "4"),
            (&[5, 4], "4, 5"),
            (&[3, 1, 2], "1 to 3"),
            (&[1, 2, 3, 7, 9, 10], "1 to 3, 7, 9, 10"),
            (&[12, 26, 40], "12, 26, 40"),
        ] {
            assert_eq!(English.runs(&super::neighbours(numbers)), want);
        }
    }
}
