//! How piles are cut, and what a proof says, in English.

use super::English;
use super::phrases::{listed, many};
use super::ticket::{piece_word, pieces};
use crate::spec::{Paper, PrintSides, Stock};
use crate::wording::Phrases;
use crate::wording::stamps::Stamps;
use crate::wording::ticket::{
    CuttingWords, LastPile, Least, PiecesCut, PileRun, TicketWords, paragraphs, summed, total,
};

/// Places that stay blank.
fn left(places: usize, pile: usize) -> String {
    format!("{} of pile {pile} {} blank", many(places, "place"), if places == 1 { "stays" } else { "stay" })
}

impl CuttingWords for English {
    fn cut_title(&self, what: PiecesCut, of: Option<&str>, cuts: usize) -> String {
        format!("Cut the {}: {}", pieces(what, of), many(cuts, "cut"))
    }

    fn cut_piles(
        &self,
        file: &str,
        piles: usize,
        (sheets, single): (&[String], bool),
        wide: bool,
        ([paper, most], trimmed): ([usize; 2], &[(usize, usize)]),
    ) -> String {
        let held = if wide { "wide" } else { "upright" };
        let text = format!(
            "{file}: {}, {} {}. Keep {} in print order, front up, first sheet on top, held {held} so that its text reads.",
            many(piles, "pile"),
            if single { "sheet" } else { "sheets" },
            sheets.join(" \u{b7} "),
            if piles == 1 { "the pile" } else { "each pile" },
        );
        if trimmed.is_empty() {
            return text;
        }
        let cut = trimmed.iter().map(|(pile, parts)| format!("a pile of {pile} in {parts} parts"));
        let cut = listed(&cut.collect::<Vec<_>>());
        let takes = if paper == most {
            format!("takes {most} sheets cuts")
        } else {
            format!("takes {paper} sheets of paper takes {most} of card and cuts")
        };
        format!("{text} A trimmer that {takes} {cut}: put them back in order.")
    }

