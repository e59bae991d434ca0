//! What stands above the pieces: check lines and how to print, as roomy as the pieces allow.
//!
//! The pieces come first, so the head has three sizes: the heading and foot of every other sheet with the check lines
//! below; the check lines with a few words beside them; and a strip as low as one line of type, so that check lines never
//! cost a sheet.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size, Weight};
use crate::number::Number;
use crate::sheets::blocks::geometry::UNIT;
use crate::sheets::blocks::picture::card_front;
use crate::sheets::page::checkline::{self, LINES, LONGEST};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::scrap;
use crate::sheets::page::text::{self, Align, Down, Face};
use crate::sheets::page::{Item, Mark, Node, Paint, Reader, Says, Tag};
use crate::spec::SheetKind;

/// How high the three heads are, with the gap below them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Heights {
    pub least: Length,
    pub easy: Length,
    pub full: Length,
}

/// How high the heads are in a printable area; `None` when it is narrower than the check lines.
pub(super) fn heights(desk: &Desk<'_>, layout: &Layout, live: Rect) -> Result<Option<Heights>, Problem> {
    if live.width() < LONGEST {
        return Ok(None);
    }
    let least = strip(desk, layout, live, live.height(), false)?.body.top() - live.top();
    let easy = easy(desk, layout, live, OnPage { striped: false, ..OnPage::FULLEST })?.body.top() - live.top();
    let full = full(desk, layout, live, OnPage::FULLEST)?;
    Ok(Some(Heights { least, easy, full: live.height() - full.body.height() }))
}

/// What the head of one page says.
#[derive(Debug, Clone, Copy)]
pub(super) struct OnPage {
    /// Which page this is, from 1, and of how many.
    pub number: (u32, u32),
    /// Whether some of it is scrap.
    pub striped: bool,
}

impl OnPage {
    /// What takes the most room.
    const FULLEST: Self = Self { number: (1, 2), striped: true };

    /// What the page is called.
    fn title(self, desk: &Desk<'_>) -> String {
        let (wording, (page, pages)) = (desk.lesson.wording(), self.number);
        let title = wording.sheet_title(SheetKind::Blocks);
        if pages == 1 { title.to_owned() } else { wording.sheet_of(title, page as usize, pages as usize) }
    }
}

/// The roomiest head that leaves at least `needed` below it; the pieces go to the top of its body.
pub(super) fn lay(
    desk: &Desk<'_>,
    layout: &Layout,
    live: Rect,
    needed: Length,
    page: OnPage,
) -> Result<Headed, Problem> {
    let few = OnPage { striped: false, ..page };
    for head in [full(desk, layout, live, page)?, easy(desk, layout, live, page)?, easy(desk, layout, live, few)?] {
        if head.body.height() >= needed {
            return Ok(head);
        }
    }
    strip(desk, layout, live, needed, page.striped)
}

/// Heading and foot like every sheet's, then the check lines.
fn full(desk: &Desk<'_>, layout: &Layout, live: Rect, on: OnPage) -> Result<Headed, Problem> {
    let wording = desk.lesson.wording();
    let title = on.title(desk);
    let note = scrap::note(desk, wording.blocks_note(), on.striped);
    let head = Head { title: &title, note: Some(&note), reader: Reader::Learner, code: true, goal: None };
    let mut headed = head::lay(desk, live, &head)?;
    let words = wording.print_checked();
    let (nodes, bottom) = lines(desk, layout, headed.body, None, &words)?;
    headed.nodes.extend(nodes);
    headed.body = below(headed.body, bottom + layout.length("below")?);
    Ok(headed)
}

/// Check lines with the title, a few words and the mark beside them.
fn easy(desk: &Desk<'_>, layout: &Layout, live: Rect, on: OnPage) -> Result<Headed, Problem> {
    let width = desk.layouts.page().length("code")?;
    let room = Rect::new(live.origin(), Size::new(live.width() - width, live.height()));
    let words = scrap::note(desk, desk.lesson.wording().print_true(), on.striped);
    let (nodes, bottom) = lines(desk, layout, room, Some(&on.title(desk)), &words)?;
    let frame = Rect::between(Point::new(room.right(), live.top()), Point::new(live.right(), bottom));
    let body = below(live, bottom + layout.length("below")?);
    Ok(Headed { nodes, foot: Node::Artifact(Vec::new()), marks: corner(frame).to_vec(), body })
}

