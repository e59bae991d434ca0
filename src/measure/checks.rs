//! Whether a font file may and can be used: what it says of embedding, and what it is made of.
//!
//! In: the bytes of a file that a lesson names. Out: nothing, or the reason in plain words. The flags are those of the
//! OpenType specification, table OS/2, field `fsType`.

use ttf_parser::{Face, Permissions};

use crate::diag::Problem;

/// What is said to whoever has the wrong kind of file.
pub const WANTED: &str =
    "expected a TTF or OTF file with outlines, such as the static files that come with most families";

/// Refuses files that are no single desktop font, before anything is read from them.
pub fn file(bytes: &[u8]) -> Result<(), Problem> {
    let what = match bytes.get(..4) {
        Some(b"ttcf") => "the font file is a collection of several fonts",
        Some(b"wOFF" | b"wOF2") => "the font file is packed for the web (WOFF)",
        Some([0x80, 1, ..] | b"%!PS" | b"%!Fo") => "the font file is a Type 1 font, which is too old to embed",
        Some([0, 1, 0, 0] | b"true" | b"OTTO") => return Ok(()),
        _ => "the file is not a font",
    };
    Err(Problem::new(what).hint(WANTED))
}

/// Refuses fonts that forbid embedding or have no fixed outlines.
pub fn face(face: &Face<'_>) -> Result<(), Problem> {
    let says_no = |what: &str| {
        Err(Problem::new(format!("the font's licence flags forbid {what}"))
            .hint("choose a font that may be embedded in documents, such as the bundled \"andika\""))
    };
    if face.tables().os2.is_some() {
        if face.permissions() == Some(Permissions::Restricted) {
            return says_no("embedding (fsType: restricted)");
        }
        if !face.is_subsetting_allowed() {
            return says_no("embedding a part of it (fsType: no subsetting)");
        }
        if !face.is_outline_embedding_allowed() {
            return says_no("embedding its outlines (fsType: bitmaps only)");
        }
    }
    if face.is_variable() || face.tables().gvar.is_some() {
        return Err(Problem::new("the font is variable: one file for many weights").hint(WANTED));
    }
    let tables = face.tables();
    if tables.cff2.is_some() && tables.glyf.is_none() && tables.cff.is_none() {
        return Err(Problem::new("the font's outlines are of a kind (CFF2) that PDF files cannot hold").hint(WANTED));
    }
    if tables.glyf.is_none() && tables.cff.is_none() {
        return Err(Problem::new("the font has no outlines: it holds only pictures of glyphs").hint(WANTED));
    }
    Ok(())
}
