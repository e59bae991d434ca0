//! One slip: heading, name line, questions, choices.

use super::sized;
use crate::diag::Problem;
use crate::lesson::exit::{Check, Question, letter};
use crate::measure::{Count, Length, Point, Rect, Size};
use crate::number::Content;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Node, Tag};

/// The faces and lengths of a slip.
#[derive(Clone)]
pub(super) struct Look {
    title: Face,
    question: Face,
    choice: Face,
    name: Face,
    pictures: Option<Pictures>,
    line: Length,
    /// What a learner can do, line by line, below the name: on all slips or on none.
    goal: Vec<String>,
    /// Whether the date has a line of its own below the name: on all slips or on none.
    date_below: bool,
    /// For each question, whether its choices stand side by side: the same on all slips.
    beside: Vec<bool>,
}

/// Between questions at least, and between the parts of one.
const BETWEEN: Length = Length::mm100(350);
const WITHIN: Length = Length::mm100(150);
/// A line to write a date on.
const DATE: Length = Length::mm(26);
/// Between one ring and the next below it.
const RINGS: Length = Length::mm100(180);

impl Look {
    pub(super) fn new(
        desk: &Desk<'_>,
        layout: &Layout,
        pictures: Option<Pictures>,
        size: Length,
        width: Length,
        checks: &[Check],
    ) -> Result<Self, Problem> {
        let mut look = Self {
            title: desk.face(layout, "title")?,
            question: sized(desk.face(layout, "question")?, size),
            choice: sized(desk.face(layout, "choice")?, size),
            name: desk.face(layout, "name")?,
            pictures,
            line: layout.length("line")?,
            goal: text::wrap(desk.family, &desk.lesson.can(), width, &desk.face(layout, "name")?),
            date_below: false,
            beside: Vec::new(),
        };
        look.date_below = checks.iter().any(|check| !look.has_date_behind(desk, width, check));
        let most = checks.iter().map(|check| check.questions.len()).max().unwrap_or(0);
        let room = width - look.number();
        look.beside = (0..most)
            .map(|k| checks.iter().filter_map(|check| check.questions.get(k)).all(|q| look.goes_beside(desk, room, q)))
            .collect();
        Ok(look)
    }

    /// Whether a date has room behind the heading of a slip.
    fn has_date_behind(&self, desk: &Desk<'_>, width: Length, check: &Check) -> bool {
        let heading = desk.width(&desk.lesson.wording().check_title(check.mark), &self.title);
        heading + Length::mm(6) <= width - self.date(desk)
    }

    /// How wide the label of the date and its line are together.
    fn date(&self, desk: &Desk<'_>) -> Length {
        desk.width(desk.lesson.wording().date_label(), &self.name) + DATE + Length::mm(1) * 2
    }

    /// Whether every choice of a question stands on one line in its third of the width.
    fn goes_beside(&self, desk: &Desk<'_>, width: Length, question: &Question) -> bool {
        let widest = question.choices.iter().map(|choice| desk.width(shown(&choice.content), &self.choice)).max();
        let column = width.scaled(1, question.choices.len().max(1).wide());
        widest.is_some_and(|widest| self.beside_ring() + widest + Length::mm(4) <= column)
    }

    /// The ring around a choice's letter.
    fn ring(&self) -> Length {
        self.choice.least.scaled(62, 100)
    }

    /// From one row of choices to the next.
    fn row(&self) -> Length {
        (self.ring() * 2 + RINGS).max(self.choice.pitch())
    }

    /// From the left edge of a choice to its text.
    fn beside_ring(&self) -> Length {
        self.ring() * 2 + Length::mm(2)
    }

    /// The room that a question's number takes at the left.
    pub(super) fn number(&self) -> Length {
        number(self.question.size)
    }

    /// How high heading, name line and goal stand together, and what is free below them.
    fn top(&self) -> Length {
        self.named() + text::height(self.goal.len(), &self.name) + Length::mm(2)
    }

