//! What ties a file together, written when all pages are: pictures, fonts, the roots of the trees, the catalog.

use std::io::Write;

use super::FileHead;
use super::index::Index;
use super::metadata;
use super::plan::Planner;
use super::threads::Writer;
use crate::lesson::job::{Edge, PrintSides};
use crate::pdf::content::form;
use crate::pdf::failure::WriteFailure;
use crate::pdf::file::{CATALOG, Chunk, Deflater, FIRST, FONTS, PAGES, Pack, STRUCTURE};
use crate::pdf::fonts::{Copier, embed};
use crate::pdf::syntax::{integer, reference, text};

/// Writes the rest of a file.
pub fn finish<W: Write>(writer: Writer<'_, W>, head: &FileHead) -> Result<W, WriteFailure> {
    let Writer { mut file, planner: Planner { mut numbers, symbols, codes, shown, common, .. }, index } = writer;
    let mut deflater = Deflater::once();
    let mut chunk = Chunk::default();
    let ids = symbols.nested();
    let objects: Vec<Option<u32>> =
        symbols.needed(&shown).into_iter().map(|needed| needed.then(|| numbers.object())).collect();
    for (symbol, object) in symbols.list().iter().zip(&objects) {
        let Some(object) = *object else { continue };
        let (entries, content) = form(symbol, &codes, &ids, |id| objects.get(id).copied().flatten())?;
        chunk.stream(object, &entries, &content, &mut deflater)?;
    }
    let own;
    let embedded = if let Some(common) = common.fonts(&codes) {
        common
    } else {
        own = embed(&codes)?;
        &own
    };
    let mut copier = Copier::new(embedded);
    let mut fonts = b"<<".to_vec();
    for (name, id) in &embedded.fonts {
        fonts.extend_from_slice(format!("/{name} ").as_bytes());
        reference(&mut fonts, copier.number(*id, &mut numbers));
    }
    fonts.extend_from_slice(b">>");
    copier.write(&mut numbers, &mut chunk)?;
    let metadata = numbers.object();
    // Metadata stays as text, so that programs that know nothing of PDF find it (ISO 32000-1, 14.3.2).
    chunk.stored(metadata, b"/Type/Metadata/Subtype/XML", metadata::xmp(&head.title, head.language).as_bytes());

    let mut resources = b"<</Font ".to_vec();
    reference(&mut resources, FONTS);
    if objects.iter().any(Option::is_some) {
        resources.extend_from_slice(b"/XObject<<");
        for (id, object) in objects.iter().enumerate() {
            let Some(object) = object else { continue };
            resources.extend_from_slice(b"/S");
            integer(&mut resources, id as u64);
            resources.push(b' ');
            reference(&mut resources, *object);
        }
        resources.extend_from_slice(b">>");
    }
    resources.extend_from_slice(b">>");

    let mut pack = Pack::new(numbers.object());
    let outline = index.outline(&mut pack, head.language);
    numbers.skip_to(pack.next());
    if outline.is_some() {
        pack.finish(numbers.object(), &mut chunk, &mut deflater)?;
    }

    let mut pack = Pack::new(CATALOG);
    pack.push_bytes(&catalog(head, &index, metadata, outline));
    pack.push_bytes(&index.pages());
    pack.push_bytes(&index.structure());
    pack.push_bytes(&index.document());
    pack.push_bytes(&resources);
    pack.push_bytes(&fonts);
    pack.push_bytes(b"<</O/Table/Scope/Row>>");
    pack.push_bytes(b"<</O/Table/Scope/Column>>");
    pack.push_bytes(b"<</O/List/ListNumbering/None>>");
    pack.push_bytes(b"<</O/List/ListNumbering/Decimal>>");
    debug_assert_eq!(pack.next(), FIRST);
    let stream = numbers.object();
    pack.finish(stream, &mut chunk, &mut deflater)?;
    file.chunk(&chunk)?;
    let mut trailer = b"/Root ".to_vec();
    reference(&mut trailer, CATALOG);
    file.finish(numbers.object(), &trailer, &mut deflater)
}

fn catalog(head: &FileHead, index: &Index, metadata: u32, outline: Option<u32>) -> Vec<u8> {
    let mut out = b"<</Type/Catalog/Pages ".to_vec();
    reference(&mut out, PAGES);
    out.extend_from_slice(b"/StructTreeRoot ");
    reference(&mut out, STRUCTURE);
    out.extend_from_slice(b"/MarkInfo<</Marked true>>/Lang");
    text(&mut out, head.language);
    out.extend_from_slice(b"/Metadata ");
    reference(&mut out, metadata);
    if let Some(outline) = outline {
        out.extend_from_slice(b"/PageMode/UseOutlines/Outlines ");
        reference(&mut out, outline);
    }
    if let Some(labels) = index.labels() {
        out.extend_from_slice(b"/PageLabels");
        out.extend_from_slice(&labels);
    }
    // Table 150 of ISO 32000-1: what the print dialogue starts with.
    out.extend_from_slice(b"/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None/PickTrayByPDFSize true/Duplex");
    out.extend_from_slice(match head.sides {
        PrintSides::One => b"/Simplex",
        PrintSides::Two(Edge::Long) => b"/DuplexFlipLongEdge",
        PrintSides::Two(Edge::Short) => b"/DuplexFlipShortEdge",
    });
    out.extend_from_slice(b">>>>");
    out
}
