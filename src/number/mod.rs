//! Whole numbers as a class meets them: digits, places, forms and the slips learners make.

mod forms;
mod place;
mod slips;
mod words;

pub use forms::{Content, Form, Style, counted};
pub use place::{Number, Place};
pub use slips::Slip;
