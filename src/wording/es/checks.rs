//! What quick checks ask in Spanish.

use super::Spanish;
use crate::number::Skill;
use crate::wording::{Checks, Phrases};

impl Checks for Spanish {
    fn skill(&self, skill: Skill) -> &'static str {
        match skill {
            Skill::Picture => "dibujo de bloques",
            Skill::Words => "en palabras",
            Skill::SecondWords => "palabras en el otro idioma",
            Skill::Worth => "valor de una cifra",
            Skill::Expanded => "forma desarrollada",
            Skill::Zero => "el cero en su lugar",
            Skill::Regrouping => "reagrupar",
            Skill::Trading => "bloques por canjear",
            Skill::Compare => "número mayor",
            Skill::Reading => "leer números",
            Skill::Joining => "unir partes",
        }
    }

    fn worth_question(&self, digit: u8, numeral: &str) -> String {
        format!("¿Cuánto vale el {digit} en {numeral}?")
    }

    fn greater_question(&self, one: &str, other: &str) -> String {
        format!("¿Cuál es mayor, {}?", self.either(&[one, other]))
    }

    fn digit_of(&self, digit: u8, numeral: &str) -> String {
        format!("el {digit} de {numeral}")
    }

    fn both_equal(&self) -> &'static str {
        "Son iguales"
    }
}