    /// How high heading and the lines for name and date stand together.
    fn named(&self) -> Length {
        let date = if self.date_below { Length::mm(1) + self.name.pitch() } else { Length::ZERO };
        self.title.pitch() + Length::mm(1) + self.name.pitch() + date
    }

    /// The same look with other pictures, which are no higher.
    pub(super) fn with_pictures(&self, pictures: Pictures) -> Self {
        Self { pictures: Some(pictures), ..self.clone() }
    }

    /// How high the pictures are, where there are any.
    pub(super) fn pictured(&self) -> Option<Length> {
        self.pictures.as_ref().map(|pictures| pictures.work().size().height)
    }

    /// The same look without the goal, for slips that are full.
    pub(super) fn without_goal(self) -> Self {
        Self { goal: Vec::new(), ..self }
    }
}

/// The room that a question's number takes at the left of words of this size.
pub(super) fn number(size: Length) -> Length {
    size.scaled(13, 10)
}

/// How high the first `questions` of a check stand in this width; `None` where a word is wider than the slip.
pub(super) fn height(desk: &Desk<'_>, look: &Look, width: Length, check: &Check, questions: usize) -> Option<Length> {
    if desk.width(&desk.lesson.wording().check_title(check.mark), &look.title) > width {
        return None;
    }
    let mut high = look.top();
    for (k, question) in check.questions.iter().take(questions).enumerate() {
        high += BETWEEN + part(desk, look, width - look.number(), k, question)?;
    }
    Some(high)
}

/// How high one question stands.
fn part(desk: &Desk<'_>, look: &Look, width: Length, k: usize, question: &Question) -> Option<Length> {
    let mut high = paragraph(desk, &question.sentence, width, &look.question)?;
    match &question.shown {
        Some(Content::Blocks(_)) => high += WITHIN * 2 + look.pictures.as_ref()?.work().size().height,
        Some(Content::Text(_) | Content::Both(_)) => {
            for text in question.shown.iter().flat_map(Content::texts) {
                high += WITHIN + paragraph(desk, text, width, &look.choice)?;
            }
        }
        None => {}
    }
    if question.choices.is_empty() {
        return Some(high + look.line);
    }
    if look.beside.get(k).copied().unwrap_or(false) {
        return Some(high + WITHIN + look.row());
    }
    let mut lines = Length::ZERO;
    for choice in &question.choices {
        let room = width - look.beside_ring();
        lines += (paragraph(desk, shown(&choice.content), room, &look.choice)? + RINGS).max(look.row());
    }
    Some(high + WITHIN + lines)
}

/// How high a text stands, if no word of it is wider than `width`.
fn paragraph(desk: &Desk<'_>, text: &str, width: Length, face: &Face) -> Option<Length> {
    let lines = text::wrap(desk.family, text, width, face);
    lines.iter().all(|line| desk.width(line, face) <= width).then(|| text::height(lines.len(), face))
}

fn shown(content: &Content) -> &str {
    content.line().unwrap_or_default()
}

/// The slip's own heading: what it is and which of the lesson's checks.
pub(super) fn heading(desk: &Desk<'_>, look: &Look, frame: Rect, check: &Check) -> Result<Node, Problem> {
    let strip = Rect::new(frame.origin(), Size::new(frame.width(), look.title.pitch()));
    Ok(desk
        .set(&desk.lesson.wording().check_title(check.mark), strip, &look.title, Align::TOP)?
        .tagged(Tag::Heading(1)))
}

