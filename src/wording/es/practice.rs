//! What the practice page asks in Spanish.

use super::Spanish;
use super::phrases::listed;
use crate::spec::Version;
use crate::wording::PracticeWords;

impl PracticeWords for Spanish {
    fn write_number(&self) -> &'static str {
        "Escribe el número:"
    }

    fn compare_signs(&self) -> &'static str {
        "Escribe <, = o > en cada círculo."
    }

    fn write_in_order(&self) -> &'static str {
        "Escribe los números en orden. Empieza por el menor."
    }

    fn at_the_arrow(&self) -> &'static str {
        "¿Qué número señala la flecha?"
    }

    fn line_told(&self, from: &str, to: &str) -> String {
        format!("Una recta numérica de {from} a {to} en diez partes iguales. Una flecha señala una marca.")
    }

    fn ring_the_odd(&self) -> &'static str {
        "Tres muestran el mismo número. Encierra en un círculo el que es diferente."
    }

    fn practice_answers(&self, letters: &[Version]) -> String {
        let letters: Vec<String> = letters.iter().map(ToString::to_string).collect();
        if letters.is_empty() {
            return "Práctica: respuestas correctas".to_owned();
        }
        format!("Práctica {}: respuestas correctas", listed(&letters))
    }

    fn practice_heads(&self) -> [&'static str; 3] {
        ["Ejercicio", "Respuesta correcta", "Respuesta incorrecta y su error"]
    }

    fn taken_for_greater(&self, lesser: &str, greater: &str) -> String {
        format!("{lesser} tomado como mayor que {greater}")
    }

    fn overlooked(&self) -> &'static str {
        "todos parecen correctos"
    }
}
