//! Which piece goes where when a whole pile is cut at once.
//!
//! In: how many pieces each set has and how many places a sheet has. Out: for every sheet and place the set and the piece
//! that is printed there, so that the pile cut off at a place is one set in order. Pure counting; no lengths.

use crate::lesson::job::Fill;

/// Cut-and-stack: a run of pieces over the places of a stack of sheets, "deep, then right, then down".
///
/// Piece `k` of `pieces` goes on sheet `k mod S` at place `k / S`, where `S` is the least number of sheets that hold all
/// (the imposition that digital-print manuals call cut and stack).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct CutStack {
    /// How many pieces there are.
    pub pieces: usize,
    /// How many places a sheet has, at least 1.
    pub places: usize,
}

impl CutStack {
    /// How many sheets.
    pub const fn sheets(self) -> usize {
        self.pieces.div_ceil(self.places)
    }

    /// The piece on a sheet at a place; `None` where the place stays blank.
    pub fn piece(self, sheet: usize, place: usize) -> Option<usize> {
        let piece = place * self.sheets() + sheet;
        (sheet < self.sheets() && place < self.places && piece < self.pieces).then_some(piece)
    }

    /// How many places stay blank, all of them the last ones.
    pub const fn blanks(self) -> usize {
        self.places * self.sheets() - self.pieces
    }
}

/// Whole sets over groups of sheets: every group is cut as one pile and gives one whole set a place.
///
/// A group of up to `places` sets is cut-and-stack with as many sheets as its longest set has pieces. No plan in which each
/// place's pile is one whole set needs fewer sheets: a group holds at most `places` sets and needs its longest set's count
/// of sheets, and taking the sets from the longest to the shortest makes the sum of those counts least.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stacks {
    places: usize,
    /// Set indices and piece counts, the longest first, otherwise as given.
    order: Vec<(usize, usize)>,
    /// The first sheet of each group, and at the end the number of sheets.
    starts: Vec<usize>,
}

/// What is printed at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Printed {
    /// The set, counted from 0 in the order given.
    pub set: usize,
    /// The piece of it, counted from 0.
    pub piece: usize,
}

impl Stacks {
    /// A plan for sets of so many pieces each on sheets with so many places.
    pub fn plan(lengths: &[usize], places: usize) -> Self {
        let places = places.max(1);
        let mut order: Vec<(usize, usize)> = lengths.iter().copied().enumerate().collect();
        order.sort_by_key(|(_, length)| std::cmp::Reverse(*length));
        let mut starts = vec![0];
        for group in order.chunks(places) {
            starts.push(starts[starts.len() - 1] + group[0].1);
        }
        Self { places, order, starts }
    }

    /// How many sheets in all.
    pub fn sheets(&self) -> usize {
        self.starts[self.starts.len() - 1]
    }

    /// How many groups: piles that are cut one after the other.
    pub fn groups(&self) -> usize {
        self.starts.len() - 1
    }

    /// The first sheet of a group and the first after it.
    pub fn sheets_of(&self, group: usize) -> std::ops::Range<usize> {
        self.starts[group]..self.starts[group + 1]
    }

    /// The group of a sheet.
    pub fn group_of(&self, sheet: usize) -> usize {
        // The last start at or before the sheet; groups of sets without pieces take no sheets and are passed over.
        self.starts[..self.groups()].partition_point(|start| *start <= sheet).saturating_sub(1)
    }

    /// The sets of a group, in the order of their places.
    pub fn sets_of(&self, group: usize) -> impl Iterator<Item = usize> {
        let from = (group * self.places).min(self.order.len());
        let to = (from + self.places).min(self.order.len());
        self.order[from..to].iter().map(|(set, _)| *set)
    }

    /// What is printed on a sheet at a place; `None` where it stays blank.
    pub fn printed(&self, sheet: usize, place: usize) -> Option<Printed> {
        let group = self.group_of(sheet);
        let (set, length) = *self.order.get(group * self.places + place).filter(|_| place < self.places)?;
        let piece = sheet - self.starts[group];
        (sheet < self.sheets() && piece < length).then_some(Printed { set, piece })
    }

    /// How many places stay blank on all sheets together.
    pub fn blanks(&self) -> usize {
        self.sheets() * self.places - self.order.iter().map(|(_, length)| length).sum::<usize>()
    }
}

