//! Fonts: characters as codes, and the cut font programs that show them.

mod copy;
mod embed;
mod face;

pub use copy::Copier;
pub use embed::embed;
pub use face::{Faces, Used};
