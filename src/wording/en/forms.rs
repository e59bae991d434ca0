//! What forms are called in English.

use super::English;
use super::phrases::inside;
use crate::number::{Form, Place};
use crate::wording::{FormTitles, Language};

impl FormTitles for English {
    fn form_heading(&self, form: Form, greatest: Place) -> &'static str {
        match (form, greatest) {
            (Form::Numeral, _) => "Numeral",
            (Form::Words, _) => "Words",
            (Form::SecondWords, _) => "Words in the other language",
            (Form::Expanded, _) => "Expanded form",
            (Form::Units, Place::Ones | Place::Tens) => "Tens and ones",
            (Form::Units, Place::Hundreds) => "Hundreds, tens and ones",
            (Form::Units, _) => "Place by place",
            (Form::Regrouped, _) => "Regrouped",
            (Form::Untraded, _) => "Blocks to trade",
            (Form::Blocks, _) => "Blocks",
        }
    }

    fn words_in(&self, language: Language) -> &'static str {
        match language {
            Language::En => "Words in English",
            Language::Es => "Words in Spanish",
            #[cfg(test)]
            Language::Marked => "Words in marked English",
        }
    }

    fn form_plural(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral => "numerals",
            Form::Words => "number words",
            Form::SecondWords => "words in the other language",
            Form::Expanded => "expanded forms",
            Form::Units => "numbers named place by place",
            Form::Regrouped => "regrouped forms",
            Form::Blocks => "block pictures",
            Form::Untraded => "pictures of blocks to trade",
        }
    }

    fn form_one(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral => "a numeral",
            Form::Words => "number words",
            Form::SecondWords => "words in the other language",
            Form::Expanded => "an expanded form",
            Form::Units => "hundreds, tens and ones",
            Form::Regrouped => "a regrouped form",
            Form::Blocks => "a block picture",
            Form::Untraded => "a picture of blocks to trade",
        }
    }

    fn form_written(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral => "a numeral",
            Form::Words => "words",
            Form::SecondWords => "words in the other language",
            Form::Expanded => "an expanded form",
            Form::Units => "hundreds, tens and ones",
            Form::Regrouped => "a regrouped form",
            Form::Blocks => "a drawing",
            Form::Untraded => "a drawing of blocks to trade",
        }
    }

    fn form_skill(&self, form: Form, greatest: Place) -> String {
        let skill = match form {
            Form::Numeral => "numeral",
            Form::Words => "number words",
            Form::SecondWords => "words in the other language",
            Form::Expanded => "expanded form",
            // Boards and keys head this column so, too.
            Form::Units => return inside(self.form_heading(form, greatest)),
            Form::Regrouped => "regrouping",
            Form::Blocks => "block picture",
            Form::Untraded => "trading blocks",
        };
        skill.to_owned()
    }

    fn which_form(&self, form: Form, own: Option<&str>, numeral: &str) -> String {
        if let Some(own) = own {
            return format!("Which is {numeral} in {}?", inside(own));
        }
        match form {
            Form::Numeral | Form::Units => format!("Which says the same as {numeral}?"),
            Form::Words | Form::SecondWords => format!("Which words say {numeral}?"),
            Form::Expanded => format!("Which is {numeral} in expanded form?"),
            Form::Regrouped => format!("Which is the same as {numeral}?"),
            Form::Blocks | Form::Untraded => format!("Which picture shows {numeral}?"),
        }
    }

    fn which_numeral(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral | Form::Expanded | Form::Units | Form::Regrouped => "Which number is this?",
            Form::Words | Form::SecondWords => "Which number do the words say?",
            Form::Blocks | Form::Untraded => "Which number does the picture show?",
        }
    }

    fn write_numeral(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Regrouped => {
                "Write this in digits."
            }
            Form::Blocks | Form::Untraded => "Write the number that the picture shows.",
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
