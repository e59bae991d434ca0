//! What is said of trading in English.

use super::English;
use crate::number::{Counted, Form, Names, Number, Place, Slip, Style, Task, traded};
use crate::wording::Phrases;

impl English {
    /// How many of each place, without those that hold nothing: "1 hundred 16 tens 4 ones".
    pub(super) fn counts(&self, counted: &Counted) -> String {
        let held = Place::ALL.into_iter().zip(counted).rev().filter(|(_, count)| **count > 0);
        held.map(|(place, count)| self.units(*count, place)).collect::<Vec<_>>().join(" ")
    }

    /// The trades that lead from a number's digits there: "1 hundred for 10 tens".
    pub(super) fn trades(&self, number: Number, counted: &Counted) -> String {
        let gone = traded(number, counted);
        let trades = (1..gone.len()).rev().filter(|at| gone[*at] > 0);
        let trades = trades.map(|at| {
            let (gives, takes) = (Place::ALL[at], Place::ALL[at - 1]);
            format!("{} for {}", self.units(gone[at], gives), self.units(gone[at] * 10, takes))
        });
        self.list(&trades.collect::<Vec<_>>().iter().map(String::as_str).collect::<Vec<_>>())
    }

    /// What to ask about a trade that went wrong.
    pub(super) fn trade_question(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let counted = counted(number, task, style);
        let (gives, takes) = greatest(number, &counted);
        let one = self.unit(gives, 1);
        match slip {
            Slip::NotTakenAway => format!(
                "We have {} and trade {}. How many {} are left?",
                style.numeral(number),
                self.trades(number, &counted),
                self.place(gives)
            ),
            Slip::OneTooFew => format!("How many {} come for 1 {one}? Is the {one} still there?", self.place(takes)),
            _ => format!("How many {} come for 1 {one}?", self.place(takes)),
        }
    }

    /// The answer to expect.
    pub(super) fn trade_answer(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let counted = counted(number, task, style);
        let (gives, _) = greatest(number, &counted);
        let now = self.counts(&counted);
        match slip {
            Slip::NotTakenAway => {
                let left = counted[gives.index()];
                let left = if left == 0 { "None".to_owned() } else { left.to_string() };
                format!("{left}. Now we have {now}.")
            }
            Slip::OneForOne => format!("Ten. Now we have {now}."),
            Slip::OneTooFew => format!("Ten. No, it was traded. Now we have {now}."),
            _ => {
                let full = Place::ALL.into_iter().filter(|place| counted[place.index()] > 9).collect::<Vec<_>>();
                let trades = full.iter().filter_map(|place| {
                    let next = Place::ALL.get(place.index() + 1)?;
                    Some(format!("every ten {} for 1 {}", self.place(*place), self.unit(*next, 1)))
                });
                let trades: Vec<String> = trades.collect();
                let trades = self.list(&trades.iter().map(String::as_str).collect::<Vec<_>>());
                format!("{}: {trades}. Then it is {}.", self.capital(&self.columns(&full)), style.numeral(number))
            }
        }
    }
}

/// How many of each place a task shows or asks for, from the ones up.
fn counted(number: Number, task: Task, style: &Style) -> Counted {
    let pictured =
        matches!(task, Task::Forms { shown: Form::Untraded, .. } | Task::Forms { asked: Form::Untraded, .. });
    let counted = if pictured { style.trading.pictured(number) } else { style.trading.told(number) };
    counted.unwrap_or_default()
}

/// The greatest place that gives, and the one that takes.
fn greatest(number: Number, counted: &Counted) -> (Place, Place) {
    let gone = traded(number, counted);
    let at = (1..gone.len()).rev().find(|at| gone[*at] > 0).unwrap_or(1);
    (Place::ALL[at], Place::ALL[at - 1])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trades_are_told_in_order() {
        let number = Number::new(264).expect("in range");
        assert_eq!(English.trades(number, &[14, 15, 1, 0, 0, 0]), "1 hundred for 10 tens and 1 ten for 10 ones");
        assert_eq!(English.counts(&[4, 26, 0, 0, 0, 0]), "26 tens 4 ones");
    }
}
