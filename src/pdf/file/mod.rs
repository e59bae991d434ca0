//! The outside of a PDF: objects, object streams, deflating, the cross-reference.

mod chunk;
mod deflate;
mod fingerprint;
mod numbering;
mod output;
mod pack;

pub use chunk::Chunk;
pub use deflate::{Deflater, ReadyStream};
pub use numbering::Numbering;
pub use output::Output;
pub use pack::Pack;

/// Objects whose numbers every part of the file knows.
pub const CATALOG: u32 = 1;
/// The root of the page tree.
pub const PAGES: u32 = 2;
/// The root of the structure.
pub const STRUCTURE: u32 = 3;
/// The element that holds all pages' sections.
pub const DOCUMENT: u32 = 4;
/// What pages draw with.
pub const RESOURCES: u32 = 5;
/// The fonts by name.
pub const FONTS: u32 = 6;
/// What header cells of rows and of columns say.
pub const SCOPES: [u32; 2] = [7, 8];
/// What lists say of their labels: that they are any text, or numbers.
pub const LABELS: [u32; 2] = [9, 10];
/// The first number that is given out.
pub const FIRST: u32 = 11;
