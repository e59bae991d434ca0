//! What the ticket says, as data: worked out from the very order that makes the files.

use std::collections::BTreeSet;

use crate::lesson::Version;
use crate::lesson::job::Edge;
use crate::lesson::job::{FileFacts, Fill, JobFacts, PartKind, PrintSides, Stock};
use crate::measure::{Length, Size};
use crate::sheets::page::CutLine;
use crate::spec::{Paper, SheetKind};
use crate::wording::ticket::PiecesCut;

/// Everything on the ticket.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Facts {
    /// The lesson's title.
    pub title: String,
    /// The paper.
    pub paper: Paper,
    /// How many sort sets there are.
    pub versions: usize,
    /// What is printed.
    pub job: JobFacts,
    /// What the guillotine cuts as piles, in the order of the files.
    pub cuttings: Vec<Cutting>,
    /// What becomes of places in the last pile of strips that nobody asked for.
    pub fill: Fill,
    /// The cuts on each sheet of quick checks, in the order to make them; none where a slip is a page.
    pub slip_cuts: Vec<CutLine>,
    /// What to copy from the masters where a file is missing.
    pub emergency: Vec<Emergency>,
}

impl Facts {
    /// Whose strips a cutting is of, where strips of other sizes are cut apart from them.
    pub fn parted(&self, cutting: &Cutting) -> Option<String> {
        let alike = self.cuttings.iter().filter(|other| other.kind == cutting.kind && other.what == cutting.what);
        (alike.count() > 1).then(|| cutting.versions())
    }
}

/// Masters that stand in for copies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Emergency {
    /// Which sheet.
    pub kind: SheetKind,
    /// Whose set, where versions differ.
    pub version: Option<Version>,
    /// The first and the last of its checks, where they are a group's.
    pub marks: Option<(u32, u32)>,
    /// First and last page in the teacher's packet, from 1.
    pub pages: (usize, usize),
    /// How many copies of each.
    pub copies: u32,
}

/// Piles that are cut alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cutting {
    /// The file that holds the sheets.
    pub file: &'static str,
    /// Which sheet.
    pub kind: SheetKind,
    /// What the pieces are.
    pub what: PiecesCut,
    /// The sheet's size as it is read.
    pub size: Size,
    /// Every cut in the order to make it: level ones from the bottom up, then upright ones from the right. Each is measured
    /// from the top or left edge, which is there until the last of them.
    pub cuts: Vec<CutLine>,
    /// Columns and rows of places.
    pub grid: (u32, u32),
    /// How many piles of the same sheet were cut in another way before these.
    pub before: usize,
    /// The piles in order.
    pub piles: Vec<Pile>,
}

impl Cutting {
    /// Whose strips these are, in the order of the letters: "A, B"; empty for kits.
    pub fn versions(&self) -> String {
        let of = |place: &PileOf| if let PileOf::Set(_, version) = place { Some(*version) } else { None };
        let all: BTreeSet<Version> = self.piles.iter().flat_map(|pile| pile.places.iter().filter_map(of)).collect();
        all.iter().map(Version::to_string).collect::<Vec<_>>().join(", ")
    }

    /// How many sets lie at the places of the piles.
    pub fn sets(&self) -> usize {
        self.piles.iter().map(|pile| pile.places.len()).sum()
    }
}

/// Whose pieces are at a place of a pile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PileOf {
    /// The strips of a learner, or of a spare set: its number and version.
    Set(u32, Version),
    /// A kit's, from 1.
    Kit(usize),
}

/// A pile that is cut as one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pile {
    /// Its first and last sheet in the file, from 1.
    pub sheets: (usize, usize),
    /// Whose set is at each place; along the rows, the last places may be missing.
    pub places: Vec<PileOf>,
}

impl Pile {
    /// How many sheets.
    pub fn len(&self) -> usize {
        self.sheets.1 + 1 - self.sheets.0
    }

    /// Never: a pile has a sheet.
    pub fn is_empty(&self) -> bool {
        false
    }
}

