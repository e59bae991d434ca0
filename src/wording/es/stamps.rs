//! What tells copies apart, in Spanish.

use super::Spanish;
use super::ticket::piece_word;
use crate::spec::{SheetKind, Version};
use crate::wording::Titles;
use crate::wording::stamps::{BackShape, BackStyle, PileSheet, Stamps};
use crate::wording::ticket::PiecesCut;

impl Stamps for Spanish {
    fn pile_sheet(&self, pile: usize, sheet: usize, back: bool) -> String {
        let side = if back { " (reverso)" } else { "" };
        format!("Pila {pile}, hoja {sheet}{side}")
    }

    fn pile_line(&self, at: PileSheet, back: bool, versions: &str, learners: &[(u32, u32)]) -> String {
        let side = if back { " \u{b7} reverso" } else { "" };
        let PileSheet { pile: (pile, piles), sheet: (sheet, sheets) } = at;
        let whose = if matches!(learners, [(first, last)] if first == last) { "estudiante" } else { "estudiantes" };
        format!(
            "Pila {pile} de {piles} \u{b7} hoja {sheet} de {sheets}{side} \u{b7} tiras {versions} \u{b7} {whose} {}",
            self.runs(learners)
        )
    }

    fn gang_line(&self, kind: SheetKind, pieces: PiecesCut, at: PileSheet, kits: (usize, usize)) -> String {
        let PileSheet { pile: (pile, piles), sheet: (sheet, sheets) } = at;
        let kits =
            if kits.0 == kits.1 { format!("juego {}", kits.0) } else { format!("juegos {} a {}", kits.0, kits.1) };
        format!(
            "{}: {} \u{b7} pila {pile} de {piles} \u{b7} hoja {sheet} de {sheets} \u{b7} {kits}",
            self.sheet_title(kind),
            piece_word(pieces)
        )
    }

    fn gang_name(&self, kind: SheetKind, pieces: PiecesCut, pile: usize, number: usize) -> String {
        format!("{}, {}, pila {pile}, hoja {number}", self.sheet_title(kind), piece_word(pieces))
    }

    fn kit_band(&self, kit: usize, kits: usize, holds: &str) -> String {
        format!("Juego {kit} de {kits} \u{b7} {holds}")
    }

    fn kit_code(&self, kit: u32) -> String {
        format!("Juego {kit}")
    }

    fn runs(&self, runs: &[(u32, u32)]) -> String {
        let word = |(first, last): &(u32, u32)| match last - first {
            0 => first.to_string(),
            1 => format!("{first}, {last}"),
            _ => format!("{first} a {last}"),
        };
        runs.iter().map(word).collect::<Vec<_>>().join(", ")
    }

    fn whose_set(&self, number: u32, spare: bool) -> String {
        if spare { format!("Repuesto {number}") } else { format!("Estudiante {number}") }
    }

    fn copy_of(&self, learner: u32, version: Option<Version>) -> String {
        let version = version.map(|version| format!(", versión {version}")).unwrap_or_default();
        format!("Estudiante {learner}{version}")
    }

    fn set_holds(&self, version: Version, strips: usize) -> String {
        format!("Versión {version} \u{b7} {strips} tiras")
    }

    fn back_of(&self, name: &str) -> String {
        format!("{name} (reverso)")
    }

    fn back_mark(&self, style: BackStyle, shape: BackShape, count: u8) -> String {
        let (one, many, feminine) = match shape {
            BackShape::Circle => ("círculo", "círculos", false),
            BackShape::Square => ("cuadrado", "cuadrados", false),
            BackShape::Triangle => ("triángulo", "triángulos", false),
            BackShape::Diamond => ("rombo", "rombos", false),
            BackShape::Cross => ("cruz", "cruces", true),
            BackShape::Hexagon => ("hexágono", "hexágonos", false),
            BackShape::House => ("casa", "casas", true),
            BackShape::BowTie => ("lazo", "lazos", false),
        };
        let style = match (style, feminine, count) {
            (BackStyle::Open, false, 1) => "vacío",
            (BackStyle::Open, false, _) => "vacíos",
            (BackStyle::Open, true, 1) => "vacía",
            (BackStyle::Open, true, _) => "vacías",
            (BackStyle::Dotted, ..) => "con un punto",
            (BackStyle::Dashed, ..) => "a rayas",
        };
        if count == 1 { format!("{one} {style}") } else { format!("{count} {many} {style}") }
    }
}
