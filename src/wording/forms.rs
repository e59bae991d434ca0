//! What forms are called, and how they are asked for.

use super::area::area;
use crate::number::{Form, Place};
use crate::spec::Language;

area! {
    /// What forms are called, where the class has no words of its own for them, and how they are asked for.
    FormTitles;

    /// The heading of a form's column, in a lesson whose numbers reach up to this place.
    fn form_heading(form: Form, greatest: Place) -> &'static str;

    /// The heading of a column of number words, where there is one for each of two languages; this language among them.
    fn words_in(language: Language) -> &'static str;

    /// Several of them, as a grown-up who does not teach mathematics would say: "block pictures".
    fn form_plural(form: Form) -> &'static str;

    /// One of them, as something that a row shows, with its article: "an expanded form", "a block picture".
    fn form_one(form: Form) -> &'static str;

    /// The same as something that a learner writes down: "an expanded form", "a drawing".
    fn form_written(form: Form) -> &'static str;

    /// Being able to read or write it, as a heading of the tally: "block picture".
    fn form_skill(form: Form, greatest: Place) -> String;

    /// The question which of several contents in this form shows a numeral: "Which words say 406?", or with the class's own
    /// name of the form, "Which is 406 in word form?"
    fn which_form(form: Form, own: Option<&str>, numeral: &str) -> String;

    /// The question which of several numerals says what is shown in this form.
    fn which_numeral(form: Form) -> &'static str;

    /// The request to write the numeral of what is shown in this form.
    fn write_numeral(form: Form) -> &'static str;
}
