//! What learners read in Spanish.

use super::Spanish;
use super::numbers::below_thirty;
use super::phrases::{counted, grade as grade_text, listed};
use crate::measure::Count;
use crate::number::{Content, Names, Number, Style};
use crate::wording::learner::{BankGroup, FirstOf, LearnerWords, WordBankWords};
use std::collections::BTreeSet;

/// What kinds of blocks are called on the sheets that they are cut out of, largest first: one, several, none.
const BLOCKS: [[&str; 3]; 4] = [
    ["bloque de mil", "bloques de mil", "ningún bloque de mil"],
    ["placa", "placas", "ninguna placa"],
    ["barra", "barras", "ninguna barra"],
    ["cubo", "cubos", "ningún cubo"],
];

impl LearnerWords for Spanish {
    fn name_label(&self) -> &'static str {
        "Nombre"
    }

    fn foot(&self, title: &str, grade: Option<&str>) -> String {
        grade.map_or_else(|| title.to_owned(), |given| format!("{title} \u{b7} {}", grade_text(given)))
    }

    fn page_of(&self, title: &str, page: usize, pages: usize) -> String {
        format!("{title} {page} de {pages}")
    }

    fn sheet_of(&self, name: &str, sheet: usize, sheets: usize) -> String {
        format!("{name}, hoja {sheet} de {sheets}")
    }

    fn step_of(&self, name: &str, step: u32, steps: u32) -> String {
        format!("{name}, paso {step} de {steps}")
    }

    fn for_board(&self, title: &str, page: usize, pages: usize) -> String {
        format!("{title} para el tablero {page} de {pages}")
    }

    fn model_title(&self, number: u32) -> String {
        format!("Número modelo {number}")
    }

    fn date_label(&self) -> &'static str {
        "Fecha"
    }

    fn board_note(&self, decoys: bool, marks: bool) -> &'static str {
        match (decoys, marks) {
            (true, false) => "Coloca cada tira en su fila. Aparta las que no van en ninguna.",
            (true, true) => {
                "Coloca cada tira en su fila; algunas no van en ninguna. Al terminar una fila, da vuelta a sus tiras: todas \
                 llevan la misma figura."
            }
            (false, false) => "Coloca cada tira en la fila que le toca.",
            (false, true) => {
                "Coloca cada tira en su fila. Al terminar una fila, da vuelta a sus tiras: todas llevan la misma figura."
            }
        }
    }

    fn board_note_written(&self, draws: bool) -> &'static str {
        if draws {
            "Mira cada fila. Escribe o dibuja el mismo número en todas las casillas."
        } else {
            "Mira cada fila. Escribe el mismo número en todas las casillas."
        }
    }

    fn with_scrap(&self, note: &str) -> String {
        format!("{note} Las partes rayadas sobran.")
    }

    fn strips_note(&self) -> &'static str {
        "Siéntate y recorta de lado a lado. Después separa cada fila."
    }

    fn check_title(&self, mark: u32) -> String {
        format!("Control rápido {mark}")
    }

    fn record_labels(&self) -> [&'static str; 2] {
        ["Mi número", "Dibujo"]
    }

    fn layered_note(&self, rows: Option<u32>) -> String {
        match rows {
            None => "Siéntate y recorta. Apila las tarjetas por el borde derecho.".to_owned(),
            Some(1) => "Cada fila es un juego. Primero se separan las filas.".to_owned(),
            Some(rows) => format!("Cada {rows} filas son un juego. Primero se separan los juegos."),
        }
    }

    fn mat_note(&self, pages: usize) -> Option<&'static str> {
        match pages {
            0 | 1 => None,
            2 => Some(
                "Recorta la página 2 por su borde izquierdo. Ponla sobre el borde derecho de la página 1, de modo que las \
                 marcas coincidan.",
            ),
            _ => Some(
                "Recorta todas las páginas menos la 1 por su borde izquierdo. Ponlas una sobre otra, de modo que las marcas \
                 coincidan.",
            ),
        }
    }

    fn mat_page(&self, title: &str, page: usize, pages: usize) -> String {
        format!("{title}, página {page} de {pages}")
    }

    fn ten_frame(&self) -> &'static str {
        "marco de diez vacío, 2 filas de 5"
    }

    fn blocks_note(&self) -> &'static str {
        "Siéntate para recortar. Primero las líneas largas, después las cortas."
    }

    fn print_true(&self) -> &'static str {
        "Imprima a tamaño real, 100 %, sin escalar."
    }

    fn print_checked(&self) -> String {
        format!(
            "{} Ponga una regla sobre estas dos líneas: si no miden 10 cm y 4 in (pulgadas), la página se escaló.",
            self.print_true()
        )
    }

    fn print_capitals(&self, beside: bool) -> &'static str {
        if beside {
            "BLOQUES \u{b7} 10 cm ARRIBA \u{b7} 4 in ABAJO \u{b7} AL 100 %"
        } else {
            "BLOQUES \u{b7} PRIMERA RAYA 10 cm \u{b7} SEGUNDA RAYA 4 in \u{b7} AL 100 %"
        }
    }

    fn scrap_capitals(&self) -> &'static str {
        "LO RAYADO SOBRA"
    }

    fn blocks_told(&self, counts: [u32; 4]) -> String {
        listed(&self.blocks_each(counts))
    }

    fn blocks_each(&self, counts: [u32; 4]) -> Vec<String> {
        let Some(from) = counts.iter().position(|count| *count > 0) else { return vec![self.no_pieces().to_owned()] };
        let told = BLOCKS.into_iter().zip(counts).skip(from).map(|([one, many, none], count)| match count {
            0 => none.to_owned(),
            _ => counted(count, one, many),
        });
        told.collect()
    }

    fn blocks_to_cut(&self, counts: [u32; 4]) -> String {
        format!("{} para recortar", Content::Blocks(counts).text(self))
    }

    fn cube_row(&self, count: usize) -> String {
        format!("fila de {count} cubos")
    }

    fn card(&self, text: &str) -> String {
        format!("tarjeta {text}")
    }
}

