//! Text and tables that fill pages.

pub mod column;
pub mod rows;
