//! What is said of trading in Spanish: "canjear" (common practice, no source).

use super::Spanish;
use super::phrases::listed;
use crate::number::{Counted, Names, Number, Place, Slip, Style, Task};
use crate::wording::Phrases;
use crate::wording::digits::{counted, counts, greatest_trade, over, trades};

impl Spanish {
    /// The trades that lead from a number's digits there: "1 centena por 10 decenas".
    pub(super) fn trades(&self, number: Number, counted: &Counted) -> String {
        let trade = |[gives, takes]: [(u32, Place); 2]| {
            format!("{} por {}", self.units(gives.0, gives.1), self.units(takes.0, takes.1))
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
                "Tenemos {} y canjeamos {}. ¿Cuántas {} quedan?",
                style.numeral(number),
                self.trades(number, &counted),
                self.place(gives)
            ),
            Slip::OneTooFew => {
                format!("¿Cuántas {} recibimos por 1 {one}? ¿Sigue ahí esa {one}?", self.place(takes))
            }
            _ => format!("¿Cuántas {} recibimos por 1 {one}?", self.place(takes)),
        }
    }

    /// The answer to expect.
    pub(super) fn trade_answer(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let counted = counted(number, task, style);
        let (gives, _) = greatest_trade(number, &counted);
        let now = counts(self, &counted);
        let traded = || format!("Canjeamos {}; tenemos {now}.", self.trades(number, &counted));
        match slip {
            Slip::NotTakenAway => {
                let left = counted[gives.index()];
                let left = if left == 0 { "Ninguna".to_owned() } else { left.to_string() };
                format!("{left}. Ahora tenemos {now}.")
            }
            Slip::OneForOne => format!("Diez. {}", traded()),
            Slip::OneTooFew => format!("Diez. No, se canjeó. {}", traded()),
            _ => {
                let over = over(&counted);
                let trades = over.iter().filter_map(|place| {
                    let next = Place::ALL.get(place.index() + 1)?;
                    Some(format!("cada diez {} por 1 {}", self.place(*place), self.unit(*next, 1)))
                });
                let trades = listed(&trades.collect::<Vec<_>>());
                format!("{}: {trades}. Así queda {}.", self.capital(&self.columns(&over)), style.numeral(number))
            }
        }
    }
}
