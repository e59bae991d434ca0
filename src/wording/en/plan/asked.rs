//! Questions in English, each with its answer.

use super::went_wrong::seen;
use super::{empty, form_name, listed, once, worth};
use crate::number::{Content, Form, Names, Number, Place, Slip};
use crate::spec::Version;
use crate::wording::digits::{above, counts, first_difference, parts, steps};
use crate::wording::en::English;
use crate::wording::en::phrases::plural;
use crate::wording::en::steps::marks;
use crate::wording::plan::{Asked, Questions, Reply};
use crate::wording::{Phrases, Usage};

fn reply(question: impl Into<String>, expect: impl Into<String>) -> Reply {
    Reply { question: question.into(), expect: expect.into() }
}

impl Questions for English {
    fn went_wrong(&self, slip: Slip) -> &'static str {
        seen(slip)
    }

    #[allow(clippy::too_many_lines, reason = "one arm a text")]
    fn ask(&self, asked: &Asked, usage: &Usage<'_>) -> Reply {
        let numeral = |n: Number| usage.style.numeral(n);
        let spoken = |n: Number| usage.style.words(n);
        match asked {
            Asked::Read(n) => reply("How do we read this number?", format!("{}.", self.capital(&spoken(*n)))),
            Asked::Digits(n) => {
                let count = if n.len() == 1 {
                    "One. It tells us how many ones there are.".to_owned()
                } else {
                    format!("{}.", self.capital(&self.small(n.len())))
                };
                reply(format!("How many digits does {} have?", numeral(*n)), count)
            }
            Asked::Worth(n, place) => worth_of(*n, *place, usage),
            Asked::WhichPlace(n, place) => {
                let digit = Number::new(n.digit(*place).into()).unwrap_or(Number::MIN);
                let a_digit = self.a_number(digit, usage.style);
                reply(
                    format!("{} has {a_digit}. Which place is it in?", numeral(*n)),
                    format!("The {} place.", self.place(*place)),
                )
            }
            Asked::DigitAt(n, place) => reply(
                format!("Which digit of {} is in the {} place, and what is it worth?", numeral(*n), self.place(*place)),
                format!("{}. It is worth {}.", n.digit(*place), worth(*n, *place, usage)),
            ),
            Asked::ZeroTells(n) => zero_tells(*n, usage),
            Asked::WhyZero(n) => why_zero(*n, usage),
            Asked::Expanded(n) => reply(
                format!("How do we write {} in {}?", numeral(*n), form_name(Form::Expanded, usage)),
                format!("{}.", usage.style.expanded(*n)),
            ),
            Asked::OnePart(n) => reply(
                format!("How many parts does {} have in {}?", numeral(*n), form_name(Form::Expanded, usage)),
                format!("Only one: {}.", numeral(*n)),
            ),
            Asked::Words(n) => reply(
                format!("How do we write {} in {}?", numeral(*n), form_name(Form::Words, usage)),
                format!("{}.", self.capital(&spoken(*n))),
            ),
            Asked::Hyphen(n) => {
                let words = spoken(*n);
                let joined = words.split([' ', ',']).find_map(|word| word.split_once('-')).unwrap_or(("", ""));
                reply(
                    format!("Where does the hyphen go in the words for {}?", numeral(*n)),
                    format!("Between {} and {}: {}-{}.", joined.0, joined.1, joined.0, joined.1),
                )
            }
            Asked::Blocks(n) => {
                reply(format!("Which blocks show {}?", numeral(*n)), format!("{}.", self.capital(&self.pieces_of(*n))))
            }
            Asked::Units(n) => {
                let names: Vec<&str> = n.digits().map(|(place, _)| self.place(place)).collect();
                reply(
                    format!("How many {} do the digits of {} show?", self.list(&names), numeral(*n)),
                    format!("{}.", usage.style.units(*n)),
                )
            }
            Asked::Thousands(n) => {
                let thousands = Number::new(n.value() / 1_000).unwrap_or(Number::MIN);
                reply(
                    format!("What do we read first in {}, before we say thousand?", numeral(*n)),
                    format!("{}, so {}.", numeral(thousands), spoken(thousands)),
                )
            }
            Asked::Cards(n) => {
                let parts = parts(*n, usage.style);
                reply(format!("Which number do the cards {} make?", listed(&parts)), format!("{}.", numeral(*n)))
            }
            Asked::Twins(digit, (a, at), (b, bt), set) => reply(
                format!("{} the {digit} worth the same in {} and in {}?", led("is", *set), numeral(*a), numeral(*b)),
                format!(
                    "No. In {} it is worth {}. In {} it is worth {}.",
                    numeral(*a),
                    worth(*a, *at, usage),
                    numeral(*b),
                    worth(*b, *bt, usage)
                ),
            ),
            Asked::TellApart(a, b, set) => {
                let how = led("how", *set);
                reply(format!("{how} do you tell {} from {}?", numeral(*a), numeral(*b)), differ(*a, *b, usage))
            }
            Asked::Greater(a, b) => greater(*a, *b, usage),
            Asked::Belongs(n, forms, set) => {
                let which = led("which", *set);
                let shown: Vec<String> = forms.iter().filter_map(|form| shown(*form, *n, usage)).collect();
                reply(format!("{which} strips belong to {}?", numeral(*n)), format!("{}.", shown.join("; ")))
            }
            Asked::ZeroParts(n) => zero_parts(*n, usage),
            Asked::WentWrong(of, form, content, slip) => {
                let right = shown(*form, *of, usage).unwrap_or_default();
                reply(
                    format!(
                        "Someone laid the strip \u{201c}{}\u{201d} in the row of {}. What went wrong?",
                        text(content),
                        numeral(*of)
                    ),
                    format!("{}. It should be {right}.", self.went_wrong(*slip)),
                )
            }
            Asked::FirstRow(n, forms, set) => {
                let shown: Vec<String> = forms.iter().filter_map(|form| shown(*form, *n, usage)).collect();
                reply(
                    format!("{} belongs in the first row of your board?", led("what", *set)),
                    format!("{}.", self.capital(&shown.join("; "))),
                )
            }
            Asked::Ways(n, forms, set) => {
                let shown: Vec<String> = forms.iter().filter_map(|form| by_hand(*form, *n, usage)).collect();
                reply(
                    format!("{} else can we show {}?", led("how", *set), numeral(*n)),
                    format!("{}.", self.capital(&shown.join("; "))),
                )
            }
            Asked::Regrouped(n, counted) => reply(
                format!("We have {} and trade {}. What do we have now?", numeral(*n), self.trades(*n, counted)),
                format!("{}. It is still {}.", counts(self, counted), numeral(*n)),
            ),
            Asked::MoreLess(n, place) => {
                let [step, more, less] = steps(*n, *place).map(numeral);
                reply(
                    format!("What is {step} more than {}, and what is {step} less?", numeral(*n)),
                    format!("{more}, and {less}."),
                )
            }
            Asked::TenDigits => {
                reply("What do we call 0, 1, 2, 3 and so on up to 9?", "Digits. We write every number with them.")
            }
            Asked::Written(shown, n) => {
                reply(format!("How do we write {shown} in digits?"), format!("{}.", numeral(*n)))
            }
        }
    }
}

