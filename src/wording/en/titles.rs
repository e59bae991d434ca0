//! What sheets are called in English.

use super::English;
use crate::spec::{PacketKind, SheetKind, Version};
use crate::wording::Titles;

impl Titles for English {
    fn sheet_title(&self, kind: SheetKind) -> &'static str {
        match kind {
            SheetKind::Display => "Display",
            SheetKind::Mat => "Place-value mat",
            SheetKind::Blocks => "Blocks",
            SheetKind::Layered => "Layered cards",
            SheetKind::Record => "Recording sheet",
            SheetKind::WordBank => "Word bank",
            SheetKind::Board => "Sorting board",
            SheetKind::Strips => "Strips",
            SheetKind::Exit => "Quick check",
            SheetKind::Key => "Key",
            SheetKind::Tally => "Class tally",
            SheetKind::SmallGroups => "Small groups",
            SheetKind::WarmUp => "Warm-up",
            SheetKind::Practice => "Practice",
            SheetKind::Family => "For your family",
            SheetKind::Plan => "Lesson plan",
            SheetKind::Cover => "Start here",
            SheetKind::Ticket => "Job ticket",
        }
    }

    fn shared_key_title(&self, checks: bool, practice: bool, slips: bool) -> &'static str {
        match (checks, practice, slips) {
            (true, true, true) => "Key: quick checks, practice and slips",
            (true, true, false) => "Key: quick checks and practice",
            (true, false, true) => "Key: quick checks and slips",
            (true, false, false) => "Key: quick checks",
            (false, true, true) => "Key: practice and slips",
            (false, true, false) => "Key: practice",
            (false, false, _) => "Key: slips",
        }
    }

    fn checks_from(&self, first: u32, last: u32) -> String {
        if first == last { format!("Quick check {first}") } else { format!("Quick checks {first} to {last}") }
    }

    fn sheet_in_text(&self, kind: SheetKind, count: u32) -> &'static str {
        let (one, many) = match kind {
            SheetKind::Display => ("display page", "display pages"),
            SheetKind::Mat => ("place-value mat", "place-value mats"),
            SheetKind::Blocks => ("sheet of blocks", "blocks"),
            SheetKind::Layered => ("set of layered cards", "layered cards"),
            SheetKind::Record => ("recording sheet", "recording sheets"),
            SheetKind::WordBank => ("word bank", "word banks"),
            SheetKind::Board => ("sorting board", "sorting boards"),
            SheetKind::Strips => ("page of strips", "strips"),
            SheetKind::Exit => ("quick check", "quick checks"),
            SheetKind::Key => ("key", "keys"),
            SheetKind::Tally => ("class tally", "class tallies"),
            SheetKind::SmallGroups => ("small-groups page", "small-groups pages"),
            SheetKind::WarmUp => ("warm-up page", "warm-up pages"),
            SheetKind::Practice => ("practice page", "practice pages"),
            SheetKind::Family => ("page for the family", "pages for the family"),
            SheetKind::Plan => ("lesson plan", "lesson plans"),
            SheetKind::Cover => ("first page", "first pages"),
            SheetKind::Ticket => ("job ticket", "job tickets"),
        };
        if count == 1 { one } else { many }
    }

    fn goes_on(&self, title: &str) -> String {
        format!("{title} (goes on)")
    }

    fn page_name(&self, kind: SheetKind, version: Option<Version>) -> String {
        let title = self.sheet_title(kind);
        version.map_or_else(|| title.to_owned(), |version| format!("{title} {version}"))
    }

    fn packet_title(&self, packet: PacketKind, lesson: &str) -> String {
        let whose = match packet {
            PacketKind::Teacher => "teacher",
            PacketKind::Paper => "class sets on paper",
            PacketKind::PaperBothSides => "class sets on paper, both sides",
            PacketKind::Card => "class sets on card",
            PacketKind::CardBothSides => "class sets on card, both sides",
            PacketKind::Ticket => "job ticket",
            PacketKind::Substitute => "substitute",
        };
        format!("{lesson} ({whose})")
    }
}

/// What a sheet is called in a list of what is in a packet: its strips are several.
pub(super) fn in_packet(kind: SheetKind) -> &'static str {
    match kind {
        SheetKind::Strips => "strips",
        kind => English.sheet_in_text(kind, 1),
    }
}
