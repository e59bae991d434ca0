//! The lesson file, read and checked: every value with its place in the text.
//!
//! In: the text of a lesson file (and of its roster). Out: a [`Spec`], or every mistake found. A spec says what was asked
//! for; it chooses nothing and knows no sizes of pieces.

mod types;

pub use types::{
    AtMost, Bound, ClassSpec, Cut, FontChoice, FormsSpec, Given, Ink, Joiner, NumbersSpec, Paper, PrintSpec, RoleSpec,
    SheetKind, SheetsSpec, Sides, Spec, TextSize, Thousands,
};
