//! What else is in the packet, as it is listed: pages of one name in one line, those with a letter by their letters.

use crate::lesson::Version;
use crate::lesson::job::For;
use crate::sheets::kinds::key;
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;
use crate::wording::cover::PageRange;

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
pub(super) struct PageRun {
    pub sheet: SheetKind,
    pub reader: For,
    pub version: Option<Version>,
    pub name: String,
    pub pages: PageRange,
    /// Of keys the pages of each set, by its letter.
    pub sets: Vec<(Version, PageRange)>,
}

impl PageRun {
    /// Whether it is one learner's pages, of several who have others.
    pub fn is_lettered(&self) -> bool {
        self.version.is_some() && matches!(self.reader, For::Learner(_))
    }

    /// Adds a page of a set.
    fn set(&mut self, version: Option<Version>, page: PageRange) {
        match (self.sets.last_mut(), version) {
            (Some((last, pages)), Some(version)) if *last == version => pages.last = page.last,
            (_, Some(version)) => self.sets.push((version, page)),
            (_, None) => {}
        }
    }
}

/// The packet's pages as they are listed; the cover itself takes the first `own`.
pub(super) fn runs(desk: &Desk<'_>, entries: &[CoveredPage], own: usize) -> Vec<PageRun> {
    let mut runs: Vec<PageRun> = Vec::new();
    for (page, entry) in (own + 1..).zip(entries) {
        // "Blocks, sheet 1 of 3": the range of pages says as much.
        let wording = desk.lesson.wording();
        let checks = entry.name == key::shared_title(desk.lesson);
        let checks = checks || entry.sheet == SheetKind::Exit;
        let name = if checks { entry.name.clone() } else { wording.page_name(entry.sheet, entry.version) };
        let here = PageRange { first: page, last: page };
        match runs.last_mut() {
            Some(run) if run.sheet == entry.sheet && run.name == name => {
                run.pages.last = page;
                run.set(entry.version, here);
            }
            // Display pages, and keys of several sets, are one thing to whoever looks for them.
            Some(run)
                if run.sheet == entry.sheet
                    && run.version.is_some() == entry.version.is_some()
                    && !matches!(entry.reader, For::Learner(_)) =>
            {
                desk.lesson.wording().sheet_title(entry.sheet).clone_into(&mut run.name);
                run.pages.last = page;
                run.set(entry.version, here);
            }
            _ => runs.push(PageRun {
                sheet: entry.sheet,
                reader: entry.reader,
                version: entry.version,
                name,
                pages: here,
                sets: entry.version.map(|version| (version, here)).into_iter().collect(),
            }),
        }
    }
    runs
}
