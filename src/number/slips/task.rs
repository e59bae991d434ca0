//! What a learner sees of a number, and what is asked about it.

use super::{Form, Number, Place, Style};
use crate::number::{Counted, pieces_traded};

/// What is shown of a number, and what is asked about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Task {
    /// It is shown in one form and asked for in another.
    Forms {
        /// The form that is shown.
        shown: Form,
        /// The form that is asked for.
        asked: Form,
    },
    /// Its numeral is shown, and what the digit in a place is worth is asked for, as a numeral.
    Worth(Place),
    /// Its numeral is shown beside that of another number, and which of the two is greater is asked.
    Greater(Number),
}

impl Task {
    /// Shown in one form and asked for in another.
    pub const fn forms(shown: Form, asked: Form) -> Self {
        Self::Forms { shown, asked }
    }

    /// The form in which its number is shown.
    pub const fn shown(self) -> Form {
        match self {
            Self::Forms { shown, .. } => shown,
            Self::Worth(_) | Self::Greater(_) => Form::Numeral,
        }
    }

    /// How many of each place the traded form has that is asked for, else the one that is shown; `None` where neither is
    /// traded, or the number has none.
    pub fn counted(self, number: Number, style: &Style) -> Option<Counted> {
        let traded = |form: Form| match form {
            Form::Regrouped => style.trading.regrouped(number),
            Form::Untraded => style.trading.pictured(number),
            Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Blocks => None,
        };
        traded(self.asked()).or_else(|| traded(self.shown()))
    }

    /// How many pieces it trades away; none where it does not trade.
    pub fn pieces_traded(self, of: Number, style: &Style) -> u32 {
        self.counted(of, style).map_or(0, |counted| pieces_traded(of, &counted))
    }

    /// The form of its answers.
    pub const fn asked(self) -> Form {
        match self {
            Self::Forms { asked, .. } => asked,
            Self::Worth(_) | Self::Greater(_) => Form::Numeral,
        }
    }
}
