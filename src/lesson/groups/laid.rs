//! What lies on the table for a slip's number, and how well a number serves there.

use crate::lesson::kits::{BlockCounts, KitsAtHand, larger};
use crate::number::{Content, Form, Heard, Number, Slip, Style, Task, blocks_of, fewest_blocks};
use crate::wording::Tools;

/// How well a number serves a slip's group, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Fit {
    /// The kits are enough for it, and it shows the slip and nothing else beside.
    Plain,
    /// It shows the slip and nothing else beside, but is drawn.
    Drawn,
    /// The kits are enough for it.
    Enough,
    /// It shows the slip.
    Any,
}

/// How well a number serves in a task, where these tools are at hand for it.
pub(super) fn fit(kits: &KitsAtHand, usual: Tools, style: &Style, slip: Slip, of: Number, task: Task) -> Fit {
    // Who has no blocks draws the number.
    let enough = || sets(kits, style, slip, of, task).is_some() && is_enough_for_each(kits, style, of, task);
    let blocks = !usual.blocks || enough();
    let cards = !usual.cards || !stacks(slip) || kits.stacks(of);
    match (blocks && cards, is_plain(style, slip, of, task)) {
        (true, true) => Fit::Plain,
        (false, true) => Fit::Drawn,
        (true, false) => Fit::Enough,
        (false, false) => Fit::Any,
    }
}

/// Whether a slip's group stacks layered cards.
pub(super) const fn stacks(slip: Slip) -> bool {
    matches!(slip, Slip::SideBySide | Slip::BigPartThenRest)
}

/// Whether a number has what a slip's ten minutes are about: parts are put together where there are two, and nobody drops all
/// zeros of 100 and writes 1.
pub(super) fn serves(slip: Slip, of: Number) -> bool {
    let several = of.parts().count() > 1;
    several || !(stacks(slip) || slip == Slip::ZeroDropped && of.len() > 2)
}

/// Whether the numbers of a task are laid out one after the other, where there are blocks.
pub(super) const fn with_blocks(task: Task) -> bool {
    match task {
        Task::Forms { shown, asked } => shown.is_picture() || asked.is_picture() || matches!(asked, Form::Regrouped),
        Task::Worth(_) | Task::Greater(_) => false,
    }
}

/// How many sets of blocks it takes to work on a number together; `None` where what there is does not do.
pub(super) fn sets(kits: &KitsAtHand, style: &Style, slip: Slip, of: Number, task: Task) -> Option<u32> {
    kits.sets_for(&piles(style, slip, of, task)?)
}

/// Whether learners can lay out a number of a task by itself.
pub(super) fn is_enough_for_each(kits: &KitsAtHand, style: &Style, of: Number, task: Task) -> bool {
    let Task::Forms { shown, asked } = task else { return true };
    let mut needs = [0; 4];
    for form in [shown, asked].into_iter().filter(|form| form.is_picture()) {
        if let Some(Content::Blocks(counts)) = form.content(of, style) {
            needs = larger(needs, counts);
        }
    }
    if (asked.is_picture() || asked == Form::Regrouped)
        && let (Some(before), Some(after)) = (fewest_blocks(of), task.counted(of, style))
    {
        needs = larger(needs, larger(before, blocks_of(&after)));
    }
    needs == [0; 4] || kits.sets_for(&[needs]).is_some()
}

/// What lies there at once: one pile, or two side by side.
fn piles(style: &Style, slip: Slip, of: Number, task: Task) -> Option<Vec<BlockCounts>> {
    let built = fewest_blocks(of);
    let taken = slip.taken_for(of, task, style);
    let one = |pile: Option<BlockCounts>| pile.map(|pile| vec![pile]);
    match slip {
        Slip::TeenTy | Slip::SoundAlike => {
            let heard = Heard::new(of, taken?)?;
            heard.both.into_iter().map(fewest_blocks).collect()
        }
        Slip::TeenReversed => one(Heard::new(of, taken?)?.teen().and_then(fewest_blocks)),
        // The number is changed into the other one.
        Slip::ZeroMoved | Slip::TensOnesSwapped | Slip::HundredsTensSwapped => {
            one(Some(larger(built?, taken.map_or(built, fewest_blocks)?)))
        }
        Slip::FromTheOnes | Slip::FaceValue => match task {
            Task::Greater(other) => Some(vec![built?, fewest_blocks(other)?]),
            // A rod lies beside a cube.
            Task::Forms { .. } | Task::Worth(_) => one(Some(larger(built?, [0, 0, 1, 1]))),
        },
        // Ten cubes lie along a rod.
        Slip::CountedAlike => match task.shown().content(of, style)? {
            Content::Blocks(counts) => one(Some(larger(counts, [0, 0, 1, 10]))),
            Content::Text(_) | Content::Both(_) => None,
        },
        Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew | Slip::CountsSideBySide | Slip::TenLeftOut => {
            one(Some(larger(built?, blocks_of(&task.counted(of, style)?))))
        }
        Slip::ZeroDropped
        | Slip::HundredWord
        | Slip::SideBySide
        | Slip::BigPartThenRest
        | Slip::HalfOverwritten
        | Slip::PlaceWordWritten
        | Slip::PlaceOff
        | Slip::ReadInPieces
        | Slip::Reversed => one(built),
    }
}

/// Whether a number shows a slip with nothing beside it that would have to be explained too.
fn is_plain(style: &Style, slip: Slip, of: Number, task: Task) -> bool {
    let taken = || slip.taken_for(of, task, style);
    let last = |number: Number| number.value() % 10;
    match slip {
        // One empty column, not two.
        Slip::ZeroDropped | Slip::ZeroMoved => of.digits().filter(|(_, digit)| *digit == 0).count() == 1,
        // The word at the end.
        Slip::TeenTy | Slip::SoundAlike | Slip::TeenReversed => {
            taken().and_then(|taken| Heard::new(of, taken)).is_some_and(|heard| !heard.thousands)
        }
        // A last digit that tempts.
        Slip::FromTheOnes => match task {
            Task::Greater(other) => last(of.min(other)) > last(of.max(other)),
            Task::Forms { .. } | Task::Worth(_) => true,
        },
        // What ends in three zeros is read in one.
        Slip::ReadInPieces => !of.value().is_multiple_of(1_000),
        // One piece is traded.
        Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew | Slip::CountsSideBySide | Slip::TenLeftOut => {
            task.pieces_traded(of, style) == 1
        }
        _ => true,
    }
}
