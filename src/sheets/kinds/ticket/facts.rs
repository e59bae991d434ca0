//! What the ticket says, as data: worked out from the very jobs that make the files.

use crate::lesson::job::{Edge, PrintSides};
use crate::measure::{Length, Size};
use crate::sheets::files::PacketKind;
use crate::sheets::job::impose::Fill;
use crate::sheets::job::{Job, Order, Part, Piles};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{CutLine, Page, Stock};
use crate::spec::{Paper, SheetKind};

/// One file and how to print it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its name.
    pub file: &'static str,
    /// What it is printed on.
    pub stock: Stock,
    /// Sheets of that stock.
    pub sheets: usize,
    /// Printed sides, blank backs among them: the file's pages.
    pub impressions: usize,
    /// One side or two.
    pub sides: PrintSides,
    /// What is in it, in print order, in a few words each.
    pub holds: Vec<String>,
    /// The command that prints it, in parts that may go on lines of their own.
    pub command: Vec<String>,
}

/// What is cut as piles.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cutting {
    /// The file that holds the sheets.
    pub file: &'static str,
    /// The sheet's size as it is read.
    pub size: Size,
    /// Every cut in the order to make it: level ones from the top, then upright ones from the left.
    pub cuts: Vec<CutLine>,
    /// Columns and rows of places.
    pub grid: (u32, u32),
    /// Sheets of each pile, in order.
    pub piles: Vec<Pile>,
    /// The most pieces a set has, its band among them.
    pub pieces: usize,
    /// What becomes of places that nobody asked for.
    pub fill: Fill,
}

/// A pile that is cut as one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pile {
    /// How many sheets.
    pub sheets: usize,
    /// Whose set is at each place, such as "7 B"; along the rows, the last places may be missing.
    pub places: Vec<String>,
}

/// Pages that learners cut with scissors.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scissors {
    /// Which sheet.
    pub sheet: SheetKind,
    /// How many pages of it a learner gets, and straight cuts on all of them together; both at most.
    pub most: (usize, usize),
}

/// Everything on the ticket.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facts {
    /// The lesson's title.
    pub title: String,
    /// Learners, spare sets asked for, spare sets that fill a pile, versions.
    pub class: (u32, u32, u32, usize),
    /// The files.
    pub lines: Vec<Line>,
    /// What the guillotine cuts, if anything.
    pub cutting: Option<Cutting>,
    /// What learners cut.
    pub scissors: Vec<Scissors>,
    /// Sheets of slips to cut apart, and straight cuts on each.
    pub slips: Option<(usize, usize)>,
}

/// What the ticket says about an order.
pub fn gather(desk: &Desk<'_>, order: &Order<'_>) -> Facts {
    let spec = &desk.lesson.spec;
    let (learners, spares) = (spec.class.learners.value, spec.class.spares.value);
    let sets = u32::try_from(order.seats.len()).unwrap_or(u32::MAX);
    let extra = sets.saturating_sub(learners.saturating_add(spares));
    let parts = || order.jobs.iter().flat_map(|job| job.parts.iter().map(move |part| (job, part)));
    let cutting = parts().find_map(|(job, part)| match part {
        Part::Piles(piles) => Some(cutting(job, piles, order)),
        Part::Shared(_) | Part::Packets(_) => None,
    });
    Facts {
        title: spec.title.value.clone(),
        class: (learners, spares, extra, desk.lesson.sets.len()),
        lines: order.jobs.iter().map(|job| line(desk, job)).collect(),
        cutting,
        scissors: scissors(order),
        slips: parts().find_map(|(_, part)| match part {
            Part::Shared(shared) => Some((shared.leaves(), shared.masters().first().map_or(0, cuts))),
            Part::Piles(_) | Part::Packets(_) => None,
        }),
    }
}

fn line(desk: &Desk<'_>, job: &Job<'_>) -> Line {
    let spec = &desk.lesson.spec;
    let wording = desk.lesson.wording();
    let file = file(job);
    let holds = job.parts.iter().map(|part| match part {
        Part::Piles(piles) => {
            let (sheets, groups) = (count(piles.leaves(), "sheet"), count(piles.stacks().groups(), "pile"));
            format!("strips for the guillotine: {sheets} in {groups}")
        }
        Part::Shared(shared) => {
            format!("{} of quick checks, a slip for each learner", count(shared.leaves(), "sheet"))
        }
        Part::Packets(packets) => {
            let mut kinds: Vec<SheetKind> = packets.versions().iter().flatten().map(|leaf| leaf.front.sheet).collect();
            kinds.sort_unstable();
            kinds.dedup();
            let names: Vec<String> = kinds.iter().map(|kind| wording.sheet_title(*kind).to_lowercase()).collect();
            format!("{}: {}", count(packets.len(), "packet"), names.join(", "))
        }
    });
    Line {
        file,
        stock: job.stock,
        sheets: job.leaves(),
        impressions: job.pages(),
        sides: job.sides,
        holds: holds.collect(),
        command: command(file, job.stock, job.sides, spec.paper.value, &spec.title.value),
    }
}

