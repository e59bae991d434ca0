//! What the test programs share.

pub mod pdf;
pub mod raster;
