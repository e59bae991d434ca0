//! Pages in the order they come, gathered into runs that can be built in any thread.
//!
//! The planner alone gives out object numbers and symbol numbers, in page order; so the bytes of a file do not depend on
//! how many threads build it or which is done first.

use std::borrow::Borrow;
use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use super::common::Common;
use super::survey::{LayerFacts, LayerPlace, PageShape, Survey, address};
use crate::diag::Problem;
use crate::measure::Length;
use crate::pdf::content::{Ids, Symbols};
use crate::pdf::failure::internal;
use crate::pdf::file::Numbering;
use crate::pdf::fonts::Codes;
use crate::pdf::structure::Template;
use crate::sheets::page::{Layer, Page};

/// How many pages a run has: enough to fill an object stream, few enough to keep memory flat.
pub const RUN: usize = 48;

/// Gives out numbers.
pub struct Planner<'f> {
    /// What the file has in common with others of its lesson.
    pub common: &'f Common<'f>,
    /// Object numbers.
    pub numbers: Numbering,
    /// The next page's index.
    page: u32,
    /// Whether a single run holds all pages.
    pub single: bool,
    /// The symbols of all pages so far, and those of other files.
    pub symbols: Symbols,
    /// The numbers of the symbols that these pages show; symbols inside others are not counted.
    pub shown: BTreeSet<usize>,
    /// The codes of all characters so far. Runs under way hold on to those they know.
    pub codes: Arc<Codes<'f>>,
    /// Layers that several pages show. Holding on to them keeps their addresses theirs.
    shared: HashMap<LayerPlace, (u32, Arc<Layer>)>,
    /// What was found out about layers that several pages show, and the numbers of their symbols.
    known: HashMap<usize, LayerFacts>,
    ids: Ids,
    /// The numbers of shapes.
    shapes: HashMap<PageShape, u32>,
}

/// Pages that are built together.
pub struct Run<'f, P> {
    /// The node of the page tree; the pages, their sections, the leaf of the parent tree and then all other elements follow it.
    pub node: u32,
    /// The leaf of the parent tree.
    pub leaf: u32,
    /// The object stream.
    pub stream: u32,
    /// The pages.
    pub pages: Vec<PlannedPage<P>>,
    /// Shared layers that are shown here for the first time.
    pub layers: Vec<SharedLayer>,
    /// The symbols of these pages.
    pub ids: Ids,
    /// The codes of these pages' characters.
    pub codes: Arc<Codes<'f>>,
    /// Whether the file has no other: then care costs little, and most files are such.
    pub only: bool,
    /// What the file has in common with others.
    pub common: &'f Common<'f>,
}

/// A page with its numbers.
pub struct PlannedPage<P> {
    /// The page.
    pub page: P,
    /// Its index in the file.
    pub index: u32,
    /// Its page object.
    pub object: u32,
    /// Its section.
    pub section: u32,
    /// The first of its other elements; the rest follow.
    pub inner: u32,
    /// How many elements it has, the section counted.
    pub elements: u32,
    /// Its streams in order.
    pub streams: Vec<PageStream>,
    /// A number that pages have in common whose structure is the same, because all of it lies in layers that they share.
    pub shape: Option<u32>,
    /// Its structure, where it is the same in other files.
    pub template: Option<Arc<Template>>,
}

/// A stream of a page: so many of its layers.
#[derive(Debug, Clone, Copy)]
pub struct PageStream {
    /// The stream's object.
    pub object: u32,
    /// How many layers it shows.
    pub layers: usize,
    /// Whether other pages show it too, so that it is written elsewhere.
    pub shared: bool,
}

/// A layer that has a stream to itself.
pub struct SharedLayer {
    /// The stream's object.
    pub object: u32,
    /// The layer.
    pub layer: Arc<Layer>,
    /// The number of its first marked content.
    pub first: u32,
    /// The height of the pages that show it.
    pub height: Length,
}

impl SharedLayer {
    /// What its stream depends on.
    pub fn place(&self) -> LayerPlace {
        (address(&self.layer), self.first, self.height)
    }
}

impl<'f> Planner<'f> {
    /// A planner that gives out object numbers from `next`, and codes and symbol numbers beyond the common ones.
    pub fn new(next: u32, common: &'f Common<'f>) -> Self {
        Self {
            common,
            numbers: Numbering::from(next),
            page: 0,
            single: false,
            symbols: common.symbols.clone(),
            shown: BTreeSet::new(),
            codes: Arc::clone(&common.codes),
            shared: HashMap::new(),
            known: HashMap::new(),
            ids: common.ids.clone(),
            shapes: HashMap::new(),
        }
    }

