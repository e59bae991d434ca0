//! The packets of a lesson: which pages each reader gets, and in which order.
//!
//! In: a [`Desk`]. Out: a [`Packet`] a file, in the order of the contract, with marks, names and page numbers in place. What
//! a class of thousands gets is never held as a whole: its pages come one at a time.

use std::borrow::Cow;
use std::panic::resume_unwind;
use std::thread;

use crate::diag::{Diagnostic, Problem};
use crate::lesson::Version;
use crate::lesson::job::{JobFacts, PrintSides};
use crate::sheets::files::PacketKind;
use crate::sheets::job::{self, Job, Order};
use crate::sheets::kinds::{cover, exit};
use crate::sheets::masters::Masters;
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::entry::Entry;
use crate::sheets::page::mark::{self, Copy};
use crate::sheets::{Lay, row};
use crate::spec::SheetKind;

/// A PDF for one reader.
#[derive(Debug, Clone)]
pub struct Packet<'a> {
    /// Which; its row says whose it is.
    pub kind: PacketKind,
    /// The document's title, shown by viewers.
    pub title: String,
    /// The language of its texts (BCP 47).
    pub language: &'static str,
    /// Which sides are printed.
    pub sides: PrintSides,
    pages: Pages<'a>,
}

#[derive(Debug, Clone)]
enum Pages<'a> {
    /// All are in hand.
    Made(Vec<Page>),
    /// Each is made when it is asked for.
    Copies(Box<Job<'a>>),
}

impl Packet<'_> {
    /// A packet of finished pages.
    pub fn of(kind: PacketKind, title: String, language: &'static str, sides: PrintSides, pages: Vec<Page>) -> Self {
        Self { kind, title, language, sides, pages: Pages::Made(pages) }
    }

    /// The name of its file.
    pub fn file(&self) -> &'static str {
        self.kind.about().file
    }

    /// How many pages.
    pub fn len(&self) -> usize {
        match &self.pages {
            Pages::Made(pages) => pages.len(),
            Pages::Copies(job) => job.pages(),
        }
    }

    /// Whether there is nothing to print.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// How many sheets of paper it takes to print.
    pub fn sheets(&self) -> usize {
        self.sides.sheets(self.len())
    }

    /// The page at an index below [`Packet::len`]. Pages may be asked for in any order.
    pub fn page(&self, index: usize) -> Result<Cow<'_, Page>, Problem> {
        match &self.pages {
            Pages::Made(pages) => pages.get(index).map(Cow::Borrowed).ok_or_else(|| {
                Problem::new(format!("internal: {} has no page {}", self.file(), index + 1)).hint("please report this")
            }),
            Pages::Copies(job) => job.page(index).map(Cow::Owned),
        }
    }

    /// The pages that are in hand: all, or none where each is made when it is asked for.
    pub fn in_hand(&self) -> &[Page] {
        match &self.pages {
            Pages::Made(pages) => pages,
            Pages::Copies(_) => &[],
        }
    }

    /// What is said about each page, in order, without making it.
    pub fn entries(&self) -> Box<dyn Iterator<Item = Entry> + '_> {
        match &self.pages {
            Pages::Made(pages) => Box::new(pages.iter().map(Entry::from)),
            Pages::Copies(job) => Box::new((0..job.pages()).map(|k| job.entry(k))),
        }
    }
}

/// Makes every packet of a lesson, or the pages of the sheets in `only` where it names any; packets without pages are left
/// out. Reports the sheets that do not fit, with what would.
pub fn make<'a>(desk: &Desk<'a>, only: &[SheetKind]) -> Result<Vec<Packet<'a>>, Vec<Diagnostic>> {
    told(desk, only, 1).map(|(packets, _)| packets)
}

/// The packets with the facts of the job; the facts are empty where only sheets are made that do not speak of it. With two
/// threads or more, sheets are laid out on two.
pub fn told<'a>(
    desk: &Desk<'a>,
    only: &[SheetKind],
    threads: usize,
) -> Result<(Vec<Packet<'a>>, JobFacts), Vec<Diagnostic>> {
    let masters = Masters::new(desk);
    let make = || all(&masters, only, threads);
    if threads > 1 { masters.ahead(only, make) } else { make() }
}

fn all<'a>(
    masters: &Masters<'a>,
    only: &[SheetKind],
    threads: usize,
) -> Result<(Vec<Packet<'a>>, JobFacts), Vec<Diagnostic>> {
    let desk = &masters.desk;
    // What the copy room prints is decided first: whatever grown-ups read speaks of it.
    let told = |kind: &SheetKind| !matches!(row(*kind).lay, Lay::Masters(_));
    let whole = only.is_empty() || only.iter().any(told);
    let whole = whole.then(|| job::order(masters, &[])).transpose()?;
    let facts = whole.as_ref().map(|order| job::facts::of(desk, order)).transpose();
    let facts = facts.map_err(|problem| vec![problem.unplaced()])?.unwrap_or_default();
    masters.know(facts.clone());
    let covered = || substitute(masters, &facts, only);
    let mut packets = thread::scope(|scope| {
        // The cover leads the substitute's packet and stands in no other; it waits for nothing that is made meanwhile.
        let wanted = only.is_empty() || only.contains(&SheetKind::Cover);
        let meanwhile = (wanted && threads > 1).then(|| scope.spawn(covered));
        let mut packets = vec![teacher(masters, only)?];
        let taught: Vec<Entry> = packets[0].entries().collect();
        packets.extend(copies(masters, whole, &facts, &taught, only)?);
        match meanwhile {
            Some(other) => packets.push(other.join().unwrap_or_else(|panic| resume_unwind(panic))?),
            None if wanted => packets.push(covered()?),
            None => {}
        }
        Ok::<_, Vec<Diagnostic>>(packets)
    })?;
    packets.retain(|packet| !packet.is_empty());
    Ok((packets, facts))
}

