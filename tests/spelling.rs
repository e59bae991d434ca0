//! Words that the United States and other countries spell differently: a page has those of one country, by its paper.
//!
//! The pairs are common practice; any dictionary of either country has them.

use crate::support::samples;
use placewright::sheets::page::Item;
use placewright::spec::{Paper, SheetKind};
use placewright::wording::Spelling;

/// In the United States, elsewhere.
const PAIRS: [(&str, &str); 22] = [
    ("color", "colour"),
    ("colors", "colours"),
    ("colored", "coloured"),
    ("gray", "grey"),
    ("grays", "greys"),
    ("neighbor", "neighbour"),
    ("neighbors", "neighbours"),
    ("center", "centre"),
    ("favorite", "favourite"),
    ("labeled", "labelled"),
    ("canceled", "cancelled"),
    ("organize", "organise"),
    ("organized", "organised"),
    ("recognize", "recognise"),
    ("practicing", "practising"),
    ("math", "maths"),
    ("mom", "mum"),
    ("meters", "metres"),
    ("centimeters", "centimetres"),
    ("millimeters", "millimetres"),
    ("checkmark", "tick"),
    ("checkmarks", "ticks"),
];

#[test]
fn a_page_has_the_words_of_one_country() {
    let (mut states, mut elsewhere) = (0, 0);
    for sample in samples::all().iter() {
        for packet in &sample.packets {
            for page in &packet.pages {
                let short = page.size.width.min(page.size.height);
                let Some(paper) = Paper::ALL.into_iter().find(|paper| paper.size().width == short) else { continue };
                let here = Spelling::from(paper);
                let mut words = Vec::new();
                for node in page.layers.iter().flat_map(|layer| &layer.nodes) {
                    node.each(&mut |item| {
                        if let Item::Text(text) = item {
                            // The ticket also has the words of a standard for printers, one by one: "color".
                            let attribute = page.sheet == SheetKind::Ticket
                                && (text.text == "color" || text.text.contains("color-"));
                            let parts = text.text.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase);
                            words.extend(parts.filter(|_| !attribute));
                        }
                    });
                }
                for (ours, theirs) in PAIRS {
                    let wrong = here.of(theirs, ours);
                    // "color" is also Spanish.
                    let spanish = sample.name == "panaderia";
                    assert!(
                        spanish || !words.iter().any(|word| word == wrong),
                        "{} {}: {wrong}",
                        sample.name,
                        page.name
                    );
                }
                match here {
                    Spelling::UnitedStates => states += words.iter().filter(|word| *word == "neighbors").count(),
                    Spelling::Elsewhere => elsewhere += words.iter().filter(|word| *word == "neighbours").count(),
                }
            }
        }
    }
    assert!(states > 0 && elsewhere > 0, "{states} and {elsewhere}");
}

#[test]
fn paper_tells_the_country() {
    for (paper, spelling) in Paper::ALL.into_iter().zip([
        Spelling::UnitedStates,
        Spelling::UnitedStates,
        Spelling::UnitedStates,
        Spelling::Elsewhere,
        Spelling::Elsewhere,
    ]) {
        assert_eq!(Spelling::from(paper), spelling, "{paper:?}");
    }
}
