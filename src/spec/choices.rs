//! What a lesson file chooses among: each choice with its word in the file.

use crate::measure::{Length, Size};

/// Between the hundreds and the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Joiner {
    /// four hundred six
    None,
    /// four hundred and six
    And,
}

impl Joiner {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::None, Self::And];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::And => "and",
        }
    }
}

/// The mark between thousands and hundreds in a numeral.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Thousands {
    /// 1,010
    Comma,
    /// 1 010, with a narrow space that does not break
    Space,
    /// 1010
    None,
}

impl Thousands {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Comma, Self::Space, Self::None];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Comma => "comma",
            Self::Space => "space",
            Self::None => "none",
        }
    }
}

/// How class sets are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cut {
    /// Each learner's pieces on that learner's own page.
    Scissors,
    /// The whole pile at once, so that each cut pile is one learner's set.
    Stack,
}

impl Cut {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Scissors, Self::Stack];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Scissors => "scissors",
            Self::Stack => "stack",
        }
    }
}

/// Which sides are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SidesAsked {
    /// Fronts only.
    One,
    /// Backs carry a self-check mark.
    Two,
}

impl SidesAsked {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::One, Self::Two];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::Two => "two",
        }
    }
}

/// Grey or colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Black and greys.
    Grey,
    /// A colour-blind-safe palette that also works in grey.
    Colour,
}

impl Ink {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Grey, Self::Colour];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Grey => "grey",
            Self::Colour => "colour",
        }
    }
}

/// How large learner text is at least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TextSize {
    /// 14 pt
    Standard,
    /// 24 pt
    Large,
}

impl TextSize {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Standard, Self::Large];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Large => "large",
        }
    }
}

/// A typeface.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum FontChoice {
    /// A bundled family by its word in a lesson file.
    Andika,
    /// A bundled family by its word in a lesson file: `lato`.
    Lato,
    /// A path to a TTF or OTF file, as the lesson gives it.
    File(String),
}

impl FontChoice {
    /// The words of the bundled families.
    pub const BUNDLED: [&'static str; 2] = ["andika", "lato"];

    /// What the lesson file says for it.
    pub fn word(&self) -> &str {
        match self {
            Self::Andika => "andika",
            Self::Lato => "lato",
            Self::File(path) => path,
        }
    }
}

/// A paper size. Dimensions from ANSI/ASME Y14.1 and ISO 216; names from PWG 5101.1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 8.5 x 11 in
    Letter,
    /// 8.5 x 14 in
    Legal,
    /// 11 x 17 in
    Tabloid,
    /// 210 x 297 mm
    A4,
    /// 297 x 420 mm
    A3,
}

impl Paper {
    /// All papers.
    pub const ALL: [Self; 5] = [Self::Letter, Self::Legal, Self::Tabloid, Self::A4, Self::A3];

    /// The larger sizes that go with it.
    pub const fn larger(self) -> &'static [Self] {
        match self {
            Self::Letter => &[Self::Legal, Self::Tabloid],
            Self::Legal => &[Self::Tabloid],
            Self::A4 => &[Self::A3],
            Self::Tabloid | Self::A3 => &[],
        }
    }

    /// Its size, upright (shorter side across).
    pub const fn size(self) -> Size {
        match self {
            Self::Letter => Size::new(Length::pt(612), Length::pt(792)),
            Self::Legal => Size::new(Length::pt(612), Length::pt(1008)),
            Self::Tabloid => Size::new(Length::pt(792), Length::pt(1224)),
            Self::A4 => Size::new(Length::mm(210), Length::mm(297)),
            Self::A3 => Size::new(Length::mm(297), Length::mm(420)),
        }
    }

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::Legal => "legal",
            Self::Tabloid => "tabloid",
            Self::A4 => "a4",
            Self::A3 => "a3",
        }
    }

    /// The name as people write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            other => other.word(),
        }
    }

    /// The PWG 5101.1 self-describing media name, shorter side first.
    pub const fn media(self) -> &'static str {
        match self {
            Self::Letter => "na_letter_8.5x11in",
            Self::Legal => "na_legal_8.5x14in",
            Self::Tabloid => "na_ledger_11x17in",
            Self::A4 => "iso_a4_210x297mm",
            Self::A3 => "iso_a3_297x420mm",
        }
    }
}