/// Draws a slip below its heading into its frame.
pub(super) fn draw(
    desk: &Desk<'_>,
    look: &Look,
    frame: Rect,
    check: &Check,
    questions: usize,
) -> Result<Vec<Node>, Problem> {
    let top = frame.top() + look.title.pitch() + Length::mm(1);
    let mut nodes = write_line(desk, look, frame, top, desk.lesson.wording().name_label());
    if look.date_below {
        let below = top + look.name.pitch() + Length::mm(1);
        nodes.extend(write_line(desk, look, frame, below, desk.lesson.wording().date_label()));
    } else {
        nodes.extend(date_line(desk, look, frame, check));
    }
    if !look.goal.is_empty() {
        let origin = Point::new(frame.left(), frame.top() + look.named() + Length::mm(1));
        let room = Rect::between(origin, Point::new(frame.right(), frame.bottom()));
        nodes.push(text::run(desk.family, &look.goal, room, &look.name).tagged(Tag::Paragraph));
    }
    let needed = height(desk, look, frame.width(), check, questions).unwrap_or(frame.height());
    let count = questions.min(check.questions.len()).max(1).wide();
    // What is left is shared out between the questions, evenly down the slip.
    let extra = (frame.height() - needed).scaled(1, count).min(Length::mm(14)).max(Length::ZERO);
    let mut y = frame.top() + look.top();
    for (k, question) in check.questions.iter().take(questions).enumerate() {
        y += BETWEEN + if k == 0 { extra.half() } else { extra };
        let left = frame.left() + look.number();
        let room = Rect::between(Point::new(left, y), Point::new(frame.right(), frame.bottom()));
        let label = Rect::new(Point::new(frame.left(), y), Size::new(look.number(), look.question.pitch()));
        let number = text::run(desk.family, &[(k + 1).to_string()], label, &look.question).nodes();
        y = ask(desk, look, room, (k, number), question, &mut nodes)?;
    }
    Ok(nodes)
}

/// A line for a name or a date, as wide as the slip.
fn write_line(desk: &Desk<'_>, look: &Look, frame: Rect, top: Length, said: &str) -> Vec<Node> {
    let width = desk.width(said, &look.name) + Length::mm(1);
    let label = Rect::new(Point::new(frame.left(), top), Size::new(width, look.name.pitch()));
    let name = text::run(desk.family, &[said.to_owned()], label, &look.name);
    let base = name.base().unwrap_or(label.bottom()) + Length::pt(2);
    let (from, to) = (Point::new(label.right() + Length::mm(1), base), Point::new(frame.right(), base));
    let line = Node::artifact(Item::Line { from, to, stroke: ink::OUTLINE });
    vec![name.tagged(Tag::Paragraph), line]
}

/// The line for a date, behind the heading.
fn date_line(desk: &Desk<'_>, look: &Look, frame: Rect, check: &Check) -> Vec<Node> {
    let (wording, gap) = (desk.lesson.wording(), Length::mm(1));
    let said = wording.date_label();
    let heading = wording.check_title(check.mark);
    let strip = Rect::new(frame.origin(), Size::new(frame.width(), look.title.pitch()));
    let title = text::run(desk.family, std::slice::from_ref(&heading), strip, &look.title);
    let label = desk.width(said, &look.name) + gap;
    let left = frame.right() - look.date(desk);
    let Some(base) = title.base() else { return Vec::new() };
    let room = Rect::between(Point::new(left, frame.top()), Point::new(left + label, frame.top() + look.title.pitch()));
    let align = Align { across: Across::Left, down: Down::Base(base - frame.top()) };
    let name = text::placed(desk.family, &[said.to_owned()], room, &look.name, align);
    let y = base + Length::pt(2);
    let (from, to) = (Point::new(left + label + gap, y), Point::new(frame.right(), y));
    vec![name.tagged(Tag::Paragraph), Node::artifact(Item::Line { from, to, stroke: ink::OUTLINE })]
}

