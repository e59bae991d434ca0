//! What the copy room reads: the job ticket and the proof of each file.

use super::area::area;
use super::digits::figures;
use super::usage::Spelling;
use crate::number::Place;
use crate::spec::{Paper, PrintSides, SheetKind, Stock};

/// What is cut as piles of one size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PiecesCut {
    /// Strips of a sort set.
    Strips,
    /// Flats, and thousands, which take their places.
    Flats,
    /// Rods, and rows of cubes as wide as a rod.
    RodsAndCubes,
    /// Layered cards of a place.
    Cards(Place),
}

/// A part of a file of the copy room.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FilePart<'a> {
    /// A sheet to try the printer with.
    Proof,
    /// A sheet that says what follows.
    SlipSheet,
    /// Sheets that are kept, for so many kits.
    Kits(&'a [SheetKind], usize),
    /// Strips in so many piles.
    Piles(usize),
    /// Quick checks: so many slips, so many to a page.
    Checks(u32, u32),
    /// So many learners' pages, one after the other's.
    Packets(&'a [SheetKind], usize),
}

/// What is done by hand, to tick off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Done<'a> {
    /// The proof measures right.
    Proof,
    /// The proof's back lies behind its front.
    ProofBack,
    /// A file is printed: its name, sheets, stock, and whether on both sides.
    Printed(&'a str, usize, Stock, bool),
    /// Piles are cut: of which pieces, of which versions where others are cut apart from them, cuts on each, how many.
    Cut(PiecesCut, Option<&'a str>, usize, usize),
    /// Quick checks are cut apart, with so many cuts on each sheet.
    ChecksCut(usize),
    /// So many sets of strips have their bands.
    Banded(u32),
    /// So many packets are in order; of one sheet alone where there is one.
    Packets(u32, Option<SheetKind>),
}

/// What becomes of places in the last pile that nobody asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LastPile {
    /// Every place is taken.
    Full,
    /// So many spare sets.
    Spares(usize),
    /// So many places stay blank, since spare sets for them would need more sheets.
    Blanks(usize),
    /// So many places stay blank.
    Left(usize),
}

/// Where learners' packets are in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PacketPages {
    /// Packets of one size, one after the other: each a run.
    Runs(Vec<PacketRun>),
    /// Packets of many sizes: so many in a row, the first of them, and the page on which each begins; and the last page of all.
    Begin(Vec<(usize, Vec<usize>)>, usize),
}

/// Packets of as many pages each, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PacketRun {
    /// The numbers of the first and last learner.
    pub learners: (usize, usize),
    /// How many pages each packet has.
    pub each: usize,
    /// The first and last page of all of them.
    pub pages: (usize, usize),
}

impl PacketRun {
    /// Whether it is a single packet.
    pub const fn is_one(&self) -> bool {
        self.learners.0 == self.learners.1
    }
}

/// Piles that go on evenly.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PileRun {
    /// The first and last of them.
    pub piles: (usize, usize),
    /// How many sets each has.
    pub each: usize,
    /// The learners' numbers, in the order of the places.
    pub sets: Vec<(u32, u32)>,
}

/// Why piles need as many sheets as they do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Least {
    /// Sheets of each pile: piles of as many stand in a row, with how many these are.
    pub sheets: Vec<(usize, usize)>,
    /// Places on a sheet.
    pub places: usize,
    /// Sets that are printed.
    pub sets: usize,
    /// Piles.
    pub piles: usize,
    /// The number of the last pile.
    pub number: usize,
    /// What becomes of the rest.
    pub last: LastPile,
}

/// Where packets begin, in figures: "1–3: 28, 33, 38"; in paragraphs.
pub fn begun(packets: &[(usize, Vec<usize>)]) -> Vec<String> {
    let row = |(first, pages): &(usize, Vec<usize>)| {
        let pages_of = pages.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
        format!("{}: {pages_of}", figures((*first, first + pages.len() - 1)))
    };
    paragraphs(packets.iter().map(row))
}

/// Items in paragraphs that a page has room for.
pub fn paragraphs(items: impl Iterator<Item = String>) -> Vec<String> {
    const ITEMS: usize = 10;
    let items: Vec<String> = items.collect();
    items.chunks(ITEMS).map(|items| items.join(" \u{b7} ")).collect()
}

/// Sheets of all piles.
pub fn total(least: &Least) -> usize {
    least.sheets.iter().map(|(piles, sheets)| piles * sheets).sum()
}

