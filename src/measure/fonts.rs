//! The bundled families, and families from a font file's bytes.
//!
//! In: the lesson's choice of typeface. Out: a measured [`Family`]. The files in `fonts/` are compiled in unmodified, so
//! every machine sets the same type.

use std::sync::{Arc, OnceLock};

use super::{Family, Font, checks};
use crate::diag::Problem;

/// A family that comes with the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Bundled {
    /// Andika: made for beginning readers.
    Andika,
    /// Atkinson Hyperlegible: made for low vision.
    Atkinson,
}

impl Bundled {
    /// All bundled families.
    pub const ALL: [Self; 2] = [Self::Andika, Self::Atkinson];
}

/// A bundled family, measured once a process.
pub fn bundled(family: Bundled) -> Result<Family, Problem> {
    static ANDIKA: OnceLock<Result<Family, Problem>> = OnceLock::new();
    static ATKINSON: OnceLock<Result<Family, Problem>> = OnceLock::new();
    let (cell, regular, bold): (_, &[u8], &[u8]) = match family {
        Bundled::Andika => (
            &ANDIKA,
            include_bytes!("../../fonts/andika/Andika-Regular.ttf"),
            include_bytes!("../../fonts/andika/Andika-Bold.ttf"),
        ),
        Bundled::Atkinson => (
            &ATKINSON,
            include_bytes!("../../fonts/atkinson-hyperlegible/AtkinsonHyperlegible-Regular.ttf"),
            include_bytes!("../../fonts/atkinson-hyperlegible/AtkinsonHyperlegible-Bold.ttf"),
        ),
    };
    cell.get_or_init(|| Ok(Family { regular: Font::read(regular)?, bold: Font::read(bold)? })).clone()
}

/// The family of a single font file: its regular and its bold are the same font. Says in plain words what is wrong with
/// a file that may not or cannot be embedded.
pub fn single(bytes: impl Into<Arc<[u8]>>) -> Result<Family, Problem> {
    let font = Font::read(bytes)?;
    // Every lesson needs letters and digits, so a trial with them finds most broken tables before pages are laid out.
    checks::cut(font.bytes(), (' '..='~').filter_map(|character| Some(font.glyph(character)?.id)))?;
    Ok(Family { bold: font.clone(), regular: font })
}
