//! What forms are called in English.

use super::English;
use crate::number::{Form, Place};
use crate::wording::FormTitles;

impl FormTitles for English {
    fn form_heading(&self, form: Form, greatest: Place) -> &'static str {
        match (form, greatest) {
            (Form::Numeral, _) => "Numeral",
            (Form::Words, _) => "Words",
            (Form::Expanded, _) => "Expanded form",
            (Form::Units, Place::Ones | Place::Tens) => "Tens and ones",
            (Form::Units, Place::Hundreds) => "Hundreds, tens and ones",
            (Form::Units, _) => "Place by place",
            (Form::Blocks, _) => "Blocks",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_of_forms_are_unique() {
        for greatest in Place::ALL {
            let heading = |form: &Form| English.form_heading(*form, greatest);
            for (k, form) in Form::ALL.iter().enumerate() {
                assert!(Form::ALL[..k].iter().all(|other| heading(other) != heading(form)));
            }
        }
    }
}
