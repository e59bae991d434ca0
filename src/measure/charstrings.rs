//! How many steps the outlines of a CFF font take to draw, found out without drawing them.
//!
//! In: the table `CFF ` and the glyphs that matter. Out: the steps, or `None` where there is no end of them or the table
//! makes no sense. A charstring is a small program whose subroutines call each other ten deep, so three kilobytes can ask
//! for years. The formats are those of Adobe's technical notes 5176 (CFF) and 5177 (charstrings).

use super::bytes::word;

/// Subroutines inside subroutines.
const DEEP: u32 = 10;
/// Numbers that a charstring can have on its stack: ten times what the format allows.
const STACK: usize = 480;

/// The steps that drawing these glyphs takes together; `None` when they are more than `most`, or cannot be told.
pub fn steps(table: &[u8], glyphs: impl IntoIterator<Item = u16>, most: u64) -> Option<u64> {
    let font = Font::read(table)?;
    let mut run = Run { font: &font, locals: None, left: most, stack: Vec::new(), stems: 0 };
    for glyph in glyphs {
        run.stack.clear();
        run.stems = 0;
        run.locals = font.locals(glyph);
        if let Some(code) = font.glyphs.get(usize::from(glyph)) {
            run.go(code, 0).ok()?;
        }
    }
    Some(most - run.left)
}

/// The parts of a font that say how many steps its glyphs take.
struct Font<'a> {
    glyphs: Index<'a>,
    global: Index<'a>,
    /// The local subroutines of each part of the font; most fonts have one part.
    local: Vec<Option<Index<'a>>>,
    /// Which part each glyph belongs to.
    select: &'a [u8],
}

impl<'a> Font<'a> {
    fn read(table: &'a [u8]) -> Option<Self> {
        let names = Index::at(table, usize::from(*table.get(2)?))?;
        let tops = Index::at(table, names.end)?;
        let strings = Index::at(table, tops.end)?;
        let global = Index::at(table, strings.end)?;
        let top = tops.get(0)?;
        let offset = |operator| usize::try_from(*operands(top, operator)?.last()?).ok();
        let glyphs = Index::at(table, offset(CHARSTRINGS)?)?;
        let (local, select) = match offset(PARTS) {
            Some(at) => {
                let parts = Index::at(table, at)?;
                let local = (0..parts.count).map(|part| private(table, parts.get(part)?)).collect();
                (local, table.get(offset(SELECT)?..)?)
            }
            None => (vec![private(table, top)], &[][..]),
        };
        Some(Self { glyphs, global, local, select })
    }

    /// The local subroutines of a glyph.
    fn locals(&self, glyph: u16) -> Option<Index<'a>> {
        let glyph = usize::from(glyph);
        let part = match self.select.first() {
            None => 0,
            Some(0) => *self.select.get(1 + glyph)?,
            // Ranges: the first glyph of each and its part, then the end of the last.
            _ => {
                let ranges = usize::from(word(self.select, 1)?);
                let first = |k: usize| word(self.select, 3 + 3 * k).map(usize::from);
                let range = (0..ranges).take_while(|k| first(*k).is_some_and(|first| first <= glyph)).last()?;
                *self.select.get(5 + 3 * range)?
            }
        };
        *self.local.get(usize::from(part))?
    }
}

const CHARSTRINGS: u16 = 17;
const PRIVATE: u16 = 18;
const SUBROUTINES: u16 = 19;
/// Operators of two bytes begin with 12.
const PARTS: u16 = 12 * 256 + 36;
const SELECT: u16 = 12 * 256 + 37;

/// The local subroutines that a dictionary's private part names.
fn private<'a>(table: &'a [u8], dictionary: &[u8]) -> Option<Index<'a>> {
    let numbers = operands(dictionary, PRIVATE)?;
    let [size, at] = numbers.as_slice() else { return None };
    let (size, at) = (usize::try_from(*size).ok()?, usize::try_from(*at).ok()?);
    let private = table.get(at..at.checked_add(size)?)?;
    let subroutines = usize::try_from(*operands(private, SUBROUTINES)?.last()?).ok()?;
    Index::at(table, at.checked_add(subroutines)?)
}

/// What stands before an operator in a dictionary.
fn operands(dictionary: &[u8], wanted: u16) -> Option<Vec<i32>> {
    let (mut at, mut numbers) = (0, Vec::new());
    while let Some(&byte) = dictionary.get(at) {
        at += 1;
        match byte {
            0..=21 => {
                let mut operator = u16::from(byte);
                if byte == 12 {
                    operator = 12 * 256 + u16::from(*dictionary.get(at)?);
                    at += 1;
                }
                if operator == wanted {
                    return Some(numbers);
                }
                numbers.clear();
            }
            29 => {
                let four = dictionary.get(at..)?.first_chunk()?;
                numbers.push(i32::from_be_bytes(*four));
                at += 4;
            }
            // A decimal number, two digits a byte, up to one that ends it.
            30 => {
                while dictionary.get(at)? & 0xf != 0xf {
                    at += 1;
                }
                at += 1;
                numbers.push(0);
            }
            _ => {
                let (number, length) = number(byte, dictionary.get(at..)?)?;
                numbers.push(number);
                at += length;
            }
        }
    }
    None
}

