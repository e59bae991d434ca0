//! The substitute's first page: what is in the packet, what to do first, what to leave behind.
//!
//! In: the names of the packet's other pages in order, which the packet knows when they are laid out. Out: one page, set as
//! large as it can be. Page numbers are those printed on the pages themselves. What only the school can know is left as lines to fill
//! in, and the school's own rules always come first.

mod says;

use crate::diag::Problem;
use crate::lesson::Version;
use crate::lesson::job::{For, JobFacts};
use crate::lesson::teach::{Means, materials, shorter};
use crate::measure::{Count, Length, Point, Sides};
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::{key, plan};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Node, Page, Tag};
use crate::spec::SheetKind;
use crate::wording::cover::{PageRange, Papers};
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
    pages: PageRange,
}

/// Lays the cover out for a packet whose other pages, in order, are these.
pub fn lay(desk: &Desk<'_>, job: &JobFacts, entries: &[CoveredPage]) -> Result<Vec<Page>, Problem> {
    let means = plan::means(desk, job)?;
    let alone = runs(desk, entries, 1);
    // All of it is read at a glance: it is set smaller before it takes a second page.
    for set in [Set::Usual, Set::Closer, Set::Close] {
        let pages = pages(desk, &means, &alone, set)?;
        if pages.len() == 1 {
            return Ok(pages);
        }
    }
    // Its own length moves all numbers, which take no more lines when they grow by one.
    for own in 2..5 {
        let pages = pages(desk, &means, &runs(desk, entries, own), Set::Close)?;
        if pages.len() == own {
            return Ok(pages);
        }
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
        pages: PageRange { first: 1, last: own },
    }];
    for (page, entry) in (own + 1..).zip(entries) {
        // "Blocks, sheet 1 of 3": the range of pages says as much.
        let wording = desk.lesson.wording();
        let checks = entry.name == key::shared_title(desk.lesson);
        let checks = checks || entry.sheet == SheetKind::Exit;
        let name = if checks { entry.name.clone() } else { wording.page_name(entry.sheet, entry.version) };
        match runs.last_mut() {
            Some(run) if run.sheet == entry.sheet && run.name == name => run.pages.last = page,
            // Display pages, and keys of several sets, are one thing to whoever looks for them.
            Some(run)
                if run.sheet == entry.sheet
                    && run.version.is_some() == entry.version.is_some()
                    && !matches!(entry.reader, For::Learner(_)) =>
            {
                desk.lesson.wording().sheet_title(entry.sheet).clone_into(&mut run.name);
                run.pages.last = page;
            }
            _ => runs.push(PageRun {
                sheet: entry.sheet,
                reader: entry.reader,
                version: entry.version,
                name,
                pages: PageRange { first: page, last: page },
            }),
        }
    }
    runs
}

/// The faces and lengths of the cover.
#[derive(Clone, Copy)]
struct CoverLook {
    section: Face,
    body: Face,
    small: Face,
    figures: Length,
    copies: Length,
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

/// How closely the page is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Set {
    /// At the sizes of the layout.
    Usual,
    /// Half way to the least sizes.
    Closer,
    /// At the least sizes.
    Close,
}

impl Set {
    /// Between a size and its least.
    fn of(self, size: Length, least: Length) -> Length {
        match self {
            Self::Usual => size,
            Self::Closer => (size + least).half(),
            Self::Close => least,
        }
    }
}

