//! What is done, asked and expected in the ten minutes of a slip's group, in Spanish.

use super::Spanish;
use super::phrases::listed;
use crate::number::{Content, Form, Names, Number, Place, Slip, Style, Task, fewest_blocks};
use crate::wording::digits::{asked, column_words, empty, first_difference, parts, pictured, worth};
use crate::wording::groups::GroupStep;
use crate::wording::{Checks, GroupSteps, Groups, Phrases, ReadIn, Slips, Tools};

impl GroupSteps for Spanish {
    fn lesson_title(&self, letter: char, slip: Slip, one_learner: bool) -> String {
        let (name, family) = (self.slip_name(slip), self.family(slip.family()));
        if one_learner { format!("{letter}, {name}") } else { format!("{letter}, {name} (grupo: {family})") }
    }

    fn group_build(&self, step: &GroupStep<'_>) -> String {
        let GroupStep { slip, of, task, tools, style, .. } = *step;
        let numeral = style.numeral(of);
        let taken = step.taken.map(|taken| style.numeral(taken)).unwrap_or_default();
        let made = || made(of, tools, style);
        let columns = || in_columns(of, tools, style);
        match slip {
            Slip::ZeroDropped if empty(of).len() > 1 => {
                format!("{} Señalamos cada columna vacía y escribimos 0 en ella.", columns())
            }
            Slip::ZeroDropped => format!("{} Señalamos la columna vacía y escribimos 0 en ella.", columns()),
            Slip::ZeroMoved => {
                let shows = if tools.blocks { "armamos" } else { "mostramos" };
                format!("{} Después, en su lugar, {shows} {taken}.", columns())
            }
            Slip::TeenTy | Slip::SoundAlike => confused(step),
            Slip::HundredWord => format!("Leemos en voz alta {numeral} y 100 solo, y comparamos las dos palabras."),
            Slip::TeenReversed => {
                let Some(teen) = step.teen() else {
                    return String::new();
                };
                let rod = if tools.blocks { "barra" } else { "raya" };
                format!("{} Escribimos primero la cifra de la {rod}.", made_of(teen, tools, style))
            }
            Slip::SideBySide | Slip::BigPartThenRest => {
                let parts = parts(of, style);
                let smaller =
                    if parts.len() == 2 { "la menor sobre la mayor" } else { "las menores sobre las mayores" };
                let parts = listed(&parts);
                if tools.cards {
                    format!("Tomamos las tarjetas {parts}. Ponemos {smaller}, con los bordes de la derecha juntos.")
                } else {
                    format!(
                        "Escribimos las partes de {numeral} una debajo de otra, unidades bajo unidades: {parts}. Las sumamos."
                    )
                }
            }
            Slip::HalfOverwritten => format!("{} Contamos las columnas y escribimos una cifra en cada una.", columns()),
            Slip::PlaceWordWritten => {
                format!("{} Señalamos los nombres de las columnas y escribimos solo cuántos hay.", columns())
            }
            Slip::ReadInPieces if tools.read == ReadIn::Periods => format!(
                "Escribimos {numeral}. Tapamos las tres últimas cifras, leemos lo que queda y decimos «mil». Después leemos las tres \
                 últimas."
            ),
            Slip::ReadInPieces => format!(
                "Escribimos {numeral}. Tapamos todo menos la primera cifra y la decimos con su posición. Después leemos el resto como \
                 un solo número."
            ),
            Slip::FaceValue => match task {
                Task::Greater(other) => two(of, other, step),
                Task::Forms { .. } | Task::Worth(_) if tools.blocks => {
                    format!("{} Ponemos una barra junto a un cubo para compararlos.", made())
                }
                Task::Forms { .. } | Task::Worth(_) => {
                    format!("Escribimos {numeral}. Señalamos una cifra tras otra y decimos qué cuenta cada una.")
                }
            },
            Slip::CountedAlike if tools.blocks => {
                let pieces = task.shown().content(of, style).map(|content| self.content(&content)).unwrap_or_default();
                format!("Ponemos diez cubos a lo largo de una barra. Después armamos {numeral} con {pieces}.")
            }
            Slip::CountedAlike => {
                let counts = pictured(of, task, style).unwrap_or_default();
                format!("Dibujamos {numeral} con {}.", marks(counts))
            }
            Slip::PlaceOff => {
                let built =
                    if tools.blocks { format!(" y lo armamos con {}", self.pieces_of(of)) } else { String::new() };
                format!(
                    "Escribimos {numeral}{built}. Nombramos en voz alta las posiciones desde las unidades, con un dedo en cada \
                     cifra."
                )
            }
            Slip::FromTheOnes => match task {
                Task::Greater(other) => two(of, other, step),
                Task::Forms { .. } | Task::Worth(_) => String::new(),
            },
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => {
                format!("{} {}", made(), self.trade_step(slip, of, task, tools, style))
            }
            Slip::CountsSideBySide | Slip::TenLeftOut => self.trade_up(of, task, tools, style),
            Slip::TensOnesSwapped | Slip::HundredsTensSwapped if tools.blocks => {
                format!("{} Después, en su lugar, armamos {taken}.", made())
            }
            Slip::TensOnesSwapped => format!("Escribimos {taken} debajo de {numeral} y comparamos las decenas."),
            Slip::HundredsTensSwapped => format!("Escribimos {taken} debajo de {numeral} y comparamos las centenas."),
            Slip::Reversed => {
                format!("{} Empezamos por la izquierda y escribimos primero la posición mayor.", columns())
            }
        }
    }

