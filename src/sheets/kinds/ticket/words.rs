//! Figures on the ticket, and its sentence on what would save paper.

use crate::lesson::job::{JobFacts, SaveBy};
use crate::wording::Wording;
use crate::wording::cover::PageRange;

/// "12" or "12–18".
pub fn pages((first, last): (usize, usize)) -> String {
    PageRange { first, last }.figures()
}

/// What would save most, in a sentence or two; `None` where nothing would.
pub fn savings(job: &JobFacts, wording: &dyn Wording) -> Option<String> {
    let say = |by: SaveBy, sheets: usize| match by {
        SaveBy::Sharing(kind, learners) => wording.save_sharing(kind, learners, sheets),
        SaveBy::NoSpares => wording.save_spares(sheets),
        SaveBy::KeptKits => wording.save_kits(sheets),
    };
    let said: Vec<String> = job.savings.iter().take(3).map(|saving| say(saving.by, saving.sheets)).collect();
    (!said.is_empty()).then(|| format!("{}.", wording.capital(&said.join("; "))))
}
