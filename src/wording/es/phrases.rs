//! The smallest parts of Spanish sentences.

use super::Spanish;
use crate::measure::Count;
use crate::number::{Content, Names, Number, Place, Style};
use crate::spec::Version;
use crate::wording::digits::runs_on;
use crate::wording::phrases::uncapped;
use crate::wording::{Language, Phrases};

/// A noun with its count: "1 página", "3 páginas".
pub(super) fn counted(count: u32, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// The same of a count of things that are held in memory.
pub(super) fn many(count: usize, one: &str, several: &str) -> String {
    counted(count.narrow(), one, several)
}

/// "a, b y c" of owned texts.
pub(super) fn listed(items: &[String]) -> String {
    Spanish.list(&items.iter().map(String::as_str).collect::<Vec<_>>())
}

/// "A", "A, B y C", "A a F".
pub(super) fn lettered(versions: &[Version]) -> String {
    match runs_on(versions) {
        Some((first, last)) => format!("{first} a {last}"),
        None => listed(&versions.iter().map(ToString::to_string).collect::<Vec<_>>()),
    }
}

/// What a sentence quotes: words between the marks of the language, "«6 centenas 2 decenas»" too; figures and signs as they stand,
/// and pictures, which are told by their pieces and not quoted.
pub(super) fn quoted(text: &str) -> String {
    let pieces = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones].into_iter();
    let told = pieces.filter_map(|place| Spanish.piece(place, 1)).any(|piece| text.contains(piece));
    if text.contains(char::is_alphabetic) && !told { format!("\u{ab}{text}\u{bb}") } else { text.to_owned() }
}

/// What stands on a strip: figures too between marks, but not a picture that is told by its pieces.
pub(super) fn strip(text: &str) -> String {
    let pictured = quoted(text) == text && text.contains(char::is_alphabetic);
    if pictured { text.to_owned() } else { format!("\u{ab}{text}\u{bb}") }
}

/// The grade: "2.º grado", or what the file says of it.
pub(super) fn grade(grade: &str) -> String {
    match grade.parse::<u32>() {
        Ok(1 | 3) => format!("{grade}.er grado"),
        Ok(_) => format!("{grade}.\u{ba} grado"),
        Err(_) => format!("grado {grade}"),
    }
}

/// "y", and "e" before the sound of i; but "y" before "hie".
fn and(next: &str) -> &'static str {
    let next = next.trim_start_matches(['\u{ab}', '\u{201c}']).to_lowercase();
    let sounds = (next.starts_with('i') || next.starts_with('í') || next.starts_with("hi")) && !next.starts_with("hie");
    if sounds { "e" } else { "y" }
}

/// "o", and "u" before the sound of o: "u once", "u 8".
fn or(next: &str) -> &'static str {
    let next = next.trim_start_matches(['\u{ab}', '\u{201c}']).to_lowercase();
    let figures: String = next.chars().take_while(|c| !c.is_whitespace()).filter(char::is_ascii_digit).collect();
    // Eight, eighty and eight hundred begin with o, and so do eleven and eleven thousand.
    let spoken = figures.starts_with('8') || (figures.starts_with("11") && figures.len() % 3 == 2);
    if spoken || next.starts_with('o') || next.starts_with("ho") { "u" } else { "o" }
}

/// Whether a comma stands inside a numeral, and would be taken for one between two.
fn marked(item: &str) -> bool {
    let digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
    item.bytes().enumerate().any(|(k, byte)| {
        byte == b',' && k > 0 && digit(item.as_bytes().get(k - 1)) && digit(item.as_bytes().get(k + 1))
    })
}

fn joined(items: &[&str], word: fn(&str) -> &'static str) -> String {
    match items {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [head @ .., last] => {
            let apart = if items.iter().any(|item| marked(item)) { "; " } else { ", " };
            format!("{} {} {last}", head.join(apart), word(last))
        }
    }
}

