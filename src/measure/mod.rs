//! Lengths, geometry and type: how big things are on paper.

mod bytes;
mod charstrings;
mod checks;
mod count;
pub mod cut;
mod font;
pub mod fonts;
mod geom;
mod length;
mod outline;
pub mod points;
mod work;

pub use count::Count;
pub use font::{Family, Font, Glyph, Weight};
pub use geom::{Point, Rect, Sides, Size};
pub use length::Length;
