//! Pages laid out for a lesson.
//!
//! In: a [`Lesson`](crate::lesson::Lesson), layouts and a typeface. Out: [`packets`] of finished pages. [`SHEETS`] is the
//! one table of all sheets and [`files`] that of all packets; each sheet is a file of its own in [`kinds`]. Imports point
//! down: `page`, `flow`, `blocks`, `kinds`, this table, `masters`, `job`, `packets`.

pub mod blocks;
pub mod files;
pub mod flow;
pub mod job;
pub mod kinds;
#[cfg(test)]
mod leaks;
pub mod masters;
pub mod packets;
pub mod page;

use crate::diag::Problem;
use crate::lesson::job::{Cutter, For, Handling, JobFacts, Keep};
use crate::spec::SheetKind;
use kinds::{
    board, cover, display, exit, family, key, layered, mat, plan, practice, record, small_groups, strips, tally,
    ticket, warm_up, word_bank,
};
use page::Page;
use page::desk::Desk;

/// One kind of page. Its word and the numbers it needs are [`SheetKind`]'s, its titles the language's.
#[derive(Debug, Clone, Copy)]
pub struct Sheet {
    /// Which.
    pub kind: SheetKind,
    /// What is on it, in a line, as the program tells it.
    pub holds: &'static str,
    /// Whose it is; of a learner's sheet also whether it is kept and who cuts it.
    pub reader: For,
    /// Lays it out.
    pub lay: Lay,
}

