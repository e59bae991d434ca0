//! More to do with the same numbers, in a long lesson.

use super::script::Script;
use crate::measure::Count;
use crate::spec::SheetKind;
use crate::wording::plan::{Deed, Laid};

/// Minutes that one of these activities fills well (common practice, no source).
const EACH: u32 = 8;
/// Minutes in which a dozen numbers are put in order (common practice, no source).
const ORDER: u32 = 5;
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
        kinds.push(if board {
            |minutes| Deed::PutInOrder { minutes, board: true }
        } else {
            |minutes| Deed::PutInOrder { minutes, board: false }
        });
    }
    kinds.extend([Deed::MakeWrong as fn(u32) -> Deed, Deed::OwnNumber]);
    let rounds = (script.minutes / EACH).clamp(1, kinds.len().narrow());
    // The last takes what is left, and that is more than putting numbers in order does.
    let order = kinds.iter().position(|kind| matches!(kind(0), Deed::PutInOrder { .. }));
    if let Some(at) = order.filter(|at| at + 1 == rounds.index()) {
        kinds.swap(at, at + 1);
    }
    if script.has(SheetKind::Practice) {
        script.hand_out(&[SheetKind::Practice]);
    }
    let (mut written, mut over) = (false, 0);
    for (k, kind) in (0..rounds).zip(kinds) {
        // Shares differ by a minute at most.
        let minutes = script.minutes / rounds + u32::from(k < script.minutes % rounds) + over;
        let mut deed = kind(minutes);
        over = 0;
        // What it does not need goes to the next; the last takes what is left.
        if let Deed::PutInOrder { minutes, .. } = &mut deed
            && k + 1 < rounds
        {
            over = minutes.saturating_sub(ORDER);
            *minutes -= over;
        }
        written |= matches!(deed, Deed::PutInOrder { .. } | Deed::MakeWrong(_) | Deed::OwnNumber(_));
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