/// "How" at the start of a question, "Set A: how" after a set's letter.
fn led(word: &str, set: Option<Version>) -> String {
    set.map_or_else(|| English.capital(word), |set| format!("Set {set}: {word}"))
}

fn text(content: &Content) -> String {
    content.text(&English)
}

/// A form of a number as learners write it, or draw it where it is a picture.
fn by_hand(form: Form, number: Number, usage: &Usage<'_>) -> Option<String> {
    match form.content(number, usage.style)? {
        Content::Blocks(counts) => Some(marks(counts)),
        Content::Text(_) | Content::Both(_) => shown(form, number, usage),
    }
}

/// A form of a number as an answer says it.
fn shown(form: Form, number: Number, usage: &Usage<'_>) -> Option<String> {
    match form {
        Form::Blocks | Form::Untraded => form.content(number, usage.style).map(|content| English.content(&content)),
        Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Regrouped => {
            form.content(number, usage.style).map(|content| text(&content))
        }
    }
}

fn worth_of(n: Number, place: Place, usage: &Usage<'_>) -> Reply {
    let (digit, name, numeral) = (n.digit(place), English.place(place), usage.style.numeral(n));
    let worth = worth(n, place, usage);
    if once(n, digit) {
        reply(
            format!("What is the {digit} in {numeral} worth?"),
            format!("{worth}, because it is in the {name} place."),
        )
    } else {
        // Which of the two is meant is part of the question.
        reply(
            format!("What is the {digit} in the {name} place of {numeral} worth?"),
            format!("{worth}, because it stands for {}.", English.units(digit.into(), place)),
        )
    }
}

