//! What to lay out before the lesson, with counts for this class.

use crate::lesson::Lesson;
use crate::lesson::say::{counted, counted_s, list, piece};
use crate::number::{Number, Place};
use crate::spec::{Cut, SheetKind};

use super::makes;

/// One thing to lay out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Material {
    /// How many.
    pub count: u32,
    /// What.
    pub what: String,
    /// What else there is to know; may be empty.
    pub note: String,
}

/// All that the lesson needs, paper first.
pub fn materials(lesson: &Lesson) -> Vec<Material> {
    let spec = &lesson.spec;
    let (learners, spares) = (spec.class.learners.value, spec.class.spares.value);
    let copies = learners + spares;
    let spare =
        if spares == 0 { String::new() } else { format!("{} and {}", counted_s(learners, "learner"), spare(spares)) };
    let mut all = Vec::new();
    let mut add = |count: u32, what: &str, note: String| all.push(Material { count, what: what.to_owned(), note });
    let built = !lesson.chosen.model.is_empty() && lesson.chosen.model.iter().all(|n| *n <= Number::MAX_BLOCKS);
    let sort = !lesson.sets.is_empty() && lesson.sets.iter().any(|set| !set.rows.is_empty());
    if makes(lesson, SheetKind::Display) && !lesson.chosen.model.is_empty() {
        let pages = u32::try_from(lesson.chosen.model.len()).unwrap_or(u32::MAX);
        add(
            pages,
            if pages == 1 { "display page" } else { "display pages" },
            "for the wall or a document camera".to_owned(),
        );
    }
    for (sheet, what) in [
        (SheetKind::Mat, "place-value mats"),
        (SheetKind::Layered, "sets of layered cards"),
        (SheetKind::Record, "record sheets"),
        (SheetKind::WordBank, "word banks"),
    ] {
        if makes(lesson, sheet) {
            add(copies, what, spare.clone());
        }
    }
    if built {
        let from = if makes(lesson, SheetKind::Blocks) { "cut out before the lesson" } else { "from the class tub" };
        add(copies, "sets of blocks", format!("{from}; each with {}", pieces_needed(lesson)));
    }
    if sort && makes(lesson, SheetKind::Board) {
        add(copies, "sorting boards", versions(lesson));
    }
    if sort && makes(lesson, SheetKind::Strips) {
        let cut = spec.print.cut.value == Cut::Scissors;
        let note = if cut { "uncut: each learner cuts a page" } else { "cut already: one pile is one learner's set" };
        add(copies, "sets of strips", format!("{note}; {}", versions(lesson)));
        add(learners, "envelopes", "one for each learner's strips".to_owned());
        if cut {
            add(learners, "pairs of scissors", "blunt tips; count them out and back in".to_owned());
        }
    }
    if !lesson.chosen.exit.is_empty() && makes(lesson, SheetKind::Exit) {
        add(copies, "quick checks", spare.clone());
    }
    add(learners, "pencils", String::new());
    if makes(lesson, SheetKind::Tally) {
        add(1, "tally sheet", "for you".to_owned());
    }
    all
}

fn spare(count: u32) -> String {
    if count == 1 { "1 spare".to_owned() } else { format!("{count} spares") }
}

fn versions(lesson: &Lesson) -> String {
    let letters: Vec<String> = lesson.sets.iter().map(|set| set.version.to_string()).collect();
    if letters.len() == 1 { "all alike".to_owned() } else { format!("versions {}", list(&letters)) }
}

/// The blocks that one learner needs to build any of the model and sort numbers: the largest count of each place.
fn pieces_needed(lesson: &Lesson) -> String {
    let numbers = || lesson.chosen.model.iter().chain(lesson.chosen.sort.iter().flatten());
    let most = |place: Place| {
        numbers().filter(|n| **n <= Number::MAX_BLOCKS).map(|n| u32::from(n.digit(place))).max().unwrap_or(0)
    };
    let parts: Vec<String> = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones]
        .into_iter()
        .filter_map(|place| {
            let (one, many) = piece(place)?;
            let count = most(place);
            (count > 0).then(|| counted(count, one, many))
        })
        .collect();
    if parts.is_empty() { "nothing to build".to_owned() } else { list(&parts) }
}
