//! Fonts as PDF objects.
//!
//! In: the characters a file uses. Out: the objects of `printpdf`'s document that show them.
//! The font program is cut to the glyphs used before `printpdf` sees it; what `printpdf` says of widths, codes and
//! metrics is replaced by what the font says, to the last unit.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use lopdf::{Dictionary, Object, ObjectId, Stream, dictionary};
use printpdf::{
    FontId, FontMetrics, Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfSaveOptions, Pt, TextItem,
};
use subsetter::GlyphRemapper;

use super::face::{CODES, Code, Faces, Used};
use crate::diag::Problem;
use crate::measure::{Font, Glyph};
use crate::pdf::failure::internal;

/// The objects that hold fonts.
pub struct Embedded {
    /// All objects.
    pub document: lopdf::Document,
    /// The fonts by name, F0 and F1; a font that shows nothing is left out.
    pub fonts: Vec<(String, ObjectId)>,
}

/// A character of a font: the code that page streams use for it, itself, and its glyph in the uncut font.
type Character = (Code, char, Glyph);

/// Cuts and embeds fonts.
pub fn embed(faces: &Faces<'_>, used: &Used) -> Result<Embedded, Problem> {
    let mut source = PdfDocument::new("");
    let mut cuts = Vec::new();
    let mut ops = vec![Op::StartTextSection];
    for (slot, font) in faces.fonts().enumerate() {
        let characters = used.glyphs(slot, font);
        if characters.is_empty() {
            continue;
        }
        let cut = Cut::new(slot, font, characters)?;
        let name = FontId(cut.tag.clone());
        ops.push(Op::SetFont { font: PdfFontHandle::External(name.clone()), size: Pt(1.0) });
        let glyphs = (0..cut.remapper.num_gids()).map(|gid| printpdf::Codepoint::new(gid, 0.0));
        ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(glyphs.collect())] });
        source.resources.fonts.map.insert(name, PdfFont::new(cut.parsed()));
        cuts.push(cut);
    }
    ops.push(Op::EndTextSection);
    // printpdf takes only fonts that a page shows.
    source.pages.push(PdfPage::new(Mm(1.0), Mm(1.0), ops));
    let options = PdfSaveOptions { optimize: false, subset_fonts: false, ..PdfSaveOptions::default() };
    let mut document = source.to_lopdf_document(&options, &mut Vec::new());
    let mut fonts = Vec::new();
    for cut in cuts {
        let id = find(&document, cut.tag.as_bytes())?;
        cut.amend(&mut document, id)?;
        fonts.push((format!("F{}", cut.slot), id));
    }
    Ok(Embedded { document, fonts })
}

/// The font object that printpdf put under a name into the resources of its pages.
fn find(document: &lopdf::Document, name: &[u8]) -> Result<ObjectId, Problem> {
    let lost = || internal("a font got lost on its way into the file");
    let (_, page) = document.get_pages().into_iter().next().ok_or_else(lost)?;
    let read = || {
        let resources = document.get_dictionary(page).ok()?.get(b"Resources").ok()?;
        let (_, resources) = document.dereference(resources).ok()?;
        let (_, fonts) = document.dereference(resources.as_dict().ok()?.get(b"Font").ok()?).ok()?;
        fonts.as_dict().ok()?.get(name).ok()?.as_reference().ok()
    };
    read().ok_or_else(lost)
}

/// A font cut down to what is shown.
struct Cut<'a> {
    slot: usize,
    font: &'a Font,
    characters: Vec<Character>,
    remapper: GlyphRemapper,
    program: Vec<u8>,
    /// The name of the cut font: six capitals that tell this cut from others, a plus, and the font's own name.
    tag: String,
}

impl<'a> Cut<'a> {
    fn new(slot: usize, font: &'a Font, characters: Vec<Character>) -> Result<Self, Problem> {
        let mut remapper = GlyphRemapper::new();
        for (_, _, glyph) in &characters {
            remapper.remap(glyph.id);
        }
        let program = subsetter::subset(font.bytes(), 0, &remapper).map_err(|error| {
            Problem::new(format!("the font `{}` cannot be embedded: {error}", font.name()))
                .hint("choose another font, such as the bundled \"andika\"")
        })?;
        let mut sum = 0xCBF2_9CE4_8422_2325_u64;
        for byte in &program {
            sum = (sum ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01B3);
        }
        let mut tag = String::new();
        for _ in 0..6 {
            tag.push(char::from(b'A' + u8::try_from(sum % 26).unwrap_or(0)));
            sum /= 26;
        }
        let tag = format!("{tag}+{}", font.name());
        Ok(Self { slot, font, characters, remapper, program, tag })
    }

    fn gid(&self, glyph: Glyph) -> u16 {
        self.remapper.get(glyph.id).unwrap_or(0)
    }

    fn parsed(&self) -> ParsedFont {
        let clamp = |value: i64| i16::try_from(value).unwrap_or(0);
        let [above, below, ..] = self.font.heights();
        let metrics = FontMetrics { ascent: clamp(above), descent: clamp(-below) };
        let per_em = u16::try_from(self.font.per_em()).unwrap_or(1000);
        let (map, widths) = (BTreeMap::new(), BTreeMap::new());
        ParsedFont::with_glyph_data(self.program.clone(), 0, Some(self.tag.clone()), map, widths, per_em, metrics)
    }