/// How a sheet is laid out, and from what.
#[derive(Debug, Clone, Copy)]
pub enum Lay {
    /// From the lesson: its masters.
    Masters(fn(&Desk<'_>) -> Result<Vec<Page>, Problem>),
    /// From the lesson and what the copy room prints.
    Plan(fn(&Desk<'_>, &JobFacts) -> Result<Vec<Page>, Problem>),
    /// From those and what else is in its packet.
    Cover(fn(&Desk<'_>, &JobFacts, &[cover::CoveredPage]) -> Result<Vec<Page>, Problem>),
    /// From what the copy room prints.
    Ticket(fn(&Desk<'_>, &ticket::facts::Facts) -> Result<Vec<Page>, Problem>),
}

/// Every sheet, in the order of [`SheetKind::ALL`]: learners' sheets in the order of the lesson.
pub const SHEETS: [Sheet; 18] = [
    Sheet {
        kind: SheetKind::Display,
        holds: "the model numbers, big: a page each, or step by step",
        reader: For::Teacher,
        lay: Lay::Masters(display::lay),
    },
    Sheet {
        kind: SheetKind::Mat,
        holds: "a mat to build on, with a ten-frame for the ones",
        reader: For::Learner(KIT),
        lay: Lay::Masters(mat::lay),
    },
    Sheet {
        kind: SheetKind::Blocks,
        holds: "flats, rods and cubes to cut out at true size",
        reader: For::Learner(KIT_IN_PIECES),
        lay: Lay::Masters(kinds::blocks::lay),
    },
    Sheet {
        kind: SheetKind::Layered,
        holds: "expanded-form cards that stack to make a numeral",
        reader: For::Learner(KIT_IN_PIECES),
        lay: Lay::Masters(layered::lay),
    },
    Sheet {
        kind: SheetKind::Record,
        holds: "one row a number to draw and write on",
        reader: For::Learner(WHOLE),
        lay: Lay::Masters(record::lay),
    },
    Sheet {
        kind: SheetKind::WordBank,
        holds: "the number words to spell, beside their numerals",
        reader: For::Learner(KIT),
        lay: Lay::Masters(word_bank::lay),
    },
    Sheet {
        kind: SheetKind::Board,
        holds: "one row a number, with an empty box for each form",
        reader: For::Learner(WHOLE),
        lay: Lay::Masters(board::lay),
    },
    Sheet {
        kind: SheetKind::Strips,
        holds: "the pieces for the boxes, shuffled, with decoys",
        reader: For::Learner(crate::lesson::job::STRIPS),
        lay: Lay::Masters(strips::lay),
    },
    Sheet {
        kind: SheetKind::Exit,
        holds: "the check at the end, several slips a page",
        reader: For::Learner(Handling { keep: Keep::UsedUp, scissors: Cutter::CopyRoom, stack: Cutter::CopyRoom }),
        lay: Lay::Masters(exit::lay),
    },
    Sheet {
        kind: SheetKind::Key,
        holds: "every board answered, and what each decoy reveals",
        reader: For::Teacher,
        lay: Lay::Masters(key::lay),
    },
    Sheet {
        kind: SheetKind::Tally,
        holds: "class list against skills and slips",
        reader: For::Teacher,
        lay: Lay::Masters(tally::lay),
    },
    Sheet {
        kind: SheetKind::SmallGroups,
        holds: "for tomorrow: a ten-minute lesson for each slip",
        reader: For::Teacher,
        lay: Lay::Masters(small_groups::lay),
    },
    Sheet {
        kind: SheetKind::WarmUp,
        holds: "for the week after: a number a day, what to ask, answers",
        reader: For::Teacher,
        lay: Lay::Masters(warm_up::lay),
    },
    Sheet {
        kind: SheetKind::Practice,
        holds: "exercises on the lesson's skills, with fresh numbers",
        reader: For::Learner(WHOLE),
        lay: Lay::Masters(practice::lay),
    },
    Sheet {
        kind: SheetKind::Family,
        holds: "a page home: what was learned, and what to try",
        reader: For::Learner(WHOLE),
        lay: Lay::Masters(family::lay),
    },
    Sheet {
        kind: SheetKind::Plan,
        holds: "the lesson minute by minute",
        reader: For::Teacher,
        lay: Lay::Plan(plan::lay),
    },
    Sheet {
        kind: SheetKind::Cover,
        holds: "the substitute's first page",
        reader: For::Substitute,
        lay: Lay::Cover(cover::lay),
    },
    Sheet {
        kind: SheetKind::Ticket,
        holds: "what the copy room prints and cuts",
        reader: For::CopyRoom,
        lay: Lay::Ticket(ticket::lay),
    },
];

/// Kept, and never cut.
const KIT: Handling = Handling { keep: Keep::Kit, scissors: Cutter::Nobody, stack: Cutter::Nobody };
/// Kept, and cut by grown-ups: the cuts are too many for a lesson, and the pieces last for many.
const KIT_IN_PIECES: Handling = Handling { keep: Keep::Kit, scissors: Cutter::Teacher, stack: Cutter::CopyRoom };
/// Used up, and never cut.
const WHOLE: Handling = Handling { keep: Keep::UsedUp, scissors: Cutter::Nobody, stack: Cutter::Nobody };

/// The row of the table for a kind.
pub const fn row(kind: SheetKind) -> &'static Sheet {
    &SHEETS[kind as usize]
}

/// The sheets that learners get, in the order of the lesson.
pub fn of_learners() -> impl Iterator<Item = SheetKind> {
    SHEETS.iter().filter(|sheet| matches!(sheet.reader, For::Learner(_))).map(|sheet| sheet.kind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::job::KITS;
    use page::layout::Layouts;

    #[test]
    fn kits_are_the_sheets_that_are_kept() {
        let kept = |sheet: &&Sheet| matches!(sheet.reader, For::Learner(handling) if handling.keep == Keep::Kit);
        let kept: Vec<SheetKind> = SHEETS.iter().filter(kept).map(|sheet| sheet.kind).collect();
        assert_eq!(kept, KITS);
    }

    #[test]
    fn the_table_is_in_the_order_of_the_kinds() {
        for (kind, sheet) in SheetKind::ALL.into_iter().zip(&SHEETS) {
            assert_eq!(kind, sheet.kind);
            assert_eq!(row(kind).kind, kind);
            assert!(!sheet.holds.ends_with('.'));
        }
    }

    #[test]
    fn bundled_layouts_are_whole() {
        let layouts = Layouts::read(&[]).expect("bundled layouts");
        for kind in SheetKind::ALL {
            assert!(layouts.of(kind).is_ok(), "{}", kind.word());
        }
    }
}