    fn group_question(&self, step: &GroupStep<'_>) -> String {
        let GroupStep { slip, of, task, tools, style, .. } = *step;
        let numeral = style.numeral(of);
        let both = || match task {
            Task::Greater(other) => self.list(&[&numeral, &style.numeral(other)]),
            Task::Forms { .. } | Task::Worth(_) => numeral.clone(),
        };
        let in_column = |place: Place| format!("en las {}", self.place(place));
        match slip {
            Slip::ZeroDropped if empty(of).len() > 1 => {
                "¿Qué columnas están vacías? ¿Qué escribimos en ellas?".to_owned()
            }
            Slip::ZeroDropped => "¿Qué columna está vacía? ¿Qué escribimos en ella?".to_owned(),
            Slip::ZeroMoved => {
                let which =
                    if empty(of).len() > 1 { "¿Qué columnas están vacías" } else { "¿Qué columna está vacía" };
                format!("{which} en {numeral}? ¿Y en {}?", style.numeral(step.taken.unwrap_or(of)))
            }
            Slip::TeenTy | Slip::SoundAlike => {
                let spoken = slip.spoken(task, style);
                let Some(heard) = step.heard() else { return String::new() };
                let [one, two] = heard.words(&spoken);
                let digit = in_column(heard.place);
                format!("Escuchamos: «{one}» y «{two}». ¿Qué cifra escribimos {digit} de cada uno?")
            }
            Slip::HundredWord => format!("¿Cómo decimos 100 en {numeral}, y cómo cuando va solo?"),
            Slip::TeenReversed => {
                let teen = step.teen().unwrap_or(of);
                format!("¿Qué cifra de {} cuenta la decena? ¿Dónde la escribimos?", style.words(teen))
            }
            Slip::SideBySide | Slip::BigPartThenRest => {
                let zeros = if of.len() == 2 { "con el cero" } else { "con los ceros" };
                format!("¿Cuántas cifras tiene el número completo? ¿Qué pasó {zeros}?")
            }
            Slip::HalfOverwritten => {
                "¿Cuántas columnas hay hasta la mayor? Entonces, ¿cuántas cifras escribimos?".to_owned()
            }
            Slip::PlaceWordWritten => {
                let spoken = slip.spoken(task, style);
                let which = match column_words(of, &spoken).len() {
                    1 => "¿Qué palabra nombra una columna? ¿La escribimos como cifras?",
                    _ => "¿Qué palabras nombran una columna? ¿Las escribimos como cifras?",
                };
                format!("Escuchamos: «{}». {which}", spoken.words(of))
            }
            Slip::ReadInPieces if tools.read == ReadIn::Periods => {
                format!("¿Qué leemos primero en {numeral}, antes de decir «mil»?")
            }
            Slip::ReadInPieces => format!("¿Qué cifra de {numeral} leemos primero, y cuál es su posición?"),
            Slip::FaceValue => match task {
                Task::Greater(_) => format!("¿Son iguales {}, ya que tienen las mismas cifras?", both()),
                Task::Forms { .. } | Task::Worth(_) => {
                    let digit = of.digit(asked(of, task));
                    if tools.blocks {
                        format!("¿Qué bloques representa el {digit} de {numeral}?")
                    } else {
                        format!("¿Qué representa el {digit} de {numeral}?")
                    }
                }
            },
            Slip::CountedAlike if tools.blocks => {
                "¿Cuántos cubos forman una barra? ¿Cómo contamos estos bloques?".to_owned()
            }
            Slip::CountedAlike if of.value() >= 100 => {
                "¿Cuántas rayas vale un cuadrado? ¿Cómo contamos este dibujo?".to_owned()
            }
            Slip::CountedAlike => "¿Cuántos puntos vale una raya? ¿Cómo contamos este dibujo?".to_owned(),
            Slip::PlaceOff => {
                format!("¿En qué posición está el {}? ¿Cuánto vale?", of.digit(asked(of, task)))
            }
            Slip::FromTheOnes => format!("¿Qué posición decide entre {}?", both()),
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => self.trade_question(slip, of, task, style),
            Slip::CountsSideBySide | Slip::TenLeftOut => {
                "¿De qué hay diez o más? ¿Qué recibimos al canjear diez?".to_owned()
            }
            Slip::TensOnesSwapped => format!("¿Qué cifra de {numeral} está en las decenas?"),
            Slip::HundredsTensSwapped => format!("¿Qué cifra de {numeral} está en las centenas?"),
            Slip::Reversed => format!("¿Qué cifra de {numeral} escribimos primero, y por qué?"),
        }
    }

