//! What tells copies apart, in English.

use super::English;
use super::ticket::piece_word;
use crate::spec::{SheetKind, Version};
use crate::wording::Titles;
use crate::wording::stamps::{BackShape, BackStyle, PileSheet, Stamps};
use crate::wording::ticket::PiecesCut;

impl Stamps for English {
    fn pile_sheet(&self, pile: usize, sheet: usize, back: bool) -> String {
        let side = if back { " (back)" } else { "" };
        format!("Pile {pile}, sheet {sheet}{side}")
    }

    fn pile_line(&self, at: PileSheet, back: bool, versions: &str, learners: &[(u32, u32)]) -> String {
        let side = if back { " \u{b7} back" } else { "" };
        let PileSheet { pile: (pile, piles), sheet: (sheet, sheets) } = at;
        let whose = if matches!(learners, [(first, last)] if first == last) { "learner" } else { "learners" };
        format!(
            "Pile {pile} of {piles} \u{b7} sheet {sheet} of {sheets}{side} \u{b7} strips {versions} \u{b7} {whose} {}",
            self.runs(learners)
        )
    }

    fn gang_line(&self, kind: SheetKind, pieces: PiecesCut, at: PileSheet, kits: (usize, usize)) -> String {
        let PileSheet { pile: (pile, piles), sheet: (sheet, sheets) } = at;
        let kits = if kits.0 == kits.1 { format!("kit {}", kits.0) } else { format!("kits {} to {}", kits.0, kits.1) };
        format!(
            "{}: {} \u{b7} pile {pile} of {piles} \u{b7} sheet {sheet} of {sheets} \u{b7} {kits}",
            self.sheet_title(kind),
            piece_word(pieces)
        )
    }

    fn gang_name(&self, kind: SheetKind, pieces: PiecesCut, pile: usize, number: usize) -> String {
        format!("{}, {}, pile {pile}, sheet {number}", self.sheet_title(kind), piece_word(pieces))
    }

    fn kit_band(&self, kit: usize, kits: usize, holds: &str) -> String {
        format!("Kit {kit} of {kits} \u{b7} {holds}")
    }

    fn kit_code(&self, kit: u32) -> String {
        format!("Kit {kit}")
    }

    fn runs(&self, runs: &[(u32, u32)]) -> String {
        let word = |(first, last): &(u32, u32)| match last - first {
            0 => first.to_string(),
            1 => format!("{first}, {last}"),
            _ => format!("{first} to {last}"),
        };
        runs.iter().map(word).collect::<Vec<_>>().join(", ")
    }

    fn whose_set(&self, number: u32, spare: bool) -> String {
        if spare { format!("Spare set {number}") } else { format!("Learner {number}") }
    }

    fn copy_of(&self, learner: u32, version: Option<Version>) -> String {
        let version = version.map(|version| format!(", version {version}")).unwrap_or_default();
        format!("Learner {learner}{version}")
    }

    fn set_holds(&self, version: Version, strips: usize) -> String {
        format!("Version {version} \u{b7} {strips} strips")
    }

    fn back_of(&self, name: &str) -> String {
        format!("{name} (back)")
    }

    fn back_mark(&self, style: BackStyle, shape: BackShape, count: u8) -> String {
        let style = match style {
            BackStyle::Open => "open",
            BackStyle::Dotted => "dotted",
            BackStyle::Dashed => "dashed",
        };
        let (one, many) = match shape {
            BackShape::Circle => ("circle", "circles"),
            BackShape::Square => ("square", "squares"),
            BackShape::Triangle => ("triangle", "triangles"),
            BackShape::Diamond => ("diamond", "diamonds"),
            BackShape::Cross => ("cross", "crosses"),
            BackShape::Hexagon => ("hexagon", "hexagons"),
            BackShape::House => ("house", "houses"),
            BackShape::BowTie => ("bow tie", "bow ties"),
        };
        if count == 1 { format!("{style} {one}") } else { format!("{count} {style} {many}") }
    }
}
