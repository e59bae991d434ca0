//! The forms of a number, as they are written on a page: one file a form.
//!
//! In: a [`Number`] and the lesson's [`Style`]. Out: a [`Content`]: a line of text, or how many blocks of each kind.
//! A form is a row of facts ([`Facts`]) in a file of its own, named in one list below. The compiler asks for every fact of
//! a form that is added there.

mod blocks;
mod content;
mod expanded;
mod numeral;
mod style;
mod units;
mod words;

use super::Number;

pub use content::Content;
pub use style::Style;
pub use units::counted;

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
    /// 400 + 6
    Expanded in expanded;
    /// 4 hundreds 0 tens 6 ones
    Units in units;
    /// the picture of flats, rods and cubes
    Blocks in blocks;
}

/// Everything that has to be decided about a form.
struct Facts {
    /// The word in lesson files and in `contents.json`.
    word: &'static str,
    /// What people read about it.
    texts: Texts,
    /// The number in this form, if it has one.
    content: fn(Number, &Style) -> Option<Content>,
    /// What a content of this form is worth, right or wrong; see [`Content::worth`].
    worth: fn(&Content) -> Option<u64>,
    /// How wide a column it needs beside others.
    width: Breadth,
}

/// The texts about a form, all in one place.
struct Texts {
    /// Several of them, as a grown-up who does not teach mathematics would say: "block pictures".
    plural: &'static str,
    /// One of them, as something that a row shows: "a block picture".
    one: &'static str,
    /// The same as something that a learner writes: "a drawing".
    written: &'static str,
    /// Being able to read or write it, as a heading of the tally: "block picture".
    skill: &'static str,
    /// Which of several contents in this form shows a numeral.
    which: fn(&str) -> String,
    /// Write a numeral in this form.
    write: fn(&str) -> String,
    /// Which of several numerals says what is shown in this form.
    which_numeral: &'static str,
    /// Write the numeral of something shown in this form.
    write_numeral: &'static str,
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

    /// Several of them in plain words: "number words", "block pictures".
    pub const fn plural(self) -> &'static str {
        self.facts().texts.plural
    }

    /// One of them in plain words, with its article: "an expanded form", "a block picture".
    pub const fn one(self) -> &'static str {
        self.facts().texts.one
    }

    /// What a learner writes down who writes this form: "an expanded form", "a drawing".
    pub const fn written(self) -> &'static str {
        self.facts().texts.written
    }

    /// The skill of reading and writing it, as the tally's heading: "expanded form".
    pub const fn skill(self) -> &'static str {
        self.facts().texts.skill
    }

    /// The question which of several contents in this form shows `numeral`: "Which words say 406?"
    pub fn which(self, numeral: &str) -> String {
        (self.facts().texts.which)(numeral)
    }

    /// The request to write `numeral` in this form: "Write 406 in words."
    pub fn write(self, numeral: &str) -> String {
        (self.facts().texts.write)(numeral)
    }

    /// The question which of several numerals says what is shown in this form.
    pub const fn which_numeral(self) -> &'static str {
        self.facts().texts.which_numeral
    }

    /// The request to write the numeral of what is shown in this form.
    pub const fn write_numeral(self) -> &'static str {
        self.facts().texts.write_numeral
    }

    /// How wide it is on a page beside other forms.
    pub const fn breadth(self) -> Breadth {
        self.facts().width
    }

    /// The number in this form. Returns `None` only for blocks above 9,999.
    pub fn content(self, number: Number, style: &Style) -> Option<Content> {
        (self.facts().content)(number, style)
    }
}

#[cfg(test)]
mod tests;
