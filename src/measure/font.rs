//! Font bytes to widths and heights.
//!
//! In: the bytes of a TTF or OTF file. Out: how wide and how high a line of text is at a size. Text is set without kerning
//! or ligatures, here and in the PDF, so the width of a line is the sum of its advances.

use std::borrow::Cow;
use std::sync::{Arc, OnceLock};

use ttf_parser::GlyphId;

use super::{Length, Point, Rect, Size, checks, outline, work};
use crate::diag::Problem;

/// Regular or bold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// The text weight.
    Regular,
    /// The heavy weight.
    Bold,
}

/// A typeface in its two weights.
#[derive(Debug, Clone)]
pub struct Family {
    /// The text weight.
    pub regular: Font,
    /// The heavy weight; the same as regular where a lesson names a single file.
    pub bold: Font,
}

impl Family {
    /// The font of a weight.
    pub fn font(&self, weight: Weight) -> &Font {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }
}

/// The letters that stand highest and reach deepest.
const LETTERS: &str = "HbdfhkltgjpqyQ";

/// One font, measured.
#[derive(Debug, Clone)]
pub struct Font {
    /// The file; the bundled ones stay where they are in the program.
    bytes: Arc<Cow<'static, [u8]>>,
    per_em: i64,
    /// Above and below the base line, font units; `below` is positive.
    above: i64,
    below: i64,
    cap_height: i64,
    x_height: i64,
    /// The box around all glyphs `[x_min, y_min, x_max, y_max]`, font units, y up.
    bounds: [i64; 4],
    /// The PostScript name, or one made from the family's.
    name: Arc<str>,
    /// Character, glyph and advance in font units, sorted by character.
    glyphs: Arc<[(char, Glyph)]>,
    /// For each ASCII character its place in `glyphs`: nearly all that is set is ASCII.
    ascii: Arc<[Option<u32>; 128]>,
    /// For each ASCII character its advance in font units, nothing where the font lacks it.
    advances: Arc<[i64; 128]>,
    /// The ink of each ASCII character, [`NO_INK`] where nothing is drawn; found when a line's ink is first asked for.
    ascii_inks: Arc<OnceLock<[Ink; 128]>>,
    /// How far the letters of running text reach above and below the base line, font units; found when it is first asked for.
    strip: Arc<OnceLock<(i64, i64)>>,
    /// The ink of each of `glyphs`, found when it is first asked for: a page needs a few dozen of a font's thousands.
    inks: Arc<[OnceLock<Ink>]>,
    /// The outline of each of `glyphs`, likewise.
    outlines: Arc<[OnceLock<Box<str>>]>,
}

/// The box of a glyph's ink `[x_min, y_min, x_max, y_max]` in font units, y up; all 0 for a space.
type Ink = [i64; 4];

/// The ink of what draws nothing, so that it widens no other's box wherever the pen stands.
const NO_INK: Ink = [i64::MAX / 2, i64::MAX / 2, i64::MIN / 2, i64::MIN / 2];

/// One glyph's measures in font units, y up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Glyph {
    /// Its index in the font.
    pub id: u16,
    /// How far the pen moves.
    pub advance: i64,
}

