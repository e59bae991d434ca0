//! More to do with the same numbers, in a long lesson.

use super::script::Script;
use crate::measure::Count;
use crate::spec::SheetKind;
use crate::wording::plan::{Deed, Laid};

/// Minutes that one of these activities fills well; the last takes what is left (common practice, no source).
const EACH: u32 = 8;
/// From this many minutes on the class gets a moment to stretch.
const LONG: u32 = 25;

pub(super) fn write(script: &mut Script<'_>) -> Vec<Laid> {
    let sorted = script.load.rows > 0;
    let board = sorted && script.has(SheetKind::Board);
    let mut kinds: Vec<fn(u32) -> Deed> = Vec::new();
    if script.has(SheetKind::Practice) {
        kinds.push(Deed::DoPractice);
    }
    if board {
        kinds.push(Deed::SwapBoards);
    }
    kinds.push(Deed::GuessMine);
    // Two numbers are compared, not put in order.
    if script.sort().len() > 2 {
        kinds.push(Deed::PutInOrder);
    }
    kinds.extend([Deed::MakeWrong as fn(u32) -> Deed, Deed::OwnNumber]);
    let rounds = (script.minutes / EACH).clamp(1, kinds.len().narrow());
    if script.has(SheetKind::Practice) {
        script.hand_out(&[SheetKind::Practice]);
    }
    let mut written = false;
    for (k, kind) in (0..rounds).zip(kinds) {
        // Shares differ by a minute at most.
        let minutes = script.minutes / rounds + u32::from(k < script.minutes % rounds);
        let deed = kind(minutes);
        written |= matches!(deed, Deed::PutInOrder(_) | Deed::MakeWrong(_) | Deed::OwnNumber(_));
        script.act(deed);
        if k == rounds / 2 && script.minutes >= LONG {
            script.act(Deed::Stretch);
        }
    }
    let mut table = vec![Laid::AsTheyAre];
    if script.has(SheetKind::Practice) {
        table.extend([script.laid(SheetKind::Practice), Laid::Pencils]);
    }
    if written {
        table.push(Laid::Paper);
    }
    table
}
