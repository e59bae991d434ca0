//! The frame of a plan in Spanish.

use super::form_plural;
use crate::number::{Number, Slip};
use crate::spec::{Language, SheetKind, Version};
use crate::wording::es::Spanish;
use crate::wording::es::phrases::{counted, listed, quoted, strip};
use crate::wording::es::titles::is_feminine;
use crate::wording::plan::{Aim, Frame, Laid, Phase, Standard, by_share, in_sentences};
use crate::wording::{Phrases, Slips, Titles, Tools, Usage};

impl Frame for Spanish {
    fn phase(&self, phase: Phase, one: bool) -> &'static str {
        match phase {
            Phase::Building if one => "Armar el número modelo",
            Phase::Drawing if one => "Dibujar el número modelo",
            Phase::Columns if one => "Escribir el número modelo en columnas",
            Phase::Opening => "Comienzo",
            Phase::Building => "Armar los números modelo",
            Phase::Drawing => "Dibujar los números modelo",
            Phase::Columns => "Escribir los números modelo en columnas",
            Phase::Guided => "Práctica en común",
            Phase::Sorting => "Clasificar y emparejar",
            Phase::Writing => "Escribir el mismo número",
            Phase::Break => "Descanso",
            Phase::Sharing => "Puesta en común",
            Phase::Further => "Para seguir",
            Phase::Exit => "Control rápido",
            Phase::Aloud => "Preguntas al final",
            Phase::Clearing => "Recoger",
            Phase::Spare => "Tiempo que sobra",
        }
    }

    fn minutes(&self, count: u32) -> String {
        counted(count, "minuto", "minutos")
    }

    fn min(&self, count: u32) -> String {
        format!("{count} min")
    }

    fn plan_again(&self, title: &str) -> String {
        format!("Plan de «{title}»")
    }

    fn plan_note(&self, minutes: u32) -> String {
        format!(
            "Plan de clase, {}. Las líneas en negrita junto a una barra se dicen en voz alta. Los tiempos son minutos desde \
             el comienzo.",
            self.minutes(minutes)
        )
    }

    fn aim(&self, aim: &Aim, usage: &Usage<'_>) -> String {
        match aim {
            Aim::Can(Standard::Counting) => "Puedo leer, escribir y mostrar números hasta 10.".to_owned(),
            Aim::Can(Standard::TensAndOnes) => "Puedo decir cuántas decenas y unidades tiene un número.".to_owned(),
            Aim::Can(Standard::Hundreds) => {
                "Puedo decir cuánto vale cada cifra de un número de hasta tres cifras.".to_owned()
            }
            Aim::Can(Standard::Thousands) => {
                "Puedo decir cuánto vale cada cifra de un número de cuatro cifras.".to_owned()
            }
            Aim::Can(Standard::Periods) => "Puedo leer un número grande y decir cuánto vale cada cifra.".to_owned(),
            Aim::CanOwn => "Puedo decir cuánto vale cada cifra de mis números.".to_owned(),
            Aim::Trade => "Puedo canjear y seguir teniendo el mismo número.".to_owned(),
            Aim::Match(forms) => {
                let names: Vec<String> = forms.iter().map(|form| form_plural(*form, usage)).collect();
                let who = if usage.one_learner { "El estudiante empareja" } else { "Los estudiantes emparejan" };
                format!("{who} {} que muestran el mismo número.", listed(&names))
            }
            Aim::Write if usage.one_learner => "El estudiante escribe el mismo número de varias maneras.".to_owned(),
            Aim::Write => "Los estudiantes escriben el mismo número de varias maneras.".to_owned(),
            Aim::Build => "Los estudiantes muestran un número y lo escriben de más de una manera.".to_owned(),
            Aim::TwoLanguages(second, apart) => {
                let other = self.language(*second);
                let both = listed(&[self.language(Language::Es).to_owned(), other.to_owned()]);
                if *apart {
                    format!(
                        "Los números en palabras están en dos idiomas, {both}, cada uno en sus propias tiras y en su columna. \
                         Para leer en voz alta el {other}, pida ayuda a quien lo hable."
                    )
                } else {
                    format!(
                        "Los números en palabras están en dos idiomas, {both}. Acepte cualquiera de los dos; a usted le basta \
                         el español."
                    )
                }
            }
        }
    }

    fn table(&self, laid: &[Laid], learners: u32) -> String {
        let mut sentences: Vec<String> = Vec::new();
        for (share, all) in by_share(laid.iter().filter_map(of_each), learners) {
            let lead = match (share, learners) {
                (_, 1) => "Para el estudiante".to_owned(),
                (1, _) => "Para cada estudiante".to_owned(),
                (share, _) => format!("Por cada {} estudiantes", self.small(share as usize)),
            };
            for (k, some) in in_sentences(&all).enumerate() {
                let again = format!("Y {}", lead.to_lowercase());
                sentences.push(format!("{}: {}.", if k == 0 { &lead } else { &again }, listed(some)));
            }
        }
        sentences.extend(laid.iter().filter_map(|laid| of_all(laid, learners == 1)).map(str::to_owned));
        sentences.join(" ")
    }

    fn label_table(&self) -> &'static str {
        "Mesa"
    }

    fn label_do(&self) -> &'static str {
        "Haga"
    }

    fn label_say(&self) -> &'static str {
        "Diga"
    }

    fn label_ask(&self) -> &'static str {
        "Pregunte"
    }

    fn label_watch(&self) -> &'static str {
        "Observe"
    }

    fn expect(&self, answer: &str) -> String {
        format!("Respuesta: {answer}")
    }

    fn slip_named(&self, slip: Slip, letter: Option<char>) -> String {
        let letter = letter.map(|letter| format!("{letter}, ")).unwrap_or_default();
        format!("{letter}{}", self.slip_name(slip))
    }

    fn if_you_see(&self, shown: &str, of: Number, slip: &str, usage: &Usage<'_>) -> String {
        format!("Si ve {} en vez de {}: {slip}.", quoted(shown), usage.style.numeral(of))
    }

    fn if_you_see_strip(&self, shown: &str, of: Number, slip: &str, set: Option<Version>, usage: &Usage<'_>) -> String {
        let set = set.map(|set| format!(" (juego {set})")).unwrap_or_default();
        format!("Si la tira {} está en la fila de {}{set}: {slip}.", strip(shown), usage.style.numeral(of))
    }

    fn if_you_see_choice(&self, check: u32, question: u32, letter: char, shown: &str, slip: &str) -> String {
        format!("Control {check}, pregunta {question}, opción {letter}, {}: {slip}.", quoted(shown))
    }

    fn thinking_and_next(&self, slip: Slip, tools: Tools) -> String {
        format!("Qué piensa: {} Qué ayuda: {}", self.slip_thinking(slip, tools.read), self.slip_next(slip, tools))
    }

    fn as_above(&self) -> &'static str {
        "Explicado más arriba."
    }
}