impl Font {
    /// Reads a font. The bytes must be a single TTF or OTF with fixed outlines and a Unicode character map, and its
    /// licence flags must allow embedding.
    pub fn read(bytes: impl Into<Cow<'static, [u8]>>) -> Result<Self, Problem> {
        let bytes = Arc::new(bytes.into());
        checks::file(&bytes)?;
        let face = ttf_parser::Face::parse(&bytes, 0)
            .map_err(|error| Problem::new(format!("the font is broken and cannot be read: {error}")))?;
        checks::face(&face)?;
        let mapped = mapped(&face)?;
        work::outlines(&face, mapped.iter().map(|(_, id)| id.0))?;
        let glyphs: Arc<[_]> =
            mapped.into_iter().filter_map(|(character, id)| Some((character, glyph(&face, id)?))).collect();
        if glyphs.is_empty() {
            return Err(Problem::new("the font does not say which characters its glyphs stand for")
                .hint("expected a font with a Unicode character map (table cmap)"));
        }
        let capital = |character| face.glyph_index(character).and_then(|id| face.glyph_bounding_box(id));
        let heights = |given: Option<i16>, drawn: char| {
            i64::from(given.filter(|h| *h > 0).or_else(|| capital(drawn).map(|b| b.y_max)).unwrap_or(0))
        };
        let (cap_height, x_height) = (heights(face.capital_height(), 'H'), heights(face.x_height(), 'x'));
        let bounds = face.global_bounding_box();
        let (mut ascii, mut advances) = ([None; 128], [0; 128]);
        for (index, (character, glyph)) in (0..).zip(glyphs.iter()) {
            let at = *character as usize;
            if let (Some(slot), Some(advance)) = (ascii.get_mut(at), advances.get_mut(at)) {
                (*slot, *advance) = (Some(index), glyph.advance);
            }
        }
        Ok(Self {
            per_em: i64::from(face.units_per_em()),
            above: i64::from(face.ascender()),
            below: -i64::from(face.descender()),
            cap_height,
            x_height,
            bounds: [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(i64::from),
            name: name(&face).into(),
            ascii: Arc::new(ascii),
            advances: Arc::new(advances),
            ascii_inks: Arc::default(),
            strip: Arc::default(),
            inks: glyphs.iter().map(|_| OnceLock::new()).collect(),
            outlines: glyphs.iter().map(|_| OnceLock::new()).collect(),
            glyphs,
            bytes: Arc::clone(&bytes),
        })
    }

    /// The file's bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The name by which a PDF calls it: the PostScript name, ASCII without spaces.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Above the base line, below it (positive), the height of a capital and of a small x, in font units.
    pub fn heights(&self) -> [i64; 4] {
        [self.above, self.below, self.cap_height, self.x_height]
    }

    /// The box around all glyphs `[x_min, y_min, x_max, y_max]`, font units, y up.
    pub fn bounds(&self) -> [i64; 4] {
        self.bounds
    }

    /// Font units to the em.
    pub fn per_em(&self) -> i64 {
        self.per_em
    }

    /// The glyph of a character; `None` when the font lacks it.
    pub fn glyph(&self, character: char) -> Option<Glyph> {
        self.listed(self.index(character)?).map(|(_, glyph)| glyph)
    }

    /// Where a character stands in the font's sorted list of characters; `None` when the font lacks it.
    pub fn index(&self, character: char) -> Option<usize> {
        if let Some(index) = self.ascii.get(character as usize) {
            return index.map(|index| index as usize);
        }
        self.glyphs.binary_search_by_key(&character, |(c, _)| *c).ok()
    }

    /// The character and glyph at a place of the font's sorted list of characters.
    pub fn listed(&self, index: usize) -> Option<(char, Glyph)> {
        self.glyphs.get(index).copied()
    }

    /// How many characters the font has.
    pub fn characters(&self) -> usize {
        self.glyphs.len()
    }

    /// The first character of the text that the font lacks.
    pub fn lacks(&self, text: &str) -> Option<char> {
        text.chars().find(|c| self.glyph(*c).is_none())
    }

    /// How wide a line is at a type size. A missing character counts as nothing; see [`Font::lacks`].
    pub fn width(&self, text: &str, size: Length) -> Length {
        size.scaled(self.units(text), self.per_em)
    }

    /// How wide a line is in font units: the same for every type size.
    pub fn units(&self, text: &str) -> i64 {
        text.chars().map(|character| self.advance(character)).sum()
    }

    /// How far a character moves the pen, in font units; nothing where the font lacks it.
    fn advance(&self, character: char) -> i64 {
        match self.advances.get(character as usize) {
            Some(advance) => *advance,
            None => self.glyph(character).map_or(0, |glyph| glyph.advance),
        }
    }

    /// The height above the base line that lines of this size keep free.
    pub fn above(&self, size: Length) -> Length {
        size.scaled(self.above, self.per_em)
    }

    /// The depth below the base line that lines of this size keep free.
    pub fn below(&self, size: Length) -> Length {
        size.scaled(self.below, self.per_em)
    }

    /// How high a capital H stands.
    pub fn cap_height(&self, size: Length) -> Length {
        size.scaled(self.cap_height, self.per_em)
    }

    /// How high a small x stands.
    pub fn x_height(&self, size: Length) -> Length {
        size.scaled(self.x_height, self.per_em)
    }

    /// How far a strip of text reaches above and below its base line: from the top of the highest letter to the bottom of
    /// the deepest.
    pub fn strip(&self, size: Length) -> (Length, Length) {
        let (high, low) = *self.strip.get_or_init(|| {
            let inks = LETTERS.chars().filter_map(|c| self.index(c)).map(|index| self.ink_of(index));
            let drawn = inks.filter(|[left, low, right, high]| right > left && high > low);
            drawn.map(|[_, low, _, high]| (high, low)).reduce(|a, b| (a.0.max(b.0), a.1.min(b.1))).unwrap_or_default()
        });
        if high == low {
            return (self.cap_height(size), self.below(size));
        }
        let rise = size.scaled(high, self.per_em);
        (rise, size.scaled(high - low, self.per_em) - rise)
    }

    /// The box of a line's ink when the left end of its base line stands at `at`; `None` for a line without ink.
    pub fn ink(&self, text: &str, size: Length, at: Point) -> Option<Rect> {
        let ascii = self.ascii_inks.get_or_init(|| std::array::from_fn(|code| self.drawn(self.ascii[code])));
        let mut pen = 0;
        let [mut left, mut low, mut right, mut high] = NO_INK;
        for character in text.chars() {
            let [x_min, y_min, x_max, y_max] = match ascii.get(character as usize) {
                Some(ink) => *ink,
                None => self.drawn(self.index(character).and_then(|index| u32::try_from(index).ok())),
            };
            (left, low) = (left.min(pen + x_min), low.min(y_min));
            (right, high) = (right.max(pen + x_max), high.max(y_max));
            pen += self.advance(character);
        }
        if right <= left || high <= low {
            return None;
        }
        let scaled = |units: i64| size.scaled(units, self.per_em);
        let (left, right) = (scaled(left), scaled(right));
        Some(Rect::new(at.moved(left, -scaled(high)), Size::new(right - left, scaled(high - low))))
    }

    /// The outline of the character at a place of the font's list, as path data of SVG in font units, y up; empty where
    /// nothing is drawn. Insides are told from outsides by the nonzero rule.
    pub fn outline(&self, index: usize) -> &str {
        let Some(cell) = self.outlines.get(index) else { return "" };
        cell.get_or_init(|| {
            let face = ttf_parser::Face::parse(&self.bytes, 0).ok();
            face.map_or_else(Box::default, |face| outline::draw(&face, GlyphId(self.glyphs[index].1.id)))
        })
    }

    /// Whether the font has the character but draws nothing for it.
    pub fn is_blank(&self, character: char) -> bool {
        self.index(character).is_some_and(|index| self.ink_of(index) == [0; 4])
    }

    /// The ink of the character at a place of the font's list, if it is there and draws anything; otherwise [`NO_INK`].
    fn drawn(&self, index: Option<u32>) -> Ink {
        let ink = index.map(|index| self.ink_of(index as usize));
        ink.filter(|[left, low, right, high]| right > left && high > low).unwrap_or(NO_INK)
    }

    /// The ink of the character at a place of the font's list.
    fn ink_of(&self, index: usize) -> Ink {
        *self.inks[index].get_or_init(|| {
            let glyph = GlyphId(self.glyphs[index].1.id);
            let face = ttf_parser::Face::parse(&self.bytes, 0).ok();
            let bounds = face.and_then(|face| face.glyph_bounding_box(glyph));
            bounds.map_or([0; 4], |b| [b.x_min, b.y_min, b.x_max, b.y_max].map(i64::from))
        })
    }
}

/// The characters of a font in order, each with its glyph. The glyph for what a font lacks, number 0, stands for nothing.
fn mapped(face: &ttf_parser::Face<'_>) -> Result<Vec<(char, GlyphId)>, Problem> {
    work::map(face)?;
    let subtables = face.tables().cmap.into_iter().flat_map(|cmap| cmap.subtables);
    let subtables: Vec<_> = subtables.filter(ttf_parser::cmap::Subtable::is_unicode).collect();
    let mut characters = Vec::new();
    for subtable in &subtables {
        subtable.codepoints(|code| characters.extend(char::from_u32(code)));
    }
    // Each table is in order, and two runs are merged by the stable sort.
    #[allow(clippy::stable_sort_primitive, reason = "it is the quicker one for runs that are in order")]
    characters.sort();
    characters.dedup();
    let glyph = |character: char| {
        let id = subtables.iter().find_map(|subtable| subtable.glyph_index(character.into()))?;
        (0 < id.0 && id.0 < face.number_of_glyphs()).then_some((character, id))
    };
    Ok(characters.into_iter().filter_map(glyph).collect())
}

/// The measures of a glyph.
fn glyph(face: &ttf_parser::Face<'_>, id: GlyphId) -> Option<Glyph> {
    Some(Glyph { id: id.0, advance: i64::from(face.glyph_hor_advance(id)?) })
}

/// The PostScript name, cut down to the characters that every PDF reader takes in a name.
fn name(face: &ttf_parser::Face<'_>) -> String {
    let named = |id| face.names().into_iter().filter(move |n| n.name_id == id).find_map(|n| n.to_string());
    let name = named(ttf_parser::name_id::POST_SCRIPT_NAME).or_else(|| named(ttf_parser::name_id::FULL_NAME));
    let kept: String =
        name.unwrap_or_default().chars().filter(|c| c.is_ascii_alphanumeric() || *c == '-').take(63).collect();
    if kept.is_empty() { "Font".to_owned() } else { kept }
}
