//! How the cover is set: its type, its sections one below the other or side by side, and its lines to write on.

use crate::diag::Problem;
use crate::measure::{Count, Length, Point, Rect, Size};
use crate::sheets::flow::column::Column;
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Node, Page, Tag};
use crate::spec::SheetKind;

/// How closely the page is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Set {
    size: Scale,
    /// What is added to the gap above each section, up to the gap of the roomiest.
    air: Length,
    /// Whether sections go beside the list of pages, where there is room for them.
    pub beside: bool,
}

/// How far sizes go towards the least.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Scale {
    /// At the sizes of the layout.
    Usual,
    /// Half way to the least sizes.
    Closer,
    /// At the least sizes.
    Close,
}

impl Set {
    const fn at(size: Scale, beside: bool) -> Self {
        Self { size, air: Length::ZERO, beside }
    }

    /// From the roomiest to the closest.
    pub const ALL: [Self; 6] = [
        Self::at(Scale::Usual, false),
        Self::at(Scale::Usual, true),
        Self::at(Scale::Closer, false),
        Self::at(Scale::Closer, true),
        Self::at(Scale::Close, false),
        Self::LAST,
    ];
    /// The closest.
    pub const LAST: Self = Self::at(Scale::Close, true);

    /// The same with more room above each section; `None` where they have the most.
    pub fn airy(self, air: Length) -> Option<Self> {
        (self.size != Scale::Usual).then_some(Self { air, ..self })
    }

    /// Between a size and its least.
    fn of(self, size: Length, least: Length) -> Length {
        match self.size {
            Scale::Usual => size,
            Scale::Closer => (size + least).half(),
            Scale::Close => least,
        }
    }
}

/// A heading with short sentences below it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Section {
    pub title: &'static str,
    pub items: Vec<String>,
}

/// The faces and lengths of the cover.
#[derive(Debug, Clone, Copy)]
pub(super) struct CoverLook {
    section: Face,
    pub body: Face,
    pub small: Face,
    pub figures: Length,
    pub copies: Length,
    line: Length,
    pub between: Length,
    pub gutter: Length,
}

/// The cover while it is being filled.
pub(super) struct CoverForm<'a> {
    pub desk: &'a Desk<'a>,
    pub flow: Flow<'a>,
    pub look: CoverLook,
    pub set: Set,
}

/// Between the heading of a section and what it heads.
pub(super) const BELOW: Length = Length::mm(1);

