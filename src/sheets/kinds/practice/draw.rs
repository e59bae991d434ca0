//! How exercises are drawn: a number, a sentence, and below or beside it what is given and where the answer goes.

use crate::diag::Problem;
use crate::lesson::practice::{Exercise, PARTS};
use crate::measure::{Count, Length, Point, Rect, Size};
use crate::number::{Content, Form, Number, Style};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Node, Tag};
use crate::wording::practice::trade_gap;

/// Draws exercises of one width.
pub(super) struct Pen<'a> {
    desk: &'a Desk<'a>,
    style: &'a Style,
    ask: Face,
    given: Face,
    width: Length,
    /// The room that an exercise's number takes at the left.
    number: Length,
    within: Length,
    line: Length,
    gap: Length,
    padding: Length,
}

/// From words to a line beside them.
const BESIDE: Length = Length::mm(3);

impl<'a> Pen<'a> {
    pub(super) fn new(
        desk: &'a Desk<'a>,
        style: &'a Style,
        layout: &Layout,
        width: Length,
        ask: Face,
        given: Face,
    ) -> Result<Self, Problem> {
        Ok(Self {
            desk,
            style,
            ask,
            given,
            width,
            number: ask.size.scaled(15, 10),
            within: layout.length("within")?,
            line: layout.length("line")?,
            gap: layout.length("gap")?,
            padding: layout.padding,
        })
    }

    /// An exercise from its top left corner, and how high it is.
    pub(super) fn draw(&self, exercise: &Exercise, k: usize, at: Point) -> Result<(Vec<Node>, Length), Problem> {
        let (wording, style) = (self.desk.lesson.wording(), self.style);
        let numeral = |number: Number| style.numeral(number);
        let label = Rect::new(at, Size::new(self.number, self.ask.pitch()));
        let label = text::run(self.desk.family, &[k.to_string()], label, &self.ask).tagged(Tag::Label);
        let mut body = Body { pen: self, left: at.x + self.number, y: at.y, nodes: Vec::new() };
        match exercise {
            Exercise::Worth(of, place) => {
                body.sentence(&wording.worth_question(of.digit(*place), &numeral(*of)), &self.ask)?;
                body.answer();
            }
            Exercise::Places(of) => {
                body.sentence(wording.write_number(), &self.ask)?;
                let units = Form::Units.content(*of, style);
                body.y += self.within;
                body.sentence(&shown(units.as_ref()), &self.given)?;
                body.answer();
            }
            Exercise::Trade(of) => {
                let Some([left, (next, _)]) = Exercise::traded(*of) else { return Ok((Vec::new(), Length::ZERO)) };
                let (before, after) = trade_gap(wording, *of, left, next, style);
                body.gap(&before, &after)?;
            }
            Exercise::Compare(pairs) => {
                body.sentence(wording.compare_signs(), &self.ask)?;
                body.pairs(&pairs.iter().map(|(one, other)| [numeral(*one), numeral(*other)]).collect::<Vec<_>>())?;
            }
            Exercise::Order(numbers) => {
                body.sentence(wording.write_in_order(), &self.ask)?;
                body.order(&numbers.iter().map(|number| numeral(*number)).collect::<Vec<_>>())?;
            }
            Exercise::Line { from, step, at } => {
                body.sentence(wording.at_the_arrow(), &self.ask)?;
                let name = |value: u32| Number::new(value).map_or_else(|| value.to_string(), &numeral);
                body.line(&[name(*from), name(from + step * PARTS)], (at.value() - from) / step)?;
            }
            Exercise::Odd { shown, .. } => {
                body.sentence(wording.ring_the_odd(), &self.ask)?;
                body.choices(shown)?;
            }
        }
        let high = body.y - at.y;
        Ok((vec![label, Node::Tagged(Tag::ListBody, body.nodes)], high))
    }
}

fn shown(content: Option<&Content>) -> String {
    content.and_then(Content::line).map(str::to_owned).unwrap_or_default()
}

/// What stands beside an exercise's number, filled from the top.
struct Body<'p> {
    pen: &'p Pen<'p>,
    left: Length,
    y: Length,
    nodes: Vec<Node>,
}

