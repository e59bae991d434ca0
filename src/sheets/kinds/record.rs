//! The recording sheet: one row a number, to draw, to write as a sum and to write in words.
//!
//! In: the model numbers, or without them each version's sort numbers. Out: pages of equal rows. Words are written on
//! primary handwriting lines: a top line, a dashed middle, a base line and a line for what hangs below, as high as the
//! grade writes. Rows left over on the last page carry no number: they are for numbers of the learner's own.

use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::number::{Form, Number};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::{Grid, share};
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Stroke, Tag};
use crate::spec::{SheetKind, Spec};

/// Lays the sheets out.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let chosen = &desk.lesson.chosen;
    if !chosen.model.is_empty() {
        return pages(desk, &chosen.model);
    }
    let mut all = Vec::new();
    for set in &desk.lesson.sets {
        all.extend(pages(desk, &set.rows)?.into_iter().map(|page| desk.versioned(page, set.version)));
    }
    Ok(all)
}

/// Whether rows are left over after the model numbers for numbers of the learner's own.
pub fn own_rows(desk: &Desk<'_>) -> Result<bool, Problem> {
    leaves_rows(desk, &desk.lesson.chosen.model)
}

/// Whether the pages of these numbers have more rows than numbers.
fn leaves_rows(desk: &Desk<'_>, numbers: &[Number]) -> Result<bool, Problem> {
    let (_, rows) = fit(desk, numbers)?;
    Ok(share(numbers.len().narrow(), rows, 1).into_iter().any(|here| here < rows))
}

/// How rows look.
struct RowLook<'a> {
    layout: &'a Layout,
    numeral: Face,
    label: Face,
    /// From top line to base line.
    high: Length,
    /// Handwriting lines a row.
    lines: u32,
    /// How wide the numerals' column is.
    side: Length,
    /// Whether there is room to draw: not for numbers above the block pictures.
    draw: bool,
}

/// A row's own gaps.
const GAP: Length = Length::mm(2);

