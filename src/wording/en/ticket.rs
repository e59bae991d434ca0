//! What the job ticket says in English.

use super::English;
use super::phrases::{counted, listed, many};
use super::titles::in_packet;
use crate::measure::Count;
use crate::number::Names;
use crate::spec::{Edge, Paper, PrintSides, SheetKind, Stock};
use crate::wording::class_groups::ClassGroups;
use crate::wording::digits::figures;
use crate::wording::learner::LearnerWords;
use crate::wording::ticket::{Done, FilePart, PacketPages, PacketRun, PiecesCut, TicketWords, begun};
use crate::wording::{Phrases, Spelling, Titles};

/// What pieces are called beside others: "strips", "blocks: flats".
pub(super) fn pieces(pieces: PiecesCut, of: Option<&str>) -> String {
    match pieces {
        PiecesCut::Strips => of.map_or("strips".to_owned(), |of| format!("strips {of}")),
        PiecesCut::Cards(_) => format!("layered cards: {}", piece_word(pieces)),
        PiecesCut::Flats | PiecesCut::RodsAndCubes => format!("blocks: {}", piece_word(pieces)),
    }
}

/// The pieces alone: "flats".
pub(super) fn piece_word(pieces: PiecesCut) -> &'static str {
    match pieces {
        PiecesCut::Strips => "strips",
        PiecesCut::Flats => "flats",
        PiecesCut::RodsAndCubes => "rods and cubes",
        PiecesCut::Cards(place) => English.place(place),
    }
}

/// "place-value mat and word bank".
fn titles(kinds: &[SheetKind]) -> String {
    listed(&kinds.iter().map(|kind| English.sheet_title(*kind).to_lowercase()).collect::<Vec<_>>())
}

