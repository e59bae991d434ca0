//! Questions in Spanish, each with its answer.

use super::went_wrong::seen;
use super::{in_form, listed, worth};
use crate::number::{Content, Form, Names, Number, Place, Slip};
use crate::spec::Version;
use crate::wording::digits::{above, empty, first_difference, held, once, parts, steps, without_zeros};
use crate::wording::es::Spanish;
use crate::wording::es::phrases::quoted;
use crate::wording::es::steps::marks;
use crate::wording::plan::{Asked, Questions, Reply};
use crate::wording::{Phrases, Usage};

fn reply(question: impl Into<String>, expect: impl Into<String>) -> Reply {
    Reply { question: question.into(), expect: expect.into() }
}

impl Questions for Spanish {
    fn went_wrong(&self, slip: Slip) -> &'static str {
        seen(slip)
    }

    #[allow(clippy::too_many_lines, reason = "one arm a text")]
    fn ask(&self, asked: &Asked, usage: &Usage<'_>) -> Reply {
        let numeral = |n: Number| usage.style.numeral(n);
        let spoken = |n: Number| usage.style.words(n);
        match asked {
            Asked::Read(n) => reply("¿Cómo leemos este número?", format!("{}.", self.capital(&spoken(*n)))),
            Asked::Digits(n) => {
                let count = if n.len() == 1 {
                    "Una. Nos dice cuántas unidades hay.".to_owned()
                } else {
                    format!("{}.", self.capital(&self.small(n.len())))
                };
                reply(format!("¿Cuántas cifras tiene {}?", numeral(*n)), count)
            }
            Asked::Worth(n, place) => worth_of(*n, *place, usage),
            Asked::WhichPlace(n, place) => reply(
                format!("{} tiene un {}. ¿En qué posición está?", numeral(*n), n.digit(*place)),
                format!("En la de las {}.", self.place(*place)),
            ),
            Asked::DigitAt(n, place) => reply(
                format!("¿Qué cifra de {} está en las {}, y cuánto vale?", numeral(*n), self.place(*place)),
                format!("El {}. Vale {}.", n.digit(*place), worth(*n, *place, usage)),
            ),
            Asked::ZeroTells(n) => zero_tells(*n, usage),
            Asked::WhyZero(n) => why_zero(*n, usage),
            Asked::Expanded(n) => reply(
                format!("¿Cómo escribimos {} {}?", numeral(*n), in_form(Form::Expanded, usage)),
                format!("{}.", usage.style.expanded(*n)),
            ),
            Asked::OnePart(n) => reply(
                format!("¿Cuántas partes tiene {} {}?", numeral(*n), in_form(Form::Expanded, usage)),
                format!("Solo una: {}.", numeral(*n)),
            ),
            Asked::Words(n) => reply(
                format!("¿Cómo escribimos {} {}?", numeral(*n), in_form(Form::Words, usage)),
                format!("{}.", self.capital(&spoken(*n))),
            ),
            Asked::Hyphen(n) => joined(*n, usage),
            Asked::Blocks(n) => reply(
                format!("¿Qué bloques muestran {}?", numeral(*n)),
                format!("{}.", self.capital(&self.pieces_of(*n))),
            ),
            Asked::Units(n) => {
                let names: Vec<&str> = n.digits().map(|(place, _)| self.place(place)).collect();
                reply(
                    format!("¿Cuántas {} dicen las cifras de {}?", self.list(&names), numeral(*n)),
                    format!("{}.", units_said(*n)),
                )
            }
            Asked::FirstRow(n, forms, set) => {
                let shown: Vec<String> = forms.iter().filter_map(|form| shown(*form, *n, usage)).collect();
                reply(
                    led("¿qué va en la primera fila del tablero?", *set),
                    format!("{}.", self.capital(&shown.join("; "))),
                )
            }
            Asked::Ways(n, forms, set) => {
                let shown: Vec<String> = forms.iter().filter_map(|form| by_hand(*form, *n, usage)).collect();
                reply(
                    led(&format!("¿de qué otras formas mostramos {}?", numeral(*n)), *set),
                    format!("{}.", self.capital(&shown.join("; "))),
                )
            }
            Asked::Regrouped(n, counted) => reply(
                format!("Tenemos {} y canjeamos {}. ¿Qué tenemos ahora?", numeral(*n), self.trades(*n, counted)),
                format!("{}. Sigue siendo {}.", listed(&held(self, counted)), numeral(*n)),
            ),
            Asked::Thousands(n) => {
                let thousands = Number::new(n.value() / 1_000).unwrap_or(Number::MIN);
                let words = self.cardinal(thousands.value() * 1_000, false);
                reply(
                    format!("¿Qué leemos primero en {}, antes de decir «mil»?", numeral(*n)),
                    format!("{}; después decimos «mil»: {words}.", numeral(thousands)),
                )
            }
            Asked::Cards(n) => {
                let parts = parts(*n, usage.style);
                reply(format!("¿Qué número forman las tarjetas {}?", listed(&parts)), format!("{}.", numeral(*n)))
            }
            Asked::Twins(digit, (a, at), (b, bt), set) => reply(
                led(&format!("¿vale lo mismo el {digit} en {} y en {}?", numeral(*a), numeral(*b)), *set),
                format!(
                    "No. En {} vale {}. En {} vale {}.",
                    numeral(*a),
                    worth(*a, *at, usage),
                    numeral(*b),
                    worth(*b, *bt, usage)
                ),
            ),
            Asked::TellApart(a, b, set) => reply(
                led(&format!("¿cómo distinguimos {} de {}?", numeral(*a), numeral(*b)), *set),
                differ(*a, *b, usage),
            ),
            Asked::Greater(a, b) => greater(*a, *b, usage),
            Asked::Belongs(n, forms, set) => {
                let shown: Vec<String> = forms.iter().filter_map(|form| shown(*form, *n, usage)).collect();
                reply(
                    led(&format!("¿qué tiras le tocan a {}?", numeral(*n)), *set),
                    format!("{}.", self.capital(&shown.join("; "))),
                )
            }
            Asked::ZeroParts(n) => zero_parts(*n, usage),
            Asked::WentWrong(of, form, content, slip) => {
                let right = form.content(*of, usage.style).map(|content| text(&content)).unwrap_or_default();
                reply(
                    format!("Alguien puso la tira «{}» en la fila de {}. ¿Qué pasó?", text(content), numeral(*of)),
                    format!("{}. Debe ser {}.", self.went_wrong(*slip), quoted(&right)),
                )
            }
            Asked::MoreLess(n, place) => {
                let [step, more, less] = steps(*n, *place).map(numeral);
                reply(format!("¿Cuánto es {} más {step}? ¿Y menos {step}?", numeral(*n)), format!("{more} y {less}."))
            }
            Asked::TenDigits => {
                reply("¿Cómo llamamos a 0, 1, 2, 3 y así hasta 9?", "Cifras. Con ellas escribimos todos los números.")
            }
            Asked::Written(shown, n) => {
                reply(format!("¿Cómo escribimos en cifras {}?", quoted(shown)), format!("{}.", numeral(*n)))
            }
        }
    }
}

