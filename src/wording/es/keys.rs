//! What answers, class list and small groups are headed with in Spanish.

use super::Spanish;
use super::phrases::quoted;
use crate::number::Counted;
use crate::spec::Version;
use crate::wording::keys::{GroupLabels, KeyWords, TallyWords};
use crate::wording::{Checks, Phrases};

impl KeyWords for Spanish {
    fn letters(&self) -> (&'static str, &'static str) {
        ("Qué significa cada letra", "Una letra significa el mismo error en todas las páginas.")
    }

    fn letters_heads(&self) -> [&'static str; 4] {
        ["Error", "En esta clase", "Qué piensa quien lo hace", "Qué ayuda"]
    }

    fn answer_for(&self, answer: &str, shown: &str) -> String {
        // "8 por 4" would be a product.
        format!("{} en vez de {}", quoted(answer), quoted(shown))
    }

    fn worth_taken(&self, answer: &str, digit: u8, numeral: &str) -> String {
        format!("{answer} como valor del {digit} de {numeral}")
    }

    fn greater_taken(&self, answer: &str, two: [&str; 2]) -> String {
        let two = self.list(&two);
        if answer == self.both_equal() {
            format!("{answer}: {two}")
        } else {
            format!("{answer} como el mayor de {two}")
        }
    }

    fn board_answered(&self, version: Version, board: bool) -> String {
        format!("{} {version}, resuelto", if board { "Tablero" } else { "Juego" })
    }

    fn other_trades(&self, numeral: &str, counted: &Counted, instead: bool) -> String {
        self.any_trade(numeral, counted, instead)
    }

    fn decoys(&self) -> (&'static str, &'static str) {
        (
            "Tiras falsas",
            "Estas tiras no van en ninguna fila. Al colocar una de ellas, el estudiante deja ver cómo piensa. Lo que ayuda está junto a la letra del \
             error, al final de estas respuestas.",
        )
    }

    fn decoys_heads(&self) -> [&'static str; 5] {
        ["Tira", "Muestra", "Sale de", "Error", "Qué piensa quien lo hace"]
    }

    fn right_answers(&self) -> &'static str {
        "Controles rápidos: respuestas correctas"
    }

    fn question_heads(&self) -> [&'static str; 4] {
        ["Control", "Pregunta", "Respuesta correcta", "Opción equivocada y su error"]
    }

    fn question(&self, number: usize, skill: Option<&str>) -> String {
        skill.map_or_else(|| format!("Pregunta {number}"), |skill| format!("Pregunta {number}: {skill}"))
    }
}

impl TallyWords for Spanish {
    fn tally_note(&self) -> &'static str {
        "Una marca significa que sí. Deje la casilla vacía cuando no lo haya visto."
    }

    fn builds(&self, blocks: bool) -> &'static str {
        if blocks { "lo arma" } else { "lo muestra" }
    }

    fn tally_heads(&self) -> [&'static str; 3] {
        ["Sabe hacer", "Errores vistos", "Estudiante"]
    }
}

impl GroupLabels for Spanish {
    fn build_line(&self, build: &str) -> String {
        format!("Tarea: {build}")
    }

    fn own_line(&self, whose: &str, build: &str, ask: &str) -> String {
        format!("{whose}. {build} {ask}")
    }

    fn ask_line(&self, question: &str, answer: &str) -> String {
        format!("Pregunte: {question} Respuesta esperada: {answer}")
    }

    fn try_line(&self, how: &str, gone: &str) -> String {
        format!("Después: {how} {gone}")
    }
}
