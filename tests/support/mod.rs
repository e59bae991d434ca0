//! What the test programs share.

pub mod class;
pub mod pdf;
pub mod raster;
