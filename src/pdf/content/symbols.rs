//! The pictures of a file: each drawn once as a form `XObject`, shown as S0, S1 ...

use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use crate::measure::Length;
use crate::sheets::page::{Item, Stroke, Symbol};

/// The symbols met so far. Two that look the same are one.
#[derive(Default, Clone)]
pub struct Symbols {
    list: Vec<Arc<Symbol>>,
    /// Those of the list by their address, which is theirs as long as the list holds them: nothing has to be compared.
    by_address: HashMap<usize, usize>,
    by_value: HashMap<Arc<Symbol>, usize>,
}

/// Symbols by their address, good for as long as somebody holds on to them.
#[derive(Default, Clone)]
pub struct Ids(HashMap<usize, usize>);

impl Symbols {
    /// Takes a symbol and those inside it into the list, and notes its number under its address. Whether it is new.
    pub fn add(&mut self, symbol: &Arc<Symbol>, ids: &mut Ids) -> bool {
        let address = Arc::as_ptr(symbol).addr();
        if ids.0.contains_key(&address) {
            return false;
        }
        let known = self.by_address.get(&address).or_else(|| self.by_value.get(symbol)).copied();
        let id = known.unwrap_or_else(|| {
            for inner in inside(symbol) {
                self.add(inner, ids);
            }
            let id = self.list.len();
            self.list.push(Arc::clone(symbol));
            self.by_address.insert(address, id);
            self.by_value.insert(Arc::clone(symbol), id);
            id
        });
        ids.0.insert(address, id);
        known.is_none()
    }

    /// The numbers of the symbols that stand inside others.
    pub fn nested(&self) -> Ids {
        let inner = self.list.iter().flat_map(|symbol| inside(symbol));
        Ids(inner.filter_map(|s| Some((Arc::as_ptr(s).addr(), *self.by_value.get(s)?))).collect())
    }

    /// For each symbol of the list whether it is shown where those with these numbers are: itself, or inside another.
    pub fn needed(&self, shown: &BTreeSet<usize>) -> Vec<bool> {
        let ids = self.nested();
        let mut needed: Vec<bool> = (0..self.list.len()).map(|id| shown.contains(&id)).collect();
        // What is inside comes before what it is inside of.
        for (id, symbol) in self.list.iter().enumerate().rev() {
            if needed[id] {
                inside(symbol).filter_map(|inner| ids.id(inner)).for_each(|inner| needed[inner] = true);
            }
        }
        needed
    }

    /// All symbols in the order of their numbers; those inside others come first.
    pub fn list(&self) -> &[Arc<Symbol>] {
        &self.list
    }
}

impl Ids {
    /// The number of a symbol that was added.
    pub fn id(&self, symbol: &Arc<Symbol>) -> Option<usize> {
        self.0.get(&Arc::as_ptr(symbol).addr()).copied()
    }
}

/// The symbols that a symbol shows.
pub fn inside(symbol: &Symbol) -> impl Iterator<Item = &Arc<Symbol>> {
    symbol.items.iter().filter_map(|item| match item {
        Item::Symbol { symbol, .. } => Some(symbol),
        _ => None,
    })
}

/// How far strokes stand out over a symbol's room at most: half the widest pen.
pub fn overhang(symbol: &Symbol) -> Length {
    let half = |stroke: &Option<Stroke>| stroke.map_or(Length::ZERO, |stroke| stroke.width.half());
    let out = symbol.items.iter().map(|item| match item {
        Item::Line { stroke, .. } => stroke.width.half(),
        Item::Rect { stroke, .. } | Item::Polygon { stroke, .. } | Item::Circle { stroke, .. } => half(stroke),
        Item::Symbol { symbol, .. } => overhang(symbol),
        Item::Text(_) => Length::ZERO,
    });
    // One raw unit makes good for rounding down in `half`.
    out.max().unwrap_or(Length::ZERO) + Length::from_raw(1)
}
