//! What is printed for a class, as facts: for whom a sheet is, what becomes of it, who cuts it, how many there are.
//!
//! Types only, without lengths. The table of sheets says what holds for which sheet, the pages say the counts, and whatever
//! speaks of the job (plan, cover, ticket, files, `contents.json`, reports) says what stands here.

use crate::lesson::Version;
use crate::measure::Count;
use crate::spec::{Cut, SheetKind};
pub use crate::spec::{Edge, Keep, PrintSides, Stock};

/// Whose hands a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum For {
    /// Learners: every one gets a copy, or shares one.
    Learner(Handling),
    /// The teacher, or whoever stands in.
    Teacher,
    /// Whoever stands in.
    Substitute,
    /// The copy room.
    CopyRoom,
}

impl For {
    /// The word in reports and for programs.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Learner(_) => "learner",
            Self::Teacher => "teacher",
            Self::Substitute => "substitute",
            Self::CopyRoom => "copy room",
        }
    }
}

/// What becomes of a learner's sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Handling {
    /// Whether it is kept for other lessons.
    pub keep: Keep,
    /// Who cuts it where learners have scissors (`cut = "scissors"`).
    pub scissors: Cutter,
    /// Who cuts it where there is a guillotine (`cut = "stack"`).
    pub stack: Cutter,
}

impl Handling {
    /// Who cuts the sheet.
    pub const fn cutter(self, cut: Cut) -> Cutter {
        match cut {
            Cut::Scissors => self.scissors,
            Cut::Stack => self.stack,
        }
    }
}

/// What becomes of strips: the rule that the time of a lesson depends on too.
pub const STRIPS: Handling = Handling { keep: Keep::UsedUp, scissors: Cutter::Learner, stack: Cutter::CopyRoom };

/// The sheets that are kits: what is taken out for work, and put away for the next lesson.
pub const KITS: [SheetKind; 4] = [SheetKind::Mat, SheetKind::Blocks, SheetKind::Layered, SheetKind::WordBank];

/// Who cuts a sheet, and so when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cutter {
    /// Nobody: it stays whole.
    Nobody,
    /// The learner, with scissors, in the lesson.
    Learner,
    /// Nobody in this lesson, which has no time for it: it stays whole for another day.
    Later,
    /// The teacher or a helper, before the lesson.
    Teacher,
    /// The copy room, before it is handed over.
    CopyRoom,
}

/// What to do with the places of the last group that no set asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fill {
    /// Every place is taken.
    Even,
    /// So many more spare sets, complete with their other pages.
    Spares(usize),
    /// So many places stay blank.
    Blanks(usize),
}

/// Everything that is decided about the class's copies, worked out once from the pages that are printed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct JobFacts {
    /// How many learners.
    pub learners: u32,
    /// How many spare sets of what is used up, those that fill a pile among them.
    pub spares: u32,
    /// How many of the spare sets nobody asked for: they fill a pile, and cost no sheet in it.
    pub extra: u32,
    /// How many learners have each version; empty without sort sets.
    pub versions: Vec<(Version, u32)>,
    /// The versions of each group of the class; empty where all get the class's numbers.
    pub groups: Vec<Vec<Version>>,
    /// What learners get, in the order of the lesson: only what is printed.
    pub sheets: Vec<PrintedSheet>,
    /// The copy room's files, in the order of the ticket.
    pub files: Vec<FileFacts>,
    /// What would save paper, most first.
    pub savings: Vec<Saving>,
}

/// A learner's sheet as it is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PrintedSheet {
    /// Which.
    pub kind: SheetKind,
    /// What it is printed on.
    pub stock: Stock,
    /// Whether it is kept.
    pub keep: Keep,
    /// How many learners use one copy; 1 of what is used up.
    pub share: u32,
    /// How many copies are printed, spare ones among them.
    pub copies: u32,
    /// Pages of one copy; of versions that differ, the most.
    pub pages: usize,
    /// Pages of one copy; of versions that differ, the fewest.
    pub fewest: usize,
    /// Who cuts it.
    pub cutter: Cutter,
    /// Straight cuts on one copy when it is cut by itself, with scissors; at most.
    pub cuts: usize,
    /// The same, at least.
    pub fewest_cuts: usize,
    /// Pieces of one copy; at most.
    pub pieces: usize,
    /// Sheets of paper or card that all copies take.
    pub sheets: usize,
    /// Straight cuts on all those sheets: pieces of several copies may share a sheet.
    pub all_cuts: usize,
    /// Straight cuts on each copy that the guillotine leaves to scissors: its cubes come in rows.
    pub cube_cuts: usize,
    /// The thousands, flats, rods and cubes of a copy; none of any sheet but blocks.
    pub holds: Option<[u32; 4]>,
}

/// A file of the copy room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileFacts {
    /// Its name.
    pub file: &'static str,
    /// What it is printed on.
    pub stock: Stock,
    /// One side or two.
    pub sides: PrintSides,
    /// Whether any of its pages is in colour.
    pub colour: bool,
    /// Its pages: a printed side each, blank backs among them.
    pub pages: usize,
    /// What it holds, in print order.
    pub parts: Vec<PartFacts>,
}

impl FileFacts {
    /// How many sheets of its stock.
    pub fn sheets(&self) -> usize {
        self.sides.sheets(self.pages)
    }
}

