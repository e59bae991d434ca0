//! What the class has in its hands.

use crate::lesson::Lesson;
use crate::lesson::job::{JobFacts, PartKind, PrintedSheet};
use crate::measure::Count;
use crate::number::Number;
use crate::spec::SheetKind;

/// What a plan is made from: the lesson, what is printed of it, and how many questions a quick check has room for.
#[derive(Debug, Clone, Copy)]
pub struct Means<'a> {
    /// The lesson.
    pub lesson: &'a Lesson,
    /// What learners get.
    pub job: &'a JobFacts,
    /// Questions on each quick check, at least 1 where there are quick checks.
    pub questions: u32,
    /// Whether the recording sheet has rows left for numbers of the learner's own.
    pub own_rows: bool,
}

impl<'a> Means<'a> {
    /// A learner's sheet as it is printed; `None` where it is not.
    pub fn sheet(&self, kind: SheetKind) -> Option<&'a PrintedSheet> {
        self.job.sheet(kind)
    }

    /// Pages of one copy of a learner's sheet; 0 where it is not printed.
    pub fn pages(&self, kind: SheetKind) -> u32 {
        self.sheet(kind).map_or(0, |sheet| sheet.pages.narrow())
    }

    /// The same where all learners get as many.
    pub fn pages_of_all(&self, kind: SheetKind) -> Option<u32> {
        self.sheet(kind).filter(|sheet| sheet.fewest == sheet.pages).map(|sheet| sheet.pages.narrow())
    }

    /// Which sheets come together, a packet for each learner: one list for each kind of packet.
    pub fn packets(&self) -> Vec<&'a [SheetKind]> {
        let parts = self.job.files.iter().flat_map(|file| &file.parts);
        let packets = parts.filter_map(|part| match &part.kind {
            PartKind::Packets { kinds, .. } => Some(kinds.as_slice()),
            _ => None,
        });
        packets.collect()
    }

    /// How many learners build with one set of blocks from the class's tub: those who share a mat.
    pub fn tub_share(&self) -> u32 {
        self.sheet(SheetKind::Mat).map_or(1, |mat| mat.share.clamp(1, self.job.learners.max(1)))
    }

    /// Whether a sheet is there: a learner's is printed, a grown-up's is asked for.
    pub fn has(&self, kind: SheetKind) -> bool {
        match kind {
            SheetKind::Display | SheetKind::Tally | SheetKind::Key => self.lesson.makes(kind),
            _ => self.job.has(kind),
        }
    }

    /// With what learners build a number.
    pub fn built_with(&self, number: Number) -> BuiltWith {
        if number > Number::MAX_BLOCKS {
            BuiltWith::Columns
        } else if self.has(SheetKind::Blocks) {
            BuiltWith::Blocks
        } else if self.lesson.has_tub() {
            BuiltWith::Tub
        } else {
            BuiltWith::Drawn
        }
    }
}

/// How a number is shown by learners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BuiltWith {
    /// Cut-out blocks.
    Blocks,
    /// Blocks of the class's tub.
    Tub,
    /// Squares, lines and dots that they draw.
    Drawn,
    /// One digit in each column: no block picture is that large.
    Columns,
}
