//! What the substitute's first page says in Spanish.

use super::Spanish;
use super::phrases::{counted, grade as grade_text, listed};
use super::titles::with_article;
use crate::number::{Form, Number};
use crate::spec::SheetKind;
use crate::wording::class_groups::ClassGroups;
use crate::wording::cover::{
    ByHand, Caution, CopiedSets, CoverWords, KeyPages, LeftBehind, PageRange, Papers, SortSheets,
};
use crate::wording::{Phrases, Usage};

/// "la página 3", "las páginas 3–5".
fn on(pages: PageRange) -> String {
    let noun = if pages.first == pages.last { "la página" } else { "las páginas" };
    format!("{noun} {}", pages.figures())
}

/// The pages of keys, with the letters of sets where there are several: "las páginas 66–67 (A), 68 (B) y 69 (C)".
fn on_each(keys: &KeyPages) -> String {
    if keys.sets.is_empty() {
        return on(keys.all);
    }
    let each: Vec<String> = keys.sets.iter().map(|(set, pages)| format!("{}\u{a0}({set})", pages.figures())).collect();
    format!("las páginas {}", listed(&each))
}

impl CoverWords for Spanish {
    fn cover_heading(&self, title: &str) -> String {
        format!("Empiece aquí: «{title}»")
    }

