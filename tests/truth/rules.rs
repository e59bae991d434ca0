//! What a statement is compared with: a pattern, and what the packet must hold for it to be true.

use std::collections::BTreeSet;

use super::packet::Envelope;
use super::read::fit;
use placewright::spec::SheetKind;

/// What is false about a statement.
pub type Check = Result<(), String>;

/// What a pattern's holes must agree with.
pub type Rule = (&'static str, fn(&Envelope, &Scene, &[&str]) -> Check);

/// Where in the lesson a statement stands.
#[derive(Debug, Default, Clone)]
pub struct Scene {
    /// The number that is spoken of.
    pub number: u32,
    /// Minutes of the phase.
    pub minutes: u32,
    /// The minutes that chores before the lesson take.
    pub chores: u32,
}

/// Judges a statement by the first pattern that fits it; `None` where none does.
pub fn judge(rules: &[Rule], held: &Envelope, scene: &Scene, text: &str) -> Option<Check> {
    rules.iter().find_map(|(pattern, check)| fit(pattern, text).map(|holes| check(held, scene, &holes)))
}

/// The same thing said and found.
pub fn same<T: PartialEq + std::fmt::Debug>(said: T, found: T) -> Check {
    if said == found { Ok(()) } else { Err(format!("says {said:?}, and there is {found:?}")) }
}

pub fn holds(is: bool, why: impl Into<String>) -> Check {
    if is { Ok(()) } else { Err(why.into()) }
}

/// A count in figures or as a small word.
pub fn count(text: &str) -> u32 {
    const WORDS: [&str; 10] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    const SPANISH: [&str; 10] = ["ninguna", "una", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve"];
    let word = [WORDS, SPANISH].iter().find_map(|words| words.iter().position(|word| *word == text)).map(|k| k as u32);
    word.unwrap_or_else(|| text.replace(',', "").parse().unwrap_or_else(|_| panic!("no count: {text}")))
}

/// The things of a list: "a, b and c", "a, b y c", "a e iguales".
pub fn listed(text: &str) -> Vec<&str> {
    let joined = text.split(", ").flat_map(|part| part.split(" and ")).flat_map(|part| part.split(" y "));
    joined.flat_map(|part| part.split(" e ")).map(str::trim).collect()
}

/// The letters of a list: "A, B and C", "A to F".
pub fn letters(text: &str) -> Vec<String> {
    match text.split_once(" to ").or_else(|| text.split_once(" a ")) {
        Some((first, last)) => {
            let code = |letter: &str| letter.bytes().next().unwrap_or_else(|| panic!("no letter: {text}"));
            (code(first)..=code(last)).map(|code| char::from(code).to_string()).collect()
        }
        None => listed(text).into_iter().map(str::to_owned).collect(),
    }
}

/// The numbers of a list, thousands with a comma: "1,010, 400 and 6".
pub fn numbers(text: &str) -> Vec<u32> {
    listed(text).into_iter().map(count).collect()
}

pub fn pages(range: &str) -> BTreeSet<usize> {
    let ends: Vec<usize> =
        range.split('\u{2013}').map(|end| end.parse().unwrap_or_else(|_| panic!("no page: {range}"))).collect();
    (ends[0]..=ends[ends.len() - 1]).collect()
}

/// The pages of several ranges: "7–10 and 12", after "page " or "pages ".
pub fn all_pages(text: &str) -> BTreeSet<usize> {
    let ranges = ["pages ", "page ", "las p\u{e1}ginas ", "la p\u{e1}gina "]
        .iter()
        .fold(text, |text, lead| text.trim_start_matches(lead));
    listed(ranges).into_iter().flat_map(pages).collect()
}

/// The sheet that a text names, in the singular or the plural.
pub fn sheet(text: &str) -> SheetKind {
    named(text).unwrap_or_else(|| panic!("no sheet: {text}"))
}

pub fn named(text: &str) -> Option<SheetKind> {
    const NAMES: [(&str, SheetKind); 41] = [
        ("display page", SheetKind::Display),
        ("place-value mat", SheetKind::Mat),
        ("cut-out blocks", SheetKind::Blocks),
        ("blocks", SheetKind::Blocks),
        ("layered cards", SheetKind::Layered),
        ("recording sheet", SheetKind::Record),
        ("word bank", SheetKind::WordBank),
        ("sorting board", SheetKind::Board),
        ("page of strips", SheetKind::Strips),
        ("pages of strips", SheetKind::Strips),
        ("cut strips", SheetKind::Strips),
        ("strips", SheetKind::Strips),
        ("quick check", SheetKind::Exit),
        ("class tally", SheetKind::Tally),
        ("practice page", SheetKind::Practice),
        ("page for the family", SheetKind::Family),
        ("pages for the family", SheetKind::Family),
        ("small-groups page", SheetKind::SmallGroups),
        ("key", SheetKind::Key),
        ("l\u{e1}mina", SheetKind::Display),
        ("tapete", SheetKind::Mat),
        ("bloques", SheetKind::Blocks),
        ("tarjetas", SheetKind::Layered),
        ("hoja de registro", SheetKind::Record),
        ("hojas de registro", SheetKind::Record),
        ("banco de palabras", SheetKind::WordBank),
        ("bancos de palabras", SheetKind::WordBank),
        ("tablero", SheetKind::Board),
        ("p\u{e1}gina de tiras", SheetKind::Strips),
        ("tiras", SheetKind::Strips),
        ("control r\u{e1}pido", SheetKind::Exit),
        ("controles r\u{e1}pidos", SheetKind::Exit),
        ("lista de la clase", SheetKind::Tally),
        ("p\u{e1}gina de pr\u{e1}ctica", SheetKind::Practice),
        ("p\u{e1}ginas de pr\u{e1}ctica", SheetKind::Practice),
        ("p\u{e1}gina para la familia", SheetKind::Family),
        ("p\u{e1}ginas para la familia", SheetKind::Family),
        ("grupos peque\u{f1}os", SheetKind::SmallGroups),
        ("respuestas", SheetKind::Key),
        ("juego de tiras", SheetKind::Strips),
        ("juegos de tiras", SheetKind::Strips),
    ];
    // The school's own blocks are on no sheet.
    let text = text.to_lowercase();
    let own = ["blocks from the class tub", "bloques de la caja"];
    let text = own.iter().fold(text, |text, own| text.replace(own, ""));
    NAMES.iter().find(|(name, _)| text.contains(name)).map(|(_, kind)| *kind)
}
