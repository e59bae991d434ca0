//! A run of pages to a chunk of the file: streams, page objects, structure elements. Any thread may build any run.

use std::borrow::Borrow;

use super::content::Canvas;
use super::deflate::Deflater;
use super::face::{Faces, Used};
use super::file::{Chunk, Form, Pack, references};
use super::plan::{Planned, Run, SharedLayer};
use super::tags::{Hook, Tree, rect, reference, walk};
use super::units::integer;
use super::{DOCUMENT, LABELS, PAGES, RESOURCES, SCOPES};
use crate::diag::Problem;
use crate::measure::{Point, Rect};
use crate::sheets::page::Page;

/// Builds runs: what a thread owns.
pub struct Builder<'f> {
    /// The fonts.
    pub faces: &'f Faces<'f>,
    /// How objects are put down.
    pub form: Form,
    /// The compressor.
    pub deflater: Deflater,
}

impl Builder<'_> {
    /// Builds a run; the chunk and the characters it uses.
    pub fn build<P: Borrow<Page>>(&mut self, run: &Run<P>) -> Result<(Chunk, Used), Problem> {
        let (mut chunk, mut used) = (Chunk::default(), Used::default());
        for layer in &run.layers {
            self.shared(layer, run, &mut chunk, &mut used)?;
        }
        let mut pack = Pack::new(run.node, self.form);
        pack.push(&node(run));
        let mut trees = Vec::with_capacity(run.pages.len());
        for page in &run.pages {
            trees.push(self.page(page, run, &mut chunk, &mut used)?);
        }
        let hooks: Vec<Hook> = run.pages.iter().map(hook).collect();
        pack.push(&leaf(run, &trees, &hooks)?);
        for page in &run.pages {
            pack.push(&page_object(page, run.node));
        }
        for (tree, hook) in trees.iter().zip(&hooks) {
            tree.write(hook, |element| {
                pack.push(element);
            })?;
        }
        pack.finish(run.stream, &mut chunk, &mut self.deflater)?;
        Ok((chunk, used))
    }

    /// Writes the stream of a layer that several pages show.
    fn shared<P>(
        &mut self,
        shared: &SharedLayer,
        run: &Run<P>,
        chunk: &mut Chunk,
        used: &mut Used,
    ) -> Result<(), Problem> {
        let mut tree = Tree::new(shared.first);
        tree.canvas = Some(Canvas::page(shared.height, self.faces, &run.ids));
        walk(&shared.layer, &mut tree)?;
        self.stream(tree.canvas.take(), shared.object, true, chunk, used)
    }

    fn stream(
        &mut self,
        canvas: Option<Canvas<'_>>,
        object: u32,
        guarded: bool,
        chunk: &mut Chunk,
        used: &mut Used,
    ) -> Result<(), Problem> {
        let Some(canvas) = canvas else { return Ok(()) };
        let (mut content, here) = canvas.finish();
        if guarded {
            // The streams of a page are one after the other, and each takes the page's first state as given.
            content.splice(0..0, *b"q\n");
            content.extend_from_slice(b"Q\n");
        }
        used.add(&here);
        chunk.stream(object, b"", &content, self.form, &mut self.deflater)
    }

    /// Writes a page's own streams; its structure.
    fn page<'a, 'c, P: Borrow<Page>>(
        &mut self,
        planned: &'a Planned<P>,
        run: &'c Run<P>,
        chunk: &mut Chunk,
        used: &mut Used,
    ) -> Result<Tree<'a, 'c>, Problem>
    where
        Self: 'c,
    {
        let page = planned.page.borrow();
        let mut tree = Tree::new(0);
        let mut layers = page.layers.iter();
        for stream in &planned.streams {
            if !stream.shared {
                tree.canvas = Some(Canvas::page(page.size.height, self.faces, &run.ids));
            }
            for layer in layers.by_ref().take(stream.layers) {
                walk(layer, &mut tree)?;
            }
            self.stream(tree.canvas.take(), stream.object, planned.streams.len() > 1, chunk, used)?;
        }
        if tree.len() == planned.elements as usize {
            Ok(tree)
        } else {
            Err(super::internal("a page has other elements than were counted"))
        }
    }
}

fn hook<P: Borrow<Page>>(planned: &Planned<P>) -> Hook {
    Hook {
        parent: DOCUMENT,
        page: planned.object,
        first: planned.section,
        height: planned.page.borrow().size.height,
        scopes: SCOPES,
        labels: LABELS,
    }
}

/// The node of the page tree that holds the run.
fn node<P>(run: &Run<P>) -> Vec<u8> {
    let mut out = b"<</Type/Pages/Parent ".to_vec();
    reference(&mut out, PAGES);
    out.extend_from_slice(b"/Count ");
    integer(&mut out, run.pages.len() as u64);
    out.extend_from_slice(b"/Kids");
    references(&mut out, run.pages.iter().map(|page| page.object));
    out.extend_from_slice(b">>");
    out
}

/// The leaf of the parent tree that leads from the run's marked content to its elements.
fn leaf<P>(run: &Run<P>, trees: &[Tree<'_, '_>], hooks: &[Hook]) -> Result<Vec<u8>, Problem> {
    let mut out = b"<</Limits[".to_vec();
    let indices = || run.pages.iter().map(|page| u64::from(page.index));
    integer(&mut out, indices().next().unwrap_or(0));
    out.push(b' ');
    integer(&mut out, indices().next_back().unwrap_or(0));
    out.extend_from_slice(b"]/Nums[");
    for ((index, tree), hook) in indices().zip(trees).zip(hooks) {
        integer(&mut out, index);
        tree.owners(hook, &mut out)?;
    }
    out.extend_from_slice(b"]>>");
    Ok(out)
}

fn page_object<P: Borrow<Page>>(planned: &Planned<P>, node: u32) -> Vec<u8> {
    let page = planned.page.borrow();
    let sheet = Rect::new(Point::ORIGIN, page.size);
    let mut out = b"<</Type/Page/Parent ".to_vec();
    reference(&mut out, node);
    let trim = trimmed(page).unwrap_or(sheet);
    for (name, area) in [("/MediaBox", sheet), ("/CropBox", sheet), ("/BleedBox", trim), ("/TrimBox", trim)] {
        out.extend_from_slice(name.as_bytes());
        rect(&mut out, area, page.size.height);
    }
    out.extend_from_slice(b"/Resources ");
    reference(&mut out, RESOURCES);
    match planned.streams.as_slice() {
        [] => {}
        [stream] => {
            out.extend_from_slice(b"/Contents ");
            reference(&mut out, stream.object);
        }
        streams => {
            out.extend_from_slice(b"/Contents");
            references(&mut out, streams.iter().map(|stream| stream.object));
        }
    }
    out.extend_from_slice(b"/Tabs/S/StructParents ");
    integer(&mut out, u64::from(planned.index));
    out.extend_from_slice(b">>");
    out
}

/// What is left of a page when everything is cut out: the box around its pieces; `None` for a page that is not cut.
fn trimmed(page: &Page) -> Option<Rect> {
    page.layers.iter().flat_map(|layer| &layer.pieces).map(|piece| piece.rect).reduce(Rect::union)
}
