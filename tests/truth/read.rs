//! Finished pages as a reader meets them: headings, paragraphs, labelled lines and rows of tables, lines joined to sentences.

use placewright::sheets::page::{Item, Node, Page, Tag};

/// Something on a page that is read in one go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    Heading(String),
    Paragraph(String),
    /// An item of a list: what stands before it, and its paragraphs.
    Entry(String, Vec<String>),
    /// The cells of a row.
    Row(Vec<String>),
}

impl Block {
    /// Its sentences, none of them a label.
    pub fn texts(&self) -> Vec<&str> {
        match self {
            Self::Heading(text) | Self::Paragraph(text) => vec![text],
            Self::Entry(_, texts) | Self::Row(texts) => texts.iter().map(String::as_str).collect(),
        }
    }
}

/// Everything on some pages, in reading order.
pub fn blocks<'p>(pages: impl IntoIterator<Item = &'p Page>) -> Vec<Block> {
    let mut found = Vec::new();
    for node in pages.into_iter().flat_map(|page| &page.layers).flat_map(|layer| &layer.nodes) {
        walk(node, &mut found);
    }
    found
}

/// All that some pages say, in one text.
pub fn whole<'p>(pages: impl IntoIterator<Item = &'p Page>) -> String {
    blocks(pages).iter().flat_map(Block::texts).collect::<Vec<_>>().join("\n")
}

fn walk(node: &Node, found: &mut Vec<Block>) {
    let Node::Tagged(tag, nodes) = node else { return };
    match tag {
        Tag::Heading(_) => found.push(Block::Heading(text(node))),
        Tag::Paragraph => found.push(Block::Paragraph(text(node))),
        Tag::ListItem => found.push(entry(nodes)),
        Tag::Row => found.push(Block::Row(nodes.iter().map(text).collect())),
        _ => nodes.iter().for_each(|node| walk(node, found)),
    }
}

/// A part that is read by itself, and not words in another language inside one.
fn is_part(node: &Node) -> bool {
    matches!(node, Node::Tagged(tag, _) if !matches!(tag, Tag::Span(_)))
}

fn entry(nodes: &[Node]) -> Block {
    let (mut label, mut texts) = (String::new(), Vec::new());
    for node in nodes {
        match node {
            Node::Tagged(Tag::Label, _) => label = text(node),
            Node::Tagged(Tag::ListBody, inside) if inside.iter().any(is_part) => {
                texts.extend(inside.iter().filter(|node| is_part(node)).map(text));
            }
            Node::Tagged(..) => texts.push(text(node)),
            _ => {}
        }
    }
    Block::Entry(label, texts)
}

/// The lines of a node in one; pictures as they are told.
fn text(node: &Node) -> String {
    fn lines(node: &Node, found: &mut Vec<String>) {
        match node {
            Node::Tagged(Tag::Figure(told), _) => found.push(told.clone()),
            Node::Tagged(_, nodes) => nodes.iter().for_each(|node| lines(node, found)),
            Node::Item(Item::Text(text)) => found.push(text.text.clone()),
            _ => {}
        }
    }
    let mut found = Vec::new();
    lines(node, &mut found);
    // A narrow space between thousands and hundreds is read as the comma that stands there elsewhere.
    found.join(" ").replace('\u{202f}', ",").replace('\u{a0}', " ")
}

/// What stands in the holes of a pattern, each as short as it can be: `fit("{} of {}", "3 of 4")`.
pub fn fit<'t>(pattern: &str, text: &'t str) -> Option<Vec<&'t str>> {
    let (first, rest) = pattern.split_once("{}").unwrap_or((pattern, ""));
    let after = text.strip_prefix(first)?;
    if first.len() == pattern.len() {
        return after.is_empty().then(Vec::new);
    }
    (1..=after.len()).filter(|end| after.is_char_boundary(*end)).find_map(|end| {
        let (hole, tail) = after.split_at(end);
        let mut holes = vec![hole];
        holes.extend(fit(rest, tail)?);
        Some(holes)
    })
}

#[test]
fn holes_are_found() {
    assert_eq!(fit("{} of {}.", "3 of 4."), Some(vec!["3", "4"]));
    assert_eq!(fit("Make {}", "Make 1 of 2"), Some(vec!["1 of 2"]));
    assert_eq!(fit("Make {}!", "Make 1"), None);
    assert_eq!(fit("All.", "All."), Some(Vec::new()));
}
