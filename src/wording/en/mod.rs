//! English, as classrooms in the United States write it.

mod checks;
mod class_groups;
mod cover;
mod cutting;
mod forms;
mod groups;
mod home;
mod keys;
mod learner;
mod numbers;
mod phrases;
mod plan;
mod practice;
mod slips;
mod stamps;
mod steps;
mod ticket;
mod titles;
mod trades;
mod warm_up;

/// English.
#[derive(Debug)]
pub struct English;
