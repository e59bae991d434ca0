//! Tables with headings, one after another over as many pages as they need: keys.

use crate::diag::Problem;
use crate::measure::Length;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::flow::even::{Spread, closer, even};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableLook};
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

/// Lays tables out one after another, the last page never nearly empty where that can be helped. Fails when a word is wider than
/// its column, or a row higher than a page.
pub fn lay(desk: &Desk<'_>, on: &TablePages<'_>, tables: &[TitledTable]) -> Result<Vec<Page>, Problem> {
    even(|spread| laid(desk, on, tables, spread))
}

/// The same, only closer where that saves a nearly empty page: for pages that are laid at one size after another.
pub fn lay_closely(desk: &Desk<'_>, on: &TablePages<'_>, tables: &[TitledTable]) -> Result<Vec<Page>, Problem> {
    closer(|spread| laid(desk, on, tables, spread)).map(|(pages, _)| pages)
}

/// The pages, and how full the last of them is, in percent.
fn laid(
    desk: &Desk<'_>,
    on: &TablePages<'_>,
    tables: &[TitledTable],
    Spread { white, depth }: Spread,
) -> Result<(Vec<Page>, i64), Problem> {
    let face = |name| desk.face(on.layout, name);
    let (text, part, between) = (face("text")?, face("part")?, on.layout.length("between")?.scaled(white, 100));
    let usual = TableLook::padded(face("column")?, text, on.layout.padding, Rules::Strong);
    let look = TableLook { pictures: on.pictures, ..usual.closer(white) };
    let heading = Heading { title: on.title.to_owned(), note: on.note.map(str::to_owned) };
    let (first, later) = (heading.clone(), heading);
    let mut flow =
        Flow::new(desk, Setup { kind: on.kind, layout: on.layout, first, later, widest: None })?.to_depth(depth);
    for TitledTable { heading, note, table } in tables {
        let lead = |text: &String, face, tag, above, below| Lead { text: text.clone(), face, tag, above, below };
        let below = if note.is_none() { GAP } else { Length::ZERO };
        flow.lead(lead(heading, part, Tag::Heading(2), between, below));
        if let Some(note) = note {
            flow.lead(lead(note, text, Tag::Paragraph, Length::ZERO, GAP));
        }
        flow.table(table, &look)?;
    }
    let last = flow.filled();
    Ok((flow.finish()?, last))
}

/// Between what heads a table and the table.
const GAP: Length = Length::mm(1);