/// "the tens place", "the tens and ones places".
fn places(places: &[Place]) -> String {
    let words: Vec<&str> = places.iter().map(|place| English.place(*place)).collect();
    format!("the {} {}", English.list(&words), plural(places.len() as u32, "place"))
}

fn zero_tells(n: Number, usage: &Usage<'_>) -> Reply {
    let empty = empty(n);
    let one = empty.len() == 1;
    let (does, zeros, is) = if one { ("does", "0", "is") } else { ("do", "0s", "are") };
    reply(
        format!("What {does} the {zeros} in {} tell us?", usage.style.numeral(n)),
        format!("That {} {is} empty.", places(&empty)),
    )
}

fn why_zero(n: Number, usage: &Usage<'_>) -> Reply {
    let numeral = usage.style.numeral(n);
    let empty = empty(n);
    let kept: String = n.to_string().chars().filter(|c| *c != '0').collect();
    let Some(rest) = kept.parse().ok().and_then(Number::new) else {
        return reply(format!("Why do we write {numeral} at all?"), "It tells everyone that there are none.");
    };
    let rest = usage.style.numeral(rest);
    let (zeros, keeps, them) = if empty.len() == 1 { ("0", "It keeps", "it") } else { ("0s", "They keep", "them") };
    reply(
        format!("Why do we write the {zeros} in {numeral}?"),
        format!("{keeps} {}. Without {them} we would read {rest}.", places(&empty)),
    )
}

/// In which digit two numbers differ first, seen from the left.
fn differ(a: Number, b: Number, usage: &Usage<'_>) -> String {
    let Some(place) = first_difference(a, b) else { return String::new() };
    format!(
        "{}Look at the {} place. {} has {} there, and {} has {}.",
        alike(a, place),
        English.place(place),
        usage.style.numeral(a),
        a.digit(place),
        usage.style.numeral(b),
        b.digit(place)
    )
}

/// What is said where two numbers begin alike, as a sentence and a space: "The hundreds are the same. ".
fn alike(number: Number, differ: Place) -> String {
    match above(number, differ).as_slice() {
        [] => String::new(),
        [one] => format!("The {} are the same. ", English.place(*one)),
        _ => "The digits before are the same. ".to_owned(),
    }
}

fn greater(a: Number, b: Number, usage: &Usage<'_>) -> Reply {
    let (more, less) = if a > b { (a, b) } else { (b, a) };
    let question =
        format!("Which is greater, {} or {}? How do you know?", usage.style.numeral(a), usage.style.numeral(b));
    let expect = first_difference(a, b).map_or_else(String::new, |place| {
        format!(
            "{}. It has {}, and {} has {}. {}",
            usage.style.numeral(more),
            English.units(more.digit(place).into(), place),
            usage.style.numeral(less),
            less.digit(place),
            alike(a, place)
        )
    });
    // "It" is the number that is named first: what both have in common comes last.
    reply(question, expect.trim_end().to_owned())
}

fn zero_parts(n: Number, usage: &Usage<'_>) -> Reply {
    let (numeral, sum, empty) = (usage.style.numeral(n), usage.style.expanded(n), empty(n));
    let form = form_name(Form::Expanded, usage);
    if usage.style.zero_terms {
        let is = if empty.len() == 1 { "is" } else { "are" };
        return reply(
            format!("Why does {numeral} in {form} have a part that is 0?"),
            format!("Because {} {is} empty. We write {sum}.", places(&empty)),
        );
    }
    let words: Vec<&str> = empty.iter().map(|place| English.place(*place)).collect();
    reply(
        format!("Why does {numeral} in {form} have no part for the {}?", English.either(&words)),
        format!("A 0 adds nothing. So we write {sum}."),
    )
}
