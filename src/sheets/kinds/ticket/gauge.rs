//! What a back gauge is set to for each cut.
//!
//! In: the cuts of one direction, measured from one edge. Out: the settings in their order. The last cut would leave the margin alone
//! between gauge and blade, which is less than a gauge comes near and less than a clamp holds: there the piece is turned round.

use crate::measure::Length;

/// Many gauges come no nearer to the blade (common practice, no source).
const NEAREST: Length = Length::mm(30);

/// A cut as it is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Setting {
    /// From the edge that lies against the gauge to the blade.
    pub(super) at: Length,
    /// Whether what is left is turned round first: the edge cut last lies against the gauge.
    pub(super) turned: bool,
}

impl Setting {
    /// Whether many gauges do not come so near.
    pub(super) fn is_near(self) -> bool {
        self.at < NEAREST
    }
}

/// The settings for cuts of one direction, which are in their order: the farthest from the edge first.
pub(super) fn settings(cuts: &[Length]) -> Vec<Setting> {
    let mut all: Vec<Setting> = cuts.iter().map(|at| Setting { at: *at, turned: false }).collect();
    if let [.., before, last] = cuts {
        let turned = Setting { at: *before - *last, turned: true };
        if *last < NEAREST && turned.at > *last {
            all.pop();
            all.push(turned);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn set(cuts: &[i64]) -> Vec<(Length, bool)> {
        let cuts: Vec<Length> = cuts.iter().map(|at| Length::mm(*at)).collect();
        settings(&cuts).into_iter().map(|setting| (setting.at, setting.turned)).collect()
    }

    #[test]
    fn a_margin_that_nothing_holds_is_cut_off_the_piece() {
        let mm = Length::mm;
        assert_eq!(set(&[100, 53, 6]), [(mm(100), false), (mm(53), false), (mm(47), true)]);
        assert_eq!(set(&[100, 65, 30]), [(mm(100), false), (mm(65), false), (mm(30), false)]);
        // Where the piece is no wider than the margin turning it is no help.
        assert_eq!(set(&[42, 27, 12]).last(), Some(&(mm(15), true)));
        assert_eq!(set(&[42, 22, 12]).last(), Some(&(mm(12), false)));
        assert_eq!(set(&[8]), [(mm(8), false)]);
    }
}
