//! English, as classrooms in the United States write it.

mod checks;
mod groups;
mod numbers;
mod phrases;
mod titles;

/// English.
#[derive(Debug)]
pub struct English;
