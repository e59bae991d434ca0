//! The meaning of a page: its structure elements and the marked content they own (ISO 32000-1, 14.7 and 14.8).

use super::template::Template;
use super::walk::Visitor;
use crate::diag::Problem;
use crate::measure::{Length, Rect, Sides, Size};
use crate::pdf::content::{Canvas, overhang};
use crate::pdf::failure::internal;
use crate::pdf::file::{DOCUMENT, LABELS, SCOPES};
use crate::pdf::syntax::{integer, rect_around, reference, text};
use crate::sheets::page::{Item, Scope, Tag};

/// A structure element of a page under construction.
pub struct Element<'a> {
    /// What it is; `None` for the section that holds the page.
    tag: Option<&'a Tag>,
    /// The element around it, as a place in the page's list; its own place for the page's section.
    parent: usize,
    kids: Vec<Kid>,
    /// The box around a figure's content.
    extent: Option<Rect>,
    /// Whether a list's labels are numbers; nothing for a list without labels.
    numbered: Option<bool>,
}

enum Kid {
    /// Marked content of the page.
    Content(u32),
    /// Another element, as a place in the page's list.
    Element(usize),
}

/// A page's structure elements, and the stream that shows their content.
pub struct Tree<'a, 'c> {
    elements: Vec<Element<'a>>,
    open: Vec<usize>,
    /// For each piece of marked content the element it belongs to.
    owners: Vec<usize>,
    /// Where content is drawn; nowhere for a layer that is drawn elsewhere.
    pub canvas: Option<Canvas<'c>>,
}

impl Tree<'_, '_> {
    /// A page's tree, with the section that holds the page. `first` is the number of its first marked content.
    pub fn new(first: u32) -> Self {
        let page = Element { tag: None, parent: 0, kids: Vec::new(), extent: None, numbered: None };
        Self { elements: vec![page], open: vec![0], owners: vec![0; first as usize], canvas: None }
    }

    /// Notes for the list around a label what its labels are: the first decides.
    fn label(&mut self, label: usize, items: &[&Item]) {
        let list = self.elements[self.elements[label].parent].parent;
        let first = items.iter().find_map(|item| match item {
            Item::Text(text) => text.text.chars().next(),
            _ => None,
        });
        if let Some(list) = self.elements.get_mut(list).filter(|list| matches!(list.tag, Some(Tag::List))) {
            list.numbered.get_or_insert(first.is_some_and(|first| first.is_ascii_digit()));
        }
    }

    fn innermost(&self) -> usize {
        self.open.last().copied().unwrap_or(0)
    }
}

impl<'a> Visitor<'a> for Tree<'a, '_> {
    fn open(&mut self, tag: &'a Tag) {
        let (parent, here) = (self.innermost(), self.elements.len());
        self.elements[parent].kids.push(Kid::Element(here));
        self.elements.push(Element { tag: Some(tag), parent, kids: Vec::new(), extent: None, numbered: None });
        self.open.push(here);
    }

    fn close(&mut self) {
        self.open.pop();
    }