fn single(style: &Style, value: u32) -> Option<(String, String)> {
    let number = Number::new(value)?;
    Some((style.numeral(number), style.words(number)))
}

/// What heads the names of a single word.
const TO_TWENTY_NINE: &str = "Del 10 al 29";

impl WordBankWords for Spanish {
    fn bank(&self, numbers: &[Number], style: &Style) -> Vec<BankGroup> {
        let mut needed = BTreeSet::new();
        for number in numbers {
            needed.extend(style.words(*number).split(' ').map(str::to_owned));
        }
        let kinds: [(&'static str, Vec<u32>); 5] = [
            ("Unidades", (0..=9).collect()),
            (TO_TWENTY_NINE, (10..=29).collect()),
            ("Decenas", (3..=9).map(|n| n * 10).collect()),
            ("Centenas", (1..=9).map(|n| n * 100).collect()),
            ("Millares", vec![1_000]),
        ];
        let entries = |values: &[u32]| -> Vec<(String, String)> {
            let mut words: Vec<(String, String)> = values.iter().filter_map(|n| single(style, *n)).collect();
            words.retain(|(_, word)| needed.contains(word) || before(word).is_some_and(|other| needed.contains(other)));
            // What a numeral is read as comes first, then its name before something else.
            for (_, word) in &mut words {
                if let Some(other) = before(word).filter(|other| needed.contains(*other)) {
                    *word = format!("{word}, {other}\u{2026}");
                }
            }
            words
        };
        let titled = |title, words: &[(String, String)]| match words.last() {
            Some((last, _)) if title == TO_TWENTY_NINE && !last.starts_with('2') => "Del 10 al 19",
            Some((last, _)) if title == TO_TWENTY_NINE && last == "20" => "Del 10 al 20",
            _ => title,
        };
        let groups = kinds.into_iter().map(|(title, values)| {
            let words = entries(&values);
            BankGroup { title: titled(title, &words), words }
        });
        groups.filter(|group| !group.words.is_empty()).collect()
    }

    fn bank_notes(&self, first: &FirstOf<'_>, style: &Style) -> Vec<String> {
        let mut notes = Vec::new();
        if let Some(number) = first(&|number| style.words(number).contains(" y ")) {
            let words = style.words(number);
            notes.push(format!("Del 31 al 99, la «y» va entre las decenas y las unidades: {words}."));
        }
        if let Some(number) = first(&|number| (21..=29).contains(&(number.value() % 100))) {
            let tail = (number.value() % 100).index();
            notes.push(format!("Los números del 21 al 29 se escriben en una sola palabra: {}.", below_thirty(tail)));
        }
        notes
    }
}

/// What a number is called before something else, where that is not what it is called by itself: "ciento uno", "un mil" at the
/// end of a larger number.
fn before(word: &str) -> Option<&'static str> {
    match word {
        "cien" => Some("ciento"),
        "uno" => Some("un"),
        "veintiuno" => Some("veintiún"),
        _ => None,
    }
}