/// Chooses the fill that wastes less for `sets` sets of `pieces` pieces, when one more set needs `others` sheets of its own
/// besides.
///
/// A place left blank wastes `pieces / places` sheets of stock; a spare set nobody asked for wastes `others` sheets. On a
/// tie nothing is printed that nobody asked for.
pub fn fill(sets: usize, places: usize, pieces: usize, others: usize) -> Fill {
    let free = sets.next_multiple_of(places.max(1)) - sets;
    match free {
        0 => Fill::Even,
        _ if others * places < pieces => Fill::Spares(free),
        _ => Fill::Blanks(free),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn sheet(stack: CutStack, sheet: usize, want: &str) {
        let word = |place| stack.piece(sheet, place).map_or("-".to_owned(), |k| (k + 1).to_string());
        let got: Vec<String> = (0..stack.places).map(word).collect();
        assert_eq!(got.join(" "), want);
    }

    #[test]
    fn cut_and_stack_gives_the_worked_tables() {
        // Check values computed from the definition in print-imposition manuals ("deep, then right, then down").
        let (eight, ten) = (CutStack { pieces: 8, places: 4 }, CutStack { pieces: 10, places: 4 });
        let odd = CutStack { pieces: 25, places: 6 };
        assert_eq!([eight.sheets(), ten.sheets(), odd.sheets()], [2, 3, 5]);
        assert_eq!([eight.blanks(), ten.blanks(), odd.blanks()], [0, 2, 5]);
        sheet(eight, 0, "1 3 5 7");
        sheet(eight, 1, "2 4 6 8");
        sheet(ten, 0, "1 4 7 10");
        sheet(ten, 1, "2 5 8 -");
        sheet(ten, 2, "3 6 9 -");
        sheet(odd, 0, "1 6 11 16 21 -");
        sheet(odd, 1, "2 7 12 17 22 -");
        sheet(odd, 4, "5 10 15 20 25 -");
    }

    /// Cuts the printed plan and stacks it: what lies at each place of each group, top sheet first.
    fn piles(plan: &Stacks, places: usize) -> Vec<Vec<Printed>> {
        let pile = |group: usize, place| plan.sheets_of(group).filter_map(|s| plan.printed(s, place)).collect();
        let all = (0..plan.groups()).flat_map(|g| (0..places).map(move |p| (g, p)));
        all.map(|(group, place)| pile(group, place)).filter(|pile: &Vec<_>| !pile.is_empty()).collect()
    }

    #[test]
    fn every_pile_is_one_whole_set_in_order() {
        for places in 1..=12 {
            for sets in 1..=40 {
                let lengths: Vec<usize> = (0..sets).map(|k| 9 + k % 3).collect();
                let plan = Stacks::plan(&lengths, places);
                let mut seen = vec![false; sets];
                for pile in piles(&plan, places) {
                    let set = pile[0].set;
                    let want: Vec<_> = (0..lengths[set]).map(|piece| Printed { set, piece }).collect();
                    assert!(pile == want && !std::mem::replace(&mut seen[set], true));
                }
                assert!(seen.iter().all(|s| *s));
            }
        }
    }

    #[test]
    fn a_group_is_cut_and_stack_of_its_sets() {
        let (plan, stack) = (Stacks::plan(&[5; 4], 4), CutStack { pieces: 20, places: 4 });
        for (sheet, place) in (0..5).flat_map(|s| (0..4).map(move |p| (s, p))) {
            let printed = plan.printed(sheet, place).unwrap();
            assert_eq!(stack.piece(sheet, place), Some(printed.set * 5 + printed.piece));
        }
    }

    #[test]
    fn equal_sets_keep_the_order_of_the_roster() {
        let plan = Stacks::plan(&[7; 10], 4);
        assert_eq!((plan.groups(), plan.sheets(), plan.blanks()), (3, 21, 14));
        assert_eq!(plan.sets_of(1).collect::<Vec<_>>(), [4, 5, 6, 7]);
        assert_eq!(plan.sets_of(2).collect::<Vec<_>>(), [8, 9]);
        assert_eq!((plan.group_of(6), plan.group_of(7), plan.sheets_of(2)), (0, 1, 14..21));
        assert_eq!(plan.printed(21, 0), None);
    }

    /// The least sum of longest sets over all ways to deal the sets into groups of at most `places`, by trying them all.
    fn least(lengths: &[usize], places: usize) -> usize {
        let all = (1_usize << lengths.len()) - 1;
        let mut best = vec![usize::MAX; all + 1];
        best[0] = 0;
        for done in 0..all {
            let rest = all & !done;
            let mut group = rest;
            while group > 0 {
                if group.count_ones() as usize <= places && best[done] < usize::MAX {
                    let longest = (0..lengths.len()).filter(|k| group >> k & 1 == 1).map(|k| lengths[k]).max();
                    best[done | group] = best[done | group].min(best[done] + longest.unwrap());
                }
                group = (group - 1) & rest;
            }
        }
        best[all]
    }

    #[test]
    fn no_dealing_into_groups_needs_fewer_sheets() {
        let mut stream = crate::rng::Stream::new(5, "lengths");
        for sets in 1..=8 {
            for places in 1..=5 {
                let lengths: Vec<usize> = (0..sets).map(|_| 1 + stream.index(6)).collect();
                assert_eq!(Stacks::plan(&lengths, places).sheets(), least(&lengths, places), "{lengths:?} {places}");
            }
        }
        // Equal sets: ceil(sets / places) groups, and no fewer can hold them.
        assert_eq!(Stacks::plan(&[25; 26], 8).sheets(), 26_usize.div_ceil(8) * 25);
    }

    #[test]
    fn the_fill_wastes_less() {
        assert_eq!(fill(24, 8, 25, 2), Fill::Even);
        // 8 places, 25 pieces: a blank place wastes 3.125 sheets.
        assert_eq!(fill(26, 8, 25, 3), Fill::Spares(6));
        assert_eq!(fill(26, 8, 25, 4), Fill::Blanks(6));
        assert_eq!(fill(3, 4, 8, 2), Fill::Blanks(1));
    }
}
