//! Characters to the codes that stand for them in page streams, and which characters a file uses.
//!
//! ASCII stands for itself, so that page streams can be read and deflate well. Every other character has a code of two
//! bytes from its place in the font, or three in a font with more than 32,512 characters. The codes do not depend on what
//! else a file says, so pages can be written before the fonts are cut.

use std::ops::Range;

use crate::diag::Problem;
use crate::measure::{Family, Font, Weight};
use crate::pdf::failure::internal;

/// The first code of two bytes.
const TWO: usize = 0x8000;
/// How many characters have two-byte codes: 0x8000..=0xFEFF.
const TWO_COUNT: usize = 0x7F00;

/// A code in a page stream: its value and how many bytes it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Code {
    /// 1, 2 or 3 bytes; shorter codes sort first.
    pub bytes: u8,
    /// The value.
    pub value: u32,
}

impl Code {
    /// The code of a character at a place in its font's list; `None` past the last code there is.
    fn of(character: char, index: usize) -> Option<Self> {
        if matches!(character, ' '..='~') {
            return Some(Self { bytes: 1, value: u32::from(character) });
        }
        let code = |bytes, value: usize| u32::try_from(value).ok().map(|value| Self { bytes, value });
        match index.checked_sub(TWO_COUNT) {
            None => code(2, TWO + index),
            Some(past) if past <= 0xFFFF => code(3, 0xFF_0000 + past),
            Some(_) => None,
        }
    }

    /// Its bytes.
    pub fn to_bytes(self) -> impl Iterator<Item = u8> {
        self.value.to_be_bytes().into_iter().skip(4 - usize::from(self.bytes))
    }
}

/// The ranges of codes that a file's character maps declare, by their length in bytes. The first is wider than ASCII's
/// printable part because one reader looks the numbers of glyphs up in it too, and finds fault if they lie outside.
pub const CODES: [(u8, Range<u32>); 3] = [(1, 0x00..0x80), (2, 0x8000..0xFF00), (3, 0xFF_0000..0x100_0000)];

/// The fonts of a file, ready to set text.
pub struct Faces<'a> {
    faces: Vec<Face<'a>>,
    /// Which face is the bold one: 0 when a family has a single file.
    bold: usize,
}

struct Face<'a> {
    font: &'a Font,
    /// For each ASCII character its place in the font's list.
    ascii: [Option<usize>; 128],
}

impl<'a> Faces<'a> {
    /// The faces of a family.
    pub fn new(family: &'a Family) -> Self {
        let mut faces = vec![Face::new(&family.regular)];
        if family.regular.bytes() != family.bold.bytes() {
            faces.push(Face::new(&family.bold));
        }
        Self { bold: faces.len() - 1, faces }
    }

    /// The fonts in the order of their slots.
    pub fn fonts(&self) -> impl Iterator<Item = &'a Font> {
        self.faces.iter().map(|face| face.font)
    }

    /// The slot of a weight's font: its number in the names F0, F1 of page streams.
    pub fn slot(&self, weight: Weight) -> usize {
        match weight {
            Weight::Regular => 0,
            Weight::Bold => self.bold,
        }
    }

    /// Writes a text as a literal string of codes, with a space behind it if it is to be `spaced`, and notes its characters
    /// as used.
    pub fn encode(
        &self,
        slot: usize,
        text: &str,
        spaced: bool,
        out: &mut Vec<u8>,
        used: &mut Used,
    ) -> Result<(), Problem> {
        let face = self.faces.get(slot).ok_or_else(|| internal("a font has no slot"))?;
        out.push(b'(');
        let space = (spaced && !text.ends_with(' ') && face.index(' ').is_some()).then_some(' ');
        for character in text.chars().chain(space) {
            let index = face.index(character).ok_or_else(|| missing(text, character))?;
            used.note(slot, index);
            let code = Code::of(character, index).ok_or_else(|| missing(text, character))?;
            for byte in code.to_bytes() {
                match byte {
                    b'(' | b')' | b'\\' => out.extend_from_slice(&[b'\\', byte]),
                    b'\r' => out.extend_from_slice(b"\\r"),
                    _ => out.push(byte),
                }
            }
        }
        out.push(b')');
        Ok(())
    }
}

impl<'a> Face<'a> {
    fn new(font: &'a Font) -> Self {
        let mut ascii = [None; 128];
        for (slot, character) in ascii.iter_mut().zip('\0'..) {
            *slot = font.index(character);
        }
        Self { font, ascii }
    }

    fn index(&self, character: char) -> Option<usize> {
        match self.ascii.get(character as usize) {
            Some(index) => *index,
            None => self.font.index(character),
        }
    }
}

fn missing(text: &str, character: char) -> Problem {
    Problem::new(format!("the font has no `{}` (U+{:04X}), needed for `{text}`", character, u32::from(character)))
        .hint("choose a font that has it, such as the bundled \"andika\"")
}

/// Which characters each font has to show.
#[derive(Debug, Clone, Default)]
pub struct Used {
    /// For each slot a bit for each place of the font's list.
    slots: Vec<Vec<u64>>,
}

impl Used {
    fn note(&mut self, slot: usize, index: usize) {
        if self.slots.len() <= slot {
            self.slots.resize(slot + 1, Vec::new());
        }
        let bits = &mut self.slots[slot];
        if bits.len() <= index / 64 {
            bits.resize(index / 64 + 1, 0);
        }
        bits[index / 64] |= 1 << (index % 64);
    }

    /// Adds what `other` uses. The order of additions makes no difference.
    pub fn add(&mut self, other: &Self) {
        for (slot, bits) in other.slots.iter().enumerate() {
            for index in places(bits) {
                self.note(slot, index);
            }
        }
    }

    /// The characters, codes and glyphs that a font has to show, in the order of their codes.
    pub fn glyphs(&self, slot: usize, font: &Font) -> Vec<(Code, char, crate::measure::Glyph)> {
        let bits = self.slots.get(slot).map_or(&[][..], Vec::as_slice);
        let mut glyphs: Vec<_> = places(bits)
            .filter_map(|index| {
                let (character, glyph) = font.listed(index)?;
                Some((Code::of(character, index)?, character, glyph))
            })
            .collect();
        glyphs.sort_unstable_by_key(|(code, ..)| *code);
        glyphs
    }
}

fn places(bits: &[u64]) -> impl Iterator<Item = usize> {
    bits.iter()
        .enumerate()
        .flat_map(|(k, word)| (0..64).filter(move |bit| word >> bit & 1 == 1).map(move |b| k * 64 + b))
}
