//! What learners read on their own pages, besides numbers.

use super::area::area;
use crate::number::{Number, Style};

/// Words of one kind in a word bank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BankGroup {
    /// What they are.
    pub title: &'static str,
    /// Each word with its numeral.
    pub words: Vec<(String, String)>,
}

/// Finds the first of some numbers that shows what is looked for; no more of them are looked at than it takes.
pub type FirstOf<'n> = dyn Fn(&dyn Fn(Number) -> bool) -> Option<Number> + 'n;

area! {
    /// Labels, titles and directions on learners' pages.
    LearnerWords;

    /// The label of the line for a name.
    fn name_label() -> &'static str;

    /// The label of the line for the date.
    fn date_label() -> &'static str;

    /// The lesson's title at the foot of a page, with the grade where it is given.
    fn foot(title: &str, grade: Option<&str>) -> String;

    /// One of several pages of a sheet, as its heading.
    fn page_of(title: &str, page: usize, pages: usize) -> String;

    /// The same in a bookmark.
    fn sheet_of(name: &str, sheet: usize, sheets: usize) -> String;

    /// One of several pages that show a number step by step: what the number's pages are called, with the step.
    fn step_of(name: &str, step: u32, steps: u32) -> String;

    /// Strips that are for one page of several of the board.
    fn for_board(title: &str, page: usize, pages: usize) -> String;

    /// The heading of a model number's page.
    fn model_title(number: u32) -> String;

    /// What to do with the board; `decoys` where some strips belong nowhere, `marks` where their backs tell.
    fn board_note(decoys: bool, marks: bool) -> &'static str;

    /// The same where there are no strips: learners write in the boxes, or draw where a form is a picture.
    fn board_note_written(draws: bool) -> &'static str;

    /// How to cut a page, and what the stripes on it mean.
    fn with_scrap(note: &str) -> String;

    /// How to cut strips.
    fn strips_note() -> &'static str;

    /// The heading of a quick check.
    fn check_title(mark: u32) -> String;

    /// Labels on the recording sheet: a number of one's own, drawing.
    fn record_labels() -> [&'static str; 2];

    /// How to use layered cards; where several kits are on a page, so many rows each, how to part them.
    fn layered_note(rows: Option<u32>) -> String;

    /// How the pages of a mat join; nothing to say of one page.
    fn mat_note(pages: usize) -> Option<&'static str>;

    /// The heading of one page of a mat.
    fn mat_page(title: &str, page: usize, pages: usize) -> String;

    /// What a listener hears of the ten-frame.
    fn ten_frame() -> &'static str;

    /// How to cut blocks.
    fn blocks_note() -> &'static str;

    /// That blocks are printed at actual size.
    fn print_true() -> &'static str;

    /// The same with how to check it, before the check lines.
    fn print_checked() -> String;

    /// The same in capitals, for the lowest head: beside the lines or below both.
    fn print_capitals(beside: bool) -> &'static str;

    /// What stripes mean, in capitals after that.
    fn scrap_capitals() -> &'static str;

    /// Blocks by kind down to the cubes, those that are missing in between too: "6 flats, no rods, 2 cubes".
    fn blocks_told(counts: [u32; 4]) -> String;

    /// The same, a text for each kind.
    fn blocks_each(counts: [u32; 4]) -> Vec<String>;

    /// What a listener hears of a sheet of blocks.
    fn blocks_to_cut(counts: [u32; 4]) -> String;

    /// A row of so many cubes.
    fn cube_row(count: usize) -> String;

    /// A layered card.
    fn card(text: &str) -> String;
}

area! {
    /// The word bank.
    WordBankWords;

    /// The words that these numbers need, by kind, each with its numeral.
    fn bank(numbers: &[Number], style: &Style) -> Vec<BankGroup>;

    /// How words join, each way shown with the first number that does.
    fn bank_notes(first: &FirstOf<'_>, style: &Style) -> Vec<String>;
}

#[cfg(test)]
impl super::marked::Marks for BankGroup {
    fn marked(self) -> Self {
        // The words are spelled by the names already.
        Self { title: self.title.marked(), words: self.words }
    }
}
