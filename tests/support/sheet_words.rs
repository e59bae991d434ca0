//! Words that speak of a sheet.

use placewright::spec::SheetKind;

/// Words that are said of a sheet and of no other, in small letters.
pub fn speaks_of(kind: SheetKind) -> &'static [&'static str] {
    match kind {
        SheetKind::Display => &["display"],
        SheetKind::Mat => &["mat", "mats"],
        SheetKind::Blocks => &["flat", "flats", "rod", "rods", "cube", "cubes", "cut-out"],
        SheetKind::Layered => &["card", "cards"],
        SheetKind::Record => &["recording"],
        SheetKind::WordBank => &["bank", "banks"],
        SheetKind::Board => &["boards"],
        SheetKind::Strips => &["strip", "strips", "scissors", "envelope", "envelopes"],
        SheetKind::Exit => &["corner", "choice"],
        SheetKind::Tally => &["tally"],
        SheetKind::SmallGroups => &["groups"],
        SheetKind::WarmUp => &["warm-up"],
        SheetKind::Practice => &["practice page"],
        SheetKind::Family => &["family"],
        SheetKind::Key | SheetKind::Plan | SheetKind::Cover | SheetKind::Ticket => &[],
    }
}
