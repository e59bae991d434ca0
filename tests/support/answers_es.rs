//! The answers of a Spanish plan, worked out again from the numeral alone: nothing here is the program's but the slips' words.

use placewright::number::Slip;
use placewright::spec::Language;

use super::answers::{digits, figures, parts, ten_to};

/// The places as sentences name them.
const PLACES: [&str; 6] =
    ["unidades", "decenas", "centenas", "unidades de millar", "decenas de millar", "centenas de millar"];
const ONE: [&str; 6] = ["unidad", "decena", "centena", "unidad de millar", "decena de millar", "centena de millar"];

/// The place that a text ends in.
fn place_at_end(text: &str) -> usize {
    let text = text.trim_end_matches(['.', '?', ',']);
    let ends = |k: &usize| text.ends_with(PLACES[*k]) || text.ends_with(ONE[*k]);
    (0..6).filter(ends).max_by_key(|k| PLACES[*k].len()).unwrap_or_else(|| panic!("no place: {text}"))
}

/// What counts of places are worth together: "3 centenas 14 unidades", "3 centenas y 14 unidades".
pub fn counted(text: &str) -> u32 {
    let mut sum = 0;
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let from = &rest[at..];
        let end = from.find(|c: char| !(c.is_ascii_digit() || c == ',' && from.len() > 1)).unwrap_or(from.len());
        let name = from[end..].trim_start();
        let next = name.find(|c: char| c.is_ascii_digit()).unwrap_or(name.len());
        let own = name[..next].trim_end_matches([' ', ',', '.', '?']).trim_end_matches(" y").trim_end_matches(" por");
        sum += figures(&from[..end])[0] * ten_to(place_at_end(own.trim_end_matches(['.', ' '])));
        rest = &name[next..];
    }
    sum
}

/// Blocks told in words are worth this: "4 placas y 6 cubos".
pub fn worth(told: &str) -> u32 {
    worth_as(told, [("bloque", 1_000), ("placa", 100), ("barra", 10), ("cubo", 1)])
}

/// What so many of these things are worth.
fn worth_as(told: &str, each: [(&str, u32); 4]) -> u32 {
    let words: Vec<&str> = told.split_whitespace().collect();
    let value = |pair: &[&str]| {
        let (_, worth) = each.iter().find(|(name, _)| pair[1].starts_with(name))?;
        Some(pair[0].parse::<u32>().ok()? * worth)
    };
    words.windows(2).filter_map(value).sum()
}

/// Spanish number words by the academy's rules (Ortografía de la lengua española, 2010, chapter VIII; from memory): one word to
/// thirty, then "y" between tens and ones only; "cien" alone and before "mil".
pub fn spelled(n: u32) -> String {
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
    const TENS: [&str; 7] = ["treinta", "cuarenta", "cincuenta", "sesenta", "setenta", "ochenta", "noventa"];
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
    match n {
        0..30 => SMALL[n as usize].to_owned(),
        30..100 if n.is_multiple_of(10) => TENS[n as usize / 10 - 3].to_owned(),
        30..100 => format!("{} y {}", TENS[n as usize / 10 - 3], SMALL[n as usize % 10]),
        100 => "cien".to_owned(),
        101..1_000 if n.is_multiple_of(100) => HUNDREDS[n as usize / 100 - 1].to_owned(),
        101..1_000 => format!("{} {}", HUNDREDS[n as usize / 100 - 1], spelled(n % 100)),
        _ => {
            // Before "mil" a last "uno" is shortened.
            let thousands = spelled(n / 1_000);
            let thousands = match thousands.strip_suffix("veintiuno") {
                Some(front) => format!("{front}veintiún mil"),
                None => {
                    format!("{} mil", thousands.strip_suffix('o').filter(|t| t.ends_with("un")).unwrap_or(&thousands))
                }
            };
            let head = if n / 1_000 == 1 { "mil".to_owned() } else { thousands };
            if n.is_multiple_of(1_000) { head } else { format!("{head} {}", spelled(n % 1_000)) }
        }
    }
}

/// The same at the start of a sentence.
fn begins_with(answer: &str, words: &str) -> bool {
    answer.to_lowercase().trim_start_matches('«').starts_with(words)
}

/// What is in a text's first « ».
fn inside(text: &str) -> &str {
    text.split_once('«').and_then(|(_, rest)| rest.split_once('»')).map_or("", |(inside, _)| inside)
}

