//! How many of each place show a number: its digits, or more of a place after a trade.

use std::fmt;

use super::sheet::{counted, name, numeral};
use crate::diag::Problem;
use crate::diag::nearest::hint;
use crate::number::{Number, Place};

/// The most of one place that a picture shows.
const MOST: u32 = 99;

/// How many of each place, from the ones up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Amounts {
    number: Number,
    counts: [u32; 6],
}

impl Amounts {
    /// The digits of a number.
    pub fn of(number: Number) -> Self {
        Self { number, counts: Place::ALL.map(|place| u32::from(number.digit(place))) }
    }

    /// Reads a numeral, with or without commas, or how many of each place: `406`, `12,045`, `1 hundred 16 tens 4 ones`.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let text = text.trim();
        let plain = text.replace(',', "");
        if !plain.is_empty() && plain.bytes().all(|byte| byte.is_ascii_digit()) {
            let number = plain.parse().ok().and_then(Number::new);
            return number.map(Self::of).ok_or_else(|| {
                Problem::new(format!("{text} is too large")).hint("expected a number from 0 to 999,999")
            });
        }
        Self::units(&text.to_lowercase()).map_err(|problem| match problem.hint {
            Some(_) => problem,
            None => {
                problem.hint("expected a number such as 406, or how many of each place: \"1 hundred 16 tens 4 ones\"")
            }
        })
    }

    /// Reads how many of each place, in any order; what is not named is 0.
    fn units(text: &str) -> Result<Self, Problem> {
        let words: Vec<&str> = text.split([' ', ',']).filter(|word| !word.is_empty()).collect();
        let mut counts = [0; 6];
        let mut rest = words.as_slice();
        while let [count, after @ ..] = rest {
            let count = count.parse::<u32>().map_err(|_| Problem::new(format!("`{count}` is not a number")))?;
            let end =
                after.iter().position(|word| word.starts_with(|c: char| c.is_ascii_digit())).unwrap_or(after.len());
            let word = after[..end].join(" ");
            let place =
                Place::ALL.into_iter().find(|place| word == name(*place) || counted(1, *place) == format!("1 {word}"));
            let place = place.ok_or_else(|| {
                let problem = Problem::new(match word.as_str() {
                    "" => format!("{count} of which place?"),
                    word => format!("`{word}` is not a place"),
                });
                let names = Place::ALL.map(name);
                problem.hint(hint(
                    &word,
                    names.iter().copied(),
                    "expected ones, tens, hundreds and so on after each number",
                ))
            })?;
            if count > MOST {
                return Err(Problem::new(format!("{count} {} are too many to see", name(place)))
                    .hint(format!("expected at most {MOST} of a place")));
            }
            if std::mem::replace(&mut counts[place.index()], count) > 0 {
                return Err(
                    Problem::new(format!("the {} are given twice", name(place))).hint("expected each place once")
                );
            }
            rest = &after[end..];
        }
        let worth = Place::ALL.iter().zip(counts).map(|(place, count)| place.worth() * count).sum();
        let number = Number::new(worth).ok_or_else(|| {
            Problem::new(format!("`{text}` is more than 999,999")).hint("expected a number from 0 to 999,999")
        })?;
        if words.is_empty() {
            return Err(Problem::new("a number is missing"));
        }
        Ok(Self { number, counts })
    }

    /// One of a place traded for ten of the next smaller one.
    pub fn traded(mut self, place: Place) -> Result<Self, Problem> {
        let Some(below) = place.index().checked_sub(1) else {
            return Err(Problem::new("ones cannot be traded").hint("expected tens, hundreds or a larger place"));
        };
        let Some(left) = self.counts[place.index()].checked_sub(1) else {
            let problem = Problem::new(format!("{self} has no {} to trade", name(place)));
            return Err(problem.hint("expected a place that has one"));
        };
        self.counts[place.index()] = left;
        self.counts[below] += 10;
        Ok(self)
    }

    /// The number shown.
    pub fn number(&self) -> Number {
        self.number
    }

    /// How many of a place.
    pub fn count(&self, place: Place) -> u32 {
        self.counts[place.index()]
    }

    /// Whether other counts are shown than the digits.
    pub fn is_traded(&self) -> bool {
        *self != Self::of(self.number)
    }

    /// How many places are shown: those of the numeral, fewer where the greatest was traded away.
    pub fn places(&self) -> usize {
        self.counts.iter().rposition(|count| *count > 0).map_or(1, |last| last + 1)
    }
}

impl fmt::Display for Amounts {
    /// The numeral, or after a trade how many of each place: "1 hundred 16 tens 4 ones".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.is_traded() {
            return f.write_str(&numeral(self.number));
        }
        let places = Place::ALL[..self.places()].iter().rev();
        let parts: Vec<String> = places.map(|place| counted(self.count(*place), *place)).collect();
        f.write_str(&parts.join(" "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, want: &str, number: u32) {
        let amounts = Amounts::parse(text).unwrap_or_else(|problem| panic!("{text}: {problem}"));
        assert_eq!((amounts.to_string().as_str(), amounts.number().value()), (want, number));
    }

    #[test]
    fn numbers_and_counts_are_read() {
        case("406", "406", 406);
        case(" 12,045", "12,045", 12_045);
        case("0", "0", 0);
        case("1 hundred 16 tens 4 ones", "1 hundred 16 tens 4 ones", 264);
        case("26 tens, 4 ones", "26 tens 4 ones", 264);
        case("4 ones 2 Hundreds", "204", 204);
        case("1 ten thousand 3 ones", "10,003", 10_003);
        for bad in ["", "-3", "1000000", "4 hundrds", "4", "x"].into_iter().filter(|bad| *bad != "4") {
            assert!(Amounts::parse(bad).is_err_and(|problem| problem.hint.is_some()), "{bad}");
        }
        let twice = Amounts::parse("2 tens 3 tens").expect_err("twice");
        assert_eq!(twice.message, "the tens are given twice");
        let misspelt = Amounts::parse("4 hundrds").expect_err("misspelt").hint.expect("a hint");
        assert!(misspelt.starts_with("did you mean `hundreds`?"), "{misspelt}");
    }

    #[test]
    fn a_trade_keeps_the_number() {
        let number = Amounts::parse("264").expect("a number");
        let once = number.traded(Place::Hundreds).expect("a hundred");
        assert_eq!(once.to_string(), "1 hundred 16 tens 4 ones");
        let all = once.traded(Place::Hundreds).and_then(|once| once.traded(Place::Tens)).expect("another");
        assert_eq!((all.to_string().as_str(), all.number().value(), all.places()), ("25 tens 14 ones", 264, 2));
        assert!(all.traded(Place::Hundreds).is_err() && number.traded(Place::Ones).is_err());
        assert!(number.traded(Place::Thousands).is_err());
    }
}