/// Their sum in figures: "2 × 26 + 14".
pub fn summed(least: &Least) -> String {
    let term = |(piles, sheets): &(usize, usize)| match piles {
        1 => sheets.to_string(),
        _ => format!("{piles} \u{d7} {sheets}"),
    };
    least.sheets.iter().map(term).collect::<Vec<_>>().join(" + ")
}

area! {
    /// The job ticket: what to print.
    TicketWords;

    /// The line on which the job is signed for.
    fn requested() -> &'static str;

    /// The warning that no viewer may scale.
    fn actual_size() -> &'static str;

    /// For whom: learners, spare sets that were asked for, those that fill a pile, versions.
    fn class_sets(learners: u32, asked: u32, extra: u32, versions: usize) -> String;

    /// The headings of the ticket's parts.
    fn print_title() -> &'static str;

    /// What to load: sheets in all, and of each stock; the paper's size.
    fn load(sheets: usize, stocks: &[(Stock, usize)], paper: Paper) -> String;

    /// The headings of the table of files: file, stock, sheets, impressions, sides, ink.
    fn files_heads() -> [&'static str; 6];

    /// A stock with the weights that serve. Weights are common practice, no source.
    fn stock_weights(stock: Stock) -> &'static str;

    /// A stock in a word.
    fn stock_name(stock: Stock) -> &'static str;

    /// The size of the paper, as people and machines call it.
    fn paper_size(paper: Paper) -> &'static str;

    /// One side or two, and the edge to turn on.
    fn sides_printed(sides: PrintSides) -> &'static str;

    /// Black, or colour.
    fn ink_name(colour: bool, spelling: Spelling) -> &'static str;

    /// Whether a part is kept or used up.
    fn kept(kept: bool) -> &'static str;

    /// That the first sheet of each file is tried first.
    fn proof_first() -> &'static str;

    /// The heading over what is where in the files.
    fn where_title() -> &'static str;

    /// The headings of its table: file, sheets, pages, what, afterwards.
    fn where_heads() -> [&'static str; 5];

    /// A part of a file.
    fn file_part(part: FilePart<'_>) -> String;

    /// Which pages of a file to print where the class still has its kits, in figures; none of it without pages.
    fn kits_at_hand(file: &str, pages: &[String]) -> String;

    /// The pages of each learner's packet, for one that has to be printed again: paragraphs, none of them long.
    /// What all files have in common is said of the `first`. `only` is the sheet of packets that have one alone.
    fn print_again(file: &str, packets: &PacketPages, only: Option<SheetKind>, first: bool) -> Vec<String>;

    /// The heading over quick checks that are cut apart.
    fn checks_title() -> &'static str;

    /// How they are cut: sheets, and straight cuts on each.
    fn checks_cut(sheets: usize, cuts: usize, groups: bool) -> String;

    /// The heading over what the teacher or a helper cuts, and the headings of its table.
    fn teacher_cuts() -> (&'static str, [&'static str; 3]);

    /// The heading over what learners cut, or the only learner, and the headings of its table.
    fn learners_cut(one: bool) -> (&'static str, [&'static str; 3]);

    /// "1 sheet", "25 sheets".
    fn sheets(count: usize) -> String;

    /// "1 page", "25 pages".
    fn pages(count: usize) -> String;

    /// "1 straight cut", "7 straight cuts".
    fn straight_cuts(count: usize) -> String;

    /// "13 mats, each of 2 pages joined with tape".
    fn joined(sheet: SheetKind, copies: u32, pages: u32) -> String;

    /// "24 kits, 40 pieces each".
    fn kits_of(kits: u32, pieces: usize, holds: Option<[u32; 4]>) -> String;

    /// What some learners get less of: "up to 3 pages".
    fn up_to(most: &str) -> String;

    /// What copies of the teacher's masters lack where pages have marks on their backs.
    fn masters_bare() -> &'static str;

    /// What is left in kits of blocks that a guillotine cut.
    fn cube_rows() -> &'static str;

    /// The heading over what to copy where a file is missing.
    fn file_missing_title() -> &'static str;

    /// What to copy: each sheet with its set, or the numbers of its checks, its pages in figures and whether it is a single one, and how many copies.
    fn copy_masters(sets: &[(SheetKind, Option<String>, String, bool, u32)]) -> String;

    /// The heading over what would save paper.
    fn save_title() -> &'static str;

    /// Sharing a kit's sheet between so many learners saves so many sheets: no sentence yet.
    fn save_sharing(kind: SheetKind, learners: u32, sheets: usize) -> String;

    /// No spare sets save so many sheets.
    fn save_spares(sheets: usize) -> String;

    /// Kits that are used again save so many sheets.
    fn save_kits(sheets: usize) -> String;

    /// The heading over the list to tick off.
    fn done_title() -> &'static str;

    /// A thing to tick off.
    fn done(done: Done<'_>) -> String;

    /// What the shapes on the backs of strips are.
    fn shapes_on_backs() -> &'static str;

    /// The cautions at the guillotine in a sentence, where only quick checks are cut.
    fn guillotine_in_short() -> &'static str;

    /// The heading over cautions at the guillotine, and the cautions.
    fn guillotine() -> (&'static str, &'static str);

    /// The heading over what print software is told.
    fn software_title() -> &'static str;

    /// The attributes that all files share, in the words of their standard.
    fn attributes(list: &str) -> String;

    /// That commands follow.
    fn commands() -> &'static str;

    /// The heading over a column of files.
    fn file_head() -> &'static str;
}

area! {
    /// The job ticket: how piles are cut, and the proof.
    CuttingWords;

    /// The heading over the cuts of a pile; `of` is whose strips, where others are cut apart from them.
    fn cut_title(pieces: PiecesCut, of: Option<&str>, cuts: usize) -> String;

    /// How piles are held: file, piles, their sheets in figures and whether that is a single one, whether the sheet is wider
    /// than high, and how many sheets of paper and of this stock a trimmer takes with the piles that have more: their sheets, and in
    /// how many parts.
    fn cut_piles(
        file: &str,
        piles: usize,
        sheets: (&[String], bool),
        wide: bool,
        trimmer: ([usize; 2], &[(usize, usize)])
    ) -> String;

    /// How to set the back gauge, for cuts across and down as far as there are any.
    fn back_gauge(across: bool, down: bool) -> &'static str;

    /// What is done at a setting at which the piece is turned round.
    fn gauge_turned() -> &'static str;

    /// What is done at settings to which many gauges do not come.
    fn gauge_near() -> &'static str;

    /// A setting at which the piece is turned round.
    fn turned(setting: &str) -> String;

    /// The headings of the list of cuts: cut, from the top, from the left.
    fn cuts_heads() -> [&'static str; 3];

    /// What lies where after the cuts: strips.
    fn strips_lie() -> &'static str;

    /// What lies where after the cuts: pieces of kits.
    fn kits_lie(pieces: PiecesCut) -> String;

    /// A column of places.
    fn column(column: u32) -> String;

    /// The heading of the column that says pile and row.
    fn pile_row() -> &'static str;

    /// Whose sets lie at the places of further piles, row by row from the left: paragraphs, none of them long.
    fn more_piles(piles: &[PileRun]) -> Vec<String>;

    /// The headings of the table of kits: pile, sheets, kits, places of each.
    fn kits_heads() -> [&'static str; 4];

    /// A run of numbers: "3 to 8"; a single one by itself.
    fn run_of(first: usize, last: usize) -> String;

    /// "1 place", "7 places".
    fn places(count: usize) -> String;

    /// Why there are so many sheets.
    fn least_sheets(least: &Least) -> String;

    /// What a slip-sheet is called.
    fn slip_sheet_title() -> &'static str;

    /// Where what follows a slip-sheet is: the file, its first and last sheet in it.
    fn slip_sheet_of(file: &str, sheets: (usize, usize)) -> String;

    /// What becomes of a slip-sheet, on itself.
    fn slip_sheet_note() -> &'static str;

    /// What becomes of slip-sheets, on the ticket.
    fn slip_sheets_told() -> &'static str;

    /// The proof's heading, and the names of its two pages.
    fn proof_titles() -> [&'static str; 3];

    /// What the proof is of: file, sheets, stock, sides, paper.
    fn proof_of(file: &str, sheets: usize, stock: Stock, sides: PrintSides, paper: Paper) -> String;

    /// What to look for on it: the two lines, the frame, the greys.
    fn proof_checks() -> [&'static str; 3];

    /// What to look for where pages are in colour.
    fn proof_colours() -> &'static str;

    /// What to look for on its back.
    fn proof_light() -> &'static str;

    /// What its back says.
    fn proof_back() -> &'static str;
}
