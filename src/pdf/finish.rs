//! What ties a file together, written when all pages are: pictures, fonts, the roots of the trees, the catalog.

use std::borrow::Borrow;
use std::io::Write;

use super::copy::Copier;
use super::embed::embed;
use super::face::Used;
use super::file::{Chunk, File, Pack, references};
use super::forms::form;
use super::metadata;
use super::plan::{Planner, Run};
use super::run::Builder;
use super::tags::{reference, text};
use super::units::integer;
use super::{CATALOG, DOCUMENT, FONTS, Failure, Head, PAGES, SCOPES, STRUCTURE};
use crate::sheets::page::Page;

/// What has to be known of the pages at the end.
#[derive(Default)]
pub struct Trail {
    pages: u32,
    /// The nodes of the page tree; each is followed by its leaf of the parent tree.
    nodes: Vec<u32>,
    /// The sections of the pages.
    sections: Vec<u32>,
}

impl Trail {
    /// Notes the pages of a run.
    pub fn note<P: Borrow<Page>>(&mut self, run: &Run<P>) {
        self.nodes.push(run.node);
        self.sections.extend(run.pages.iter().map(|page| page.section));
        self.pages = run.pages.last().map_or(self.pages, |page| page.index + 1);
    }
}

/// Writes the rest of a file.
pub fn finish<W: Write>(
    mut file: File<W>,
    head: &Head,
    trail: &Trail,
    mut planner: Planner,
    builder: &mut Builder<'_>,
    mut used: Used,
) -> Result<W, Failure> {
    let form_of_file = builder.form;
    let mut chunk = Chunk::default();
    let symbols = planner.symbols.list().to_vec();
    let ids = planner.symbols.nested();
    let objects: Vec<u32> = symbols.iter().map(|_| planner.object()).collect();
    for (symbol, object) in symbols.iter().zip(&objects) {
        let (entries, content) = form(symbol, builder.faces, &ids, |id| objects.get(id).copied(), &mut used)?;
        chunk.stream(*object, &entries, &content, form_of_file, &mut builder.deflater)?;
    }
    let embedded = embed(builder.faces, &used)?;
    let mut copier = Copier::new(&embedded.document);
    let mut fonts = b"<<".to_vec();
    for (name, id) in &embedded.fonts {
        fonts.extend_from_slice(format!("/{name} ").as_bytes());
        reference(&mut fonts, copier.number(*id, &mut planner));
    }
    fonts.extend_from_slice(b">>");
    copier.write(&mut planner, &mut chunk, form_of_file, &mut builder.deflater)?;
    let metadata = planner.object();
    // Metadata stays as text, so that programs that know nothing of PDF find it (ISO 32000-1, 14.3.2).
    chunk.stream(
        metadata,
        b"/Type/Metadata/Subtype/XML",
        metadata::xmp(&head.title).as_bytes(),
        super::Form::Readable,
        &mut builder.deflater,
    )?;

    let mut resources = b"<</Font ".to_vec();
    reference(&mut resources, FONTS);
    if !objects.is_empty() {
        resources.extend_from_slice(b"/XObject<<");
        for (id, object) in objects.iter().enumerate() {
            resources.extend_from_slice(b"/S");
            integer(&mut resources, id as u64);
            resources.push(b' ');
            reference(&mut resources, *object);
        }
        resources.extend_from_slice(b">>");
    }
    resources.extend_from_slice(b">>");

    let mut pack = Pack::new(CATALOG, form_of_file);
    pack.push(&catalog(metadata));
    pack.push(&pages(trail));
    pack.push(&structure(trail));
    pack.push(&document(trail));
    pack.push(&resources);
    pack.push(&fonts);
    pack.push(b"<</O/Table/Scope/Row>>");
    pack.push(b"<</O/Table/Scope/Column>>");
    debug_assert_eq!(pack.next(), SCOPES[1] + 1);
    let stream = planner.object();
    pack.finish(stream, &mut chunk, &mut builder.deflater)?;
    file.chunk(&chunk)?;
    let mut trailer = b"/Root ".to_vec();
    reference(&mut trailer, CATALOG);
    file.finish(planner.object(), &trailer, form_of_file, &mut builder.deflater)
}

fn catalog(metadata: u32) -> Vec<u8> {
    let mut out = b"<</Type/Catalog/Pages ".to_vec();
    reference(&mut out, PAGES);
    out.extend_from_slice(b"/StructTreeRoot ");
    reference(&mut out, STRUCTURE);
    out.extend_from_slice(b"/MarkInfo<</Marked true>>/Lang");
    text(&mut out, metadata::LANGUAGE);
    out.extend_from_slice(b"/Metadata ");
    reference(&mut out, metadata);
    out.extend_from_slice(b"/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None/PickTrayByPDFSize true>>>>");
    out
}

fn pages(trail: &Trail) -> Vec<u8> {
    let mut out = b"<</Type/Pages/Count ".to_vec();
    integer(&mut out, u64::from(trail.pages));
    out.extend_from_slice(b"/Kids");
    references(&mut out, trail.nodes.iter().copied());
    out.extend_from_slice(b">>");
    out
}

fn structure(trail: &Trail) -> Vec<u8> {
    let mut out = b"<</Type/StructTreeRoot/K ".to_vec();
    reference(&mut out, DOCUMENT);
    out.extend_from_slice(b"/ParentTreeNextKey ");
    integer(&mut out, u64::from(trail.pages));
    out.extend_from_slice(b"/ParentTree<<");
    if trail.nodes.is_empty() {
        out.extend_from_slice(b"/Nums[]");
    } else {
        out.extend_from_slice(b"/Kids");
        references(&mut out, trail.nodes.iter().map(|node| node + 1));
    }
    out.extend_from_slice(b">>>>");
    out
}

fn document(trail: &Trail) -> Vec<u8> {
    let mut out = b"<</S/Document/P ".to_vec();
    reference(&mut out, STRUCTURE);
    out.extend_from_slice(b"/K");
    references(&mut out, trail.sections.iter().copied());
    out.extend_from_slice(b">>");
    out
}
