//! The bundled families, and families from a font file's bytes.
//!
//! In: the lesson's choice of typeface. Out: a measured [`Family`]. The files in `fonts/` are compiled in unmodified, so
//! every machine sets the same type.

use std::borrow::Cow;
use std::sync::OnceLock;

use super::{Family, Font, cut};
use crate::diag::Problem;
use crate::diag::nearest::listed;

/// A family that comes with the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Bundled {
    /// Andika: made for beginning readers.
    Andika,
    /// Lato: a plain sans serif for older learners.
    Lato,
}

impl Bundled {
    /// All bundled families.
    pub const ALL: [Self; 2] = [Self::Andika, Self::Lato];
}

/// A bundled family, measured once a process.
pub fn bundled(family: Bundled) -> Result<Family, Problem> {
    static ANDIKA: OnceLock<Result<Family, Problem>> = OnceLock::new();
    static LATO: OnceLock<Result<Family, Problem>> = OnceLock::new();
    let (cell, regular, bold): (_, &'static [u8], &'static [u8]) = match family {
        Bundled::Andika => (
            &ANDIKA,
            include_bytes!("../../fonts/andika/Andika-Regular.ttf"),
            include_bytes!("../../fonts/andika/Andika-Bold.ttf"),
        ),
        Bundled::Lato => (
            &LATO,
            include_bytes!("../../fonts/lato/Lato-Regular.ttf"),
            include_bytes!("../../fonts/lato/Lato-Bold.ttf"),
        ),
    };
    cell.get_or_init(|| Ok(Family { regular: Font::read(regular)?, bold: Font::read(bold)? })).clone()
}

/// The family of a single font file: its regular and its bold are the same font. Says in plain words what is wrong with
/// a file that may not or cannot be embedded.
pub fn single(bytes: impl Into<Cow<'static, [u8]>>) -> Result<Family, Problem> {
    let font = Font::read(bytes)?;
    complete(&font)?;
    // Every lesson needs letters and digits, so a trial with them finds most broken tables before pages are laid out.
    cut::cut(font.bytes(), (' '..='~').filter_map(|character| Some(font.glyph(character)?.id)))?;
    Ok(Family { bold: font.clone(), regular: font })
}

/// What every packet says something with, besides letters and digits: what stands in the lesson's own texts is looked at
/// when they are set.
const MARKS: &str = " !\"%'()+,-./:;=?\u{b2}\u{b7}\u{2013}\u{201c}\u{201d}";

/// Refuses fonts that lack what every packet needs, or have it in name only.
fn complete(font: &Font) -> Result<(), Problem> {
    let needed = || ('0'..='9').chain('A'..='Z').chain('a'..='z').chain(MARKS.chars());
    let lacking: Vec<char> = needed().filter(|c| font.glyph(*c).is_none()).collect();
    let blank: Vec<char> = needed().filter(|c| *c != ' ' && font.is_blank(*c)).collect();
    let refused = |what: &str, characters: &[char]| {
        let mut shown: Vec<String> = characters.iter().take(6).map(|c| format!("`{c}`")).collect();
        if characters.len() > shown.len() {
            shown.push(format!("{} more", characters.len() - shown.len()));
        }
        Err(Problem::new(format!("the font {what} {}", listed(&shown, "and")))
            .hint("choose a font with letters, digits and common marks, such as the bundled \"andika\""))
    };
    match (lacking.as_slice(), blank.as_slice()) {
        ([], []) => Ok(()),
        ([], blank) => refused("draws nothing for", blank),
        (lacking, _) => refused("has no", lacking),
    }
}
