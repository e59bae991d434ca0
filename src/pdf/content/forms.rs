//! Symbols as form `XObject`s.

use super::canvas::Canvas;
use super::symbols::{Ids, inside, overhang};
use crate::diag::Problem;
use crate::measure::{Point, Rect, Sides};
use crate::pdf::failure::internal;
use crate::pdf::file::FONTS;
use crate::pdf::fonts::Codes;
use crate::pdf::syntax::{integer, rect, reference};
use crate::sheets::page::{Item, Symbol};

/// The entries of a form's dictionary and its operators. `object` gives the object of a symbol by its number.
pub fn form(
    symbol: &Symbol,
    codes: &Codes<'_>,
    ids: &Ids,
    object: impl Fn(usize) -> Option<u32>,
) -> Result<(Vec<u8>, Vec<u8>), Problem> {
    let mut canvas = Canvas::form(symbol.size.height, codes, ids);
    for item in &symbol.items {
        canvas.item(item)?;
    }
    let content = canvas.finish();
    let mut entries = b"/Type/XObject/Subtype/Form/BBox".to_vec();
    let bounds = Rect::new(Point::ORIGIN, symbol.size).grown(Sides::splat(overhang(symbol)));
    rect(&mut entries, bounds, symbol.size.height);
    entries.extend_from_slice(b"/Resources<<");
    if symbol.items.iter().any(|item| matches!(item, Item::Text(_))) {
        entries.extend_from_slice(b"/Font ");
        reference(&mut entries, FONTS);
    }
    let mut inner: Vec<_> = inside(symbol).filter_map(|s| ids.id(s)).collect();
    inner.sort_unstable();
    inner.dedup();
    if !inner.is_empty() {
        entries.extend_from_slice(b"/XObject<<");
        for id in inner {
            let object = object(id).ok_or_else(|| internal("a symbol inside another has no object"))?;
            entries.extend_from_slice(b"/S");
            integer(&mut entries, id as u64);
            entries.push(b' ');
            reference(&mut entries, object);
        }
        entries.extend_from_slice(b">>");
    }
    entries.extend_from_slice(b">>");
    Ok((entries, content))
}
