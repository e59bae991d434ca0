//! Below the tally: what each letter of a slip means in this lesson, and who and what belongs to each group.

use std::borrow::Cow;

use crate::lesson::InPlay;
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::sheets::kinds::key;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::text::{self, Face};
use crate::sheets::page::{Node, Tag};

/// How far texts stand from the edge of their letters.
const INDENT: Length = Length::mm(4);

/// Between the two columns, and above slips and groups.
const COLUMNS: Length = Length::mm(8);
const ABOVE: Length = Length::mm(3);
const ABOVE_GROUPS: Length = Length::mm(2);

/// What is said of a letter.
struct Entry {
    letter: char,
    text: String,
}

/// What is explained below the table.
pub(super) struct Legend {
    /// In two columns.
    slips: Vec<Entry>,
    /// One sentence a group, over the whole width: together they take less room than a line for each.
    groups: String,
    face: Face,
}

/// A line in its place.
struct Placed<'t> {
    letter: Option<char>,
    lines: Vec<Cow<'t, str>>,
    frame: Rect,
}

impl Legend {
    /// One line a slip, with its name and what it looks like in this lesson, and all groups.
    pub(super) fn new(desk: &Desk<'_>, slips: &[InPlay], face: Face) -> Self {
        let wording = desk.lesson.wording();
        let slip = |slip: &InPlay| Entry {
            letter: slip.letter,
            text: format!("{}: {}", wording.slip_name(slip.slip), key::example(desk, slip)),
        };
        let groups: Vec<String> = desk.lesson.shares().iter().map(|share| wording.belongs(share)).collect();
        Self { slips: slips.iter().map(slip).collect(), groups: groups.join(" "), face }
    }

    /// How high it is in all, with the room above it.
    pub(super) fn height(&self, desk: &Desk<'_>, width: Length) -> Length {
        self.placed(desk, width).1
    }

    /// Draws it below a point.
    pub(super) fn draw(&self, desk: &Desk<'_>, at: Point, width: Length) -> Vec<Node> {
        let node = |placed: Placed<'_>| {
            let frame = placed.frame.moved(at.x, at.y);
            let indent = if placed.letter.is_some() { INDENT } else { Length::ZERO };
            let hung = frame.shrunk(Sides { left: indent, ..Sides::default() });
            let letter = placed
                .letter
                .into_iter()
                .flat_map(|letter| text::run(desk.family, &[letter.to_string()], frame, &self.face.bold()).nodes());
            let said = text::run(desk.family, &placed.lines, hung, &self.face).nodes();
            Node::tagged(Tag::Paragraph, letter.chain(said).collect::<Vec<_>>())
        };
        self.placed(desk, width).0.into_iter().map(node).collect()
    }

    /// All lines in their places, from the origin down, and how high they stand in all.
    fn placed(&self, desk: &Desk<'_>, width: Length) -> (Vec<Placed<'_>>, Length) {
        let half = (width - COLUMNS).half();
        let (mut placed, mut end) = (Vec::new(), Length::ZERO);
        for (column, entries) in self.slips.chunks(self.slips.len().div_ceil(2).max(1)).enumerate() {
            let (x, mut y) = ((half + COLUMNS) * column.wide(), ABOVE);
            for Entry { letter, text } in entries {
                let lines = text::flow(desk.family, text, half - INDENT, &self.face);
                let size = Size::new(half, text::height(lines.len(), &self.face));
                placed.push(Placed { letter: Some(*letter), lines, frame: Rect::new(Point::new(x, y), size) });
                y += size.height;
            }
            end = end.max(y);
        }
        if !self.groups.is_empty() {
            let lines = text::flow(desk.family, &self.groups, width, &self.face);
            let at = Point::new(Length::ZERO, end + ABOVE_GROUPS);
            let size = Size::new(width, text::height(lines.len(), &self.face));
            placed.push(Placed { letter: None, lines, frame: Rect::new(at, size) });
            end = at.y + size.height;
        }
        (placed, end)
    }
}
