//! Heading and foot, the same on every page.
//!
//! At the top the sheet's title at the left and, where a learner fills the page in, a line for the name; the version and
//! learner mark stands at the top right. At the bottom the lesson's title and the page's number, small. What is left
//! between them is the body.

use std::borrow::Cow;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::page::desk::Desk;
pub use crate::sheets::page::headed::Headed;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::name;
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Mark, Node, Reader, Says, Tag};
use crate::spec::SheetKind;

/// What a page's heading says.
#[derive(Debug, Clone, Copy)]
pub struct Head<'t> {
    /// The sheet's title: the page's first heading.
    pub title: &'t str,
    /// A line or two below it: what to do.
    pub note: Option<&'t str>,
    /// Who reads it.
    pub reader: Reader,
    /// Whether there is room for the version and learner mark.
    pub code: bool,
    /// Of a page that a learner fills in: what the learner can do afterwards. Such a page has lines for name and date too.
    pub goal: Option<&'t str>,
}

/// Between things that stand beside each other.
const APART: Length = Length::mm(4);

/// Lays heading and foot out in `live` (see [`Desk::live`]). Fails when the title or note does not fit at its least size.
pub fn lay(desk: &Desk<'_>, live: Rect, head: &Head<'_>) -> Result<Headed, Problem> {
    let page = desk.layouts.page();
    let (title, note) = match head.reader {
        Reader::Learner => (desk.face(page, "title")?, desk.face(page, "note")?),
        Reader::Staff => (desk.face(page, "staff_title")?, desk.face(page, "staff_note")?),
    };
    let mut marks = Vec::new();
    let mut nodes = Vec::new();
    let high = title.pitch();
    let mut right = live.right();
    if head.code {
        let width = page.length("code")?;
        right -= width;
        marks.push(Mark { frame: Rect::new(Point::new(right, live.top()), Size::new(width, high)), says: Says::Code });
        right -= APART;
    }
    let wanted = desk.width(head.title, &title);
    let mut bottom = live.top() + high;
    let rows = rows(desk, head, live.width(), &note);
    let dated = DateLine { said: desk.lesson.wording().date_label(), writing: page.length("date_line")? };
    // A date that has no room beside the name stands at the end of a short row below.
    let mut date_row = None;
    if head.goal.is_some() {
        let room = dated.width(desk, &note);
        date_row = rows.iter().position(|row| row.free(desk, live.width(), &note) >= room);
        let strip = Rect::new(live.origin(), Size::new(right - live.left(), high));
        let base = text::run(desk.family, &[head.title], strip, &title).base().unwrap_or(bottom);
        let beside = Rect::between(Point::new(live.left() + wanted + APART * 2, live.top()), Point::new(right, bottom));
        let named = named(desk, page, [beside, live], base, &dated, date_row.is_some())?;
        date_row = date_row.filter(|_| !named.dated);
        bottom = named.bottom;
        right = named.left.unwrap_or(right);
        nodes.extend(named.nodes);
        marks.push(named.mark);
    } else if head.code {
        let frame = Rect::between(Point::new(live.left() + wanted + APART * 2, live.top()), Point::new(right, bottom));
        if frame.left() < right && frame.width() >= LEAST_OWNER {
            marks.push(Mark { frame, says: Says::Owner });
        }
    }
    let frame = Rect::new(live.origin(), Size::new(right - live.left(), high));
    let heading = desk.set(head.title, frame, &title, Align { across: Across::Left, down: Down::Top })?;
    nodes.insert(0, heading.tagged(Tag::Heading(1)));
    bottom += if rows.is_empty() { Length::ZERO } else { Length::mm(1) };
    for (k, row) in rows.iter().enumerate() {
        let frame =
            Rect::new(Point::new(live.left(), bottom), Size::new(live.width(), text::height(row.lines.len(), &note)));
        let run = text::run(desk.family, &row.lines, frame, &note);
        let base = run.base();
        nodes.push(run.tagged(Tag::Paragraph));
        if let Some(behind) = row.behind {
            let from = Point::new(live.right() - desk.width(behind, &note), frame.top());
            let frame = Rect::between(from, Point::new(live.right(), frame.bottom()));
            nodes.push(text::run(desk.family, &[behind], frame, &note).tagged(Tag::Paragraph));
        }
        if let Some(base) = base.filter(|_| date_row == Some(k)) {
            nodes.extend(dated.set(desk, &note, Point::new(live.right(), base))?);
        }
        bottom = frame.bottom();
    }
    let (foot, folio) = foot(desk, live, page)?;
    let body = Rect::between(
        Point::new(live.left(), bottom + page.length("below")?),
        Point::new(live.right(), folio.frame.top() - page.length("above")?),
    );
    marks.push(folio);
    Ok(Headed { nodes, foot, marks, body })
}

