//! The forms of a number, as they are written on a page: one file a form.
//!
//! In: a [`Number`] and the lesson's [`Style`]. Out: a [`Content`]: a line of text, or how many blocks of each kind.
//! A form is a row of facts ([`Facts`]) in a file of its own, named in one list below. The compiler asks for every fact of
//! a form that is added there.

mod blocks;
mod content;
mod expanded;
mod numeral;
mod regrouped;
mod second_words;
mod style;
mod trading;
mod units;
mod untraded;
mod words;
mod written;

use super::{Names, Number};

pub use blocks::{blocks_of, fewest_blocks};
pub use content::Content;
pub(in crate::number) use regrouped::write as regrouped_text;
pub use style::Style;
pub use trading::{Counted, Trading, pieces_traded, traded};

/// The forms from their list: the enum, all of them, and the file of each.
macro_rules! forms {
    ($($(#[$doc:meta])+ $form:ident in $file:ident;)+) => {
        /// One way to show a number.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Form {
            $($(#[$doc])+ $form,)+
        }

        impl Form {
            /// All forms.
            pub const ALL: [Self; [$(Self::$form),+].len()] = [$(Self::$form),+];

            const fn facts(self) -> &'static Facts {
                match self {
                    $(Self::$form => &$file::FACTS,)+
                }
            }
        }
    };
}

forms! {
    /// 406
    Numeral in numeral;
    /// four hundred six
    Words in words;
    /// cuatrocientos seis, in a lesson in English whose second language is Spanish
    SecondWords in second_words;
    /// 400 + 6
    Expanded in expanded;
    /// 4 hundreds 0 tens 6 ones
    Units in units;
    /// 1 hundred 16 tens 4 ones
    Regrouped in regrouped;
    /// the picture of flats, rods and cubes
    Blocks in blocks;
    /// the same with a piece traded for ten
    Untraded in untraded;
}

/// Everything that has to be decided about a form.
struct Facts {
    /// The word in lesson files and in `contents.json`.
    word: &'static str,
    /// The number in this form, if it has one.
    content: fn(Number, &Style) -> Option<Content>,
    /// What a content of this form is worth, right or wrong; see [`Content::worth`].
    worth: fn(&Content, &dyn Names) -> Option<u64>,
    /// How wide a column it needs beside others.
    width: Breadth,
}

/// How wide a form is on a page beside others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Breadth {
    /// As wide as the widest text.
    Natural,
    /// So many parts of what is left.
    Share(u32),
    /// As wide as the widest picture.
    Picture,
}

impl Form {
    /// The word in lesson files and in `contents.json`.
    pub const fn word(self) -> &'static str {
        self.facts().word
    }

    /// How wide it is on a page beside other forms.
    pub const fn breadth(self) -> Breadth {
        self.facts().width
    }

    /// Whether it shows a number with pieces traded, which takes a number of two digits or more.
    pub const fn is_traded(self) -> bool {
        matches!(self, Self::Regrouped | Self::Untraded)
    }

    /// Whether it is number words, of either language.
    pub const fn is_words(self) -> bool {
        matches!(self, Self::Words | Self::SecondWords)
    }

    /// Whether it is a picture of blocks.
    pub const fn is_picture(self) -> bool {
        matches!(self.breadth(), Breadth::Picture)
    }

    /// Whether a number has this form: whether [`Form::content`] gives anything.
    pub fn is_of(self, number: Number, style: &Style) -> bool {
        match self {
            Self::Numeral | Self::Words | Self::Expanded | Self::Units => true,
            Self::SecondWords | Self::Regrouped | Self::Blocks | Self::Untraded => {
                self.content(number, style).is_some()
            }
        }
    }

    /// The number in this form. Returns `None` for pictures above 9,999, for trades below 10, for a picture of more
    /// blocks than the class has, and for words of a second language where there is none.
    pub fn content(self, number: Number, style: &Style) -> Option<Content> {
        (self.facts().content)(number, style)
    }
}

#[cfg(test)]
mod tests;