    fn content(&mut self, items: &[&'a Item]) -> Result<(), Problem> {
        let here = self.innermost();
        let mcid = u32::try_from(self.owners.len()).map_err(|_| internal("a page has too much content"))?;
        self.owners.push(here);
        let element = &mut self.elements[here];
        element.kids.push(Kid::Content(mcid));
        if matches!(element.tag, Some(Tag::Figure(_))) {
            let extent = items.iter().map(|item| extent(item)).chain(element.extent).reduce(Rect::union);
            element.extent = extent;
        }
        if matches!(element.tag, Some(Tag::Label)) {
            self.label(here, items);
        }
        let element = &self.elements[here];
        match &mut self.canvas {
            Some(canvas) => canvas.tagged(name(element.tag), mcid, items),
            None => Ok(()),
        }
    }

    fn artifact(&mut self, items: &[&'a Item]) -> Result<(), Problem> {
        match &mut self.canvas {
            Some(canvas) => canvas.artifact(items),
            None => Ok(()),
        }
    }
}

impl Tree<'_, '_> {
    /// The elements of a page so high, as text whose numbers are still to come.
    pub fn template(&self, height: Length) -> Result<Template, Problem> {
        let (order, places) = self.levels()?;
        let mut template = Template::new(self.owners.iter().map(|owner| places[*owner]).collect());
        for here in order {
            write(here, &self.elements[here], &places, height, &mut template);
            template.end();
        }
        Ok(template)
    }

    /// The elements in the order of their objects, level by level, and the place of each in that order. So the children of an
    /// element, which say nearly the same, are next to each other, and deflate to less.
    fn levels(&self) -> Result<(Vec<usize>, Vec<u32>), Problem> {
        let mut depths: Vec<usize> = Vec::with_capacity(self.elements.len());
        for (here, element) in self.elements.iter().enumerate() {
            // An element is opened after the one around it.
            depths.push(if here == 0 { 0 } else { depths[element.parent] + 1 });
        }
        let mut order: Vec<usize> = (0..depths.len()).collect();
        order.sort_by_key(|here| depths[*here]);
        let mut places = vec![0; order.len()];
        for (place, here) in order.iter().enumerate() {
            places[*here] = narrow(place)?;
        }
        Ok((order, places))
    }
}

fn write(here: usize, element: &Element<'_>, places: &[u32], height: Length, out: &mut Template) {
    out.text().extend_from_slice(b"<<");
    if element.kids.iter().any(|kid| matches!(kid, Kid::Content(_))) {
        out.text().extend_from_slice(b"/Pg ");
        out.page();
    }
    out.text().extend_from_slice(b"/S/");
    out.text().extend_from_slice(name(element.tag));
    out.text().extend_from_slice(b"/P ");
    if here == 0 {
        reference(out.text(), DOCUMENT);
    } else {
        out.element(places[element.parent]);
    }
    match element.tag {
        Some(Tag::HeaderCell(scope)) => {
            out.text().extend_from_slice(b"/A ");
            reference(out.text(), SCOPES[usize::from(*scope == Scope::Column)]);
        }
        Some(Tag::Figure(alternative)) => {
            out.text().extend_from_slice(b"/Alt");
            text(out.text(), alternative);
            if let Some(extent) = element.extent {
                out.text().extend_from_slice(b"/A<</O/Layout/BBox");
                rect_around(out.text(), extent, height);
                out.text().extend_from_slice(b">>");
            }
        }
        Some(Tag::Span(language) | Tag::Passage(language)) => {
            out.text().extend_from_slice(b"/Lang");
            text(out.text(), crate::wording::of(*language).tag());
        }
        Some(Tag::List) => {
            if let Some(numbered) = element.numbered {
                out.text().extend_from_slice(b"/A ");
                reference(out.text(), LABELS[usize::from(numbered)]);
            }
        }
        _ => {}
    }
    if let [kid] = element.kids.as_slice() {
        out.text().extend_from_slice(b"/K ");
        kid.write(places, out);
    } else if !element.kids.is_empty() {
        out.text().extend_from_slice(b"/K[");
        for (k, kid) in element.kids.iter().enumerate() {
            if k > 0 {
                out.text().push(b' ');
            }
            kid.write(places, out);
        }
        out.text().push(b']');
    }
    out.text().extend_from_slice(b">>");
}

impl Kid {
    fn write(&self, places: &[u32], out: &mut Template) {
        match self {
            Kid::Content(mcid) => integer(out.text(), u64::from(*mcid)),
            Kid::Element(here) => out.element(places[*here]),
        }
    }
}

fn narrow(place: usize) -> Result<u32, Problem> {
    u32::try_from(place).map_err(|_| internal("a page has too many elements"))
}

/// The structure type's name.
fn name(tag: Option<&Tag>) -> &'static [u8] {
    match tag {
        None | Some(Tag::Section | Tag::Passage(_)) => b"Sect",
        Some(Tag::Span(_)) => b"Span",
        Some(Tag::Heading(level)) => match level {
            0 | 1 => b"H1",
            2 => b"H2",
            3 => b"H3",
            4 => b"H4",
            5 => b"H5",
            _ => b"H6",
        },
        Some(Tag::Paragraph) => b"P",
        Some(Tag::Table) => b"Table",
        Some(Tag::Row) => b"TR",
        Some(Tag::HeaderCell(_)) => b"TH",
        Some(Tag::Cell) => b"TD",
        Some(Tag::List) => b"L",
        Some(Tag::ListItem) => b"LI",
        Some(Tag::Label) => b"Lbl",
        Some(Tag::ListBody) => b"LBody",
        Some(Tag::Figure(_)) => b"Figure",
    }
}

/// The box that an item's ink fills, strokes included; for text the frame it was set into.
fn extent(item: &Item) -> Rect {
    let pen = |stroke: Option<Length>| Sides::splat(stroke.unwrap_or(Length::ZERO).half());
    match item {
        Item::Text(text) => text.frame,
        Item::Line { from, to, stroke } => Rect::between(*from, *to).grown(pen(Some(stroke.width))),
        Item::Rect { rect, stroke, .. } => rect.grown(pen(stroke.map(|s| s.width))),
        Item::Polygon { points, stroke, .. } => {
            let corners = points.iter().map(|point| Rect::between(*point, *point));
            corners.reduce(Rect::union).unwrap_or_default().grown(pen(stroke.map(|s| s.width)))
        }
        Item::Circle { centre, radius, stroke, .. } => {
            Rect::new(*centre, Size::default()).grown(Sides::splat(*radius)).grown(pen(stroke.map(|s| s.width)))
        }
        Item::Symbol { symbol, at } => Rect::new(*at, symbol.size).grown(Sides::splat(overhang(symbol))),
    }
}
