//! What is said aloud, in English.

use super::{form_name, in_form, listed, rows, told_apart, worth};
use crate::number::{Form, Number, Place};
use crate::wording::en::English;
use crate::wording::plan::{Said, Speech};
use crate::wording::{FormTitles, Phrases, Usage};

impl Speech for English {
    #[allow(clippy::too_many_lines, reason = "one arm a text")]
    fn say(&self, said: &Said, usage: &Usage<'_>) -> String {
        let numeral = |n: Number| usage.style.numeral(n);
        match said {
            Said::SameDigitIdea => {
                "The same digit can be worth different amounts. It depends on its place. That is what we look for today."
                    .to_owned()
            }
            Said::TradeIdea { hundreds } => {
                let next = if *hundreds { " Ten tens make a hundred." } else { "" };
                format!(
                    "Ten ones make a ten.{next} We can trade, and the number stays the same. That is what we look for today."
                )
            }
            Said::PlaceIdea => {
                "Where a digit stands tells us what it is worth. That is what we look for today.".to_owned()
            }
            Said::PeriodIdea => "Large numbers come in periods of three digits: thousands, then ones. We read one \
                                 period, say its name, then read the next."
                .to_owned(),
            Said::WaysIdea => "Today we show one number in different ways.".to_owned(),
            Said::DigitsIdea => "Today we show what each digit in a number is worth.".to_owned(),
            Said::Repeats(n, digit) => {
                let worths: Vec<String> = n
                    .digits()
                    .filter(|(_, d)| d == digit)
                    .map(|(place, _)| worth(*n, place, usage))
                    .collect();
                format!(
                    "{} has {} {digit}s. From left to right they are worth {}.",
                    numeral(*n),
                    self.small(worths.len()),
                    listed(&worths)
                )
            }
            Said::Teen(n) => {
                let tail = Number::new(n.value() % 100).unwrap_or(*n);
                let (name, ones) =
                    (usage.style.words(tail), self.units(tail.digit(Place::Ones).into(), Place::Ones));
                if tail == *n {
                    format!("{} is 1 ten and {ones}.", self.capital(&name))
                } else {
                    format!("{} ends in {name}. That is 1 ten and {ones}.", numeral(*n))
                }
            }
            Said::HowManyOfWhat => "So a digit tells how many, and its place tells how many of what.".to_owned(),
            Said::Draw(n) => {
                draw(n.parts().map(|(place, _)| place).collect::<Vec<_>>().as_slice())
            }
            Said::DrawMarks(places) => draw(places),
            Said::BlocksWorth(places) => {
                let worth = |place: &Place| {
                    let piece = self.pieces(1, *place)?;
                    Some(format!("a {} is {}", piece.trim_start_matches("1 "), a_unit(*place)))
                };
                let all: Vec<String> = places.iter().filter_map(worth).collect();
                format!("{}.", self.capital(&listed(&all)))
            }
            Said::PicturesWorth(places) => {
                let worth = |place: &Place| {
                    let shape = match place {
                        Place::Ones => "a little square",
                        Place::Tens => "a bar",
                        Place::Hundreds => "a large square",
                        _ => "the largest shape",
                    };
                    format!("{shape} is {}", a_unit(*place))
                };
                let all: Vec<String> = places.iter().map(worth).collect();
                format!("In the pictures {}.", listed(&all))
            }
            Said::Scissors => "We sit down to cut. We cut only paper. We pass scissors closed, handles first.".to_owned(),
            Said::FindStrips(given, some) => {
                let (row, shows) = match some {
                    None => ("Each row of your board".to_owned(), "shows"),
                    Some(1) => (format!("Today you do {} of your board. It", rows(1)), "shows"),
                    Some(count) => (format!("Today you do {} of your board. Each", rows(*count)), "shows"),
                };
                let find = "Find the strips that show the same number.";
                format!("{row} {shows} {}. {find}", one(*given, usage))
            }
            Said::LayStrips => "Lay each strip in a box of its row.".to_owned(),
            Said::WriteBoxes { rows: some, draws } => {
                let which = some.map_or_else(|| "each row".to_owned(), |count| format!("{} only", rows(count)));
                let write = if *draws { "Write or draw" } else { "Write" };
                format!("Look at {which}. {write} the same number in the other boxes.")
            }
            Said::StripsInRows { sets } => format!(
                "Take one number{} on the board after another. Put all the strips that show it in one row.",
                if *sets { " of your set" } else { "" }
            ),
            Said::LetterStrips { sets } => format!(
                "Do not cut. Give each number{} on the board a letter. Write that letter on every strip that shows it.",
                if *sets { " of your set" } else { "" }
            ),
            Said::SomeShowNone => {
                "Some strips show none of these numbers. Put those aside, and find out what is wrong with them.".to_owned()
            }
            Said::WriteAgain(forms) => {
                let names: Vec<String> = forms.iter().map(|form| in_form(*form, usage)).collect();
                format!("Write each number again {}.", listed(&names))
            }
            Said::SomeFitNoRow { all: true } => {
                "Some strips fit no row. Put those aside, and find out what is wrong with them.".to_owned()
            }
            Said::SomeFitNoRow { all: false } => {
                "Some of you have strips that fit no row. Put those aside, and find out what is wrong with them."
                    .to_owned()
            }
            Said::SomeFitNoRowToday { none: true } => {
                "Put aside strips that fit none of these rows. Some belong to later rows, and some to no row at all."
                    .to_owned()
            }
            Said::SomeFitNoRowToday { none: false } => {
                "Put aside strips that fit none of these rows: they belong to later rows.".to_owned()
            }
            Said::QuestionsToday(1) => "Do question 1 only.".to_owned(),
            Said::QuestionsToday(count) => format!("Do questions 1 to {count} only."),
            Said::CheckRules { marks, writes } => match (marks, writes) {
                (true, false) => "Write your name. Work alone. Mark the answer that you think is right.".to_owned(),
                (false, _) => "Write your name. Work alone. Write your answers on the lines.".to_owned(),
                (true, true) => {
                    "Write your name. Work alone. Mark the right answer, or write it on the line.".to_owned()
                }
            },
            Said::CheckAloud { same } => {
                let paper = if *same { "Take the same paper, and draw a line below your work. " } else { "" };
                format!("{paper}Write your name. I ask, and you write the answers alone.")
            }
        }
    }
}

