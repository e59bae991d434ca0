//! How much work a font's tables ask for, found out before any of it is done.
//!
//! In: a font file's tables. Out: nothing, or the reason why it is refused. A few bytes can ask for years: a range of
//! characters is written as its two ends, and a glyph made of glyphs may name the same one over and over. The layouts
//! are those of the OpenType specification, tables `cmap`, `loca` and `glyf`.

use ttf_parser::{Face, Tag};

use super::bytes::{long, word};
use super::charstrings;
use crate::diag::Problem;
use crate::measure::Count;

/// Characters in all the maps of a font together: each of Unicode's code points a few times over.
const CHARACTERS: u64 = 4 * 0x11_0000;
/// Maps of characters in a font; common fonts have two to five.
const MAPS: usize = 32;
/// Points in the outlines of all glyphs of a font together, each glyph with all that it is made of. The largest fonts that
/// there can be have 65,535 glyphs; a hundred points is usual for a rich one.
const POINTS: u64 = 40_000_000;
/// Glyphs inside glyphs inside glyphs.
const DEEP: usize = 16;

/// Refuses character maps that list more characters than there are.
pub fn map(face: &Face<'_>) -> Result<(), Problem> {
    let table = face.raw_face().table(Tag::from_bytes(b"cmap")).unwrap_or(&[]);
    let maps = usize::from(word(table, 2).unwrap_or(0));
    if maps > MAPS {
        return Err(broken(&format!("it has {maps} character maps, and at most {MAPS} are read")));
    }
    let mut characters = 0_u64;
    for map in 0..maps {
        let Some(at) = long(table, 4 + map * 8 + 4).and_then(|at| usize::try_from(at).ok()) else { continue };
        characters += listed(table.get(at..).unwrap_or(&[]))?;
        if characters > CHARACTERS {
            return Err(broken("its character map lists more characters than there are"));
        }
    }
    Ok(())
}

/// How many characters a map lists, counting empty ranges too: they are gone through as well.
fn listed(map: &[u8]) -> Result<u64, Problem> {
    let span = |from: u32, to: u32| u64::from(to.saturating_sub(from)) + 1;
    match word(map, 0) {
        Some(4) => {
            let segments = usize::from(word(map, 6).unwrap_or(0) / 2);
            let ends = (0..segments).map_while(|k| word(map, 14 + k * 2));
            let starts = (0..segments).map_while(|k| word(map, 16 + segments * 2 + k * 2));
            Ok(starts.zip(ends).map(|(from, to)| span(from.into(), to.into())).sum())
        }
        Some(12) => {
            let groups = long(map, 12).unwrap_or(0).index();
            let ends = |k: usize| Some((long(map, 16 + k * 12)?, long(map, 16 + k * 12 + 4)?));
            Ok((0..groups).map_while(ends).map(|(from, to)| span(from, to)).fold(0, u64::saturating_add))
        }
        Some(13) => Err(broken("it shows one glyph for many characters, to say that it lacks them")),
        // The other kinds hold an entry for each character.
        _ => Ok(0),
    }
}

/// Refuses outlines that are too much to measure: those of `glyphs` and of all that they are made of.
pub fn outlines(face: &Face<'_>, glyphs: impl IntoIterator<Item = u16>) -> Result<(), Problem> {
    let table = |tag| face.raw_face().table(Tag::from_bytes(tag));
    let Some((glyf, loca)) = table(b"glyf").zip(table(b"loca")) else {
        let many = || broken("its outlines take too many steps to draw");
        let drawn = table(b"CFF ").map(|cff| charstrings::steps(cff, glyphs, POINTS).ok_or_else(many));
        return drawn.transpose().map(|_| ());
    };
    let wide = face.tables().head.index_to_location_format == ttf_parser::head::IndexToLocationFormat::Long;
    let mut outlines = Outlines { glyf, loca, wide, known: vec![None; usize::from(u16::MAX) + 1] };
    let mut points = 0_u64;
    for glyph in glyphs {
        points = points.saturating_add(outlines.points(glyph, 0)?);
        if points > POINTS {
            return Err(broken("its outlines have too many points"));
        }
    }
    Ok(())
}

/// The outlines of a font's glyphs.
struct Outlines<'a> {
    glyf: &'a [u8],
    loca: &'a [u8],
    wide: bool,
    /// The points of glyphs that were looked at already.
    known: Vec<Option<u64>>,
}

impl<'a> Outlines<'a> {
    /// The points of a glyph with all that it is made of, at least 1.
    fn points(&mut self, glyph: u16, depth: usize) -> Result<u64, Problem> {
        if depth > DEEP {
            return Err(broken("a glyph is made of glyphs that are made of glyphs, and so on without an end"));
        }
        if let Some(points) = self.known[usize::from(glyph)] {
            return Ok(points);
        }
        let data = self.data(glyph);
        let points = match word(data, 0).map(u16::cast_signed) {
            Some(contours @ 1..) => {
                // The last of the numbers that say where each contour ends.
                let last = 10 + (usize::from(contours.unsigned_abs()) - 1) * 2;
                word(data, last).map_or(1, u64::from) + 1
            }
            Some(i16::MIN..=-1) => {
                let mut points = 1_u64;
                for part in Parts(data.get(10..).unwrap_or(&[])) {
                    points = points.saturating_add(self.points(part, depth + 1)?);
                }
                points
            }
            _ => 1,
        };
        self.known[usize::from(glyph)] = Some(points);
        Ok(points)
    }

    /// The bytes of a glyph; none where there are none.
    fn data(&self, glyph: u16) -> &'a [u8] {
        let at = |k: usize| {
            let at = if self.wide { long(self.loca, k * 4)? } else { u32::from(word(self.loca, k * 2)?) * 2 };
            usize::try_from(at).ok()
        };
        let glyph = usize::from(glyph);
        let range = at(glyph).zip(at(glyph + 1));
        range.and_then(|(from, to)| self.glyf.get(from..to)).unwrap_or(&[])
    }
}

/// The glyphs that a glyph is made of.
struct Parts<'a>(&'a [u8]);

impl Iterator for Parts<'_> {
    type Item = u16;

    fn next(&mut self) -> Option<u16> {
        let (flags, glyph) = (word(self.0, 0)?, word(self.0, 2)?);
        let mut bytes = 4;
        // `ttf_parser` passes over the two numbers only where they are distances, and what it reads is what counts.
        if flags & 0x2 != 0 {
            bytes += if flags & 0x1 != 0 { 4 } else { 2 };
        }
        bytes += match flags {
            two_by_two if two_by_two & 0x80 != 0 => 8,
            both if both & 0x40 != 0 => 4,
            one if one & 0x8 != 0 => 2,
            _ => 0,
        };
        self.0 = if flags & 0x20 != 0 { self.0.get(bytes..).unwrap_or(&[]) } else { &[] };
        Some(glyph)
    }
}

fn broken(why: &str) -> Problem {
    Problem::new(format!("the font is broken and cannot be used: {why}")).hint(super::checks::WANTED)
}