/// A text below the title, and a short one at the end of its line.
struct BelowTitle<'t> {
    lines: Vec<Cow<'t, str>>,
    behind: Option<&'t str>,
}

impl BelowTitle<'_> {
    /// What is free at the end of a text of one line; none where something stands there.
    fn free(&self, desk: &Desk<'_>, width: Length, face: &Face) -> Length {
        match (self.lines.as_slice(), self.behind) {
            ([line], None) => width - desk.width(line, face) - APART * 2,
            _ => Length::ZERO,
        }
    }
}

/// What stands below the title: directions with the goal behind them where both have room on a line, otherwise the goal and then
/// the directions. Behind the tail of longer directions the goal would be read as the end of them.
fn rows<'t>(desk: &Desk<'_>, head: &Head<'t>, width: Length, face: &Face) -> Vec<BelowTitle<'t>> {
    let row = |text: &'t str| BelowTitle { lines: text::flow(desk.family, text, width, face), behind: None };
    let mut note = head.note.map(row);
    if let (Some(note), Some(goal)) = (&mut note, head.goal)
        && note.free(desk, width, face) >= desk.width(goal, face)
    {
        note.behind = head.goal;
    }
    let apart = note.as_ref().is_none_or(|note| note.behind.is_none());
    head.goal.filter(|_| apart).map(row).into_iter().chain(note).collect()
}

/// The line for a name.
struct Named {
    nodes: Vec<Node>,
    mark: Mark,
    /// Where it begins beside the title; `None` where it has a line of its own.
    left: Option<Length>,
    /// How far down title and name reach.
    bottom: Length,
    /// Whether the date stands beside it.
    dated: bool,
}

/// The line for a name, on the base line of the title in the room beside it, or on a line of its own below: with the date, unless that
/// has room `elsewhere` and none beside the title.
fn named(
    desk: &Desk<'_>,
    page: &Layout,
    [beside, live]: [Rect; 2],
    base: Length,
    date: &DateLine,
    elsewhere: bool,
) -> Result<Named, Problem> {
    let (face, said) = (desk.face(page, "name")?, desk.lesson.wording().name_label());
    let label = desk.width(said, &face) + Length::mm(2);
    let least = label + page.length("name_line")?;
    let after = date.width(desk, &face) + APART;
    let together = beside.width() >= least + after;
    let goes_beside = together || elsewhere && beside.width() >= least;
    let dated = together || !goes_beside && live.width() >= least + after;
    let after = if dated { after } else { Length::ZERO };
    let (left, base, bottom, end) = if goes_beside {
        let left = (beside.right() - least - after - Length::mm(15)).max(beside.left());
        (left, base, beside.bottom(), beside.right())
    } else {
        let bottom = beside.bottom() + face.pitch() + Length::mm(2);
        (live.left(), bottom - Length::mm(2), bottom, live.right())
    };
    let rest = end - after;
    let frame = Rect::between(Point::new(left, base - face.size.scaled(11, 10)), Point::new(rest, bottom));
    let down = Down::Base(base - frame.top());
    let mut nodes = vec![desk.set(said, frame, &face, Align { across: Across::Left, down })?.tagged(Tag::Paragraph)];
    let from = Point::new(left + label, base + Length::pt(2));
    nodes.push(Node::artifact(Item::Line { from, to: Point::new(rest, from.y), stroke: ink::OUTLINE }));
    let frame = Rect::between(Point::new(from.x, frame.top()), Point::new(rest, from.y - Length::pt100(50)));
    if dated {
        nodes.extend(date.set(desk, &face, Point::new(end, base))?);
    }
    let left = goes_beside.then(|| left - APART);
    Ok(Named { nodes, mark: Mark { frame, says: Says::Name }, left, bottom, dated })
}