/// A question that begins a sentence, or follows a set's letter.
fn led(question: &str, set: Option<Version>) -> String {
    match set {
        Some(set) => format!("Juego {set}: {question}"),
        None => question.replacen(
            |c: char| c.is_lowercase(),
            &question.chars().find(|c| c.is_lowercase()).map(|c| c.to_uppercase().to_string()).unwrap_or_default(),
            1,
        ),
    }
}

/// How tens and ones are joined in words: in one word up to 29, with "y" from 31.
fn joined(n: Number, usage: &Usage<'_>) -> Reply {
    let tail = n.value() % 100;
    let words = Spanish.cardinal(tail, false);
    let numeral = usage.style.numeral(n);
    match words.split_once(" y ") {
        Some((tens, ones)) => {
            reply(format!("¿Dónde va la «y» en las palabras de {numeral}?"), format!("Entre {tens} y {ones}: {words}."))
        }
        None => {
            reply(format!("¿En cuántas palabras escribimos el {tail} de {numeral}?"), format!("En una sola: {words}."))
        }
    }
}

fn text(content: &Content) -> String {
    content.text(&Spanish)
}

/// A form of a number as learners write it, or draw it where it is a picture.
fn by_hand(form: Form, number: Number, usage: &Usage<'_>) -> Option<String> {
    match form.content(number, usage.style)? {
        Content::Blocks(counts) => Some(marks(counts)),
        Content::Text(_) | Content::Both(_) => shown(form, number, usage),
    }
}

/// A form of a number as an answer says it: what stands without commas on a strip has them here.
fn shown(form: Form, number: Number, usage: &Usage<'_>) -> Option<String> {
    match form {
        Form::Blocks => Some(Spanish.pieces_of(number)),
        Form::Units => Some(units_said(number)),
        Form::Regrouped => Spanish.regrouped_said(form, number, usage.style),
        Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Untraded => {
            form.content(number, usage.style).map(|content| text(&content))
        }
    }
}

/// "1 centena, 0 decenas y 1 unidad".
fn units_said(number: Number) -> String {
    listed(&number.digits().map(|(place, digit)| Spanish.units(digit.into(), place)).collect::<Vec<_>>())
}

