//! The warm-up for the week after: a number a day, what to ask about it, and what to expect.
//!
//! In: the lesson's [`WarmUpDay`]s. Out: a page for the teacher, day below day, in type as large as one page holds; or
//! pages in the largest type where the least would still need several.

use crate::diag::Problem;
use crate::lesson::week::{WarmUp, WarmUpDay};
use crate::measure::{Count, Length};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Page, Tag};
use crate::spec::SheetKind;

/// Lays the pages out.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let Some(WarmUp { days, .. }) = &desk.lesson.warm_up else { return Ok(Vec::new()) };
    let largest = desk.face(desk.layout(SheetKind::WarmUp)?, "text")?;
    let smaller = |face: &Face| (face.size > face.least).then(|| face.at((face.size - STEP).max(face.least)));
    let mut first = None;
    for text in std::iter::successors(Some(largest), smaller) {
        let pages = pages(desk, days, text)?;
        if pages.len() == 1 {
            return Ok(pages);
        }
        first.get_or_insert(pages);
    }
    Ok(first.unwrap_or_default())
}

/// Type is tried in steps of this.
const STEP: Length = Length::pt100(50);

/// The pages with questions in type of this size.
fn pages(desk: &Desk<'_>, days: &[WarmUpDay], text: Face) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::WarmUp)?;
    let (part, column) = (desk.face(layout, "part")?, desk.face(layout, "column")?);
    let (between, below) = (layout.length("between")?, layout.length("below")?);
    let look = TableLook::padded(column, text, layout.padding, Rules::Fine);
    let (wording, usage) = (desk.lesson.wording(), desk.lesson.usage());
    let title = wording.sheet_title(SheetKind::WarmUp).to_owned();
    let first = Heading { title: title.clone(), note: Some(wording.warm_up_note(days.len().narrow())) };
    let later = Heading { title, note: None };
    let mut flow = Flow::new(desk, Setup { kind: SheetKind::WarmUp, layout, first, later, widest: None })?;
    for (k, day) in (1..).zip(days) {
        let text = wording.warm_up_day(k, &usage.style.numeral(day.number));
        flow.lead(Lead { text, face: part, tag: Tag::Heading(2), above: between, below });
        flow.table(&table(desk, day), &look)?;
    }
    flow.finish()
}

/// A day's questions.
fn table(desk: &Desk<'_>, day: &WarmUpDay) -> Table {
    let (wording, usage) = (desk.lesson.wording(), desk.lesson.usage());
    let columns = wording.warm_up_heads().into_iter().zip([6, 5]);
    let columns =
        columns.map(|(heading, parts)| TableColumn { heading: heading.to_owned(), width: ColumnWidth::Share(parts) });
    let replies = day.asked.iter().map(|asked| wording.ask(asked, &usage));
    let rows = replies.map(|reply| vec![TableCell::Text(reply.question), TableCell::Bold(reply.expect)]);
    Table { columns: columns.collect(), rows: rows.collect() }
}
