//! Who gets which version.
//!
//! In: how many learners, spare sets and versions. Out: one [`Seat`] a set, in roster order, so that neighbours differ and
//! no version is used more than once more often than another. Pure counting; no names, no lengths.

use crate::measure::Count;
use crate::spec::Version;

/// One set to print: whose it is and which version.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Seat {
    /// The learner's number, from 1; spare sets carry on where the class ends.
    pub number: u32,
    /// The version of the sort set.
    pub version: Version,
    /// Whether it is a spare set, for nobody yet.
    pub spare: bool,
}

/// Deals `versions` (1..=26) to `learners` and then to `spares`.
///
/// With two versions or more, neighbours in the list differ. Round the table, the last learner also differs from the
/// first, except where that cannot be (an odd number of learners and two versions; one learner). The counts of the
/// versions differ by at most one, among the learners and among all sets.
pub fn deal(learners: u32, spares: u32, versions: u32) -> Vec<Seat> {
    let versions = versions.clamp(1, 26) as usize;
    let mut used = vec![0_u32; versions];
    let mut seats: Vec<Seat> = Vec::new();
    for number in 1..=learners.saturating_add(spares) {
        let spare = number > learners;
        let last = seats.last().map(|seat: &Seat| usize::from(seat.version.0));
        // A lone learner left over would sit beside the first with the first's version: give it the one after.
        let closes = number == learners && number > 1 && versions > 2 && seats.len().is_multiple_of(versions);
        let pick = if closes { 1 } else { next(&used, last) };
        used[pick] += 1;
        seats.push(Seat { number, version: letter(pick), spare });
    }
    seats
}

/// Deals each group's versions to its learners, given by their numbers, and then to `spares`: each spare set is of the group
/// with the most learners to a spare set so far, and of the version that it has used least. In the order of the learners.
pub fn deal_groups(groups: &[(Vec<u32>, Vec<Version>)], spares: u32) -> Vec<Seat> {
    let mut extra = vec![0_u32; groups.len()];
    for _ in 0..spares {
        let need = |k: &usize| (groups[*k].0.len().narrow() * 1_000 / (extra[*k] + 1), usize::MAX - k);
        if let Some(most) = (0..groups.len()).max_by_key(need) {
            extra[most] += 1;
        }
    }
    let (mut seats, mut spare) = (Vec::new(), Vec::new());
    for ((learners, versions), extra) in groups.iter().zip(extra) {
        let dealt = deal(learners.len().narrow(), extra, versions.len().narrow());
        for seat in dealt {
            let version = versions.get(usize::from(seat.version.0)).copied().unwrap_or(seat.version);
            match learners.get(seat.number as usize - 1) {
                Some(number) => seats.push(Seat { number: *number, version, spare: false }),
                None => spare.push(Seat { number: 0, version, spare: true }),
            }
        }
    }
    seats.sort_by_key(|seat| seat.number);
    let last = seats.last().map_or(0, |seat| seat.number);
    seats.extend((last + 1..).zip(spare).map(|(number, seat)| Seat { number, ..seat }));
    seats
}

/// The least used version after `last`, going round the alphabet; never `last` itself while there is another.
fn next(used: &[u32], last: Option<usize>) -> usize {
    let start = last.map_or(0, |last| last + 1);
    let round = (start..start + used.len()).map(|k| k % used.len());
    round.filter(|k| used.len() == 1 || Some(*k) != last).min_by_key(|k| used[*k]).unwrap_or(0)
}

/// The version of an index below 26.
fn letter(index: usize) -> Version {
    Version(u8::try_from(index).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spread(seats: &[Seat], versions: u32) -> u32 {
        let count = |k: u32| seats.iter().filter(|s| u32::from(s.version.0) == k).count();
        let counts: Vec<_> = (0..versions).map(count).collect();
        u32::try_from(counts.iter().max().unwrap() - counts.iter().min().unwrap()).unwrap()
    }

    #[test]
    fn neighbours_differ_and_counts_are_even() {
        for versions in 1..=26 {
            for learners in 1..=60 {
                for spares in 0..=7 {
                    let seats = deal(learners, spares, versions);
                    let (class, _) = seats.split_at(learners as usize);
                    assert_eq!(seats.len(), (learners + spares) as usize);
                    assert_eq!(seats[0].version, Version(0), "the first gets version A, also when alone");
                    assert!(spread(class, versions) <= 1 && spread(&seats, versions) <= 1);
                    assert!(versions == 1 || seats.windows(2).all(|w| w[0].version != w[1].version));
                    assert!(
                        seats.iter().all(|s| u32::from(s.version.0) < versions && s.spare == (s.number > learners))
                    );
                }
            }
        }
    }

    #[test]
    fn round_the_table_first_and_last_differ_wherever_they_can() {
        for versions in 2..=26 {
            for learners in 2..=60 {
                let seats = deal(learners, 0, versions);
                let ends_differ = seats[0].version != seats[learners as usize - 1].version;
                // An odd ring has no two-colouring.
                assert_eq!(ends_differ, versions > 2 || learners % 2 == 0, "{learners} learners, {versions} versions");
            }
        }
    }

    #[test]
    fn groups_get_their_own_versions_and_spares_go_where_most_learners_are() {
        let groups = [(vec![2, 3, 9], vec![Version(2)]), (vec![1, 4, 5, 6, 7, 8], vec![Version(0), Version(1)])];
        let seats = deal_groups(&groups, 3);
        let text: Vec<String> = seats.iter().map(|seat| format!("{}{}", seat.number, seat.version)).collect();
        assert_eq!(text.join(" "), "1A 2C 3C 4B 5A 6B 7A 8B 9C 10C 11A 12B");
        assert!(seats.iter().all(|seat| seat.spare == (seat.number > 9)));
    }

    #[test]
    fn a_class_of_seven_with_three_versions() {
        let letters: String = deal(7, 2, 3).iter().map(|s| s.version.to_string()).collect();
        assert_eq!(letters, "ABCABCB".to_owned() + "CA");
    }
}