/// The cuts across and those down.
pub fn split(cuts: &[CutLine]) -> (Vec<Length>, Vec<Length>) {
    let level = |cut: &CutLine| if let CutLine::Level(y) = cut { Some(*y) } else { None };
    let upright = |cut: &CutLine| if let CutLine::Upright(x) = cut { Some(*x) } else { None };
    (cuts.iter().filter_map(level).collect(), cuts.iter().filter_map(upright).collect())
}

/// The print command for a file: `lp` of CUPS, with the attribute names and keywords of IPP (RFC 8011; `print-scaling` and
/// `print-color-mode` PWG 5100.13) and the media name of PWG 5101.1; in parts that may go on lines of their own.
pub fn command(file: &FileFacts, paper: Paper, title: &str) -> Vec<String> {
    let mut parts = vec![format!("lp -n 1 -t {}", quoted(title))];
    parts.extend(attributes(file, paper).into_iter().map(|(name, value)| format!("-o {name}={value}")));
    // The proof was printed before.
    let proof = file.parts.iter().find(|part| part.kind == PartKind::Proof);
    parts.extend(proof.map(|proof| format!("-o page-ranges={}-{}", proof.pages.1 + 1, file.pages)));
    parts.push(file.file.to_owned());
    parts
}

/// IPP job attributes of a file, in the order of the command.
pub fn attributes(file: &FileFacts, paper: Paper) -> Vec<(&'static str, &'static str)> {
    // The keywords of media-type are from memory of PWG 5101.1.
    let kind = match file.stock {
        Stock::Paper => "stationery",
        Stock::Card => "cardstock",
    };
    let sides = match file.sides {
        PrintSides::One => "one-sided",
        PrintSides::Two(Edge::Long) => "two-sided-long-edge",
        PrintSides::Two(Edge::Short) => "two-sided-short-edge",
    };
    vec![
        ("media", paper.media()),
        ("media-type", kind),
        ("sides", sides),
        ("print-color-mode", if file.colour { "color" } else { "monochrome" }),
        ("print-scaling", "none"),
        ("multiple-document-handling", "separate-documents-collated-copies"),
    ]
}

/// Text as one word of a POSIX shell.
fn quoted(text: &str) -> String {
    format!("'{}'", text.replace('\'', "'\\''"))
}

/// A distance for a guillotine, in both units: "61.3 mm" and "2.413 in".
pub fn distance(length: Length) -> (String, String) {
    (length.to_string(), format!("{:.3} in", length.to_inches()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::job::PartFacts;

    #[test]
    fn a_title_is_one_word_of_the_shell() {
        assert_eq!(quoted("Otis's stall; rm $HOME `x`"), r"'Otis'\''s stall; rm $HOME `x`'");
    }

    #[test]
    fn the_command_says_what_the_standards_call_it() {
        let sides = PrintSides::Two(Edge::Short);
        let file = FileFacts { file: "a.pdf", stock: Stock::Card, sides, colour: true, pages: 2, parts: Vec::new() };
        let want = "lp -n 1 -t 'T' -o media=na_ledger_11x17in -o media-type=cardstock -o sides=two-sided-short-edge \
                    -o print-color-mode=color -o print-scaling=none \
                    -o multiple-document-handling=separate-documents-collated-copies a.pdf";
        assert_eq!(command(&file, Paper::Tabloid, "T").join(" "), want);
        // What follows a proof of two sides.
        let proof = PartFacts { kind: PartKind::Proof, pages: (1, 2), sheets: (1, 1) };
        let file = FileFacts { pages: 9, parts: vec![proof], ..file };
        assert!(command(&file, Paper::Tabloid, "T").join(" ").ends_with(" -o page-ranges=3-9 a.pdf"));
    }

    #[test]
    fn distances_are_in_both_units() {
        assert_eq!(distance(Length::mm100(6_125)), ("61.25 mm".to_owned(), "2.411 in".to_owned()));
    }
}
