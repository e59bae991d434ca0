//! The substitute's packet, read back by a reader that had no part in writing it: what the cover lists is where it says,
//! and what the key says is right.

use crate::support::packets::{self, Laid};
use crate::support::pdf;
use crate::support::sentences::{sentences, word_count};
use crate::support::setup;
use std::collections::BTreeSet;
use std::sync::OnceLock;

use placewright::lesson::teach::LONGEST;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::files::PacketKind;
use placewright::sheets::page::{Item, Node, Tag};
use placewright::spec::{SheetKind, SidesAsked};

const MODEL: &[u32] = &[406, 383];
const SORT: &[&[u32]] = &[&[640, 604, 460], &[338, 833, 500]];
const EXIT: &[u32] = &[911, 264, 170];

/// The packet and its file as read back, made once.
fn packet() -> &'static (Laid, Vec<pdf::Page>) {
    static MADE: OnceLock<(Laid, Vec<pdf::Page>)> = OnceLock::new();
    MADE.get_or_init(make)
}

fn make() -> (Laid, Vec<pdf::Page>) {
    let family = bundled(Bundled::Andika).expect("a font");
    let mut spec = setup::spec(50, MODEL, SORT, EXIT);
    // True-size blocks are slow to draw and say nothing here.
    spec.sheets.make.value.extend([SheetKind::Practice, SheetKind::Family]);
    spec.sheets.make.value.retain(|kind| !matches!(kind, SheetKind::Blocks | SheetKind::Mat | SheetKind::Layered));
    let lesson = setup::lesson(spec, MODEL, SORT, EXIT).expect("a lesson");
    let packet = packets::one(&lesson, &family, PacketKind::Substitute);
    let bytes = packet.bytes(&family, 1);
    (packet, pdf::read(&bytes))
}

/// All text of a page, a line each.
fn lines(page: &pdf::Page) -> Vec<&str> {
    page.texts.iter().map(|run| run.text.as_str()).collect()
}

#[test]
fn the_cover_lists_every_page_under_its_number() {
    let (packet, pages) = packet();
    let cover = packet.pages.iter().filter(|page| page.sheet == SheetKind::Cover).count();
    let text: Vec<&str> = pages[..cover].iter().flat_map(lines).collect();
    let mut next = cover + 1;
    for pair in text.windows(2) {
        let range: Vec<usize> = pair[0].split('\u{2013}').filter_map(|n| n.parse().ok()).collect();
        let (Some(&first), Some(&last)) = (range.first(), range.last()) else { continue };
        // What is laid out is counted in the same way, in small letters.
        if first != next || !pair[1].starts_with(char::is_uppercase) || pair[0].chars().any(char::is_alphabetic) {
            continue;
        }
        for page in first..=last {
            let name = &packet.pages[page - 1].name;
            assert!(name.starts_with(pair[1]), "page {page} is `{name}`, listed as `{}`", pair[1]);
            // The number printed at the foot of the page is the same.
            assert!(lines(&pages[page - 1]).contains(&page.to_string().as_str()), "{name}");
        }
        next = last + 1;
    }
    assert_eq!(next, pages.len() + 1, "listed up to page {}: {text:?}", next - 1);
}

#[test]
fn the_packet_has_its_pages_in_order() {
    let (packet, _) = packet();
    let mut kinds: Vec<SheetKind> = packet.pages.iter().map(|page| page.sheet).collect();
    kinds.dedup();
    let want = [
        SheetKind::Cover,
        SheetKind::Plan,
        SheetKind::Display,
        SheetKind::Record,
        SheetKind::WordBank,
        SheetKind::Board,
        SheetKind::Strips,
        SheetKind::Exit,
        SheetKind::Practice,
        SheetKind::Family,
        SheetKind::Key,
        SheetKind::Tally,
        SheetKind::SmallGroups,
    ];
    assert_eq!(kinds, want);
    assert!(packet.pages.iter().all(|page| page.learner.is_none()));
}

#[test]
fn the_key_answers_every_exit_number() {
    let (packet, pages) = packet();
    let key: Vec<&str> = packet
        .pages
        .iter()
        .zip(pages)
        .filter(|(page, _)| page.name.contains("quick checks"))
        .flat_map(|(_, page)| lines(page))
        .collect();
    let key = key.join(" ");
    // Each question is answered for all checks, and each exit number is on one of them.
    for question in ["Question 1", "Question 6"] {
        assert!(key.contains(question), "{key}");
    }
    for number in EXIT {
        assert!(key.contains(&number.to_string()), "{number}: {key}");
    }
    for slip in ["zero dropped", "digits at face value"] {
        assert!(key.contains(slip), "{slip}: {key}");
    }
}

