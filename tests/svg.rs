//! Pages and pictures as SVG: another library draws what the PDF shows, every XML reader understands it, and a listener
//! hears what is on it.

use std::collections::BTreeSet;

use placewright::sheets::page::{Node, Page, Tag};
use placewright::svg;
use resvg::usvg::roxmltree::{Document, Node as Element};

use crate::support::packets::Laid;
use crate::support::samples::Sample;
use crate::support::{raster, samples, svg as vector};

/// The pages of a sample that are looked at: every kind of page once, and of every file at least the last.
fn chosen(sample: &Sample) -> Vec<Laid> {
    let mut seen = BTreeSet::new();
    let packets = sample.packets.iter().map(|packet| {
        let last = packet.pages.len() - 1;
        let mut fresh = |page: &Page| seen.insert((page.sheet, page.size.width > page.size.height));
        let pages = packet.pages.iter().enumerate().filter(|(k, page)| fresh(page) || *k == last);
        let pages = pages.map(|(_, page)| page.clone()).collect();
        Laid { pages, ..packet.clone() }
    });
    packets.collect()
}

/// Dots to the point, so that the finest pen is a dot wide.
const SCALE: f64 = 2.0;

/// `resvg` draws the SVG and `hayro` the PDF of the same page. Both fill the same outlines but find by different ways how
/// much of a dot an edge covers. A letter that is missing or moved by a point is seen: see the test below.
#[test]
fn another_library_draws_what_the_pdf_shows() {
    let (mut pages, mut sum, mut worst) = (0, 0.0, (0.0, String::new()));
    for sample in samples::all() {
        for packet in chosen(sample) {
            let bytes = packet.bytes(&sample.family, 1);
            for (index, page) in packet.pages.iter().enumerate() {
                let name = format!("{}, {}: {}", sample.name, packet.file(), page.name);
                let printed = raster::draw_unmoved(&bytes, index, SCALE);
                let text = svg::page(page, &sample.family, 0);
                let drawn = vector::draw(&text, SCALE, (printed.width, printed.height));
                let apart = vector::difference(&drawn, &printed);
                assert!(alike(apart), "{name}: {apart:?}");
                pages += 1;
                sum += apart.mean;
                if apart.mean > worst.0 {
                    worst = (apart.mean, name);
                }
            }
        }
    }
    println!(
        "{pages} pages, mean difference {:.3} of 255, at most {:.3}: {}",
        sum / f64::from(pages),
        worst.0,
        worst.1
    );
}

/// Whether two pictures show the same: measured on all samples, the mean is 2.8 at most (a page full of words), the worst
/// square 32, and eight dots are black in one and white in the other: feet of a bold W that end at the edge of a row of
/// dots, on plans with many lines that begin with one.
fn alike(apart: vector::Difference) -> bool {
    apart.mean < 3.0 && apart.worst < 40.0 && apart.opposite <= 12
}

#[test]
fn a_difference_is_seen() {
    let sample = &samples::all()[0];
    let page = &sample.packets[0].pages[0];
    let packet = Laid { pages: vec![page.clone()], ..sample.packets[0].clone() };
    let printed = raster::draw_unmoved(&packet.bytes(&sample.family, 1), 0, SCALE);
    let size = (printed.width, printed.height);
    let text = svg::page(page, &sample.family, 0);
    let differs = |text: &str| !alike(vector::difference(&vector::draw(text, SCALE, size), &printed));
    assert!(!differs(&text));
    // Without the last letter; with a line of text a point lower; with one picture or line less.
    let last = text.rfind("<use ").expect("a letter");
    let end = last + text[last..].find("/>").expect("its end") + 2;
    assert!(differs(&format!("{}{}", &text[..last], &text[end..])));
    let line = text.find("<g transform").or(text.find("<g fill")).expect("a line of text");
    let moved = format!("{}<g transform=\"translate(0 1)\">{}", &text[..line], &text[line..]);
    assert!(differs(&moved.replace("</svg>", "</g></svg>")));
    let path = text.rfind("<path fill=\"none\"").expect("a line");
    let end = path + text[path..].find("/>").expect("its end") + 2;
    assert!(differs(&format!("{}{}", &text[..path], &text[end..])));
}

