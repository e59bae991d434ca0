//! Pages laid out for a lesson.
//!
//! In: a [`Lesson`], [`Layouts`] and a typeface. Out: packets of finished pages. [`SHEETS`] is the one table of all
//! sheets; each sheet is a file of its own, and [`packet`] gathers their pages for each reader.

pub mod blocks;
pub mod flow;
pub mod job;
pub mod kinds;
pub mod packet;
pub mod page;
pub mod reader;
pub mod sheaf;

use crate::diag::{Diagnostic, Problem};
use crate::lesson::{Lesson, Version};
use crate::measure::Family;
use crate::spec::SheetKind;
use kinds::{board, display, exit, key, layered, mat, plan, record, strips, tally, ticket, word_bank};
use packet::Shelf;
use page::desk::Desk;
use page::layout::Layouts;
use page::{Packet, Page};

/// One kind of page, as `placewright sheets` lists it.
#[derive(Debug, Clone, Copy)]
pub struct Sheet {
    /// Which.
    pub kind: SheetKind,
    /// Its title on the page and in bookmarks.
    pub title: &'static str,
    /// What is on it, in a line.
    pub holds: &'static str,
    /// Whose it is.
    pub reader: For,
    /// How it is made; `None` while no version of Placewright makes it.
    pub made: Option<Made>,
}

/// Whose hands a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum For {
    /// Every learner gets a copy.
    Learner,
    /// The teacher, or whoever stands in.
    Teacher,
    /// The copy room.
    CopyRoom,
}

/// How a sheet is made.
#[derive(Debug, Clone, Copy)]
pub struct Made {
    /// Its layout file.
    pub layout: &'static str,
    /// Lays its masters out.
    pub lay: fn(&Desk<'_>) -> Result<Vec<Page>, Problem>,
}

/// Every sheet, in the order of [`SheetKind::ALL`].
pub const SHEETS: [Sheet; 14] = [
    sheet(SheetKind::Display, "Display", "one model number a page, big", For::Teacher, Some(DISPLAY)),
    sheet(
        SheetKind::Mat,
        "Place-value mat",
        "a mat to build on, with a ten-frame for the ones",
        For::Learner,
        Some(Made { layout: include_str!("../../layouts/mat.toml"), lay: mat::lay }),
    ),
    sheet(
        SheetKind::Blocks,
        "Blocks",
        "flats, rods and cubes to cut out at true size",
        For::Learner,
        Some(Made { layout: include_str!("../../layouts/blocks.toml"), lay: kinds::blocks::lay }),
    ),
    sheet(
        SheetKind::Layered,
        "Layered cards",
        "expanded-form cards that stack to make a numeral",
        For::Learner,
        Some(Made { layout: include_str!("../../layouts/layered.toml"), lay: layered::lay }),
    ),
    sheet(SheetKind::Record, "Recording sheet", "one row a number to draw and write on", For::Learner, Some(RECORD)),
    sheet(
        SheetKind::WordBank,
        "Word bank",
        "the number words to spell, beside their numerals",
        For::Learner,
        Some(WORDS),
    ),
    sheet(
        SheetKind::Board,
        "Sorting board",
        "one row a number, with an empty box for each form",
        For::Learner,
        Some(BOARD),
    ),
    sheet(SheetKind::Strips, "Strips", "the pieces for the boxes, shuffled, with decoys", For::Learner, Some(STRIPS)),
    sheet(SheetKind::Exit, "Quick check", "the check at the end, several slips a page", For::Learner, Some(EXIT)),
    sheet(SheetKind::Key, "Key", "every board answered, and what each decoy reveals", For::Teacher, Some(KEY)),
    sheet(SheetKind::Tally, "Class tally", "class list against skills and slips", For::Teacher, Some(TALLY)),
    sheet(SheetKind::Plan, "Lesson plan", "the lesson minute by minute", For::Teacher, Some(PLAN)),
    sheet(SheetKind::Cover, "Start here", "the substitute's first page", For::Teacher, Some(COVER)),
    sheet(SheetKind::Ticket, "Job ticket", "what the copy room prints and cuts", For::CopyRoom, Some(TICKET)),
];

const DISPLAY: Made = Made { layout: include_str!("../../layouts/display.toml"), lay: display::lay };
const KEY: Made = Made { layout: include_str!("../../layouts/key.toml"), lay: key::lay };
const BOARD: Made = Made { layout: include_str!("../../layouts/board.toml"), lay: board::lay };
const EXIT: Made = Made { layout: include_str!("../../layouts/exit.toml"), lay: exit::lay };
const RECORD: Made = Made { layout: include_str!("../../layouts/record.toml"), lay: record::lay };
const WORDS: Made = Made { layout: include_str!("../../layouts/word-bank.toml"), lay: word_bank::lay };
const TALLY: Made = Made { layout: include_str!("../../layouts/tally.toml"), lay: tally::lay };
const COVER: Made = Made { layout: include_str!("../../layouts/cover.toml"), lay: packet::cover };
const PLAN: Made = Made { layout: include_str!("../../layouts/plan.toml"), lay: plan::lay };
const STRIPS: Made = Made { layout: include_str!("../../layouts/strips.toml"), lay: strips::lay };
const TICKET: Made = Made { layout: include_str!("../../layouts/ticket.toml"), lay: ticket::lay };

const fn sheet(kind: SheetKind, title: &'static str, holds: &'static str, reader: For, made: Option<Made>) -> Sheet {
    Sheet { kind, title, holds, reader, made }
}

/// The row of the table for a kind.
pub const fn row(kind: SheetKind) -> &'static Sheet {
    &SHEETS[kind as usize]
}