/// Question `k`, whose number is set already, from the top of `room`; returns where it ends. For a listener the sentence with
/// its number is a heading, to go to from question to question, and each choice below it one paragraph: a list would say the
/// same with three elements a choice, and checks come by the hundreds.
fn ask(
    desk: &Desk<'_>,
    look: &Look,
    room: Rect,
    (k, mut number): (usize, Vec<Node>),
    question: &Question,
    nodes: &mut Vec<Node>,
) -> Result<Length, Problem> {
    let mut y = room.top();
    let set = |text: &str, y: Length, face: &Face| {
        let lines = text::wrap(desk.family, text, room.width(), face);
        let high = text::height(lines.len(), face);
        let frame = Rect::new(Point::new(room.left(), y), Size::new(room.width(), high));
        match desk.family.font(face.weight).lacks(text) {
            Some(missing) => Err(Problem::new(format!("the font has no `{missing}`, needed for `{text}`"))),
            None => Ok((text::run(desk.family, &lines, frame, face), high)),
        }
    };
    let (sentence, high) = set(&question.sentence, y, &look.question)?;
    number.extend(sentence.nodes());
    nodes.push(Node::Tagged(Tag::Heading(2), number));
    y += high;
    match (&question.shown, &look.pictures) {
        (Some(Content::Blocks(counts)), Some(pictures)) => {
            let size = pictures.work().size();
            y += WITHIN;
            let area = Rect::new(Point::new(room.left(), y), Size::new(room.width(), size.height));
            nodes.push(pictures.figure(*counts, area));
            y += size.height + WITHIN;
        }
        (Some(content @ (Content::Text(_) | Content::Both(_))), _) => {
            for text in content.texts() {
                let (shown, high) = set(text, y + WITHIN, &look.choice)?;
                nodes.push(desk.spoken(question.task.shown(), shown.tagged(Tag::Paragraph)));
                y += WITHIN + high;
            }
        }
        (Some(Content::Blocks(_)) | None, _) => {}
    }
    if question.choices.is_empty() {
        let base = y + look.line - Length::mm(2);
        let (from, to) = (Point::new(room.left(), base), Point::new(room.right(), base));
        nodes.push(Node::artifact(Item::Line { from, to, stroke: ink::OUTLINE }));
        return Ok(y + look.line);
    }
    y += WITHIN;
    let beside = look.beside.get(k).copied().unwrap_or(false);
    let step = room.width().scaled(1, question.choices.len().wide());
    let mut x = room.left();
    for (place, choice) in (0_u8..).zip(&question.choices) {
        let width = if beside { step } else { room.width() } - look.beside_ring();
        let lines = text::wrap(desk.family, shown(&choice.content), width, &look.choice);
        let high = (text::height(lines.len(), &look.choice) + RINGS).max(look.row());
        let centre = Point::new(x + look.ring(), y + look.row().half());
        nodes.push(marked(desk, look, centre, letter(place), &lines, width));
        if beside {
            x += step;
        } else {
            y += high;
        }
    }
    if beside {
        y += look.row();
    }
    Ok(y)
}

/// A choice: its letter in a ring, and its text with the first line level with the letter.
fn marked(desk: &Desk<'_>, look: &Look, centre: Point, letter: char, lines: &[String], width: Length) -> Node {
    let face = look.choice.at(look.choice.least);
    // The letter's ink is in the middle of the ring, whatever room the font leaves beside it.
    let text = letter.to_string();
    let ink = desk.family.font(face.weight).ink(&text, face.size, Point::ORIGIN).unwrap_or_default();
    let base = centre.moved(-ink.centre().x, -ink.centre().y);
    let frame = Rect::new(Point::new(base.x, base.y - face.size), Size::new(look.ring() * 2, face.size * 2));
    let align = Align { across: Across::Left, down: Down::Base(face.size) };
    let label = text::placed(desk.family, &[text], frame, &face, align);
    let circle = Item::Circle { centre, radius: look.ring(), fill: None, stroke: Some(ink::OUTLINE) };
    let cap = desk.family.font(look.choice.weight).cap_height(look.choice.size);
    let left = centre.x - look.ring() + look.beside_ring();
    let top = centre.y - look.choice.pitch().half();
    // Deep letters reach into what is free below.
    let high = text::height(lines.len(), &look.choice) + RINGS;
    let frame = Rect::new(Point::new(left, top), Size::new(width, high));
    let align = Align { across: Across::Left, down: Down::Base(look.choice.pitch().half() + cap.half()) };
    let said = text::placed(desk.family, lines, frame, &look.choice, align);
    Node::tagged(Tag::Paragraph, std::iter::once(Node::artifact(circle)).chain(label.nodes()).chain(said.nodes()))
}
