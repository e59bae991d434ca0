//! What forms are called.

use super::area::area;
use crate::number::{Form, Place};

area! {
    /// What forms are called, where the class has no words of its own for them.
    FormTitles;

    /// The heading of a form's column, in a lesson whose numbers reach up to this place.
    fn form_heading(form: Form, greatest: Place) -> &'static str;
}
