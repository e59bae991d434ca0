//! What is done, in Spanish.

use super::{alone, build, early, first_ones, form_plural, in_form, listed, minutes, numerals, rows, these};
use crate::number::{Form, Number, Place};
use crate::spec::{DisplayForm, SheetKind};
use crate::wording::class_groups::ClassGroups;
use crate::wording::cover::Papers;
use crate::wording::digits::{held, parts};
use crate::wording::es::Spanish;
use crate::wording::es::phrases::{counted, lettered};
use crate::wording::es::titles::{is_feminine, with_article};
use crate::wording::plan::{Deed, Deeds, Right, Undone, Whose};
use crate::wording::{Phrases, Titles, Usage};

impl Deeds for Spanish {
    #[allow(clippy::too_many_lines, reason = "one arm a text")]
    fn deed(&self, deed: &Deed, usage: &Usage<'_>) -> String {
        if let Some(alone) = usage.one_learner.then(|| alone::deed(deed, usage)).flatten() {
            return alone;
        }
        let numeral = |n: Number| usage.style.numeral(n);
        match deed {
            Deed::WriteAndWait(n) => {
                format!("Escriba {} donde todos lo vean. Espere un momento antes de decirlo.", numeral(*n))
            }
            Deed::Write(n) => format!("Escriba {} en el pizarrón.", numeral(*n)),
            Deed::PointTo(n) => format!("Señale otra vez {}.", numeral(*n)),
            Deed::ReadTogether => "Que la clase lo lea en voz alta, y después un solo estudiante.".to_owned(),
            Deed::SayJoined(n) => {
                let words = usage.style.words(*n);
                if words.contains(" y ") {
                    format!("Explique que la «y» va solo entre decenas y unidades: {} es «{words}».", numeral(*n))
                } else {
                    format!("Explique que {} se lee «{words}», sin «y».", numeral(*n))
                }
            }
            Deed::Build { number, first } => {
                let lead = if *first {
                    "Que la clase lo arme".to_owned()
                } else {
                    format!("Escriba {} y ármenlo igual", numeral(*number))
                };
                format!("{lead}: {}", build(*number))
            }
            Deed::WriteColumns { number, mat, first } => columns(*number, *mat, *first, usage),
            Deed::ShowDisplay(n) => {
                format!("Muestre la lámina de {}. Los estudiantes la comparan con su trabajo.", numeral(*n))
            }
            Deed::ShowNumeral { number, wait } => {
                let wait = if *wait { " Espere un momento antes de decirlo." } else { "" };
                format!("Muestre el paso 1 de la lámina de {}: solo las cifras.{wait}", numeral(*number))
            }
            Deed::TurnTo(steps) => turn_to(steps, usage),
            Deed::TurnThrough { number, steps: (from, to) } => format!(
                "Pase las láminas de {}, pasos {from} a {to}, a medida que la clase responde.",
                numeral(*number)
            ),
            Deed::LayCards(n) => {
                let parts = listed(&parts(*n, usage.style));
                format!("Que pongan las tarjetas {parts} una sobre otra, con los bordes de la derecha juntos.")
            }
            Deed::FillRow(n) => {
                format!("Que busquen la fila de {} en la hoja de registro. Se llena en común.", numeral(*n))
            }
            Deed::OtherRows => "Las otras filas de la hoja de registro quedan para otro día.".to_owned(),
            Deed::OwnFirstRow => {
                "Cada quien llena la primera fila de su hoja de registro. Las filas son distintas para cada estudiante."
                    .to_owned()
            }
            Deed::TopOfPage(n) => {
                format!("Cada quien escribe {} arriba en la página. Trabájenlo en común.", numeral(*n))
            }
            Deed::OtherSide(n, forms) => {
                let forms: Vec<String> = forms.iter().map(|form| in_form(*form, usage)).collect();
                format!(
                    "Den vuelta a la hoja. Cada quien escribe {} arriba y, debajo, el mismo número {}.",
                    numeral(*n),
                    listed(&forms)
                )
            }
            Deed::SpellWords => "Si alguien pregunta cómo se escribe una palabra, escríbala en el pizarrón.".to_owned(),
            Deed::PointToWordBank => "Señale el banco de palabras. De ahí se copian las palabras difíciles.".to_owned(),
            Deed::Alone(numbers, later) => {
                let later = if later.is_empty() {
                    String::new()
                } else {
                    let are = if later.len() == 1 { "es" } else { "son" };
                    format!(" {} {are} para quien tenga tiempo.", numerals(later, usage))
                };
                format!(
                    "Los estudiantes hacen {} por su cuenta o en parejas.{later} Recorra el salón y mire qué escriben.",
                    numerals(numbers, usage)
                )
            }
            Deed::PickOne { pairs: false } => {
                "Cada estudiante piensa en otro número parecido y hace lo mismo. Recorra el salón y escuche.".to_owned()
            }
            Deed::PickOne { pairs: true } => {
                "Cada pareja piensa en otro número parecido y hace lo mismo. Recorra el salón y escuche.".to_owned()
            }
            Deed::OwnRows => {
                "Quien tenga tiempo llena otra fila. Recorra el salón y mire qué escriben.".to_owned()
            }
            Deed::OwnNumberLast => "Quien termina escribe un número propio en la última fila y la llena.".to_owned(),
            Deed::GivePackets { sheets, now, whose } => {
                let what = match sheets.as_slice() {
                    // One page of them or several.
                    [SheetKind::Strips] => ("un", "el", "juego de tiras"),
                    [one] if is_feminine(*one) => ("una", "la", self.sheet_in_text(*one, 1)),
                    [one] => ("un", "el", self.sheet_in_text(*one, 1)),
                    _ => ("un", "el", "paquete"),
                };
                let give = give(what, whose);
                if now.len() == sheets.len() {
                    return give;
                }
                format!("{give} Sacan {} y dejan lo demás para después.", these(now))
            }
            Deed::TakeOut(sheets) => format!("Los estudiantes sacan {} de su paquete.", these(sheets)),
            Deed::GivePiles { named: true } => {
                "Dé a cada estudiante el montón de tiras que lleva su nombre en la banda.".to_owned()
            }
            Deed::GivePiles { named: false } => {
                "Dé a cada estudiante el montón de tiras cuya banda lleva el número de su paquete.".to_owned()
            }
            Deed::GiveSets { boards, whose } => give(("un", "el", if *boards { "tablero" } else { "juego" }), whose),
            Deed::GroupsQuiet => self.groups_quiet().to_owned(),
            Deed::Dictate(n) => format!(
                "Diga «{}» y no escriba nada todavía. Los estudiantes lo escriben en cifras.",
                usage.style.words(*n)
            ),
            Deed::CubesInFrame => {
                "En el tapete, los cubos llenan el marco de diez: primero la fila de arriba.".to_owned()
            }
            Deed::FlatsOnEachOther => {
                "Las placas van una sobre otra en su columna, cada una un poco más abajo, para poder contarlas."
                    .to_owned()
            }
            Deed::TradeBlocks(n, counted) => format!(
                "Se canjea con los bloques: {}. Se cuenta lo que hay ahora: {}. Sigue siendo {}.",
                self.trades(*n, counted),
                listed(&held(self, counted)),
                numeral(*n)
            ),
            Deed::TradeDrawn(n, counted) => format!(
                "Se canjea en el dibujo: {}. Se cuenta lo que hay ahora: {}. Sigue siendo {}.",
                Spanish::drawn_trades(*n, counted),
                listed(&held(self, counted)),
                numeral(*n)
            ),
            Deed::TradeSeveral(n, counted) => self.several_trades(*n, counted, &numeral(*n)),
            Deed::AnyTrade(n, counted) => self.any_trade(&numeral(*n), counted, false),
            Deed::MarkBuilding => "Recorra el salón. Marque en la lista de la clase quién lo logra.".to_owned(),
            Deed::MarkSorting { slips } => {
                let slips = if *slips { ", y la letra de cada error que vea" } else { "" };
                format!("Recorra el salón con la lista de la clase. Marque quién logra qué{slips}.")
            }
            Deed::CutStrips(pieces) => format!(
                "Los estudiantes recortan por las líneas: {} cada uno. Las piezas de cada uno se quedan juntas.",
                counted(*pieces, "pieza", "piezas")
            ),
            Deed::GroupSorts(share) => self.group_sorts(share, usage.style),
            Deed::GiveGroupChecks(shares) => self.give_checks(shares),
            Deed::CutOwnStrips => {
                "Los estudiantes recortan por las líneas. Las piezas de cada uno se quedan juntas.".to_owned()
            }
            Deed::LeaveStrips => {
                "Hoy no hay tiempo para recortar. Las tiras se quedan enteras, para otro día.".to_owned()
            }
            Deed::TurnOver => "Cuando una fila está terminada, se da vuelta a sus tiras. Si van juntas, todas llevan la \
                               misma figura en el reverso; la de una tira que no va en ninguna fila no se repite."
                .to_owned(),
            Deed::RowsToday { count, uneven: true } => format!(
                "Hay tiempo para {} como mucho. Quien termina pronto sigue con la próxima fila.",
                counted(*count, "fila", "filas")
            ),
            Deed::RowsToday { count, uneven: false } => {
                format!("Hay tiempo para {}. Quien termina pronto sigue con la próxima fila.", rows(*count))
            }
            Deed::NumbersToday { count, more } => {
                format!("Hay tiempo para {}.{}", first_ones(*count), early(*more, "para quien termina pronto"))
            }
            Deed::WriteSet(set, numbers) => {
                format!("Escriba en el pizarrón, para el juego {set}: {}.", numerals(numbers, usage))
            }
            Deed::OneKindFirst(form) => {
                format!("Que coloquen un tipo de tiras a la vez, primero las de {}.", form_plural(*form, usage))
            }
            Deed::WriteAll(one) if one.len() == 1 => format!("Escriba {} en el pizarrón.", numerals(one, usage)),
            Deed::WriteAll(numbers) => {
                format!("Escriba estos números en el pizarrón: {}.", numerals(numbers, usage))
            }
            Deed::DoneEarly { record: true, .. } => {
                "Quien termina pronto revisa con su pareja, y después llena más filas de la hoja de registro."
                    .to_owned()
            }
            Deed::DoneEarly { letters: true, .. } => {
                "Quien termina pronto revisa con su pareja, y después revisa un tablero de otra letra.".to_owned()
            }
            Deed::DoneEarly { letters: false, .. } => {
                "Quien termina pronto revisa con su pareja, y después ordena todos los números de menor a mayor."
                    .to_owned()
            }
            Deed::Stretch => {
                "A la mitad, deténgalos a todos. Que se levanten, se estiren y miren otra mesa.".to_owned()
            }
            Deed::StopStrips => "Detenga el trabajo. Todos miran al frente y dejan las tiras en la mesa.".to_owned(),
            Deed::StopPencils => "Detenga el trabajo. Todos miran al frente y dejan los lápices en la mesa.".to_owned(),
            Deed::ShowRows { rows: true } => {
                "Que dos o tres estudiantes muestren una fila y digan por qué está bien.".to_owned()
            }
            Deed::ShowRows { rows: false } => {
                "Que dos o tres estudiantes muestren cómo escribieron un número y digan por qué está bien.".to_owned()
            }
            Deed::DoPractice(count) => format!(
                "{}: cada estudiante trabaja en la página de práctica. Las respuestas están en la hoja de respuestas.",
                minutes(*count)
            ),
            Deed::SwapBoards(count) => format!(
                "{}: las parejas cambian de lugar y se revisan el trabajo. Dicen por qué está bien cada fila.",
                minutes(*count)
            ),
            Deed::TakeBreak => "Lápices y piezas se quedan donde están. Todos se levantan, se mueven y beben algo, según \
                                las reglas de la escuela."
                .to_owned(),
            Deed::SpareTime => "El trabajo de esta clase ha terminado. Siga con lo demás que haya previsto el docente. Si no \
                                hay nada previsto, lea en voz alta, o que cada quien termine lo que empezó."
                .to_owned(),
            Deed::PutInOrder { minutes: count, board } => {
                let which = if *board { "los números del tablero" } else { "los números del pizarrón" };
                format!("{}: cada estudiante escribe {which} en orden, de menor a mayor.", minutes(*count))
            }
            Deed::MakeWrong(count) => format!(
                "{}: cada estudiante escribe un número con un error. Su pareja descubre cuál es.",
                minutes(*count)
            ),
            Deed::GuessMine(count) => format!(
                "{}: un estudiante piensa un número y da pistas sobre cifras y posiciones. Los demás lo buscan.",
                minutes(*count)
            ),
            Deed::OwnNumber(count) => format!(
                "{}: cada estudiante elige un número y lo escribe de todas las maneras de esta clase. Su pareja revisa.",
                minutes(*count)
            ),
            Deed::GiveChecks { several: true } => {
                "Dé un control rápido a cada estudiante. Quienes se sientan juntos reciben números distintos en el título.".to_owned()
            }
            Deed::GiveChecks { several: false } => "Dé un control rápido a cada estudiante.".to_owned(),
            Deed::ReadAloud => "Lea en voz alta una pregunta a quien lo pida. No ayude con la respuesta.".to_owned(),
            Deed::CheckAnswers(check, answers) => {
                let right = |(k, right): (u32, &Right)| format!("{k} {}", right.said(self));
                let answers: Vec<String> = (1..).zip(answers).map(right).collect();
                format!("Respuestas correctas del control {check}: {}.", answers.join(", "))
            }
            Deed::CountScissors(pairs) => format!("Cuente las tijeras al recogerlas: {pairs}, cerradas."),
            Deed::BagStrips => "Las tiras van a los sobres. Cada quien escribe en el suyo su nombre. Recoja los sobres para el docente.".to_owned(),
            Deed::CollectSheets(kinds) => {
                let names: Vec<String> = kinds.iter().map(|kind| with_article(*kind, 2)).collect();
                format!("Recoja {}.", listed(&names))
            }
            Deed::TakeHome(kinds) => {
                let names: Vec<String> = kinds.iter().map(|kind| with_article(*kind, 1)).collect();
                format!("Cada estudiante se lleva a casa {}.", listed(&names))
            }
            Deed::PutAway(kinds) => {
                let names: Vec<&str> = kinds.iter().map(|kind| self.sheet_in_text(*kind, 2)).collect();
                let small = if kinds.contains(&SheetKind::Blocks) {
                    " Que busquen piezas pequeñas debajo de las mesas."
                } else {
                    ""
                };
                format!("Vuelven a su lugar: {}.{small}", self.list(&names))
            }
            Deed::BlocksToTub => {
                "Los bloques vuelven a la caja. Que busquen piezas pequeñas debajo de las mesas.".to_owned()
            }
            Deed::Collect { count, papers: Papers::Checks } => {
                format!("Recoja los controles rápidos y cuéntelos: {count}.")
            }
            Deed::Collect { count, papers: Papers::Answers } => format!("Recoja las hojas y cuéntelas: {count}."),
            Deed::NoteUndone(what) => {
                let name = |what: &Undone| match what {
                    Undone::Rows => "filas",
                    Undone::Numbers => "números",
                    Undone::Questions => "preguntas",
                };
                let names: Vec<&str> = what.iter().map(name).collect();
                format!("Anote qué {} quedaron sin hacer.", self.list(&names))
            }
        }
    }
}

