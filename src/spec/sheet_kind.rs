//! The kinds of sheet, by the words that name them.

/// One kind of page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SheetKind {
    /// One model number a page, big.
    Display,
    /// Place-value mat to build on.
    Mat,
    /// Flats, rods and cubes to cut out at true size.
    Blocks,
    /// Expanded-form cards that lie on top of each other.
    Layered,
    /// One row a number to write on.
    Record,
    /// Number words beside their numerals.
    WordBank,
    /// One row a sort number with boxes to fill.
    Board,
    /// The pieces for the boxes.
    Strips,
    /// The quick check, several slips a page.
    Exit,
    /// Every board, strip set and exit slip answered.
    Key,
    /// Class list against skills and slips.
    Tally,
    /// For tomorrow: a ten-minute lesson for each slip.
    SmallGroups,
    /// A number a day for the week after.
    WarmUp,
    /// One page of exercises on the lesson's skills.
    Practice,
    /// One page home.
    Family,
    /// The lesson minute by minute.
    Plan,
    /// The substitute's first page.
    Cover,
    /// The copy room's job ticket.
    Ticket,
}

impl SheetKind {
    /// All kinds, in the order of the contract.
    pub const ALL: [Self; 18] = [
        Self::Display,
        Self::Mat,
        Self::Blocks,
        Self::Layered,
        Self::Record,
        Self::WordBank,
        Self::Board,
        Self::Strips,
        Self::Exit,
        Self::Key,
        Self::Tally,
        Self::SmallGroups,
        Self::WarmUp,
        Self::Practice,
        Self::Family,
        Self::Plan,
        Self::Cover,
        Self::Ticket,
    ];

    /// Sheets that are made once and kept for other lessons.
    pub const KITS: [Self; 4] = [Self::Mat, Self::Blocks, Self::Layered, Self::WordBank];

    /// The word in lesson files, on the command line and in `contents.json`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Display => "display",
            Self::Mat => "mat",
            Self::Blocks => "blocks",
            Self::Layered => "layered",
            Self::Record => "record",
            Self::WordBank => "word-bank",
            Self::Board => "board",
            Self::Strips => "strips",
            Self::Exit => "exit",
            Self::Key => "key",
            Self::Tally => "tally",
            Self::SmallGroups => "small-groups",
            Self::WarmUp => "warm-up",
            Self::Practice => "practice",
            Self::Family => "family",
            Self::Plan => "plan",
            Self::Cover => "cover",
            Self::Ticket => "ticket",
        }
    }

    /// Whether it is made where a lesson file does not list the sheets: what the lesson itself does not need, a page for
    /// every learner or one for the week after, is made on request.
    pub const fn is_usual(self) -> bool {
        self.is_asked_for() && !matches!(self, Self::WarmUp | Self::Practice | Self::Family)
    }

    /// Whether numbers are built and written with it.
    pub const fn is_for_work(self) -> bool {
        matches!(self, Self::Mat | Self::Blocks | Self::Layered | Self::Record | Self::WordBank)
    }

    /// Whether a lesson file may list it under `make`: the plan, the cover and the ticket come with their packets.
    pub const fn is_asked_for(self) -> bool {
        !matches!(self, Self::Plan | Self::Cover | Self::Ticket)
    }
}
