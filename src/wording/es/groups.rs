//! What is said in small groups in Spanish.

use super::Spanish;
use super::phrases::listed;
use crate::number::{Content, Counted, Form, Names, Number, Place, Slip, SlipFamily, Style, Task};
use crate::wording::digits::{asked, built, counts, empty, extremes, first_difference, misheard, worth};
use crate::wording::{Checks, Groups, Phrases, Slips, Tools};

impl Groups for Spanish {
    fn groups_note(&self, built: bool) -> &'static str {
        if built {
            "Para mañana, cuando haya leído la lista de la clase y los controles. Diez minutos por grupo, en una mesa con \
             bloques."
        } else {
            "Para mañana, cuando haya leído la lista de la clase y los controles. Diez minutos por grupo, en una mesa con \
             papel."
        }
    }

    fn reading_title(&self) -> &'static str {
        "De la lista a los grupos"
    }

    fn reading_steps(&self) -> [&'static str; 4] {
        [
            "Corrija un control con las respuestas. Por cada opción equivocada, ponga una marca en la lista bajo la letra del error.",
            "Recorra la lista. Quien tiene dos marcas bajo una letra, o marcas bajo letras de un mismo grupo, va a ese grupo. Una sola marca puede ser casualidad: pregunte otra vez antes de decidir.",
            "Tome los dos o tres grupos con más estudiantes. Quien sobra va al grupo de su primera letra, o espera un día.",
            "Quien no tiene letra ya lo sabe. Trabaja por su cuenta en las tareas del final de esta hoja.",
        ]
    }

    fn groups_heads(&self) -> [&'static str; 4] {
        ["Grupo", "Letras en la lista", "Qué descubre", "Nombres"]
    }

    fn family(&self, family: SlipFamily) -> &'static str {
        match family {
            SlipFamily::Zeros => "Ceros",
            SlipFamily::Teens => "Palabras",
            SlipFamily::Parts => "Partes",
            SlipFamily::Worth => "Valor",
            SlipFamily::Trades => "Canjes",
            SlipFamily::Order => "Orden",
        }
    }

    fn family_aim(&self, family: SlipFamily) -> &'static str {
        match family {
            SlipFamily::Zeros => "Cada columna lleva una cifra, también la vacía.",
            SlipFamily::Teens => "Palabras que se parecen dicen números distintos.",
            SlipFamily::Parts => "Las partes van una sobre otra: una cifra por columna.",
            SlipFamily::Worth => "La cifra dice cuántos hay; su posición, de qué.",
            SlipFamily::Trades => "Se va una pieza, vienen diez de la siguiente, y el número sigue igual.",
            SlipFamily::Order => "La posición mayor va primero, al escribir y al comparar.",
        }
    }

    fn has_it(&self) -> &'static str {
        "Ya lo sabe"
    }

    fn no_letter(&self) -> &'static str {
        "ninguna"
    }

    fn has_it_tasks(&self, numbers: &[Number], style: &Style) -> Vec<(String, String)> {
        let task = |number: &Number| {
            let (greatest, least) = extremes(*number, style);
            let question = format!(
                "Usa todas las cifras de {}. ¿Cuáles son el número mayor y el menor que puedes formar?",
                style.numeral(*number)
            );
            (question, self.list(&[&greatest, &least]))
        };
        numbers.iter().map(task).collect()
    }

    fn lesson_title(&self, letter: char, slip: Slip) -> String {
        format!("{letter}, {} (grupo: {})", self.slip_name(slip), self.family(slip.family()))
    }

    fn group_build(&self, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let one = |number: Number| {
            let numeral = style.numeral(number);
            if let Some(built) = built(number, task, style) {
                return if tools.blocks {
                    format!("{numeral} con {}", held(&built))
                } else {
                    format!("{numeral} como {} en una tabla de papel", counts(self, &built))
                };
            }
            if tools.blocks {
                format!("{numeral} con {}", self.pieces_of(number))
            } else {
                format!("{numeral} en una tabla de papel, una cifra en cada columna")
            }
        };
        match task {
            Task::Greater(other) if tools.blocks => format!("{}, y {}.", one(number), one(other)),
            Task::Greater(other) => {
                let both = self.list(&[&style.numeral(number), &style.numeral(other)]);
                format!("{both} en una tabla de papel, una cifra en cada columna.")
            }
            Task::Forms { .. } | Task::Worth(_) => format!("{}.", one(number)),
        }
    }

    fn group_question(&self, slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let numeral = style.numeral(number);
        let both = || match task {
            Task::Greater(other) => self.list(&[&numeral, &style.numeral(other)]),
            Task::Forms { .. } | Task::Worth(_) => numeral.clone(),
        };
        match slip {
            Slip::ZeroDropped => "¿Qué columna está vacía? ¿Qué escribimos en ella?".to_owned(),
            Slip::ZeroMoved => format!("¿Cuál es la columna vacía de {numeral}? ¿Dónde va su 0?"),
            Slip::TeenTy => {
                let words = slip.spoken(style).words(number);
                match misheard(slip, number, task, style) {
                    Place::Tens if tools.blocks => {
                        format!("¿Cuántas barras necesita «{words}»? Digan las palabras despacio.")
                    }
                    place => heard(&words, place),
                }
            }
            Slip::SoundAlike => heard(&slip.spoken(style).words(number), misheard(slip, number, task, style)),
            Slip::HundredWord => format!("¿Cómo decimos 100 en {numeral}, y cómo cuando va solo?"),
            Slip::TeenReversed => format!("¿Qué cifra de {numeral} cuenta decenas? ¿Dónde la escribimos?"),
            Slip::SideBySide | Slip::BigPartThenRest | Slip::HalfOverwritten => {
                "¿Cuántas columnas usamos? Entonces, ¿cuántas cifras escribimos?".to_owned()
            }
            Slip::PlaceWordWritten => "¿Qué palabras nombran una columna? ¿Las escribimos como cifras?".to_owned(),
            Slip::ReadInPieces => format!("¿Qué cifra de {numeral} leemos primero, y cuál es su posición?"),
            Slip::FaceValue => match task {
                Task::Greater(_) => format!("¿Son iguales {}, ya que tienen las mismas cifras?", both()),
                Task::Forms { .. } | Task::Worth(_) => {
                    let digit = number.digit(asked(number, task));
                    if tools.blocks {
                        format!("¿Qué bloques representa el {digit} de {numeral}?")
                    } else {
                        format!("¿Qué representa el {digit} en {numeral}?")
                    }
                }
            },
            Slip::CountedAlike => "¿Cuántos cubos forman una barra? ¿Cómo contamos este dibujo?".to_owned(),
            Slip::PlaceOff => {
                let digit = number.digit(asked(number, task));
                format!("Nombren las posiciones desde las unidades. ¿Dónde está el {digit}?")
            }
            Slip::FromTheOnes => format!("¿Qué posición comparamos primero en {}?", both()),
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => self.trade_question(slip, number, task, style),
            Slip::CountsSideBySide | Slip::TenLeftOut => {
                "¿Qué columna tiene diez o más? ¿Por qué las podemos canjear?".to_owned()
            }
            Slip::TensOnesSwapped => format!("¿Qué cifra de {numeral} dice cuántas decenas hay?"),
            Slip::HundredsTensSwapped => format!("¿Qué cifra de {numeral} dice cuántas centenas hay?"),
            Slip::Reversed => format!("¿Qué cifra de {numeral} escribimos primero, y por qué?"),
        }
    }

    fn group_answer(&self, slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let numeral = style.numeral(number);
        let (top, first) = number.digits().next().unwrap_or((Place::Ones, 0));
        let columns = || self.capital(&self.columns(&empty(number)));
        match slip {
            Slip::ZeroDropped => format!("{}. Ahí escribimos 0: {numeral}.", columns()),
            Slip::ZeroMoved => format!("{}, y ahí va el 0: {numeral}.", columns()),
            Slip::TeenTy | Slip::SoundAlike => {
                let digit = number.digit(misheard(slip, number, task, style));
                format!("{digit}; por eso escribimos {numeral}.")
            }
            Slip::HundredWord => {
                let spoken = slip.spoken(style);
                format!("{}; solo, {}.", self.capital(&spoken.words(number)), spoken.names.cardinal(100, false))
            }
            Slip::TeenReversed => {
                let digit = number.digit(misheard(slip, number, task, style));
                format!("El {digit}. Va antes de las unidades: {numeral}.")
            }
            Slip::SideBySide | Slip::BigPartThenRest | Slip::HalfOverwritten => {
                let count = self.small(number.len());
                format!("{} columnas; por eso, {count} cifras: {numeral}.", self.capital(&count))
            }
            Slip::PlaceWordWritten => {
                // In Spanish only thousands are counted by a word of their own.
                let words = if number.value() < 1_000 { "Cien" } else { "Mil" };
                format!("{words}. No: solo se escribe cuántos hay en cada columna: {numeral}.")
            }
            Slip::ReadInPieces => {
                format!("El {first}: {}. Completo: {}.", self.units(first.into(), top), style.words(number))
            }
            Slip::FaceValue => match task {
                Task::Greater(other) => format!(
                    "No. {} es mayor que {}: las cifras están en otras posiciones.",
                    style.numeral(number.max(other)),
                    style.numeral(number.min(other))
                ),
                Task::Forms { .. } | Task::Worth(_) => {
                    let place = asked(number, task);
                    format!("{}: vale {}.", self.capital(&shown(number, place, tools)), worth(number, place, style))
                }
            },
            Slip::CountedAlike => {
                let places = number.digits().filter(|(_, digit)| *digit > 0);
                let places: Vec<&str> = places.map(|(place, _)| self.place(place)).collect();
                format!("Diez. Por {}, primero los bloques mayores: {numeral}.", self.list(&places))
            }
            Slip::PlaceOff => {
                let place = asked(number, task);
                let places: Vec<&str> =
                    Place::ALL.into_iter().take(place.index() + 1).map(|place| self.place(place)).collect();
                format!("{}. Vale {}.", self.capital(&places.join(", ")), worth(number, place, style))
            }
            Slip::FromTheOnes => {
                let Task::Greater(other) = task else { return String::new() };
                let place = first_difference(number, other).unwrap_or(Place::Ones);
                format!(
                    "La mayor en la que se distinguen, la de las {}. {} tiene más; por eso es mayor.",
                    self.place(place),
                    style.numeral(number.max(other))
                )
            }
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew | Slip::CountsSideBySide | Slip::TenLeftOut => {
                self.trade_answer(slip, number, task, style)
            }
            Slip::TensOnesSwapped => told(number, Place::Tens, tools),
            Slip::HundredsTensSwapped => told(number, Place::Hundreds, tools),
            Slip::Reversed => format!("El {first}. Cuenta las {}, la posición mayor.", self.place(top)),
        }
    }

    fn group_try(&self, task: Task, tools: Tools) -> String {
        let what = match task {
            Task::Forms { asked: Form::Numeral, shown: Form::Words | Form::SecondWords } => {
                "Diga cada número. Lo escriben en cifras."
            }
            Task::Forms { asked: Form::Numeral, shown: Form::Blocks | Form::Untraded } if tools.blocks => {
                "Muestre cada número con bloques. Lo escriben en cifras."
            }
            Task::Forms { asked: Form::Numeral, shown: Form::Blocks | Form::Untraded } => {
                "Dibuje cada número. Lo escriben en cifras."
            }
            Task::Forms { asked: Form::Numeral, .. } => "Muestre cada uno. Lo escriben en cifras.",
            Task::Forms { asked: Form::Words | Form::SecondWords, .. } => "Muestre cada número. Lo leen en voz alta.",
            Task::Forms { asked: Form::Expanded, .. } => "Muestre cada número. Lo escriben en forma desarrollada.",
            Task::Forms { asked: Form::Units, .. } => "Muestre cada número. Dicen cuántos hay en cada posición.",
            Task::Forms { asked: Form::Blocks, .. } if tools.blocks => "Muestre cada número. Lo arman.",
            Task::Forms { asked: Form::Blocks, .. } => "Muestre cada número. Lo dibujan.",
            Task::Forms { asked: Form::Regrouped, .. } => "Muestre cada número. Canjean y dicen qué tienen entonces.",
            Task::Forms { asked: Form::Untraded, .. } if tools.blocks => "Muestre cada número. Lo arman y canjean.",
            Task::Forms { asked: Form::Untraded, .. } => "Muestre cada número. Lo dibujan y canjean.",
            Task::Worth(_) => "Muestre cada uno. Dicen cuánto vale la cifra.",
            Task::Greater(_) => "Muestre los dos. Dicen cuál es mayor y por qué.",
        };
        what.to_owned()
    }

    fn group_gone(&self, slip: Slip, tools: Tools) -> String {
        let sign = match slip {
            Slip::ZeroDropped => "nombra la columna vacía antes de escribir",
            Slip::ZeroMoved => "señala la columna vacía y pone ahí el 0",
            Slip::TeenTy => "oye bien la palabra y dice cuántas decenas son",
            Slip::SoundAlike => "dice cuántas decenas son antes de escribir",
            Slip::HundredWord => "elige cien o ciento según lo que sigue",
            Slip::TeenReversed => "escribe primero la decena",
            Slip::SideBySide | Slip::BigPartThenRest | Slip::HalfOverwritten => {
                "cuenta las columnas antes de escribir otras tantas cifras"
            }
            Slip::PlaceWordWritten => "escribe cuántos hay en cada columna y nada por su nombre",
            Slip::ReadInPieces => "dice la posición con la primera cifra y sigue leyendo sin pausa",
            Slip::FaceValue => "dice cuántos de qué representa cada cifra",
            Slip::CountedAlike => "cuenta cada tipo de bloque por su valor",
            Slip::PlaceOff => "nombra las posiciones desde las unidades antes de contestar",
            Slip::FromTheOnes => "empieza por la izquierda y se detiene en la primera posición distinta",
            Slip::NotTakenAway if tools.blocks => "devuelve la pieza canjeada antes de tomar las diez",
            Slip::NotTakenAway => "tacha la pieza canjeada antes de dibujar diez",
            Slip::OneForOne | Slip::OneTooFew => "cuenta diez piezas por cada una que canjea",
            Slip::CountsSideBySide | Slip::TenLeftOut => "canjea cada diez antes de escribir",
            Slip::TensOnesSwapped if !tools.blocks => "dice sin ayuda qué cifra cuenta las decenas",
            Slip::HundredsTensSwapped if !tools.blocks => "dice sin ayuda qué cifra cuenta las centenas",
            Slip::TensOnesSwapped => "pone sin ayuda barras para la cifra de las decenas",
            Slip::HundredsTensSwapped => "pone sin ayuda placas para la cifra de las centenas",
            Slip::Reversed => "empieza siempre por la posición mayor",
        };
        format!("Superado cuando las tres respuestas están bien y el estudiante {sign}.")
    }

    fn numbers_heads(&self) -> [&'static str; 3] {
        ["Se muestra", "Correcto", "Con el error"]
    }

    fn shown_in(&self, number: Number, task: Task, style: &Style) -> String {
        match task {
            Task::Forms { shown, .. } => match shown.content(number, style) {
                Some(content @ (Content::Text(_) | Content::Both(_))) => content.text(style.names),
                Some(Content::Blocks(_)) => self.pieces_of(number),
                None => style.numeral(number),
            },
            Task::Worth(place) => self.digit_of(number.digit(place), &style.numeral(number)),
            // The lesser first: whoever picks the first is not right by chance.
            Task::Greater(other) => listed(&[style.numeral(number.min(other)), style.numeral(number.max(other))]),
        }
    }
}

/// How many blocks of each kind: "4 placas, 16 barras y 2 cubos".
fn held(counted: &Counted) -> String {
    let held = Place::ALL.into_iter().zip(counted).rev().filter(|(_, count)| **count > 0);
    listed(&held.filter_map(|(place, count)| Spanish.pieces(*count, place)).collect::<Vec<_>>())
}

/// A question for the digit that sounds decide.
fn heard(words: &str, place: Place) -> String {
    format!("¿Qué cifra va en las {} de «{words}»? Digan las palabras despacio.", Spanish.place(place))
}

/// What a digit stands for: pieces where there are blocks, else units of its place.
fn shown(number: Number, place: Place, tools: Tools) -> String {
    let digit = u32::from(number.digit(place));
    let pieces = Spanish.pieces(digit, place).filter(|_| tools.blocks);
    pieces.unwrap_or_else(|| Spanish.units(digit, place))
}

/// "El 6: 6 barras."
fn told(number: Number, place: Place, tools: Tools) -> String {
    format!("El {}: {}.", number.digit(place), shown(number, place, tools))
}
