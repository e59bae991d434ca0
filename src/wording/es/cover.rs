//! What the substitute's first page says in Spanish.

use super::Spanish;
use super::phrases::{counted, listed};
use crate::number::{Form, Number};
use crate::wording::cover::{Caution, CoverWords, PageRange};
use crate::wording::{Phrases, Usage};

/// "la página 3", "las páginas 3–5".
fn on(pages: PageRange) -> String {
    let noun = if pages.first == pages.last { "la página" } else { "las páginas" };
    format!("{noun} {}", pages.figures())
}

/// "la página 3", "las páginas 3–5 y 8".
fn on_all(pages: &[PageRange]) -> String {
    if let [one] = pages {
        return on(*one);
    }
    let figures: Vec<String> = pages.iter().map(|pages| pages.figures()).collect();
    format!("las páginas {}", listed(&figures))
}

impl CoverWords for Spanish {
    fn cover_heading(&self, title: &str) -> String {
        format!("Empiece aquí: {title}")
    }

    fn cover_again(&self) -> &'static str {
        "Empiece aquí, continuación"
    }

    fn cover_note(&self, minutes: u32, learners: u32, grade: Option<&str>) -> String {
        let grade = grade.map(|grade| format!(", grado {grade}")).unwrap_or_default();
        format!(
            "Para quien da hoy esta clase: {}, {}{grade}.",
            counted(minutes, "minuto", "minutos"),
            self.learners(learners)
        )
    }

    fn first_title(&self) -> &'static str {
        "Los primeros cinco minutos"
    }

    fn read_plan(&self, pages: PageRange) -> String {
        format!(
            "Lea el plan en {}: las líneas en negrita se dicen en voz alta, y cada pregunta lleva al lado su respuesta.",
            on(pages)
        )
    }

    fn lay_out_first(&self) -> &'static str {
        "Ponga lo que hay que preparar en una mesa aparte. No reparta nada todavía."
    }

    fn write_first(&self, number: Number, usage: &Usage<'_>) -> String {
        format!("Escriba {} en el pizarrón: con ese número empieza la clase.", usage.style.numeral(number))
    }

    fn answers_on(&self, boards: Option<PageRange>, checks: Option<PageRange>) -> String {
        match (boards, checks) {
            (Some(boards), Some(checks)) => format!(
                "Las respuestas de tableros y tiras están en {}; las de los controles rápidos, en {}.",
                on(boards),
                on(checks)
            ),
            (Some(boards), None) => format!("Las respuestas de tableros y tiras están en {}.", on(boards)),
            (None, Some(checks)) => format!("Las respuestas de los controles rápidos están en {}.", on(checks)),
            (None, None) => "Todas las respuestas están en el plan.".to_owned(),
        }
    }

    fn contents_heads(&self) -> (&'static str, [&'static str; 2]) {
        ("En este paquete", ["Página", "Qué es"])
    }

    fn things_heads(&self) -> (&'static str, [&'static str; 2]) {
        ("Para preparar", ["Cuántos", "Qué"])
    }

    fn late_title(&self) -> &'static str {
        "Si empieza tarde"
    }

    fn missing_title(&self) -> &'static str {
        "Si faltan las copias"
    }

    fn copy_pages(&self, copies: &[(u32, Vec<PageRange>)], only_set: Option<&str>) -> String {
        let each: Vec<String> = copies
            .iter()
            .map(|(count, pages)| format!("{} de {}", counted(*count, "copia", "copias"), on_all(pages)))
            .collect();
        let set = only_set.map(|set| format!(" Así todos trabajan con el juego {set}.")).unwrap_or_default();
        format!("Haga {}, a tamaño real.{set}", listed(&each))
    }

    fn no_copier(&self, numbers: &[Number], forms: &[Form], usage: &Usage<'_>) -> String {
        let numerals: Vec<String> = numbers.iter().map(|n| usage.style.numeral(*n)).collect();
        if numerals.is_empty() {
            return "Sin fotocopiadora: haga en voz alta las preguntas del plan. Se contestan en papel.".to_owned();
        }
        let forms: Vec<String> = forms
            .iter()
            .filter(|form| **form != Form::Numeral)
            .map(|form| super::plan::in_form(*form, usage))
            .collect();
        format!(
            "Sin fotocopiadora: escriba {} en el pizarrón. Cada estudiante los escribe {}.",
            listed(&numerals),
            listed(&forms)
        )
    }

    fn cautions_title(&self) -> &'static str {
        "Precauciones"
    }

    fn caution(&self, caution: Caution) -> &'static str {
        match caution {
            Caution::SchoolFirst => {
                "Primero, las reglas de la escuela. Averigüe dónde están las instrucciones para emergencias."
            }
            Caution::Scissors => {
                "Tijeras: de punta redonda. Se corta sentado y se pasan cerradas, por el mango. Cuéntelas al recogerlas."
            }
            Caution::NoScissors => {
                "A quien no puede usar tijeras, su pareja le corta las tiras, o escribe en las casillas del tablero."
            }
            Caution::Guillotine => "La guillotina es solo para adultos, con la protección puesta.",
            Caution::SmallPieces => "Las piezas pequeñas se quedan en las mesas, lejos de niños menores de tres años.",
        }
    }

    fn school_lines(&self) -> (&'static str, [&'static str; 5]) {
        (
            "Solo la escuela puede llenar esto",
            [
                "Salón, horario",
                "Dónde está todo",
                "Rutinas, quién ayuda",
                "Oficina, emergencias",
                "Planes individuales",
            ],
        )
    }

    fn back_lines(&self) -> (&'static str, [&'static str; 5]) {
        (
            "Nota para el docente",
            [
                "Quién dio la clase, cuándo",
                "Quién terminó",
                "Quién necesita ayuda",
                "Qué quedó sin hacer",
                "Qué sorprendió",
            ],
        )
    }

    fn leave_behind(&self, tally: bool, checks: bool, groups: bool) -> String {
        let mut things = vec!["esta página".to_owned()];
        if tally {
            things.push("la lista de la clase".to_owned());
        }
        if checks {
            things.push("los controles rápidos".to_owned());
        }
        let groups =
            if groups { " En la página de grupos pequeños, anote los nombres de los que está seguro." } else { "" };
        format!("Deje para el docente: {}.{groups}", listed(&things))
    }
}