/// A packet whose pages are in hand.
fn made<'a>(desk: &Desk<'_>, kind: PacketKind, pages: Vec<Page>) -> Packet<'a> {
    Packet::of(kind, title(desk, kind), desk.lesson.wording().tag(), PrintSides::One, pages)
}

/// The document's title.
fn title(desk: &Desk<'_>, kind: PacketKind) -> String {
    desk.lesson.wording().packet_title(kind, &desk.lesson.spec.title.value)
}

/// The pages with their numbers in the packet.
fn counted(desk: &Desk<'_>, pages: Vec<Page>, of: Option<usize>) -> Result<Vec<Page>, Vec<Diagnostic>> {
    let pages = (1..).zip(pages).map(|(folio, page)| {
        let copy = Copy { folio: Some(folio), of, ..Copy::default() };
        mark::on(desk, page, &copy).map_err(|problem| vec![problem.unplaced()])
    });
    pages.collect()
}

/// The teacher's packet: learners' sheets once for each version, those that all versions share first. With `only`, the
/// pages of that sheet alone.
fn teacher<'a>(masters: &Masters<'_>, only: &[SheetKind]) -> Result<Packet<'a>, Vec<Diagnostic>> {
    let kinds = PacketKind::Teacher.about().sheets();
    let mut pages = masters.of(kinds, only)?;
    exit::enough(&mut pages);
    let learners: Vec<SheetKind> = crate::sheets::of_learners().collect();
    let first = pages.iter().position(|page| learners.contains(&page.sheet)).unwrap_or(pages.len());
    let count = pages[first..].iter().take_while(|page| learners.contains(&page.sheet)).count();
    // A stable sort keeps the order of the sheets within what all versions share and within each version.
    pages[first..first + count].sort_by_key(|page| page.version.map_or(0, |Version(version)| u32::from(version) + 1));
    Ok(made(&masters.desk, PacketKind::Teacher, counted(&masters.desk, pages, None)?))
}

/// The copy room's packets: the copies on each stock, and the ticket for all of them, also when it is asked for by itself.
fn copies<'a>(
    masters: &Masters<'a>,
    whole: Option<Order<'a>>,
    facts: &JobFacts,
    taught: &[Entry],
    only: &[SheetKind],
) -> Result<Vec<Packet<'a>>, Vec<Diagnostic>> {
    let desk = &masters.desk;
    let told = only.is_empty() || only.contains(&SheetKind::Ticket);
    let pages = whole.as_ref().filter(|_| told).map(|order| ticket(desk, order, facts, taught)).transpose();
    let pages = pages.map_err(|problem| vec![problem.unplaced()])?.unwrap_or_default();
    let count = pages.len();
    // A ticket lies about in loose sheets.
    let pages = counted(desk, pages, (count > 1).then_some(count))?;
    let order = match whole {
        Some(order) if only.is_empty() => order,
        _ => job::order(masters, only)?,
    };
    let packet = |job: Job<'a>| Packet {
        kind: job.kind,
        title: title(desk, job.kind),
        language: desk.lesson.wording().tag(),
        sides: job.sides,
        pages: Pages::Copies(Box::new(job)),
    };
    let mut packets: Vec<Packet<'_>> = order.jobs.into_iter().map(packet).collect();
    packets.push(made(desk, PacketKind::Ticket, pages));
    Ok(packets)
}

/// The ticket; no pages where nothing is printed.
fn ticket(desk: &Desk<'_>, order: &Order<'_>, facts: &JobFacts, taught: &[Entry]) -> Result<Vec<Page>, Problem> {
    match row(SheetKind::Ticket).lay {
        Lay::Ticket(lay) if !order.jobs.is_empty() => lay(desk, &job::cuts::ticket(desk, order, facts, taught)),
        _ => Ok(Vec::new()),
    }
}

/// The substitute's packet: versioned sheets are there once, as version A, or as each group's first version; the key has every version. With `only`, the
/// cover alone, with the page numbers of the packet that it leads.
fn substitute<'a>(masters: &Masters<'_>, facts: &JobFacts, only: &[SheetKind]) -> Result<Packet<'a>, Vec<Diagnostic>> {
    let desk = &masters.desk;
    let mut others = masters.of(PacketKind::Substitute.about().sheets(), &[])?;
    exit::enough(&mut others);
    let learners: Vec<SheetKind> = crate::sheets::of_learners().collect();
    let groups = &desk.lesson.groups;
    let firsts: Vec<Version> = match groups.as_slice() {
        [] => vec![Version(0)],
        groups => groups.iter().filter_map(|group| group.versions.first().copied()).collect(),
    };
    others
        .retain(|page| !learners.contains(&page.sheet) || page.version.is_none_or(|version| firsts.contains(&version)));
    let entry = |page: &Page| cover::CoveredPage {
        sheet: page.sheet,
        reader: row(page.sheet).reader,
        version: page.version,
        name: page.name.clone(),
    };
    let entries: Vec<cover::CoveredPage> = others.iter().map(entry).collect();
    let mut pages = match row(SheetKind::Cover).lay {
        Lay::Cover(lay) => lay(desk, facts, &entries).map_err(|problem| vec![problem.unplaced()])?,
        Lay::Masters(_) | Lay::Plan(_) | Lay::Ticket(_) => Vec::new(),
    };
    pages.extend(others);
    let mut pages = counted(desk, pages, None)?;
    pages.retain(|page| only.is_empty() || page.sheet == SheetKind::Cover);
    Ok(made(desk, PacketKind::Substitute, pages))
}