impl Phrases for Spanish {
    fn list(&self, items: &[&str]) -> String {
        joined(items, and)
    }

    fn either(&self, items: &[&str]) -> String {
        joined(items, or)
    }

    fn small(&self, count: usize) -> String {
        match count {
            0 => "ninguna".to_owned(),
            1 => "una".to_owned(),
            2..=9 => super::numbers::below_thirty(count).to_owned(),
            _ => count.to_string(),
        }
    }

    fn capital(&self, text: &str) -> String {
        let mut letters = text.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }

    fn inside(&self, heading: &str) -> String {
        uncapped(heading)
    }

    fn a_number(&self, number: Number, style: &Style) -> String {
        format!("un {}", style.numeral(number))
    }

    fn units(&self, count: u32, place: Place) -> String {
        format!("{count} {}", self.unit(place, count))
    }

    fn pieces(&self, count: u32, place: Place) -> Option<String> {
        Some(format!("{count} {}", self.piece(place, count)?))
    }

    fn pieces_of(&self, number: Number) -> String {
        let count = |place| u32::from(number.digit(place));
        self.content(&Content::Blocks([Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones].map(count)))
    }

    fn learners(&self, count: u32) -> String {
        counted(count, "estudiante", "estudiantes")
    }

    fn content(&self, content: &Content) -> String {
        let Content::Blocks(counts) = content else { return content.text(self) };
        let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
        let shown = places.into_iter().zip(counts).filter(|(_, count)| **count > 0);
        let shown: Vec<String> = shown.filter_map(|(place, count)| self.pieces(*count, place)).collect();
        if shown.is_empty() { self.no_pieces().to_owned() } else { listed(&shown) }
    }

    fn language(&self, language: Language) -> &'static str {
        match language {
            Language::En => "inglés",
            Language::Es => "español",
            #[cfg(test)]
            Language::Marked => "inglés marcado",
        }
    }

    fn columns(&self, places: &[Place]) -> String {
        let each: Vec<String> = places.iter().map(|place| format!("de las {}", self.place(*place))).collect();
        let lead = if places.len() == 1 { "la columna" } else { "las columnas" };
        format!("{lead} {}", listed(&each))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The academy's rule on y/e and o/u (Nueva gramática de la lengua española, 31.2; from memory).
    #[test]
    fn conjunctions_change_before_their_own_sound() {
        assert_eq!(Spanish.list(&["a", "b", "c"]), "a, b y c");
        assert_eq!(Spanish.list(&["agua", "hierro"]), "agua y hierro");
        assert_eq!(Spanish.list(&["3,453", "6,761", "1,029"]), "3,453; 6,761 y 1,029");
        assert_eq!(Spanish.list(&["agua", "intrusas"]), "agua e intrusas");
        for (second, word) in
            [("8", "u"), ("80", "u"), ("811", "u"), ("11", "u"), ("110", "o"), ("111", "o"), ("7", "o")]
        {
            assert_eq!(Spanish.either(&["6", second]), format!("6 {word} {second}"));
        }
        assert_eq!(Spanish.either(&["6", "11\u{202f}500"]), "6 u 11\u{202f}500");
        assert_eq!(Spanish.either(&["unidades", "decenas"]), "unidades o decenas");
    }

    #[test]
    fn nouns_agree_with_their_counts() {
        let n = |value| Number::new(value).expect("in range");
        assert_eq!(Spanish.pieces_of(n(406)), "4 placas y 6 cubos");
        assert_eq!(Spanish.pieces_of(n(1_111)), "1 bloque de mil, 1 placa, 1 barra y 1 cubo");
        assert_eq!(Spanish.pieces_of(n(0)), "ningún bloque");
        assert_eq!(Spanish.units(1, Place::Tens), "1 decena");
        assert_eq!(Spanish.columns(&[Place::Tens]), "la columna de las decenas");
        assert_eq!(Spanish.columns(&[Place::Tens, Place::Ones]), "las columnas de las decenas y de las unidades");
    }
}
