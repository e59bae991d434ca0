//! Fonts cut down to a few glyphs.
//!
//! In: a font file and the glyphs that are shown. Out: a font file that has these alone, without what only a screen or a
//! shaper reads: hints make up half of a cut font, and no printer is coarse enough to use them.

use std::borrow::Cow;
use std::collections::BTreeMap;

use allsorts::binary::read::{ReadArrayCow, ReadScope};
use allsorts::binary::write::{WriteBinary, WriteBuffer};
use allsorts::cff::{CFF, CFFVariant, Charset, CustomCharset, Range};
use allsorts::error::ParseError;
use allsorts::subset::{CmapTarget, SubsetProfile, subset, whole_font};
use allsorts::tables::{FontTableProvider, OffsetTableFontProvider, OpenTypeFont};
use allsorts::tag;

use super::bytes::{long, word};
use super::checks::WANTED;
use crate::diag::Problem;

/// The tables that a font program in a PDF needs besides its outlines (ISO 32000-1, 9.9).
const TABLES: [u32; 4] = [tag::HEAD, tag::HHEA, tag::HMTX, tag::MAXP];

/// A font with these glyphs alone, numbered from 1 in this order; those that they are made of follow. Glyph 0 shows what a
/// font lacks. A glyph may be named twice.
pub fn cut(font: &[u8], glyphs: impl IntoIterator<Item = u16>) -> Result<Vec<u8>, Problem> {
    let glyphs: Vec<u16> = std::iter::once(0).chain(glyphs).collect();
    let broken =
        |error: String| Problem::new(format!("the font is broken and cannot be embedded: {error}")).hint(WANTED);
    let source = Source(provider(font).map_err(|error| broken(error.to_string()))?);
    let profile = SubsetProfile::Custom(TABLES.to_vec());
    let cut = subset(&source, &glyphs, &profile, CmapTarget::Unicode).map_err(|error| broken(error.to_string()))?;
    bare(&cut).map_err(broken)
}

fn provider(font: &[u8]) -> Result<OffsetTableFontProvider<'_>, ParseError> {
    ReadScope::new(font).read::<OpenTypeFont<'_>>()?.table_provider(0)
}

/// A font as it is read. The cutter asks for a table that no cut font keeps, and fonts without it are given one that says
/// nothing; it prefers outlines of a kind that PDF files cannot hold, and does not see them where there are others.
struct Source<'a>(OffsetTableFontProvider<'a>);

/// Table `post`, version 3: 32 bytes that say nothing of the names of glyphs.
const POST: [u8; 32] = {
    let mut table = [0; 32];
    table[1] = 3;
    table
};

impl FontTableProvider for Source<'_> {
    fn table_data(&self, tag: u32) -> Result<Option<Cow<'_, [u8]>>, ParseError> {
        match tag {
            tag::POST => Ok(Some(Cow::Borrowed(&POST))),
            tag::CFF2 => Ok(None),
            _ => self.0.table_data(tag),
        }
    }

    fn has_table(&self, tag: u32) -> bool {
        tag == tag::POST || tag != tag::CFF2 && self.0.has_table(tag)
    }

    fn table_tags(&self) -> Option<Vec<u32>> {
        self.0.table_tags()
    }
}

/// The tables of the font to be written.
#[derive(Default)]
struct Tables(BTreeMap<u32, Vec<u8>>);

impl FontTableProvider for Tables {
    fn table_data(&self, tag: u32) -> Result<Option<Cow<'_, [u8]>>, ParseError> {
        Ok(self.0.get(&tag).map(|table| Cow::Borrowed(table.as_slice())))
    }

    fn has_table(&self, tag: u32) -> bool {
        self.0.contains_key(&tag)
    }

    fn table_tags(&self) -> Option<Vec<u32>> {
        Some(self.0.keys().copied().collect())
    }
}

/// A cut font with the tables that count, and without hints.
fn bare(cut: &[u8]) -> Result<Vec<u8>, String> {
    let source = provider(cut).map_err(|error| error.to_string())?;
    let table = |tag| source.read_table_data(tag).map_err(|error| error.to_string());
    let mut tables = Tables::default();
    for tag in TABLES {
        tables.0.insert(tag, table(tag)?.into_owned());
    }
    if source.has_table(tag::CFF) {
        tables.0.insert(tag::CFF, numbered(&table(tag::CFF)?)?);
    } else {
        // Table `head` says at byte 50 how the places of glyphs are written.
        let wide = word(&tables.0[&tag::HEAD], 50) == Some(1);
        let (glyphs, places) = unhinted(&table(tag::GLYF)?, &table(tag::LOCA)?, wide);
        tables.0.insert(tag::GLYF, glyphs);
        tables.0.insert(tag::LOCA, places);
    }
    let tags: Vec<u32> = tables.0.keys().copied().collect();
    whole_font(&tables, &tags).map_err(|error| error.to_string())
}

