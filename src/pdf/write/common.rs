//! What the files of one lesson have in common, made once for all of them.
//!
//! A teacher and a substitute get the same sheets, and the copy room copies of some. So the characters of all files have the
//! same codes and the pictures the same numbers; with that, a layer's stream is the same bytes in whatever file shows it, and
//! so are the cut fonts.

use std::collections::{HashMap, HashSet};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use super::survey::{LayerFacts, LayerPlace, PageShape, Survey, address};
use crate::diag::Problem;
use crate::measure::Family;
use crate::pdf::content::{Canvas, Ids, Symbols, guarded};
use crate::pdf::failure::internal;
use crate::pdf::file::{Deflater, ReadyStream};
use crate::pdf::fonts::{Codes, Embedded, embed};
use crate::pdf::structure::{Template, Tree, walk};
use crate::sheets::packets::Packet;
use crate::sheets::page::{Layer, Page};

/// What is the same in several files.
pub struct Common<'f> {
    /// Codes of characters.
    pub codes: Arc<Codes<'f>>,
    /// Symbols and their numbers.
    pub symbols: Symbols,
    /// The numbers of the symbols that the layers show.
    pub ids: Ids,
    /// What is known of layers, by their addresses. Holding on to them keeps the addresses theirs.
    layers: HashMap<usize, Met>,
    /// The streams of layers that several pages show.
    streams: HashMap<LayerPlace, ReadyStream>,
    /// The structure of pages that consist of such layers.
    templates: HashMap<PageShape, Arc<Template>>,
    fonts: Option<Embedded>,
}

/// A layer that was met.
struct Met {
    layer: Arc<Layer>,
    facts: LayerFacts,
    shown: Vec<usize>,
    /// How many pages show it.
    pages: usize,
}

/// What names and marks on copies are written with, besides what else a lesson says. A copy's page is not in hand, and a
/// character beyond the common ones costs its file fonts of its own.
const ON_COPIES: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789\u{b7}";

/// A part of what is made before the files are.
enum Part {
    Fonts(Box<Embedded>),
    Page(Drawn),
}

/// A page, as far as other files show the same.
struct Drawn {
    streams: Vec<(LayerPlace, ReadyStream)>,
    template: Option<(PageShape, Arc<Template>)>,
}

impl<'f> Common<'f> {
    /// Nothing in common: for a file that has no others beside it.
    pub fn new(family: &'f Family) -> Self {
        Self {
            codes: Arc::new(Codes::new(family)),
            symbols: Symbols::default(),
            ids: Ids::default(),
            layers: HashMap::new(),
            streams: HashMap::new(),
            templates: HashMap::new(),
            fonts: None,
        }
    }

