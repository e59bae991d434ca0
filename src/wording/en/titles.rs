//! What sheets are called in English.

use super::English;
use crate::spec::{SheetKind, Version};
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
            SheetKind::Plan => "Lesson plan",
            SheetKind::Cover => "Start here",
            SheetKind::Ticket => "Job ticket",
        }
    }

    fn checks_key_title(&self) -> &'static str {
        "Key: quick checks"
    }

    fn page_name(&self, kind: SheetKind, version: Option<Version>) -> String {
        let title = self.sheet_title(kind);
        version.map_or_else(|| title.to_owned(), |version| format!("{title} {version}"))
    }
}