/// Works the answer out again from the numerals of the question alone. `read` is the number that "este número" means.
pub fn check(question: &str, expect: &str, read: u32, zero_terms: bool) {
    let numbers = figures(question);
    // A question on one set's numbers begins with its letter, and goes on in small letters.
    let low = question.to_lowercase();
    let has = |words: &str| low.contains(&words.to_lowercase());
    let fail = || format!("{question} {expect}");
    match numbers[..] {
        [] if has("este número") => assert!(begins_with(expect, &format!("{}.", spelled(read))), "{}", fail()),
        [digit, a, b] if has("Vale lo mismo el") => {
            let one = |n: u32| -> u32 {
                let found: Vec<_> = digits(n).into_iter().filter(|(d, _)| *d == digit).collect();
                let [(_, place)] = found[..] else { panic!("{digit} in {n}") };
                digit * ten_to(place)
            };
            assert_ne!(one(a), one(b), "{}", fail());
            assert_eq!(figures(expect), [a, one(a), b, one(b)], "{}", fail());
        }
        [digit, n] if has("Cuánto vale el") && has(" de las ") => {
            let named =
                question.split_once(" de las ").and_then(|(_, rest)| rest.split_once(" en ")).expect("a place").0;
            let place = place_at_end(named);
            assert!(digits(n).contains(&(digit, place)), "{}", fail());
            assert_eq!(figures(expect)[0], digit * ten_to(place), "{}", fail());
        }
        [digit, n] if has("Cuánto vale el") => {
            let found: Vec<_> = digits(n).into_iter().filter(|(d, _)| *d == digit).collect();
            let [(_, place)] = found[..] else { panic!("which {digit} of {n}? {question}") };
            assert_eq!(figures(expect), [digit * ten_to(place)], "{}", fail());
            assert_eq!(place_at_end(expect), place, "{}", fail());
        }
        [n, digit] if has("¿En qué posición está?") => {
            let found: Vec<_> = digits(n).into_iter().filter(|(d, _)| *d == digit).collect();
            let [(_, place)] = found[..] else { panic!("which {digit} of {n}? {question}") };
            assert_eq!(expect, format!("En la de las {}.", PLACES[place]), "{}", fail());
        }
        [n] if has("y cuánto vale?") => {
            let named =
                question.split_once("está en las ").and_then(|(_, rest)| rest.split_once(',')).expect("a place").0;
            let place = place_at_end(named);
            let (digit, _) = digits(n).into_iter().find(|(_, at)| *at == place).expect("the place is there");
            assert_eq!(figures(expect), [digit, digit * ten_to(place)], "{}", fail());
        }
        [n] if has("Cuántas cifras tiene") => {
            let words = ["", "Una", "Dos", "Tres", "Cuatro", "Cinco", "Seis"];
            assert_eq!(expect, format!("{}.", words[n.to_string().len()]), "{}", fail());
        }
        [n] if has("Cómo escribimos") && has("en palabras") => {
            assert!(begins_with(expect, &format!("{}.", spelled(n))), "{}", fail());
        }
        [n] if has("Cómo escribimos") && !has("en cifras") => {
            let all: Vec<u32> = digits(n).iter().map(|(d, place)| d * ten_to(*place)).collect();
            assert_eq!(figures(expect), if zero_terms { all } else { parts(n) }, "{}", fail());
        }
        [n] if has("¿Qué bloques muestran") => assert_eq!(worth(expect), n, "{}", fail()),
        [n] if has(" dicen las cifras de ") => {
            let want: Vec<u32> = digits(n).iter().map(|(d, _)| *d).collect();
            assert_eq!((figures(expect), counted(expect)), (want, n), "{}", fail());
        }
        [n] if has("antes de decir «mil»") => {
            assert!(
                begins_with(expect, &spelled(n / 1_000).replace("uno", "ún"))
                    || begins_with(expect, &spelled(n / 1_000)),
                "{}",
                fail()
            );
        }
        [n, step, again] if has(" más ") && has("menos") => {
            assert!(step == again && step == ten_to(step.to_string().len() - 1), "{}", fail());
            assert_eq!(figures(expect), [n + step, n - step], "{}", fail());
        }
        [n] if has("no lleva parte para") => {
            let named = question.split_once("no lleva parte para ").expect("places").1;
            let named: Vec<&str> = named.trim_end_matches('?').split([',']).flat_map(|p| p.split(" ni ")).collect();
            for (digit, place) in digits(n) {
                let says = named
                    .iter()
                    .any(|p| p.trim().trim_start_matches("para ").trim_start_matches("las ") == PLACES[place]);
                assert_eq!(says, digit == 0, "{}", fail());
            }
            assert_eq!(figures(expect)[1..], parts(n), "{}", fail());
        }
        [_, n] | [n] if has("nos dice el 0 de") || has("nos dicen los ceros de") => {
            assert!(expect.starts_with("Que "), "{}", fail());
            for (_, place) in digits(n).iter().filter(|(d, _)| *d == 0) {
                assert!(expect.contains(PLACES[*place]), "{}", fail());
            }
        }
        [_, n] | [n] if has("Por qué escribimos el 0") || has("Por qué escribimos los ceros") => {
            let rest: u32 = n.to_string().replace('0', "").parse().expect("digits are left");
            assert_eq!(figures(expect), [rest], "{}", fail());
        }
        [a, b] if has("¿Cuál es mayor") => {
            let (more, less) = (a.max(b), a.min(b));
            let at = (0..6).rev().find(|k| a / ten_to(*k) % 10 != b / ten_to(*k) % 10).expect("they differ");
            assert_eq!(
                figures(expect),
                [more, more, more / ten_to(at) % 10, less, less / ten_to(at) % 10],
                "{}",
                fail()
            );
            let named = expect.split_once("En las ").and_then(|(_, rest)| rest.split_once(',')).expect("a place").0;
            assert_eq!(place_at_end(named), at, "{}", fail());
        }
        [a, b] if has("cómo distinguimos") || has("Cómo distinguimos") => {
            let named =
                expect.split_once("Miramos las ").and_then(|(_, rest)| rest.split_once(". ")).expect("a place").0;
            let place = place_at_end(named);
            assert_eq!(figures(expect), [a, a / ten_to(place) % 10, b, b / ten_to(place) % 10], "{}", fail());
            assert!((place + 1..6).all(|k| a / ten_to(k) % 10 == b / ten_to(k) % 10), "{}", fail());
        }
        ref cards if has("Qué número forman las tarjetas") => {
            let n = cards.iter().sum();
            assert_eq!((figures(expect), cards.to_vec()), (vec![n], parts(n)), "{}", fail());
        }
        [n] if has("qué tiras le tocan") || has("Qué tiras le tocan") => assert!(
            expect.to_lowercase().contains(&spelled(n)) || figures(expect).iter().sum::<u32>() >= n,
            "{}",
            fail()
        ),
        [n] if has("de qué otras formas mostramos") => {
            for part in expect.trim_end_matches('.').split("; ") {
                let sum: u32 = figures(part).iter().sum();
                let told = part.trim_matches(['«', '»']).to_lowercase();
                let is = spelled(n) == told
                    || sum == n
                    // Who writes draws: no piece has a name.
                    || worth_as(part, [("caja", 1_000), ("cuadrado", 100), ("raya", 10), ("punto", 1)]) == n
                    || sum > 0 && counted(part) == n;
                assert!(is && worth(part) == 0, "{part}: {}", fail());
            }
        }
        _ if has("¿Qué pasó?") => {
            // What a child says of a slip, of one who made it; then the right form of the row's number.
            let said = |slip: &Slip| format!("{}. Debe ser ", placewright::wording::of(Language::Es).went_wrong(*slip));
            let slip = Slip::all().find(|slip| expect.starts_with(&said(slip)));
            assert!(slip.is_some(), "{}", fail());
            let (of, right) = (*numbers.last().expect("a row"), expect.split_once("Debe ser ").expect("a form").1);
            let right = right.trim_end_matches('.');
            let words = inside(right);
            let is = spelled(of) == words
                || figures(right).iter().sum::<u32>() == of
                || !words.is_empty() && !figures(words).is_empty() && counted(words) == of;
            assert!(is, "{}", fail());
        }
        [n, traded, got] if has("¿Qué tenemos ahora?") => {
            let trade =
                question.split_once("canjeamos ").and_then(|(_, rest)| rest.split_once(" por ")).expect("a trade");
            assert_eq!(counted(trade.0), counted(trade.1.split_once('.').expect("units").0), "{}", fail());
            assert!(got == traded * 10, "{}", fail());
            let (now, still) = expect.split_once(". Sigue siendo ").expect("both");
            assert_eq!((counted(now), figures(still)), (n, vec![n]), "{}", fail());
        }
        _ if has("Cómo llamamos a 0") => assert!(expect.starts_with("Cifras"), "{}", fail()),
        _ if has("Cómo escribimos en cifras") => {
            let n = figures(expect)[0];
            let told = inside(question);
            let sum: u32 = figures(question).iter().sum();
            let is = spelled(n) == told || n == sum || !figures(told).is_empty() && counted(told) == n;
            assert!(is, "{}", fail());
        }
        _ => panic!("nobody works this out again: {}", fail()),
    }
}

#[test]
fn numbers_are_spelled_as_the_academy_spells_them() {
    let known = [
        (16, "dieciséis"),
        (21, "veintiuno"),
        (31, "treinta y uno"),
        (100, "cien"),
        (101, "ciento uno"),
        (500, "quinientos"),
        (1_000, "mil"),
        (21_000, "veintiún mil"),
        (31_001, "treinta y un mil uno"),
        (100_100, "cien mil cien"),
        (700_909, "setecientos mil novecientos nueve"),
        (201_031, "doscientos un mil treinta y uno"),
    ];
    for (n, words) in known {
        assert_eq!(spelled(n), words);
    }
    assert_eq!(counted("5 centenas 24 decenas 14 unidades"), 754);
    assert_eq!(counted("2 decenas y 13 unidades"), 33);
    assert_eq!(counted("3 unidades de millar 2 decenas de millar"), 23_000);
    assert_eq!(worth("5 bloques de mil, 1 barra y 9 cubos, cada cosa en su columna."), 5_019);
}
