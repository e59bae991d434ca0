//! Fonts made in a test: a bundled one with tables taken out, put in or replaced, and one with CFF outlines.
//!
//! The table directory is that of the OpenType specification (12 bytes, then 16 a table, sorted by tag); CFF follows
//! Adobe's technical note 5176, its charstrings note 5177.

/// The bundled font that all are made from.
pub const WHOLE: &[u8] = include_bytes!("../fixtures/fonts/atkinson-hyperlegible/AtkinsonHyperlegible-Regular.ttf");

/// A font as its tables.
#[derive(Clone)]
pub struct Tables {
    /// What kind of font the file says it is.
    pub version: [u8; 4],
    /// Tags and contents, sorted by tag.
    pub tables: Vec<([u8; 4], Vec<u8>)>,
}

fn number(bytes: &[u8], at: usize) -> usize {
    u32::from_be_bytes(bytes[at..at + 4].try_into().unwrap()) as usize
}

impl Tables {
    /// The tables of a font.
    pub fn of(font: &[u8]) -> Self {
        let count = usize::from(font[5]);
        let entries = font[12..].chunks(16).take(count);
        let table = |entry: &[u8]| {
            let from = number(entry, 8);
            (entry[..4].try_into().unwrap(), font[from..from + number(entry, 12)].to_vec())
        };
        Self { version: font[..4].try_into().unwrap(), tables: entries.map(table).collect() }
    }

    /// Without a table.
    pub fn without(mut self, tag: &[u8; 4]) -> Self {
        self.tables.retain(|(name, _)| name != tag);
        self
    }

    /// With a table, in place of the one of this name if there is one.
    pub fn with(self, tag: &[u8; 4], content: Vec<u8>) -> Self {
        let mut all = self.without(tag);
        all.tables.push((*tag, content));
        all.tables.sort();
        all
    }

    /// The content of a table.
    pub fn table(&self, tag: &[u8; 4]) -> &[u8] {
        &self.tables.iter().find(|(name, _)| name == tag).unwrap().1
    }

    /// With the bytes of a table changed.
    pub fn changed(self, tag: &[u8; 4], change: impl FnOnce(&mut Vec<u8>)) -> Self {
        let mut content = self.table(tag).to_vec();
        change(&mut content);
        self.with(tag, content)
    }

    /// The font file.
    pub fn file(&self) -> Vec<u8> {
        let count = u16::try_from(self.tables.len()).unwrap();
        let mut file = [&self.version[..], &count.to_be_bytes(), &[0; 6]].concat();
        let mut at = 12 + 16 * self.tables.len();
        for (tag, content) in &self.tables {
            file.extend_from_slice(tag);
            // Nothing that reads a font here looks at the checksum.
            for value in [0, at, content.len()] {
                file.extend(u32::try_from(value).unwrap().to_be_bytes());
            }
            at += content.len().next_multiple_of(4);
        }
        for (_, content) in &self.tables {
            file.extend_from_slice(content);
            file.resize(file.len().next_multiple_of(4), 0);
        }
        file
    }
}

/// A charstring: a box from (100, 0) to (500, 700).
pub const BOX: &[u8] = &[239, 22, 248, 36, 6, 249, 80, 7, 252, 36, 6, 14];

/// A font whose outlines are CFF: every glyph is `glyph` but those that draw nothing in the bundled font. `subroutines` are
/// the global ones; the first of fewer than 1,240 is called as -107.
pub fn cff(glyph: &[u8], subroutines: &[&[u8]]) -> Vec<u8> {
    let whole = Tables::of(WHOLE);
    let face = ttf_parser::Face::parse(WHOLE, 0).unwrap();
    let count = face.number_of_glyphs();
    let drawn = |id| face.glyph_bounding_box(ttf_parser::GlyphId(id)).is_some();
    let glyphs: Vec<&[u8]> = (0..count).map(|id| if drawn(id) { glyph } else { &[14][..] }).collect();
    let (name, strings, subroutines) = (index(&[b"Boxes"]), index(&[]), index(subroutines));
    // Glyph k has the k-th string as its name: format 2, one range.
    let charset = [&[2, 0, 1][..], &(count - 2).to_be_bytes()].concat();
    let charstrings = index(&glyphs);
    let header = [1, 0, 4, 2];
    // Every number of the dictionary takes five bytes, so that its length does not depend on them.
    let dictionary = |charset_at: usize, charstrings_at: usize, private_at: usize| {
        let number = |value: usize| [&[29][..], &u32::try_from(value).unwrap().to_be_bytes()].concat();
        [number(charset_at), vec![15], number(charstrings_at), vec![17], number(0), number(private_at), vec![18]]
            .concat()
    };
    let before = header.len() + name.len() + index(&[&dictionary(0, 0, 0)]).len() + strings.len() + subroutines.len();
    let charstrings_at = before + charset.len();
    let dictionary = index(&[&dictionary(before, charstrings_at, charstrings_at + charstrings.len())]);
    let table = [&header[..], &name, &dictionary, &strings, &subroutines, &charset, &charstrings].concat();
    let version = Tables { version: *b"OTTO", ..whole };
    version.without(b"glyf").without(b"loca").with(b"CFF ", table).file()
}

/// An INDEX of CFF: how many, how wide an offset is, the offsets from 1, the data.
fn index(items: &[&[u8]]) -> Vec<u8> {
    let mut index = u16::try_from(items.len()).unwrap().to_be_bytes().to_vec();
    if items.is_empty() {
        return index;
    }
    index.push(4);
    let mut at = 1_u32;
    index.extend(at.to_be_bytes());
    for item in items {
        at += u32::try_from(item.len()).unwrap();
        index.extend(at.to_be_bytes());
    }
    index.extend(items.concat());
    index
}
