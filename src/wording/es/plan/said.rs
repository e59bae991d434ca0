//! What is said aloud, in Spanish.
//!
//! Whoever speaks to the class says "nosotros": it is right in every country, with `ustedes` as with `vosotros`.

use super::{in_form, listed, rows, told_apart, worth};
use crate::number::{Form, Number, Place};
use crate::wording::es::Spanish;
use crate::wording::plan::{Said, Speech};
use crate::wording::{FormTitles, Phrases, Usage};

impl Speech for Spanish {
    #[allow(clippy::too_many_lines, reason = "one arm a text")]
    fn say(&self, said: &Said, usage: &Usage<'_>) -> String {
        let numeral = |n: Number| usage.style.numeral(n);
        match said {
            Said::SameDigitIdea => {
                "La misma cifra puede valer distinto. Depende de su posición. Eso es lo que buscamos hoy.".to_owned()
            }
            Said::TradeIdea { hundreds } => {
                let next = if *hundreds { " Diez decenas forman una centena." } else { "" };
                format!(
                    "Diez unidades forman una decena.{next} Podemos canjear, y el número sigue siendo el mismo. Eso es lo que \
                     buscamos hoy."
                )
            }
            Said::PlaceIdea => "El lugar de una cifra nos dice cuánto vale. Eso es lo que buscamos hoy.".to_owned(),
            Said::PeriodIdea => "Los números grandes van en grupos de tres cifras: primero los millares, luego las \
                                 unidades. Leemos un grupo, decimos su nombre y leemos el siguiente."
                .to_owned(),
            Said::WaysIdea => "Hoy mostramos un número de distintas maneras.".to_owned(),
            Said::DigitsIdea => "Hoy mostramos cuánto vale cada cifra de un número.".to_owned(),
            Said::Repeats(n, digit) => {
                let worths: Vec<String> =
                    n.digits().filter(|(_, d)| d == digit).map(|(place, _)| worth(*n, place, usage)).collect();
                format!(
                    "En {} el {digit} aparece {} veces. De izquierda a derecha vale {}.",
                    numeral(*n),
                    self.small(worths.len()),
                    listed(&worths)
                )
            }
            Said::Teen(n) => {
                let tail = Number::new(n.value() % 100).unwrap_or(*n);
                let (name, ones) = (usage.style.words(tail), self.units(tail.digit(Place::Ones).into(), Place::Ones));
                if tail == *n {
                    format!("{} es 1 decena y {ones}.", self.capital(&name))
                } else {
                    format!("{} termina en {name}. Eso es 1 decena y {ones}.", numeral(*n))
                }
            }
            Said::HowManyOfWhat => "Así que la cifra dice cuántos hay, y su posición dice de qué.".to_owned(),
            Said::Draw(n) => draw(n.parts().map(|(place, _)| place).collect::<Vec<_>>().as_slice()),
            Said::DrawMarks(places) => draw(places),
            Said::BlocksWorth(places) => {
                let worth = |place: &Place| {
                    let piece = self.pieces(1, *place)?;
                    let (article, unit) = a_unit(*place);
                    Some(format!("{article} {} vale {unit}", piece.trim_start_matches("1 ")))
                };
                let all: Vec<String> = places.iter().filter_map(worth).collect();
                format!("{}.", self.capital(&listed(&all)))
            }
            Said::PicturesWorth(places) => {
                let worth = |place: &Place| {
                    let shape = match place {
                        Place::Ones => "un cuadradito",
                        Place::Tens => "un rectángulo largo",
                        Place::Hundreds => "un cuadrado grande",
                        _ => "la figura más grande",
                    };
                    format!("{shape} vale {}", a_unit(*place).1)
                };
                let all: Vec<String> = places.iter().map(worth).collect();
                format!("En los dibujos, {}.", listed(&all))
            }
            Said::Scissors => {
                "Nos sentamos para recortar. Solo recortamos papel. Pasamos las tijeras cerradas, por el mango."
                    .to_owned()
            }
            Said::FindStrips(given, some) => {
                let row = match some {
                    None => "Cada fila del tablero muestra".to_owned(),
                    Some(1) => format!("Hoy hacemos {} del tablero. Muestra", rows(1)),
                    Some(count) => format!("Hoy hacemos {} del tablero. Cada una muestra", rows(*count)),
                };
                format!("{row} {}. Buscamos las tiras que muestran el mismo número.", one(*given, usage))
            }
            Said::LayStrips => "Ponemos cada tira en una casilla de su fila.".to_owned(),
            Said::WriteBoxes { rows: some, draws } => {
                let which = some.map_or_else(|| "cada fila".to_owned(), |count| format!("solo {}", rows(count)));
                let write = if *draws { "Escribimos o dibujamos" } else { "Escribimos" };
                format!("Miramos {which}. {write} el mismo número en las otras casillas.")
            }
            Said::StripsInRows { sets } => format!(
                "Tomamos uno por uno los números{} del pizarrón. Ponemos en una fila todas las tiras que lo muestran.",
                if *sets { " de nuestro juego" } else { "" }
            ),
            Said::LetterStrips { sets } => format!(
                "No recortamos. Damos una letra a cada número{} del pizarrón. La escribimos en todas las tiras que lo muestran.",
                if *sets { " de nuestro juego" } else { "" }
            ),
            Said::SomeShowNone => {
                "Algunas tiras no muestran ninguno de estos números. Las apartamos y buscamos qué tienen mal."
                    .to_owned()
            }
            Said::WriteAgain(forms) => {
                let names: Vec<String> = forms.iter().map(|form| in_form(*form, usage)).collect();
                format!("Escribimos otra vez cada número {}.", listed(&names))
            }
            Said::SomeFitNoRow { all: true } => {
                "Algunas tiras no van en ninguna fila. Las apartamos y buscamos qué tienen mal.".to_owned()
            }
            Said::SomeFitNoRow { all: false } => {
                "Algunos tenemos tiras que no van en ninguna fila. Las apartamos y buscamos qué tienen mal.".to_owned()
            }
            Said::SomeFitNoRowToday { none: true } => {
                "Apartamos las tiras que no van en estas filas. Unas son de otras filas, y algunas no van en ninguna."
                    .to_owned()
            }
            Said::SomeFitNoRowToday { none: false } => {
                "Apartamos las tiras que no van en estas filas: son de otras filas.".to_owned()
            }
            Said::QuestionsToday(1) => "Hacemos solo la pregunta 1.".to_owned(),
            Said::QuestionsToday(2) => "Hacemos solo las preguntas 1 y 2.".to_owned(),
            Said::QuestionsToday(count) => format!("Hacemos solo las preguntas 1 a {count}."),
            Said::CheckRules { marks, writes } if usage.one_learner => {
                let how = match (marks, writes) {
                    (true, false) => "Marcamos la respuesta que creemos correcta.",
                    (false, _) => "Escribimos las respuestas en las líneas.",
                    (true, true) => "Marcamos la respuesta correcta o la escribimos en la línea.",
                };
                format!("Escribimos el nombre. Trabajamos sin ayuda. {how}")
            }
            Said::CheckRules { marks, writes } => match (marks, writes) {
                (true, false) => {
                    "Escribimos el nombre. Cada quien trabaja solo. Marcamos la respuesta que creemos correcta."
                        .to_owned()
                }
                (false, _) => {
                    "Escribimos el nombre. Cada quien trabaja solo. Escribimos las respuestas en las líneas.".to_owned()
                }
                (true, true) => "Escribimos el nombre. Cada quien trabaja solo. Marcamos la respuesta correcta o la \
                                 escribimos en la línea."
                    .to_owned(),
            },
            Said::CheckAloud { same } => {
                let paper = if *same { "Tomamos la misma hoja y trazamos una raya debajo de lo hecho. " } else { "" };
                format!("{paper}Escribimos el nombre. Yo pregunto y cada quien escribe sus respuestas.")
            }
        }
    }
}

