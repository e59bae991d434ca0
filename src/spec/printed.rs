//! How a sheet is printed: on what, on which sides, and whether it is kept. Words for it that every stage shares.

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
    /// How many pages a sheet of paper has.
    pub const fn a_sheet(self) -> usize {
        match self {
            Self::One => 1,
            Self::Two(_) => 2,
        }
    }

    /// How many sheets of paper so many pages take.
    pub const fn sheets(self, pages: usize) -> usize {
        pages.div_ceil(self.a_sheet())
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

/// A packet: a PDF for one reader.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PacketKind {
    /// The teacher's.
    Teacher,
    /// The class's copies on paper.
    Paper,
    /// Those that are printed on both sides, where most are not.
    PaperBothSides,
    /// The class's copies on card.
    Card,
    /// Those that are printed on both sides, where most are not.
    CardBothSides,
    /// The copy room's ticket.
    Ticket,
    /// The substitute's.
    Substitute,
}
