//! A slip-sheet: it parts what was printed before it from what comes after, and says in large letters what that is.

use crate::diag::Problem;
use crate::lesson::job::{PartKind, Stock};
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::sheets::kinds::ticket::told;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::{self, Align};
use crate::sheets::page::{Item, Layer, Node, Page, Tag};
use crate::spec::SheetKind;

/// The sheet before a part of a file, which takes these sheets of it.
pub fn page(
    desk: &Desk<'_>,
    file: &str,
    stock: Stock,
    part: &PartKind,
    sheets: (usize, usize),
) -> Result<Page, Problem> {
    let layout = desk.layout(SheetKind::Ticket)?;
    let size = desk.lesson.spec.paper.value.size();
    let live = desk.printable(size).shrunk(Sides::splat(Length::mm(8)));
    let (large, medium, body) =
        (desk.face(layout, "slip_sheet")?, desk.face(layout, "job")?, desk.face(layout, "text")?);
    let wording = desk.lesson.wording();
    let mut nodes = Vec::new();
    let mut y = live.top();
    let title = wording.slip_sheet_title();
    let says = [
        (wording.capital(&told(part, wording)), large, Tag::Heading(1)),
        (wording.slip_sheet_of(file, sheets), medium, Tag::Paragraph),
        (desk.lesson.spec.title.value.clone(), body, Tag::Paragraph),
        (wording.slip_sheet_note().to_owned(), body, Tag::Paragraph),
    ];
    for (text, face, tag) in says {
        let lines = text::wrap(desk.family, &text, live.width(), &face);
        let frame = Rect::new(Point::new(live.left(), y), Size::new(live.width(), text::height(lines.len(), &face)));
        nodes.push(desk.set(&text, frame, &face, Align::TOP)?.tagged(tag));
        y = frame.bottom() + Length::mm(4);
    }
    // A band along the outer edge shows in the pile where the sheet is.
    let printable = desk.printable(size);
    let edge = Rect::between(
        Point::new(printable.right() - Length::mm(5), printable.top()),
        Point::new(printable.right(), printable.bottom()),
    );
    nodes.push(Node::Artifact(vec![Item::Rect { rect: edge, fill: Some(ink::SHADE), stroke: None }]));
    let layers = vec![Layer { nodes, ..Layer::default() }.into()];
    let name = title.to_owned();
    Ok(Page { size, sheet: SheetKind::Ticket, version: None, learner: None, stock, name, layers })
}