/// Outlines of the kind CFF whose glyphs are called by their place: a font for East Asian scripts calls them by numbers of
/// its own, which page streams would have to use.
fn numbered(outlines: &[u8]) -> Result<Vec<u8>, String> {
    let mut cff = ReadScope::new(outlines).read::<CFF<'_>>().map_err(|error| error.to_string())?;
    let Some(font) = cff.fonts.first_mut().filter(|font| matches!(font.data, CFFVariant::CID(_))) else {
        return Ok(outlines.to_vec());
    };
    let others = u16::try_from(font.char_strings_index.len().saturating_sub(2)).unwrap_or(u16::MAX);
    let all = Range { first: 1, n_left: others };
    font.charset = Charset::Custom(CustomCharset::Format2 { ranges: ReadArrayCow::Owned(vec![all]) });
    let mut out = WriteBuffer::new();
    CFF::write(&mut out, &cff).map_err(|error| error.to_string())?;
    Ok(out.into_inner())
}

/// The tables `glyf` and `loca` without instructions (OpenType specification).
fn unhinted(glyphs: &[u8], places: &[u8], wide: bool) -> (Vec<u8>, Vec<u8>) {
    let at = |k: usize| {
        let at = if wide { long(places, k * 4)? } else { u32::from(word(places, k * 2)?) * 2 };
        usize::try_from(at).ok()
    };
    let (mut out, mut new_places) = (Vec::with_capacity(glyphs.len()), Vec::with_capacity(places.len()));
    let mut note = |out: &[u8]| {
        if wide {
            new_places.extend_from_slice(&u32::try_from(out.len()).unwrap_or(u32::MAX).to_be_bytes());
        } else {
            new_places.extend_from_slice(&u16::try_from(out.len() / 2).unwrap_or(u16::MAX).to_be_bytes());
        }
    };
    for k in 0.. {
        note(&out);
        let Some((from, to)) = at(k).zip(at(k + 1)) else { break };
        let glyph = glyphs.get(from..to).unwrap_or(&[]);
        match word(glyph, 0).map(u16::cast_signed) {
            Some(contours @ 0..) => simple(glyph, usize::from(contours.unsigned_abs()), &mut out),
            Some(_) => composite(glyph, &mut out),
            None => {}
        }
        if !wide && out.len() % 2 == 1 {
            out.push(0);
        }
    }
    (out, new_places)
}

/// A glyph with contours: after the numbers of their last points stands how many bytes of instructions follow.
fn simple(glyph: &[u8], contours: usize, out: &mut Vec<u8>) {
    let at = 10 + contours * 2;
    let Some(rest) = word(glyph, at).and_then(|hints| glyph.get(at + 2 + usize::from(hints)..)) else {
        return out.extend_from_slice(glyph);
    };
    out.extend_from_slice(&glyph[..at]);
    out.extend_from_slice(&[0, 0]);
    out.extend_from_slice(rest);
}

/// A glyph made of others: instructions follow the last of them, and each says whether there are any.
fn composite(glyph: &[u8], out: &mut Vec<u8>) {
    const WORDS: u16 = 0x1;
    const SCALE: u16 = 0x8;
    const MORE: u16 = 0x20;
    const TWO_SCALES: u16 = 0x40;
    const TWO_BY_TWO: u16 = 0x80;
    const HINTED: u16 = 0x100;
    let start = out.len();
    out.extend_from_slice(glyph);
    let mut at = 10;
    while let Some(flags) = word(glyph, at) {
        out[start + at..start + at + 2].copy_from_slice(&(flags & !HINTED).to_be_bytes());
        at += if flags & WORDS == 0 { 6 } else { 8 };
        at += match flags & (SCALE | TWO_SCALES | TWO_BY_TWO) {
            SCALE => 2,
            TWO_SCALES => 4,
            0 => 0,
            _ => 8,
        };
        if flags & MORE == 0 {
            break;
        }
    }
    out.truncate((start + at).min(out.len()));
}
