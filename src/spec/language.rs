//! The language of a lesson's pages.

/// A language that pages can be in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Language {
    /// English.
    En,
    /// Spanish.
    Es,
    /// English with a mark on every letter: it shows which texts did not come from the wording.
    #[cfg(test)]
    Marked,
}

impl Language {
    /// All that a lesson file can ask for.
    pub const ALL: [Self; 2] = [Self::En, Self::Es];

    /// The other languages that a lesson file can ask for.
    pub fn others(self) -> impl Iterator<Item = Self> {
        Self::ALL.into_iter().filter(move |other| *other != self)
    }

    /// The word in a lesson file: the language's tag (BCP 47).
    pub const fn word(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::Es => "es",
            #[cfg(test)]
            Self::Marked => "en-x-marked",
        }
    }

    /// What it is called, in English and in itself.
    pub const fn name(self) -> &'static str {
        match self {
            Self::En => "English",
            Self::Es => "Spanish (español)",
            #[cfg(test)]
            Self::Marked => "marked English",
        }
    }
}
