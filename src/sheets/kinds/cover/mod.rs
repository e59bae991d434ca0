//! The substitute's first page: what is in the packet, what to do first, what to leave behind.
//!
//! In: the names of the packet's other pages in order, which the packet knows when they are laid out. Out: one or two
//! pages. Page numbers are those printed on the pages themselves. What only the school can know is left as lines to fill
//! in, and the school's own rules always come first.

mod says;

use crate::diag::Problem;
use crate::lesson::Version;
use crate::lesson::job::{For, JobFacts};
use crate::lesson::teach::materials;
use crate::measure::{Length, Point, Sides};
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Node, Page, Tag};
use crate::spec::SheetKind;
use crate::wording::plan::Thing;

/// A page of the packet: its kind and its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CoveredPage {
    /// What kind of page it is.
    pub sheet: SheetKind,
    /// Whose it is.
    pub reader: For,
    /// Whose set it shows, where it shows one.
    pub version: Option<Version>,
    /// What its bookmark calls it.
    pub name: String,
}

/// Pages of one name that follow each other.
#[derive(Debug, Clone, PartialEq, Eq)]
struct PageRun {
    sheet: SheetKind,
    reader: For,
    version: Option<Version>,
    name: String,
    first: usize,
    last: usize,
}

/// Lays the cover out for a packet whose other pages, in order, are these.
pub fn lay(desk: &Desk<'_>, job: &JobFacts, entries: &[CoveredPage]) -> Result<Vec<Page>, Problem> {
    // The cover's own length moves all numbers: two tries settle it, as numbers take no more lines when they grow by one.
    let mut own = 1;
    for _ in 0..3 {
        let pages = pages(desk, job, &runs(desk, entries, own))?;
        if pages.len() == own {
            return Ok(pages);
        }
        own = pages.len();
    }
    Err(Problem::new("internal: the cover's length does not settle").hint("please report this"))
}

/// The packet's pages as they are listed; the cover itself takes the first `own`.
fn runs(desk: &Desk<'_>, entries: &[CoveredPage], own: usize) -> Vec<PageRun> {
    let title = desk.lesson.wording().sheet_title(SheetKind::Cover).to_owned();
    let mut runs = vec![PageRun {
        sheet: SheetKind::Cover,
        reader: For::Substitute,
        version: None,
        name: title,
        first: 1,
        last: own,
    }];
    for (page, entry) in (own + 1..).zip(entries) {
        // "Blocks, sheet 1 of 3": the range of pages says as much.
        let name = entry.name.split(", sheet ").next().unwrap_or(&entry.name);
        match runs.last_mut() {
            Some(run) if run.sheet == entry.sheet && run.name == name => run.last = page,
            _ => runs.push(PageRun {
                sheet: entry.sheet,
                reader: entry.reader,
                version: entry.version,
                name: name.to_owned(),
                first: page,
                last: page,
            }),
        }
    }
    runs
}

impl PageRun {
    /// "3" or "3–4".
    fn pages(&self) -> String {
        if self.first == self.last { self.first.to_string() } else { format!("{}\u{2013}{}", self.first, self.last) }
    }
}

/// The faces and lengths of the cover.
struct CoverLook {
    section: Face,
    body: Face,
    small: Face,
    figures: Length,
    line: Length,
    between: Length,
    gutter: Length,
}

/// The cover's pages.
struct CoverPages<'a> {
    flow: Flow<'a>,
    look: CoverLook,
}

/// Between the heading of a section and what it heads.
const BELOW: Length = Length::mm(1);

fn pages(desk: &Desk<'_>, job: &JobFacts, runs: &[PageRun]) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Cover)?;
    let face = |name| desk.face(layout, name);
    let look = CoverLook {
        section: face("section")?,
        body: face("body")?,
        small: face("small")?.painted(ink::QUIET),
        figures: layout.length("figures")?,
        line: layout.length("line")?,
        between: layout.length("section")?,
        gutter: layout.grid.gutter,
    };
    let own = desk.lesson.wording().sheet_title(SheetKind::Cover);
    let title = format!("{own}: {}", desk.lesson.spec.title.value);
    let first = Heading { title, note: Some(says::opening(desk.lesson)) };
    let later = Heading { title: format!("{own}, continued"), note: None };
    let flow = Flow::new(desk, Setup { kind: SheetKind::Cover, layout, first, later, widest: None })?;
    let mut start = CoverPages { flow, look };
    start.list("The first five minutes", &says::first(desk, runs))?;
    start.contents_and_materials(desk, job, runs)?;
    start.list("Where the answers are", &says::answers(runs))?;
    start.list("Early finishers", &says::finishers(desk)?)?;
    start.list("If the copies are missing", &says::missing(desk, runs))?;
    start.list("Cautions", &says::cautions(desk))?;
    start.lines("Only the school can fill this in", says::SCHOOL_NOTE, &says::SCHOOL)?;
    start.lines("Note back to the teacher", says::BACK_NOTE, &says::BACK)?;
    start.flow.finish()
}

