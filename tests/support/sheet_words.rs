//! Words that speak of a sheet.

use placewright::spec::SheetKind;

/// Words that are said of a sheet and of no other, in small letters.
pub fn speaks_of(kind: SheetKind) -> &'static [&'static str] {
    match kind {
        SheetKind::Display => &["display", "lámina", "láminas"],
        SheetKind::Mat => &["mat", "mats", "tapete", "tapetes"],
        SheetKind::Blocks => {
            &["flat", "flats", "rod", "rods", "cube", "cubes", "cut-out", "placa", "placas", "barras", "cubo", "cubos"]
        }
        SheetKind::Layered => &["card", "cards", "tarjeta", "tarjetas"],
        SheetKind::Record => &["recording", "registro"],
        SheetKind::WordBank => &["bank", "banks", "banco", "bancos"],
        SheetKind::Board => &["boards", "tablero", "tableros"],
        SheetKind::Strips => {
            &["strip", "strips", "scissors", "envelope", "envelopes", "tira", "tiras", "tijeras", "sobres"]
        }
        SheetKind::Exit => &["corner", "choice", "opción"],
        SheetKind::Tally => &["tally"],
        SheetKind::SmallGroups => &["groups"],
        SheetKind::WarmUp => &["warm-up"],
        SheetKind::Practice => &["practice page"],
        SheetKind::Family => &["family", "familia"],
        SheetKind::Key | SheetKind::Plan | SheetKind::Cover | SheetKind::Ticket => &[],
    }
}