    fn cover_again(&self) -> &'static str {
        "Empiece aquí, continuación"
    }

    fn cover_note(&self, minutes: u32, learners: u32, grade: Option<&str>) -> String {
        let grade = grade.map(|given| format!(", {}", grade_text(given))).unwrap_or_default();
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

    fn lay_out_first(&self, cut: bool) -> &'static str {
        if cut {
            "Ponga todo en una mesa aparte y no reparta nada. ¿Nada recortado? Vea en el plan «Si no hubo tiempo»."
        } else {
            "Ponga lo que hay que preparar en una mesa aparte. No reparta nada todavía."
        }
    }

    fn begin_with(&self, number: Number, shown: bool, usage: &Usage<'_>) -> String {
        if shown {
            return format!(
                "Tenga listas las láminas: la clase empieza con el paso 1 de la lámina de {}.",
                usage.style.numeral(number)
            );
        }
        format!("Deje libre el pizarrón: la clase empieza cuando escriba en él {}.", usage.style.numeral(number))
    }

    fn answers_on(&self, sorts: Option<(KeyPages, SortSheets)>, checks: Option<PageRange>, planned: bool) -> String {
        let sorts = sorts.map(|(pages, sheets)| match sheets {
            SortSheets::BoardsAndStrips => format!("de tableros y tiras están en {}", on_each(&pages)),
            SortSheets::Boards => format!("de los tableros están en {}", on_each(&pages)),
            SortSheets::Strips => format!("de las tiras están en {}", on_each(&pages)),
            SortSheets::Numbers => format!("de los números del pizarrón están en {}", on_each(&pages)),
        });
        match (sorts, checks) {
            (Some(sorts), Some(checks)) => {
                format!("Las respuestas {sorts}; las de los controles rápidos, en {}.", on(checks))
            }
            (Some(sorts), None) => format!("Las respuestas {sorts}."),
            (None, Some(checks)) => format!("Las respuestas de los controles rápidos están en {}.", on(checks)),
            (None, None) if planned => {
                "Aquí no hay hoja de respuestas. El plan contesta cada una de sus preguntas y las de los controles."
                    .to_owned()
            }
            (None, None) => "Aquí no hay hoja de respuestas. El plan contesta cada una de sus preguntas.".to_owned(),
        }
    }

    fn contents_heads(&self) -> (&'static str, [&'static str; 3]) {
        ("En este paquete", ["Página", "Qué es", "Copias"])
    }

    fn pages_with_letters(&self) -> &'static str {
        "Páginas de cada juego: ver abajo"
    }

    fn set_heads(&self) -> (&'static str, [&'static str; 3]) {
        ("Un juego para cada grupo", ["Juego", "Para", "Copias"])
    }

    fn pages_copied(&self, pages: PageRange, copies: u32) -> String {
        format!("{} ({})", pages.figures(), counted(copies, "copia", "copias"))
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

    fn copy_pages(&self, sets: &CopiedSets, uncut: bool, kits: &[SheetKind], unmarked: bool, apart: bool) -> String {
        let set = match sets {
            CopiedSets::All => String::new(),
            CopiedSets::One(set) => format!(" Así todos trabajan con el juego {set}."),
            CopiedSets::FirstOfGroups => " Los de una fila usan su primer juego.".to_owned(),
        };
        let uncut =
            if uncut { " Las tiras no hacen falta: los estudiantes escriben en las casillas del tablero." } else { "" };
        let kits = match kits {
            [] => String::new(),
            kinds => {
                let names: Vec<String> = kinds.iter().map(|kind| with_article(*kind, 2)).collect();
                let names = self.capital(&listed(&names));
                format!(" {names} no hacen falta: el plan tiene «Si no hubo tiempo».")
            }
        };
        let unmarked = if unmarked { " Esas tiras no llevan figuras en el reverso." } else { "" };
        let apart = if apart { " Corte antes los controles." } else { "" };
        format!("Copie cada página las veces que dice a su lado, a tamaño real.{apart}{set}{uncut}{kits}{unmarked}")
    }

    fn no_copier(&self, by_hand: &ByHand, forms: &[Form], usage: &Usage<'_>) -> String {
        let (start, shows) = match by_hand {
            ByHand::Aloud => {
                return "Sin fotocopiadora: haga en voz alta las preguntas del plan. Se contestan en papel.".to_owned();
            }
            ByHand::Check { mark, page, choices } => {
                let (with, how) = if *choices {
                    (", con sus opciones", "En papel se escribe la letra de cada respuesta.")
                } else {
                    ("", "Se contestan en papel.")
                };
                return format!(
                    "Sin fotocopiadora: escriba en el pizarrón las preguntas del control rápido {mark} (página {page}), \
                     de una en una{with}. {how}"
                );
            }
            ByHand::Numbers(numbers) => {
                let numerals: Vec<String> = numbers.iter().map(|n| usage.style.numeral(*n)).collect();
                (
                    format!("Sin fotocopiadora: escriba {} en el pizarrón", listed(&numerals)),
                    if numbers.len() > 1 { "los muestra" } else { "lo muestra" },
                )
            }
            ByHand::Boards(rows) => (
                format!(
                    "Sin fotocopiadora: escriba en el pizarrón {} del tablero de cada juego",
                    if *rows == 1 { "el primer número".to_owned() } else { format!("los primeros {rows} números") }
                ),
                "muestra los suyos",
            ),
            ByHand::Lists(lists) => {
                let lists = self.lists_by_hand(lists, usage.style);
                (format!("Sin fotocopiadora, escriba una lista para cada grupo. {lists}"), "muestra los suyos")
            }
        };
        let forms: Vec<String> = forms
            .iter()
            .filter(|form| **form != Form::Numeral)
            .map(|form| super::plan::in_form(*form, usage))
            .collect();
        let who = if usage.one_learner { "El estudiante" } else { "Cada estudiante" };
        format!("{start}. {who} {shows} {}.", listed(&forms))
    }

    fn cautions_title(&self) -> &'static str {
        "Precauciones"
    }

    fn caution(&self, caution: Caution, alone: bool) -> &'static str {
        match caution {
            Caution::SchoolFirst => {
                "Primero, las reglas de la escuela. Averigüe dónde están las instrucciones para emergencias."
            }
            Caution::Scissors if alone => {
                "Tijeras: de punta redonda. El estudiante recorta sentado y las pasa cerradas, por el mango. Recójalas al terminar."
            }
            Caution::Scissors => {
                "Tijeras: de punta redonda. Los estudiantes recortan sentados y las pasan cerradas, por el mango. Cuéntelas al recogerlas."
            }
            Caution::NoScissors if alone => {
                "Si el estudiante no puede usar tijeras, corte usted las tiras, o que escriba en las casillas del tablero."
            }
            Caution::NoScissors => {
                "Quien no puede usar tijeras escribe en las casillas del tablero, o su pareja le corta las tiras."
            }
            Caution::NoScissorsNoBoxes if alone => "Si el estudiante no puede usar tijeras, corte usted las tiras.",
            Caution::NoScissorsNoBoxes => "A quien no puede usar tijeras, su pareja le corta las tiras.",
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

    fn leave_behind(&self, left: &LeftBehind<'_>, learners: u32) -> String {
        let mut things = vec!["esta página".to_owned()];
        things.extend(left.written.iter().map(|kind| with_article(*kind, learners)));
        if left.envelopes {
            things.push(if learners == 1 { "el sobre" } else { "los sobres" }.to_owned());
        }
        if left.tally {
            things.push("la lista de la clase".to_owned());
        }
        match left.papers {
            Some(Papers::Checks) if learners == 1 => things.push("el control rápido".to_owned()),
            Some(Papers::Checks) => things.push("los controles rápidos".to_owned()),
            Some(Papers::Answers) if learners == 1 => things.push("las respuestas del estudiante".to_owned()),
            Some(Papers::Answers) => things.push("las respuestas de la clase".to_owned()),
            None => {}
        }
        let groups = if left.groups && learners > 1 {
            " En la página de grupos pequeños, anote solo los nombres de los que tenga certeza."
        } else {
            ""
        };
        format!("Deje para el docente: {}.{groups}", listed(&things))
    }
}
