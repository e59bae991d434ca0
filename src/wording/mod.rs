//! Every word on paper: sentences, titles, number words, plurals, lists, and where a line of words may break.
//!
//! One trait an area, small and without defaults, declared in a file of this folder; one folder a language that implements
//! them all, with one file an area. A lesson hands its language out as [`Wording`]. Texts take what they speak of (a
//! place, a count, a form) and settle grammar themselves, so that no one else joins words. What the program itself says
//! (errors, reports) stays English and is not here.
//!
//! A language is added by a folder beside `en`, a variant of [`Language`] and an arm of [`of`].

mod area;
mod breaks;
mod checks;
pub mod class_groups;
pub mod cover;
mod digits;
mod en;
mod es;
mod forms;
mod groups;
pub mod home;
pub mod keys;
pub mod learner;
mod lookalikes;
#[cfg(test)]
mod marked;
mod phrases;
pub mod plan;
pub mod practice;
mod slips;
pub mod stamps;
pub mod ticket;
mod titles;
mod usage;
mod warm_up;

use std::fmt;

use crate::number::Names;
pub use crate::spec::Language;
pub use breaks::{Breaks, holds_back, holds_on};
pub use checks::Checks;
pub use en::English;
pub use es::Spanish;
pub use forms::FormTitles;
pub use groups::{BlocksOut, GroupStep, GroupSteps, GroupTable, Groups};
pub use home::HomeWords;
pub use lookalikes::{Lookalikes, may_mean_no_number};
pub use phrases::Phrases;
pub use practice::PracticeWords;
pub use slips::{ReadIn, Slips, Tools};
pub use titles::Titles;
pub use usage::{Spelling, Usage};
pub use warm_up::WarmUpWords;

/// All that a language says.
pub trait Wording:
    Names
    + Checks
    + FormTitles
    + Groups
    + GroupSteps
    + HomeWords
    + Phrases
    + PracticeWords
    + Slips
    + Titles
    + plan::Frame
    + plan::Questions
    + plan::Speech
    + plan::Deeds
    + plan::Prepare
    + cover::CoverWords
    + class_groups::ClassGroups
    + keys::GroupLabels
    + keys::KeyWords
    + keys::TallyWords
    + learner::LearnerWords
    + learner::WordBankWords
    + stamps::Stamps
    + ticket::CuttingWords
    + ticket::TicketWords
    + WarmUpWords
{
    /// The same language as what numbers are called in.
    fn names(&self) -> &'static dyn Names;
}

impl fmt::Debug for dyn Wording {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.tag())
    }
}

/// What a language says.
pub fn of(language: Language) -> &'static dyn Wording {
    match language {
        Language::En => &English,
        Language::Es => &Spanish,
        #[cfg(test)]
        Language::Marked => &marked::Marked,
    }
}

/// What the language of a file says, by its tag (BCP 47); English where the tag is no language's.
pub fn tagged(tag: &str) -> &'static dyn Wording {
    Language::ALL.into_iter().map(of).find(|wording| wording.tag() == tag).unwrap_or(&English)
}

impl Wording for Spanish {
    fn names(&self) -> &'static dyn Names {
        &Spanish
    }
}

impl Wording for English {
    fn names(&self) -> &'static dyn Names {
        &English
    }
}

#[cfg(test)]
impl Wording for marked::Marked {
    fn names(&self) -> &'static dyn Names {
        &marked::Marked
    }
}
