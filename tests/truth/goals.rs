//! What a learner fills in has room for name and date, and says what the learner can do afterwards (the skill of a published
//! standard for these numbers: `Standard`).

use super::envelopes;
use super::packet::Envelope;
use super::read::{Block, blocks, whole};
use placewright::sheets::page::Page;
use placewright::spec::{Language, SheetKind};
use placewright::wording::plan::{Deed, Said};

/// The sheets on which all three must stand, page by page.
const WRITTEN: [SheetKind; 3] = [SheetKind::Record, SheetKind::Board, SheetKind::Practice];

/// How many texts of some pages are just this.
fn count<'p>(pages: impl IntoIterator<Item = &'p Page>, text: &str) -> usize {
    blocks(pages).iter().filter(|block| matches!(block, Block::Paragraph(said) if said == text)).count()
}

fn labels(held: &Envelope) -> [&'static str; 2] {
    if held.lesson.spec.language.value == Language::Es { ["Nombre", "Fecha"] } else { ["Name", "Date"] }
}

/// Board, recording sheet and practice of some lessons; checks apart.
fn pages_of<'e>(all: impl IntoIterator<Item = &'e Envelope>) -> usize {
    let mut read = 0;
    for held in all {
        let goal = held.lesson.can();
        for page in WRITTEN.into_iter().flat_map(|kind| held.masters(kind, None)) {
            for text in labels(held).into_iter().chain([goal.as_str()]) {
                assert_eq!(count([page], text), 1, "{}, {}: {text}", held.name, page.name);
            }
            read += 1;
        }
        let slips: usize =
            held.masters(SheetKind::Exit, None).flat_map(|page| &page.layers).map(|layer| layer.pieces.len()).sum();
        for text in labels(held) {
            assert_eq!(count(held.masters(SheetKind::Exit, None), text), slips, "{}: {text}", held.name);
        }
    }
    read
}

#[test]
fn every_sheet_that_learners_fill_in_has_name_and_date_and_says_what_they_can_do_afterwards() {
    assert!(pages_of(envelopes()) > 150);
}

/// On all slips of a check or on none, where they are full: of the samples, those with most to ask.
#[test]
fn a_check_says_it_where_there_is_room() {
    let mut full = Vec::new();
    for held in envelopes().iter().filter(|held| held.has(SheetKind::Exit)) {
        let (said, checks) = (count(held.masters(SheetKind::Exit, None), &held.lesson.can()), held.lesson.checks.len());
        assert!(said == 0 || said >= checks, "{}: on {said} of {checks}", held.name);
        if said == 0 {
            full.push(held.name.as_str());
        }
    }
    assert_eq!(full, FULL);
}

/// Six questions, one of them with a picture of up to 499 on two lines: nothing is left of its half page.
const FULL: [&str; 1] = ["ferry"];

#[test]
fn it_stands_in_both_languages_on_every_paper_at_both_sizes() {
    let mut all = Vec::new();
    for language in ["en", "es"] {
        for paper in ["letter", "a4"] {
            for size in ["standard", "large"] {
                for range in ["[11, 99]", "[100, 999]", "[1000, 9999]"] {
                    let text = format!(
                        "title = \"Goals\"\nlanguage = \"{language}\"\npaper = \"{paper}\"\n[numbers]\nrange = {range}\n\
                         [class]\nlearners = 3\n[print]\ntext = \"{size}\"\n[sheets]\n\
                         make = [\"record\", \"board\", \"strips\", \"exit\", \"practice\"]\n"
                    );
                    all.push(Envelope::of(&format!("{language} {paper} {size} {range}"), &text, None));
                }
            }
        }
    }
    assert!(pages_of(&all) > 72);
}

/// A lesson on trades opens with trades: what it looks for is what its pages say that a learner can do.
#[test]
fn the_opening_says_what_the_pages_are_about() {
    let mut read = [0; 2];
    for held in envelopes().iter().filter(|held| held.lesson.spec.minutes.value > 15) {
        let wording = held.lesson.wording();
        let said = [true, false].map(|hundreds| wording.say(&Said::TradeIdea { hundreds }, &held.lesson.usage()));
        let trades = held.lesson.teaches_trading();
        let plan = whole(held.of_kind(SheetKind::Plan));
        assert_eq!(said.iter().any(|said| plan.contains(said)), trades, "{}: {plan}", held.name);
        let other = wording.say(&Said::SameDigitIdea, &held.lesson.usage());
        assert!(!(trades && plan.contains(&other)), "{}: {plan}", held.name);
        read[usize::from(trades)] += 1;
    }
    assert!(read.iter().all(|read| *read > 0), "{read:?}");
}

/// Strips that go into envelopes are left behind with everything else.
#[test]
fn envelopes_that_are_collected_are_left_behind() {
    let mut read = [0; 2];
    for held in envelopes() {
        let (wording, usage) = (held.lesson.wording(), held.lesson.usage());
        let bagged = whole(held.of_kind(SheetKind::Plan)).contains(&wording.deed(&Deed::BagStrips, &usage));
        let cover = blocks(held.of_kind(SheetKind::Cover));
        let last = cover.last().expect("a last line").texts().join(" ");
        let told = last.contains("envelope") || last.contains("sobre");
        assert_eq!(told, bagged, "{}: {last}", held.name);
        read[usize::from(bagged)] += 1;
    }
    assert!(read.iter().all(|read| *read > 0), "{read:?}");
}