/// A part of a file, printed before the next begins.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartFacts {
    /// What it is.
    pub kind: PartKind,
    /// Its first and last page in the file, from 1.
    pub pages: (usize, usize),
    /// Its first and last sheet of paper in the file, from 1.
    pub sheets: (usize, usize),
}

/// What a part of a file is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PartKind {
    /// A sheet to try the printer with.
    Proof,
    /// A sheet that says what follows, and is taken out again.
    SlipSheet,
    /// A kit's sheets: kept for other lessons, so that another lesson leaves them out.
    Kit {
        /// Which: two where one is the back of the other.
        kinds: Vec<SheetKind>,
        /// How many kits.
        kits: usize,
        /// Whether the copy room cuts it as piles.
        piles: bool,
    },
    /// Strips for the guillotine.
    Piles {
        /// How many piles are cut.
        piles: usize,
    },
    /// Quick checks, several a page.
    Checks {
        /// How many slips are asked for.
        slips: u32,
        /// How many there are to a page.
        to_page: u32,
        /// The first and the last of a group's checks; none where all learners draw from the same.
        marks: Option<(u32, u32)>,
    },
    /// One learner's pages after the other's.
    Packets {
        /// Which sheets.
        kinds: Vec<SheetKind>,
        /// The first and last page of each learner's packet in the file, in the order of the learners' numbers.
        learners: Vec<(usize, usize)>,
    },
}

impl PartKind {
    /// The sheets of its packets; `None` of what has none.
    pub fn packet(&self) -> Option<&[SheetKind]> {
        if let Self::Packets { kinds, .. } = self { Some(kinds) } else { None }
    }

    /// Whether it is for the run alone, and handed to nobody.
    pub const fn is_for_the_run(&self) -> bool {
        matches!(self, Self::Proof | Self::SlipSheet)
    }

    /// Whether what it prints is kept for other lessons.
    pub const fn keep(&self) -> Keep {
        match self {
            Self::Kit { .. } => Keep::Kit,
            Self::Proof | Self::SlipSheet | Self::Piles { .. } | Self::Checks { .. } | Self::Packets { .. } => {
                Keep::UsedUp
            }
        }
    }
}

/// Something that would save paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Saving {
    /// What to do.
    pub by: SaveBy,
    /// How many sheets fewer there would be.
    pub sheets: usize,
}

/// What would save paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SaveBy {
    /// Sharing a kit's sheet between so many learners.
    Sharing(SheetKind, u32),
    /// Making no spare sets.
    NoSpares,
    /// Not printing again what is kept: in the next lesson with the same kits.
    KeptKits,
}

impl JobFacts {
    /// What is said of a sheet; `None` where it is not printed.
    pub fn sheet(&self, kind: SheetKind) -> Option<&PrintedSheet> {
        self.sheets.iter().find(|sheet| sheet.kind == kind)
    }

    /// Whether learners get a sheet.
    pub fn has(&self, kind: SheetKind) -> bool {
        self.sheet(kind).is_some()
    }

    /// What somebody cuts, in the order of the lesson.
    pub fn cut_by(&self, cutter: Cutter) -> impl Iterator<Item = &PrintedSheet> {
        self.sheets.iter().filter(move |sheet| sheet.cutter == cutter)
    }

    /// How many copies of a sheet's pages are needed where nothing has been copied: one for each learner who uses it, or for
    /// the learners who share it; of a version's page, one for each learner who has that version; of pages that hold a slip for
    /// each of several learners, as many as have a slip for everyone; of what stays whole for another day, none.
    pub fn needed(&self, kind: SheetKind, version: Option<Version>) -> u32 {
        let learners = match version {
            // All versions of a group draw from the same checks.
            Some(version) if kind == SheetKind::Exit => self.in_group(version),
            Some(version) => self.with(version),
            None => self.learners,
        };
        self.copies(kind, learners)
    }

    /// The same for a page of a version that its whole group uses, where only that version is at hand.
    pub fn needed_in_group(&self, kind: SheetKind, version: Version) -> u32 {
        self.copies(kind, self.in_group(version))
    }

    /// How many learners have a version.
    fn with(&self, version: Version) -> u32 {
        self.versions.iter().find(|(of, _)| *of == version).map_or(0, |(_, count)| *count)
    }

    /// How many learners are in the group that has a version; all of them where there are no groups.
    fn in_group(&self, version: Version) -> u32 {
        let group = self.groups.iter().find(|group| group.contains(&version));
        group.map_or(self.learners, |group| group.iter().map(|version| self.with(*version)).sum())
    }

    /// Copies of a sheet's pages for so many learners.
    fn copies(&self, kind: SheetKind, learners: u32) -> u32 {
        let Some(sheet) = self.sheet(kind) else { return learners };
        if sheet.cutter == Cutter::Later {
            return 0;
        }
        let each = if kind == SheetKind::Exit { sheet.pieces.narrow() } else { sheet.share };
        learners.div_ceil(each.max(1))
    }

    /// Sheets of a stock in all files.
    pub fn stock(&self, stock: Stock) -> usize {
        self.files.iter().filter(|file| file.stock == stock).map(FileFacts::sheets).sum()
    }
}
