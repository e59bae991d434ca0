//! Slip-sheets, put before each part of a file.

use crate::diag::Problem;
use crate::sheets::job::{Job, Part, facts};
use crate::sheets::kinds::ticket::slip_sheet;
use crate::sheets::page::desk::Desk;

/// Begins each part of a file with a sheet that says what it is. The file's proof comes before them all and is not there yet.
pub fn by_sheets(desk: &Desk<'_>, job: &mut Job<'_>) -> Result<(), Problem> {
    let file = job.kind.about().file;
    let mut before = 1;
    let mut parted = Vec::new();
    for part in std::mem::take(&mut job.parts) {
        before += 1;
        let kind = facts::kind_of(&part, before, job.sides.a_sheet());
        let sheets = (before + 1, before + part.leaves());
        before += part.leaves();
        parted.push(Part::SlipSheet(Box::new(slip_sheet::page(desk, file, job.stock, &kind, sheets)?)));
        parted.push(part);
    }
    job.parts = parted;
    Ok(())
}