impl Body<'_> {
    fn width(&self) -> Length {
        self.pen.width - self.pen.number
    }

    /// Words across the whole width.
    fn sentence(&mut self, words: &str, face: &Face) -> Result<(), Problem> {
        let family = self.pen.desk.family;
        text::settable(family, words, face)?;
        let lines = text::flow(family, words, self.width(), face);
        let high = text::height(lines.len(), face);
        let frame = Rect::new(Point::new(self.left, self.y), Size::new(self.width(), high));
        self.nodes.push(text::run(family, &lines, frame, face).tagged(Tag::Paragraph));
        self.y += high;
        Ok(())
    }

    /// A line to write an answer on: at the right of the last line of words where there is room, else below.
    fn answer(&mut self) {
        let last = self.last_base();
        let right = self.left + self.width();
        let beside = self.last_width() + BESIDE + self.pen.line <= self.width();
        let y = if beside { last + Length::pt(2) } else { self.y + self.pen.given.pitch() };
        let from = if beside { self.left + self.last_width() + BESIDE } else { self.left };
        let to = (from + self.pen.line * 2).min(right);
        self.nodes.push(rule(Point::new(from, y), to));
        self.y = self.y.max(y + Length::mm(1));
    }

    /// The base line of the last words.
    fn last_base(&self) -> Length {
        self.last().map_or(self.y, |text| text.0.y)
    }

    /// How far the last line of words reaches.
    fn last_width(&self) -> Length {
        self.last().map_or(Length::ZERO, |(at, wide)| at.x + wide - self.left)
    }

    fn last(&self) -> Option<(Point, Length)> {
        let mut last = None;
        for node in &self.nodes {
            node.each(&mut |item| {
                if let Item::Text(text) = item {
                    last = Some((text.at, self.pen.desk.family.font(text.weight).width(&text.text, text.size)));
                }
            });
        }
        last
    }

    /// An equation with a gap for one count: on one line, or what follows the gap on the next.
    fn gap(&mut self, before: &str, after: &str) -> Result<(), Problem> {
        let face = self.pen.given;
        self.sentence(before, &face)?;
        let from = self.left + self.last_width() + BESIDE.half();
        let base = self.last_base();
        let to = from + self.pen.gap;
        let rest = to + BESIDE.half();
        self.nodes.push(rule(Point::new(from, base + Length::pt(2)), to));
        if rest + self.pen.desk.width(after, &face) <= self.left + self.width() {
            let top = self.y - face.pitch();
            let frame = Rect::between(Point::new(rest, top), Point::new(self.left + self.width(), self.y));
            let run = text::run(self.pen.desk.family, &[after.to_owned()], frame, &face);
            self.nodes.push(run.tagged(Tag::Paragraph));
            return Ok(());
        }
        self.sentence(after, &face)
    }

    /// Pairs of numerals with a ring between, side by side as far as they fit.
    fn pairs(&mut self, pairs: &[[String; 2]]) -> Result<(), Problem> {
        let (desk, face) = (self.pen.desk, self.pen.given);
        let ring = face.size.scaled(75, 100);
        let widest = pairs.iter().flatten().map(|text| desk.width(text, &face)).max().unwrap_or(Length::ZERO);
        // Room for what ink stands out of its advance.
        let widest = widest + Length::mm(1);
        let wide = widest * 2 + ring * 2 + BESIDE * 2;
        let across = (self.width() + BESIDE * 3).holds(wide + BESIDE * 3).index().clamp(1, pairs.len());
        let step = self.width().scaled(1, across.wide());
        let high = ring * 2;
        for row in pairs.chunks(across) {
            self.y += self.pen.within;
            for (k, [one, other]) in (0_i64..).zip(row) {
                let left = self.left + step * k;
                let centre = Point::new(left + widest + BESIDE + ring, self.y + ring);
                let cell = |x: Length| Rect::new(Point::new(x, self.y), Size::new(widest, high));
                let place = |across| Align { across, down: Down::Middle };
                self.nodes.push(desk.set(one, cell(left), &face, place(Across::Right))?.tagged(Tag::Paragraph));
                self.nodes.push(Node::artifact(Item::Circle {
                    centre,
                    radius: ring,
                    fill: None,
                    stroke: Some(ink::OUTLINE),
                }));
                let right = cell(centre.x + ring + BESIDE);
                self.nodes.push(desk.set(other, right, &face, place(Across::Left))?.tagged(Tag::Paragraph));
            }
            self.y += high;
        }
        Ok(())
    }

    /// Numerals in a row, and below them as many lines.
    fn order(&mut self, numerals: &[String]) -> Result<(), Problem> {
        let (desk, face) = (self.pen.desk, self.pen.given);
        let step = self.width().scaled(1, numerals.len().max(1).wide());
        self.y += self.pen.within;
        for (k, numeral) in (0_i64..).zip(numerals) {
            let frame = Rect::new(Point::new(self.left + step * k, self.y), Size::new(step - BESIDE * 2, face.pitch()));
            self.nodes.push(desk.set(numeral, frame, &face, Align::CENTRE)?.tagged(Tag::Paragraph));
        }
        self.y += face.pitch() * 2 + self.pen.within;
        for k in 0..numerals.len().wide() {
            let from = Point::new(self.left + step * k, self.y);
            self.nodes.push(rule(from, from.x + step - BESIDE * 2));
        }
        self.y += Length::mm(1);
        Ok(())
    }

    /// A line of equal parts with its ends named, an arrow at a mark, and a line to write on below the arrow.
    fn line(&mut self, ends: &[String; 2], mark: u32) -> Result<(), Problem> {
        let (desk, face) = (self.pen.desk, self.pen.given);
        let side = ends.iter().map(|end| desk.width(end, &face)).max().unwrap_or(Length::ZERO);
        let side = side.half().max(Length::mm(4)) + Length::mm(1);
        let (left, right) = (self.left + side, self.left + self.width() - side);
        let tick = Length::mm(3);
        let axis = self.y + self.pen.within + face.pitch() + Length::mm(1) + tick;
        let x = |k: u32| left + (right - left).scaled(i64::from(k), i64::from(PARTS));
        let upright = |k: u32, long: Length| Item::Line {
            from: Point::new(x(k), axis - long),
            to: Point::new(x(k), axis + long),
            stroke: ink::OUTLINE,
        };
        let mut items =
            vec![Item::Line { from: Point::new(left, axis), to: Point::new(right, axis), stroke: ink::OUTLINE }];
        items.extend((0..=PARTS).map(|k| upright(k, if k % PARTS == 0 { tick } else { tick.scaled(6, 10) })));
        let tip = Point::new(x(mark), axis + tick);
        let wing = Length::mm(2);
        let shaft = Point::new(tip.x, tip.y + wing * 3);
        items.push(Item::Line { from: tip, to: shaft, stroke: ink::HEAVY });
        let corners =
            vec![tip, Point::new(tip.x - wing.half(), tip.y + wing), Point::new(tip.x + wing.half(), tip.y + wing)];
        items.push(Item::Polygon { points: corners, fill: Some(ink::TEXT), stroke: None });
        for (k, end) in [(0, &ends[0]), (PARTS, &ends[1])] {
            let corner = Point::new(x(k) - side, self.y + self.pen.within);
            let frame = Rect::new(corner, Size::new(side * 2, face.pitch()));
            self.nodes.push(desk.set(end, frame, &face, Align::CENTRE)?.tagged(Tag::Paragraph));
        }
        let told = desk.lesson.wording().line_told(&ends[0], &ends[1]);
        self.nodes.push(Node::Tagged(Tag::Figure(told), items.into_iter().map(Node::Item).collect()));
        let answer = shaft.y + face.pitch();
        let half = self.pen.gap.max(side);
        let start = (shaft.x - half).max(self.left).min(self.left + self.width() - half * 2);
        self.nodes.push(rule(Point::new(start, answer), start + half * 2));
        self.y = answer + Length::mm(1);
        Ok(())
    }

    /// Boxes with one content each, two in a row where they fit.
    fn choices(&mut self, contents: &[Content]) -> Result<(), Problem> {
        let (desk, face) = (self.pen.desk, self.pen.given);
        let texts: Vec<String> = contents.iter().map(|content| shown(Some(content))).collect();
        let pad = self.pen.padding * 2;
        let widest = Length::mm(1) + texts.iter().map(|text| desk.width(text, &face)).max().unwrap_or(Length::ZERO);
        let across = if widest + pad <= (self.width() - BESIDE).half() { 2 } else { 1 };
        let wide = if across == 2 { (self.width() - BESIDE).half() } else { self.width() };
        for row in texts.chunks(across) {
            self.y += self.pen.within;
            let lines =
                row.iter().map(|text| text::flow(desk.family, text, wide - pad, &face).len()).max().unwrap_or(1);
            let high = text::height(lines, &face) + self.pen.padding;
            for (k, said) in (0_i64..).zip(row) {
                let rect = Rect::new(Point::new(self.left + (wide + BESIDE) * k, self.y), Size::new(wide, high));
                self.nodes.push(Node::artifact(Item::Rect { rect, fill: None, stroke: Some(ink::OUTLINE) }));
                let corner = Point::new(rect.left() + self.pen.padding, rect.top());
                let frame = Rect::new(corner, Size::new(wide - pad, high));
                self.nodes.push(desk.set(said, frame, &face, Align::CENTRE)?.tagged(Tag::Paragraph));
            }
            self.y += high;
        }
        Ok(())
    }
}

/// A line to write on.
fn rule(from: Point, to: Length) -> Node {
    Node::artifact(Item::Line { from, to: Point::new(to, from.y), stroke: ink::OUTLINE })
}
