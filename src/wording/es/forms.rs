//! What forms are called in Spanish.
//!
//! "Forma desarrollada" is the term of the Spanish editions of the Common Core State Standards (2.NBT.A.3) that districts of
//! the United States use, and of textbooks in Puerto Rico; Spain says "descomposición". From memory. A class that says it
//! otherwise names it under `[forms.names]`.

use super::Spanish;
use crate::number::{Form, Place};
use crate::wording::{FormTitles, Language};

impl FormTitles for Spanish {
    fn form_heading(&self, form: Form, greatest: Place) -> &'static str {
        match (form, greatest) {
            (Form::Numeral, _) => "En cifras",
            (Form::Words, _) => "En palabras",
            (Form::SecondWords, _) => "En palabras, en el otro idioma",
            (Form::Expanded, _) => "Forma desarrollada",
            (Form::Units, Place::Ones | Place::Tens) => "Decenas y unidades",
            (Form::Units, Place::Hundreds) => "Centenas, decenas y unidades",
            (Form::Units, _) => "Por posiciones",
            (Form::Regrouped, _) => "Reagrupado",
            (Form::Untraded, _) => "Bloques por canjear",
            (Form::Blocks, _) => "Bloques",
        }
    }

    fn words_in(&self, language: Language) -> &'static str {
        match language {
            Language::En => "Palabras en inglés",
            Language::Es => "Palabras en español",
            #[cfg(test)]
            Language::Marked => "Palabras en inglés marcado",
        }
    }

    fn form_plural(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral => "cifras",
            Form::Words => "palabras",
            Form::SecondWords => "palabras en el otro idioma",
            Form::Expanded => "formas desarrolladas",
            Form::Units => "números por posiciones",
            Form::Regrouped => "formas reagrupadas",
            Form::Blocks => "dibujos de bloques",
            Form::Untraded => "dibujos con bloques por canjear",
        }
    }

    fn form_one(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral => "un número en cifras",
            Form::Words => "un número en palabras",
            Form::SecondWords => "un número en palabras, en el otro idioma",
            Form::Expanded => "una forma desarrollada",
            Form::Units => "un número por posiciones",
            Form::Regrouped => "una forma reagrupada",
            Form::Blocks => "un dibujo de bloques",
            Form::Untraded => "un dibujo con bloques por canjear",
        }
    }

    fn form_written(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral => "cifras",
            Form::Words => "palabras",
            Form::SecondWords => "palabras en el otro idioma",
            Form::Expanded => "forma desarrollada",
            Form::Units => "centenas, decenas y unidades",
            Form::Regrouped => "una forma reagrupada",
            Form::Blocks => "un dibujo",
            Form::Untraded => "un dibujo con bloques por canjear",
        }
    }

    fn form_skill(&self, form: Form, _: Place) -> String {
        let skill = match form {
            Form::Numeral => "en cifras",
            Form::Words => "en palabras",
            Form::SecondWords => "palabras en el otro idioma",
            Form::Expanded => "forma desarrollada",
            Form::Units => "por posiciones",
            Form::Regrouped => "reagrupar",
            Form::Blocks => "dibujo de bloques",
            Form::Untraded => "canjear bloques",
        };
        skill.to_owned()
    }

    fn which_form(&self, form: Form, own: Option<&str>, numeral: &str) -> String {
        if let Some(own) = own {
            return format!("¿Cuál es {numeral} en la forma «{own}»?");
        }
        match form {
            Form::Numeral | Form::Units | Form::Regrouped => format!("¿Cuál vale lo mismo que {numeral}?"),
            Form::Words | Form::SecondWords => format!("¿Qué palabras dicen {numeral}?"),
            Form::Expanded => format!("¿Cuál es la forma desarrollada de {numeral}?"),
            Form::Blocks | Form::Untraded => format!("¿Qué dibujo muestra {numeral}?"),
        }
    }

    fn which_numeral(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral | Form::Expanded | Form::Units | Form::Regrouped => "¿Qué número es este?",
            Form::Words | Form::SecondWords => "¿Qué número dicen las palabras?",
            Form::Blocks | Form::Untraded => "¿Qué número muestra el dibujo?",
        }
    }

    fn write_numeral(&self, form: Form) -> &'static str {
        match form {
            Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Regrouped => {
                "Escríbelo en cifras."
            }
            Form::Blocks | Form::Untraded => "Escribe el número que muestra el dibujo.",
        }
    }
}