    fn group_answer(&self, step: &GroupStep<'_>) -> String {
        let GroupStep { slip, of, task, tools, style, .. } = *step;
        let numeral = style.numeral(of);
        let (top, first) = of.digits().next().unwrap_or((Place::Ones, 0));
        let columns = |number: Number| self.columns(&empty(number));
        match slip {
            Slip::ZeroDropped => {
                let there = if empty(of).len() > 1 { "En cada una escribimos 0" } else { "Ahí escribimos 0" };
                format!("{}. {there}: {numeral}.", self.capital(&columns(of)))
            }
            Slip::ZeroMoved => {
                let taken = step.taken.unwrap_or(of);
                format!("En {numeral}, {}; en {}, {}.", columns(of), style.numeral(taken), columns(taken))
            }
            Slip::TeenTy | Slip::SoundAlike => {
                let Some(heard) = step.heard() else { return String::new() };
                let spoken = slip.spoken(task, style);
                let [one, two] = heard.words(&spoken);
                let digit = |number: Number| number.digit(heard.place);
                let (own, other) = (digit(of), digit(step.taken.unwrap_or(of)));
                let words = spoken.words(of);
                let whole =
                    if words == one { String::new() } else { format!(" «{}» es {numeral}.", self.capital(&words)) };
                format!("En «{one}» va un {own}; en «{two}», un {other}.{whole}")
            }
            Slip::HundredWord => {
                let spoken = slip.spoken(task, style);
                format!("{}; solo, {}.", self.capital(&spoken.words(of)), spoken.names.cardinal(100, false))
            }
            Slip::TeenReversed => {
                let Some(heard) = step.heard() else { return String::new() };
                let ones = heard.teen().map_or(0, |teen| teen.digit(Place::Ones));
                format!("El 1. Va antes del {ones}: {} es {numeral}.", style.words(of))
            }
            Slip::SideBySide | Slip::BigPartThenRest => {
                let count = self.capital(&self.small(of.len()));
                format!("{count}: {numeral}. {}", zeros_taken(of, style))
            }
            Slip::HalfOverwritten => {
                let count = self.small(of.len());
                format!("{} columnas; por eso, {count} cifras: {numeral}.", self.capital(&count))
            }
            Slip::PlaceWordWritten => {
                let named = column_words(of, &slip.spoken(task, style));
                let named = self.capital(&listed(&named));
                format!("{named}. No: solo se escribe cuántos hay en cada columna: {numeral}.")
            }
            Slip::ReadInPieces if tools.read == ReadIn::Periods => {
                format!("{}; después, mil. Completo: {}.", of.value() / 1_000, style.words(of))
            }
            Slip::ReadInPieces => {
                format!("El {first}: {}. Completo: {}.", self.units(first.into(), top), style.words(of))
            }
            Slip::FaceValue => match task {
                Task::Greater(other) => format!(
                    "No. {} es mayor que {}: las cifras están en otras posiciones.",
                    style.numeral(of.max(other)),
                    style.numeral(of.min(other))
                ),
                Task::Forms { .. } | Task::Worth(_) => {
                    let place = asked(of, task);
                    let worth_of = if of.digit(place) == 1 { "vale" } else { "valen" };
                    format!("{}: {worth_of} {}.", self.capital(&shown(of, place, tools)), worth(of, place, style))
                }
            },
            Slip::CountedAlike => {
                let counts = pictured(of, task, style).or(fewest_blocks(of)).unwrap_or_default();
                let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
                let shown = places.into_iter().zip(counts).filter(|(_, count)| *count > 0);
                let shown: Vec<&str> = shown.map(|(place, _)| self.place(place)).collect();
                format!("Diez. Por {}, primero lo mayor: {numeral}.", self.list(&shown))
            }
            Slip::PlaceOff => {
                let place = asked(of, task);
                format!("En las {}. Vale {}.", self.place(place), worth(of, place, style))
            }
            Slip::FromTheOnes => {
                let Task::Greater(other) = task else { return String::new() };
                let place = first_difference(of, other).unwrap_or(Place::Ones);
                let (more, less) = (of.max(other), of.min(other));
                let (greater, lesser) = (style.numeral(more), style.numeral(less));
                format!(
                    "La de las {}, la mayor en la que se distinguen. {greater} tiene ahí un {}, y {lesser}, un {}; por eso \
                     {greater} es mayor.",
                    self.place(place),
                    more.digit(place),
                    less.digit(place),
                )
            }
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew | Slip::CountsSideBySide | Slip::TenLeftOut => {
                self.trade_answer(slip, of, task, style)
            }
            Slip::TensOnesSwapped => told(of, Place::Tens, tools),
            Slip::HundredsTensSwapped => told(of, Place::Hundreds, tools),
            Slip::Reversed => format!("El {first}. Cuenta las {}, la posición mayor.", self.place(top)),
        }
    }