fn worth_of(n: Number, place: Place, usage: &Usage<'_>) -> Reply {
    let (digit, name, numeral) = (n.digit(place), Spanish.place(place), usage.style.numeral(n));
    let worth = worth(n, place, usage);
    if once(n, digit) {
        reply(
            format!("¿Cuánto vale el {digit} en {numeral}?"),
            format!("{worth}, porque está en la posición de las {name}."),
        )
    } else {
        // Which of the two is meant is part of the question.
        reply(
            format!("¿Cuánto vale el {digit} de las {name} en {numeral}?"),
            format!("{worth}, porque representa {}.", Spanish.units(digit.into(), place)),
        )
    }
}

/// "la posición de las decenas", "las posiciones de las decenas y de las unidades".
fn places(places: &[Place]) -> String {
    let each: Vec<String> = places.iter().map(|place| format!("de las {}", Spanish.place(*place))).collect();
    let lead = if places.len() == 1 { "la posición" } else { "las posiciones" };
    format!("{lead} {}", listed(&each))
}

fn zero_tells(n: Number, usage: &Usage<'_>) -> Reply {
    let empty = empty(n);
    let one = empty.len() == 1;
    let (tells, are) = if one { ("dice el 0", "está vacía") } else { ("dicen los ceros", "están vacías") };
    reply(format!("¿Qué nos {tells} de {}?", usage.style.numeral(n)), format!("Que {} {are}.", places(&empty)))
}

fn why_zero(n: Number, usage: &Usage<'_>) -> Reply {
    let numeral = usage.style.numeral(n);
    let Some(rest) = without_zeros(n) else {
        return reply(format!("¿Para qué escribimos {numeral}?"), "Dice a todos que no hay ninguno.");
    };
    let rest = usage.style.numeral(rest);
    let empty = empty(n);
    let (zeros, keeps, them) =
        if empty.len() == 1 { ("el 0", "Guarda", "él") } else { ("los ceros", "Guardan", "ellos") };
    reply(
        format!("¿Por qué escribimos {zeros} en {numeral}?"),
        format!("{keeps} {}. Sin {them} leeríamos {rest}.", places(&empty)),
    )
}

/// In which digit two numbers differ first, seen from the left.
fn differ(a: Number, b: Number, usage: &Usage<'_>) -> String {
    let Some(place) = first_difference(a, b) else { return String::new() };
    format!(
        "{}Miramos las {}. Ahí {} tiene un {}, y {} tiene un {}.",
        alike(a, place),
        Spanish.place(place),
        usage.style.numeral(a),
        a.digit(place),
        usage.style.numeral(b),
        b.digit(place)
    )
}

/// What is said first where two numbers begin alike, as a sentence and a space: "Las centenas son iguales. ".
fn alike(number: Number, differ: Place) -> String {
    match above(number, differ).as_slice() {
        [] => String::new(),
        [one] => format!("Las {} son iguales. ", Spanish.place(*one)),
        _ => "Las cifras anteriores son iguales. ".to_owned(),
    }
}

fn greater(a: Number, b: Number, usage: &Usage<'_>) -> Reply {
    let [more, less] = [a.max(b), a.min(b)].map(|number| usage.style.numeral(number));
    let (one, other) = (usage.style.numeral(a), usage.style.numeral(b));
    let question = format!("¿Cuál es mayor, {}? ¿Cómo lo sabemos?", Spanish.either(&[&one, &other]));
    let expect = first_difference(a, b).map_or_else(String::new, |place| {
        format!(
            "{more}. {}En las {}, {more} tiene un {}, y {less}, un {}.",
            alike(a, place),
            Spanish.place(place),
            a.max(b).digit(place),
            a.min(b).digit(place)
        )
    });
    reply(question, expect)
}

fn zero_parts(n: Number, usage: &Usage<'_>) -> Reply {
    let (numeral, sum, empty) = (usage.style.numeral(n), usage.style.expanded(n), empty(n));
    let form = in_form(Form::Expanded, usage);
    if usage.style.zero_terms {
        let are = if empty.len() == 1 { "está vacía" } else { "están vacías" };
        return reply(
            format!("¿Por qué {numeral} {form} lleva una parte que es 0?"),
            format!("Porque {} {are}. Escribimos {sum}.", places(&empty)),
        );
    }
    let words: Vec<String> = empty.iter().map(|place| format!("las {}", Spanish.place(*place))).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    reply(
        format!("¿Por qué {numeral} {form} no lleva parte para {}?", Spanish.either(&words)),
        format!("Un 0 no suma nada. Por eso escribimos {sum}."),
    )
}