fn pages(desk: &Desk<'_>, means: &Means<'_>, runs: &[PageRun], set: Set) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Cover)?;
    let face = |name| desk.face(layout, name).map(|face| face.at(set.of(face.size, face.least)));
    let look = CoverLook {
        section: face("section")?,
        body: face("body")?,
        small: face("small")?.painted(ink::QUIET),
        figures: layout.length("figures")?,
        copies: layout.length("copies")?,
        line: set.of(layout.length("line")?, layout.length("least_line")?),
        between: set.of(layout.length("section")?, layout.length("least_section")?),
        gutter: layout.grid.gutter,
    };
    let (lesson, wording) = (desk.lesson, desk.lesson.wording());
    let spec = &lesson.spec;
    let grade = spec.grade.as_ref().map(|grade| grade.value.as_str());
    let note = wording.cover_note(spec.minutes.value, spec.class.learners.value, grade);
    let first = Heading { title: wording.cover_heading(&spec.title.value), note: Some(note) };
    let later = Heading { title: wording.cover_again().to_owned(), note: None };
    let flow = Flow::new(desk, Setup { kind: SheetKind::Cover, layout, first, later, widest: None })?;
    let mut start = CoverPages { flow, look };
    start.list(wording.first_title(), &says::first(lesson, runs))?;
    start.contents_and_materials(desk, means, runs)?;
    let late: Vec<String> = shorter(means).iter().map(|short| wording.short(short)).collect();
    if !late.is_empty() {
        start.list(wording.late_title(), &late)?;
    }
    start.list(wording.missing_title(), &says::missing(lesson, means.job, runs))?;
    start.list(wording.cautions_title(), &says::cautions(means))?;
    start.lines(wording.school_lines(), wording.back_lines())?;
    let made = |kind| runs.iter().any(|run| run.sheet == kind);
    let papers = if made(SheetKind::Exit) { Papers::Checks } else { Papers::Answers };
    let papers = (!lesson.checks.is_empty()).then_some(papers);
    let behind = wording.leave_behind(made(SheetKind::Tally), papers, made(SheetKind::SmallGroups));
    start.flow.gap(BELOW * 2);
    start.flow.text(&behind, &start.look.body)?;
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
    fn contents_and_materials(&mut self, desk: &Desk<'_>, means: &Means<'_>, runs: &[PageRun]) -> Result<(), Problem> {
        let wording = desk.lesson.wording();
        let row = |figure: String, what| vec![TableCell::Bold(figure), TableCell::Text(what)];
        let listed = |run: &PageRun| {
            let copies =
                says::copies(means.job, run).map_or(TableCell::Empty, |count| TableCell::Text(count.to_string()));
            row(run.pages.figures(), run.name.clone()).into_iter().chain([copies]).collect()
        };
        let pages = runs.iter().map(listed).collect();
        let thing = |(count, thing): (u32, Thing)| {
            let (what, note) = wording.thing(&thing);
            row(count.to_string(), if note.is_empty() { what } else { format!("{what} ({note})") })
        };
        let things = materials(means)
            .into_iter()
            // What this packet has itself is listed beside it.
            .filter(|(_, thing)| !matches!(thing, Thing::Sheet { sheet: SheetKind::Display | SheetKind::Tally, .. }))
            .map(thing)
            .collect();
        let look = TableLook {
            head: (self.look.small, Sides::default()),
            cell: (self.look.body, Sides { bottom: Length::mm100(40), ..Sides::default() }),
            remark: self.look.small,
            rules: Rules::Open,
            row_heads: true,
            pictures: None,
            whole: false,
        };
        let half = (self.flow.frame().width() - self.look.gutter).half();
        let table = |heads: &[&str], rows: Vec<Vec<TableCell>>| {
            let widths = [self.look.figures, Length::ZERO, self.look.copies];
            let column = |(heading, wide): (&&str, Length)| TableColumn {
                heading: (*heading).to_owned(),
                width: if wide == Length::ZERO { ColumnWidth::Share(1) } else { ColumnWidth::Fixed(wide) },
            };
            Table { columns: heads.iter().zip(widths).map(column).collect(), rows }.set(desk, &look, half)
        };
        let ((in_packet, page_heads), (to_lay_out, thing_heads)) = (wording.contents_heads(), wording.things_heads());
        let (pages, things) = (table(&page_heads, pages)?, table(&thing_heads, things)?);
        let head = self.look.section.pitch() + BELOW;
        let above = if self.flow.at_top() { Length::ZERO } else { self.look.between };
        self.flow.begin(above + head + pages.height().max(things.height()))?;
        self.flow.gap(self.look.between);
        let (frame, top) = (self.flow.frame(), self.flow.column().y);
        let mut bottom = top;
        for (x, title, table) in
            [(frame.left(), in_packet, pages), (frame.left() + half + self.look.gutter, to_lay_out, things)]
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

    /// Labelled lines to write on, in two sections side by side.
    fn lines(&mut self, left: (&str, [&str; 5]), right: (&str, [&str; 5])) -> Result<(), Problem> {
        let CoverLook { section, body, line, gutter, between, .. } = self.look;
        let rows = left.1.len().max(right.1.len()).wide();
        self.flow.begin(between + section.pitch() + line * rows)?;
        self.flow.gap(between);
        let half = (self.flow.frame().width() - gutter).half();
        let column = self.flow.column();
        let (top, edge) = (column.y, column.frame.left());
        let mut nodes = Vec::new();
        for (at, (title, labels)) in [(Length::ZERO, left), (half + gutter, right)] {
            column.y = top;
            nodes.push(column.beside(title, &section, at, half, Tag::Heading(2))?);
            let mut base = top + section.pitch();
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
        column.y = top + section.pitch() + line * rows;
        self.flow.extend(nodes);
        Ok(())
    }
}