impl<'a> CoverForm<'a> {
    /// An empty first page with its heading.
    pub fn new(desk: &'a Desk<'a>, set: Set) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Cover)?;
        let face = |name| desk.face(layout, name).map(|face| face.at(set.of(face.size, face.least)));
        let between = layout.length("section")?;
        let look = CoverLook {
            section: face("section")?,
            body: face("body")?,
            small: face("small")?.painted(ink::QUIET),
            figures: layout.length("figures")?,
            copies: layout.length("copies")?,
            line: set.of(layout.length("line")?, layout.length("least_line")?),
            between: (set.of(between, layout.length("least_section")?) + set.air).min(between),
            gutter: layout.grid.gutter,
        };
        let (spec, wording) = (&desk.lesson.spec, desk.lesson.wording());
        let grade = spec.grade.as_ref().map(|grade| grade.value.as_str());
        let note = wording.cover_note(spec.minutes.value, spec.class.learners.value, grade);
        let first = Heading { title: wording.cover_heading(&spec.title.value), note: Some(note) };
        let later = Heading { title: wording.cover_again().to_owned(), note: None };
        let flow = Flow::new(desk, Setup { kind: SheetKind::Cover, layout, first, later, widest: None })?;
        Ok(Self { desk, flow, look, set })
    }

    /// The finished pages, with a last paragraph, and the room that is left below it.
    pub fn end(mut self, last: &str) -> Result<(Vec<Page>, Length), Problem> {
        self.flow.gap(BELOW * 2);
        self.flow.text(last, &self.look.body)?;
        let left = self.flow.left();
        Ok((self.flow.finish()?, left))
    }

    /// Half the page's width, less half the gutter.
    pub fn half(&self) -> Length {
        (self.flow.frame().width() - self.look.gutter).half()
    }

    /// How high the heading of a section is with the room below it.
    pub fn head_high(&self) -> Length {
        self.look.section.pitch() + BELOW
    }

    /// Heads what stands at `x` from the left edge in a column of half the page, with no line broken.
    pub fn head_beside(&mut self, title: &str, y: Length, x: Length) -> Result<Node, Problem> {
        let mut column = *self.flow.column();
        column.y = y;
        column.beside(title, &self.look.section, x, self.half(), Tag::Heading(2))
    }

    /// Heads what comes next.
    pub fn section(&mut self, title: &str) {
        let (text, above) = (title.to_owned(), self.look.between);
        self.flow.lead(Lead { text, face: self.look.section, tag: Tag::Heading(2), above, below: BELOW });
    }

    fn list_look(&self) -> ListLook {
        let (face, mark, indent) = (self.look.body, ListMark::Dot, Length::mm(5));
        ListLook { face, mark, indent, gap: Length::ZERO, whole: true }
    }

    /// A section over the whole width.
    pub fn list(&mut self, section: &Section) -> Result<(), Problem> {
        self.section(section.title);
        self.flow.list(&section.items, &self.list_look())
    }

    /// How high a section is in a column of half the page, with the gap above it.
    pub fn high_beside(&mut self, section: &Section) -> Length {
        let (column, look) = (self.column_beside(Length::ZERO, Length::ZERO), self.list_look());
        let items = section.items.iter().map(|item| look.gap + column.height(item, &look.face, look.indent));
        self.look.between + self.head_high() + items.sum::<Length>()
    }

    /// A section in a column of half the page, `x` from the left edge and from `y` down, where it fits. Gives where it ends.
    pub fn list_beside(&mut self, section: &Section, x: Length, y: Length) -> Result<Length, Problem> {
        let whole = *self.flow.column();
        *self.flow.column() = self.column_beside(x, y);
        self.list(section)?;
        let end = self.flow.column().y;
        *self.flow.column() = whole;
        Ok(end)
    }

    fn column_beside(&mut self, x: Length, y: Length) -> Column<'a> {
        let (frame, half) = (self.flow.frame(), self.half());
        let frame = Rect::new(Point::new(frame.left() + x, frame.top()), Size::new(half, frame.height()));
        let mut column = Column::new(self.desk, frame);
        column.y = y;
        column
    }

    /// Labelled lines to write on, in two sections side by side.
    pub fn lines(&mut self, left: (&str, [&str; 5]), right: (&str, [&str; 5])) -> Result<(), Problem> {
        let between = self.look.between;
        let rows = left.1.len().max(right.1.len()).wide();
        self.flow.begin(between + self.look.section.pitch() + self.look.line * rows)?;
        self.flow.gap(between);
        self.ruled([left, right].map(|(title, labels)| (Some(title), labels.to_vec())))
    }

    /// Labels with a line to write on behind each, in two columns that may have a heading.
    pub fn ruled(&mut self, columns: [(Option<&str>, Vec<&str>); 2]) -> Result<(), Problem> {
        let CoverLook { section, body, line, gutter, .. } = self.look;
        let rows = columns.iter().map(|(_, labels)| labels.len()).max().unwrap_or(0).wide();
        let head = if columns.iter().any(|(title, _)| title.is_some()) { section.pitch() } else { Length::ZERO };
        self.flow.begin(head + line * rows)?;
        let half = self.half();
        let column = self.flow.column();
        let (top, edge) = (column.y, column.frame.left());
        let mut nodes = Vec::new();
        for (at, (title, labels)) in [Length::ZERO, half + gutter].into_iter().zip(columns) {
            column.y = top;
            if let Some(title) = title {
                nodes.push(column.beside(title, &section, at, half, Tag::Heading(2))?);
            }
            let mut base = top + head;
            for label in labels {
                base += line;
                // The label stands on its line; the line begins where the label ends.
                column.y = base - body.pitch();
                let wide = column.width(label, &body) + Length::mm(1);
                nodes.push(column.beside(label, &body, at, wide, Tag::Paragraph)?);
                let (from, to) = (edge + at + wide + Length::mm(1), edge + at + half);
                let rule = Item::Line { from: Point::new(from, base), to: Point::new(to, base), stroke: ink::FINE };
                nodes.push(Node::artifact(rule));
            }
        }
        column.y = top + head + line * rows;
        self.flow.extend(nodes);
        Ok(())
    }
}
