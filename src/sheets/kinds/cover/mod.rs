//! The substitute's first page: what is in the packet, what to do first, what to leave behind.
//!
//! In: the names of the packet's other pages in order, which the packet knows when they are laid out. Out: one page, set as
//! large as it can be. Page numbers are those printed on the pages themselves. What only the school can know is left as lines to fill
//! in, and the school's own rules always come first.

mod form;
mod runs;
mod says;
mod tables;

use crate::diag::Problem;
use crate::lesson::job::JobFacts;
use crate::lesson::teach::{self, Means, Teaching};
use crate::measure::Length;
use crate::sheets::kinds::plan;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;
use crate::wording::cover::{LeftBehind, Papers};
use form::{CoverForm, Section, Set};
use runs::{PageRun, runs};

pub use runs::CoveredPage;

/// Lays the cover out for a packet whose other pages, in order, are these.
pub fn lay(desk: &Desk<'_>, job: &JobFacts, entries: &[CoveredPage]) -> Result<Vec<Page>, Problem> {
    let means = plan::means(desk, job)?;
    let teaching = teach::plan(&means);
    let alone = runs(desk, entries, 1);
    // All of it is read at a glance: sections stand side by side, then it is set smaller, before it takes a second page.
    for set in Set::ALL {
        let (close, left) = pages(desk, &means, &teaching, &alone, set)?;
        if close.len() > 1 {
            continue;
        }
        // What is left at the foot is shared by the gaps above sections: there are seven at most.
        let Some(airy) = set.airy(left.part(7_u32)) else { return Ok(close) };
        let (airy, _) = pages(desk, &means, &teaching, &alone, airy)?;
        return Ok(if airy.len() == 1 { airy } else { close });
    }
    // Its own length moves all numbers, which take no more lines when they grow by one.
    for own in 2..5 {
        let (pages, _) = pages(desk, &means, &teaching, &runs(desk, entries, own), Set::LAST)?;
        if pages.len() == own {
            return Ok(pages);
        }
    }
    Err(Problem::new("internal: the cover's length does not settle").hint("please report this"))
}

/// The cover at one setting, and the room left below it.
fn pages(
    desk: &Desk<'_>,
    means: &Means<'_>,
    teaching: &Teaching,
    runs: &[PageRun],
    set: Set,
) -> Result<(Vec<Page>, Length), Problem> {
    let (lesson, wording) = (desk.lesson, desk.lesson.wording());
    let late: Vec<String> = teaching.shorter.iter().map(|short| wording.short(short)).collect();
    let mut sections = vec![
        Section { title: wording.late_title(), items: late },
        Section { title: wording.missing_title(), items: says::missing(means, runs) },
        Section { title: wording.cautions_title(), items: says::cautions(means) },
    ];
    sections.retain(|section| !section.items.is_empty());
    let made = |kind| runs.iter().any(|run| run.sheet == kind);
    let papers = if made(SheetKind::Exit) { Papers::Checks } else { Papers::Answers };
    let left = LeftBehind {
        written: &teach::handed_in(means),
        envelopes: teach::bags_strips(means),
        tally: made(SheetKind::Tally),
        papers: (!lesson.checks.is_empty()).then_some(papers),
        groups: made(SheetKind::SmallGroups),
    };
    let behind = wording.leave_behind(&left, lesson.spec.class.learners.value);

    let mut form = CoverForm::new(desk, set)?;
    form.list(&Section { title: wording.first_title(), items: says::first(means, runs) })?;
    form.contents_and_materials(means, teaching.uses_paper(), runs, &mut sections)?;
    form.letters(means, runs)?;
    for section in &sections {
        form.list(section)?;
    }
    form.lines(wording.school_lines(), wording.back_lines())?;
    form.end(&behind)
}
