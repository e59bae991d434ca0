//! What numbers, places and blocks are called in Spanish.
//!
//! Numbers from 0 to 999,999 are spelled as Unicode CLDR spells them (`%spellout-numbering`), which are the academy's rules:
//! one word up to 30 and for each hundred, `y` only between tens and ones, `un` for one before `mil`, `cien` alone and
//! before `mil`, else `ciento`. There is no second way with a joiner.
//!
//! Places are feminine, as in the mathematics programmes of Mexico and Spain (unidades, decenas, centenas, unidades de
//! millar; from memory). Blocks are called as classrooms call them (common practice, no source): placa, barra, cubo.

use super::Spanish;
use crate::number::{Names, Place};
use crate::wording::{Breaks, Lookalikes};

/// The words for 0 to 29.
const SMALL: [&str; 30] = [
    "cero",
    "uno",
    "dos",
    "tres",
    "cuatro",
    "cinco",
    "seis",
    "siete",
    "ocho",
    "nueve",
    "diez",
    "once",
    "doce",
    "trece",
    "catorce",
    "quince",
    "dieciséis",
    "diecisiete",
    "dieciocho",
    "diecinueve",
    "veinte",
    "veintiuno",
    "veintidós",
    "veintitrés",
    "veinticuatro",
    "veinticinco",
    "veintiséis",
    "veintisiete",
    "veintiocho",
    "veintinueve",
];

/// The words for whole tens from 30.
const TENS: [&str; 7] = ["treinta", "cuarenta", "cincuenta", "sesenta", "setenta", "ochenta", "noventa"];

/// The words for whole hundreds before something else.
const HUNDREDS: [&str; 9] = [
    "ciento",
    "doscientos",
    "trescientos",
    "cuatrocientos",
    "quinientos",
    "seiscientos",
    "setecientos",
    "ochocientos",
    "novecientos",
];

/// The words for tens and ones, and for ones after tens; used by the word bank too.
pub(super) fn below_thirty(value: usize) -> &'static str {
    SMALL[value]
}

impl Names for Spanish {
    fn tag(&self) -> &'static str {
        "es"
    }

    fn cardinal(&self, value: u32, _joined: bool) -> String {
        let (thousands, rest) = (value / 1_000, value % 1_000);
        let mut words: Vec<String> = Vec::new();
        match thousands {
            0 => {}
            1 => words.push("mil".to_owned()),
            // Before "mil" one loses its ending: veintiún mil, treinta y un mil.
            _ => words.extend([shortened(&hundreds(thousands)), "mil".to_owned()]),
        }
        if rest > 0 || thousands == 0 {
            words.push(hundreds(rest));
        }
        words.join(" ")
    }

    fn place(&self, place: Place) -> &'static str {
        self.unit(place, 2)
    }

    fn unit(&self, place: Place, count: u32) -> &'static str {
        let (one, many) = match place {
            Place::Ones => ("unidad", "unidades"),
            Place::Tens => ("decena", "decenas"),
            Place::Hundreds => ("centena", "centenas"),
            Place::Thousands => ("unidad de millar", "unidades de millar"),
            Place::TenThousands => ("decena de millar", "decenas de millar"),
            Place::HundredThousands => ("centena de millar", "centenas de millar"),
        };
        if count == 1 { one } else { many }
    }

    fn piece(&self, place: Place, count: u32) -> Option<&'static str> {
        let (one, many) = match place {
            Place::Ones => ("cubo", "cubos"),
            Place::Tens => ("barra", "barras"),
            Place::Hundreds => ("placa", "placas"),
            Place::Thousands => ("bloque de mil", "bloques de mil"),
            Place::TenThousands | Place::HundredThousands => return None,
        };
        Some(if count == 1 { one } else { many })
    }

    fn no_pieces(&self) -> &'static str {
        "ningún bloque"
    }

    fn teens_turned(&self) -> bool {
        // Dieciséis says its ten first, and sounds like no whole ten.
        false
    }

    fn sounds_like(&self, two: u32) -> Option<u32> {
        // Sesenta and setenta differ in one sound, dieci- and veinti- share their ends.
        match (two / 10, two % 10) {
            (6, ones) => Some(70 + ones),
            (7, ones) => Some(60 + ones),
            (1, ones @ 6..=9) => Some(20 + ones),
            (2, ones @ 6..=9) => Some(10 + ones),
            _ => None,
        }
    }

    fn misspelt(&self, value: u32) -> Option<String> {
        // Cien stands alone or before mil; before anything else it is ciento.
        let words = self.cardinal(value, false);
        let wrong = if words.contains("ciento ") {
            let apart = |part: &str| if part == "ciento" { "cien".to_owned() } else { part.to_owned() };
            words.split(' ').map(apart).collect::<Vec<_>>().join(" ")
        } else if words == "cien" {
            "ciento".to_owned()
        } else {
            return None;
        };
        (wrong != words).then_some(wrong)
    }

    fn unspaced(&self) -> usize {
        // Four digits stand together (the academy, Ortografía 2010; from memory).
        4
    }

    fn plus(&self) -> &'static str {
        "más"
    }
}

impl Breaks for Spanish {
    fn holds_back(&self, word: &str) -> bool {
        word == "mil"
    }

    fn holds_on(&self, word: &str) -> bool {
        word == "y"
    }
}

impl Lookalikes for Spanish {
    // "Ten" would be one, of "tener"; no sentence says it.
    fn means_no_number(&self, _: &str) -> bool {
        false
    }
}

/// The words of 0 to 999.
fn hundreds(value: u32) -> String {
    let (hundreds, rest) = (value as usize / 100, value as usize % 100);
    let tens = || match rest {
        0..30 => SMALL[rest].to_owned(),
        _ if rest.is_multiple_of(10) => TENS[rest / 10 - 3].to_owned(),
        _ => format!("{} y {}", TENS[rest / 10 - 3], SMALL[rest % 10]),
    };
    match (hundreds, rest) {
        (0, _) => tens(),
        (1, 0) => "cien".to_owned(),
        (_, 0) => HUNDREDS[hundreds - 1].to_owned(),
        _ => format!("{} {}", HUNDREDS[hundreds - 1], tens()),
    }
}

/// Words that end in one, before a noun: veintiún, treinta y un.
fn shortened(words: &str) -> String {
    if let Some(stem) = words.strip_suffix("veintiuno") {
        return format!("{stem}veintiún");
    }
    words.strip_suffix("uno").map_or_else(|| words.to_owned(), |stem| format!("{stem}un"))
}
