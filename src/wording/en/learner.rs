//! What learners read in English.

use super::English;
use crate::number::{Content, Names, Number, Place, Style};
use crate::wording::learner::{BankGroup, FirstOf, LearnerWords, WordBankWords};
use std::collections::BTreeSet;

/// The places that have blocks, largest first, as counts of blocks go.
const BLOCKS: [Place; 4] = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];

/// So many blocks of a kind: "1 flat", "no rods".
fn blocks(place: Place, count: u32) -> String {
    let name = English.piece(place, count).unwrap_or_default();
    if count == 0 { ["no ", name].concat() } else { [&count.to_string(), " ", name].concat() }
}

impl LearnerWords for English {
    fn name_label(&self) -> &'static str {
        "Name"
    }

    fn date_label(&self) -> &'static str {
        "Date"
    }

    fn foot(&self, title: &str, grade: Option<&str>) -> String {
        grade.map_or_else(|| title.to_owned(), |grade| format!("{title} \u{b7} grade {grade}"))
    }

    fn page_of(&self, title: &str, page: usize, pages: usize) -> String {
        format!("{title} {page} of {pages}")
    }

    fn sheet_of(&self, name: &str, sheet: usize, sheets: usize) -> String {
        format!("{name}, sheet {sheet} of {sheets}")
    }

    fn step_of(&self, name: &str, step: u32, steps: u32) -> String {
        format!("{name}, step {step} of {steps}")
    }

    fn for_board(&self, title: &str, page: usize, pages: usize) -> String {
        format!("{title} for board {page} of {pages}")
    }

    fn model_title(&self, number: u32) -> String {
        format!("Model number {number}")
    }

    fn board_note(&self, decoys: bool, marks: bool) -> &'static str {
        match (decoys, marks) {
            (true, false) => "Lay each strip in its row. Put aside strips that fit no row.",
            (true, true) => {
                "Lay each strip in its row. Some fit none. Then turn a row over: its strips have the same mark."
            }
            (false, false) => "Lay each strip in the row it belongs to.",
            (false, true) => "Lay each strip in its row. Then turn a row over: its strips have the same mark.",
        }
    }

    fn board_note_written(&self, draws: bool) -> &'static str {
        if draws {
            "Look at each row. Write or draw the same number in every box."
        } else {
            "Look at each row. Write the same number in every box."
        }
    }

    fn with_scrap(&self, note: &str) -> String {
        format!("{note} Striped parts are scrap.")
    }

    fn strips_note(&self) -> &'static str {
        "Sit down to cut. Cut all the way across, then each row apart."
    }

    fn check_title(&self, mark: u32) -> String {
        format!("Quick check {mark}")
    }

    fn record_labels(&self) -> [&'static str; 2] {
        ["My own", "Draw"]
    }

    fn layered_note(&self, rows: Option<u32>) -> String {
        match rows {
            None => "Sit down to cut. Stack the cards, right edges together.".to_owned(),
            Some(1) => "Each row is a kit. Cut the rows apart first.".to_owned(),
            Some(rows) => format!("Each {rows} rows are a kit. Cut the kits apart first."),
        }
    }

    fn mat_note(&self, pages: usize) -> Option<&'static str> {
        match pages {
            0 | 1 => None,
            2 => Some("Cut page 2 along its left edge. Lay it on the right edge of page 1, so that the marks meet."),
            _ => {
                Some("Cut all pages but page 1 along their left edges. Lay them on one another so that the marks meet.")
            }
        }
    }

    fn mat_page(&self, title: &str, page: usize, pages: usize) -> String {
        format!("{title}, page {page} of {pages}")
    }

    fn ten_frame(&self) -> &'static str {
        "empty ten-frame, 2 rows of 5"
    }

    fn blocks_note(&self) -> &'static str {
        "Sit down to cut. Cut the long lines first, then the short ones."
    }

    fn print_true(&self) -> &'static str {
        "Print at actual size, 100 %, no scaling."
    }

    fn print_checked(&self) -> String {
        format!(
            "{} Lay a ruler on these two lines: if they are not 10 cm and 4 in, the page was scaled.",
            self.print_true()
        )
    }

    fn print_capitals(&self, beside: bool) -> &'static str {
        if beside {
            "BLOCKS \u{b7} 10 cm ABOVE \u{b7} 4 in BELOW \u{b7} PRINT AT 100 %"
        } else {
            "BLOCKS \u{b7} UPPER LINE 10 cm \u{b7} LOWER LINE 4 in \u{b7} PRINT AT 100 %"
        }
    }

    fn scrap_capitals(&self) -> &'static str {
        "STRIPES ARE SCRAP"
    }

    fn blocks_told(&self, counts: [u32; 4]) -> String {
        self.blocks_each(counts).join(", ")
    }

    fn blocks_each(&self, counts: [u32; 4]) -> Vec<String> {
        let Some(from) = counts.iter().position(|count| *count > 0) else { return vec![self.no_pieces().to_owned()] };
        BLOCKS.into_iter().zip(counts).skip(from).map(|(place, count)| blocks(place, count)).collect()
    }

    fn blocks_to_cut(&self, counts: [u32; 4]) -> String {
        format!("{} to cut out", Content::Blocks(counts).text(self))
    }

    fn cube_row(&self, count: usize) -> String {
        format!("row of {count} cubes")
    }

    fn card(&self, text: &str) -> String {
        format!("card {text}")
    }
}

impl WordBankWords for English {
    fn bank(&self, numbers: &[Number], style: &Style) -> Vec<BankGroup> {
        let spelled: Vec<String> = numbers.iter().map(|number| style.words(*number)).collect();
        let words = spelled.iter().flat_map(|words| words.split([' ', '-']));
        let needed: BTreeSet<&str> = words.map(|word| word.trim_end_matches(',')).collect();
        let kinds: [(&str, &[u32]); 4] = [
            ("Ones", &[0, 1, 2, 3, 4, 5, 6, 7, 8, 9]),
            ("Ten to nineteen", &[10, 11, 12, 13, 14, 15, 16, 17, 18, 19]),
            ("Tens", &[20, 30, 40, 50, 60, 70, 80, 90]),
            ("Places", &[100, 1_000]),
        ];
        let entry = |value: &u32| {
            let number = Number::new(*value)?;
            let words = style.words(number);
            // 100 is "one hundred", and what others need of that is its last word.
            let is_needed = needed.contains(words.rsplit(' ').next().unwrap_or(&words));
            is_needed.then(|| (style.numeral(number), words))
        };
        let kept = kinds.map(|(title, values)| BankGroup { title, words: values.iter().filter_map(entry).collect() });
        kept.into_iter().filter(|group| !group.words.is_empty()).collect()
    }

    fn bank_notes(&self, first: &FirstOf<'_>, style: &Style) -> Vec<String> {
        let mut notes = Vec::new();
        if let Some(number) = first(&|n| style.words(n).contains('-')) {
            let words = style.words(number);
            if let Some(joined) =
                words.split(' ').map(|word| word.trim_end_matches(',')).find(|word| word.contains('-'))
            {
                notes.push(format!("Join tens and ones with a hyphen: {joined}."));
            }
        }
        if style.and
            && let Some(number) = first(&|n| style.words(n).contains(" and "))
        {
            notes.push(format!("We write \u{201c}and\u{201d}: {}.", style.words(number)));
        }
        notes
    }
}
