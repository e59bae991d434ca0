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
    if board {
        kinds.push(Deed::SwapBoards);
    }
    kinds.push(Deed::GuessMine);
    if sorted {
        kinds.push(Deed::PutInOrder);
    }
    kinds.extend([Deed::MakeWrong as fn(u32) -> Deed, Deed::OwnNumber]);
    let rounds = (script.minutes / EACH).clamp(1, kinds.len().narrow());
    for (k, kind) in (0..rounds).zip(kinds) {
        // Shares differ by a minute at most.
        let minutes = script.minutes / rounds + u32::from(k < script.minutes % rounds);
        script.act(kind(minutes));
        if k == rounds / 2 && script.minutes >= LONG {
            script.act(Deed::Stretch);
        }
    }
    vec![Laid::AsTheyAre, Laid::Paper]
}
