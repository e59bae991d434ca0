//! Fonts: characters as codes, and the cut font programs that show them.

mod codes;
mod copy;
mod embed;

pub use codes::Codes;
pub use copy::Copier;
pub use embed::{Embedded, embed};
