//! The one table of packets: each file's name, whose it is, which sheets it holds and how it is printed.
//!
//! Command line, pictures, their page and `contents.json` say what stands here.

pub use crate::spec::PacketKind;
use crate::spec::SheetKind;

/// What there is to say about a packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct About {
    /// Which.
    pub kind: PacketKind,
    /// The name of its file.
    pub file: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// Who gets it.
    pub reader: &'static str,
    /// What it is for, in a sentence.
    pub purpose: &'static str,
    /// How it is printed, in a sentence or two, besides "actual size".
    pub printing: &'static str,
    /// What comes first in it.
    first: &'static [SheetKind],
    /// Whether learners' sheets follow, in the order of the lesson: masters, or copies of those on its stock.
    learners: bool,
    /// What comes last in it.
    last: &'static [SheetKind],
}

impl About {
    /// The sheets it may hold, in their order.
    pub fn sheets(&self) -> impl Iterator<Item = SheetKind> + use<> {
        let learners = if self.learners { COPIED } else { &[] };
        [self.first, learners, self.last].into_iter().flatten().copied()
    }
}

/// Every packet, in the order of the contract.
pub const PACKETS: [About; 7] = [
    About {
        kind: PacketKind::Teacher,
        file: "teacher.pdf",
        title: "Teacher's packet",
        reader: "teacher",
        purpose: "Everything to teach the lesson from: the plan, the numbers to show, one master of every learner sheet \
                  for each version, and the answers.",
        printing: "Print it once, on paper. Keep it as the master.",
        first: &[SheetKind::Plan, SheetKind::Display],
        learners: true,
        last: &[SheetKind::Key, SheetKind::Tally, SheetKind::SmallGroups, SheetKind::WarmUp],
    },
    About {
        kind: PacketKind::Paper,
        file: "copy-room-paper.pdf",
        title: "Class copies on paper",
        reader: "copy room",
        purpose: "Every learner's pages that go on paper, in the order to print.",
        printing: "Print it once, on paper, as the job ticket says. It holds every copy already: print one of it.",
        first: &[],
        learners: true,
        last: &[],
    },
    About {
        kind: PacketKind::PaperBothSides,
        file: "copy-room-paper-both-sides.pdf",
        title: "Class copies on paper, both sides",
        reader: "copy room",
        purpose: "Learners' pages on paper that have something on their backs, in the order to print.",
        printing: "Print it once, on paper and on both sides, as the job ticket says. It holds every copy already: print one \
                   of it.",
        first: &[],
        learners: true,
        last: &[],
    },
    About {
        kind: PacketKind::Card,
        file: "copy-room-card.pdf",
        title: "Class copies on card",
        reader: "copy room",
        purpose: "Every learner's pages that go on card, to be cut out, in the order to print.",
        printing: "Print it once, on card, as the job ticket says. It holds every copy already: print one of it.",
        first: &[],
        learners: true,
        last: &[],
    },
    About {
        kind: PacketKind::CardBothSides,
        file: "copy-room-card-both-sides.pdf",
        title: "Class copies on card, both sides",
        reader: "copy room",
        purpose: "Learners' pages on card that have something on their backs, in the order to print.",
        printing: "Print it once, on card and on both sides, as the job ticket says. It holds every copy already: print one \
                   of it.",
        first: &[],
        learners: true,
        last: &[],
    },
    About {
        kind: PacketKind::Ticket,
        file: "copy-room-ticket.pdf",
        title: "Job ticket",
        reader: "copy room",
        purpose: "What the copy room needs to know: sheets of each stock, sides, cuts, piles and finishing.",
        printing: "Print it once, on paper, and send it along with the class copies.",
        first: &[SheetKind::Ticket],
        learners: false,
        last: &[],
    },
    About {
        kind: PacketKind::Substitute,
        file: "substitute.pdf",
        title: "Substitute's packet",
        reader: "substitute",
        purpose: "The lesson for someone who has never seen it: what to do first, what to say, what to expect, and what \
                  to leave behind.",
        printing: "Print it once, on paper, and leave it on the desk.",
        first: &[SheetKind::Cover, SheetKind::Plan, SheetKind::Display],
        learners: true,
        last: &[SheetKind::Key, SheetKind::Tally, SheetKind::SmallGroups],
    },
];

/// What learners get, in the order of the lesson.
const COPIED: &[SheetKind] = &[
    SheetKind::Mat,
    SheetKind::Blocks,
    SheetKind::Layered,
    SheetKind::Record,
    SheetKind::WordBank,
    SheetKind::Board,
    SheetKind::Strips,
    SheetKind::Exit,
    SheetKind::Practice,
    SheetKind::Family,
];

impl PacketKind {
    /// The row of the table.
    pub const fn about(self) -> &'static About {
        &PACKETS[self as usize]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets;

    #[test]
    fn the_copy_rooms_files_are_the_copy_rooms() {
        for about in &PACKETS {
            assert_eq!(about.reader == "copy room", about.file.starts_with("copy-room-"), "{}", about.file);
            assert_eq!(about.kind.about(), about);
        }
    }

    #[test]
    fn learners_get_what_the_table_of_sheets_says() {
        assert_eq!(sheets::of_learners().collect::<Vec<_>>(), COPIED);
        for kind in SheetKind::ALL {
            assert!(
                PACKETS.iter().any(|about| about.sheets().any(|held| held == kind)),
                "{} is in no packet",
                kind.word()
            );
        }
    }
}