    /// Plans a run. `pages` are at most [`RUN`].
    pub fn run<P: Borrow<Page>>(&mut self, pages: Vec<P>) -> Result<Run<'f, P>, Problem> {
        let mut ids = self.ids.clone();
        let facts = self.survey(&pages, &mut ids)?;
        let count = u32::try_from(pages.len()).map_err(|_| internal("a run is too long"))?;
        let mut planned = Vec::with_capacity(pages.len());
        let node = self.numbers.object();
        let first_page = self.numbers.objects(count);
        let first_section = self.numbers.objects(count);
        let leaf = self.numbers.object();
        for ((object, section), page) in (first_page..).zip(first_section..).zip(pages) {
            let inner = page.borrow().layers.iter().map(|layer| facts[&address(layer)].elements).sum::<u32>();
            planned.push(PlannedPage {
                page,
                index: self.page,
                object,
                section,
                elements: 1 + inner,
                inner: self.numbers.objects(inner),
                streams: Vec::new(),
                shape: None,
                template: None,
            });
            self.page += 1;
        }
        let stream = self.numbers.object();
        let mut layers = Vec::new();
        for page in &mut planned {
            page.streams = self.streams(page.page.borrow(), &facts, &mut layers)?;
            (page.shape, page.template) = self.shape(page, &facts);
        }
        let (codes, common) = (Arc::clone(&self.codes), self.common);
        Ok(Run { node, leaf, stream, pages: planned, layers, ids, codes, only: self.single, common })
    }

    /// Walks each layer once.
    fn survey<P: Borrow<Page>>(&mut self, pages: &[P], ids: &mut Ids) -> Result<HashMap<usize, LayerFacts>, Problem> {
        let mut all: HashMap<usize, LayerFacts> = HashMap::new();
        for layer in pages.iter().flat_map(|page| &page.borrow().layers) {
            if let Some(facts) = all.get_mut(&address(layer)) {
                facts.times += 1;
                continue;
            }
            if let Some(facts) = self.known.get(&address(layer)) {
                all.insert(address(layer), *facts);
                continue;
            }
            if let Some((facts, shown)) = self.common.layer(layer) {
                self.shown.extend(shown);
                all.insert(address(layer), facts);
                continue;
            }
            let found = Survey::of(layer, &mut self.symbols, ids, &mut self.codes)?;
            self.shown.extend(found.shown);
            all.insert(address(layer), found.facts);
        }
        Ok(all)
    }

    /// Cuts a page's layers into streams: a layer that several pages show has one to itself, those between share one.
    fn streams(
        &mut self,
        page: &Page,
        facts: &HashMap<usize, LayerFacts>,
        layers: &mut Vec<SharedLayer>,
    ) -> Result<Vec<PageStream>, Problem> {
        let mut streams: Vec<PageStream> = Vec::new();
        let mut first = 0;
        for layer in &page.layers {
            let here = facts[&address(layer)];
            let key = (address(layer), first, page.size.height);
            let known = self.shared.get(&key).map(|(object, _)| *object);
            let shared = known.is_some() || here.times > 1 || self.common.stream(&key).is_some();
            match streams.last_mut() {
                Some(last) if !shared && !last.shared => last.layers += 1,
                _ => {
                    let object = known.unwrap_or_else(|| self.numbers.object());
                    if shared && known.is_none() {
                        self.know(layer, here)?;
                        self.shared.insert(key, (object, Arc::clone(layer)));
                        layers.push(SharedLayer { object, layer: Arc::clone(layer), first, height: page.size.height });
                    }
                    streams.push(PageStream { object, layers: 1, shared });
                }
            }
            first += here.contents;
        }
        Ok(streams)
    }

    /// Keeps what is known of a layer that several pages show, for later runs.
    fn know(&mut self, layer: &Arc<Layer>, facts: LayerFacts) -> Result<(), Problem> {
        if self.known.insert(address(layer), facts).is_none() && self.common.layer(layer).is_none() {
            Survey::of(layer, &mut self.symbols, &mut self.ids, &mut self.codes)?;
        }
        Ok(())
    }

    /// The number of a page's shape, and its structure where other files have the same; neither where layers of its own have
    /// structure.
    fn shape<P: Borrow<Page>>(
        &mut self,
        planned: &PlannedPage<P>,
        facts: &HashMap<usize, LayerFacts>,
    ) -> (Option<u32>, Option<Arc<Template>>) {
        let page = planned.page.borrow();
        let mut layers = page.layers.iter();
        let mut key = Vec::new();
        for stream in &planned.streams {
            for layer in layers.by_ref().take(stream.layers) {
                if stream.shared {
                    key.push(address(layer));
                } else if !facts[&address(layer)].is_silent() {
                    return (None, None);
                }
            }
        }
        let key = (key, page.size.height);
        let template = self.common.template(&key).cloned();
        let next = u32::try_from(self.shapes.len()).ok();
        (next.map(|next| *self.shapes.entry(key).or_insert(next)), template)
    }
}
