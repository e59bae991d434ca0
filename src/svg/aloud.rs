//! What a page says, in reading order: its texts, and the alternative texts of its figures.
//!
//! Every heading, paragraph, row and item is a sentence of its own, because a description is heard as one run of words.

use crate::sheets::page::{Item, Node, Tag};

/// The nodes as sentences, a line each; empty where nothing is said.
pub fn read<'n>(nodes: impl Iterator<Item = &'n Node>) -> String {
    let mut voice = Voice::default();
    nodes.for_each(|node| voice.node(node));
    voice.close();
    voice.said
}

/// What comes before the next words.
#[derive(Clone, Copy, PartialEq, Default)]
enum Before {
    /// Nothing: a sentence begins.
    #[default]
    Start,
    /// A space: lines of one thing, a label and its item.
    Space,
    /// A comma: cells of a row.
    Comma,
}

#[derive(Default)]
struct Voice {
    said: String,
    before: Before,
}

impl Voice {
    fn node(&mut self, node: &Node) {
        match node {
            Node::Item(Item::Text(text)) => self.say(&text.text),
            Node::Item(_) | Node::Artifact(_) => {}
            Node::Tagged(Tag::Figure(instead), _) => self.say(instead),
            Node::Tagged(
                Tag::Heading(_) | Tag::Paragraph | Tag::Row | Tag::ListItem | Tag::Section | Tag::Passage(_),
                nodes,
            ) => {
                self.close();
                self.all(nodes);
                self.close();
            }
            Node::Tagged(Tag::Cell | Tag::HeaderCell(_), nodes) => {
                if self.before == Before::Space {
                    self.before = Before::Comma;
                }
                self.all(nodes);
            }
            Node::Tagged(Tag::Table | Tag::List | Tag::Label | Tag::ListBody | Tag::Span(_), nodes) => self.all(nodes),
        }
    }

    fn all(&mut self, nodes: &[Node]) {
        for node in nodes {
            self.node(node);
        }
    }

    fn say(&mut self, text: &str) {
        let text = text.trim();
        if text.is_empty() {
            return;
        }
        self.said.push_str(match self.before {
            Before::Start => "",
            Before::Comma if !self.said.ends_with(STOPS) => ", ",
            Before::Comma | Before::Space => " ",
        });
        self.said.push_str(text);
        self.before = Before::Space;
    }

    /// Ends the sentence that has begun, if any.
    fn close(&mut self) {
        if self.before == Before::Start {
            return;
        }
        self.said.push_str(if self.said.ends_with(STOPS) { "\n" } else { ".\n" });
        self.before = Before::Start;
    }
}

/// What a sentence or a part of one can end with.
const STOPS: [char; 6] = ['.', '?', '!', ':', ';', ','];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Length, Point, Rect, Weight};
    use crate::sheets::page::{Paint, Reader, Scope, Text};

    fn line(text: &str) -> Item {
        let (at, size, frame) = (Point::ORIGIN, Length::pt(14), Rect::default());
        let text = text.to_owned();
        let (weight, paint, reader) = (Weight::Regular, Paint::BLACK, Reader::Learner);
        Item::Text(Text { at, size, weight, text, paint, reader, frame })
    }

    fn words(text: &str) -> Node {
        Node::Item(line(text))
    }

    #[test]
    fn rows_are_sentences_and_figures_are_told() {
        let row = |cells: [Node; 3]| Node::tagged(Tag::Row, cells);
        let head = |text: &str| Node::tagged(Tag::HeaderCell(Scope::Column), [words(text)]);
        let empty = Node::tagged(Tag::Cell, []);
        let picture = Node::Tagged(Tag::Figure("4 flats, 6 cubes".to_owned()), vec![words("not said")]);
        let page = [
            Node::tagged(Tag::Heading(1), [words("Sorting"), words("board")]),
            Node::tagged(
                Tag::Table,
                [
                    row([head("Numeral"), head("Words"), head("Blocks")]),
                    row([head("406"), empty, Node::tagged(Tag::Cell, [picture])]),
                ],
            ),
            Node::Artifact(vec![line("Page 3")]),
            Node::tagged(Tag::Paragraph, [words("Ready?")]),
        ];
        assert_eq!(read(page.iter()), "Sorting board.\nNumeral, Words, Blocks.\n406, 4 flats, 6 cubes.\nReady?\n");
        assert_eq!(read([].iter()), "");
    }
}
