//! How a class writes numbers and what it calls their forms.

use crate::number::Style;
use crate::spec::FormNames;

/// How a class writes numbers and what it calls their forms.
#[derive(Debug, Clone, Copy)]
pub struct Usage<'a> {
    /// How forms are written.
    pub style: &'a Style,
    /// The class's own words for forms, where it has any.
    pub names: &'a FormNames,
    /// Whether the class is one learner, who has no neighbour and no partner.
    pub one_learner: bool,
}