/// Whether any learner's sheet has a row for a number of the learner's own.
pub fn has_own_numbers(desk: &Desk<'_>) -> Result<bool, Problem> {
    let all = if desk.lesson.chosen.model.is_empty() {
        desk.lesson.sets.iter().map(|set| set.rows.as_slice()).collect()
    } else {
        vec![desk.lesson.chosen.model.as_slice()]
    };
    for numbers in all {
        if leaves_rows(desk, numbers)? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// How rows look, and how many a page takes.
fn fit<'a>(desk: &Desk<'a>, numbers: &[Number]) -> Result<(RowLook<'a>, u32), Problem> {
    let layout = desk.layout(SheetKind::Record)?;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let body = headed(desk, layout, size, (1, 1))?.body;
    let mut look = RowLook {
        layout,
        numeral: desk.face(layout, "numeral")?,
        label: desk.face(layout, "label")?,
        high: writing(layout, &desk.lesson.spec)?,
        lines: 1,
        side: layout.length("numeral")?,
        draw: numbers.iter().all(|n| *n <= Number::MAX_BLOCKS),
    };
    let least = look.numeral.at(look.numeral.least);
    let widest = numbers.iter().map(|n| desk.width(&desk.lesson.style.numeral(*n), &least)).max();
    look.side = look.side.max(widest.unwrap_or(Length::ZERO) + layout.padding * 2 + Length::mm(1));
    look.lines = lines(desk, &look, body.width() - layout.padding * 2, numbers);
    let least = look.least()?;
    let gutter = layout.grid.gutter;
    let rows = (body.height() + gutter).holds(least + gutter).narrow();
    if rows == 0 {
        return Err(Problem::new(format!(
            "a row of the recording sheet needs {least} and the page has {}",
            body.height()
        ))
        .hint("choose larger paper"));
    }
    Ok((look, rows.min(layout.grid.rows.1)))
}

fn pages(desk: &Desk<'_>, numbers: &[Number]) -> Result<Vec<Page>, Problem> {
    let (look, rows) = fit(desk, numbers)?;
    let layout = look.layout;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let counts = share(numbers.len().narrow(), rows, 1);
    let mut left = numbers;
    let mut pages = Vec::new();
    for (k, &here) in counts.iter().enumerate() {
        let (these, rest) = left.split_at(here.index().min(left.len()));
        left = rest;
        let headed = headed(desk, layout, size, (k + 1, counts.len()))?;
        let grid = Grid::filling(headed.body, 1, rows, layout.grid.gutter);
        let mut layer = Layer::default();
        for (cell, number) in grid.cells().zip(these.iter().copied().map(Some).chain(std::iter::repeat(None))) {
            layer.nodes.extend(look.row(desk, cell, number)?);
            layer.boxes.push(cell);
        }
        pages.push(desk.finish(SheetKind::Record, size, layout.stock, headed, layer));
    }
    Ok(pages)
}

/// Heading and foot of page `k` of so many.
fn headed(desk: &Desk<'_>, layout: &Layout, page: Size, number: (usize, usize)) -> Result<Headed, Problem> {
    let title = head::numbered(desk, SheetKind::Record, number);
    let goal = desk.lesson.can();
    let head = Head { title: &title, note: None, reader: Reader::Learner, code: true, goal: Some(&goal) };
    head::lay(desk, desk.live(page, layout), &head)
}

/// The height of writing for the grade; where the file names none, for the size of the numbers.
fn writing(layout: &Layout, spec: &Spec) -> Result<Length, Problem> {
    let grade = spec.grade.as_ref().map(|grade| grade.value.trim().to_lowercase());
    let figure = |text: &str| {
        let digits: String =
            text.chars().skip_while(|c| !c.is_ascii_digit()).take_while(char::is_ascii_digit).collect();
        digits.parse::<u32>().ok()
    };
    let grade = match grade {
        Some(text) => figure(&text).or_else(|| text.starts_with('k').then_some(0)),
        None => None,
    };
    // Where number words end in the grades: 120 in grade 1 and 1,000 in grade 2 (CCSSM 1.NBT.A.1, 2.NBT.A.3).
    let most = spec.numbers.range.value.1.value();
    let grade = grade.unwrap_or(if most <= 120 {
        1
    } else if most <= 1_000 {
        2
    } else {
        3
    });
    layout.length(match grade {
        0 | 1 => "lines_first",
        2 => "lines_second",
        _ => "lines_third",
    })
}

/// How many handwriting lines the longest of the words need. A child's letters are about as wide as type whose capitals
/// reach the top line (common practice, no source).
fn lines(desk: &Desk<'_>, look: &RowLook<'_>, width: Length, numbers: &[Number]) -> u32 {
    let font = desk.family.font(look.label.weight);
    let cap = font.cap_height(Length::pt(100)).max(Length::pt(1));
    let em = Length::pt(100).scaled(look.high.to_raw(), cap.to_raw());
    let face = look.label.at(em.scaled(85, 100));
    let needed = |n: &Number| text::flow(desk.family, &desk.lesson.style.words(*n), width, &face).len();
    numbers.iter().map(needed).max().unwrap_or(1).narrow().max(1)
}

impl RowLook<'_> {
    /// What hangs below the base line: half of what stands above it.
    fn pitch(&self) -> Length {
        self.high + self.high.half() + Length::mm(2)
    }

    fn words(&self) -> Length {
        self.label.pitch() + self.pitch() * i64::from(self.lines)
    }

    fn top(&self) -> Result<Length, Problem> {
        if self.draw { self.layout.length("draw") } else { Ok(self.label.pitch() + self.high + Length::mm(6)) }
    }

    /// The least height of a row.
    fn least(&self) -> Result<Length, Problem> {
        Ok(self.top()? + self.words() + GAP + self.layout.padding * 2)
    }

    /// One row: for a listener a heading, and what is to be done below it.
    fn row(&self, desk: &Desk<'_>, cell: Rect, number: Option<Number>) -> Result<Vec<Node>, Problem> {
        let [own, draw] = desk.lesson.wording().record_labels();
        let words = self.words() + self.layout.padding;
        let split = cell.bottom() - words - GAP;
        let top = Rect::between(cell.origin(), Point::new(cell.right(), split));
        let low = Rect::between(Point::new(cell.left(), split), Point::new(cell.right(), cell.bottom()));
        let side = self.side;
        // A single digit in expanded form is the digit.
        let sums = !(self.draw && desk.lesson.spec.numbers.counts_to_ten());
        let sum = match (sums, self.draw) {
            (false, _) => Length::ZERO,
            (true, true) => self.layout.length("expanded")?,
            (true, false) => cell.width() - side,
        };
        let given = Rect::new(top.origin(), Size::new(side, top.height()));
        let expanded = Rect::between(Point::new(top.right() - sum, top.top()), Point::new(top.right(), top.bottom()));
        let drawing = Rect::between(Point::new(given.right(), top.top()), Point::new(expanded.left(), top.bottom()));
        let mut nodes = Vec::new();
        let mut shapes = vec![Item::Rect { rect: given, fill: Some(ink::SHADE), stroke: None }];
        let pad = Sides::splat(self.layout.padding);
        match number {
            Some(number) => {
                let numeral = desk.lesson.style.numeral(number);
                nodes
                    .push(desk.set(&numeral, given.shrunk(pad), &self.numeral, Align::CENTRE)?.tagged(Tag::Heading(2)));
            }
            None => nodes.push(self.label(desk, given, own, Tag::Heading(2))?),
        }
        if self.draw {
            nodes.push(self.label(desk, drawing, draw, Tag::Paragraph)?);
            shapes.push(upright(drawing.left(), top));
        }
        if sums {
            nodes.push(self.label(desk, expanded, desk.lesson.form_heading(Form::Expanded), Tag::Paragraph)?);
            shapes.push(upright(expanded.left(), top));
        }
        let base = expanded.bottom() - Length::mm(6);
        let line = |y: Length, from: Rect, stroke: Stroke| Item::Line {
            from: Point::new(from.left() + self.layout.padding, y),
            to: Point::new(from.right() - self.layout.padding, y),
            stroke,
        };
        shapes.extend(sums.then(|| line(base, expanded, ink::OUTLINE)));
        shapes.push(Item::Line {
            from: Point::new(cell.left(), split),
            to: Point::new(cell.right(), split),
            stroke: ink::OUTLINE,
        });
        nodes.push(self.label(desk, low, desk.lesson.form_heading(Form::Words), Tag::Paragraph)?);
        let mut y = low.top() + self.layout.padding + self.label.pitch();
        for _ in 0..self.lines {
            shapes.push(line(y, low, ink::FINE));
            shapes.push(line(y + self.high.half(), low, Stroke { dash: Some(MIDDLE), ..ink::FINE }));
            shapes.push(line(y + self.high, low, ink::OUTLINE));
            shapes.push(line(y + self.high + self.high.half(), low, ink::FINE));
            y += self.pitch();
        }
        shapes.push(Item::Rect { rect: cell, fill: None, stroke: Some(ink::OUTLINE) });
        // Shapes first, so that no ground covers a letter.
        nodes.insert(0, Node::Artifact(shapes));
        Ok(nodes)
    }

    /// A small label in the top left corner of an area.
    fn label(&self, desk: &Desk<'_>, area: Rect, text: &str, tag: Tag) -> Result<Node, Problem> {
        let near = self.layout.padding.half();
        let frame = area.shrunk(Sides { left: self.layout.padding, ..Sides::splat(near) });
        let align = Align { across: Across::Left, down: Down::Top };
        Ok(desk.set(text, frame, &self.label, align)?.tagged(tag))
    }
}

/// The dashes of the middle line.
const MIDDLE: (Length, Length) = (Length::pt(5), Length::pt(4));

fn upright(x: Length, area: Rect) -> Item {
    Item::Line { from: Point::new(x, area.top()), to: Point::new(x, area.bottom()), stroke: ink::OUTLINE }
}
