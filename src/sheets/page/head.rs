//! Heading and foot, the same on every page.
//!
//! At the top the sheet's title at the left and, where a learner fills the page in, a line for the name; the version and
//! learner mark stands at the top right. At the bottom the lesson's title and the page's number, small. What is left
//! between them is the body.

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
    /// Whether there is a line for a name.
    pub name: bool,
    /// Whether there is room for the version and learner mark.
    pub code: bool,
    /// What a learner can do afterwards: behind a note of one line, where there is room.
    pub aim: Option<&'t str>,
}

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
    let gap = Length::mm(4);
    let mut right = live.right();
    if head.code {
        let width = page.length("code")?;
        right -= width;
        marks.push(Mark { frame: Rect::new(Point::new(right, live.top()), Size::new(width, high)), says: Says::Code });
        right -= gap;
    }
    let wanted = desk.width(head.title, &title);
    let mut bottom = live.top() + high;
    // The base line that title, name and mark share.
    let strip = Rect::new(live.origin(), Size::new(right - live.left(), high));
    let base = text::run(desk.family, &[head.title.to_owned()], strip, &title).base().unwrap_or(bottom);
    let dated = DateLine { said: desk.lesson.wording().date_label(), writing: page.length("date_line")? };
    let mut date_left = false;
    if head.name {
        let (face, said) = (desk.face(page, "name")?, desk.lesson.wording().name_label());
        let label = desk.width(said, &face) + Length::mm(2);
        let writing = page.length("name_line")?;
        let beside = right - live.left() - wanted - gap * 2 >= label + writing;
        let after = dated.width(desk, &face) + gap;
        // Beside the title where there is room, otherwise on a line of its own below; the date where there is room for both.
        let room = if beside { right - live.left() - wanted - gap * 2 } else { live.width() };
        let after = if room >= label + writing + after { after } else { Length::ZERO };
        let (left, base) = if beside {
            ((right - label - writing - after - Length::mm(15)).max(live.left() + wanted + gap * 2), base)
        } else {
            bottom += face.pitch() + Length::mm(2);
            (live.left(), bottom - Length::mm(2))
        };
        let end = if beside { right } else { live.right() };
        let rest = end - after;
        let frame = Rect::between(Point::new(left, base - face.size.scaled(11, 10)), Point::new(rest, bottom));
        let down = Down::Base(base - frame.top());
        nodes.push(desk.set(said, frame, &face, Align { across: Across::Left, down })?.tagged(Tag::Paragraph));
        let from = Point::new(left + label, base + Length::pt(2));
        nodes.push(Node::artifact(Item::Line { from, to: Point::new(rest, from.y), stroke: ink::OUTLINE }));
        let frame = Rect::between(Point::new(from.x, frame.top()), Point::new(rest, from.y - Length::pt100(50)));
        marks.push(Mark { frame, says: Says::Name });
        if after > Length::ZERO {
            nodes.extend(dated.set(desk, &face, Point::new(end, base))?);
        }
        date_left = after == Length::ZERO;
        right = if beside { left - gap } else { right };
    }
    if head.code && !head.name {
        let frame = Rect::between(Point::new(live.left() + wanted + gap * 2, live.top()), Point::new(right, bottom));
        if frame.left() < right && frame.width() >= LEAST_OWNER {
            marks.push(Mark { frame, says: Says::Owner });
        }
    }
    let frame = Rect::new(live.origin(), Size::new(right - live.left(), high));
    let heading = desk.set(head.title, frame, &title, Align { across: Across::Left, down: Down::Top })?;
    nodes.insert(0, heading.tagged(Tag::Heading(1)));
    if let Some(text) = head.note {
        let lines = text::flow(desk.family, text, live.width(), &note);
        let high = text::height(lines.len(), &note);
        let frame = Rect::new(Point::new(live.left(), bottom + Length::mm(1)), Size::new(live.width(), high));
        let run = text::run(desk.family, &lines, frame, &note);
        // A date that has no room beside the name stands at the end of a short note.
        let mut date = None;
        if let ([line], Some(base)) = (lines.as_slice(), run.base())
            && date_left
            && desk.width(line, &note) + gap * 2 + dated.width(desk, &note) <= live.width()
        {
            date = Some(dated.set(desk, &note, Point::new(live.right(), base))?);
        }
        let behind = lines.last().map(|line| desk.width(line, &note)).unwrap_or_default() + gap * 2;
        // Behind the tail of a longer note it would be read as the end of that.
        let aim = head.aim.filter(|_| lines.len() == 1);
        let aim = aim.filter(|aim| date.is_none() && behind + desk.width(aim, &note) <= live.width());
        let aim = aim.map(|aim| {
            let origin = Point::new(live.right() - desk.width(aim, &note), frame.bottom() - note.pitch());
            let frame = Rect::between(origin, Point::new(live.right(), frame.bottom()));
            text::run(desk.family, &[aim.to_owned()], frame, &note).tagged(Tag::Paragraph)
        });
        nodes.extend(date.into_iter().flatten());
        nodes.push(run.tagged(Tag::Paragraph));
        nodes.extend(aim);
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