    /// What these packets have in common, as far as their pages are in hand: those that are made one by one differ in names
    /// and numbers only. Drawn with up to so many threads.
    pub fn of(family: &'f Family, packets: &[Packet<'_>], threads: usize) -> Result<Self, Problem> {
        let mut common = Self::new(family);
        let pages: Vec<&Page> = packets.iter().flat_map(Packet::in_hand).collect();
        for layer in pages.iter().flat_map(|page| &page.layers) {
            common.meet(layer)?;
        }
        if packets.iter().any(|packet| packet.in_hand().is_empty()) {
            Arc::make_mut(&mut common.codes).offer(ON_COPIES);
        }
        let mut shapes = HashSet::new();
        let drawn: Vec<&Page> = pages
            .into_iter()
            .filter(|page| {
                let shape = common.shape(page);
                !shape.0.is_empty() && shapes.insert(shape)
            })
            .collect();
        // The fonts take longest, so they come first.
        let parts = in_threads(threads, drawn.len() + 1, |deflater, k| match k.checked_sub(1) {
            None => embed(&common.codes).map(|fonts| Part::Fonts(Box::new(fonts))),
            Some(k) => common.draw(drawn[k], deflater).map(Part::Page),
        })?;
        for part in parts {
            match part {
                Part::Fonts(fonts) => common.fonts = Some(*fonts),
                Part::Page(drawn) => {
                    common.streams.extend(drawn.streams);
                    common.templates.extend(drawn.template);
                }
            }
        }
        Ok(common)
    }

    /// What is known of a layer: its facts, as met once, and the numbers of the symbols it shows.
    pub fn layer(&self, layer: &Arc<Layer>) -> Option<(LayerFacts, &[usize])> {
        self.layers.get(&address(layer)).map(|met| (met.facts, met.shown.as_slice()))
    }

    /// The stream of a layer that several files show.
    pub fn stream(&self, place: &LayerPlace) -> Option<&ReadyStream> {
        self.streams.get(place)
    }

    /// The structure of pages of this shape.
    pub fn template(&self, shape: &PageShape) -> Option<&Arc<Template>> {
        self.templates.get(shape)
    }

    /// The fonts of a file that shows no characters but those with common codes.
    pub fn fonts(&self, codes: &Arc<Codes<'_>>) -> Option<&Embedded> {
        self.fonts.as_ref().filter(|_| Arc::as_ptr(codes).addr() == Arc::as_ptr(&self.codes).addr())
    }

    fn meet(&mut self, layer: &Arc<Layer>) -> Result<(), Problem> {
        if let Some(met) = self.layers.get_mut(&address(layer)) {
            met.pages += 1;
            return Ok(());
        }
        let found = Survey::of(layer, &mut self.symbols, &mut self.ids, &mut self.codes)?;
        let met = Met { layer: Arc::clone(layer), facts: found.facts, shown: found.shown, pages: 1 };
        self.layers.insert(address(layer), met);
        Ok(())
    }

    /// A layer that several pages show.
    fn shared(&self, layer: &Arc<Layer>) -> Option<&Met> {
        self.layers.get(&address(layer)).filter(|met| met.pages > 1)
    }

    /// The layers of a page that several pages show.
    fn shape(&self, page: &Page) -> PageShape {
        let shared = page.layers.iter().filter(|layer| self.shared(layer).is_some());
        (shared.map(address).collect(), page.size.height)
    }

    /// Draws the layers of a page that several pages show, each as a stream, and makes the page's structure.
    fn draw(&self, page: &Page, deflater: &mut Deflater) -> Result<Drawn, Problem> {
        let height = page.size.height;
        let (mut tree, mut streams, mut whole, mut first) = (Tree::new(0), Vec::new(), true, 0);
        for layer in &page.layers {
            let met = self.layers.get(&address(layer)).ok_or_else(|| internal("a layer was not surveyed"))?;
            if met.pages > 1 {
                tree.canvas = Some(Canvas::page(height, &self.codes, &self.ids));
            } else {
                whole &= met.facts.is_silent();
            }
            walk(&met.layer, &mut tree)?;
            if let Some(canvas) = tree.canvas.take() {
                streams.push(((address(layer), first, height), deflater.ready(&guarded(canvas))?));
            }
            first += met.facts.contents;
        }
        let template = if whole { Some((self.shape(page), Arc::new(tree.template(height)?))) } else { None };
        Ok(Drawn { streams, template })
    }
}

/// Does so many pieces of work with up to so many threads, this one among them; what they made, in any order.
fn in_threads<T: Send>(
    threads: usize,
    count: usize,
    work: impl Fn(&mut Deflater, usize) -> Result<T, Problem> + Sync,
) -> Result<Vec<T>, Problem> {
    let next = AtomicUsize::new(0);
    let made = Mutex::new(Vec::with_capacity(count));
    let all = || {
        let mut deflater = Deflater::once();
        loop {
            let k = next.fetch_add(1, Ordering::Relaxed);
            if k >= count {
                return;
            }
            let done = work(&mut deflater, k);
            made.lock().unwrap_or_else(PoisonError::into_inner).push(done);
        }
    };
    thread::scope(|scope| {
        for _ in 1..threads.min(count) {
            scope.spawn(all);
        }
        all();
    });
    made.into_inner().unwrap_or_else(PoisonError::into_inner).into_iter().collect()
}