    fn group_try(&self, task: Task, tools: Tools, _one_learner: bool) -> String {
        let what = match task {
            Task::Forms { asked: Form::Numeral, shown: Form::Words | Form::SecondWords } => {
                "Diga cada número: se escribe en cifras."
            }
            Task::Forms { asked: Form::Numeral, shown: Form::Blocks | Form::Untraded } if tools.blocks => {
                "Muestre cada número con bloques: se escribe en cifras."
            }
            Task::Forms { asked: Form::Numeral, shown: Form::Blocks | Form::Untraded } => {
                "Dibuje cada número: se escribe en cifras."
            }
            Task::Forms { asked: Form::Numeral, .. } => "Muestre cada uno: se escribe en cifras.",
            Task::Forms { asked: Form::Words | Form::SecondWords, .. } => "Muestre cada número: se lee en voz alta.",
            Task::Forms { asked: Form::Expanded, .. } => "Muestre cada número: se escribe en forma desarrollada.",
            Task::Forms { asked: Form::Units, .. } => "Muestre cada número: se dice cuántos hay en cada posición.",
            Task::Forms { asked: Form::Blocks, .. } if tools.blocks => "Muestre cada número: se arma.",
            Task::Forms { asked: Form::Blocks, .. } => "Muestre cada número: se dibuja.",
            Task::Forms { asked: Form::Regrouped, .. } => "Muestre cada número: se canjea y se dice qué queda.",
            Task::Forms { asked: Form::Untraded, .. } if tools.blocks => "Muestre cada número: se arma y se canjea.",
            Task::Forms { asked: Form::Untraded, .. } => "Muestre cada número: se dibuja y se canjea.",
            Task::Worth(_) => "Muestre cada uno: se dice cuánto vale la cifra.",
            Task::Greater(_) => "Muestre los dos: se dice cuál es mayor y por qué.",
        };
        what.to_owned()
    }