/// What lies before each learner, or before so many together, with its article; nothing for what is said in a sentence of its
/// own.
fn of_each(laid: &Laid) -> Option<(u32, String)> {
    let mut share = 1;
    let what = match *laid {
        Laid::Sheet { sheet, pages, share: together } => {
            share = together;
            let one = Spanish.sheet_in_text(sheet, 1);
            let article = if is_feminine(sheet) { "una" } else { "un" };
            match (sheet, pages) {
                (SheetKind::Blocks, _) => "un juego de bloques recortados".to_owned(),
                (_, 1) => format!("{article} {one}"),
                (SheetKind::Mat, _) => format!("{article} {one} (sus {pages} páginas unidas)"),
                (_, _) => format!("{article} {one} de {pages} páginas"),
            }
        }
        Laid::Packet => "un paquete".to_owned(),
        Laid::Scissors => "tijeras".to_owned(),
        Laid::CutStrips => "un montón de tiras cortadas".to_owned(),
        Laid::UncutStrips(None) => "las páginas de tiras, tijeras".to_owned(),
        Laid::UncutStrips(Some(1)) => "una página de tiras, tijeras".to_owned(),
        Laid::UncutStrips(Some(pages)) => format!("{pages} páginas de tiras, tijeras"),
        Laid::WholeStrips(None) => "las páginas de tiras, sin cortar".to_owned(),
        Laid::WholeStrips(Some(1)) => "una página de tiras, sin cortar".to_owned(),
        Laid::WholeStrips(Some(pages)) => format!("{pages} páginas de tiras, sin cortar"),
        Laid::TubBlocks(together) => {
            share = together;
            "un juego de bloques de la caja de la clase".to_owned()
        }
        Laid::FoldedPaper => "papel doblado en una columna por posición".to_owned(),
        Laid::Paper => "papel y un lápiz".to_owned(),
        Laid::Pencils => "un lápiz".to_owned(),
        Laid::Envelopes => "un sobre para las piezas".to_owned(),
        Laid::Nothing | Laid::Display | Laid::Tally | Laid::AsTheyAre | Laid::OnlyPencils => return None,
    };
    Some((share, what))
}

/// What is said of the tables in a sentence of its own.
fn of_all(laid: &Laid, alone: bool) -> Option<&'static str> {
    match laid {
        Laid::Nothing => Some("Nada todavía. Usted necesita un pizarrón."),
        Laid::Display => Some("Nada todavía. Tenga a mano las láminas."),
        Laid::Tally => Some("Para usted: la lista de la clase."),
        Laid::AsTheyAre => Some("Lo que está en las mesas se queda ahí."),
        Laid::OnlyPencils if alone => Some("Solo un lápiz. Usted tiene el control rápido."),
        Laid::OnlyPencils => Some("Solo un lápiz. Usted tiene los controles rápidos."),
        _ => None,
    }
}
