//! Which piece goes where when each set takes a run of neighbouring places.
//!
//! In: how many sets of how many pieces, and how many places a sheet has. Out: for every sheet and place the set and the
//! piece. A set's pieces fill the pile at its first place, then the pile at the next: after cutting, neighbouring piles put
//! on each other are one set in order. With one place a set this is cut-and-stack of whole sets. Pure counting; no lengths.

use std::ops::Range;

use crate::sheets::job::impose::Printed;

/// Sets of equal length over groups of sheets; each group is cut as one pile.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Runs {
    pieces: usize,
    groups: Vec<Group>,
}

/// Sheets that are cut together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// Its sets.
    pub sets: Range<usize>,
    /// How many places each set takes.
    pub run: usize,
    /// Its sheets.
    pub sheets: Range<usize>,
}

impl Runs {
    /// The plan with the fewest sheets, then the shortest runs: every group but the last has as many sets as fit, and the
    /// last spreads its sets out over the places it has. `places` counts as at least 1.
    pub fn plan(sets: usize, pieces: usize, places: usize) -> Self {
        let places = places.max(1);
        let with = |run: usize| Self::of(sets, pieces, places, run);
        let plans = (1..=pieces.clamp(1, places)).map(with);
        plans
            .min_by_key(|plan: &Self| (plan.sheets(), plan.groups.first().map_or(0, |group| group.run)))
            .unwrap_or_else(|| with(1))
    }

    fn of(sets: usize, pieces: usize, places: usize, run: usize) -> Self {
        let a_group = (places / run).max(1);
        let mut groups: Vec<Group> = Vec::new();
        let mut first = 0;
        while first < sets && pieces > 0 {
            let here = a_group.min(sets - first);
            let run = if here < a_group { (places / here).min(pieces) } else { run };
            let start = groups.last().map_or(0, |group| group.sheets.end);
            groups.push(Group { sets: first..first + here, run, sheets: start..start + pieces.div_ceil(run) });
            first += here;
        }
        Self { pieces, groups }
    }

    /// How many sheets in all.
    pub fn sheets(&self) -> usize {
        self.groups.last().map_or(0, |group| group.sheets.end)
    }

    /// The groups in order.
    pub fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// The group of a sheet.
    pub fn group_of(&self, sheet: usize) -> Option<usize> {
        self.groups.iter().position(|group| group.sheets.contains(&sheet))
    }

    /// What is printed on a sheet at a place; `None` where it stays blank.
    pub fn printed(&self, sheet: usize, place: usize) -> Option<Printed> {
        let group = &self.groups[self.group_of(sheet)?];
        let (set, along) = (group.sets.start + place / group.run, place % group.run);
        let piece = along * group.sheets.len() + sheet - group.sheets.start;
        (set < group.sets.end && piece < self.pieces).then_some(Printed { set, piece })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbouring_piles_are_one_whole_set_in_order() {
        for (places, pieces) in (1..=13).flat_map(|places| (1..=12).map(move |pieces| (places, pieces))) {
            for sets in 1..=40 {
                let plan = Runs::plan(sets, pieces, places);
                let mut seen = 0;
                for group in plan.groups() {
                    for (k, set) in group.sets.clone().enumerate() {
                        let piles = (k * group.run..(k + 1) * group.run)
                            .flat_map(|place| group.sheets.clone().map(move |sheet| (sheet, place)));
                        let got: Vec<_> = piles.filter_map(|(sheet, place)| plan.printed(sheet, place)).collect();
                        let want: Vec<_> = (0..pieces).map(|piece| Printed { set, piece }).collect();
                        assert_eq!(got, want, "{sets} sets of {pieces} at {places}");
                        seen += 1;
                    }
                    assert!(group.sets.len() * group.run <= places);
                }
                assert_eq!(seen, sets);
                // Never more sheets than one place a set, and never fewer than there are pieces for.
                assert!(plan.sheets() <= sets.div_ceil(places) * pieces, "{sets} {pieces} {places}");
                assert!(plan.sheets() * places >= sets * pieces);
            }
        }
    }

    #[test]
    fn small_sets_share_sheets() {
        // 12 sets of 11 pieces at 52 places: four places a set, three sheets.
        let plan = Runs::plan(12, 11, 52);
        assert_eq!((plan.sheets(), plan.groups()[0].run), (3, 4));
        // One set alone is spread out over the sheet.
        assert_eq!(Runs::plan(1, 10, 10).sheets(), 1);
    }
}