    fn group_gone(&self, slip: Slip, tools: Tools) -> String {
        let sign = match slip {
            Slip::ZeroDropped => "nombra la columna vacía antes de escribir",
            Slip::ZeroMoved => "señala la columna vacía y pone ahí el 0",
            Slip::TeenTy => "oye bien la palabra y dice cuántas decenas son",
            Slip::SoundAlike => "distingue las dos palabras antes de escribir",
            Slip::HundredWord => "elige cien o ciento según lo que sigue",
            Slip::TeenReversed => "escribe primero la decena",
            Slip::SideBySide | Slip::BigPartThenRest => "pone cada parte menor en el lugar de sus ceros",
            Slip::HalfOverwritten => "cuenta las columnas antes de escribir otras tantas cifras",
            Slip::PlaceWordWritten => "escribe cuántos hay en cada columna y nada por su nombre",
            Slip::ReadInPieces if tools.read == ReadIn::Periods => {
                "lee los millares como un número y el resto como otro"
            }
            Slip::ReadInPieces => "dice la posición con la primera cifra y sigue leyendo sin pausa",
            Slip::FaceValue => "dice qué representa cada cifra",
            Slip::CountedAlike => "cuenta cada tipo de bloque por su valor",
            Slip::PlaceOff => "nombra la posición de la cifra antes de decir cuánto vale",
            Slip::FromTheOnes => "empieza por la izquierda y se detiene en la primera posición distinta",
            Slip::NotTakenAway if tools.blocks => "devuelve la pieza canjeada antes de tomar las diez",
            Slip::NotTakenAway => "quita lo canjeado antes de poner diez",
            Slip::OneForOne | Slip::OneTooFew => "cuenta diez piezas por cada una que canjea",
            Slip::CountsSideBySide | Slip::TenLeftOut => "canjea cada diez antes de escribir",
            Slip::TensOnesSwapped if !tools.blocks => "dice sin ayuda qué cifra cuenta las decenas",
            Slip::HundredsTensSwapped if !tools.blocks => "dice sin ayuda qué cifra cuenta las centenas",
            Slip::TensOnesSwapped => "pone sin ayuda barras para la cifra de las decenas",
            Slip::HundredsTensSwapped => "pone sin ayuda placas para la cifra de las centenas",
            Slip::Reversed => "empieza siempre por la posición mayor",
        };
        format!("El error está superado cuando todo está bien y el estudiante {sign}.")
    }

    fn numbers_heads(&self, task: Task, tools: Tools) -> [&'static str; 3] {
        let lead = match task {
            Task::Forms { shown: Form::Words | Form::SecondWords, asked: Form::Numeral } => "Se dice",
            Task::Forms { shown: Form::Blocks | Form::Untraded, .. } if tools.blocks => "Se pone",
            Task::Forms { shown: Form::Blocks | Form::Untraded, .. } => "Se dibuja",
            Task::Forms { .. } | Task::Worth(_) | Task::Greater(_) => "Se muestra",
        };
        [lead, "Correcto", "Con el error"]
    }

    fn shown_in(&self, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        match task {
            Task::Forms { shown, asked } => {
                let text = match shown.content(number, style) {
                    Some(content @ (Content::Text(_) | Content::Both(_))) => content.text(style.names),
                    Some(content @ Content::Blocks(_)) if tools.blocks => self.content(&content),
                    Some(Content::Blocks(counts)) => marks(counts),
                    None => style.numeral(number),
                };
                match asked {
                    Form::Regrouped | Form::Untraded => format!("{text}: {}", self.trade_asked(number, task, style)),
                    Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Blocks => {
                        text
                    }
                }
            }
            Task::Worth(place) => self.digit_of(number.digit(place), &style.numeral(number)),
            // The lesser first: whoever picks the first is not right by chance.
            Task::Greater(other) => listed(&[style.numeral(number.min(other)), style.numeral(number.max(other))]),
        }
    }
}

/// What a digit stands for: pieces where there are blocks, else units of its place.
fn shown(number: Number, place: Place, tools: Tools) -> String {
    let digit = u32::from(number.digit(place));
    let pieces = Spanish.pieces(digit, place).filter(|_| tools.blocks);
    pieces.unwrap_or_else(|| Spanish.units(digit, place))
}

/// What became of the zeros of a number's parts.
fn zeros_taken(number: Number, style: &Style) -> String {
    match parts(number, style).as_slice() {
        [greater, less] => {
            // 604: of the two zeros of 600 the 4 takes the place of the last.
            let taken = number.parts().nth(1).map_or(0, |(place, _)| place.index() + 1);
            let zeros = match (number.len() - 1, taken) {
                (1, _) => "del cero".to_owned(),
                (all, taken) if taken == all => "de los ceros".to_owned(),
                (_, 1) => "del último cero".to_owned(),
                (_, taken) => format!("de los últimos {taken} ceros"),
            };
            format!("El {less} ocupa el lugar {zeros} de {greater}.")
        }
        _ => "Las partes menores ocupan el lugar de los ceros.".to_owned(),
    }
}

