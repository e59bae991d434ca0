//! The layouts that are compiled in.

use crate::spec::SheetKind;

/// What all pages share: heading and foot.
pub(super) const PAGE: &str = include_str!("../../../../layouts/page.toml");

/// The text of a sheet's layout file.
pub(super) const fn of(kind: SheetKind) -> &'static str {
    match kind {
        SheetKind::Display => include_str!("../../../../layouts/display.toml"),
        SheetKind::Mat => include_str!("../../../../layouts/mat.toml"),
        SheetKind::Blocks => include_str!("../../../../layouts/blocks.toml"),
        SheetKind::Layered => include_str!("../../../../layouts/layered.toml"),
        SheetKind::Record => include_str!("../../../../layouts/record.toml"),
        SheetKind::WordBank => include_str!("../../../../layouts/word-bank.toml"),
        SheetKind::Board => include_str!("../../../../layouts/board.toml"),
        SheetKind::Strips => include_str!("../../../../layouts/strips.toml"),
        SheetKind::Exit => include_str!("../../../../layouts/exit.toml"),
        SheetKind::Key => include_str!("../../../../layouts/key.toml"),
        SheetKind::Tally => include_str!("../../../../layouts/tally.toml"),
        SheetKind::SmallGroups => include_str!("../../../../layouts/small-groups.toml"),
        SheetKind::WarmUp => include_str!("../../../../layouts/warm-up.toml"),
        SheetKind::Practice => include_str!("../../../../layouts/practice.toml"),
        SheetKind::Family => include_str!("../../../../layouts/family.toml"),
        SheetKind::Plan => include_str!("../../../../layouts/plan.toml"),
        SheetKind::Cover => include_str!("../../../../layouts/cover.toml"),
        SheetKind::Ticket => include_str!("../../../../layouts/ticket.toml"),
    }
}
