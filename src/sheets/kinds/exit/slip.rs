//! One slip: name line, questions, choices.

use crate::diag::Problem;
use crate::lesson::exit::{Check, Question, letter};
use crate::measure::{Length, Point, Rect, Size};
use crate::number::Content;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::kinds::exit::sized;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Align, Face};
use crate::sheets::page::{Item, Node, Tag};

/// The faces and lengths of a slip.
pub(super) struct Look {
    question: Face,
    choice: Face,
    name: Face,
    mark: Face,
    pictures: Option<Pictures>,
    line: Length,
}

/// Between questions, and between the parts of one.
const BETWEEN: Length = Length::mm100(250);
const WITHIN: Length = Length::mm100(100);

impl Look {
    pub(super) fn new(
        desk: &Desk<'_>,
        layout: &Layout,
        pictures: Option<Pictures>,
        size: Length,
    ) -> Result<Self, Problem> {
        Ok(Self {
            question: sized(desk.face(layout, "question")?, size),
            choice: sized(desk.face(layout, "choice")?, size),
            name: desk.face(layout, "name")?,
            mark: desk.face(layout, "mark")?,
            pictures,
            line: layout.length("line")?,
        })
    }

    /// The ring around a choice's letter.
    fn ring(&self) -> Length {
        self.choice.size.scaled(60, 100)
    }

    /// From one row of choices to the next.
    fn row(&self) -> Length {
        (self.ring() * 2 + Length::mm100(60)).max(self.choice.pitch())
    }

    /// From the left edge of a choice to its text.
    fn beside(&self) -> Length {
        self.ring() * 2 + Length::mm(2)
    }

    /// The room that a question's number takes at the left.
    fn number(&self) -> Length {
        number(self.question.size)
    }
}

/// The room that a question's number takes at the left of words of this size.
pub(super) fn number(size: Length) -> Length {
    size.scaled(13, 10)
}

/// How high the first `questions` of a check stand in this width; `None` where a word is wider than the slip.
pub(super) fn height(desk: &Desk<'_>, look: &Look, width: Length, check: &Check, questions: usize) -> Option<Length> {
    let mut high = look.name.pitch() + Length::mm(2);
    for question in check.questions.iter().take(questions) {
        high += BETWEEN + part(desk, look, width - look.number(), question)?;
    }
    Some(high)
}

/// How high one question stands.
fn part(desk: &Desk<'_>, look: &Look, width: Length, question: &Question) -> Option<Length> {
    let mut high = paragraph(desk, &question.sentence, width, &look.question)?;
    match &question.shown {
        Some(Content::Blocks(_)) => high += WITHIN * 2 + look.pictures.as_ref()?.work().size().height,
        Some(Content::Text(text)) => high += WITHIN + paragraph(desk, text, width, &look.choice)?,
        None => {}
    }
    if question.choices.is_empty() {
        return Some(high + look.line);
    }
    let (columns, lines) = columns(desk, look, width, question)?;
    let rows = i64::try_from(question.choices.len().div_ceil(columns)).ok()?;
    Some(high + WITHIN + if columns > 1 { look.row() * rows } else { lines })
}

/// How high a text stands, if no word of it is wider than `width`.
fn paragraph(desk: &Desk<'_>, text: &str, width: Length, face: &Face) -> Option<Length> {
    let lines = text::wrap(desk.family, text, width, face);
    lines.iter().all(|line| desk.width(line, face) <= width).then(|| text::height(lines.len(), face))
}

/// Into how many columns the choices go: as many as hold each choice on one line; and how high they stand in one column.
fn columns(desk: &Desk<'_>, look: &Look, width: Length, question: &Question) -> Option<(usize, Length)> {
    let texts = || question.choices.iter().map(|choice| shown(&choice.content));
    let widest = texts().map(|text| desk.width(text, &look.choice)).max()?;
    let holds = |columns: &usize| {
        let column = width.scaled(1, i64::try_from(*columns).unwrap_or(1));
        widest + look.beside() + Length::mm(2) <= column
    };
    // Three choices never stand two and one: that would look like a missing fourth.
    let even = |columns: &usize| question.choices.len().is_multiple_of(*columns);
    if let Some(columns) = [4, 3, 2].into_iter().filter(even).find(holds) {
        return Some((columns, Length::ZERO));
    }
    let mut high = Length::ZERO;
    for text in texts() {
        high += paragraph(desk, text, width - look.beside(), &look.choice)?.max(look.row());
    }
    Some((1, high))
}

fn shown(content: &Content) -> &str {
    match content {
        Content::Text(text) => text,
        Content::Blocks(_) => "",
    }
}

/// Draws a slip into its frame.
pub(super) fn draw(
    desk: &Desk<'_>,
    look: &Look,
    frame: Rect,
    check: &Check,
    questions: usize,
) -> Result<Vec<Node>, Problem> {
    let mut nodes = top(desk, look, frame, check)?;
    let needed = height(desk, look, frame.width(), check, questions).unwrap_or(frame.height());
    let count = i64::try_from(questions.min(check.questions.len())).unwrap_or(1).max(1);
    // What is left is shared out between the questions, up to a line each.
    let extra = (frame.height() - needed).scaled(1, count).min(Length::mm(6)).max(Length::ZERO);
    let mut y = frame.top() + look.name.pitch() + Length::mm(2);
    for (k, question) in (1..).zip(check.questions.iter().take(questions)) {
        y += BETWEEN + if k == 1 { extra.half() } else { extra };
        let left = frame.left() + look.number();
        let room = Rect::between(Point::new(left, y), Point::new(frame.right(), frame.bottom()));
        let label = Rect::new(Point::new(frame.left(), y), Size::new(look.number(), look.question.pitch()));
        let number = text::run(desk.family, &[k.to_string()], label, &look.question).tagged(Tag::Label);
        let mut body = Vec::new();
        y = ask(desk, look, room, question, &mut body)?;
        nodes.push(Node::tagged(Tag::List, [Node::tagged(Tag::ListItem, [number, Node::Tagged(Tag::ListBody, body)])]));
    }
    Ok(nodes)
}

