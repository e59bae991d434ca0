//! The learners of a tally: a name, or room to write one, and where groups have numbers of their own, what finds their pages.

use crate::lesson::Version;
use crate::measure::{Count, Length, Rect, Sides};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::name;
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Node, Scope, Tag};

/// Between number, name and letter.
const APART: Length = Length::mm100(150);

/// One line of the tally.
#[derive(Debug, Clone)]
pub(super) struct Learner {
    number: u32,
    /// Empty without a roster.
    name: String,
    /// The letter of the learner's set, where groups have their own.
    letter: Option<Version>,
}

/// Every learner in the order of the numbers.
pub(super) fn all(desk: &Desk<'_>) -> Vec<Learner> {
    let roster = &desk.lesson.roster;
    let last = desk.lesson.spec.class.learners.value.max(roster.len().narrow());
    // Where sets differ by group, so do the answers: the letter tells in which key they are.
    let lettered = !desk.lesson.groups.is_empty() && !desk.lesson.sets.is_empty();
    let seats = if lettered { desk.lesson.seats(0) } else { Vec::new() };
    let letter = |number| seats.iter().find(|seat| seat.number == number).map(|seat| seat.version);
    let mut names = roster.iter().cloned();
    (1..=last)
        .map(|number| Learner { number, name: names.next().unwrap_or_default(), letter: letter(number) })
        .collect()
}

/// A learner's cell. Where groups have numbers of their own, the number on the learner's pages stands before the name, and the
/// letter of the set behind it; elsewhere a name needs no number.
pub(super) fn cell(desk: &Desk<'_>, learner: &Learner, frame: Rect, face: &Face) -> Node {
    let Learner { number, name, letter } = learner;
    if desk.lesson.groups.is_empty() {
        // A name that cannot be printed is shown by its number, as the warning promises.
        let plain = number.to_string();
        let name = if name.is_empty() { &plain } else { name };
        return name::set(desk.family, name, Some(*number), frame, face, Align::LEFT)
            .tagged(Tag::HeaderCell(Scope::Row));
    }
    let figures = desk.width("88", face).max(desk.width(&number.to_string(), face));
    let behind = letter.map_or(Length::ZERO, |letter| desk.width(&letter.to_string(), face) + APART);
    let number = text::run(desk.family, &[number.to_string()], line(frame, face), face);
    let room = frame.shrunk(Sides { left: figures + APART, right: behind, ..Sides::default() });
    let name = name::set(desk.family, name, None, room, face, Align::LEFT);
    let mut nodes = number.nodes();
    nodes.extend(name.nodes());
    if let Some(letter) = letter {
        let place = line(frame, face);
        let left = frame.width() - desk.width(&letter.to_string(), face);
        let place = place.shrunk(Sides { left, ..Sides::default() });
        nodes.extend(text::run(desk.family, &[letter.to_string()], place, face).nodes());
    }
    Node::tagged(Tag::HeaderCell(Scope::Row), nodes)
}

/// A line of a face in the middle of a frame.
fn line(frame: Rect, face: &Face) -> Rect {
    let above = (frame.height() - face.pitch()).half();
    frame.shrunk(Sides { top: above, bottom: above, ..Sides::default() })
}
