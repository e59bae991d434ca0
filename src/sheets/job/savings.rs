//! What would save paper: each change is settled as the order itself is, and the sheets of both are compared.

use crate::diag::Problem;
use crate::lesson::job::{Keep, PrintedSheet, SaveBy, Saving};
use crate::sheets::job::Order;
use crate::spec::ClassSpec;

/// A table of learners shares what two partners share.
const TABLE: u32 = 4;

/// What would save paper, most first.
pub fn of(class: &ClassSpec, order: &Order<'_>, sheets: &[PrintedSheet]) -> Result<Vec<Saving>, Problem> {
    let kept = || sheets.iter().filter(|sheet| sheet.keep == Keep::Kit && sheet.sheets > 0);
    let more = |sheet: &PrintedSheet| match sheet.share {
        1 => Some(SaveBy::Sharing(sheet.kind, 2)),
        share if share < TABLE => Some(SaveBy::Sharing(sheet.kind, TABLE)),
        _ => None,
    };
    let mut ways: Vec<SaveBy> = kept().filter_map(more).collect();
    ways.extend((class.spares.value > 0).then_some(SaveBy::NoSpares));
    ways.extend(kept().next().map(|_| SaveBy::KeptKits));
    let mut savings = Vec::new();
    for by in ways {
        let sheets = order.sheets().saturating_sub(order.sheets_with(by)?);
        savings.push(Saving { by, sheets });
    }
    savings.retain(|saving| saving.sheets > 0);
    savings.sort_by_key(|saving| std::cmp::Reverse(saving.sheets));
    Ok(savings)
}