/// How to draw numbers by hand: only the marks that these places need.
fn draw(places: &[Place]) -> String {
    let mark = |place: Place| match place {
        Place::Ones => Some("a dot for each one"),
        Place::Tens => Some("a line for each ten"),
        Place::Hundreds => Some("a square for each hundred"),
        Place::Thousands => Some("a box for each thousand"),
        Place::TenThousands | Place::HundredThousands => None,
    };
    let needed: Vec<&str> = places.iter().filter_map(|place| mark(*place)).collect();
    if needed.is_empty() {
        return "Draw nothing at all, because 0 means none.".to_owned();
    }
    format!("Draw {}.", English.list(&needed))
}

/// What a row shows: "a numeral", or the class's own word for the form.
fn one(form: Form, usage: &Usage<'_>) -> String {
    if usage.names.get(form).is_some() {
        return form_name(form, usage);
    }
    told_apart(form, usage).map_or_else(|| English.form_one(form).to_owned(), |words| format!("a number as {words}"))
}

/// "a hundred", as a block's worth.
const fn a_unit(place: Place) -> &'static str {
    match place {
        Place::Ones => "a one",
        Place::Tens => "a ten",
        Place::Hundreds => "a hundred",
        Place::Thousands => "a thousand",
        Place::TenThousands => "a ten thousand",
        Place::HundredThousands => "a hundred thousand",
    }
}