/// How something is given out, one a learner: with its articles.
fn give((one, the, what): (&str, &str, &str), whose: &Whose) -> String {
    match whose {
        Whose::Anyone => format!("Dé {one} {what} a cada estudiante."),
        Whose::Letters(letters) if letters.len() < 2 => format!("Dé {one} {what} a cada estudiante."),
        Whose::Letters(letters) => {
            format!(
                "Dé {one} {what} a cada estudiante. Quienes se sientan juntos reciben letras distintas: {}.",
                lettered(letters)
            )
        }
        Whose::Names => format!("Dé a cada estudiante {the} {what} que lleva su nombre."),
        Whose::Packet => format!("Dé a cada estudiante {the} {what} que lleva la letra y el número de su paquete."),
        Whose::Groups(shares) => Spanish.give_sets(&format!("{one} {what}"), shares),
    }
}

fn columns(number: Number, mat: bool, first: bool, usage: &Usage<'_>) -> String {
    let numeral = usage.style.numeral(number);
    if !first {
        return format!("Los estudiantes escriben {numeral} de la misma manera.");
    }
    match (mat, number.shows(Place::TenThousands)) {
        (true, _) => format!(
            "Los estudiantes escriben las cifras de {numeral} en papelitos y los ponen en el tapete, uno en cada columna."
        ),
        (false, true) => format!(
            "Dibuje dos cajas, millares y unidades, con tres columnas cada una. Los estudiantes escriben {numeral}, una cifra \
             en cada columna."
        ),
        (false, false) => {
            let columns = if number.len() == 1 { "columna" } else { "columnas" };
            format!(
                "Dibuje {} {columns}, una por posición. Los estudiantes escriben {numeral}, una cifra en cada una.",
                Spanish.small(number.len())
            )
        }
    }
}

