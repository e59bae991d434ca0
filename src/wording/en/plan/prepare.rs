//! What is done before the lesson, in English.

use super::{first_ones, listed, rows};
use crate::number::{Content, Counted, blocks_of};
use crate::spec::SheetKind;
use crate::wording::cover::Papers;
use crate::wording::en::English;
use crate::wording::en::phrases::{counted, lettered, many, plural};
use crate::wording::en::titles::in_packet;
use crate::wording::learner::LearnerWords;
use crate::wording::plan::{Chore, Phase, Prepare, RowsBy, Short, Shortcut, SortedOn, Thing};
use crate::wording::{Phrases, Titles, Usage};

impl Prepare for English {
    fn before_title(&self) -> &'static str {
        "Before the lesson"
    }

    fn before_note(&self, minutes: u32, hurried: bool) -> String {
        let hurried = if hurried {
            " With less time, begin at the top. For what is left undone, go by \u{201c}If nobody had time\u{201d}."
        } else {
            ""
        };
        format!("About {} for one person. Times are rough.{hurried}", counted(minutes, "minute"))
    }

    fn chore(&self, chore: &Chore, usage: &Usage<'_>) -> String {
        match chore {
            Chore::Cut { sheet, sheets, copies, holds, pieces } => {
                let make = if *sheets == 1 { "makes" } else { "make" };
                let each = holds.map_or_else(|| many(*pieces, "piece"), |counts| self.blocks_told(counts));
                format!(
                    "Cut out the {}: {} {make} {}, each of {each}.",
                    self.sheet_in_text(*sheet, 2),
                    many(*sheets, "sheet"),
                    sets(*copies)
                )
            }
            Chore::CutCubes { copies, cuts } => {
                format!("Cut the rows of cubes apart: {}, {} each.", sets(*copies), many(*cuts, "cut"))
            }
            Chore::Join { sheet, copies, pages } => format!(
                "Trim and join the {pages} pages of each {} with tape: {copies} in all.",
                self.sheet_in_text(*sheet, 1)
            ),
            Chore::Band(sets) => format!("Band or bag each set, {sets} in all."),
            Chore::CountOut(sets, numbers) => {
                format!("Count out blocks from the tub: {}, each with {}.", counted(*sets, "set"), needed(numbers))
            }
            Chore::LayOut { packets: false } => "Lay everything on a side table, one pile of each kind.".to_owned(),
            Chore::LayOut { packets: true } => {
                "Lay everything on a side table. Leave each learner's packet together, in order.".to_owned()
            }
            Chore::KnowGroups { named: true, .. } => {
                "Find out who is in which group: the class tally tells.".to_owned()
            }
            Chore::KnowGroups { named: false, common } => {
                let else_all = common.map_or_else(String::new, |set| format!(" Nobody knows? Copy set {set} for all."));
                format!("Ask who is in which group, and write the names in the class tally.{else_all}")
            }
            Chore::CountScissors(pairs) => format!("Count the scissors: {}.", counted(*pairs, "pair")),
            Chore::Display(pages, some) => {
                let ready =
                    format!("Have the {} ready for the wall or a document camera.", counted(*pages, "display page"));
                if some.is_empty() {
                    return ready;
                }
                let numerals: Vec<String> = some.iter().map(|(n, _)| usage.style.numeral(*n)).collect();
                let which: Vec<String> = some.iter().map(|(_, k)| k.to_string()).collect();
                let (pages, are, numbers) =
                    if some.len() == 1 { ("page", "is", "number") } else { ("pages", "are", "numbers") };
                format!(
                    "{ready} Only the {pages} for {} {are} shown today: model {numbers} {}.",
                    listed(&numerals),
                    listed(&which)
                )
            }
        }
    }

    fn shortcut_title(&self) -> &'static str {
        "If nobody had time"
    }

    fn shortcut(&self, shortcut: Shortcut) -> &'static str {
        match shortcut {
            Shortcut::DrawBlocks { thousands: true, .. } => {
                "No blocks cut: draw them. A box is a thousand, a square a hundred, a line a ten, a dot a one."
            }
            Shortcut::DrawBlocks { hundreds: true, .. } => {
                "No blocks cut: draw a square for a hundred, a line for a ten, a dot for a one."
            }
            Shortcut::DrawBlocks { .. } => "No blocks cut: draw a line for a ten, a dot for a one.",
            Shortcut::SideBySide => "Mats not joined: lay the pages side by side.",
            Shortcut::WriteParts => "No cards cut: write the parts below each other, ones under ones, and add them up.",
        }
    }

    fn thing(&self, thing: &Thing) -> (String, String) {
        match thing {
            Thing::Sheet { sheet, copies, pages, share, letters } => {
                let what = match sheet {
                    SheetKind::Blocks => format!("{} of cut-out blocks", plural(*copies, "set")),
                    SheetKind::Strips => format!("{} of strips", plural(*copies, "set")),
                    SheetKind::Layered => format!("{} of layered cards", plural(*copies, "set")),
                    kind => self.sheet_in_text(*kind, *copies).to_owned(),
                };
                let mut notes = Vec::new();
                if *share > 1 {
                    notes.push(format!("one for {share} learners"));
                }
                if *pages > 1 {
                    let each = if *copies == 1 { "" } else { " each" };
                    notes.push(format!("{}{each}", counted(*pages, "page")));
                }
                if letters.len() > 1 {
                    notes.push(format!("letters {}", lettered(letters)));
                }
                (what, notes.join(", "))
            }
            Thing::Packets { copies, sheets, letters } => {
                let names: Vec<&str> = sheets.iter().copied().map(in_packet).collect();
                let names = self.list(&names);
                let letters =
                    if letters.len() > 1 { format!("; letters {}", lettered(letters)) } else { String::new() };
                (plural(*copies, "packet"), format!("{names}{letters}"))
            }
            Thing::Paper(count) => (format!("{} of paper", plural(*count, "sheet")), String::new()),
            Thing::TubBlocks(sets, numbers) => (
                format!("{} of blocks from the class tub", plural(*sets, "set")),
                format!("each with {}", needed(numbers)),
            ),
            Thing::Envelopes(count) => (plural(*count, "envelope"), "for strips".to_owned()),
            Thing::Scissors(count, tape) => {
                let note = if *tape { "blunt tips; tape for mats" } else { "blunt tips" };
                (format!("{} of scissors", plural(*count, "pair")), note.to_owned())
            }
            Thing::Tools { tape: true } => ("paper trimmer and roll of tape".to_owned(), "for you".to_owned()),
            Thing::Tools { tape: false } => ("paper trimmer".to_owned(), "for you".to_owned()),
            Thing::Pencils(count) => (plural(*count, "pencil"), String::new()),
        }
    }

    fn short(&self, short: &Short) -> String {
        let Short { minutes, models, shown, rows: (done, all), uneven, on, by, together, sharing, .. } = *short;
        let mut parts = Vec::new();
        if short.unopened {
            parts.push("skip the opening".to_owned());
        }
        if models > 0 {
            let numbers = counted(models, "model number");
            parts.push(match shown {
                Phase::Drawing => format!("draw {numbers}"),
                Phase::Columns => format!("write {numbers} in columns"),
                _ => format!("build {numbers}"),
            });
        }
        if together {
            parts.push("work one together".to_owned());
        }
        if done > 0 {
            let which = match (done == all, uneven, on) {
                (true, _, SortedOn::SortingBoards) => "all rows".to_owned(),
                (true, _, SortedOn::ClassroomBoard) => "all numbers".to_owned(),
                (false, true, SortedOn::SortingBoards) => format!("up to {}", counted(done, "row")),
                (false, true, SortedOn::ClassroomBoard) => format!("up to {}", counted(done, "number")),
                (false, false, SortedOn::SortingBoards) => rows(done),
                (false, false, SortedOn::ClassroomBoard) => first_ones(done),
            };
            parts.push(match by {
                RowsBy::Matching => format!("match {which}"),
                RowsBy::Writing => format!("write {which}"),
                RowsBy::WritingUncut => format!("write {which} without cutting"),
            });
        }
        if sharing {
            parts.push("share".to_owned());
        }
        let (asked, all) = short.questions;
        if all > 0 {
            parts.push(match (asked == all, short.papers == Papers::Checks) {
                (true, true) => "quick check".to_owned(),
                (false, true) => format!("{} of the quick check", counted(asked, "question")),
                (true, false) => "questions at the end".to_owned(),
                (false, false) => format!("{} at the end", counted(asked, "question")),
            });
        }
        let (least, most) = minutes;
        let from = if least < most { format!("{least} to ") } else { String::new() };
        format!("{from}{} left: {}.", counted(most, "minute"), parts.join(", "))
    }
}

/// "1 set", "26 sets".
fn sets(count: u32) -> String {
    counted(count, "set")
}

/// So many blocks of each place, largest first.
fn needed(counted: &Counted) -> String {
    match blocks_of(counted) {
        [0, 0, 0, 0] => "nothing in it".to_owned(),
        blocks => English.content(&Content::Blocks(blocks)),
    }
}
