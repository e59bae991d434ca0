//! Fonts as PDF objects.
//!
//! In: the characters a file uses. Out: the objects of `printpdf`'s document that show them.
//! The font program is cut to the glyphs used before `printpdf` sees it; what `printpdf` says of widths and
//! metrics is replaced by what the font says, to the last unit.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use lopdf::{Dictionary, Object, ObjectId, Stream};
use printpdf::{
    FontId, FontMetrics, Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, PdfSaveOptions, Pt, TextItem,
};

use super::codes::Codes;
use crate::diag::Problem;
use crate::measure::{Font, Glyph, cut};
use crate::pdf::failure::internal;
use crate::pdf::file::{Deflater, ReadyStream};

/// The objects that hold fonts.
pub struct Embedded {
    /// All objects.
    pub document: lopdf::Document,
    /// Its streams, ready for a file.
    pub streams: BTreeMap<ObjectId, ReadyStream>,
    /// The fonts by name, F0 and F1; a font that shows nothing is left out.
    pub fonts: Vec<(String, ObjectId)>,
}

/// Cuts and embeds fonts.
pub fn embed(codes: &Codes<'_>) -> Result<Embedded, Problem> {
    let mut source = PdfDocument::new("");
    let mut cuts = Vec::new();
    let mut ops = vec![Op::StartTextSection];
    for (slot, (font, characters)) in codes.fonts().enumerate().filter(|(_, (_, characters))| !characters.is_empty()) {
        let cut = Cut::new(slot, font, characters)?;
        let name = FontId(cut.tag.clone());
        ops.push(Op::SetFont { font: PdfFontHandle::External(name.clone()), size: Pt(1.0) });
        let items = vec![TextItem::GlyphIds(vec![printpdf::Codepoint::new(1, 0.0)])];
        ops.push(Op::ShowText { items });
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
    let mut deflater = Deflater::once();
    let mut streams = BTreeMap::new();
    for (id, object) in &document.objects {
        if let Object::Stream(stream) = object {
            streams.insert(*id, deflater.ready(&stream.content)?);
        }
    }
    Ok(Embedded { document, streams, fonts })
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
    /// In the order of their codes, which count from 1.
    characters: &'a [(char, Glyph)],
    program: Vec<u8>,
    /// The name of the cut font: six capitals that tell this cut from others, a plus, and the font's own name.
    tag: String,
}

impl<'a> Cut<'a> {
    fn new(slot: usize, font: &'a Font, characters: &'a [(char, Glyph)]) -> Result<Self, Problem> {
        let program = cut::cut(font.bytes(), characters.iter().map(|(_, glyph)| glyph.id))?;
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
        Ok(Self { slot, font, characters, program, tag })
    }

    fn parsed(&self) -> ParsedFont {
        let clamp = |value: i64| i16::try_from(value).unwrap_or(0);
        let [above, below, ..] = self.font.heights();
        let metrics = FontMetrics { ascent: clamp(above), descent: clamp(-below) };
        let per_em = u16::try_from(self.font.per_em()).unwrap_or(1000);
        let (map, widths) = (BTreeMap::new(), BTreeMap::new());
        ParsedFont::with_glyph_data(self.program.clone(), 0, Some(self.tag.clone()), map, widths, per_em, metrics)
    }

    /// Puts text, widths and metrics right.
    fn amend(&self, document: &mut lopdf::Document, id: ObjectId) -> Result<(), Problem> {
        let odd = |_| internal("a font object is not as expected");
        let unicode = document.add_object(Stream::new(Dictionary::new(), self.unicode().into_bytes()));
        let font = document.get_object_mut(id).and_then(Object::as_dict_mut).map_err(odd)?;
        font.set("Encoding", "Identity-H");
        font.set("ToUnicode", unicode);
        let descendants = font.get_mut(b"DescendantFonts").and_then(Object::as_array_mut).map_err(odd)?;
        let descendant = descendants.first_mut().ok_or_else(|| internal("a font has no descendant"))?;
        let descendant = descendant.as_dict_mut().map_err(odd)?;
        descendant.set("W", self.widths());
        descendant.set("DW", 1000);
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

    /// Widths from code 1 on, exact to a thousandth of a thousandth of an em.
    fn widths(&self) -> Object {
        let width = |units: i64| {
            if units * 1000 % self.font.per_em() == 0 {
                Object::Integer(units * 1000 / self.font.per_em())
            } else {
                #[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "widths are small")]
                let real = (units as f64 * 1000.0 / self.font.per_em() as f64) as f32;
                Object::Real(real)
            }
        };
        let list = self.characters.iter().map(|(_, glyph)| width(glyph.advance)).collect();
        Object::Array(vec![Object::Integer(1), Object::Array(list)])
    }

    /// From codes to text (ISO 32000-1, 9.10.3).
    fn unicode(&self) -> String {
        let mut map = "/CIDInit/ProcSet findresource begin 12 dict begin begincmap\n\
            /CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def\n\
            /CMapName/Adobe-Identity-UCS def/CMapType 2 def\n\
            1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
            .to_owned();
        // A block holds 100 at most.
        for (first, block) in (1..).step_by(100).zip(self.characters.chunks(100)) {
            let _ = writeln!(map, "{} beginbfchar", block.len());
            for (code, (character, _)) in (first..).zip(block) {
                let _ = write!(map, "<{code:04X}> <");
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
}
