//! Pages to PDF: the last stage.
//!
//! In: a packet of finished pages and the fonts they are set in. Out: the bytes of a PDF 1.7 file, the same for the same
//! pages on every machine. Each folder uses those before it only: `syntax` writes values, `file` objects, `fonts` codes and
//! font programs, `content` what pages show, `structure` what they mean, and `write` plans, builds and ties it all together.

mod content;
mod failure;
mod file;
mod fonts;
mod structure;
mod syntax;
mod write;

pub use failure::WriteFailure;
pub use file::Deflater;
pub use write::{Common, FileHead, bytes, write, write_pages, write_watched};