impl TicketWords for English {
    fn requested(&self) -> &'static str {
        "Requested by __________________ Deliver to __________________ Needed by ________________"
    }

    fn actual_size(&self) -> &'static str {
        "Print at actual size: scaling none, 100 %. Do not fit to page."
    }

    fn class_sets(&self, learners: u32, asked: u32, extra: u32, versions: usize) -> String {
        let mut text = format!("Class sets for {}", counted(learners, "learner"));
        if asked > 0 {
            text = format!("{text} and {}", counted(asked, "spare set"));
        }
        if extra > 0 {
            text = format!("{text}, with {} more to fill the last pile", counted(extra, "spare set"));
        }
        if versions > 1 { format!("{text}, in {versions} versions.") } else { format!("{text}.") }
    }

    fn print_title(&self) -> &'static str {
        "What to print"
    }

    fn load(&self, sheets: usize, stocks: &[(Stock, usize)], paper: Paper) -> String {
        let loads: Vec<String> =
            stocks.iter().map(|(stock, count)| format!("{count} of {}", self.stock_name(*stock))).collect();
        format!("Load {} in all: {}. Paper size: {}.", many(sheets, "sheet"), listed(&loads), self.paper_size(paper))
    }

    fn files_heads(&self) -> [&'static str; 6] {
        ["File", "Stock", "Sheets", "Impressions", "Sides", "Ink"]
    }

    fn stock_weights(&self, stock: Stock) -> &'static str {
        match stock {
            Stock::Paper => "paper, 75\u{2013}90 g/m\u{b2} or 20\u{2013}24 lb bond",
            Stock::Card => "card, 160\u{2013}200 g/m\u{b2} or 65 lb cover to 110 lb index",
        }
    }

    fn stock_name(&self, stock: Stock) -> &'static str {
        match stock {
            Stock::Paper => "paper",
            Stock::Card => "card",
        }
    }

    fn paper_size(&self, paper: Paper) -> &'static str {
        match paper {
            Paper::Letter => "letter, 8.5 by 11 in (216 by 279 mm)",
            Paper::Legal => "legal, 8.5 by 14 in (216 by 356 mm)",
            Paper::Tabloid => "tabloid or ledger, 11 by 17 in (279 by 432 mm)",
            Paper::A4 => "A4, 210 by 297 mm (8.3 by 11.7 in)",
            Paper::A3 => "A3, 297 by 420 mm (11.7 by 16.5 in)",
        }
    }

    fn sides_printed(&self, sides: PrintSides) -> &'static str {
        match sides {
            PrintSides::One => "one side",
            PrintSides::Two(Edge::Long) => "two sides, turn on the long edge",
            PrintSides::Two(Edge::Short) => "two sides, turn on the short edge",
        }
    }

    fn ink_name(&self, colour: bool, spelling: Spelling) -> &'static str {
        if colour { spelling.of("color", "colour") } else { "black" }
    }

    fn kept(&self, kept: bool) -> &'static str {
        if kept { "kept" } else { "used up" }
    }

    fn proof_first(&self) -> &'static str {
        "Sheet 1 of each file is a proof: print it alone and look at it. Then print the rest of the file once, and keep its \
         order: every copy is in it already."
    }

    fn where_title(&self) -> &'static str {
        "What is where"
    }

    fn where_heads(&self) -> [&'static str; 5] {
        ["File", "Sheets", "Pages", "What", "Afterwards"]
    }

    fn file_part(&self, part: FilePart<'_>) -> String {
        match part {
            FilePart::Proof => "proof: print it first".to_owned(),
            FilePart::SlipSheet => "slip-sheet".to_owned(),
            FilePart::Kits(kinds, kits) => format!("{} for {}", titles(kinds), many(kits, "kit")),
            FilePart::Piles(piles) => format!("strips in {}", many(piles, "pile")),
            FilePart::Checks(slips, to_page) => {
                format!("{}: {}", self.sheet_in_text(SheetKind::Exit, slips), checks_to_page(slips, to_page))
            }
            FilePart::Packets([SheetKind::Strips], sets) => format!("{} of strips", many(sets, "set")),
            FilePart::Packets([kind], sets) => format!("{sets} {}", self.sheet_in_text(*kind, sets.narrow())),
            FilePart::Packets(kinds, sets) => {
                let names: Vec<&str> = kinds.iter().copied().map(in_packet).collect();
                format!("{}: {}", many(sets, "packet"), self.list(&names))
            }
        }
    }

    fn kits_at_hand(&self, file: &str, pages: &[String]) -> String {
        match pages {
            [] => format!("{file}: where the class still has its kits, leave this file out."),
            _ => format!("{file}: where the class still has its kits, print pages {} only.", listed(pages)),
        }
    }

    fn print_again(&self, file: &str, packets: &PacketPages, only: Option<SheetKind>, first: bool) -> Vec<String> {
        let intro = if first {
            let what = only.map_or("packet", |kind| self.sheet_in_text(kind, 1));
            format!(
                "{file}: to print one learner's {what} again, take these pages, counted from the first of the file. A viewer \
                 may label learner 1's own 1-1, 1-2 and so on."
            )
        } else {
            format!("{file}, in the same way:")
        };
        match packets {
            PacketPages::Runs(runs) => {
                let run = |run: &PacketRun| {
                    let each = if run.is_one() { String::new() } else { format!("{} each, ", many(run.each, "page")) };
                    format!("{}: {each}{}", figures(run.learners), figures(run.pages))
                };
                let runs = runs.iter().map(run).collect::<Vec<_>>().join(" \u{b7} ");
                vec![format!("{intro} Learner {runs}.")]
            }
            PacketPages::Begin(begin, last) => {
                let told =
                    format!("{intro} The last packet ends on page {last}. These are the pages on which packets begin.");
                [vec![told], begun(begin)].concat()
            }
        }
    }

    fn checks_title(&self) -> &'static str {
        "Cut the quick checks apart"
    }

    fn checks_cut(&self, sheets: usize, cuts: usize, groups: bool) -> String {
        let whose = if groups { self.checks_apart() } else { "Any check serves any learner." };
        let alike = if sheets == 1 { "" } else { ", all cut alike, no more at a time than the trimmer takes" };
        format!("{}{alike}: {}. {whose}", many(sheets, "sheet"), many(cuts, "straight cut"))
    }

    fn teacher_cuts(&self) -> (&'static str, [&'static str; 3]) {
        ("Not for the copy room: cut by the teacher or a helper before the lesson", ["Sheet", "To cut", "Makes"])
    }

    fn learners_cut(&self, one: bool) -> (&'static str, [&'static str; 3]) {
        if one {
            ("Do not cut these: the learner does", ["Sheet", "The learner gets", "Cuts on them"])
        } else {
            ("Do not cut these: learners do", ["Sheet", "Each learner gets", "Cuts on them"])
        }
    }

    fn sheets(&self, count: usize) -> String {
        many(count, "sheet")
    }

    fn pages(&self, count: usize) -> String {
        many(count, "page")
    }

    fn straight_cuts(&self, count: usize) -> String {
        many(count, "straight cut")
    }

    fn joined(&self, sheet: SheetKind, copies: u32, pages: u32) -> String {
        let each = if copies == 1 { "" } else { "each " };
        format!("{copies} {}, {each}of {pages} pages joined with tape", self.sheet_in_text(sheet, copies))
    }

    fn kits_of(&self, kits: u32, pieces: usize, holds: Option<[u32; 4]>) -> String {
        let each = if kits == 1 { "1 kit".to_owned() } else { format!("{kits} kits, each") };
        let holds = holds.map_or_else(|| many(pieces, "piece"), |counts| self.blocks_told(counts));
        format!("{each} of {holds}")
    }

    fn up_to(&self, most: &str) -> String {
        format!("up to {most}")
    }

    fn masters_bare(&self) -> &'static str {
        "These copies have nothing on their backs: there are no marks to turn over to."
    }

    fn cube_rows(&self) -> &'static str {
        "Rows of cubes in the kits of blocks"
    }

    fn file_missing_title(&self) -> &'static str {
        "If a file is missing"
    }

    fn copy_masters(&self, sets: &[(SheetKind, Option<String>, String, bool, u32)]) -> String {
        let said = sets.iter().map(|(kind, version, pages, single, copies)| {
            let of = if *single { "page" } else { "pages" };
            // "Quick checks 1 to 4", "sorting board A".
            let several = version.as_ref().is_some_and(|version| version.contains(' '));
            let title = self.sheet_title(*kind).to_lowercase();
            let title = if several { self.sheet_in_text(*kind, 2).to_owned() } else { title };
            let version = version.as_ref().map(|version| format!(" {version}")).unwrap_or_default();
            format!("{title}{version}: {of} {pages} \u{d7} {copies}")
        });
        let said = said.collect::<Vec<_>>().join(" \u{b7} ");
        format!("Copy from teacher.pdf at actual size, so many of each. {}.", self.capital(&said))
    }

    fn save_title(&self) -> &'static str {
        "Fewer sheets next time, each by itself"
    }

    fn save_sharing(&self, kind: SheetKind, learners: u32, sheets: usize) -> String {
        let title = self.sheet_in_text(kind, 2);
        format!("share {title} between {learners} learners: {} fewer", many(sheets, "sheet"))
    }

    fn save_spares(&self, sheets: usize) -> String {
        format!("make no spare sets: {} fewer", many(sheets, "sheet"))
    }

    fn save_kits(&self, sheets: usize) -> String {
        format!("use these kits again: {} fewer", many(sheets, "sheet"))
    }

    fn done_title(&self) -> &'static str {
        "Mark when done"
    }

    fn done(&self, done: Done<'_>) -> String {
        match done {
            Done::Proof => "Proof of each file: both lines measure what they say, and the frame is whole.".to_owned(),
            Done::ProofBack => {
                "Proof held to the light: the ring on the back lies round the cross on the front.".to_owned()
            }
            Done::Printed(file, sheets, stock, both) => {
                let two = if both { ", two-sided" } else { "" };
                format!("{file} printed: {} of {}{two}.", many(sheets, "sheet"), self.stock_name(stock))
            }
            Done::Cut(what, of, cuts, piles) => format!(
                "{}: {} made on {}.",
                self.capital(&pieces(what, of)),
                many(cuts, "cut"),
                if piles == 1 { "the pile".to_owned() } else { format!("each of {}", many(piles, "pile")) }
            ),
            Done::ChecksCut(cuts) => format!("Quick checks cut apart: {} on each sheet.", many(cuts, "cut")),
            Done::Banded(1) => "The set of strips banded, its band on top.".to_owned(),
            Done::Banded(sets) => format!(
                "{sets} sets of strips banded, each with its band on top, put in the order of the learners' numbers."
            ),
            Done::Packets(sets, only) => {
                let what =
                    only.map_or(if sets == 1 { "packet" } else { "packets" }, |kind| self.sheet_in_text(kind, sets));
                let order = if sets == 1 { "" } else { ", one learner after the other" };
                let what = self.capital(what);
                format!("{what} kept in print order{order}; no stapling, so that pages can be laid out.")
            }
        }
    }

    fn shapes_on_backs(&self) -> &'static str {
        "The shapes on the backs of strips are no printing fault: learners check by them, and the strips of a row share one."
    }

    fn guillotine_in_short(&self) -> &'static str {
        "Guillotine: trained adults only, guard in place, fingers behind the rail; the rules of this workplace come first."
    }

    fn guillotine(&self) -> (&'static str, &'static str) {
        (
            "Care at the guillotine",
            "Trained adults only, and the rules of this workplace come first. Guard in place, never removed. Flat, stable \
             table. Fingers behind the rail; loose clothing and hair away. No more sheets at a time than the machine is \
             made for: split a pile if need be and put the parts back in order. Latch the blade down after use.",
        )
    }

    fn software_title(&self) -> &'static str {
        "For the print software"
    }

    fn attributes(&self, list: &str) -> String {
        format!("IPP attributes of every file: copies: 1 \u{b7} {list}.")
    }

    fn commands(&self) -> &'static str {
        "Ready to run where these files are (add -d and a printer's name if it is not the usual one). Each prints all that \
         follows the proof. For the proof alone write -o page-ranges=1, or 1-2 where both sides are printed:"
    }

    fn file_head(&self) -> &'static str {
        "File"
    }
}

/// How many quick checks, and how many of them a page holds: on a page that is not cut, the last slip is the last one needed.
pub(super) fn checks_to_page(slips: u32, to_page: u32) -> String {
    if to_page == 1 { format!("{slips}, one to a page") } else { format!("{slips} needed, {to_page} to a page") }
}
