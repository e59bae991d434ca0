//! What the test programs share.

pub mod class;
pub mod matterhorn;
pub mod pdf;
pub mod raster;
pub mod samples;
pub mod structure;
