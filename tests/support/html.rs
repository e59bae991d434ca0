//! A small reader of the HTML that the program writes: tags in order, checked to be balanced.
//!
//! In: a page. Out: its tags with attributes and the text that follows each. It accepts less than browsers do.

/// A start tag.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    /// Its name.
    pub name: String,
    /// Its attributes in order.
    pub attributes: Vec<(String, String)>,
    /// The text inside, tags left out.
    pub text: String,
}

impl Element {
    /// An attribute's value.
    pub fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }
}

/// Elements without an end tag (WHATWG HTML, void elements).
const VOID: [&str; 4] = ["meta", "link", "img", "br"];

/// Every element of a page in the order of the start tags.
#[track_caller]
pub fn elements(page: &str) -> Vec<Element> {
    let body = page.strip_prefix("<!DOCTYPE html>").expect("a doctype");
    let mut all: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    let mut rest = body;
    while let Some(at) = rest.find('<') {
        let (text, tail) = rest.split_at(at);
        open.iter().for_each(|k| all[*k].text.push_str(text));
        let end = tail.find('>').expect("a tag ends");
        let tag = &tail[1..end];
        rest = &tail[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            let last = open.pop().map(|k| all[k].name.clone());
            assert_eq!(last.as_deref(), Some(name), "tags are balanced");
            continue;
        }
        let (name, attributes) = tag.split_once(' ').unwrap_or((tag, ""));
        all.push(Element { name: name.to_owned(), attributes: read(attributes), text: String::new() });
        if !VOID.contains(&name) {
            open.push(all.len() - 1);
        }
    }
    assert!(open.is_empty(), "{} elements are left open", open.len());
    all
}

/// `a="b" c="d"`
#[track_caller]
fn read(mut text: &str) -> Vec<(String, String)> {
    let mut all = Vec::new();
    while let Some((name, tail)) = text.split_once("=\"") {
        let (value, tail) = tail.split_once('"').expect("a quote ends");
        all.push((name.trim().to_owned(), value.to_owned()));
        text = tail;
    }
    assert!(text.trim().is_empty(), "{text}");
    all
}