/// The name of a job's file.
fn file(job: &Job<'_>) -> &'static str {
    match job.stock {
        Stock::Paper => PacketKind::Paper.about().file,
        Stock::Card => PacketKind::Card.about().file,
    }
}

/// The print command for a file: `lp` of CUPS, with the attribute names and keywords of IPP (RFC 8011; `print-scaling`
/// PWG 5100.13) and the media name of PWG 5101.1.
fn command(file: &str, stock: Stock, sides: PrintSides, paper: Paper, title: &str) -> Vec<String> {
    let mut parts = vec![format!("lp -n 1 -t {}", quoted(title))];
    parts.extend(attributes(stock, sides, paper).into_iter().map(|(name, value)| format!("-o {name}={value}")));
    parts.push(file.to_owned());
    parts
}

/// IPP job attributes of a file, in the order of the command.
pub fn attributes(stock: Stock, sides: PrintSides, paper: Paper) -> Vec<(&'static str, &'static str)> {
    // The keywords of media-type are from memory of PWG 5101.1.
    let kind = match stock {
        Stock::Paper => "stationery",
        Stock::Card => "cardstock",
    };
    let sides = match sides {
        PrintSides::One => "one-sided",
        PrintSides::Two(Edge::Long) => "two-sided-long-edge",
        PrintSides::Two(Edge::Short) => "two-sided-short-edge",
    };
    vec![
        ("media", paper.media()),
        ("media-type", kind),
        ("sides", sides),
        ("print-scaling", "none"),
        ("multiple-document-handling", "separate-documents-collated-copies"),
    ]
}

/// Text as one word of a POSIX shell.
fn quoted(text: &str) -> String {
    format!("'{}'", text.replace('\'', "'\\''"))
}

fn cutting(job: &Job<'_>, piles: &Piles, order: &Order<'_>) -> Cutting {
    let (grid, stacks) = (piles.sheet().grid(), piles.stacks());
    let mut cuts = grid.cuts();
    cuts.sort_unstable();
    let pile = |group: usize| {
        let seats = stacks.sets_of(group).filter_map(|set| order.seats.get(set));
        let places = seats.map(|seat| format!("{} {}", seat.number, seat.version)).collect();
        Pile { sheets: stacks.sheets_of(group).len(), places }
    };
    let all: Vec<Pile> = (0..stacks.groups()).map(pile).collect();
    Cutting {
        file: file(job),
        size: piles.sheet().size(),
        cuts,
        grid: (grid.columns, grid.rows),
        pieces: all.iter().map(|pile| pile.sheets).max().unwrap_or(0),
        piles: all,
        fill: order.fill,
    }
}

/// Sheets with cut lines that are not piles.
fn scissors(order: &Order<'_>) -> Vec<Scissors> {
    let mut all: Vec<Scissors> = Vec::new();
    for part in order.jobs.iter().flat_map(|job| &job.parts) {
        let Part::Packets(packets) = part else { continue };
        for leaves in packets.versions() {
            let mut here: Vec<Scissors> = Vec::new();
            for leaf in leaves {
                let cuts = cuts(&leaf.front);
                if cuts == 0 {
                    continue;
                }
                match here.iter_mut().find(|s| s.sheet == leaf.front.sheet) {
                    Some(s) => s.most = (s.most.0 + 1, s.most.1 + cuts),
                    None => here.push(Scissors { sheet: leaf.front.sheet, most: (1, cuts) }),
                }
            }
            for new in here {
                match all.iter_mut().find(|s| s.sheet == new.sheet) {
                    Some(s) => s.most = (s.most.0.max(new.most.0), s.most.1.max(new.most.1)),
                    None => all.push(new),
                }
            }
        }
    }
    all
}

/// How many straight cuts a page has.
fn cuts(page: &Page) -> usize {
    page.layers.iter().map(|layer| layer.cuts.len() + layer.snips.len()).sum()
}

/// "1 sheet", "25 sheets".
pub fn count(n: usize, one: &str) -> String {
    format!("{n} {one}{}", if n == 1 { "" } else { "s" })
}

/// A distance for a guillotine, in both units: "61.3 mm" and "2.413 in".
pub fn distance(length: Length) -> (String, String) {
    (length.to_string(), format!("{:.3} in", length.to_inches()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_is_one_word_of_the_shell() {
        assert_eq!(quoted("Otis's stall; rm $HOME `x`"), r"'Otis'\''s stall; rm $HOME `x`'");
    }

    #[test]
    fn the_command_says_what_the_standards_call_it() {
        let parts = command("a.pdf", Stock::Card, PrintSides::Two(Edge::Short), Paper::Tabloid, "T");
        let want = "lp -n 1 -t 'T' -o media=na_ledger_11x17in -o media-type=cardstock -o sides=two-sided-short-edge \
                    -o print-scaling=none -o multiple-document-handling=separate-documents-collated-copies a.pdf";
        assert_eq!(parts.join(" "), want);
    }

    #[test]
    fn distances_are_in_both_units() {
        assert_eq!(distance(Length::mm100(6_125)), ("61.25 mm".to_owned(), "2.411 in".to_owned()));
    }
}