/// How to draw numbers by hand: only the marks that these places need.
fn draw(places: &[Place]) -> String {
    let mark = |place: Place| match place {
        Place::Ones => Some("un punto por cada unidad"),
        Place::Tens => Some("una raya por cada decena"),
        Place::Hundreds => Some("un cuadrado por cada centena"),
        Place::Thousands => Some("una caja por cada millar"),
        Place::TenThousands | Place::HundredThousands => None,
    };
    let needed: Vec<&str> = places.iter().filter_map(|place| mark(*place)).collect();
    if needed.is_empty() {
        return "No dibujamos nada, porque 0 quiere decir ninguno.".to_owned();
    }
    format!("Dibujamos {}.", Spanish.list(&needed))
}

/// What a row shows: "un número en cifras", or the class's own word for the form.
fn one(form: Form, usage: &Usage<'_>) -> String {
    match usage.names.get(form) {
        Some(name) => format!("«{name}»"),
        None => told_apart(form, usage)
            .map_or_else(|| Spanish.form_one(form).to_owned(), |words| format!("un número en {words}")),
    }
}

/// The article of a place's block, and what the block is worth: "una", "una centena".
const fn a_unit(place: Place) -> (&'static str, &'static str) {
    match place {
        Place::Ones => ("un", "una unidad"),
        Place::Tens => ("una", "una decena"),
        Place::Hundreds => ("una", "una centena"),
        Place::Thousands => ("un", "un millar"),
        Place::TenThousands => ("una", "una decena de millar"),
        Place::HundredThousands => ("una", "una centena de millar"),
    }
}
