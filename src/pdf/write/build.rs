//! A run of pages to a chunk of the file: streams, page objects, structure elements. Any thread may build any run.

use std::borrow::Borrow;
use std::collections::HashMap;
use std::sync::Arc;

use super::plan::{PlannedPage, Run, SharedLayer};
use crate::diag::Problem;
use crate::measure::{Point, Rect};
use crate::pdf::content::{Canvas, guarded};
use crate::pdf::failure::internal;
use crate::pdf::file::{Chunk, Deflater, PAGES, Pack, RESOURCES};
use crate::pdf::structure::{Numbers, Template, Tree, walk};
use crate::pdf::syntax::{integer, rect, reference, references};
use crate::sheets::page::Page;

/// Builds runs: what a thread owns.
pub struct Builder {
    once: Deflater,
    many: Deflater,
    /// The structure of pages that come again and again, by [`PlannedPage::shape`].
    known: HashMap<u32, Arc<Template>>,
}

impl Builder {
    /// A builder that has built nothing.
    pub fn new() -> Self {
        Self { once: Deflater::once(), many: Deflater::many(), known: HashMap::new() }
    }

    /// Builds a run.
    pub fn build<P: Borrow<Page>>(&mut self, run: &Run<'_, P>) -> Result<Chunk, Problem> {
        let mut chunk = Chunk::default();
        for layer in &run.layers {
            self.shared(layer, run, &mut chunk)?;
        }
        let mut pack = Pack::new(run.node);
        pack.push(|out| node(run, out));
        let mut pages = Vec::with_capacity(run.pages.len());
        for page in &run.pages {
            let numbers = Numbers { page: page.object, section: page.section, inner: page.inner };
            pages.push((page.index, self.page(page, run, &mut chunk)?, numbers));
        }
        let elements = pages.iter().map(|(_, template, _)| template.len()).sum::<usize>();
        let text = pages.iter().map(|(_, template, _)| template.size()).sum::<usize>();
        // A page object has some 300 bytes; the leaf names each element once.
        pack.reserve(pages.len() + elements, text + pages.len() * 320 + elements * 12);
        for page in &run.pages {
            pack.push(|out| page_object(page, run.node, out));
        }
        // What leads to elements from their section and what leads to them from the page are much the same numbers: near each
        // other they deflate to less.
        for (_, template, numbers) in &pages {
            template.elements(*numbers).take(1).for_each(|section| _ = pack.push(section));
        }
        pack.push(|out| leaf(&pages, out));
        for (_, template, numbers) in &pages {
            template.elements(*numbers).skip(1).for_each(|element| _ = pack.push(element));
        }
        pack.finish(run.stream, &mut chunk, &mut self.many)?;
        Ok(chunk)
    }

    /// Writes the stream of a layer that several pages show.
    fn shared<P>(&mut self, shared: &SharedLayer, run: &Run<'_, P>, chunk: &mut Chunk) -> Result<(), Problem> {
        if let Some(ready) = run.common.stream(&shared.place()) {
            chunk.ready(shared.object, b"", ready);
            return Ok(());
        }
        let mut tree = Tree::new(shared.first);
        tree.canvas = Some(Canvas::page(shared.height, &run.codes, &run.ids));
        walk(&shared.layer, &mut tree)?;
        put(tree.canvas.take(), shared.object, false, chunk, &mut self.once)
    }