/// A whole number that begins with `byte`, and how many of the bytes behind it belong to it.
fn number(byte: u8, rest: &[u8]) -> Option<(i32, usize)> {
    let first = i32::from(byte);
    let second = || rest.first().copied().map(i32::from);
    match byte {
        28 => Some((i32::from(word(rest, 0)?.cast_signed()), 2)),
        32..=246 => Some((first - 139, 0)),
        247..=250 => Some(((first - 247) * 256 + second()? + 108, 1)),
        251..=254 => Some((-(first - 251) * 256 - second()? - 108, 1)),
        _ => None,
    }
}

/// A list of CFF: how many items, how wide an offset is, the offsets, the data.
#[derive(Clone, Copy)]
struct Index<'a> {
    count: usize,
    width: usize,
    offsets: &'a [u8],
    data: &'a [u8],
    /// Where the next thing in the table begins.
    end: usize,
}

impl<'a> Index<'a> {
    fn at(table: &'a [u8], at: usize) -> Option<Self> {
        let count = usize::from(word(table, at)?);
        if count == 0 {
            return Some(Self { count, width: 1, offsets: &[], data: &[], end: at + 2 });
        }
        let width = usize::from(*table.get(at + 2)?);
        let data = at + 3 + (count + 1) * width;
        let offsets = table.get(at + 3..data).filter(|_| (1..=4).contains(&width))?;
        let mut index = Self { count, width, offsets, data: table.get(data..)?, end: 0 };
        index.end = data + index.offset(count)?;
        Some(index)
    }

    /// The place of an item in the data; offsets count from 1.
    fn offset(&self, item: usize) -> Option<usize> {
        let bytes = self.offsets.get(item * self.width..(item + 1) * self.width)?;
        bytes.iter().fold(0, |sum, byte| sum << 8 | usize::from(*byte)).checked_sub(1)
    }

    fn get(&self, item: usize) -> Option<&'a [u8]> {
        self.data.get(self.offset(item)?..self.offset(item.checked_add(1)?)?)
    }

    /// The subroutine that a charstring calls by this number.
    fn called(&self, number: i32) -> Option<&'a [u8]> {
        let bias = match self.count {
            0..1_240 => 107,
            1_240..33_900 => 1_131,
            _ => 32_768,
        };
        self.get(usize::try_from(number + bias).ok()?)
    }
}

/// Goes through charstrings for their calls; what they draw is passed over.
struct Run<'a> {
    font: &'a Font<'a>,
    locals: Option<Index<'a>>,
    left: u64,
    stack: Vec<i32>,
    /// How many stems were declared: it says how long the masks are.
    stems: usize,
}

/// There are no more steps left.
struct Endless;

impl Run<'_> {
    /// Whether the glyph ends here: at its end, or where it makes no sense and is not drawn.
    fn go(&mut self, code: &[u8], depth: u32) -> Result<bool, Endless> {
        let mut at = 0;
        while let Some(&byte) = code.get(at) {
            self.left = self.left.checked_sub(1).ok_or(Endless)?;
            at += 1;
            match byte {
                10 | 29 => {
                    let list = if byte == 10 { self.locals } else { Some(self.font.global) };
                    let called = list.and_then(|list| list.called(self.stack.pop()?));
                    let Some(called) = called.filter(|_| depth < DEEP) else { return Ok(true) };
                    if self.go(called, depth + 1)? {
                        return Ok(true);
                    }
                }
                11 => return Ok(false),
                14 => return Ok(true),
                // Stems; a mask may stand in for the last of them.
                1 | 3 | 18 | 23 | 19 | 20 => {
                    self.stems += self.stack.len() / 2;
                    self.stack.clear();
                    if matches!(byte, 19 | 20) {
                        at += self.stems.div_ceil(8);
                    }
                }
                12 => {
                    at += 1;
                    self.stack.clear();
                }
                255 => {
                    let Some(four) = code.get(at..).and_then(<[u8]>::first_chunk) else { return Ok(true) };
                    self.stack.push(i32::from_be_bytes(*four) / 65_536);
                    at += 4;
                }
                0..=27 | 30..=31 => self.stack.clear(),
                _ => {
                    let Some((number, length)) = code.get(at..).and_then(|rest| number(byte, rest)) else {
                        return Ok(true);
                    };
                    self.stack.push(number);
                    at += length;
                }
            }
            if self.stack.len() > STACK {
                return Ok(true);
            }
        }
        Ok(false)
    }
}