    fn back_gauge(&self, across: bool, down: bool) -> &'static str {
        match (across, down) {
            (true, false) => {
                return "Back gauge: lay the top edge of the front against it and cut at each setting, largest first. That edge \
                        is there until the last cut.";
            }
            (false, true) => {
                return "Back gauge: lay the left edge of the front against it and cut at each setting, largest first. That \
                        edge is there until the last cut.";
            }
            (true, true) | (false, false) => {}
        }
        "Back gauge: first lay the top edge of the front against it, cut across at each setting, largest first. Then lay each \
         row with its left edge against it. The edge that is measured from is there until the last cut."
    }

    fn gauge_turned(&self) -> &'static str {
        "Where it says turned, turn what is left round first, so that its fresh edge lies against the gauge: the margin falls off \
         in front of the blade."
    }

    fn gauge_near(&self) -> &'static str {
        "If your gauge does not come as near as a setting under 30 mm (1.2 in), lay a straight strip of board between gauge and \
         pile, and add its width to the setting."
    }

    fn turned(&self, setting: &str) -> String {
        format!("{setting}, turned")
    }

    fn cuts_heads(&self) -> [&'static str; 3] {
        ["Cut", "From the top", "From the left"]
    }

    fn strips_lie(&self) -> &'static str {
        "After the cuts, the pieces at each place are one learner's whole set in order, band on top: nothing to sort. Put a \
         rubber band or clip round each set, and throw blank pieces away. To make one set again, print and cut its pile again \
         and keep that place."
    }

    fn kits_lie(&self, pieces: PiecesCut) -> String {
        format!(
            "After the cuts go along the rows from the left: as many piles as the last column of the table says are one kit's {}. \
             Put them on each other, any band on top; throw blank pieces away. All kits are alike: a pile of each size of piece \
             makes one.",
            piece_word(pieces)
        )
    }

    fn column(&self, column: u32) -> String {
        format!("Column {column}")
    }

    fn pile_row(&self) -> &'static str {
        "Pile, row"
    }

    fn more_piles(&self, piles: &[PileRun]) -> Vec<String> {
        let run = |run: &PileRun| {
            let (first, last) = run.piles;
            let piles = if first == last { format!("pile {first}") } else { format!("piles {first} to {last}") };
            let each = if first == last { String::new() } else { format!(", {} each", many(run.each, "set")) };
            format!("{piles}{each}: {}", self.runs(&run.sets))
        };
        [vec!["The other piles, row by row from the left:".to_owned()], paragraphs(piles.iter().map(run))].concat()
    }

    fn kits_heads(&self) -> [&'static str; 4] {
        ["Pile", "Sheets", "Kits, row by row from the left", "Each kit takes"]
    }

    fn run_of(&self, first: usize, last: usize) -> String {
        if first == last { first.to_string() } else { format!("{first} to {last}") }
    }

    fn places(&self, count: usize) -> String {
        many(count, "place")
    }

    fn least_sheets(&self, least: &Least) -> String {
        let need = if least.sets == 1 { "needs" } else { "need" };
        let longest = if least.sets == 1 { "the set" } else { "its longest set" };
        let text = format!(
            "{}: each place gives one whole set, so at {} a sheet {} {need} {}, and a pile has a sheet for each piece of {longest}, the band among them: {}.",
            self.capital(&many(total(least), "sheet")),
            many(least.places, "place"),
            many(least.sets, "set"),
            many(least.piles, "pile"),
            summed(least),
        );
        match least.last {
            LastPile::Full => text,
            LastPile::Spares(n) => format!("{text} The last pile is filled up with {}.", many(n, "spare set")),
            LastPile::Blanks(n) => {
                format!("{text} {}: spare sets for them would need more sheets.", left(n, least.number))
            }
            LastPile::Left(n) => format!("{text} {}.", left(n, least.number)),
        }
    }

    fn slip_sheet_title(&self) -> &'static str {
        "Slip-sheet"
    }

    fn slip_sheet_of(&self, file: &str, (first, last): (usize, usize)) -> String {
        let which = if first == last { format!("sheet {first}") } else { format!("sheets {first} to {last}") };
        format!("After this sheet: {which} of {file}.")
    }

    fn slip_sheet_note(&self) -> &'static str {
        "This is a slip-sheet. Leave it on top of its part. Take it off before the part is cut, or when the sets are packed."
    }

    fn slip_sheets_told(&self) -> &'static str {
        "A slip-sheet lies before each part and says what follows. The numbers above do not count it among the part's own sheets. \
         Take it off before the part is cut, or when the sets are packed."
    }

    fn proof_titles(&self) -> [&'static str; 3] {
        ["Proof: print this sheet first", "Proof", "Proof (back)"]
    }

    fn proof_of(&self, file: &str, sheets: usize, stock: Stock, sides: PrintSides, paper: Paper) -> String {
        format!(
            "{file} \u{b7} {sheets} sheets of {} \u{b7} {} \u{b7} {}",
            self.stock_name(stock),
            self.sides_printed(sides),
            self.paper_size(paper)
        )
    }

    fn proof_checks(&self) -> [&'static str; 3] {
        [
            "Lay a ruler on both lines: 10 cm above, 4 in below. If they are shorter, scaling is on.",
            "The frame at the edge is whole on all four sides.",
            "All three shades can be told apart.",
        ]
    }

    fn proof_colours(&self) -> &'static str {
        "Each patch below differs from the others. If they are only lighter or darker, black and white is on."
    }

    fn proof_light(&self) -> &'static str {
        "Hold the sheet to the light: the ring on the back lies round the cross on the front. If it does not, the sheet was \
         turned over the other edge, or the sides lie more than 2 mm apart."
    }

    fn proof_back(&self) -> &'static str {
        "Back of the proof"
    }
}
