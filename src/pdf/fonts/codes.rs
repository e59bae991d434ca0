//! Characters to the codes that stand for them in page streams, and which characters a file uses.
//!
//! A code has two bytes and is the number of the character's glyph in the cut font. Codes are given out in the order in
//! which characters are first met, so pages can be written before it is known what else a file says.

use std::collections::BTreeMap;

use crate::diag::Problem;
use crate::measure::{Family, Font, Glyph, Weight};
use crate::pdf::failure::internal;

/// The codes of a file's characters, font by font.
#[derive(Clone)]
pub struct Codes<'a> {
    fonts: Vec<Coded<'a>>,
    /// Which font is the bold one: 0 when a family has a single file.
    bold: usize,
}

/// A font and the codes of its characters.
#[derive(Clone)]
struct Coded<'a> {
    font: &'a Font,
    /// For each ASCII character its code; 0 for one that was not met yet.
    ascii: [u16; 128],
    others: BTreeMap<char, u16>,
    /// The characters in the order of their codes, which count from 1.
    characters: Vec<(char, Glyph)>,
}

impl<'a> Codes<'a> {
    /// The fonts of a family, whose characters have no codes yet.
    pub fn new(family: &'a Family) -> Self {
        let mut fonts = vec![Coded::new(&family.regular)];
        if family.regular.bytes() != family.bold.bytes() {
            fonts.push(Coded::new(&family.bold));
        }
        Self { bold: fonts.len() - 1, fonts }
    }

    /// The slot of a weight's font: its number in the names F0, F1 of page streams.
    pub fn slot(&self, weight: Weight) -> usize {
        match weight {
            Weight::Regular => 0,
            Weight::Bold => self.bold,
        }
    }

    /// Whether every character of a text has a code.
    pub fn know(&self, weight: Weight, text: &str) -> bool {
        let font = &self.fonts[self.slot(weight)];
        text.chars().all(|character| font.code(character).is_some())
    }

    /// Gives codes to the characters of a text that have none.
    pub fn learn(&mut self, weight: Weight, text: &str) -> Result<(), Problem> {
        let slot = self.slot(weight);
        let font = &mut self.fonts[slot];
        if font.characters.is_empty() {
            // Lines of one thing said are kept apart by a space.
            let _ = font.learn(' ');
        }
        text.chars().try_for_each(|character| font.learn(character).ok_or_else(|| missing(text, character)))
    }

    /// Gives codes to those of these characters that a font has, in every font that shows something.
    pub fn offer(&mut self, characters: &str) {
        for font in self.fonts.iter_mut().filter(|font| !font.characters.is_empty()) {
            for character in characters.chars() {
                // What a font lacks is told where it is needed.
                let _ = font.learn(character);
            }
        }
    }

    /// Writes a text whose characters have codes as a literal string, with a space behind it if it is to be `spaced`.
    pub fn encode(&self, slot: usize, text: &str, spaced: bool, out: &mut Vec<u8>) -> Result<(), Problem> {
        let font = self.fonts.get(slot).ok_or_else(|| internal("a font has no slot"))?;
        out.push(b'(');
        let space = (spaced && !text.ends_with(' ') && font.code(' ').is_some()).then_some(' ');
        for character in text.chars().chain(space) {
            let code = font.code(character).ok_or_else(|| internal("a character has no code"))?;
            for byte in code.to_be_bytes() {
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

    /// The fonts in the order of their slots, each with the characters that it shows in the order of their codes, from 1.
    pub fn fonts(&self) -> impl Iterator<Item = (&'a Font, &[(char, Glyph)])> {
        self.fonts.iter().map(|coded| (coded.font, coded.characters.as_slice()))
    }
}

impl<'a> Coded<'a> {
    fn new(font: &'a Font) -> Self {
        Self { font, ascii: [0; 128], others: BTreeMap::new(), characters: Vec::new() }
    }

    fn code(&self, character: char) -> Option<u16> {
        match self.ascii.get(character as usize) {
            Some(0) => None,
            Some(code) => Some(*code),
            None => self.others.get(&character).copied(),
        }
    }

    /// Gives a character a code unless it has one; `None` where the font lacks it, or has no code left.
    fn learn(&mut self, character: char) -> Option<()> {
        if self.code(character).is_some() {
            return Some(());
        }
        let glyph = self.font.glyph(character)?;
        let code = u16::try_from(self.characters.len() + 1).ok()?;
        match self.ascii.get_mut(character as usize) {
            Some(place) => *place = code,
            None => {
                self.others.insert(character, code);
            }
        }
        self.characters.push((character, glyph));
        Some(())
    }
}

fn missing(text: &str, character: char) -> Problem {
    Problem::new(format!("the font has no `{}` (U+{:04X}), needed for `{text}`", character, u32::from(character)))
        .hint("choose a font that has it, such as the bundled \"andika\"")
}