/// A sheet's title, with the page's number where there are several: loose sheets of one learner stay in order.
pub fn numbered(desk: &Desk<'_>, kind: SheetKind, (k, of): (usize, usize)) -> String {
    let title = desk.lesson.wording().sheet_title(kind);
    if of > 1 { desk.lesson.wording().page_of(title, k, of) } else { title.to_owned() }
}

/// A line for the date, with its label.
struct DateLine {
    said: &'static str,
    writing: Length,
}

impl DateLine {
    fn width(&self, desk: &Desk<'_>, face: &Face) -> Length {
        desk.width(self.said, face) + Length::mm(2) + self.writing
    }

    /// Label and line up to a point on the base line.
    fn set(&self, desk: &Desk<'_>, face: &Face, end: Point) -> Result<[Node; 2], Problem> {
        let origin = Point::new(end.x - self.width(desk, face), end.y - face.size.scaled(11, 10));
        let frame = Rect::between(origin, Point::new(end.x, end.y + face.size.half()));
        let align = Align { across: Across::Left, down: Down::Base(end.y - frame.top()) };
        let label = desk.set(self.said, frame, face, align)?.tagged(Tag::Paragraph);
        let y = end.y + Length::pt(2);
        let (from, to) = (Point::new(end.x - self.writing, y), Point::new(end.x, y));
        Ok([label, Node::artifact(Item::Line { from, to, stroke: ink::OUTLINE })])
    }
}

/// A page that has its foot only: what stands on it has headings of its own.
pub fn foot_only(desk: &Desk<'_>, live: Rect) -> Result<Headed, Problem> {
    let page = desk.layouts.page();
    let (foot, folio) = foot(desk, live, page)?;
    let bottom = folio.frame.top() - page.length("above")?;
    let body = Rect::between(live.origin(), Point::new(live.right(), bottom));
    Ok(Headed { nodes: Vec::new(), foot, marks: vec![folio], body })
}

/// Less room than this beside a title is not worth a name.
const LEAST_OWNER: Length = Length::mm(20);

/// The foot and the room for the page's number.
fn foot(desk: &Desk<'_>, live: Rect, page: &Layout) -> Result<(Node, Mark), Problem> {
    let face = desk.face(page, "foot")?.painted(ink::QUIET);
    let high = face.pitch();
    let frame = Rect::between(Point::new(live.left(), live.bottom() - high), Point::new(live.right(), live.bottom()));
    let (left, right) = (frame.size().width - Length::mm(14), Length::mm(12));
    let folio = Rect::new(Point::new(frame.right() - right, frame.top()), Size::new(right, high));
    let frame = Rect::new(frame.origin(), Size::new(left, high));
    let spec = &desk.lesson.spec;
    let grade = spec.grade.as_ref().map(|grade| grade.value.as_str());
    let lesson = desk.lesson.wording().foot(&spec.title.value, grade);
    // A long title is cut short rather than refused: it stands in full on the teacher's plan.
    let lesson = name::shortened(desk.family, &lesson, frame.width(), &face);
    let set = desk.set(&lesson, frame, &face, Align { across: Across::Left, down: Down::Bottom })?;
    Ok((set.artifact(), Mark { frame: folio, says: Says::Folio }))
}
