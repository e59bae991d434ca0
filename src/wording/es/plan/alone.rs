//! What is done with a single learner, who has no neighbour and no partner, in Spanish.

use super::{build, early, first_ones, form_plural, in_form, listed, minutes, numerals, rows, these};
use crate::spec::SheetKind;
use crate::wording::Usage;
use crate::wording::cover::Papers;
use crate::wording::digits::parts;
use crate::wording::es::Spanish;
use crate::wording::es::phrases::counted;
use crate::wording::plan::Deed;
use crate::wording::{Phrases, Titles};

/// What is said otherwise than to a class; `None` where it is the same.
#[allow(clippy::too_many_lines, reason = "one arm a text")]
pub(super) fn deed(deed: &Deed, usage: &Usage<'_>) -> Option<String> {
    let text = match deed {
        Deed::WriteAndWait(n) => {
            format!("Escriba {} donde los dos lo vean. Espere un momento antes de decirlo.", usage.style.numeral(*n))
        }
        Deed::ReadTogether => "Léanlo en voz alta los dos, y después solo el estudiante.".to_owned(),
        Deed::Build { number, first: true } => format!("Que el estudiante lo arme: {}", build(*number)),
        Deed::ShowDisplay(n) => {
            format!("Muestre la lámina de {}. El estudiante la compara con su trabajo.", usage.style.numeral(*n))
        }
        Deed::LayCards(n) => {
            let parts = listed(&parts(*n, usage.style));
            format!("Que el estudiante ponga las tarjetas {parts} una sobre otra, con los bordes de la derecha juntos.")
        }
        Deed::FillRow(n) => format!(
            "Que el estudiante busque la fila de {} en la hoja de registro. Llénenla en común.",
            usage.style.numeral(*n)
        ),
        Deed::CutOwnStrips => "El estudiante recorta por las líneas. Las piezas se quedan juntas.".to_owned(),
        Deed::NumbersToday { count, more } => {
            format!("Hay tiempo para {}.{}", first_ones(*count), early(*more, "por si sobra tiempo"))
        }
        Deed::OneKindFirst(form) => {
            format!("Que coloque un tipo de tiras a la vez, primero las de {}.", form_plural(*form, usage))
        }
        Deed::CountScissors(_) => "Recoja las tijeras, cerradas.".to_owned(),
        Deed::BlocksToTub => "Los bloques vuelven a la caja. Busquen piezas pequeñas debajo de la mesa.".to_owned(),
        Deed::OwnFirstRow => "Llenen en común la primera fila de la hoja de registro.".to_owned(),
        Deed::TopOfPage(n) => {
            format!("El estudiante escribe {} arriba en la página. Trabájenlo en común.", usage.style.numeral(*n))
        }
        Deed::OtherSide(n, forms) => {
            let forms: Vec<String> = forms.iter().map(|form| in_form(*form, usage)).collect();
            format!(
                "Dé vuelta a la hoja. El estudiante escribe {} arriba y, debajo, el mismo número {}.",
                usage.style.numeral(*n),
                listed(&forms)
            )
        }
        Deed::SpellWords => {
            "Si el estudiante pregunta cómo se escribe una palabra, escríbala en el pizarrón.".to_owned()
        }
        Deed::Alone(numbers, later) => {
            let later = if later.is_empty() {
                String::new()
            } else {
                format!(" Si hay tiempo, también {}.", numerals(later, usage))
            };
            format!("El estudiante hace {} por su cuenta.{later} Mire qué escribe.", numerals(numbers, usage))
        }
        Deed::PickOne { .. } => "El estudiante piensa en otro número parecido y hace lo mismo.".to_owned(),
        Deed::OwnRows => "Si hay tiempo, el estudiante llena otra fila.".to_owned(),
        Deed::OwnNumberLast => {
            "Si hay tiempo, el estudiante escribe un número propio en la última fila y la llena.".to_owned()
        }
        Deed::GivePackets { sheets, now, .. } => {
            // A learner who gets two packets must know which of them is meant.
            let what = if sheets.len() > 1 { format!("el paquete: {}", these(sheets)) } else { these(sheets) };
            let rest = if now.len() < sheets.len() { format!(" Que saque {}.", these(now)) } else { String::new() };
            format!("Dé al estudiante {what}.{rest}")
        }
        Deed::TakeOut(sheets) => format!("El estudiante saca {}.", these(sheets)),
        Deed::GivePiles { .. } => "Dé el montón de tiras al estudiante.".to_owned(),
        Deed::Dictate(n) => {
            format!("Diga «{}» y no escriba nada todavía. El estudiante lo escribe en cifras.", usage.style.words(*n))
        }
        Deed::MarkBuilding => "Marque en la lista si lo logra.".to_owned(),
        Deed::MarkSorting { slips: true } => {
            "Marque en la lista qué logra, y la letra de cada error que vea.".to_owned()
        }
        Deed::MarkSorting { slips: false } => "Marque en la lista qué logra.".to_owned(),
        Deed::RowsToday { count, .. } => format!("Hay tiempo para {}. Si termina pronto, que siga.", rows(*count)),
        Deed::PutAway(kinds) => {
            // Of blocks there is not the sheet any more.
            let of = |kind: &SheetKind| Spanish.sheet_in_text(*kind, if *kind == SheetKind::Blocks { 2 } else { 1 });
            let names: Vec<&str> = kinds.iter().map(of).collect();
            format!("Vuelven a su lugar: {}.", Spanish.list(&names))
        }
        Deed::CollectSheets(kinds) => format!("Recoja {}.", these(kinds)),
        Deed::DoPractice(count) => {
            format!("{}: el estudiante trabaja en la página de práctica.", minutes(*count))
        }
        Deed::GiveSets { boards: true, .. } => "Dé el tablero al estudiante.".to_owned(),
        Deed::GiveSets { boards: false, .. } => "Dé el juego al estudiante.".to_owned(),
        Deed::CutStrips(pieces) => format!(
            "El estudiante recorta por las líneas: {}. Las piezas se quedan juntas.",
            counted(*pieces, "pieza", "piezas")
        ),
        Deed::DoneEarly { .. } => {
            "Si sobra tiempo, el estudiante ordena todos los números de menor a mayor.".to_owned()
        }
        Deed::Stretch => "A la mitad, hagan una pausa. Levántense y estírense un momento.".to_owned(),
        Deed::StopStrips => "Detenga el trabajo. Manos fuera de las tiras.".to_owned(),
        Deed::StopPencils => "Detenga el trabajo. El lápiz, en la mesa.".to_owned(),
        Deed::ShowRows { rows: true } => "Que el estudiante muestre una fila y diga por qué está bien.".to_owned(),
        Deed::ShowRows { rows: false } => {
            "Que el estudiante muestre cómo escribió un número y diga por qué está bien.".to_owned()
        }
        Deed::SwapBoards(count) => {
            format!("{}: el estudiante le explica cada fila y dice por qué está bien.", minutes(*count))
        }
        Deed::TakeBreak => "Lápiz y piezas se quedan donde están. Levántense, muévanse y beban algo.".to_owned(),
        Deed::SpareTime => {
            "El trabajo de esta clase ha terminado. Siga con lo demás que haya previsto el docente. Si no \
                            hay nada previsto, lean en voz alta o terminen lo que empezaron."
                .to_owned()
        }
        Deed::PutInOrder { minutes: count, board } => {
            let which = if *board { "los números del tablero" } else { "los números del pizarrón" };
            format!("{}: el estudiante escribe {which} en orden, de menor a mayor.", minutes(*count))
        }
        Deed::MakeWrong(count) => format!(
            "{}: escriba un número con un error. El estudiante descubre cuál es. Después, al revés.",
            minutes(*count)
        ),
        Deed::GuessMine(count) => format!(
            "{}: piense un número y dé pistas sobre cifras y posiciones. El estudiante lo busca. Después, al revés.",
            minutes(*count)
        ),
        Deed::OwnNumber(count) => format!(
            "{}: el estudiante elige un número y lo escribe de todas las maneras de esta clase. Revísenlo juntos.",
            minutes(*count)
        ),
        Deed::GiveChecks { .. } => "Dé un control rápido al estudiante.".to_owned(),
        Deed::ReadAloud => {
            "Lea en voz alta una pregunta si el estudiante lo pide. No ayude con la respuesta.".to_owned()
        }
        Deed::BagStrips => {
            "Las tiras van al sobre. El estudiante escribe en él su nombre. Guárdelo para el docente.".to_owned()
        }
        Deed::Collect { papers: Papers::Checks, .. } => "Recoja el control rápido.".to_owned(),
        Deed::Collect { papers: Papers::Answers, .. } => "Recoja las respuestas.".to_owned(),
        Deed::TakeHome(kinds) => {
            let names: Vec<String> =
                kinds.iter().map(|kind| format!("la {}", Spanish.sheet_in_text(*kind, 1))).collect();
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            format!("El estudiante se lleva a casa {}.", Spanish.list(&names))
        }
        _ => return None,
    };
    Some(text)
}
