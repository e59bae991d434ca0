//! What is printed for a class, as facts: for whom a sheet is, what becomes of it, who cuts it.
//!
//! Types only, without lengths: the table of sheets says which holds for which sheet, and whatever speaks of the job (plan,
//! cover, ticket) says what stands here.

use crate::spec::{Cut, Sides};

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

/// Whether a sheet is made once and used again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Keep {
    /// Part of a kit: made once, kept, and shared where the lesson says so.
    Kit,
    /// Used up in the lesson.
    UsedUp,
}

/// Who cuts a sheet, and so when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cutter {
    /// Nobody: it stays whole.
    Nobody,
    /// The learner, with scissors, in the lesson.
    Learner,
    /// The teacher or a helper, before the lesson.
    Teacher,
    /// The copy room, before it is handed over.
    CopyRoom,
}

/// What a page is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stock {
    /// Ordinary paper.
    Paper,
    /// Card.
    Card,
}

impl Stock {
    /// The word in `contents.json`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Paper => "paper",
            Self::Card => "card",
        }
    }
}

/// The edge a sheet is turned over, named as in IPP's `sides` (RFC 8011) and PDF's `Duplex` (ISO 32000-1, 12.2).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// Over the long edge, like a book's page where the sheet is upright.
    Long,
    /// Over the short edge, like a wall calendar's where the sheet is upright.
    Short,
}

/// One side or two, and over which edge; the same in the ticket, the print command and the file's own preferences.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PrintSides {
    /// Fronts only.
    One,
    /// Front and back, the sheet turned over this edge.
    Two(Edge),
}

impl PrintSides {
    /// One or two.
    pub const fn word(self) -> Sides {
        match self {
            Self::One => Sides::One,
            Self::Two(_) => Sides::Two,
        }
    }

    /// How many sheets of paper so many pages take.
    pub const fn sheets(self, pages: usize) -> usize {
        match self {
            Self::One => pages,
            Self::Two(_) => pages.div_ceil(2),
        }
    }
}
