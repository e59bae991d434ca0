//! The first sheet of each of the copy room's files: whether the printer does what the ticket asks, seen before a hundred
//! sheets are spoilt.
//!
//! In: what the file asks for. Out: a front and, for files on both sides, a back whose mark lies behind the front's only when
//! the sheet is turned over the right edge.

use crate::diag::Problem;
use crate::lesson::job::{PrintSides, Stock};
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::number::Place;
use crate::sheets::page::checkline;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::{self, Align};
use crate::sheets::page::{Item, Layer, Node, Page, Paint, Tag};
use crate::spec::{Ink, SheetKind};

/// What a file asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Proved {
    /// Its name.
    pub file: &'static str,
    /// What it is printed on.
    pub stock: Stock,
    /// One side or two.
    pub sides: PrintSides,
    /// Its sheets, this one among them.
    pub sheets: usize,
}

/// The mark that front and back share, in the upper left quarter of the front: behind it lies another place when the sheet
/// is turned over the wrong edge.
fn mark(page: Size) -> Rect {
    let side = Length::mm(24);
    Rect::new(Point::new(page.width.scaled(1, 5), page.height.scaled(2, 3)), Size::new(side, side))
}

/// The proof of a file, upright; `behind` says where something on the front lies on the back.
pub fn pages(desk: &Desk<'_>, file: &Proved, behind: impl Fn(Rect, Size) -> Rect) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Ticket)?;
    let size = desk.lesson.spec.paper.value.size();
    let live = desk.printable(size).shrunk(Sides::splat(Length::mm(8)));
    let (heading, body) = (desk.face(layout, "job")?, desk.face(layout, "text")?);
    let mut items = vec![Item::Rect {
        rect: desk.printable(size).shrunk(Sides::splat(ink::OUTLINE.width)),
        fill: None,
        stroke: Some(ink::OUTLINE),
    }];
    let mut nodes = Vec::new();
    let mut y = live.top();
    let mut say = |text: &str, face: &text::Face, gap: i64, y: &mut Length, tag: Tag| -> Result<(), Problem> {
        let lines = text::wrap(desk.family, text, live.width(), face);
        let frame = Rect::new(Point::new(live.left(), *y), Size::new(live.width(), text::height(lines.len(), face)));
        nodes.push(desk.set(text, frame, face, Align::TOP)?.tagged(tag));
        *y = frame.bottom() + Length::mm(gap);
        Ok(())
    };
    let wording = desk.lesson.wording();
    let [title, front_name, back_name] = wording.proof_titles();
    let [ruler, frame_whole, greys] = wording.proof_checks();
    say(title, &heading, 2, &mut y, Tag::Heading(1))?;
    let paper = desk.lesson.spec.paper.value;
    let told = wording.proof_of(file.file, file.sheets, file.stock, file.sides, paper);
    say(&told, &body, 6, &mut y, Tag::Paragraph)?;
    say(ruler, &body, 4, &mut y, Tag::Paragraph)?;
    for (length, _) in checkline::LINES {
        items.extend(checkline::items(Point::new(live.left(), y), length, Length::mm100(150)));
        y += Length::mm(6);
    }
    y += Length::mm(2);
    say(frame_whole, &body, 4, &mut y, Tag::Paragraph)?;
    say(greys, &body, 2, &mut y, Tag::Paragraph)?;
    for (k, grey) in (0..).zip([225_u8, 185, 130]) {
        let corner = Point::new(live.left() + Length::mm(26) * k, y);
        let rect = Rect::new(corner, Size::new(Length::mm(22), Length::mm(10)));
        items.push(Item::Rect { rect, fill: Some(Paint::Grey(grey)), stroke: Some(ink::OUTLINE) });
    }
    y += Length::mm(16);
    if desk.ink() == Ink::Colour {
        say(wording.proof_colours(), &body, 2, &mut y, Tag::Paragraph)?;
        for (k, place) in (0..).zip([Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones]) {
            let corner = Point::new(live.left() + Length::mm(26) * k, y);
            let rect = Rect::new(corner, Size::new(Length::mm(22), Length::mm(10)));
            items.push(Item::Rect { rect, fill: Some(ink::tone(Ink::Colour, place).fill), stroke: Some(ink::OUTLINE) });
        }
        y += Length::mm(16);
    }
    let front = mark(size);
    if file.sides != PrintSides::One {
        say(wording.proof_light(), &body, 2, &mut y, Tag::Paragraph)?;
        items.extend(cross(front));
    }
    let page = |name: &str, nodes: Vec<Node>| Page {
        size,
        sheet: SheetKind::Ticket,
        version: None,
        learner: None,
        stock: file.stock,
        name: name.to_owned(),
        layers: vec![Layer { nodes, ..Layer::default() }.into()],
    };
    nodes.push(Node::Artifact(items));
    let mut pages = vec![page(front_name, nodes)];
    if file.sides != PrintSides::One {
        let ring = behind(front, size);
        let radius = ring.width().half();
        let stroke = Some(ink::OUTLINE);
        let items = vec![Item::Circle { centre: ring.centre(), radius, fill: None, stroke }];
        let frame = Rect::new(Point::new(live.left(), live.top()), Size::new(live.width(), body.pitch()));
        let said = desk.set(wording.proof_back(), frame, &body, Align::TOP)?.tagged(Tag::Paragraph);
        pages.push(page(back_name, vec![said, Node::Artifact(items)]));
    }
    Ok(pages)
}

/// A cross 4 mm smaller than its room: inside a ring of that room while the sides lie no more than 2 mm apart.
fn cross(room: Rect) -> Vec<Item> {
    let centre = room.centre();
    let half = room.width().half() - Length::mm(2);
    let line = |dx: Length, dy: Length| Item::Line {
        from: centre.moved(-dx, -dy),
        to: centre.moved(dx, dy),
        stroke: ink::OUTLINE,
    };
    vec![line(half, Length::ZERO), line(Length::ZERO, half)]
}
