//! The page for home in English.

use super::English;
use crate::number::{Content, Feature, Form, Names, Number, Place};
use crate::wording::home::{MOST_BEANS, cards};
use crate::wording::{FormTitles, HomeWords, Phrases, Usage};

impl HomeWords for English {
    fn home_note(&self, can: &str) -> String {
        format!("Your child had a lesson on numbers. This page is yours to keep. Now your child says: {can}")
    }

    fn home_headings(&self) -> [&'static str; 4] {
        ["What we learned", "Words we use", "Try this at home", "Ask your child"]
    }

    fn home_learned(&self, number: Number, place: Place, zero: Option<Number>, usage: &Usage<'_>) -> Vec<String> {
        let numeral = usage.style.numeral(number);
        let digit = u32::from(number.digit(place));
        let worth = Number::new(digit * place.worth()).map_or_else(String::new, |worth| usage.style.numeral(worth));
        let mut said = vec!["The place of a digit tells what it is worth.".to_owned()];
        if number.len() > 1 {
            let first =
                if number.digits().filter(|(_, other)| u32::from(*other) == digit).count() > 1 { "first " } else { "" };
            said.push(format!("In {numeral} the {first}{digit} means {}. That is {worth}.", self.units(digit, place)));
        }
        if let Some(zero) = zero {
            let places = Place::ALL.into_iter().rev().filter(|place| Feature::Zero(*place).is_in(zero));
            let none: Vec<String> = places.map(|place| format!("no {}", self.unit(place, 0))).collect();
            let none: Vec<&str> = none.iter().map(String::as_str).collect();
            let (zeros, them) = if none.len() == 1 { ("The 0 means", "it") } else { ("The zeros mean", "them") };
            let numeral = usage.style.numeral(zero);
            said.push(format!("Look at {numeral}. {zeros} {}. We still write {them} down.", self.list(&none)));
        }
        said
    }

    fn home_words(&self, forms: &[Form], number: Number, usage: &Usage<'_>) -> Vec<String> {
        let mut words = vec!["Digit: one of the signs 0 to 9.".to_owned()];
        let greatest = usage.greatest;
        for form in forms {
            let Some(content) = form.content(number, usage.style) else { continue };
            let own = usage.names.get(*form);
            let name = own.unwrap_or_else(|| self.form_heading(*form, greatest));
            words.push(match content {
                Content::Text(_) | Content::Both(_) if form.is_traded() => {
                    format!("{name}: {} is also {}.", usage.style.numeral(number), content.text(usage.style.names))
                }
                Content::Text(_) | Content::Both(_) => format!("{name}: {}.", content.text(usage.style.names)),
                Content::Blocks(_) if *form == Form::Untraded => {
                    format!(
                        "{name}: the same number with more than nine blocks of a kind; ten trade for one of the next."
                    )
                }
                Content::Blocks(_) => format!("{name}: {}.", pieces_worth(greatest, usage)),
            });
        }
        words
    }

    fn home_tries(&self, number: Number, most: Number, trades: bool, usage: &Usage<'_>) -> [String; 3] {
        let greatest = most.greatest_place();
        let worths: Vec<String> = Place::ALL
            .into_iter()
            .take_while(|place| *place <= greatest)
            .filter_map(|place| Some(usage.style.numeral(Number::new(place.worth())?)))
            .collect();
        let worths: Vec<&str> = worths.iter().map(String::as_str).collect();
        // Ten are left to trade for whatever was paid.
        let (each, trade) = if trades {
            ("twenty", " Trade one of them for ten of the next size down. You still have the same number.")
        } else {
            ("ten", "")
        };
        [
            if most.value() <= MOST_BEANS {
                "Take a big handful of dried beans. Guess how many. Then make piles of ten and count them.".to_owned()
            } else {
                "Look for big numbers at home: on a box, on a bill, on a map. Read each one out loud. Say what its first \
                 digit is worth."
                    .to_owned()
            },
            format!(
                "Write {} on small pieces of paper, {each} of each. Use them like coins. Pay {} with as few pieces as you can.{trade}",
                self.list(&worths),
                usage.style.numeral(number)
            ),
            format!(
                "Make cards from 1 to 9. Draw {} cards. Make the biggest number you can. Then make the smallest. Say both out loud.",
                self.small(cards(most))
            ),
        ]
    }

    fn home_caution(&self) -> &'static str {
        "Small things like beans can choke a small child. Keep them out of reach of children under three."
    }

    fn home_join(&self, expanded: &str) -> String {
        format!("Which number is {expanded}?")
    }

    fn home_answers(&self, answers: &[&str]) -> String {
        format!("Answers: {}.", answers.join("; "))
    }
}

/// "a cube is 1, a rod is 10": the pieces up to a place.
fn pieces_worth(greatest: Place, usage: &Usage<'_>) -> String {
    let worth = |place: Place| {
        let piece = English.piece(place, 1)?;
        Some(format!("a {piece} is {}", usage.style.numeral(Number::new(place.worth())?)))
    };
    let all: Vec<String> = Place::ALL.into_iter().take_while(|place| *place <= greatest).filter_map(worth).collect();
    English.list(&all.iter().map(String::as_str).collect::<Vec<_>>())
}
