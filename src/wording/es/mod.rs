//! Spanish: every word on paper.
//!
//! Learners are addressed as `tú`, grown-ups as `usted`; whoever speaks to the class says `nosotros`, which every country
//! uses. Terms are those that classrooms of several countries share; where they differ the file says what was chosen.

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

/// Spanish.
#[derive(Debug)]
pub struct Spanish;