#[test]
fn the_plans_times_run_from_0_to_the_end() {
    let (packet, pages) = packet();
    let plan = packet.pages.iter().zip(pages).filter(|(page, _)| page.sheet == SheetKind::Plan);
    let text: Vec<&str> = plan.flat_map(|(_, page)| lines(page)).collect();
    let mut end = 0;
    for line in text {
        let Some((from, to)) = line.split_once('\u{2013}') else { continue };
        let (Ok(from), Ok(to)) = (from.parse::<u32>(), to.parse::<u32>()) else { continue };
        // A phase that goes on over a page is named twice.
        assert!(from == end || to == end, "{line} after {end}");
        end = end.max(to);
    }
    assert_eq!(end, 50);
}

/// The text of each paragraph and list item, its lines joined.
fn paragraphs(node: &Node, found: &mut Vec<String>) {
    let Node::Tagged(tag, nodes) = node else { return };
    if matches!(tag, Tag::Paragraph | Tag::ListBody) && nodes.iter().any(|node| matches!(node, Node::Item(_))) {
        let mut lines = Vec::new();
        node.each(&mut |item| lines.extend(if let Item::Text(text) = item { Some(text.text.clone()) } else { None }));
        found.push(lines.join(" "));
    }
    for node in nodes {
        paragraphs(node, found);
    }
}

#[test]
fn no_sentence_of_cover_and_plan_is_long() {
    let (packet, _) = packet();
    let mut found = Vec::new();
    let pages = packet.pages.iter().filter(|page| matches!(page.sheet, SheetKind::Cover | SheetKind::Plan));
    pages.flat_map(|page| &page.layers).flat_map(|layer| &layer.nodes).for_each(|node| paragraphs(node, &mut found));
    assert!(found.len() > 60, "{}", found.len());
    for sentence in found.iter().flat_map(|text| sentences(text)) {
        assert!(word_count(sentence) <= LONGEST + usize::from(sentence.starts_with("Thinking:")), "{sentence}");
    }
}

/// The key of a board is found at once: it is one page. Beside each picture stands what it holds.
#[test]
fn the_key_of_a_board_is_one_page_and_counts_its_pictures() {
    let mut pictures = 0;
    for sample in crate::support::samples::all() {
        let teacher = sample.packets.iter().find(|packet| packet.kind == PacketKind::Teacher).expect("a packet");
        let keys = || teacher.pages.iter().filter(|page| page.sheet == SheetKind::Key && page.version.is_some());
        let letters: BTreeSet<_> = keys().map(|page| page.version).collect();
        assert_eq!(keys().count(), letters.len(), "{}", sample.name);
        for cell in keys().flat_map(|page| &page.layers).flat_map(|layer| &layer.nodes).flat_map(cells) {
            let [Node::Tagged(Tag::Figure(held), _), rest @ ..] = cell else { continue };
            let mut told = Vec::new();
            rest.iter().for_each(|node| {
                node.each(&mut |item| {
                    told.extend(if let Item::Text(text) = item { Some(text.text.clone()) } else { None })
                })
            });
            // Beside the picture a line a kind; to a listener one list, with its "and" where the language has one.
            assert_eq!(told.join(", "), held.replace(" y ", ", "), "{}", sample.name);
            pictures += 1;
        }
    }
    assert!(pictures > 100, "only {pictures} pictures seen");
}

/// What is in each cell of the tables below a node.
fn cells(node: &Node) -> Vec<&[Node]> {
    match node {
        Node::Tagged(Tag::Cell | Tag::HeaderCell(_), nodes) => vec![nodes],
        Node::Tagged(_, nodes) => nodes.iter().flat_map(cells).collect(),
        _ => Vec::new(),
    }
}

// A board with letter B and strips with letter A fit nothing: who has which letter is settled once.
#[test]
fn strips_that_come_apart_go_by_the_letter_of_the_packet() {
    let family = bundled(Bundled::Andika).expect("a font");
    let mut spec = setup::spec(50, MODEL, SORT, EXIT);
    spec.print.sides.value = SidesAsked::Two;
    spec.sheets.make.value.retain(|kind| !matches!(kind, SheetKind::Blocks | SheetKind::Mat | SheetKind::Layered));
    let lesson = setup::lesson(spec, MODEL, SORT, EXIT).expect("a lesson");
    let packet = packets::one(&lesson, &family, PacketKind::Substitute);
    let plan = packet.pages.iter().filter(|page| page.sheet == SheetKind::Plan);
    let plan = Laid { pages: plan.cloned().collect(), ..packet.clone() };
    let said: Vec<String> = pdf::read(&plan.bytes(&family, 1)).iter().map(|page| lines(page).join(" ")).collect();
    let said = said.join(" ");
    assert!(said.contains("Give each learner the strips with the letter and the number of their packet."), "{said}");
    assert_eq!(said.matches("get different letters").count(), 1, "{said}");
}
