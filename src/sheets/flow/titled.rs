//! Tables with headings, one after another over as many pages as they need: keys.

use crate::diag::Problem;
use crate::measure::Length;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::flow::even::{Extent, Pass, Spread, closer, even};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, SetTable, Table, TableLook};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::{Page, Tag};
use crate::spec::SheetKind;

/// A heading with a table below it.
#[derive(Debug, Clone)]
pub struct TitledTable {
    /// The heading.
    pub heading: String,
    /// A sentence below the heading.
    pub note: Option<String>,
    /// The table; the first cell of each row heads it.
    pub table: Table,
}

/// Which pages the tables go on.
#[derive(Debug, Clone, Copy)]
pub struct TablePages<'s> {
    /// The sheet.
    pub kind: SheetKind,
    /// Its layout; it names `text`, `column` and `part` under `[type]`, and `between` under `[length]`.
    pub layout: &'s Layout,
    /// The title of every page.
    pub title: &'s str,
    /// A line below it.
    pub note: Option<&'s str>,
    /// The pictures, where a cell shows one.
    pub pictures: Option<&'s Pictures>,
}

/// Tables whose lines are broken, to be laid out one after another in one spread or another.
#[derive(Debug)]
pub struct TitledTables<'t> {
    desk: &'t Desk<'t>,
    on: TablePages<'t>,
    tables: Vec<(&'t TitledTable, SetTable<'t>)>,
}

/// Lays tables out one after another, the last page never nearly empty where that can be helped. Fails when a word is wider than
/// its column, or a row higher than a page.
pub fn lay(desk: &Desk<'_>, on: &TablePages<'_>, tables: &[TitledTable]) -> Result<Vec<Page>, Problem> {
    let mut set = TitledTables::set(desk, on, tables)?;
    even(|spread, pass| set.laid(spread, pass))
}

impl<'t> TitledTables<'t> {
    /// Breaks the lines of these tables. Fails when a word is wider than its column.
    pub fn set(desk: &'t Desk<'t>, on: &TablePages<'t>, tables: &'t [TitledTable]) -> Result<Self, Problem> {
        let face = |name| desk.face(on.layout, name);
        let usual = TableLook::padded(face("column")?, face("text")?, on.layout.padding, Rules::Strong);
        let look = TableLook { pictures: on.pictures, ..usual };
        let mut all = Self { desk, on: *on, tables: Vec::new() };
        let width = all.flow()?.frame().width();
        for titled in tables {
            all.tables.push((titled, titled.table.set(desk, &look, width)?));
        }
        Ok(all)
    }

    /// The pages with nothing on them yet.
    fn flow(&self) -> Result<Flow<'t>, Problem> {
        let TablePages { kind, layout, title, note, .. } = self.on;
        let heading = Heading { title: title.to_owned(), note: note.map(str::to_owned) };
        let (first, later) = (heading.clone(), heading);
        Flow::new(self.desk, Setup { kind, layout, first, later, widest: None })
    }

    /// How they are spread so that they stand closer where that saves a nearly empty page, and what they come to.
    pub fn closer(&mut self) -> Result<(Spread, Extent), Problem> {
        closer(|spread| self.laid(spread, Pass::Measured).map(|(_, extent)| extent))
    }

    /// The pages in a spread.
    pub fn drawn(&mut self, spread: Spread) -> Result<Vec<Page>, Problem> {
        self.laid(spread, Pass::Drawn).map(|(pages, _)| pages)
    }

    fn laid(&mut self, Spread { white, depth }: Spread, pass: Pass) -> Result<(Vec<Page>, Extent), Problem> {
        let face = |name| self.desk.face(self.on.layout, name);
        let (text, part) = (face("text")?, face("part")?);
        let between = self.on.layout.length("between")?.scaled(white, 100);
        let mut flow = self.flow()?.to_depth(depth).on(pass);
        for (TitledTable { heading, note, .. }, table) in &mut self.tables {
            let lead = |text: &String, face, tag, above, below| Lead { text: text.clone(), face, tag, above, below };
            let below = if note.is_none() { GAP } else { Length::ZERO };
            flow.lead(lead(heading, part, Tag::Heading(2), between, below));
            if let Some(note) = note {
                flow.lead(lead(note, text, Tag::Paragraph, Length::ZERO, GAP));
            }
            table.space(white);
            flow.set_table(table)?;
        }
        flow.laid()
    }
}

/// Between what heads a table and the table.
const GAP: Length = Length::mm(1);