    /// Writes a page's own streams; its structure.
    fn page<P: Borrow<Page>>(
        &mut self,
        planned: &PlannedPage<P>,
        run: &Run<'_, P>,
        chunk: &mut Chunk,
    ) -> Result<Arc<Template>, Problem> {
        let known = || planned.shape.and_then(|shape| self.known.get(&shape).map(Arc::clone));
        let known = planned.template.clone().or_else(known);
        let page = planned.page.borrow();
        let mut tree = Tree::new(0);
        let mut layers = page.layers.iter();
        for stream in &planned.streams {
            if !stream.shared {
                tree.canvas = Some(Canvas::page(page.size.height, &run.codes, &run.ids));
            }
            for layer in layers.by_ref().take(stream.layers).filter(|_| known.is_none() || !stream.shared) {
                walk(layer, &mut tree)?;
            }
            let alone = planned.streams.len() == 1;
            let deflater = if run.only { &mut self.once } else { &mut self.many };
            put(tree.canvas.take(), stream.object, alone, chunk, deflater)?;
        }
        let template = match known {
            Some(known) => known,
            None => Arc::new(tree.template(page.size.height)?),
        };
        if template.len() != planned.elements as usize {
            return Err(internal("a page has other elements than were counted"));
        }
        if let Some(shape) = planned.shape {
            self.known.entry(shape).or_insert_with(|| Arc::clone(&template));
        }
        Ok(template)
    }
}

/// Writes what a canvas holds, which may be `alone` on its page; nothing for a layer that is drawn elsewhere.
fn put(
    canvas: Option<Canvas<'_>>,
    object: u32,
    alone: bool,
    chunk: &mut Chunk,
    deflater: &mut Deflater,
) -> Result<(), Problem> {
    let Some(canvas) = canvas else { return Ok(()) };
    let content = if alone { canvas.finish() } else { guarded(canvas) };
    chunk.stream(object, b"", &content, deflater)
}

/// The node of the page tree that holds the run.
fn node<P>(run: &Run<'_, P>, out: &mut Vec<u8>) {
    out.extend_from_slice(b"<</Type/Pages/Parent ");
    reference(out, PAGES);
    out.extend_from_slice(b"/Count ");
    integer(out, run.pages.len() as u64);
    out.extend_from_slice(b"/Kids");
    references(out, run.pages.iter().map(|page| page.object));
    out.extend_from_slice(b">>");
}

/// The leaf of the parent tree that leads from the run's marked content to its elements.
fn leaf(pages: &[(u32, Arc<Template>, Numbers)], out: &mut Vec<u8>) {
    out.extend_from_slice(b"<</Limits[");
    let indices = || pages.iter().map(|(index, ..)| u64::from(*index));
    integer(out, indices().next().unwrap_or(0));
    out.push(b' ');
    integer(out, indices().next_back().unwrap_or(0));
    out.extend_from_slice(b"]/Nums[");
    for (index, template, numbers) in pages {
        integer(out, u64::from(*index));
        template.owners(*numbers, out);
    }
    out.extend_from_slice(b"]>>");
}

fn page_object<P: Borrow<Page>>(planned: &PlannedPage<P>, node: u32, out: &mut Vec<u8>) {
    let page = planned.page.borrow();
    let sheet = Rect::new(Point::ORIGIN, page.size);
    out.extend_from_slice(b"<</Type/Page/Parent ");
    reference(out, node);
    // A box that is not given is as large as the sheet (ISO 32000-1, 14.11.2).
    let cut = trimmed(page).into_iter().flat_map(|trim| [("/BleedBox", trim), ("/TrimBox", trim)]);
    for (name, area) in std::iter::once(("/MediaBox", sheet)).chain(cut) {
        out.extend_from_slice(name.as_bytes());
        rect(out, area, page.size.height);
    }
    out.extend_from_slice(b"/Resources ");
    reference(out, RESOURCES);
    match planned.streams.as_slice() {
        [] => {}
        [stream] => {
            out.extend_from_slice(b"/Contents ");
            reference(out, stream.object);
        }
        streams => {
            out.extend_from_slice(b"/Contents");
            references(out, streams.iter().map(|stream| stream.object));
        }
    }
    out.extend_from_slice(b"/Tabs/S/StructParents ");
    integer(out, u64::from(planned.index));
    out.extend_from_slice(b">>");
}

/// What is left of a page when everything is cut out: the box around its pieces; `None` for a page that is not cut.
fn trimmed(page: &Page) -> Option<Rect> {
    page.layers.iter().flat_map(|layer| &layer.pieces).map(|piece| piece.rect).reduce(Rect::union)
}
