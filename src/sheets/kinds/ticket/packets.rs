//! Where packets are in a file, and what is printed of it where the class has its kits: pure counting.

use crate::lesson::job::{FileFacts, Keep, PartKind};
use crate::wording::ticket::{PacketPages, PacketRun};

/// So many packets are listed one by one; in larger classes, so many runs of packets of one size.
const LISTED: usize = 60;

/// So many packets stand together where runs would be too many.
const TOGETHER: usize = 10;

/// How packets with these first and last pages are found: whatever the class, on no more than a few pages.
pub(super) fn found(packets: &[(usize, usize)]) -> PacketPages {
    let mut runs: Vec<PacketRun> = Vec::new();
    let few = packets.len() <= LISTED;
    for (number, pages) in (1..).zip(packets.iter().copied()) {
        let each = pages.1 + 1 - pages.0;
        match runs.last_mut().filter(|run| !few && run.each == each && run.pages.1 + 1 == pages.0) {
            Some(run) => (run.learners.1, run.pages.1) = (number, pages.1),
            None => runs.push(PacketRun { learners: (number, number), each, pages }),
        }
    }
    if few || runs.len() <= LISTED {
        return PacketPages::Runs(runs);
    }
    let begin = packets.chunks(TOGETHER).enumerate().map(|(k, chunk)| {
        let first: Vec<usize> = chunk.iter().map(|(first, _)| *first).collect();
        (k * TOGETHER + 1, first)
    });
    PacketPages::Begin(begin.collect(), packets.last().map_or(0, |(_, last)| *last))
}

/// The pages to print where the class has its kits: the proof and what is used up, each part with its slip-sheet. None where
/// the file holds nothing else than kits.
pub(super) fn without_kits(file: &FileFacts) -> Vec<(usize, usize)> {
    let mut ranges: Vec<(usize, usize)> = Vec::new();
    let mut slip_sheet = None;
    let mut any = false;
    for part in &file.parts {
        let pages = match part.kind {
            PartKind::SlipSheet => {
                slip_sheet = Some(part.pages.0);
                continue;
            }
            PartKind::Proof => part.pages,
            _ => {
                let from = slip_sheet.take().unwrap_or(part.pages.0);
                if part.kind.keep() == Keep::Kit {
                    continue;
                }
                any = true;
                (from, part.pages.1)
            }
        };
        match ranges.last_mut().filter(|range| range.1 + 1 == pages.0) {
            Some(range) => range.1 = pages.1,
            None => ranges.push(pages),
        }
    }
    if any { ranges } else { Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wording::ticket::TicketWords as _;
    use crate::wording::{English, Spanish};

    /// Packets of as many pages each, from page 28 on.
    fn packets(sizes: impl Iterator<Item = usize>) -> Vec<(usize, usize)> {
        let mut next = 28;
        sizes.map(|size| (next, (next + size - 1, next += size).0)).collect()
    }

    #[test]
    fn packets_are_listed_one_by_one_then_in_runs_then_where_they_begin() {
        let few = packets([4, 4, 5].into_iter());
        let runs = |packets: &[(usize, usize)]| match found(packets) {
            PacketPages::Runs(runs) => runs.len(),
            PacketPages::Begin(..) => 0,
        };
        assert_eq!(runs(&few), 3);
        assert_eq!(runs(&packets((0..3_000).map(|k| if k < 700 { 5 } else { 4 }))), 2);
        // Neighbours of other sizes all through: nobody can count on from the first.
        let mixed = packets((0..3_000).map(|k| 4 + k % 2));
        let PacketPages::Begin(begin, last) = found(&mixed) else { panic!("runs") };
        let all: Vec<usize> = begin.iter().flat_map(|(_, pages)| pages.clone()).collect();
        let first: Vec<usize> = mixed.iter().map(|(first, _)| *first).collect();
        assert_eq!((all, last), (first, mixed[2_999].1));
        assert_eq!(begin[1].0, 11);
        // Some 25,000 letters: four pages of small type, in paragraphs that a page has room for.
        let told = English.print_again("copies.pdf", &found(&mixed), None, true);
        assert!(told.concat().len() < 30_000 && told.iter().all(|paragraph| paragraph.len() < 1_000));
    }

    #[test]
    fn packets_are_told_in_words() {
        let runs = found(&packets((0..70).map(|k| if k == 0 { 1 } else { 4 })));
        let ends = |told: Vec<String>, want: &str| assert!(told.concat().ends_with(want), "{told:?}");
        ends(
            English.print_again("a.pdf", &runs, None, true),
            " Learner 1: 28 \u{b7} 2\u{2013}70: 4 pages each, 29\u{2013}304.",
        );
        let want = " Estudiante 1: 28 \u{b7} 2\u{2013}70: 4 páginas cada uno, 29\u{2013}304.";
        ends(Spanish.print_again("a.pdf", &runs, None, true), want);
        let begin = PacketPages::Begin(vec![(1, vec![28, 32, 37]), (4, vec![41])], 44);
        ends(
            English.print_again("a.pdf", &begin, None, false),
            "on which packets begin.1\u{2013}3: 28, 32, 37 \u{b7} 4: 41",
        );
    }
}