/// Every element that names another names one that is there, nothing is named twice, and nothing comes from elsewhere.
#[track_caller]
fn holds_together(document: &Document<'_>, prefix: &str) {
    let ids: Vec<&str> = document.descendants().filter_map(|element| element.attribute("id")).collect();
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "no id comes twice");
    assert!(ids.iter().all(|id| id.starts_with(prefix)), "{ids:?}");
    let used: BTreeSet<&str> = document.descendants().filter_map(|element| element.attribute("href")).collect();
    for to in &used {
        assert!(to.strip_prefix('#').is_some_and(|id| ids.contains(&id)), "{to}");
    }
    let drawn = ids.iter().filter(|id| !id.ends_with(['t', 'd']));
    assert_eq!(drawn.count(), used.len(), "what is defined is used");
}

fn child<'a>(document: &'a Document<'a>, name: &str) -> Element<'a, 'a> {
    document.root_element().children().find(|child| child.has_tag_name(name)).expect(name)
}

#[test]
fn pages_stand_by_themselves_and_side_by_side() {
    let sample = &samples::all()[0];
    for (id, page) in (0..).zip(sample.packets.iter().flat_map(|packet| packet.pages.iter().take(20))) {
        let text = svg::page(page, &sample.family, id);
        let document = Document::parse(&text).expect("XML");
        holds_together(&document, &format!("p{id}-"));
        let root = document.root_element();
        assert_eq!((root.tag_name().name(), root.attribute("role")), ("svg", Some("img")));
        assert_eq!(root.first_element_child().map(|first| first.tag_name().name()), Some("title"));
        assert_eq!(child(&document, "title").text(), Some(page.name.as_str()));
        let width: f64 = root.attribute("width").and_then(|width| width.strip_suffix("pt")?.parse().ok()).expect("pt");
        assert!((width - page.size.width.to_pt()).abs() < 0.001);
        assert!(text.contains(svg::MARK) && !text.contains("<text") && !text.contains("<image"));
        // The name space is the only address.
        assert_eq!(text.matches("http").count(), 1);
    }
}

/// The texts and the alternative texts of a page's nodes.
fn said<'n>(node: &'n Node, all: &mut Vec<&'n str>) {
    match node {
        Node::Tagged(Tag::Figure(instead), _) => all.push(instead),
        Node::Tagged(_, nodes) => nodes.iter().for_each(|node| said(node, all)),
        Node::Item(placewright::sheets::page::Item::Text(text)) => all.push(&text.text),
        Node::Item(_) | Node::Artifact(_) => {}
    }
}

#[test]
fn a_listener_hears_what_is_on_the_page() {
    for sample in samples::all() {
        for page in sample.packets.iter().flat_map(|packet| packet.pages.iter().take(12)) {
            let text = svg::page(page, &sample.family, 0);
            let document = Document::parse(&text).expect("XML");
            let mut all = Vec::new();
            page.layers.iter().flat_map(|layer| &layer.nodes).for_each(|node| said(node, &mut all));
            let described = document.descendants().find(|element| element.has_tag_name("desc"));
            let mut rest = described.and_then(|desc| desc.text()).unwrap_or_default();
            for part in all.iter().map(|part| part.trim()).filter(|part| !part.is_empty()) {
                let at = rest.find(part).unwrap_or_else(|| panic!("{}: `{part}` is not said in its turn", page.name));
                rest = &rest[at + part.len()..];
            }
        }
    }
}

/// The same page, the same text; a page drawn for another place differs in its ids alone.
#[test]
fn ids_alone_tell_copies_apart() {
    let sample = &samples::all()[0];
    let page = &sample.packets[0].pages[0];
    let (one, other) = (svg::page(page, &sample.family, 1), svg::page(page, &sample.family, 2));
    assert_eq!(one, svg::page(page, &sample.family, 1));
    assert_ne!(one, other);
    assert_eq!(one.replace("p1-", "p2-"), other);
}
