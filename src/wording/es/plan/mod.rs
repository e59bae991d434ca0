//! What a lesson plan says in Spanish.

mod alone;
mod asked;
mod deeds;
mod frame;
mod prepare;
mod said;
mod went_wrong;

use super::Spanish;
use super::phrases::{counted, listed};
use super::titles::with_article;
use crate::number::{Form, Number, Place};
use crate::spec::{Language, SheetKind};
use crate::wording::{FormTitles, Phrases, Usage, digits};

/// The numerals of these numbers: "217, 366 y 207".
fn numerals(numbers: &[Number], usage: &Usage<'_>) -> String {
    let numerals: Vec<String> = numbers.iter().map(|n| usage.style.numeral(*n)).collect();
    listed(&numerals)
}

/// The first `count` rows, which bear no numbers: "la primera fila", "las primeras 4 filas".
fn rows(count: u32) -> String {
    if count == 1 { "la primera fila".to_owned() } else { format!("las primeras {count} filas") }
}

/// The first `count` of numbers that stand on the board: "el primer número", "los primeros 4 números".
fn first_ones(count: u32) -> String {
    if count == 1 { "el primer número".to_owned() } else { format!("los primeros {count} números") }
}

/// Whom `more` numbers after those are for, as a sentence of its own.
fn early(more: u32, whom: &str) -> String {
    match more {
        0 => String::new(),
        1 => format!(" El último es {whom}."),
        _ => format!(" Los demás son {whom}."),
    }
}

/// What a digit in a place is worth, as a numeral: 400.
fn worth(number: Number, place: Place, usage: &Usage<'_>) -> String {
    digits::worth(number, place, usage.style)
}

/// How a number is written in a form: "en palabras", "en forma desarrollada", or "en la forma" with the class's own word.
pub(super) fn in_form(form: Form, usage: &Usage<'_>) -> String {
    if let Some(words) = told_apart(form, usage) {
        return format!("en {words}");
    }
    if form == Form::Units && usage.names.get(form).is_none() {
        return by_places(usage);
    }
    let own = match form {
        Form::Numeral => "en cifras",
        Form::Words => "en palabras",
        Form::SecondWords => "en palabras, en el otro idioma",
        Form::Expanded => "en forma desarrollada",
        Form::Units => "por posiciones",
        Form::Regrouped => "en forma reagrupada",
        Form::Blocks => "con un dibujo",
        Form::Untraded => "en un dibujo con bloques por canjear",
    };
    usage.names.get(form).map_or_else(|| own.to_owned(), |name| format!("en la forma «{name}»"))
}

/// Words that say which language they are in, where there are strips for each: "palabras en inglés".
fn told_apart(form: Form, usage: &Usage<'_>) -> Option<String> {
    let second = usage.second.filter(|_| usage.names.get(form).is_none())?;
    let language = match form {
        Form::Words => Language::Es,
        Form::SecondWords => second,
        _ => return None,
    };
    Some(format!("palabras en {}", Spanish.language(language)))
}

/// How a number is told place by place, in the words that head its column: "por decenas y unidades", "por posiciones".
fn by_places(usage: &Usage<'_>) -> String {
    let heading = Spanish.form_heading(Form::Units, usage.greatest).to_lowercase();
    if heading.starts_with("por ") { heading } else { format!("por {heading}") }
}

/// Several of a form: "palabras", or the class's own word.
fn form_plural(form: Form, usage: &Usage<'_>) -> String {
    if let Some(words) = told_apart(form, usage) {
        return words;
    }
    if form == Form::Units && usage.names.get(form).is_none() {
        return format!("números {}", by_places(usage));
    }
    usage.names.get(form).map_or_else(|| Spanish.form_plural(form).to_owned(), |name| format!("«{name}»"))
}

/// "1 minuto", "24 minutos".
fn minutes(count: u32) -> String {
    counted(count, "minuto", "minutos")
}

/// "4 placas en la columna de las centenas y 6 cubos en la columna de las unidades. La columna de las decenas queda vacía."
fn build(number: Number) -> String {
    let parts: Vec<String> = number
        .parts()
        .filter_map(|(place, digit)| {
            Some(format!("{} en {}", Spanish.pieces(digit.into(), place)?, Spanish.columns(&[place])))
        })
        .collect();
    let put = match parts.len() {
        0 => return "todo el tapete queda vacío.".to_owned(),
        1 | 2 => listed(&parts),
        // Every column named would make a sentence too long to say.
        _ => format!("{}, cada cosa en su columna", Spanish.pieces_of(number)),
    };
    let empty = digits::empty(number);
    let stay = if empty.len() == 1 { "queda vacía" } else { "quedan vacías" };
    if empty.is_empty() {
        format!("{put}.")
    } else {
        format!("{put}. {} {stay}.", Spanish.capital(&Spanish.columns(&empty)))
    }
}

/// "el tablero y las tiras".
fn these(sheets: &[SheetKind]) -> String {
    let name = |kind: &SheetKind| with_article(*kind, if *kind == SheetKind::Strips { 2 } else { 1 });
    listed(&sheets.iter().map(name).collect::<Vec<_>>())
}
