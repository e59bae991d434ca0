//! Tables with headings, one after another over as many pages as they need: keys.

use crate::diag::Problem;
use crate::measure::{Length, Sides};
use crate::sheets::blocks::picture::Pictures;
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

/// Lays tables out one after another, a little closer where that saves the last page. Fails when a word is wider than its
/// column, or a row higher than a page.
pub fn lay(desk: &Desk<'_>, on: &TablePages<'_>, tables: &[TitledTable]) -> Result<Vec<Page>, Problem> {
    let (pages, last) = laid(desk, on, tables, 100)?;
    // A page with a few rows at its top is worth less white between all rows.
    if pages.len() > 1 && last < NEARLY_EMPTY {
        let (closer, _) = laid(desk, on, tables, CLOSER)?;
        if closer.len() < pages.len() {
            return Ok(closer);
        }
    }
    Ok(pages)
}

/// A last page that is less full, in percent.
const NEARLY_EMPTY: i64 = 40;
/// What is left of the white above and below rows and headings where they stand closer, in percent.
const CLOSER: i64 = 60;

/// The pages with so many percent of the usual white, and how full the last of them is, in percent.
fn laid(desk: &Desk<'_>, on: &TablePages<'_>, tables: &[TitledTable], white: i64) -> Result<(Vec<Page>, i64), Problem> {
    let face = |name| desk.face(on.layout, name);
    let (text, part, between) = (face("text")?, face("part")?, on.layout.length("between")?.scaled(white, 100));
    let usual = TableLook::padded(face("column")?, text, on.layout.padding, Rules::Strong);
    let closer = |sides: Sides<Length>| Sides {
        top: sides.top.scaled(white, 100),
        bottom: sides.bottom.scaled(white, 100),
        ..sides
    };
    let look = TableLook {
        pictures: on.pictures,
        head: (usual.head.0, closer(usual.head.1)),
        cell: (usual.cell.0, closer(usual.cell.1)),
        ..usual
    };
    let heading = Heading { title: on.title.to_owned(), note: on.note.map(str::to_owned) };
    let (first, later) = (heading.clone(), heading);
    let mut flow = Flow::new(desk, Setup { kind: on.kind, layout: on.layout, first, later, widest: None })?;
    for TitledTable { heading, note, table } in tables {
        let lead = |text: &String, face, tag, above, below| Lead { text: text.clone(), face, tag, above, below };
        let below = if note.is_none() { GAP } else { Length::ZERO };
        flow.lead(lead(heading, part, Tag::Heading(2), between, below));
        if let Some(note) = note {
            flow.lead(lead(note, text, Tag::Paragraph, Length::ZERO, GAP));
        }
        flow.table(table, &look)?;
    }
    let left = flow.left().max(Length::ZERO);
    let last = 100 - left.to_raw() * 100 / flow.frame().height().to_raw().max(1);
    Ok((flow.finish()?, last))
}

/// Between what heads a table and the table.
const GAP: Length = Length::mm(1);
