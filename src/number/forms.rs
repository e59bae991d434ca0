//! The five forms of a number.

/// One way to show a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Form {
    /// 406
    Numeral,
    /// four hundred six
    Words,
    /// 400 + 6
    Expanded,
    /// 4 hundreds 0 tens 6 ones
    Units,
    /// the picture of flats, rods and cubes
    Blocks,
}

/// How forms are written, for the whole lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Style {
    /// `true`: four hundred **and** six.
    pub and: bool,
    /// `true`: 400 **+ 0** + 6.
    pub zero_terms: bool,
    /// What stands between thousands and hundreds: `Some(',')`, `Some('\u{202f}')` or `None`.
    pub thousands: Option<char>,
}

/// What a strip, a box or an answer shows.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Content {
    /// A line of text: numeral, words, expanded or unit form.
    Text(String),
    /// The block picture with so many thousands, flats, rods and cubes; a wrong picture may have more than nine of one.
    Blocks([u32; 4]),
}
