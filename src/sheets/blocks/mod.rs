//! Base-ten blocks: where they stand, how they are drawn, how they are packed on sheets to cut.

pub mod geometry;
pub mod packing;
pub mod picture;