/// "El 6: 6 barras."
fn told(number: Number, place: Place, tools: Tools) -> String {
    format!("El {}: {}.", number.digit(place), shown(number, place, tools))
}

/// "Armamos 604 con 6 placas y 4 cubos.", or drawn, or digit by digit.
fn made(number: Number, tools: Tools, style: &Style) -> String {
    match fewest_blocks(number) {
        Some(_) => made_of(number, tools, style),
        None if tools.mat => {
            format!("Ponemos las cifras de {} en el tapete, una en cada columna.", style.numeral(number))
        }
        None => format!("Escribimos {} en una tabla de papel, una cifra en cada columna.", style.numeral(number)),
    }
}

/// The same of a number up to 9,999.
fn made_of(number: Number, tools: Tools, style: &Style) -> String {
    let (verb, how) = making(number, tools);
    format!("{verb} {} con {how}.", style.numeral(number))
}

/// How a number is built, or drawn where there are no blocks.
fn making(number: Number, tools: Tools) -> (&'static str, String) {
    if tools.blocks {
        ("Armamos", Spanish.pieces_of(number))
    } else {
        ("Dibujamos", marks(fewest_blocks(number).unwrap_or_default()))
    }
}

/// What is drawn for so many thousands, flats, rods and cubes: "6 cuadrados y 4 puntos".
pub(super) fn marks(counts: [u32; 4]) -> String {
    let names = [("caja", "cajas"), ("cuadrado", "cuadrados"), ("raya", "rayas"), ("punto", "puntos")];
    let marks = counts.into_iter().zip(names).filter(|(count, _)| *count > 0);
    let marks: Vec<String> =
        marks.map(|(count, (one, many))| format!("{count} {}", if count == 1 { one } else { many })).collect();
    if marks.is_empty() { "nada".to_owned() } else { listed(&marks) }
}

/// A number in the columns of the mat or of a chart, those of its zeros empty.
fn in_columns(number: Number, tools: Tools, style: &Style) -> String {
    let place = if tools.mat { "en el tapete" } else { "en una tabla de papel" };
    let numeral = style.numeral(number);
    let counts = number.parts();
    let counts: Vec<String> = counts.map(|(place, digit)| Spanish.units(digit.into(), place)).collect();
    let several = counts.len() > 1;
    if tools.blocks {
        let column = if several { ", cada tipo en su columna" } else { "" };
        return format!("Armamos {numeral} {place} con {}{column}.", Spanish.pieces_of(number));
    }
    let scraps = match (tools.mat, several) {
        (true, true) => " Escribimos cada cantidad en un papelito.",
        (true, false) => " Escribimos la cantidad en un papelito.",
        (false, _) => "",
    };
    let column = if several { "cada cantidad en su columna" } else { "en su columna" };
    format!("Mostramos {numeral} {place}: {}, {column}.{scraps}", listed(&counts))
}

/// Two numbers side by side, and how they are compared.
fn two(of: Number, other: Number, step: &GroupStep<'_>) -> String {
    let (one, two) = (step.style.numeral(of), step.style.numeral(other));
    if !step.tools.blocks {
        return format!(
            "Escribimos {one} y {two} uno debajo de otro, unidades bajo unidades. Comparamos primero la posición mayor, después \
             la siguiente."
        );
    }
    let from = if step.two_sets { "con otro juego de bloques, " } else { "" };
    let (here, there) = (Spanish.pieces_of(of), Spanish.pieces_of(other));
    format!(
        "Armamos {one} con {here} y, al lado, {from}{two} con {there}. Comparamos primero los bloques mayores, después los \
         siguientes."
    )
}

/// The two words that are taken for each other, said and built.
fn confused(step: &GroupStep<'_>) -> String {
    let GroupStep { tools, style, .. } = *step;
    let Some(heard) = step.heard() else { return String::new() };
    let [one, two] = heard.words(&step.slip.spoken(step.task, style));
    let [(first, (verb, how)), (second, (_, so))] =
        heard.both.map(|number| (style.numeral(number), making(number, tools)));
    let from = if step.two_sets { " y, con otro juego," } else { ", y" };
    let and = Spanish.list(&[&format!("«{one}»"), &format!("«{two}»")]);
    format!("Decimos despacio {and}. {verb} {first} con {how}{from} {second} con {so}. Los comparamos.")
}
