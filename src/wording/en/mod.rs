//! English, as classrooms in the United States write it.

mod checks;
mod cover;
mod forms;
mod groups;
mod numbers;
mod phrases;
mod plan;
mod slips;
mod titles;

/// English.
#[derive(Debug)]
pub struct English;
