//! What sheets are called in Spanish.

use super::Spanish;
use crate::spec::{PacketKind, SheetKind, Version};
use crate::wording::Titles;

impl Titles for Spanish {
    fn sheet_title(&self, kind: SheetKind) -> &'static str {
        match kind {
            SheetKind::Display => "Lámina",
            SheetKind::Mat => "Tapete de valor posicional",
            SheetKind::Blocks => "Bloques",
            SheetKind::Layered => "Tarjetas superpuestas",
            SheetKind::Record => "Hoja de registro",
            SheetKind::WordBank => "Banco de palabras",
            SheetKind::Board => "Tablero",
            SheetKind::Strips => "Tiras",
            SheetKind::Exit => "Control rápido",
            SheetKind::Key => "Respuestas",
            SheetKind::Tally => "Lista de la clase",
            SheetKind::SmallGroups => "Grupos pequeños",
            SheetKind::WarmUp => "Números de la semana",
            SheetKind::Practice => "Práctica",
            SheetKind::Family => "Para la familia",
            SheetKind::Plan => "Plan de clase",
            SheetKind::Cover => "Empiece aquí",
            SheetKind::Ticket => "Orden de trabajo",
        }
    }

    fn shared_key_title(&self, checks: bool, practice: bool, slips: bool) -> &'static str {
        match (checks, practice, slips) {
            (true, true, true) => "Respuestas: controles, práctica y errores",
            (true, true, false) => "Respuestas: controles y práctica",
            (true, false, true) => "Respuestas: controles y errores",
            (true, false, false) => "Respuestas: controles",
            (false, true, true) => "Respuestas: práctica y errores",
            (false, true, false) => "Respuestas: práctica",
            (false, false, _) => "Respuestas: errores",
        }
    }

    fn checks_from(&self, first: u32, last: u32) -> String {
        if first == last { format!("Control rápido {first}") } else { format!("Controles rápidos {first} a {last}") }
    }

    fn sheet_in_text(&self, kind: SheetKind, count: u32) -> &'static str {
        let (one, many) = match kind {
            SheetKind::Display => ("lámina", "láminas"),
            SheetKind::Mat => ("tapete de valor posicional", "tapetes de valor posicional"),
            SheetKind::Blocks => ("hoja de bloques", "bloques"),
            SheetKind::Layered => ("juego de tarjetas superpuestas", "tarjetas superpuestas"),
            SheetKind::Record => ("hoja de registro", "hojas de registro"),
            SheetKind::WordBank => ("banco de palabras", "bancos de palabras"),
            SheetKind::Board => ("tablero", "tableros"),
            SheetKind::Strips => ("página de tiras", "tiras"),
            SheetKind::Exit => ("control rápido", "controles rápidos"),
            SheetKind::Key => ("hoja de respuestas", "hojas de respuestas"),
            SheetKind::Tally => ("lista de la clase", "listas de la clase"),
            SheetKind::SmallGroups => ("página de grupos pequeños", "páginas de grupos pequeños"),
            SheetKind::WarmUp => ("hoja de números de la semana", "hojas de números de la semana"),
            SheetKind::Practice => ("página de práctica", "páginas de práctica"),
            SheetKind::Family => ("página para la familia", "páginas para la familia"),
            SheetKind::Plan => ("plan de clase", "planes de clase"),
            SheetKind::Cover => ("primera página", "primeras páginas"),
            SheetKind::Ticket => ("orden de trabajo", "órdenes de trabajo"),
        };
        if count == 1 { one } else { many }
    }

    fn goes_on(&self, title: &str) -> String {
        format!("{title} (continúa)")
    }

    fn page_name(&self, kind: SheetKind, version: Option<Version>) -> String {
        let title = self.sheet_title(kind);
        version.map_or_else(|| title.to_owned(), |version| format!("{title} {version}"))
    }

    fn packet_title(&self, packet: PacketKind, lesson: &str) -> String {
        let whose = match packet {
            PacketKind::Teacher => "docente",
            PacketKind::Paper => "copias en papel",
            PacketKind::PaperBothSides => "copias en papel, dos caras",
            PacketKind::Card => "copias en cartulina",
            PacketKind::CardBothSides => "copias en cartulina, dos caras",
            PacketKind::Ticket => "orden de trabajo",
            PacketKind::Substitute => "docente suplente",
        };
        format!("{lesson} ({whose})")
    }
}

/// What a sheet is called in a list of what is in a packet: its strips are several.
pub(super) fn in_packet(kind: SheetKind) -> &'static str {
    match kind {
        SheetKind::Strips => "tiras",
        kind => Spanish.sheet_in_text(kind, 1),
    }
}

/// So many of a sheet with their article: "la lámina", "los tableros".
pub(super) fn with_article(kind: SheetKind, count: u32) -> String {
    let article = match (is_feminine(kind), count) {
        (true, 1) => "la",
        (true, _) => "las",
        (false, 1) => "el",
        (false, _) => "los",
    };
    format!("{article} {}", Spanish.sheet_in_text(kind, count))
}

/// Whether a sheet's name in a sentence is feminine: "una lámina", "un tablero".
pub(super) const fn is_feminine(kind: SheetKind) -> bool {
    matches!(
        kind,
        SheetKind::Display
            | SheetKind::Blocks
            | SheetKind::Record
            | SheetKind::Strips
            | SheetKind::Key
            | SheetKind::Tally
            | SheetKind::SmallGroups
            | SheetKind::WarmUp
            | SheetKind::Practice
            | SheetKind::Family
            | SheetKind::Cover
            | SheetKind::Ticket
    )
}
