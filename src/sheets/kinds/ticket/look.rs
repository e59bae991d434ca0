//! How the ticket looks: its faces and gaps, for the flow that fills its pages.

use crate::diag::Problem;
use crate::measure::Length;
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Page, Tag};
use crate::spec::SheetKind;

/// A ticket that is being filled in.
pub(super) struct TicketPages<'d> {
    flow: Flow<'d>,
    text: Face,
    banner: Face,
    heading: Face,
    command: Face,
    look: TableLook<'d>,
    apart: Length,
    tick: Length,
}

impl<'d> TicketPages<'d> {
    /// A first, empty page.
    pub(super) fn new(desk: &'d Desk<'d>) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Ticket)?;
        let face = |name| desk.face(layout, name);
        let title = desk.lesson.wording().sheet_title(SheetKind::Ticket).to_owned();
        let heading = Heading { title, note: None };
        let (first, later) = (heading.clone(), heading);
        let look = TableLook {
            row_heads: false,
            ..TableLook::padded(face("column")?, face("cell")?, layout.padding, Rules::Fine)
        };
        Ok(Self {
            flow: Flow::new(desk, Setup { kind: SheetKind::Ticket, layout, first, later, widest: None })?
                .with_sections(),
            text: face("text")?,
            banner: face("banner")?,
            heading: face("heading")?,
            command: face("command")?,
            look,
            apart: layout.length("apart")?,
            tick: layout.length("tick")?,
        })
    }

    /// The finished pages.
    pub(super) fn finish(self) -> Result<Vec<Page>, Problem> {
        self.flow.finish()
    }

    /// Leaves room, except at the top of a page.
    pub(super) fn gap(&mut self, high: Length) {
        self.flow.gap(high);
    }

    /// A heading, kept with what follows.
    pub(super) fn heading(&mut self, text: &str) {
        let (text, face, above) = (text.to_owned(), self.heading, self.apart);
        self.flow.lead(Lead { text, face, tag: Tag::Heading(2), above, below: Length::mm(1) });
    }

    /// The lesson's title.
    pub(super) fn job(&mut self, text: &str) -> Result<(), Problem> {
        let face = self.flow.desk().face(self.flow.layout(), "job")?;
        self.flow.text(text, &face)
    }

    /// A paragraph.
    pub(super) fn text(&mut self, text: &str) -> Result<(), Problem> {
        self.flow.text(text, &self.text)
    }

    /// A framed line that cannot be missed.
    pub(super) fn banner(&mut self, text: &str) -> Result<(), Problem> {
        self.flow.banner(text, &self.banner)
    }

    /// A list of things to do, each with a box to tick.
    pub(super) fn ticks(&mut self, items: &[String]) -> Result<(), Problem> {
        let (mark, indent) = (ListMark::Tick(self.tick), self.tick + Length::mm(3));
        self.flow.list(items, &ListLook { face: self.text, mark, indent, gap: Length::mm100(80), whole: false })
    }

    /// A paragraph, kept with what follows.
    pub(super) fn lead(&mut self, text: &str) {
        let (text, face) = (text.to_owned(), self.text);
        self.flow.lead(Lead { text, face, tag: Tag::Paragraph, above: Length::ZERO, below: Length::mm(1) });
    }

    /// A table: headings with their shares of the width, and rows.
    pub(super) fn table(&mut self, columns: &[(&str, u32)], rows: &[Vec<String>]) -> Result<(), Problem> {
        self.tabled(columns, rows, self.look)
    }

    /// A table whose rows are followed column by column: it is not parted.
    pub(super) fn whole_table(&mut self, columns: &[(&str, u32)], rows: &[Vec<String>]) -> Result<(), Problem> {
        self.tabled(columns, rows, TableLook { whole: true, ..self.look })
    }

    fn tabled(&mut self, columns: &[(&str, u32)], rows: &[Vec<String>], look: TableLook<'_>) -> Result<(), Problem> {
        let column = |(heading, share): &(&str, u32)| TableColumn {
            heading: (*heading).to_owned(),
            width: ColumnWidth::Share(*share),
        };
        let columns = columns.iter().map(column).collect();
        let rows = rows.iter().map(|row| row.iter().cloned().map(TableCell::Text).collect()).collect();
        self.flow.table(&Table { columns, rows }, &look)
    }

    /// A command, in lines that were broken already.
    pub(super) fn command(&mut self, lines: &[String]) -> Result<(), Problem> {
        self.flow.verbatim(lines, &self.command)?;
        self.flow.gap(Length::mm(1));
        Ok(())
    }

    /// Whether a line of a command fits.
    pub(super) fn holds(&self, line: &str) -> bool {
        self.flow.desk().width(line, &self.command) <= self.flow.verbatim_width()
    }
}
