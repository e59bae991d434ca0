//! The display: how its pages follow one another, and the forms that stand on them.

/// How a model number is shown on the display.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DisplayPages {
    /// One page with every form.
    Whole,
    /// Page after page, each with a form more.
    Steps,
}

impl DisplayPages {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Whole, Self::Steps];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::Steps => "steps",
        }
    }
}

/// What a page of the display shows of its number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DisplayForm {
    /// The numeral by itself.
    Numeral,
    /// The blocks, each kind where its column of the chart is.
    Blocks,
    /// The place-value chart with its digits.
    Chart,
    /// The expanded form.
    Expanded,
    /// The number words.
    Words,
}

impl DisplayForm {
    /// All forms, in the order in which they appear.
    pub const ALL: [Self; 5] = [Self::Numeral, Self::Blocks, Self::Chart, Self::Expanded, Self::Words];
}