/// Both check lines below one another at the top left of `area`, and `words` beside them or, where there is little room,
/// below, after a title where nothing above them says it. Also where it ends.
fn lines(
    desk: &Desk<'_>,
    layout: &Layout,
    area: Rect,
    title: Option<&str>,
    words: &str,
) -> Result<(Vec<Node>, Length), Problem> {
    let face = desk.face(layout, "print")?;
    let (tick, apart) = (layout.length("tick")?, layout.length("between")?);
    let mut nodes = Vec::new();
    let mut items = Vec::new();
    let mut y = area.top() + apart.half();
    let labels = LINES.map(|(_, label)| desk.width(label, &face)).into_iter().max().unwrap_or_default();
    let beside = labels <= area.width() - LONGEST - Length::mm(2);
    for (length, label) in LINES {
        let from = Point::new(area.left() + ink::OUTLINE.width.half(), y);
        items.extend(checkline::items(from, length, tick));
        // The label stands after the line, or on it where the page is as narrow as the line.
        let frame = if beside {
            let left = area.left() + LONGEST + Length::mm(2);
            Rect::between(Point::new(left, y - apart.half()), Point::new(left + labels, y + apart.half()))
        } else {
            let left = area.left() + length.half() - labels.half();
            let rect = Rect::between(Point::new(left, y - apart.half()), Point::new(left + labels, y + apart.half()));
            items.push(Item::Rect { rect, fill: Some(Paint::WHITE), stroke: None });
            rect
        };
        nodes.extend(desk.set(label, frame, &face, Align::LEFT)?.nodes());
        y += apart;
    }
    let mut bottom = y - apart.half();
    let left = area.left() + if beside { LONGEST + Length::mm(2) + labels + layout.length("beside")? } else { LONGEST };
    let right = Rect::between(Point::new(left, area.top()), Point::new(area.right(), area.bottom()));
    let origin =
        if right.width() >= Length::mm(45) { right.origin() } else { Point::new(area.left(), bottom + Length::mm(1)) };
    let width = area.right() - origin.x;
    let bold = Face { weight: Weight::Bold, ..face };
    let parts = title.map(|title| (Tag::Heading(1), title, bold)).into_iter().chain([(Tag::Paragraph, words, face)]);
    let parts: Vec<_> =
        parts.map(|(tag, said, face)| (tag, text::wrap(desk.family, said, width, &face), face)).collect();
    let high = parts.iter().map(|(_, broken, face)| text::height(broken.len(), face)).sum();
    let top =
        if origin.y > area.top() { origin.y } else { origin.y + (bottom - origin.y - high).half().max(Length::ZERO) };
    let mut frame = Rect::between(Point::new(origin.x, top), Point::new(area.right(), top + high));
    let mut all = Vec::new();
    for (tag, broken, face) in parts {
        all.push(text::run(desk.family, &broken, frame, &face).tagged(tag));
        frame = frame.shrunk(Sides { top: text::height(broken.len(), &face), ..Sides::default() });
    }
    bottom = bottom.max(frame.bottom());
    all.extend([Node::Artifact(items), Node::Tagged(Tag::Paragraph, nodes)]);
    Ok((all, bottom))
}

/// The lowest head: two check lines and one line of capitals, which reach neither above nor below the figures. What the pieces do
/// not need keeps the lines apart from each other and from the first cut. What stripes mean is said where the line has room.
fn strip(desk: &Desk<'_>, layout: &Layout, live: Rect, needed: Length, striped: bool) -> Result<Headed, Problem> {
    let said = desk.lesson.wording().print_capitals(true);
    let face = desk.face(layout, "print")?;
    let face = face.at(face.least);
    let font = desk.family.font(face.weight);
    let ink = font.ink(said, face.size, Point::ORIGIN).unwrap_or_default();
    let (edge, gap) = (ink::OUTLINE.width, Length::mm(2));
    let least = ink.height().max(Length::mm100(240));
    let mark = Length::mm(11);
    let wide = font.width(said, face.size);
    let fits = wide <= live.width() - LONGEST - gap * 2 - mark;
    let spare = if fits { (live.height() - needed - edge).min(Length::mm(6)) } else { Length::ZERO };
    let high = least.max(spare);
    let mut items = Vec::new();
    for ((length, _), y) in LINES.into_iter().zip([high.scaled(1, 5), high.scaled(if high > least { 3 } else { 4 }, 5)])
    {
        let from = live.origin().moved(edge.half(), y);
        items.extend(checkline::items(from, length, least.scaled(1, 5) - edge.half()));
    }
    // On a narrow page the words stand below the lines, clear of the ticks at the first cut.
    let said = if fits { said } else { desk.lesson.wording().print_capitals(false) };
    let (left, top) = if fits { (LONGEST + gap, live.top()) } else { (Length::ZERO, live.top() + high + edge) };
    let clear = if fits { edge } else { edge + Length::mm100(60) };
    let frame = Rect::new(Point::new(live.left() + left, top), Size::new(live.width() - left - mark - gap, high));
    let base = Down::Base(-ink.top());
    let more = format!("{said} \u{b7} {}", desk.lesson.wording().scrap_capitals());
    let said = if striped && font.width(&more, face.size) <= frame.width() { &more } else { said };
    let words = desk.set(said, frame, &face, Align { down: base, ..Align::LEFT })?;
    let frame = Rect::new(Point::new(live.right() - mark, top), Size::new(mark, high));
    let nodes = vec![Node::Artifact(items), words.tagged(Tag::Paragraph)];
    let body = below(live, top + high + clear);
    Ok(Headed { nodes, foot: Node::Artifact(Vec::new()), marks: corner(frame).to_vec(), body })
}

/// The corner of a page without a foot: a copy has its kit there, a master of a packet its page number.
fn corner(frame: Rect) -> [Mark; 2] {
    [Says::Code, Says::Folio].map(|says| Mark { frame, says })
}

fn below(area: Rect, top: Length) -> Rect {
    Rect::between(Point::new(area.left(), top.min(area.bottom())), Point::new(area.right(), area.bottom()))
}

/// What a thousand is worth.
const THOUSAND: Number = match Number::new(1_000) {
    Some(number) => number,
    None => Number::MIN,
};

/// The number on a thousand, on a plate in the middle of the block that its card shows.
pub(super) fn thousand(desk: &Desk<'_>, layout: &Layout, rect: Rect) -> Result<Vec<Node>, Problem> {
    let face = desk.face(layout, "thousand")?;
    let numeral = desk.lesson.style.numeral(THOUSAND);
    let front = card_front(UNIT).moved(rect.left(), rect.top());
    let plate = front.centred(Size::new(front.width().scaled(8, 10), front.height().scaled(24, 100)));
    let frame = plate.shrunk(Sides::splat(layout.padding.max(Length::mm100(50))));
    let mut nodes = vec![Node::Item(Item::Rect { rect: plate, fill: Some(Paint::WHITE), stroke: Some(ink::OUTLINE) })];
    nodes.extend(desk.set(&numeral, frame, &face, Align::CENTRE)?.nodes());
    Ok(nodes)
}