/// The name line and the check's number in the corner.
fn top(desk: &Desk<'_>, look: &Look, frame: Rect, check: &Check) -> Result<Vec<Node>, Problem> {
    let high = look.name.pitch();
    let side = Length::mm(8);
    let corner = Rect::new(Point::new(frame.right() - side, frame.top()), Size::new(side, side));
    let mark = desk.set(&check.mark.to_string(), corner, &look.mark, Align::CENTRE)?;
    let label = Rect::new(frame.origin(), Size::new(desk.width("Name", &look.name) + Length::mm(1), high));
    let name = text::run(desk.family, &["Name".to_owned()], label, &look.name);
    let base = name.base().unwrap_or(label.bottom()) + Length::pt(2);
    let line = Item::Line {
        from: Point::new(label.right() + Length::mm(1), base),
        to: Point::new(corner.left() - Length::mm(3), base),
        stroke: ink::OUTLINE,
    };
    let edge = Item::Rect { rect: corner, fill: None, stroke: Some(ink::OUTLINE) };
    Ok(vec![name.tagged(Tag::Paragraph), Node::Artifact(vec![line, edge]), mark.tagged(Tag::Paragraph)])
}

/// One question from the top of `room`; returns where it ends.
fn ask(
    desk: &Desk<'_>,
    look: &Look,
    room: Rect,
    question: &Question,
    nodes: &mut Vec<Node>,
) -> Result<Length, Problem> {
    let mut y = room.top();
    let set = |text: &str, y: Length, left: Length, face: &Face| {
        let lines = text::wrap(desk.family, text, room.right() - left, face);
        let high = text::height(lines.len(), face);
        let frame = Rect::new(Point::new(left, y), Size::new(room.right() - left, high));
        match desk.family.font(face.weight).lacks(text) {
            Some(missing) => Err(Problem::new(format!("the font has no `{missing}`, needed for `{text}`"))),
            None => Ok((text::run(desk.family, &lines, frame, face).tagged(Tag::Paragraph), high)),
        }
    };
    let (node, high) = set(&question.sentence, y, room.left(), &look.question)?;
    nodes.push(node);
    y += high;
    match (&question.shown, &look.pictures) {
        (Some(Content::Blocks(counts)), Some(pictures)) => {
            let size = pictures.work().size();
            y += WITHIN;
            let area = Rect::new(Point::new(room.left(), y), Size::new(room.width(), size.height));
            nodes.push(pictures.figure(*counts, area));
            y += size.height + WITHIN;
        }
        (Some(Content::Text(text)), _) => {
            let (node, high) = set(text, y + WITHIN, room.left(), &look.choice)?;
            nodes.push(node);
            y += WITHIN + high;
        }
        _ => {}
    }
    if question.choices.is_empty() {
        let base = y + look.line - Length::mm(2);
        let (from, to) = (Point::new(room.left(), base), Point::new(room.right(), base));
        nodes.push(Node::artifact(Item::Line { from, to, stroke: ink::OUTLINE }));
        return Ok(y + look.line);
    }
    y += WITHIN;
    let (columns, _) = columns(desk, look, room.width(), question)
        .ok_or_else(|| Problem::new("internal: a choice was never measured").hint("please report this"))?;
    let mut items = Vec::new();
    for (row, choices) in question.choices.chunks(columns).enumerate() {
        let mut high = look.row();
        for (column, choice) in choices.iter().enumerate() {
            let step = room.width().scaled(1, i64::try_from(columns).unwrap_or(1));
            let left = room.left() + step * i64::try_from(column).unwrap_or(0);
            let k = u8::try_from(row * columns + column).unwrap_or(0);
            let centre = Point::new(left + look.ring(), y + look.row().half());
            let lines =
                text::wrap(desk.family, shown(&choice.content), room.right() - left - look.beside(), &look.choice);
            high = high.max(text::height(lines.len(), &look.choice));
            // The first line stands level with the letter in its ring.
            let top = centre.y - look.choice.pitch().half();
            let frame = Rect::new(
                Point::new(left + look.beside(), top),
                Size::new(room.right() - left - look.beside(), text::height(lines.len(), &look.choice)),
            );
            let ring = Rect::new(centre.moved(-look.ring(), -look.ring()), Size::new(look.ring() * 2, look.ring() * 2));
            let mark = Face { weight: crate::measure::Weight::Regular, ..look.choice.at(look.choice.least) };
            let label = desk.set(&letter(k).to_string(), ring, &mark, Align::CENTRE)?.tagged(Tag::Label);
            let circle = Item::Circle { centre, radius: look.ring(), fill: None, stroke: Some(ink::OUTLINE) };
            let text = text::run(desk.family, &lines, frame, &look.choice).tagged(Tag::ListBody);
            items.push(Node::tagged(Tag::ListItem, [Node::artifact(circle), label, text]));
        }
        y += high;
    }
    nodes.push(Node::Tagged(Tag::List, items));
    Ok(y)
}