    /// Puts codes, widths and metrics right.
    fn amend(&self, document: &mut lopdf::Document, id: ObjectId) -> Result<(), Problem> {
        let odd = |_| internal("a font object is not as expected");
        let encoding = document.add_object(self.encoding());
        let unicode = document.add_object(Stream::new(Dictionary::new(), self.unicode().into_bytes()));
        let (widths, default) = self.widths();
        let font = document.get_object_mut(id).and_then(Object::as_dict_mut).map_err(odd)?;
        font.set("Encoding", encoding);
        font.set("ToUnicode", unicode);
        let descendants = font.get_mut(b"DescendantFonts").and_then(Object::as_array_mut).map_err(odd)?;
        let descendant = descendants.first_mut().ok_or_else(|| internal("a font has no descendant"))?;
        let descendant = descendant.as_dict_mut().map_err(odd)?;
        descendant.set("W", widths);
        descendant.set("DW", default);
        let descriptor = descendant.get(b"FontDescriptor").and_then(Object::as_reference).map_err(odd)?;
        let descriptor = document.get_object_mut(descriptor).and_then(Object::as_dict_mut).map_err(odd)?;
        let thousandth =
            |units: i64| Object::Integer((units * 1000 + self.font.per_em() / 2).div_euclid(self.font.per_em()));
        let [.., cap_height, x_height] = self.font.heights();
        descriptor.set("FontBBox", self.font.bounds().map(thousandth).to_vec());
        descriptor.set("CapHeight", thousandth(cap_height));
        descriptor.set("XHeight", thousandth(x_height));
        // Bit 3: the font has glyphs outside the standard Latin set, and its codes are its own (table 123).
        descriptor.set("Flags", 4);
        descriptor.set("StemV", if self.slot == 0 { 88 } else { 166 });
        Ok(())
    }

    /// Widths by glyph, exact to a thousandth of a thousandth of an em.
    fn widths(&self) -> (Object, Object) {
        let mut by_gid = vec![0; usize::from(self.remapper.num_gids())];
        for (_, _, glyph) in &self.characters {
            if let Some(width) = by_gid.get_mut(usize::from(self.gid(*glyph))) {
                *width = glyph.advance;
            }
        }
        let width = |units: i64| {
            if units * 1000 % self.font.per_em() == 0 {
                Object::Integer(units * 1000 / self.font.per_em())
            } else {
                #[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "widths are small")]
                let real = (units as f64 * 1000.0 / self.font.per_em() as f64) as f32;
                Object::Real(real)
            }
        };
        let list = by_gid.iter().map(|units| width(*units)).collect();
        (Object::Array(vec![Object::Integer(0), Object::Array(list)]), Object::Integer(1000))
    }

    fn system() -> Dictionary {
        dictionary! {
            "Registry" => Object::string_literal("Adobe"),
            "Ordering" => Object::string_literal("Identity"),
            "Supplement" => 0,
        }
    }

    /// From codes to glyphs.
    fn encoding(&self) -> Stream {
        let mut map = self.opening("/CMapName/PlacewrightCodes def/CMapType 1 def/WMode 0 def");
        for block in self.characters.chunks(100) {
            let _ = writeln!(map, "{} begincidchar", block.len());
            for (code, _, glyph) in block {
                let _ = writeln!(map, "<{}>{}", hex(*code), self.gid(*glyph));
            }
            map.push_str("endcidchar\n");
        }
        map.push_str("endcmap CMapName currentdict/CMap defineresource pop end end\n");
        let entries = dictionary! {
            "Type" => "CMap",
            "CMapName" => "PlacewrightCodes",
            "CIDSystemInfo" => Self::system(),
            "WMode" => 0,
        };
        Stream::new(entries, map.into_bytes())
    }

    /// From codes to text.
    fn unicode(&self) -> String {
        let mut map = self.opening("/CMapName/PlacewrightText def/CMapType 2 def");
        for block in self.characters.chunks(100) {
            let _ = writeln!(map, "{} beginbfchar", block.len());
            for (code, character, _) in block {
                let _ = write!(map, "<{}><", hex(*code));
                for unit in character.encode_utf16(&mut [0; 2]) {
                    let _ = write!(map, "{unit:04X}");
                }
                map.push_str(">\n");
            }
            map.push_str("endbfchar\n");
        }
        map.push_str("endcmap CMapName currentdict/CMap defineresource pop end end\n");
        map
    }

    /// The start of a character map, up to and with the ranges of codes in use.
    fn opening(&self, definitions: &str) -> String {
        let mut map = "/CIDInit/ProcSet findresource begin 12 dict begin begincmap\n".to_owned();
        map.push_str("/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>def\n");
        map.push_str(definitions);
        let ranges = CODES.iter().filter(|(bytes, _)| self.characters.iter().any(|(code, ..)| code.bytes == *bytes));
        let ranges: Vec<_> = ranges.collect();
        let _ = writeln!(map, "\n{} begincodespacerange", ranges.len());
        for (bytes, range) in ranges {
            let ends = [range.start, range.end - 1].map(|value| hex(Code { bytes: *bytes, value }));
            let _ = writeln!(map, "<{}><{}>", ends[0], ends[1]);
        }
        map.push_str("endcodespacerange\n");
        map
    }
}

fn hex(code: Code) -> String {
    code.to_bytes().fold(String::new(), |mut digits, byte| {
        let _ = write!(digits, "{byte:02X}");
        digits
    })
}
