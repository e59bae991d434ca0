//! Strips that there is no time to cut: board, plan, cover and ticket all have them stay whole, and none of them copied.

use super::envelopes;
use super::packet::Envelope;
use super::read::{blocks, whole};
use crate::support::packets;
use placewright::lesson::timing::{self, StripUse};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::files::PacketKind;
use placewright::spec::{Language, SheetKind};
use placewright::wording::plan::Deed;

/// Whether learners write in the boxes of their boards although there are strips.
pub fn stay_whole(held: &Envelope) -> bool {
    let load = timing::load(&held.lesson.fullest, held.lesson.spec.minutes.value);
    load.strips == StripUse::Written && held.has(SheetKind::Strips)
}

#[test]
fn strips_that_nobody_has_time_to_cut_are_not_spoken_of_as_cut() {
    let family = bundled(Bundled::Andika).expect("a font");
    let mut read = [0; 2];
    for held in envelopes().iter().filter(|held| stay_whole(held)) {
        let (lesson, wording) = (&held.lesson, held.lesson.wording());
        let boards = held.of_kind(SheetKind::Board).chain(held.masters(SheetKind::Board, None));
        for page in boards {
            let text = whole([page]);
            assert!(text.contains(wording.board_note_written(lesson.draws_in_boxes())), "{}: {text}", held.name);
        }
        // They are handed in with the boards, so that they lie where they are looked for.
        let plan = whole(held.of_kind(SheetKind::Plan));
        let collected = |kinds: &[SheetKind]| wording.deed(&Deed::CollectSheets(kinds.to_vec()), &lesson.usage());
        let record = held.has(SheetKind::Record).then_some(SheetKind::Record);
        let kinds: Vec<SheetKind> = record.into_iter().chain([SheetKind::Board, SheetKind::Strips]).collect();
        assert!(plan.contains(&collected(&kinds)), "{}: {plan}", held.name);
        let cover = blocks(held.of_kind(SheetKind::Cover));
        let last = cover.last().expect("a last line").texts().join(" ");
        let strips = wording.sheet_in_text(SheetKind::Strips, held.learners());
        assert!(last.contains(strips), "{}: {last}", held.name);
        let ticket = packets::one(lesson, &family, PacketKind::Ticket);
        let (learners_cut, _) = wording.learners_cut(false);
        let texts = packets::texts(&ticket.pages);
        assert!(!texts.iter().any(|text| text == learners_cut), "{}: {texts:?}", held.name);
        let again = texts.iter().position(|text| text == wording.file_missing_title()).expect("what to copy");
        let title = wording.page_name(SheetKind::Strips, lesson.sets.first().map(|set| set.version)).to_lowercase();
        assert!(!texts[again..].iter().any(|text| text.to_lowercase().contains(&title)), "{}: {title}", held.name);
        read[usize::from(lesson.spec.language.value == Language::Es)] += 1;
    }
    assert!(read.iter().all(|read| *read > 0), "{read:?}");
}
