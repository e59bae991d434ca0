//! What is said of trading in English.

use super::English;
use super::phrases::listed;
use crate::number::{Counted, Names, Number, Place, Slip, Style, Task};
use crate::wording::Phrases;
use crate::wording::digits::{counted, counts, greatest_trade, over, trades};

impl English {
    /// The trades that lead from a number's digits there: "1 hundred for 10 tens".
    pub(super) fn trades(&self, number: Number, counted: &Counted) -> String {
        let trade = |[gives, takes]: [(u32, Place); 2]| {
            format!("{} for {}", self.units(gives.0, gives.1), self.units(takes.0, takes.1))
        };
        let trades: Vec<String> = trades(number, counted).into_iter().map(trade).collect();
        listed(&trades)
    }

    /// What to ask about a trade that went wrong.
    pub(super) fn trade_question(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let counted = counted(number, task, style);
        let (gives, takes) = greatest_trade(number, &counted);
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
        let (gives, _) = greatest_trade(number, &counted);
        let now = counts(self, &counted);
        let traded = || format!("We trade {} and have {now}.", self.trades(number, &counted));
        match slip {
            Slip::NotTakenAway => {
                let left = counted[gives.index()];
                let left = if left == 0 { "None".to_owned() } else { left.to_string() };
                format!("{left}. Now we have {now}.")
            }
            Slip::OneForOne => format!("Ten. {}", traded()),
            Slip::OneTooFew => format!("Ten. No, it was traded. {}", traded()),
            _ => {
                let over = over(&counted);
                let trades = over.iter().filter_map(|place| {
                    let next = Place::ALL.get(place.index() + 1)?;
                    Some(format!("every ten {} for 1 {}", self.place(*place), self.unit(*next, 1)))
                });
                let trades = listed(&trades.collect::<Vec<_>>());
                format!("{}: {trades}. Then it is {}.", self.capital(&self.columns(&over)), style.numeral(number))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trades_are_told_in_order() {
        let number = Number::new(264).expect("in range");
        assert_eq!(English.trades(number, &[14, 15, 1, 0, 0, 0]), "1 hundred for 10 tens and 1 ten for 10 ones");
        assert_eq!(counts(&English, &[4, 26, 0, 0, 0, 0]), "26 tens 4 ones");
    }
}
