//! What a lesson plan says in English.

mod alone;
mod asked;
mod deeds;
mod frame;
mod prepare;
mod said;
mod went_wrong;

use super::English;
use super::phrases::{counted, inside, listed};
use crate::number::{Form, Number, Place};
use crate::spec::{Language, SheetKind};
use crate::wording::digits::{self, empty, once};
use crate::wording::{FormTitles, Phrases, Titles, Usage};

/// The numerals of these numbers: "217, 366 and 207".
fn numerals(numbers: &[Number], usage: &Usage<'_>) -> String {
    let numerals: Vec<String> = numbers.iter().map(|n| usage.style.numeral(*n)).collect();
    listed(&numerals)
}

/// The first `count` rows, which bear no numbers: "the first row", "the first 4 rows".
fn rows(count: u32) -> String {
    if count == 1 { "the first row".to_owned() } else { format!("the first {}", counted(count, "row")) }
}

/// The first `count` of numbers that stand on the board: "the first number", "the first 4 numbers".
fn first_ones(count: u32) -> String {
    if count == 1 { "the first number".to_owned() } else { format!("the first {}", counted(count, "number")) }
}

/// Whom `more` numbers after those are for, as a sentence of its own.
fn early(more: u32, whom: &str) -> String {
    match more {
        0 => String::new(),
        1 => format!(" The last one is for {whom}."),
        _ => format!(" The others are for {whom}."),
    }
}

/// What a digit in a place is worth, as a numeral: 400.
fn worth(number: Number, place: Place, usage: &Usage<'_>) -> String {
    digits::worth(number, place, usage.style)
}

/// What the class calls a form, inside a sentence: "in expanded form", "in words", or its own word.
fn form_name(form: Form, usage: &Usage<'_>) -> String {
    let own = match form {
        Form::Numeral => "figures",
        Form::Words => "words",
        Form::SecondWords => "words in the other language",
        Form::Expanded => "expanded form",
        Form::Units => return usage.names.get(form).map_or_else(|| inside(units(usage)), inside),
        Form::Regrouped => "regrouped form",
        Form::Blocks => "blocks",
        Form::Untraded => "blocks to trade",
    };
    usage.names.get(form).map_or_else(|| own.to_owned(), inside)
}

/// What the form that counts place by place is called for numbers as large as these.
fn units(usage: &Usage<'_>) -> &'static str {
    English.form_heading(Form::Units, usage.greatest)
}

/// How a number is written in a form: "in words", "in expanded form", "as a drawing", or as the class's own word.
pub(super) fn in_form(form: Form, usage: &Usage<'_>) -> String {
    let own = usage.names.get(form);
    if let Some(words) = told_apart(form, usage) {
        return format!("in {words}");
    }
    match form {
        Form::Words | Form::SecondWords | Form::Expanded if own.is_none() => format!("in {}", form_name(form, usage)),
        // "Place by place" says how by itself.
        Form::Units if own.is_none() && units(usage).starts_with("Place") => inside(units(usage)),
        _ if own.is_some() || form == Form::Units => format!("as {}", form_name(form, usage)),
        _ => format!("as {}", English.form_written(form)),
    }
}

/// Words that say which language they are in, where there are strips for each: "words in Spanish".
fn told_apart(form: Form, usage: &Usage<'_>) -> Option<String> {
    let second = usage.second.filter(|_| usage.names.get(form).is_none())?;
    let language = match form {
        Form::Words => Language::En,
        Form::SecondWords => second,
        _ => return None,
    };
    Some(format!("words in {}", English.language(language)))
}

/// Several of a form: "number words", or the class's own word.
fn form_plural(form: Form, usage: &Usage<'_>) -> String {
    if let Some(words) = told_apart(form, usage) {
        return words;
    }
    if form == Form::Units && usage.names.get(form).is_none() && !units(usage).starts_with("Place") {
        return format!("numbers named in {}", inside(units(usage)));
    }
    usage.names.get(form).map_or_else(|| English.form_plural(form).to_owned(), inside)
}

/// "4 flats in the hundreds column and 6 cubes in the ones column. Leave the tens column empty."
fn build(number: Number) -> String {
    let parts: Vec<String> = number
        .parts()
        .filter_map(|(place, digit)| {
            Some(format!("{} in {}", English.pieces(digit.into(), place)?, English.columns(&[place])))
        })
        .collect();
    let put = match parts.len() {
        0 => return "the whole mat stays empty.".to_owned(),
        1 | 2 => listed(&parts),
        // Every column named would make a sentence too long to say.
        _ => format!("{}, each kind in its own column", English.pieces_of(number)),
    };
    let empty = empty(number);
    if empty.is_empty() { format!("{put}.") } else { format!("{put}. Leave {} empty.", English.columns(&empty)) }
}

/// "the sorting board and the strips".
fn these(sheets: &[SheetKind]) -> String {
    let name = |kind: &SheetKind| {
        let count = if *kind == SheetKind::Strips { 2 } else { 1 };
        format!("the {}", English.sheet_in_text(*kind, count))
    };
    listed(&sheets.iter().map(name).collect::<Vec<_>>())
}
