//! How a class writes numbers and what it calls their forms.

use crate::number::{Place, Style};
use crate::spec::{FormNames, Language, Paper};

/// How a class writes numbers and what it calls their forms.
#[derive(Debug, Clone, Copy)]
pub struct Usage<'a> {
    /// How forms are written.
    pub style: &'a Style,
    /// The class's own words for forms, where it has any.
    pub names: &'a FormNames,
    /// The place of the first digit of the greatest number: what the form that counts place by place is called hangs on it.
    pub greatest: Place,
    /// How words are spelled that two countries spell differently.
    pub spelling: Spelling,
    /// The second language where its words are a form of their own: both then say which language they are in.
    pub second: Option<Language>,
    /// Whether the class is one learner, who has no neighbour and no partner.
    pub one_learner: bool,
}

/// How words are spelled that the United States and other countries spell differently: color, colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Spelling {
    /// As in the United States.
    UnitedStates,
    /// As elsewhere.
    Elsewhere,
}

impl From<Paper> for Spelling {
    /// By the paper that is at hand: sizes of PWG 5101.1's class `na`, North America, or others.
    fn from(paper: Paper) -> Self {
        if paper.media().starts_with("na_") { Self::UnitedStates } else { Self::Elsewhere }
    }
}

impl Spelling {
    /// One of two spellings.
    pub fn of<'t>(self, states: &'t str, elsewhere: &'t str) -> &'t str {
        match self {
            Self::UnitedStates => states,
            Self::Elsewhere => elsewhere,
        }
    }
}
