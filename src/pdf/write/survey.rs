//! What a file has to know of a layer before it is drawn: how many elements it has, which pictures and characters it shows.

use std::sync::Arc;

use crate::diag::Problem;
use crate::measure::Length;
use crate::pdf::content::{Ids, Symbols};
use crate::pdf::fonts::Codes;
use crate::pdf::structure::{Visitor, walk};
use crate::sheets::page::{Item, Layer, Symbol, Tag, Text};

/// Where a layer lies: what tells it from others as long as somebody holds on to it.
pub fn address(layer: &Arc<Layer>) -> usize {
    Arc::as_ptr(layer).addr()
}

/// A layer by its address, the number of its first marked content and the height of its page: what its stream depends on.
pub type LayerPlace = (usize, u32, Length);

/// The layers that a page shares with others, by their addresses, and its height: what its structure depends on where layers
/// of its own have none.
pub type PageShape = (Vec<usize>, Length);

/// What a run has to know of a layer.
#[derive(Debug, Clone, Copy, Default)]
pub struct LayerFacts {
    /// How many times the run's pages show it.
    pub times: u32,
    /// How many elements it has.
    pub elements: u32,
    /// How many pieces of marked content it has.
    pub contents: u32,
}

impl LayerFacts {
    /// Whether a listener hears nothing of it.
    pub fn is_silent(&self) -> bool {
        (self.elements, self.contents) == (0, 0)
    }
}

/// What a walk over a layer finds.
pub struct Found {
    /// Its facts; it was met once.
    pub facts: LayerFacts,
    /// The numbers of the symbols that it shows, as often as it shows them.
    pub shown: Vec<usize>,
}

/// Counts what is in a layer and meets its symbols and characters.
pub struct Survey<'s, 'f> {
    found: Found,
    symbols: &'s mut Symbols,
    ids: &'s mut Ids,
    codes: &'s mut Arc<Codes<'f>>,
}

impl Survey<'_, '_> {
    /// Walks a layer; symbols and characters that were not met before get numbers and codes.
    pub fn of(
        layer: &Layer,
        symbols: &mut Symbols,
        ids: &mut Ids,
        codes: &mut Arc<Codes<'_>>,
    ) -> Result<Found, Problem> {
        let found = Found { facts: LayerFacts { times: 1, ..LayerFacts::default() }, shown: Vec::new() };
        let mut survey = Survey { found, symbols, ids, codes };
        walk(layer, &mut survey)?;
        Ok(survey.found)
    }

    fn meet(&mut self, item: &Item) -> Result<(), Problem> {
        match item {
            Item::Text(text) => self.learn(text),
            Item::Symbol { symbol, .. } => {
                let new = self.symbols.add(symbol, self.ids);
                self.found.shown.extend(self.ids.id(symbol));
                if new { self.read(symbol) } else { Ok(()) }
            }
            _ => Ok(()),
        }
    }

    /// Meets the characters of a symbol and of those inside it.
    fn read(&mut self, symbol: &Symbol) -> Result<(), Problem> {
        symbol.items.iter().try_for_each(|item| match item {
            Item::Text(text) => self.learn(text),
            Item::Symbol { symbol, .. } => self.read(symbol),
            _ => Ok(()),
        })
    }

    fn learn(&mut self, Text { weight, text, .. }: &Text) -> Result<(), Problem> {
        if self.codes.know(*weight, text) { Ok(()) } else { Arc::make_mut(self.codes).learn(*weight, text) }
    }
}

impl<'a> Visitor<'a> for Survey<'_, '_> {
    fn open(&mut self, _: &'a Tag) {
        self.found.facts.elements += 1;
    }

    fn close(&mut self) {}

    fn content(&mut self, items: &[&'a Item]) -> Result<(), Problem> {
        self.found.facts.contents += 1;
        self.artifact(items)
    }

    fn artifact(&mut self, items: &[&'a Item]) -> Result<(), Problem> {
        for item in items {
            self.meet(item)?;
        }
        Ok(())
    }
}
