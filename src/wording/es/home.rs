//! The page for home in Spanish.

use super::Spanish;
use super::phrases::listed;
use crate::number::{Content, Feature, Form, Names, Number, Place};
use crate::wording::home::{MOST_BEANS, cards};
use crate::wording::{FormTitles, HomeWords, Phrases, Usage};

/// "decenas", "decenas ni unidades", "centenas, decenas ni unidades".
fn neither(places: &[&str]) -> String {
    match places {
        [all @ .., last] if !all.is_empty() => format!("{} ni {last}", all.join(", ")),
        _ => places.concat(),
    }
}

impl HomeWords for Spanish {
    fn home_note(&self, can: &str) -> String {
        format!(
            "Su hijo o hija tuvo una clase sobre los números. Esta página es para ustedes. Ahora dice: «{}».",
            can.trim_end_matches('.')
        )
    }

    fn home_headings(&self) -> [&'static str; 4] {
        ["Lo que aprendimos", "Palabras que usamos", "Para probar en casa", "Pregúntenle a su hijo o hija"]
    }

    fn home_learned(&self, number: Number, place: Place, zero: Option<Number>, usage: &Usage<'_>) -> Vec<String> {
        let numeral = usage.style.numeral(number);
        let digit = u32::from(number.digit(place));
        let worth = Number::new(digit * place.worth()).map_or_else(String::new, |worth| usage.style.numeral(worth));
        let mut said = vec!["El lugar de una cifra dice cuánto vale.".to_owned()];
        if number.len() > 1 {
            let several = number.digits().filter(|(_, other)| u32::from(*other) == digit).count() > 1;
            let first = if several { "primer " } else { "" };
            said.push(format!("En {numeral} el {first}{digit} vale {}. Son {worth}.", self.units(digit, place)));
        }
        if let Some(zero) = zero {
            let places = Place::ALL.into_iter().rev().filter(|place| Feature::Zero(*place).is_in(zero));
            let none: Vec<&str> = places.map(|place| self.place(place)).collect();
            let (zeros, them) =
                if none.len() == 1 { ("El 0 significa", "lo") } else { ("Los ceros significan", "los") };
            let numeral = usage.style.numeral(zero);
            said.push(format!(
                "Miren {numeral}. {zeros} que no hay {} sueltas. Aun así, {them} escribimos.",
                neither(&none)
            ));
        }
        said
    }

    fn home_words(&self, forms: &[Form], number: Number, usage: &Usage<'_>) -> Vec<String> {
        let mut words = vec!["Cifra: uno de los signos del 0 al 9.".to_owned()];
        let greatest = usage.greatest;
        for form in forms {
            let Some(content) = form.content(number, usage.style) else { continue };
            let name = usage.names.get(*form).unwrap_or_else(|| self.form_heading(*form, greatest));
            words.push(match content {
                Content::Text(_) | Content::Both(_) if form.is_traded() => {
                    let held = self.regrouped_said(*form, number, usage.style).unwrap_or_default();
                    format!("{name}: {} también es {held}.", usage.style.numeral(number))
                }
                Content::Text(_) | Content::Both(_) => format!("{name}: {}.", content.text(usage.style.names)),
                Content::Blocks(_) if *form == Form::Untraded => {
                    format!(
                        "{name}: el mismo número con más de nueve bloques de un tipo; diez se cambian por uno mayor."
                    )
                }
                Content::Blocks(_) => format!("{name}: {}.", pieces_worth(greatest, usage)),
            });
        }
        words
    }

    fn home_tries(&self, number: Number, most: Number, trades: bool, usage: &Usage<'_>) -> [String; 3] {
        let greatest = most.greatest_place();
        let worths = Place::ALL.into_iter().take_while(|place| *place <= greatest);
        let worths = worths.filter_map(|place| Some(usage.style.numeral(Number::new(place.worth())?)));
        let worths: Vec<String> = worths.collect();
        let cards = cards(most);
        // Ten are left to trade for whatever was paid.
        let (each, trade) = if trades {
            ("veinte", " Luego cambien uno por diez del que sigue. El número no cambia.")
        } else {
            ("diez", "")
        };
        [
            if most.value() <= MOST_BEANS {
                "Tomen un puñado grande de frijoles secos. Calculen a ojo cuántos son. Luego hagan montones de diez y cuenten."
                .to_owned()
            } else {
                "Busquen números grandes en casa: en una caja, en un recibo, en un mapa. Léanlos en voz alta. Digan cuánto vale la \
                 primera cifra."
                    .to_owned()
            },
            format!(
                "Escriban {} en papelitos, {each} de cada uno. Úsenlos como monedas. Paguen {} con la menor cantidad de papelitos posible.{trade}",
                listed(&worths),
                usage.style.numeral(number)
            ),
            format!(
                "Hagan tarjetas del 1 al 9. Saquen {} tarjetas. Formen el número mayor que puedan. Luego, el menor. Lean los dos en voz alta.",
                self.small(cards)
            ),
        ]
    }

    fn home_caution(&self) -> &'static str {
        "Un niño pequeño se puede ahogar con cosas pequeñas como los frijoles. Guárdenlas lejos de menores de tres años."
    }

    fn home_join(&self, expanded: &str) -> String {
        format!("¿Qué número es {expanded}?")
    }

    fn home_answers(&self, answers: &[&str]) -> String {
        format!("Respuestas: {}.", answers.join("; "))
    }
}

/// "un cubo es 1": the pieces up to a place.
fn pieces_worth(greatest: Place, usage: &Usage<'_>) -> String {
    let worth = |place: Place| {
        let piece = Spanish.piece(place, 1)?;
        let article = if matches!(place, Place::Tens | Place::Hundreds) { "una" } else { "un" };
        Some(format!("{article} {piece} es {}", usage.style.numeral(Number::new(place.worth())?)))
    };
    listed(&Place::ALL.into_iter().take_while(|place| *place <= greatest).filter_map(worth).collect::<Vec<_>>())
}