impl CoverPages<'_> {
    /// Heads a section.
    fn section(&mut self, title: &str) {
        let (text, above) = (title.to_owned(), self.look.between);
        self.flow.lead(Lead { text, face: self.look.section, tag: Tag::Heading(2), above, below: BELOW });
    }

    /// A section of short sentences.
    fn list(&mut self, title: &str, items: &[String]) -> Result<(), Problem> {
        self.section(title);
        let (face, mark, indent) = (self.look.body, ListMark::Dot, Length::mm(5));
        self.flow.list(items, &ListLook { face, mark, indent, gap: Length::ZERO, whole: true })
    }

    /// What is in the packet beside what to lay out.
    fn contents_and_materials(&mut self, desk: &Desk<'_>, job: &JobFacts, runs: &[PageRun]) -> Result<(), Problem> {
        let row = |figure: String, what, note| vec![TableCell::Bold(figure), TableCell::Noted(what, note)];
        let pages = runs.iter().map(|run| row(run.pages(), run.name.clone(), String::new())).collect();
        let wording = desk.lesson.wording();
        let thing = |(count, thing): (u32, Thing)| {
            let (what, note) = wording.thing(&thing);
            row(count.to_string(), what, note)
        };
        let things = materials(&crate::sheets::kinds::plan::means(desk, job)?).into_iter().map(thing).collect();
        let look = TableLook {
            head: (self.look.small, Sides::default()),
            cell: (self.look.body, Sides { bottom: Length::mm100(40), ..Sides::default() }),
            remark: self.look.small,
            rules: Rules::Open,
            row_heads: true,
            pictures: None,
        };
        let half = (self.flow.frame().width() - self.look.gutter).half();
        let table = |figure: &str, rows: Vec<Vec<TableCell>>| {
            let column = |heading: &str, width| TableColumn { heading: heading.to_owned(), width };
            let columns =
                vec![column(figure, ColumnWidth::Fixed(self.look.figures)), column("What", ColumnWidth::Share(1))];
            Table { columns, rows }.set(desk, &look, half)
        };
        let (pages, things) = (table("Page", pages)?, table("Count", things)?);
        let head = self.look.section.pitch() + BELOW;
        let above = if self.flow.at_top() { Length::ZERO } else { self.look.between };
        self.flow.begin(above + head + pages.height().max(things.height()))?;
        self.flow.gap(self.look.between);
        let (frame, top) = (self.flow.frame(), self.flow.column().y);
        let mut bottom = top;
        for (x, title, table) in
            [(frame.left(), "In this packet", pages), (frame.left() + half + self.look.gutter, "To lay out", things)]
        {
            let title =
                self.flow.column().beside(title, &self.look.section, x - frame.left(), half, Tag::Heading(2))?;
            self.flow.push(title);
            let (nodes, end) = table.draw_all(Point::new(x, top + head));
            self.flow.extend(nodes);
            bottom = bottom.max(end);
        }
        self.flow.column().y = bottom;
        Ok(())
    }

    /// A section of labelled lines to write on.
    fn lines(&mut self, title: &str, note: &str, labels: &[(&str, u32)]) -> Result<(), Problem> {
        self.section(title);
        let (body, line) = (self.look.body, self.look.line);
        let count: u32 = labels.iter().map(|(_, lines)| lines).sum();
        let high = line * i64::from(count) + self.flow.column().height(note, &body, Length::ZERO);
        self.flow.begin(high)?;
        self.flow.text(note, &body)?;
        for (label, lines) in labels {
            for k in 0..*lines {
                let column = self.flow.column();
                let (mut from, to) = (column.frame.left(), column.frame.right());
                let base = column.y + line - Length::mm(1);
                let mut nodes = Vec::new();
                if k == 0 {
                    column.y = base - body.pitch() + Length::mm(1);
                    let wide = column.width(label, &body) + Length::mm(1);
                    nodes.push(column.beside(label, &body, Length::ZERO, wide, Tag::Paragraph)?);
                    from += wide + Length::mm(2);
                }
                column.y = base + Length::mm(1);
                let rule = Item::Line { from: Point::new(from, base), to: Point::new(to, base), stroke: ink::FINE };
                nodes.push(Node::artifact(rule));
                self.flow.extend(nodes);
            }
        }
        Ok(())
    }
}
