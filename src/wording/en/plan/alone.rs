//! What is done with a single learner, who has no neighbour and no partner, in English.

use super::{build, early, first_ones, form_plural, in_form, listed, numerals, rows, these};
use crate::spec::SheetKind;
use crate::wording::Usage;
use crate::wording::cover::Papers;
use crate::wording::en::English;
use crate::wording::en::phrases::counted;
use crate::wording::plan::Deed;
use crate::wording::{Phrases, Titles};

/// What is said otherwise than to a class; `None` where it is the same.
#[allow(clippy::too_many_lines, reason = "one arm a text")]
pub(super) fn deed(deed: &Deed, usage: &Usage<'_>) -> Option<String> {
    let minutes = |count: u32| counted(count, "minute");
    let text = match deed {
        Deed::WriteAndWait(n) => {
            format!("Write {} where both of you can see it. Wait a moment before you say it.", usage.style.numeral(*n))
        }
        Deed::ReadTogether => "Read it together, then let the learner read it alone.".to_owned(),
        Deed::Build { number, first: true } => format!("Have the learner build it: {}", build(*number)),
        Deed::ShowDisplay(n) => format!(
            "Show the display page for {}. The learner compares it with the work on the table.",
            usage.style.numeral(*n)
        ),
        Deed::OwnFirstRow => "Fill in the first row of the recording sheet together.".to_owned(),
        Deed::TopOfPage(n) => {
            format!("The learner writes {} at the top of the page. Work on it together.", usage.style.numeral(*n))
        }
        Deed::OtherSide(n, forms) => {
            let forms: Vec<String> = forms.iter().map(|form| in_form(*form, usage)).collect();
            format!(
                "Turn the paper over. The learner writes {} at the top, and below it the same number {}.",
                usage.style.numeral(*n),
                listed(&forms)
            )
        }
        Deed::SpellWords => "If the learner asks how to spell a word, write it on the board.".to_owned(),
        Deed::PointToWordBank => "Point to the word bank. Hard words are copied from it.".to_owned(),
        Deed::Alone(numbers, later) => {
            let later = if later.is_empty() {
                String::new()
            } else {
                format!(" If there is time, {} too.", numerals(later, usage))
            };
            format!("The learner does {} alone.{later} Look at what is written.", numerals(numbers, usage))
        }
        Deed::PickOne { .. } => "The learner thinks of one more number like it and does the same.".to_owned(),
        Deed::OwnRows => "If there is time, the learner fills in another row.".to_owned(),
        Deed::OwnNumberLast => {
            "If there is time, the learner writes a number of their own in the last row, and fills in that row."
                .to_owned()
        }
        Deed::GivePackets { sheets, now, .. } => {
            let what = if sheets.len() > 1 { "the packet".to_owned() } else { these(sheets) };
            let rest = if now.len() < sheets.len() { " Take out what you need now." } else { "" };
            format!("Give the learner {what}.{rest}")
        }
        Deed::TakeOut(sheets) => format!("The learner takes {} out of the packet.", these(sheets)),
        Deed::GivePiles { .. } => "Give the learner the pile of strips.".to_owned(),
        Deed::Dictate(n) => format!(
            "Say \u{201c}{}\u{201d}, and write nothing yet. The learner writes it in figures.",
            usage.style.words(*n)
        ),
        Deed::MarkBuilding => "Mark in the tally whether the learner can do it.".to_owned(),
        Deed::MarkSorting { slips: true } => {
            "Mark in the tally what works, and the letter of each slip you see.".to_owned()
        }
        Deed::MarkSorting { slips: false } => "Mark in the tally what works.".to_owned(),
        Deed::RowsToday { count, .. } => format!("There is time for {}. If it goes fast, go on.", rows(*count)),
        Deed::NumbersToday { count, more } => {
            format!("There is time for {}.{}", first_ones(*count), early(*more, "more time"))
        }
        Deed::OneKindFirst(form) => {
            format!("Place one kind at a time. Begin with the {}.", form_plural(*form, usage))
        }
        Deed::PutAway(kinds) => {
            let name = |kind: &SheetKind| match kind {
                // They are cut.
                SheetKind::Blocks => "the blocks".to_owned(),
                SheetKind::Layered => "the layered cards".to_owned(),
                kind => these(&[*kind]),
            };
            format!("Put back {}.", listed(&kinds.iter().map(name).collect::<Vec<_>>()))
        }
        Deed::BlocksToTub => "Blocks go back in the tub.".to_owned(),
        Deed::CollectSheets(kinds) => format!("Collect {}.", these(kinds)),
        Deed::DoPractice(count) => format!("{}: the learner works on the practice page.", minutes(*count)),
        Deed::GiveSets { boards: true, .. } => "Give the learner the board.".to_owned(),
        Deed::GiveSets { boards: false, .. } => "Give the learner the set.".to_owned(),
        Deed::CutStrips(pieces) => {
            format!("The learner cuts along the lines: {}. Keep them together.", counted(*pieces, "piece"))
        }
        Deed::DoneEarly { .. } => {
            "If there is time left, the learner puts all the numbers in order from least to greatest.".to_owned()
        }
        Deed::Stretch => "Halfway through, stop. Stand up and stretch for a moment.".to_owned(),
        Deed::StopStrips => "Stop the work. Hands off the strips.".to_owned(),
        Deed::StopPencils => "Stop the work. Pencil down.".to_owned(),
        Deed::ShowRows { rows: true } => "Let the learner show one row and say why it is right.".to_owned(),
        Deed::ShowRows { rows: false } => {
            "Let the learner show how one number is written and say why it is right.".to_owned()
        }
        Deed::SwapBoards(count) => {
            format!("{}: the learner explains each row to you, and says why it is right.", minutes(*count))
        }
        Deed::TakeBreak => "Pencils and pieces stay where they lie. Stand up, move and have a drink.".to_owned(),
        Deed::SpareTime => "The work of this lesson is done. Go on with what else the teacher planned. With nothing \
                            planned, read aloud, or finish what was begun."
            .to_owned(),
        Deed::PutInOrder { minutes: count, board } => {
            let which = if *board { "the numbers of the sorting board" } else { "the numbers on the board" };
            format!("{}: the learner writes {which} in order, from least to greatest.", minutes(*count))
        }
        Deed::MakeWrong(count) => format!(
            "{}: write one number in a wrong way. The learner finds out what went wrong. Then change roles.",
            minutes(*count)
        ),
        Deed::GuessMine(count) => format!(
            "{}: think of a number and give clues about digits and places. The learner finds it. Then change roles.",
            minutes(*count)
        ),
        Deed::OwnNumber(count) => format!(
            "{}: the learner picks a number and writes it in every way of this lesson. Check it together.",
            minutes(*count)
        ),
        Deed::GiveChecks { .. } => "Give the learner one quick check.".to_owned(),
        Deed::ReadAloud => "Read a question aloud if the learner asks. Do not help with the answer.".to_owned(),
        Deed::BagStrips => {
            "Strips go into the envelope. The learner writes a name on it. Keep it for the teacher.".to_owned()
        }
        Deed::Collect { papers: Papers::Checks, .. } => "Collect the quick check.".to_owned(),
        Deed::Collect { papers: Papers::Answers, .. } => "Collect the answers.".to_owned(),
        Deed::TakeHome(kinds) => {
            let names: Vec<String> =
                kinds.iter().map(|kind| format!("the {}", English.sheet_in_text(*kind, 1))).collect();
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            format!("The learner takes home {}.", English.list(&names))
        }
        _ => return None,
    };
    Some(text)
}