/// What a page of this kind is called in bookmarks, such as "Sorting board A".
pub fn name(kind: SheetKind, version: Option<Version>) -> String {
    let title = row(kind).title;
    version.map_or_else(|| title.to_owned(), |version| format!("{title} {version}"))
}

/// What to say about a sheet that cannot be made yet.
pub fn not_yet(kind: SheetKind) -> Problem {
    let made: Vec<&str> = SHEETS.iter().filter(|sheet| sheet.made.is_some()).map(|sheet| sheet.kind.word()).collect();
    Problem::new(format!("the sheet `{}` is not made yet", kind.word()))
        .hint(format!("this version makes {}", made.join(", ")))
}

/// Lays out every packet of a lesson, or the pages of the sheets in `only` where it names any. Reports the first sheet part that does not
/// fit, with what would.
pub fn lay(
    lesson: &Lesson,
    layouts: &Layouts,
    family: &Family,
    only: &[SheetKind],
) -> Result<Vec<Packet>, Vec<Diagnostic>> {
    packets(&Shelf::new(&Desk::new(lesson, layouts, family)), only)
}

/// The packets whose pages are all in hand, from masters that others may share.
fn packets(shelf: &Shelf<'_>, only: &[SheetKind]) -> Result<Vec<Packet>, Vec<Diagnostic>> {
    let mut packets = Vec::new();
    if only != [SheetKind::Cover] {
        packets.push(packet::teacher(shelf, only)?);
    }
    if only.is_empty() {
        packets.push(packet::substitute(shelf)?);
    } else if only.contains(&SheetKind::Cover) {
        // The cover leads the substitute's packet and stands in no other.
        packets.push(packet::cover_only(shelf)?);
    }
    Ok(packets)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_in_the_order_of_the_kinds() {
        for (kind, sheet) in SheetKind::ALL.into_iter().zip(&SHEETS) {
            assert_eq!(kind, sheet.kind);
            assert_eq!(row(kind).kind, kind);
            assert!(!sheet.title.is_empty() && !sheet.holds.ends_with('.'));
        }
    }

    #[test]
    fn bundled_layouts_are_whole() {
        let layouts = Layouts::read(&[]).expect("bundled layouts");
        for sheet in SHEETS.iter().filter(|sheet| sheet.made.is_some()) {
            assert!(layouts.of(sheet.kind).is_ok(), "{}", sheet.kind.word());
        }
    }
}
