//! `licences`: the licences of everything that is shipped.

/// Of the program, its fonts, and the libraries it is built from. A test compares the list with the libraries.
pub const TEXT: &str = include_str!("../../LICENCES.txt");
