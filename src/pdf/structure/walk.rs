//! From the nodes of a page to what is content of which element and what is an artifact.
//!
//! One walk decides; it is shared by those who count and those who draw, so that they cannot disagree.

use crate::diag::Problem;
use crate::pdf::failure::internal;
use crate::sheets::page::{Item, Layer, Node, Tag};

/// What a walk over a layer meets, in reading order.
pub trait Visitor<'a> {
    /// An element starts.
    fn open(&mut self, tag: &'a Tag);
    /// The element that started last ends.
    fn close(&mut self);
    /// Things drawn that belong to the element around them.
    fn content(&mut self, items: &[&'a Item]) -> Result<(), Problem>;
    /// Things drawn that a listener does not need.
    fn artifact(&mut self, items: &[&'a Item]) -> Result<(), Problem>;
}

/// Walks a layer.
pub fn walk<'a>(layer: &'a Layer, visitor: &mut impl Visitor<'a>) -> Result<(), Problem> {
    Walk { visitor, run: Vec::new(), apart: Vec::new() }.inside(None, &layer.nodes)
}

/// A walk under way. What it gathers is handed on before an element is gone into, so one gathering place does for all.
struct Walk<'a, 'v, V> {
    visitor: &'v mut V,
    /// Items that stand side by side.
    run: Vec<&'a Item>,
    /// Artifacts that stand side by side.
    apart: Vec<&'a Item>,
}

impl<'a, V: Visitor<'a>> Walk<'a, '_, V> {
    fn inside(&mut self, around: Option<&Tag>, nodes: &'a [Node]) -> Result<(), Problem> {
        for node in nodes {
            match node {
                Node::Item(item) => {
                    self.set_apart()?;
                    self.run.push(item);
                }
                Node::Tagged(tag, nodes) => {
                    self.set_apart()?;
                    self.flush(around)?;
                    self.visitor.open(tag);
                    self.inside(Some(tag), nodes)?;
                    self.visitor.close();
                }
                Node::Artifact(items) => {
                    self.flush(around)?;
                    for item in items {
                        // Only like things are drawn together, so that text is begun and ended seldom.
                        if self.apart.last().is_some_and(|last| is_text(last) != is_text(item)) {
                            self.set_apart()?;
                        }
                        self.apart.push(item);
                    }
                }
            }
        }
        self.set_apart()?;
        self.flush(around)
    }

    /// Hands on artifacts that stand side by side: one mark does for all of them.
    fn set_apart(&mut self) -> Result<(), Problem> {
        if self.apart.is_empty() {
            return Ok(());
        }
        self.visitor.artifact(&self.apart)?;
        self.apart.clear();
        Ok(())
    }

    /// Hands on items that stand side by side. Where only elements may stand, drawing is furniture, and text becomes a
    /// paragraph or, between the rows and cells of a table, a mistake of the sheet that put it there.
    fn flush(&mut self, around: Option<&Tag>) -> Result<(), Problem> {
        if self.run.is_empty() {
            return Ok(());
        }
        let text = self.run.iter().any(|item| is_text(item));
        match around {
            None | Some(Tag::Section | Tag::Passage(_)) if text => {
                self.visitor.open(&Tag::Paragraph);
                self.visitor.content(&self.run)?;
                self.visitor.close();
            }
            Some(Tag::Table | Tag::Row | Tag::List | Tag::ListItem) if text => {
                return Err(internal("text stands directly in a table, a row or a list"));
            }
            None | Some(Tag::Section | Tag::Passage(_) | Tag::Table | Tag::Row | Tag::List | Tag::ListItem) => {
                self.visitor.artifact(&self.run)?;
            }
            Some(_) => self.visitor.content(&self.run)?,
        }
        self.run.clear();
        Ok(())
    }
}

fn is_text(item: &Item) -> bool {
    matches!(item, Item::Text(_))
}