/// The pages of the display that come next, each with what is new on it.
fn turn_to(steps: &[(u32, DisplayForm)], usage: &Usage<'_>) -> String {
    let name = |form: &DisplayForm| {
        let own = |form: Form, usual: &str| {
            usage.names.get(form).map_or_else(|| usual.to_owned(), |name| format!("«{name}»"))
        };
        match form {
            DisplayForm::Numeral => own(Form::Numeral, "las cifras"),
            DisplayForm::Blocks => own(Form::Blocks, "los bloques"),
            DisplayForm::Chart => "la tabla con sus columnas".to_owned(),
            DisplayForm::Expanded => own(Form::Expanded, "la forma desarrollada"),
            DisplayForm::Words => own(Form::Words, "las palabras"),
        }
    };
    let each: Vec<String> = steps.iter().map(|(step, form)| format!("al paso {step}: {}", name(form))).collect();
    let then = match steps {
        // What comes second is what learners have built.
        [(2, DisplayForm::Blocks)] => " Los estudiantes los comparan con su trabajo.",
        [(2, _)] => " Los estudiantes la comparan con su trabajo.",
        [_] => "",
        _ => " Los estudiantes leen cada uno en voz alta antes de seguir.",
    };
    format!("Pase {}.{then}", each.join("; luego "))
}
